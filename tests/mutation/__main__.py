"""`python -m tests.mutation`: puts faults into planner/fit, planner/plan and planner/mechanics and tells which lived.

    nice -n 15 python -m tests.mutation --sample 300 --first 1

Each fault is tried in a process of its own, against the tests that run its line, those of its folder first and the
quick before the slow, until one fails or their time is up. The sample is drawn by the number given with --first, so
that a run can be repeated. With --tried FILE the faults of earlier runs are left out, so that a run after tests were
added tells of faults that nobody looked at while they were written. A fault that changes nothing that anybody could see
lives as well: read the list. Only where processes can fork.
"""

import argparse
import gc
import os
import random
import resource
import sys
import traceback
from collections import Counter
from importlib import import_module
from pathlib import Path
from types import FunctionType
from typing import Any

import pytest

from tests.mutation.coverage import ROOT, Covering, covering_tests, forget_answers, run_until_one_fails
from tests.mutation.mutants import Mutant, code_with, mutants_of

FOLDERS = ("planner/fit", "planner/plan", "planner/mechanics")
TESTS = ("tests/planner", "tests/work_orders", "tests/test_demo_frames.py", "tests/test_example_plan.py")
KILLED, LIVED, NOT_RUN, CANNOT = range(4)
CPU_AT_MOST_S = 120
"""A fault that lets a test run longer than this counts as noticed."""


def main() -> int:
    """Try the sample and print what lived, with the share that was noticed."""
    parser = argparse.ArgumentParser(prog="python -m tests.mutation")
    parser.add_argument("folders", nargs="*", default=FOLDERS, help="folders or files of the planner")
    parser.add_argument("--sample", type=int, default=300)
    parser.add_argument("--first", type=int, default=1)
    parser.add_argument("--tests", nargs="+", default=TESTS, help="files and folders of tests to try")
    parser.add_argument("--seconds", type=float, default=20.0, help="of tests, after which a fault counts as living")
    parser.add_argument("--map", type=Path, help="a file to keep which test runs which line, between runs")
    parser.add_argument("--tried", type=Path, help="a file of faults tried before: none of them again, and these added")
    asked = parser.parse_args()
    paths = [path for place in asked.folders for path in python_files(ROOT / place)]
    session = collected(["-q", "-p", "no:cacheprovider", *asked.tests])
    covering = covering_tests(session, paths, keep_in=asked.map)
    covering.load_modules()
    gc.freeze()  # else every child copies what it only looks at
    before = tried_before(asked.tried)
    everything = [mutant for path in paths for mutant in mutants_of(path)]
    untried = [mutant for mutant in everything if mutant.as_line not in before]
    chosen = random.Random(asked.first).sample(untried, min(asked.sample, len(untried)))
    counted: Counter[int] = Counter()
    for number, mutant in enumerate(chosen, start=1):
        fate = fate_of(mutant, session, covering, at_most_s=asked.seconds)
        counted[fate] += 1
        if asked.tried:
            with asked.tried.open("a", encoding="utf-8") as book:
                book.write(mutant.as_line + "\n")
        if fate != KILLED:
            word = {LIVED: "lived", NOT_RUN: "no test runs it", CANNOT: "could not be put in"}[fate]
            print(f"{word}: {mutant.path.relative_to(ROOT)}:{mutant.line} {mutant.function}: {mutant.told}", flush=True)
        if number % 20 == 0:
            print(f"    {number} of {len(chosen)} tried, {counted[KILLED]} noticed", flush=True)
    tried = counted[KILLED] + counted[LIVED] + counted[NOT_RUN]
    print(
        f"{counted[KILLED]} of {tried} noticed ({counted[KILLED] / max(1, tried):.1%}), of {len(everything)} there are,"
        f" {len(untried)} of them not tried before"
    )
    return 1 if counted[CANNOT] else 0


def python_files(place: Path) -> list[Path]:
    """A file itself, or all of a folder's."""
    return [place] if place.is_file() else sorted(place.rglob("*.py"))


def tried_before(book: Path | None) -> set[str]:
    """The faults of earlier runs, as lines."""
    return set(book.read_text(encoding="utf-8").splitlines()) if book is not None and book.is_file() else set()


def collected(words: list[str]) -> pytest.Session:
    """A session with every test collected and none run."""
    from _pytest.config import _prepareconfig

    config = _prepareconfig([*words, "--hypothesis-profile", "repeatable"], [])
    config._do_configure()
    session = pytest.Session.from_config(config)
    config.hook.pytest_sessionstart(session=session)
    session.perform_collect()
    return session


def fate_of(mutant: Mutant, session: pytest.Session, covering: Covering, *, at_most_s: float) -> int:
    """What became of one fault, tried in a child of this process."""
    names = covering.tests_of(mutant.path, mutant.line)
    if not names:
        return NOT_RUN
    child = os.fork()
    if child == 0:
        os._exit(_try(mutant, session, names, at_most_s))
    _, status = os.waitpid(child, 0)
    return KILLED if os.WIFSIGNALED(status) else os.WEXITSTATUS(status)


def _try(mutant: Mutant, session: pytest.Session, names: list[str], at_most_s: float) -> int:
    try:
        resource.setrlimit(resource.RLIMIT_CPU, (CPU_AT_MOST_S, CPU_AT_MOST_S))
        silence()
        forget_answers()
        function_of(mutant).__code__ = code_with(mutant)
    except Exception:
        traceback.print_exc()
        return CANNOT
    try:
        return KILLED if run_until_one_fails(session, names, at_most_s=at_most_s) else LIVED
    except BaseException:
        return KILLED


def silence() -> None:
    """Let nothing out of a child."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, 1)
    os.dup2(nowhere, 2)


def function_of(mutant: Mutant) -> FunctionType:
    """The function as the program knows it, under its decorators."""
    module = import_module(".".join(mutant.path.relative_to(ROOT).with_suffix("").parts))
    found: Any = module
    for part in mutant.function.split("."):
        found = vars(found)[part]
    while not isinstance(found, FunctionType) or hasattr(found, "__wrapped__"):
        found = next(
            getattr(found, name)
            for name in ("__wrapped__", "fget", "__func__", "func")
            if getattr(found, name, None) is not None
        )
    return found


if __name__ == "__main__":
    sys.exit(main())
