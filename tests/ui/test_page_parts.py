"""Parts of the page that need no page: words made safe, jobs as fields and back, uploads on disk."""

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalog import STARTER_FOLDER, EntryNotAccepted, Problem, job_from_fields, read_catalog, read_job
from planner import in_markdown as plain
from planner import printable_text
from planner.documents.words.printable import WORD_JOINER
from ui.page.session import DEMO_FOLDER, demo_frames, demo_jobs
from ui.page.uploads import Upload, as_sent, files_on_disk
from ui.shared.job_fields import NOTHING, choice_of, fields_of, job_of_choices, line_fields, untyped_words
from ui.shared.plan_in_short import chance_words


@pytest.mark.parametrize(
    ("words", "safe"),
    [
        ("**bold**", r"\*\*bold\*\*"),
        ("<b>x</b>", r"\<b\>x\</b\>"),
        ("[a](b)", r"\[a\](b)"),
        (":material/star: and :red[x]", f":{WORD_JOINER}material/star: and :{WORD_JOINER}red\\[x\\]"),
        ("$x$", r"\$x\$"),
        ("1. first", r"1\. first"),
        ("- a", r"\- a"),
        ("0.80 mm, neck-left: fits", "0.80 mm, neck-left: fits"),
    ],
)
def test_markup_from_a_file_stays_plain(words: str, safe: str) -> None:
    assert plain(words) == safe


@given(st.text())
def test_making_words_safe_only_ever_adds_what_is_not_seen(words: str) -> None:
    kept, shown = iter(plain(words)), printable_text(words)
    assert all(letter in kept for letter in shown)
    added = str.maketrans("", "", f"\\{WORD_JOINER}")
    assert plain(words).translate(added) == shown.translate(added)


@pytest.mark.parametrize("path", demo_jobs(), ids=lambda path: path.name)
def test_a_job_survives_the_way_through_the_form(path: Path) -> None:
    catalog = read_catalog([STARTER_FOLDER, *demo_frames()])
    job = read_job(path, catalog)
    assert job_from_fields(fields_of(job), catalog) == job


def test_what_was_opened_keeps_all_it_said_until_something_else_is_chosen() -> None:
    opened = {"brake": "a", "measured_length": 1800.0}
    assert choice_of(opened) == ("brake", "a")
    assert line_fields(("brake", "a"), opened, is_same_way=True) == opened
    assert line_fields(("brake", "b"), opened, is_same_way=True) == {"brake": "b"}
    assert line_fields(("line", "a"), opened, is_same_way=True) == {"line": "a"}
    assert line_fields(NOTHING, opened, is_same_way=True) == "none"
    assert choice_of("none") == NOTHING


OPENED = {
    "id": "x",
    "title": "As opened",
    "frame": "f",
    "from": "bar",
    "to": "caliper",
    "old": {"brake": "a", "through": ["p"], "measured_length": 1800.0},
    "new": {"brake": "b", "supplied_length": 1700.0},
}


def _chosen(frame_id: str = "f", to: str = "caliper", old: str = "a", new: str = "b") -> dict[str, Any]:
    return job_of_choices(
        frame_id=frame_id, ends=("bar", to), old=("brake", old), new=("brake", new), title="New", opened=OPENED
    )


def test_a_job_that_is_still_the_one_opened_keeps_all_it_said() -> None:
    assert _chosen() == OPENED


def test_what_no_field_shows_is_told_by_labels() -> None:
    catalog = read_catalog([STARTER_FOLDER, *demo_frames()])
    fields = fields_of(read_job(DEMO_FOLDER / "trail-rear-brake.job.yaml", catalog))
    frame = catalog.frames[fields["frame"]]
    port, fitting = next(iter(frame.ports.values())), next(iter(catalog.fittings.values()))
    fields["old"] = {
        "line": "hose-50x21",
        "through": [port.id],
        "measured_length": 1800.0,
        "to_end": {"fitting": fitting.id, "fitted": True},
    }
    fields["new"] |= {"supplied_length": 1700.0}
    fields.pop("rotor_hub", None)
    told = untyped_words(fields, catalog)
    end = frame.anchors[fields["to"]]
    assert port.label
    assert end.label
    assert told == [
        f"the old line runs through {port.label}",
        "the old line was measured at 1800 mm",
        f"{fitting.name} sits on the old line at {end.label}",
        "the new line is supplied 1700 mm long",
    ]
    assert not any(each in words for each in (port.id, end.id, fitting.id) for words in told)


MEASURED = {
    "measured_length": 1451.0,
    "measured": "between_fittings",
    "move": {"from": 12.0, "to": -8.0},
    "reached": True,
}


