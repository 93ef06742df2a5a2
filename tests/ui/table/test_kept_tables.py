"""A table in the store: the rows its file would have, whole or not there, killed and gone on with, told again."""

import json
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from pathlib import Path

import pytest

from catalog import open_store
from tests.ui.shop_samples import DEMO, done, flat, refused
from tests.ui.table.small_tables import asked_table, small_cases, table_bytes
from tests.ui.table.test_runs import counting
from ui.table.apart import question_line
from ui.table.keep import keep_table
from ui.table.kept import Pick, first_pairs, pick_pairs, read_table, rows_of
from ui.table.rows_file import pieces_of
from ui.table.workers import Chunk, Found, this_process

CASES = small_cases(4)


def test_a_run_killed_midway_goes_on_and_its_rows_are_the_file_s(store_place: str, tmp_path: Path) -> None:
    command = [sys.executable, "-m", "tests.ui.table.slow_keeper", store_place, "3"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as keeper:
        assert keeper.stdout is not None
        assert keeper.stdout.readline() == "waiting\n"
        keeper.kill()
    sent: list[str] = []
    with open_store(store_place) as store:
        assert store.tables.list() == ()
        assert store.check().counts["answers for tables"] == 3
        made = keep_table(asked_table(CASES), store, by="Mira", workers=partial(counting, sent))
        assert (made.is_new, len(sent), made.brief.cases_n) == (True, 1, 4)
        again = keep_table(asked_table(CASES), store, by="Odo", workers=partial(counting, sent))
        assert (again.is_new, again.brief, again.tally, len(sent)) == (False, made.brief, made.tally, 1)
        table = read_table(store, made.brief.id)
        assert table.tally == made.tally
        rows = rows_of(store, table, pick_pairs(store, table, Pick()))
        assert b"".join(pieces_of(Path("t.csv"), rows)) == table_bytes(CASES, tmp_path)
        assert store.check().damages == ()


def test_a_brake_of_another_name_makes_another_table_of_the_same_answers(store_place: str) -> None:
    sent: list[str] = []
    asked = asked_table(CASES)
    named = replace(asked, brakes=(replace(asked.brakes[0], name="Renamed"), *asked.brakes[1:]))
    with open_store(store_place) as store:
        keep_table(asked, store, by="Mira")
        made = keep_table(named, store, by="Mira", workers=partial(counting, sent))
        assert (made.is_new, made.brief.id, sent) == (True, 2, [])
        assert read_table(store, 2).brakes[0].name == "Renamed"


def test_a_case_that_was_lost_is_named_and_tried_again(tmp_path: Path) -> None:
    def lose_first(shared: str, chunk: Chunk, chunks_n: int) -> Iterator[Found]:
        yield from ((number, None if number == 0 else text) for number, text in this_process(shared, chunk, chunks_n))

    with open_store(tmp_path / "s.sqlite") as store:
        made = keep_table(asked_table(CASES), store, by="Mira", workers=lose_first)
        assert [each.case_id for each in made.refused] == ["case-0"]
        table = read_table(store, made.brief.id)
        assert (table.brief.cases_n, [case_id for case_id, _ in table.refused]) == (3, ["case-0"])
        again = keep_table(asked_table(CASES), store, by="Mira")
        assert (again.is_new, again.refused, again.brief.cases_n) == (True, (), 4)


def test_a_process_of_its_own_keeps_a_table_and_ends_with_the_one_that_asked(tmp_path: Path) -> None:
    line = question_line(asked_table(CASES), place=str(tmp_path / "s.sqlite"), by="Mira", note="")
    command = [sys.executable, "-m", "ui.table.apart"]
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdin is not None
        assert process.stdout is not None
        process.stdin.write(f"{line}\n")
        process.stdin.flush()
        told = [json.loads(step) for step in process.stdout]
    assert told == [*({"done": n} for n in range(5)), {"table": 1}]
    many = question_line(asked_table(small_cases(400)), place=str(tmp_path / "other.sqlite"), by="Mira", note="")
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdin is not None
        assert process.stdout is not None
        process.stdin.write(f"{many}\n")
        process.stdin.flush()
        assert json.loads(process.stdout.readline()) == {"done": 0}
        process.stdin.close()
        assert process.wait() == 1


def test_pairs_are_picked_by_words_and_outcome(tmp_path: Path) -> None:
    with open_store(tmp_path / "s.sqlite") as store:
        table = read_table(store, keep_table(asked_table(CASES), store, by="Mira").brief.id)
        everything = pick_pairs(store, table, Pick())
        noes = pick_pairs(store, table, Pick(outcomes=("no_fit",)))
        outcomes = [row[5] for row in rows_of(store, table, everything)]
        assert [row[5] for row in rows_of(store, table, noes)] == ["no_fit"] * outcomes.count("no_fit")
        brake = table.brakes[1]
        of_one = pick_pairs(store, table, Pick(frames="case-2", brakes=brake.id.upper()))
        assert [(each.line.case_id, each.brakes) for each in of_one] == [("case-2", (1,))]
        first = first_pairs(everything, 6)
        assert sum(len(each.brakes) for each in first) == 6


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A store with a table of two frames against every brake there is."""
    place = tmp_path_factory.mktemp("kept") / "shop.sqlite"
    frames = ("--frames", DEMO / "trail.frame.yaml", "--frames", DEMO / "touring.frame.yaml")
    told = flat(done("table", *frames, "--to", "store", "--store", place, "--by", "Mira", "--note", "two of ours"))
    assert "18 pairs of frame and brake, kept as table 1 in" in told
    return place


def test_the_terminal_lists_what_is_kept_and_what_it_comes_to(kept: Path) -> None:
    told = flat(done("table", "--from", "store", "--store", kept))
    assert "Mira: two of ours" in told
    assert "Quillfern" not in told
    one = flat(done("table", "--from", 1, "--store", kept))
    assert "18 pairs of frame and brake, table 1 of the store." in one
    assert "Jessamund 700 touring frame (invented)" in one


def test_the_terminal_picks_pairs_and_writes_them(kept: Path, tmp_path: Path) -> None:
    picks = ("--only", "no_fit", "--only-frames", "trail frame")
    told = flat(done("table", "--from", "store", *picks, "--store", kept))
    assert "Chainstay, inside: room in the guide, 2.40 mm missing" in told
    assert "Jessamund" not in told
    to = tmp_path / "some.csv"
    done("table", "--from", 1, *picks, "--to", to, "--store", kept)
    lines = to.read_text("utf-8-sig").splitlines()[1:]
    assert lines
    assert all(",no_fit," in line and line.startswith("quillfern-130,") for line in lines)
    assert "No pair of table 1 is like that." in done("table", "--from", 1, "--only-brakes", "zebra", "--store", kept)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--from", "store", "--frames", "x.yaml"), "table > frames: given, allowed: files to make a table of"),
        (("--from", "7"), "table 7"),
        (("--from", "lately"), "table > from: lately was given, allowed: the number of a table, or store"),
        (("--from", "store", "--forget"), "table > forget: given without the number of a table"),
        (("--only", "fits", "--to", "t.csv"), "table > only: given, allowed: together with --from"),
        (("--to", "t.csv"), "table > frames: not given"),
        (("--frames", "x.yaml"), "table > to: not given"),
    ],
)
def test_what_cannot_be_meant_is_refused(kept: Path, words: tuple[str, ...], told: str) -> None:
    assert told in refused("table", *words, "--store", kept)
