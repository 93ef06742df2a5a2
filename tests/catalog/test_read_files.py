"""Files and folders: what is read, in which order, and what is said when it cannot be."""

from pathlib import Path

import pytest

from catalog import STARTER_FOLDER, CatalogProblems, check_files, read_catalog
from tests.catalog.samples import EXAMPLE_FRAME, EXAMPLE_JOB

LINE = "  - {{id: {}, kind: electric_wire, outer: 2.5, bend_radius: 10}}\n"


def _lines_file(path: Path, *ids: str) -> Path:
    path.write_text("format: 1\nlines:\n" + "".join(LINE.format(id_) for id_ in ids), encoding="utf-8")
    return path


def test_missing_file(tmp_path: Path) -> None:
    with pytest.raises(
        CatalogProblems, match=r"none\.yaml: file: there is no such file, the name of a file or a folder"
    ):
        read_catalog([tmp_path / "none.yaml"])


def test_folder_without_catalog_files(tmp_path: Path) -> None:
    (tmp_path / "notes.txt").write_text("x", encoding="utf-8")
    assert [problem.given for problem in check_files([tmp_path])] == ["a folder without catalog files"]


def test_name_with_a_null_character() -> None:
    assert check_files([Path("a\0b.yaml")])[0].given.startswith("it cannot be read")


def test_folder_is_read_in_the_order_of_its_names(tmp_path: Path) -> None:
    _lines_file(tmp_path / "b.yml", "second")
    _lines_file(tmp_path / "a.yaml", "first")
    (tmp_path / "readme.txt").write_text("not a catalog", encoding="utf-8")
    assert list(read_catalog([tmp_path]).lines) == ["first", "second"]


def test_same_id_in_two_files_names_both_places(tmp_path: Path) -> None:
    first, second = _lines_file(tmp_path / "a.yaml", "wire", "other"), _lines_file(tmp_path / "b.yaml", "more", "wire")
    (problem,) = check_files([first, second])
    assert (problem.file, problem.line) == (str(second), 4)
    assert problem.given == f"line wire is already given at {first}:3"


def test_problems_of_several_files_come_together_in_order(tmp_path: Path) -> None:
    first, second = tmp_path / "a.yaml", tmp_path / "b.yaml"
    first.write_text("format: 1\nlines: 3\n", encoding="utf-8")
    second.write_text("lines: [\n", encoding="utf-8")
    problems = check_files([tmp_path / "gone.yaml", second, first])
    assert [problem.file for problem in problems] == [str(tmp_path / "gone.yaml"), str(second), str(first)]


def test_two_shops_are_one_too_many(tmp_path: Path) -> None:
    for name in ("a.yaml", "b.yaml"):
        (tmp_path / name).write_text("format: 1\nshop: {trim: 5}\n", encoding="utf-8")
    assert [problem.given for problem in check_files([tmp_path])] == [
        f"shop is already given at {tmp_path / 'a.yaml'}:2"
    ]


def test_own_shop_beside_the_starter_catalog(tmp_path: Path) -> None:
    own = tmp_path / "own.yaml"
    own.write_text("format: 1\nshop: {trim: 7}\ncautions:\n  - {id: own, text: Mind the cat.}\n", encoding="utf-8")
    catalog = read_catalog([STARTER_FOLDER, own])
    assert catalog.workshop.limits.trim_allowance_mm == 7.0
    assert catalog.workshop.limits.running_clearance_mm == 0.2
    assert "own" in catalog.workshop.cautions
    assert "fluid" in catalog.workshop.cautions


def test_own_steps_replace_the_starters(tmp_path: Path) -> None:
    own = tmp_path / "own.yaml"
    step = "  - {id: only, text: 'Feed {new_line}.', why: It must go in., minutes: [1, 2, 3], cautions: [fluid]}\n"
    own.write_text("format: 1\nsteps:\n" + step, encoding="utf-8")
    assert [step.id for step in read_catalog([own]).workshop.steps] == ["only"]


def test_steps_that_ask_or_quote_what_no_plan_knows(tmp_path: Path) -> None:
    own = tmp_path / "own.yaml"
    own.write_text(
        "format: 1\nsteps:\n"
        "  - {id: s, text: 'Feed {new_lin}.', why: x, when: [hydralic], cautions: [fluids], minutes: [3, 2, 1]}\n"
        "  - {id: t, text: 'Feed {new_lin}.', why: 'x {', when: [hydralic], cautions: [fluids], minutes: [1, 2, 3]}\n",
        encoding="utf-8",
    )
    told = [(problem.thing, problem.field, problem.given) for problem in check_files([own])]
    assert told == [
        ("step s", "minutes", "3, 2, 1 was given"),
        ("step s", "cautions no. 1", "there is no caution fluids"),
        ("step t", "when no. 1", "'hydralic' was given"),
        ("step t", "text", "the placeholder {new_lin} was given"),
        ("step t", "why", "the placeholder {} was given"),
        ("step t", "cautions no. 1", "there is no caution fluids"),
    ]


def test_job_named_as_a_catalog_is_refused() -> None:
    with pytest.raises(CatalogProblems, match="file: this is a job file, a catalog file is wanted here"):
        read_catalog([EXAMPLE_JOB])


def test_job_beside_a_catalog_in_one_folder_is_passed_over(tmp_path: Path) -> None:
    for example in (EXAMPLE_FRAME, EXAMPLE_JOB):
        (tmp_path / example.name).write_bytes(example.read_bytes())
    assert list(read_catalog([tmp_path]).frames) == ["larkmoor-140"]
    assert check_files([tmp_path]) == []


def test_file_named_twice_counts_once(tmp_path: Path) -> None:
    path = _lines_file(tmp_path / "a.yaml", "one")
    assert check_files([path, tmp_path, path]) == []


def test_order_of_files_does_not_matter_to_a_check() -> None:
    assert check_files([EXAMPLE_JOB, EXAMPLE_FRAME]) == []


def test_a_changed_file_is_read_anew(tmp_path: Path) -> None:
    path = _lines_file(tmp_path / "a.yaml", "one")
    assert list(read_catalog([path]).lines) == ["one"]
    _lines_file(path, "two")
    assert list(read_catalog([path]).lines) == ["two"]
