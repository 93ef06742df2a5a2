"""Walks through `lineplan new` in a terminal, from nothing to a printed plan; what has to be typed is counted."""

import os
import pty
import select
import signal
import subprocess
import sys
import time
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

import pytest

PROGRAM = "from ui.terminal import main; main()"
LONGEST_WAIT_S = 120.0

HOLES = {
    "two holes": {
        "Name of the frame": "Blue hardtail",
        "How many holes": "2",
        "Hole 1 of 2": "down 35 left",
        "Hole 1: opening": "slot 18x7",
        "Hole 2 of 2": "down 600 left",
        "Hole 2: opening": "7.4",
    },
    "three holes": {
        "Name of the frame": "Trail bike",
        "How many holes": "3",
        "Hole 1 of 3": "down 35 left",
        "Hole 1: opening": "slot 18x7",
        "Hole 2 of 3": "window to chainstay",
        "Hole 2: opening": "round 7.5",
        "Hole 3 of 3": "chainstay 360 top",
        "Hole 3: opening": "7.1..7.3",
    },
    "headset": {
        "Name of the frame": "Road bike",
        "How many holes": "4",
        "Hole 1 of 4": "headset",
        "Hole 1: opening": "round 10",
        "Hole 2 of 4": "window to down",
        "Hole 2: opening": "7.5",
        "Hole 3 of 4": "window to chainstay",
        "Hole 3: opening": "7.4",
        "Hole 4 of 4": "chainstay 320 top",
        "Hole 4: opening": "7.2",
        "Inside the head tube": "8 60 35",
        "Inside the down tube": "6.9 200 30",
        "Inside the left chainstay": "6.8 180 25",
    },
}
TABLE = {
    "How shall lengths": "3",
    "Reach": "430",
    "Stack": "620",
    "Head angle": "66,5",
    "Head tube length": "110",
    "Seat angle": "75",
    "Seat tube length": "440",
    "Chainstay length": "435",
    "Bar width": "780",
    "Stem length": "50",
    "Caliper mount": "post 160 203 six-bolt",
}
"""The bottom bracket's drop and the spacers have a usual figure in brackets."""
JOB = {"What is in it now": "wexcombe 2 rear", "What goes in": "dunmere"}


@dataclass(kw_only=True)
class Walked:
    """What was printed, and the words that had to be typed, by the beginning of their questions."""

    screen: str = ""
    status: int | None = None
    typed: dict[str, str] = field(default_factory=dict)


def walk_through(answers: Mapping[str, str], *words: object, stop_at: str = "") -> Walked:
    """Answer each prompt, with Enter where no answer is told for it; Ctrl+C at the prompt that begins with stop_at."""
    keyboard, screen = pty.openpty()
    command = [sys.executable, "-c", PROGRAM, "new", *map(str, words)]
    environment = {**os.environ, "COLUMNS": "160", "TERM": "dumb"}
    with subprocess.Popen(
        command,
        stdin=screen,
        stdout=screen,
        stderr=screen,
        env=environment,
        start_new_session=True,
        close_fds=True,
        preexec_fn=_heed_ctrl_c,
    ) as run:
        os.close(screen)
        walked, seen, end = Walked(), 0, time.monotonic() + LONGEST_WAIT_S
        while time.monotonic() < end and (chunk := _read(keyboard)) is not None:
            walked.screen += chunk
            prompt = walked.screen[seen:].rpartition("\n")[2]
            if not (prompt.endswith((" ",)) and "?" in prompt):
                continue
            if stop_at and prompt.startswith(stop_at):
                run.send_signal(signal.SIGINT)  # after a quiet second again: it may have come too early
                continue
            key = next((key for key in answers if prompt.startswith(key)), None)
            seen = len(walked.screen)
            if key is not None:
                walked.typed[key] = answers[key]
            os.write(keyboard, f"{answers.get(key or '', '')}\n".encode())
        walked.status = run.wait(timeout=LONGEST_WAIT_S)
    os.close(keyboard)
    return walked


def _heed_ctrl_c() -> None:
    """A program started behind the scenes is deaf to Ctrl-C from birth; one at a terminal is not."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)


def _read(keyboard: int) -> str | None:
    """What was printed since, nothing after a quiet second; None once the program is done and all is read."""
    if not select.select([keyboard], [], [], 1.0)[0]:
        return ""
    try:
        return os.read(keyboard, 65536).decode("utf-8", errors="replace") or None
    except OSError:  # the other end is closed: the program has ended and all it said was read
        return None


@pytest.mark.parametrize(("holes", "most"), [("two holes", 6), ("three holes", 8), ("headset", 13)])
def test_holes_only_from_nothing_to_a_printed_plan(holes: str, most: int, tmp_path: Path) -> None:
    walked = walk_through({**HOLES[holes], **JOB}, "frame", tmp_path / "mine.yaml")
    assert walked.status == 0, walked.screen
    assert "It fits" in walked.screen
    assert "its length is not known: lay it in, then mark" in " ".join(walked.screen.split())
    of_job = walked.typed.keys() & JOB.keys()
    assert len(walked.typed) - len(of_job) == most
    assert len(of_job) <= 3


@pytest.mark.parametrize(("holes", "most"), [("two holes", 17), ("three holes", 19), ("headset", 24)])
def test_with_the_geometry_table_from_nothing_to_a_printed_plan(holes: str, most: int, tmp_path: Path) -> None:
    walked = walk_through({**HOLES[holes], **TABLE, **JOB}, "frame", tmp_path / "mine.yaml")
    assert walked.status == 0, walked.screen
    assert "It fits" in walked.screen
    assert "mm because the frame was measured from photographs or in words" in " ".join(walked.screen.split())
    of_job = walked.typed.keys() & JOB.keys()
    assert len(walked.typed) - len(of_job) <= most
    assert len(of_job) <= 3


def test_a_job_needs_three_answers_where_there_are_several_frames(tmp_path: Path) -> None:
    frames = [tmp_path / "two.yaml", tmp_path / "three.yaml"]
    for name, file in zip(("two holes", "three holes"), frames, strict=True):
        walk_through({**HOLES[name], "Plan a line through it now": "no"}, "frame", file)
    catalog = [word for file in frames for word in ("-c", file)]
    walked = walk_through({"Which frame": "Trail bike", **JOB}, "job", tmp_path / "job.yaml", *catalog)
    assert walked.status == 0, walked.screen
    assert len(walked.typed) == 3
    assert "It fits" in walked.screen


def test_ctrl_c_in_the_middle_leaves_nothing(tmp_path: Path) -> None:
    walked = walk_through(HOLES["two holes"], "frame", tmp_path / "mine.yaml", stop_at="Hole 2: opening")
    assert "Stopped: nothing was written." in walked.screen
    assert "Traceback" not in walked.screen
    assert (walked.status, list(tmp_path.iterdir())) == (2, [])
