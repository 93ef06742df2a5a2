"""The suite is steady: no deadline a busy machine could miss, examples that repeat when asked, benchmarks found."""

import re
import subprocess
import sys
from pathlib import Path

from hypothesis import settings

ROOT = Path(__file__).parents[2]
TESTS = ROOT / "tests"


def test_no_test_has_a_deadline() -> None:
    assert settings().deadline is None
    told = [
        f"{path.name}: {deadline}"
        for path in sorted(TESTS.rglob("*.py"))
        for deadline in re.findall(r"deadline=(?!None)[^,)\s]+", path.read_text(encoding="utf-8"))
        if path != Path(__file__)
    ]
    assert told == []


def test_a_clean_machine_tries_the_same_examples_every_time() -> None:
    assert "--hypothesis-profile repeatable" in (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    repeatable = settings.get_profile("repeatable")
    assert (repeatable.derandomize, repeatable.deadline) == (True, None)


def test_naming_the_benchmarks_collects_every_one_of_them() -> None:
    command = [sys.executable, "-m", "pytest", "tests/benchmarks", "--collect-only", "-q", "-p", "no:cacheprovider"]
    run = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert run.returncode == 0, run.stdout
    collected = {line.split("::")[0] for line in run.stdout.splitlines() if "::" in line}
    assert collected == {f"tests/benchmarks/{path.name}" for path in (TESTS / "benchmarks").glob("bench_*.py")}
