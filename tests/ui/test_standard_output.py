"""Standard output is for answers: no remark of a solver gets there, and a reader who goes away is told nothing."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

DEMOS = Path(__file__).parents[2] / "demo_frames"
TALKING = """
import scipy.optimize as optimize
silent = optimize.milp
optimize.milp = lambda *words, options, **more: silent(*words, options=options | {"disp": True}, **more)
"""
CUTS = (
    *("cuts", DEMOS / "trail-rear-brake.job.yaml", DEMOS / "four-bar-rear-brake.job.yaml"),
    *("--stock", DEMOS / "workshop.stock.yaml", "--all-from-stock", "--json"),
    *("-c", DEMOS / "trail.frame.yaml", "-c", DEMOS / "four-bar.frame.yaml"),
)


def lineplan(*words: object, before: str, through: str = "main()") -> subprocess.CompletedProcess[str]:
    code = f"{before}\nfrom ui.terminal import main\n{through}"
    return subprocess.run(
        [sys.executable, "-c", code, *map(str, words)], capture_output=True, text=True, env=os.environ, check=False
    )


def test_the_solver_does_talk_when_it_may() -> None:
    """Else the next test tells nothing."""
    done = lineplan(*CUTS, before=TALKING, through="from ui.terminal import app\napp()")
    assert "HiGHS" in done.stdout


@pytest.mark.parametrize("before", [TALKING, ""], ids=["a solver that talks", "one that does not"])
def test_nothing_but_the_answer_is_printed(before: str) -> None:
    done = lineplan(*CUTS, before=before)
    assert (done.returncode, done.stderr) == (0, "")
    assert json.loads(done.stdout)["rolls_used"] >= 1


@pytest.mark.parametrize("unbuffered", ["", "1"], ids=["buffered", "unbuffered"])
@pytest.mark.parametrize("words", [("demo", "list"), ("demo", "--no-page")], ids=" ".join)
def test_a_reader_who_goes_away_is_told_nothing(words: tuple[str, ...], unbuffered: str) -> None:
    reading, writing = os.pipe()
    os.close(reading)
    code = "from ui.terminal import main; main()"
    done = subprocess.run(
        [sys.executable, "-c", code, *words],
        stdout=writing,
        stderr=subprocess.PIPE,
        env=os.environ | {"PYTHONUNBUFFERED": unbuffered},
        check=False,
    )
    os.close(writing)
    assert done.stderr == b""
    assert done.returncode in (0, 1)  # 1 where it was noticed while printing


def test_another_program_that_takes_this_ones_place_has_its_standard_output() -> None:
    through = (
        "import os, sys\nfrom ui.commands.page import _become\nfrom ui.shared.printable_stream import guard_streams\n"
        "guard_streams()\n_become([sys.executable, '-c', 'print(\"served\")'], dict(os.environ))"
    )
    assert lineplan(before="", through=through).stdout == "served\n"
