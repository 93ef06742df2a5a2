"""One rule for every command: -c lies over the starter, --bare leaves it out, a saved name does where a file does."""

import json
from pathlib import Path
from typing import Any

import pytest

from tests.catalog.samples import EXAMPLE_FRAME, EXAMPLE_JOB
from tests.ui.shop_samples import DEMO, TRAIL, done, flat, lineplan, refused

TRAIL_FRAME = DEMO / "trail.frame.yaml"
OWN_HOSE = "format: 1\nlines:\n  - {id: hose-50x21, kind: hydraulic_hose, outer: 5.1, bore: 2.1, bend_radius: 35}\n"
STANDS_IN = "Your own word stands in for the starter catalog's: line hose-50x21."
STOCK = "format: 1\nstock:\n  - {id: roll, line: hose-50x21, length: 9000}\n"


@pytest.fixture
def own(tmp_path: Path) -> Path:
    path = tmp_path / "own.yaml"
    path.write_text(OWN_HOSE, encoding="utf-8")
    return path


@pytest.fixture
def stock(tmp_path: Path) -> Path:
    path = tmp_path / "rolls.yaml"
    path.write_text(STOCK, encoding="utf-8")
    return path


@pytest.fixture
def saved(tmp_path: Path) -> Path:
    """A store with the trail job and what it needs."""
    place = tmp_path / "shop.sqlite"
    done("save", TRAIL, "-c", TRAIL_FRAME, "--store", place, "--by", "Mira", "--for", "Ana")
    return place


def words_for(command: str, *, frame: Path, stock: Path, folder: Path) -> list[object]:
    """A command with a job on a frame of its own."""
    catalog: list[object] = ["-c", frame]
    store: list[object] = ["--store", folder / "none.sqlite"]
    return {
        "plan": ["plan", TRAIL, *catalog, *store, "--json"],
        "fit": ["fit", "--opening", "round 6", "--item", "5", *catalog, *store],
        "check": ["check", TRAIL, frame, *store],
        "quote": ["quote", TRAIL, *catalog, *store],
        "card": ["card", TRAIL, *catalog, *store, "--pdf", folder / "card.pdf"],
        "cuts": ["cuts", TRAIL, *catalog, *store, "--stock", stock, "--all-from-stock"],
        "save": ["save", TRAIL, *catalog, "--store", folder / "new.sqlite", "--by", "Mira"],
    }[command]


COMMANDS = ("plan", "fit", "check", "quote", "card", "cuts", "save")


@pytest.mark.parametrize("command", COMMANDS)
def test_a_file_with_one_frame_is_enough_for_every_command(command: str, stock: Path, tmp_path: Path) -> None:
    result = lineplan(*words_for(command, frame=TRAIL_FRAME, stock=stock, folder=tmp_path))
    assert result.exit_code == 0, result.stderr
    assert "stands in" not in result.stderr


@pytest.mark.parametrize("command", sorted({*COMMANDS} - {"fit"}))
def test_bare_leaves_the_starter_s_things_out_of_every_command(command: str, stock: Path, tmp_path: Path) -> None:
    told = refused(*words_for(command, frame=TRAIL_FRAME, stock=stock, folder=tmp_path), "--bare")
    assert "there is no brake wexcombe-2-rear" in told
    read = "the store" if command == "save" else "trail.frame.yaml"
    assert f"(read: {read})" in told


@pytest.mark.parametrize("command", sorted({*COMMANDS} - {"check"}))
def test_what_stands_in_for_the_starter_is_said_once_and_not_where_results_are(
    command: str, own: Path, stock: Path, tmp_path: Path
) -> None:
    result = lineplan(*words_for(command, frame=TRAIL_FRAME, stock=stock, folder=tmp_path), "-c", own)
    assert flat(result.stderr).count(STANDS_IN) == 1
    assert "stands in" not in result.stdout
    assert result.exit_code in (0, 3)


def test_the_example_alone_is_planned_with_its_own_methods_by_bare() -> None:
    record: dict[str, Any] = json.loads(done("plan", EXAMPLE_JOB, "-c", EXAMPLE_FRAME, "--bare", "--json"))
    tried = {record["method"], *(one["method"] for one in (*record["alternatives"], *record["rejected"]))}
    assert tried <= {"stud-26", "sleeve-46", "spoke-20"}
    assert record["steps"], "the starter's steps stand in where own files have none"


def test_the_example_over_the_starter_tries_the_starter_s_methods_too() -> None:
    record = json.loads(done("plan", EXAMPLE_JOB, "-c", EXAMPLE_FRAME, "--json"))
    tried = {record["method"], *(one["method"] for one in (*record["alternatives"], *record["rejected"]))}
    assert {"stud-26", "coupler-26", "spoke-18"} <= tried


def test_a_job_s_name_is_planned_as_it_was_kept(saved: Path) -> None:
    from_file = json.loads(done("plan", TRAIL, "-c", TRAIL_FRAME, "--json"))
    assert json.loads(done("plan", "trail-rear-brake", "--store", saved, "--json")) == from_file


def test_a_job_s_name_is_checked_and_cut(saved: Path, stock: Path) -> None:
    assert "nothing wrong found" in done("check", "trail-rear-brake", "--store", saved)
    record = json.loads(
        done("cuts", "trail-rear-brake", TRAIL, "--store", saved, "--stock", stock, "--all-from-stock", "--json")
    )
    assert [job["file"] for job in record["jobs"]] == ["trail-rear-brake", str(TRAIL)]
    assert len({job["cut_mm"] for job in record["jobs"]}) == 1


def test_a_file_is_held_against_the_store_s_catalog_where_there_is_one(saved: Path, tmp_path: Path) -> None:
    assert json.loads(done("plan", TRAIL, "--store", saved, "--json"))["frame"] == "quillfern-130"
    assert "nothing wrong found" in done("check", TRAIL, "--store", saved)
    told = refused("plan", TRAIL, "--store", tmp_path / "none.sqlite")
    assert "there is no frame quillfern-130, the catalog has none (read: the starter catalog)" in told


@pytest.mark.parametrize("command", ["plan", "check", "cuts"])
def test_a_name_without_a_store_is_told(command: str, stock: Path, tmp_path: Path) -> None:
    more = ("--stock", stock) if command == "cuts" else ()
    told = refused(command, "trail-rear-brake", "--store", tmp_path / "none.sqlite", *more)
    assert "no saved job of this name, for there is no store" in told


def test_a_name_that_the_store_does_not_have_is_told(saved: Path) -> None:
    assert "job nobody" in refused("plan", "nobody", "--store", saved)
    assert "job nobody" in refused("check", "nobody", "--store", saved)


def test_a_job_file_by_any_name_is_a_file(tmp_path: Path) -> None:
    path = tmp_path / "job.txt"
    path.write_bytes(TRAIL.read_bytes())
    assert json.loads(done("plan", path, "-c", TRAIL_FRAME, "--json"))["job"] == "trail-rear-brake"


def test_an_own_word_kept_over_the_starter_is_what_the_store_plans_with(own: Path, tmp_path: Path) -> None:
    place = tmp_path / "shop.sqlite"
    result = lineplan("save", TRAIL, "-c", TRAIL_FRAME, "-c", own, "--store", place, "--by", "Mira")
    assert result.exit_code == 3, "a hose of 5.1 does not go into nuts for 5.0"
    assert STANDS_IN in flat(result.stderr)
    again = json.loads(lineplan("plan", TRAIL, "-c", TRAIL_FRAME, "-c", own, "--json").stdout)
    assert json.loads(lineplan("plan", "trail-rear-brake", "--store", place, "--json").stdout) == again
