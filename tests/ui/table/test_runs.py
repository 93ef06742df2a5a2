"""A table is the same bytes however it is made, goes on where it was, and decides again only what changed."""

import json
import subprocess
import sys
import time
from dataclasses import replace
from functools import partial
from pathlib import Path

import pytest

from planner.parts import RoundOpening
from tests.ui.table.deadly import DEADLY, decide_or_die
from tests.ui.table.small_tables import asked_of, small_cases, table_bytes
from ui.table.make import decide_table
from ui.table.parts_folder import MANIFEST, PartsFolder
from ui.table.plain_text import Refused
from ui.table.workers import Chunk, chunk_sizes, processes, this_process

CASES = small_cases(4)


def counting(sent: list[str], shared: str, chunk: Chunk, chunks_n: int):  # type: ignore[no-untyped-def]
    """This process, with every case that is sent to it."""

    def noted(number: int) -> str:
        sent.extend(chunk(number).split("\n"))
        return chunk(number)

    return this_process(shared, noted, chunks_n)


def test_a_second_run_decides_only_the_frame_that_changed(tmp_path: Path) -> None:
    first = table_bytes(CASES, tmp_path)
    sent: list[str] = []
    assert table_bytes(CASES, tmp_path, workers=partial(counting, sent)) == first
    assert sent == []
    port = replace(CASES[1].frame.ports["in-0"], opening=RoundOpening(diameter_mm=3.0, tolerance_mm=0.1))
    frame = replace(CASES[1].frame, ports={**CASES[1].frame.ports, "in-0": port})
    changed = [CASES[0], replace(CASES[1], frame=frame), *CASES[2:]]
    again = table_bytes(changed, tmp_path, workers=partial(counting, sent))
    assert len(sent) == 1
    assert again == table_bytes(changed, tmp_path / "anew")
    assert again != first


def test_a_torn_line_and_a_damaged_part_do_not_count(tmp_path: Path) -> None:
    whole = table_bytes(CASES, tmp_path)
    manifest = tmp_path / MANIFEST
    lines = [json.loads(line) for line in manifest.read_text("utf-8").split("\n") if line]
    assert sum(len(line["cases"]) for line in lines) == len(CASES)
    manifest.write_bytes(manifest.read_bytes()[:-20])
    damaged = tmp_path / lines[0]["file"]
    damaged.write_bytes(damaged.read_bytes()[:-1] + b"x")
    sent: list[str] = []
    assert table_bytes(CASES, tmp_path, workers=partial(counting, sent)) == whole
    assert len(sent) == len(lines[0]["cases"]) + len(lines[-1]["cases"])


def test_several_processes_make_the_same_bytes(tmp_path: Path) -> None:
    done: list[int] = []
    several = table_bytes(CASES, tmp_path / "two", workers=processes(2), workers_n=2, done=done)
    assert several == table_bytes(CASES, tmp_path / "one")
    assert done == [0, 1, 2, 3, 4]


def test_a_frame_that_ends_its_process_is_named_and_the_rest_goes_on(tmp_path: Path) -> None:
    workers = processes(2, decide=decide_or_die)
    question = asked_of(CASES[:3])
    parts = PartsFolder(tmp_path, question.run)
    found = decide_table(question, parts=parts, workers=workers, workers_n=2)
    assert [case.id for case, answers in found if isinstance(answers, Refused)] == [f"case-{DEADLY}"]


def test_chunks_hold_every_case_once() -> None:
    for cases_n in (0, 1, 7, 400, 10_000):
        chunks = chunk_sizes(cases_n, largest=50, workers_n=2)
        assert [place for chunk in chunks for place in chunk] == list(range(cases_n))
        assert max(map(len, chunks), default=0) <= 50


def is_running(pid: int) -> bool:
    """Whether a process works; one that has ended and that nobody asked about yet does not."""
    try:
        return Path(f"/proc/{pid}/stat").read_text("utf-8").rpartition(")")[2].split()[0] != "Z"
    except OSError:
        return False


@pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="asks the system by way of /proc")
def test_workers_do_not_outlive_the_one_that_started_them(tmp_path: Path) -> None:
    parent = subprocess.Popen([sys.executable, "-m", "tests.ui.table.sleepers", tmp_path])
    while len(list(tmp_path.glob("*.pid"))) < 2 and parent.poll() is None:
        time.sleep(0.05)
    pids = [int(path.stem) for path in tmp_path.glob("*.pid")]
    assert len(pids) == 2
    assert all(map(is_running, pids))
    parent.kill()
    parent.wait()
    while any(map(is_running, pids)):  # an orphan would sleep for an hour
        time.sleep(0.05)
