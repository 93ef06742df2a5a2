"""Jobs from files and from forms: what they may name, and what is said when they name something else."""

from pathlib import Path
from typing import Any

import pytest

from catalog import Catalog, CatalogProblems, EntryNotAccepted, job_from_fields, read_catalog, read_job
from tests.catalog.samples import EXAMPLE_FRAME, EXAMPLE_JOB


@pytest.fixture(scope="module")
def catalog() -> Catalog:
    return read_catalog([EXAMPLE_FRAME])


FIELDS: dict[str, Any] = {
    "id": "swap",
    "frame": "larkmoor-140",
    "from": "bar-right",
    "to": "caliper-rear",
    "old": {"brake": "orrin-2"},
    "new": {"brake": "calder-4"},
}

FAULTS: dict[str, tuple[dict[str, Any], str]] = {
    "unknown frame": (
        {"frame": "larkmoor-150"},
        "job swap > frame: there is no frame larkmoor-150, did you mean larkmoor-140?",
    ),
    "unknown anchor": (
        {"from": "bar-rigt"},
        "job swap > from: there is no anchor bar-rigt, did you mean bar-right or bar-left?",
    ),
    "a port for an anchor": (
        {"to": "stay-rear"},
        "job swap > to: stay-rear is a port, an anchor is wanted; known here: bar-left, bar-right, caliper-rear",
    ),
    "from is to": ({"to": "bar-right"}, "job swap > to: bar-right is also where it starts, another anchor than from"),
    "unknown brake": (
        {"new": {"brake": "calder-5"}},
        "job swap > new brake: there is no brake calder-5, did you mean calder-4?",
    ),
    "unknown line": (
        {"new": {"line": "hose-5"}},
        "job swap > new line: there is no line hose-5, did you mean hose-55 or hose-50?",
    ),
    "neither brake nor line": (
        {"old": {}},
        "job swap > old: neither brake nor line was given, one of {brake: id} and {line: id}, or old: none",
    ),
    "brake and line": (
        {"new": {"brake": "calder-4", "line": "hose-50"}},
        "job swap > new: both brake and line were given, one of {brake: id} and {line: id}",
    ),
    "a length that nobody told, said to be measured": (
        {"old": {"brake": "orrin-2", "measured": "between_fittings"}},
        "job swap > old measured: measured was given without measured_length, both, or neither",
    ),
    "a way of measuring nobody knows": (
        {"old": {"brake": "orrin-2", "measured_length": 900, "measured": "cut_end"}},
        "job swap > old measured: 'cut_end' was given, one of between_fittings, cut_ends, with_fittings",
    ),
    "a move in centimetres or worse": (
        {"old": {"brake": "orrin-2", "measured_length": 900, "move": {"to": 501}}},
        "job swap > old move to: 501 mm was given, -500 to 500 mm is allowed",
    ),
    "no old at all": (
        {"old": ...},
        "job swap > old: nothing was given, it must be given: the line in the frame now; none for an empty frame",
    ),
    "an end of a brake": (
        {"new": {"brake": "calder-4", "to_end": {"fitting": "nut-m8"}}},
        "job swap > new to_end: to_end was given for a brake, the ends of a brake's line are the brake's own",
    ),
    "unknown fitting on a bare line": (
        {"new": {"line": "hose-50", "to_end": {"fitting": "nut-m9"}}},
        "job swap > new to_end fitting: there is no fitting nut-m9, did you mean nut-m8?",
    ),
    "old line through a port that is not there": (
        {"old": {"brake": "orrin-2", "through": ["neck-left", "neck-right"]}},
        "job swap > old through no. 2: there is no port neck-right, did you mean neck-left?",
    ),
    "staying line that is not there": (
        {"staying": [{"line": "gear-50", "through": ["neck-left"]}]},
        "job swap staying line gear-50 > line: there is no line gear-50, did you mean gear-40?",
    ),
    "staying line through nothing": (
        {"staying": [{"line": "gear-40", "through": []}]},
        "job swap staying line gear-40 > through: too many values were given",
    ),
    "rotor in inches": (
        {"rotor": 7.1},
        "job swap > rotor: 7.1 mm was given, 80 to 300 mm is allowed; if that was inches, it is 180.3 mm",
    ),
    "rotor as text": (
        {"rotor": "180"},
        "job swap > rotor: the text '180' was given, a number is allowed, 80 to 300 mm, without quotes",
    ),
    "unknown field": ({"rotors": 180}, "job swap > rotors: rotors is not a field here, did you mean rotor"),
    "unknown permission": (
        {"allow": {"keep_brake": True}},
        "job swap > allow keep_brake: keep_brake is not a field here, did you mean keep_old_brake?",
    ),
}


