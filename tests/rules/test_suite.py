"""The suite is steady: no deadline a busy machine could miss, examples that repeat when asked, benchmarks found."""

import re
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import settings

from tests.oracles import oracle

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


@pytest.mark.parametrize("what", ["BROWSER", "POSTGRES", "ORACLES"])
def test_what_may_be_skipped_elsewhere_is_required_on_a_clean_machine(what: str) -> None:
    assert f"LINEPLAN_{what}_REQUIRED=1" in (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    assert any(f"LINEPLAN_{what}_REQUIRED" in path.read_text("utf-8") for path in TESTS.rglob("*.py"))


@pytest.mark.parametrize(("required", "is_skipped"), [("", True), ("1", False)])
def test_a_missing_oracle_is_a_skip_or_where_it_is_required_a_failure(
    required: str, is_skipped: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("LINEPLAN_ORACLES_REQUIRED", required)
    with pytest.raises(pytest.skip.Exception if is_skipped else ImportError, match="extra 'oracle'"):
        oracle("a_library_that_nobody_has")


def test_every_skip_for_want_of_a_library_goes_through_the_one_place() -> None:
    asking = [path.name for path in TESTS.rglob("test_*.py") if "importorskip" in path.read_text(encoding="utf-8")]
    assert asking == [Path(__file__).name]
