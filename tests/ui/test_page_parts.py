"""Parts of the page that need no page: words made safe, jobs as fields and back, uploads on disk."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalog import STARTER_FOLDER, Problem, job_from_fields, read_catalog, read_job
from planner import in_markdown as plain
from planner import printable_text
from ui.page.session import demo_frames, demo_jobs
from ui.page.uploads import files_on_disk, is_job_file, without_folder
from ui.shared.job_fields import NOTHING, choice_of, fields_of, line_fields
from ui.shared.plan_in_short import chance_words


@pytest.mark.parametrize(
    ("words", "safe"),
    [
        ("**bold**", r"\*\*bold\*\*"),
        ("<b>x</b>", r"\<b\>x\</b\>"),
        ("[a](b)", r"\[a\](b)"),
        (":material/star: and :red[x]", r"\:material/star: and \:red\[x\]"),
        ("$x$", r"\$x\$"),
        ("1. first", r"1\. first"),
        ("- a", r"\- a"),
        ("0.80 mm, neck-left: fits", "0.80 mm, neck-left: fits"),
    ],
)
def test_markup_from_a_file_stays_plain(words: str, safe: str) -> None:
    assert plain(words) == safe


@given(st.text())
def test_making_words_safe_only_ever_adds_backslashes(words: str) -> None:
    kept, shown = iter(plain(words)), printable_text(words)
    assert all(letter in kept for letter in shown)
    assert plain(words).replace("\\", "") == shown.replace("\\", "")


@pytest.mark.parametrize("path", demo_jobs(), ids=lambda path: path.name)
def test_a_job_survives_the_way_through_the_form(path: Path) -> None:
    catalog = read_catalog([STARTER_FOLDER, *demo_frames()])
    job = read_job(path, catalog)
    assert job_from_fields(fields_of(job), catalog) == job


def test_what_was_opened_keeps_all_it_said_until_something_else_is_chosen() -> None:
    opened = {"brake": "a", "measured_length": 1800.0}
    assert choice_of(opened) == ("brake", "a")
    assert line_fields(("brake", "a"), opened) == opened
    assert line_fields(("brake", "b"), opened) == {"brake": "b"}
    assert line_fields(("line", "a"), opened) == {"line": "a"}
    assert line_fields(NOTHING, opened) == "none"
    assert choice_of("none") == NOTHING


def test_uploads_stay_in_their_folder_and_are_gone_afterwards() -> None:
    with files_on_disk({"../../etc/pass wd.yaml": b"x", "": b"y"}) as paths:
        assert [path.name for path in paths] == ["pass_wd.yaml", "file.yaml"]
        assert len({path.parents[1] for path in paths}) == 1
        assert all(path.exists() for path in paths)
    assert not any(path.exists() for path in paths)


def test_uploads_of_names_alike_or_too_long_for_a_disk_are_all_kept() -> None:
    names = ["my frame.yaml", "my_frame.yaml", "車" * 100 + ".yaml"]
    with files_on_disk({name: name.encode() for name in names}) as paths:
        assert [path.read_bytes().decode() for path in paths] == names
        assert [path.suffix for path in paths] == [".yaml"] * 3


def test_problems_name_the_file_and_not_where_it_lay() -> None:
    problem = Problem(file="/tmp/somewhere/mine.yaml", line=3, thing="t", field="f", given="g", allowed="a")
    assert without_folder(problem).file == "mine.yaml"


@pytest.mark.parametrize(
    ("content", "is_job"),
    [
        (b"format: 1\njob:\n  id: x\n", True),
        (b"format: 1\nlines: []\n", False),
        (b"# job: no\n", False),
    ],
)
def test_job_files_are_told_from_catalog_files(content: bytes, is_job: bool) -> None:
    assert is_job_file(content) == is_job


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