@pytest.mark.parametrize(("change", "message"), FAULTS.values(), ids=FAULTS.keys())
def test_fault_in_the_choices_of_a_form(change: dict[str, Any], message: str, catalog: Catalog) -> None:
    fields = {key: value for key, value in {**FIELDS, **change}.items() if value is not ...}
    with pytest.raises(EntryNotAccepted) as refused:
        job_from_fields(fields, catalog)
    (problem,) = refused.value.problems
    assert str(problem).startswith(f"form: {message}")


def test_everything_wrong_with_a_job_is_told_at_once(catalog: Catalog) -> None:
    fields = {**FIELDS, "frame": "x", "new": {"brake": "y"}, "rotor": "180", "staying": [{"line": "z"}]}
    with pytest.raises(EntryNotAccepted) as refused:
        job_from_fields(fields, catalog)
    assert {problem.field for problem in refused.value.problems} == {"frame", "new brake", "rotor", "line", "through"}


def test_form_and_file_give_the_same_job(catalog: Catalog) -> None:
    from_file = read_job(EXAMPLE_JOB, catalog)
    staying = [{"line": "gear-40", "through": ["neck-left"]}]
    fields = {**FIELDS, "id": from_file.id, "title": from_file.title, "staying": staying, "rotor": 180}
    assert job_from_fields(fields, catalog) == from_file


@pytest.mark.parametrize("none", ["none", None])
def test_empty_frame(none: str | None, catalog: Catalog) -> None:
    assert job_from_fields({**FIELDS, "old": none}, catalog).old is None


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("format: 1\n", r"j\.yaml:1: file: job is missing, a job file has format and job"),
        ("job: 5\nformat: 1\n", r"j\.yaml:1: job: 5 was given, a mapping of fields is allowed"),
        ("format: 3\njob: {id: j}\n", r"j\.yaml:1: file > format: 3 was given, format: 1 is the one known here"),
        ("format: 1\njob: {id: j}\nlines: []\n", r"j\.yaml:3: file > lines: lines is not known here"),
        ("- 1\n", r"j\.yaml:1: file: a list was given, format: 1 and then lists of entries"),
        ("", r"j\.yaml:1: file: an empty file"),
    ],
)
def test_job_file_that_is_none(text: str, message: str, tmp_path: Path, catalog: Catalog) -> None:
    path = tmp_path / "j.yaml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(CatalogProblems, match=message):
        read_job(path, catalog)


def test_job_file_that_is_not_there(tmp_path: Path, catalog: Catalog) -> None:
    with pytest.raises(CatalogProblems, match="there is no such file"):
        read_job(tmp_path / "none.yaml", catalog)


@pytest.mark.parametrize(("said", "is_fitted"), [({}, False), ({"fitted": False}, False), ({"fitted": True}, True)])
def test_a_fitting_lies_beside_a_new_line_unless_it_is_said_to_sit_on_it(
    said: dict[str, bool], is_fitted: bool, catalog: Catalog
) -> None:
    new = {"line": "hose-50", "to_end": {"fitting": "nut-m8", **said}}
    assert job_from_fields(FIELDS | {"new": new}, catalog).new.to_end.is_fitted is is_fitted
