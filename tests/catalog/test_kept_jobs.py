"""What is kept of a job: the fields of its file, and just the revisions that have a say in it."""

from pathlib import Path

import pytest

from catalog import CatalogProblems, Pin, job_fields_in, job_file_text, pins_used, read_catalog, read_job
from catalog.edit_yaml import TextNotEditable
from catalog.starter_place import STARTER_FOLDER

DEMO = Path(__file__).parents[2] / "demo_frames"
JOBS = sorted(DEMO.glob("*.job.yaml"))


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.name)
def test_a_job_written_out_says_what_its_file_said(path: Path, tmp_path: Path) -> None:
    fields = job_fields_in(path)
    out = tmp_path / "out.yaml"
    out.write_text(job_file_text(fields), encoding="utf-8")
    assert job_fields_in(out) == fields


def test_words_that_look_like_something_else_come_back_as_words(tmp_path: Path) -> None:
    fields = {
        "id": "1",
        "title": 'yes: "no" # 12:30',
        "note": "no",
        "old": None,
        "rotor": 1e-7,
        "l": ["a, b", "null", "1.0"],
    }
    out = tmp_path / "out.yaml"
    out.write_text(job_file_text(fields), encoding="utf-8")
    assert job_fields_in(out) == fields


def test_what_no_file_can_say_is_refused() -> None:
    with pytest.raises(TextNotEditable, match="the change would touch other values"):
        job_file_text({"title": "a\x85b"})


@pytest.mark.parametrize(
    ("content", "said"),
    [("format: 1\nlines: []\n", "job is missing"), ("format: 1\njob: 7\n", "job is missing"), ("a: [", "not YAML")],
)
def test_a_file_without_a_job_is_told(tmp_path: Path, content: str, said: str) -> None:
    path = tmp_path / "x.yaml"
    path.write_text(content, encoding="utf-8")
    with pytest.raises(CatalogProblems, match=said):
        job_fields_in(path)


def test_the_pins_of_a_job_are_what_it_names_and_all_that_has_a_say() -> None:
    catalog = read_catalog([STARTER_FOLDER, *DEMO.glob("*.frame.yaml")])
    job = read_job(DEMO / "trail-rear-brake.job.yaml", catalog)
    every = [
        *(Pin(kind="frame", id=id, revision=1) for id in catalog.frames),
        *(Pin(kind="brake", id=id, revision=2) for id in catalog.brakes),
        *(Pin(kind="line", id=id, revision=3) for id in catalog.lines),
        *(Pin(kind="fitting", id=id, revision=4) for id in catalog.fittings),
        *(Pin(kind="method", id=method.id, revision=5) for method in catalog.workshop.methods),
        Pin(kind="shop", id="shop", revision=6),
        Pin(kind="file", id="lines.yaml", revision=7),
    ]
    used = pins_used(job, every)
    by_kind = {kind: {pin.id for pin in used if pin.kind == kind} for kind in ("frame", "brake", "line", "fitting")}
    assert by_kind == {
        "frame": {"quillfern-130"},
        "brake": {"wexcombe-2-rear", "dunmere-4-rear"},
        "line": {"hose-50x21", "gear-housing-40"},
        "fitting": _fittings_of(catalog.brakes["wexcombe-2-rear"]) | _fittings_of(catalog.brakes["dunmere-4-rear"]),
    }
    assert {pin for pin in every if pin.kind in ("method", "shop", "file")} <= set(used)


def _fittings_of(brake: object) -> set[str]:
    ends = (brake.lever_end, brake.caliper_end)  # type: ignore[attr-defined]
    return {end.fitting.id for end in ends if end.fitting is not None}