def test_how_the_old_line_was_measured_survives_the_form_and_is_told() -> None:
    catalog = read_catalog([STARTER_FOLDER, *demo_frames()])
    fields = fields_of(read_job(demo_jobs()[-1], catalog))
    fields["old"] = {**fields["old"], **MEASURED}
    job = job_from_fields(fields, catalog)
    assert fields_of(job)["old"] == fields["old"]
    assert job_from_fields(fields_of(job), catalog) == job
    ends = (catalog.frames[fields["frame"]].anchors[fields[end]].label for end in ("from", "to"))
    how = "between fittings; +12 mm at {}, -8 mm at {}; it reached in every posture".format(*ends)
    assert f"the old line was measured at 1451 mm ({how})" in untyped_words(fields, catalog)


def test_moved_outlets_are_those_of_the_new_brake_that_was_opened() -> None:
    opened = {**OPENED, "old": {"brake": "a", **MEASURED}}

    def chosen(new: str) -> Any:
        return job_of_choices(
            frame_id="f", ends=("bar", "caliper"), old=("brake", "a"), new=("brake", new), title="New", opened=opened
        )["old"]

    assert chosen("b") == opened["old"]
    assert chosen("c") == {key: value for key, value in opened["old"].items() if key != "move"}


@pytest.mark.parametrize("changed", [{"frame_id": "g"}, {"to": "other"}, {"old": "c"}, {"new": "c"}])
def test_another_job_keeps_neither_id_nor_title_of_the_one_opened(changed: dict[str, str]) -> None:
    assert _chosen(**changed)["title"] == "New"
    assert _chosen(**changed)["id"] != "x"


@pytest.mark.parametrize("changed", [{"frame_id": "g"}, {"to": "other"}])
def test_another_way_keeps_nothing_that_was_told_of_the_old_one(changed: dict[str, str]) -> None:
    assert _chosen(**changed)["old"] == {"brake": "a"}
    assert _chosen(**changed)["new"] == OPENED["new"], "what lies on the bench is as long as it was"


def _sent(name: str, content: bytes = b"") -> Upload:
    return Upload(name=name, content=content)


def test_uploads_stay_in_their_folder_and_are_gone_afterwards() -> None:
    with files_on_disk([_sent("../../etc/pass wd.yaml"), _sent("")]) as paths:
        assert [path.name for path in paths] == ["pass_wd.yaml", "file.yaml"]
        assert list(paths.values()) == ["pass wd.yaml", "file without a name"]
        assert len({path.parents[1] for path in paths}) == 1
        assert all(path.exists() for path in paths)
    assert not any(path.exists() for path in paths)


def test_uploads_of_one_name_of_names_alike_or_too_long_for_a_disk_are_all_kept() -> None:
    names = ["my frame.yaml", "my_frame.yaml", "車" * 100 + ".yaml", "my frame.yaml"]
    sent = [_sent(name, str(number).encode()) for number, name in enumerate(names)]
    with files_on_disk(sent) as paths:
        assert [path.read_bytes() for path in paths] == [b"0", b"1", b"2", b"3"]
        assert [path.suffix for path in paths] == [".yaml"] * 4
        assert len(set(paths.values())) == 4


def test_problems_name_a_file_as_its_sender_does_wherever_they_name_it() -> None:
    with files_on_disk([_sent("my frame.yaml")]) as paths:
        (path,) = paths
        problem = Problem(file=str(path), line=3, thing="t", field="f", given=f"is at {path}:7", allowed="a")
        told = as_sent(problem, paths)
        assert (told.file, told.given) == ("my frame.yaml", "is at my frame.yaml:7")
        with pytest.raises(EntryNotAccepted) as refused, files_on_disk([_sent("a b.yaml")]) as others:
            raise EntryNotAccepted([replace(problem, file=str(next(iter(others))))])
    assert refused.value.problems[0].file == "a b.yaml"


@pytest.mark.parametrize(
    ("content", "is_job"),
    [
        (b"format: 1\njob:\n  id: x\n", True),
        (b"format: 1\nlines: []\n", False),
        (b"# job: no\n", False),
    ],
)
def test_job_files_are_told_from_catalog_files(content: bytes, is_job: bool) -> None:
    assert _sent("a.yaml", content).is_job == is_job


@pytest.mark.parametrize(
    ("chance", "words"),
    [
        (1.0, "more than 99.9 %"),
        (0.9995, "more than 99.9 %"),
        (0.999, "99.9 %"),
        (0.5, "50.0 %"),
        (0.0, "less than 0.1 %"),
    ],
)
def test_a_chance_is_never_rounded_to_a_certainty(chance: float, words: str) -> None:
    assert chance_words(chance) == words
