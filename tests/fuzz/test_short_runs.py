"""A short run of every kind: no traceback, nothing that takes long; the long one is `python -m tests.fuzz`."""

from pathlib import Path

from tests.fuzz.cases import mutated_file, random_job
from tests.fuzz.runs import run_cases


def checked_file(number: int, folder: Path) -> str:
    """A broken file, checked by itself; once in four beside its catalog, and planned with where it is sound."""
    return mutated_file(number, folder, follows_every_n=4, plans_every_n=10)


def test_broken_files_are_answered_in_words() -> None:
    report = run_cases(checked_file, range(120))
    assert [fault.told or fault.what for fault in report.faults] == []
    assert len([words for words in report.came_to if words.endswith(("read", "refused"))]) >= 6, (
        "sound and unsound ones"
    )


def printed_job(number: int, folder: Path) -> str:
    """A random job, followed to paper."""
    return random_job(number, folder, prints_every_n=1)


def test_random_jobs_are_planned_drawn_and_printed() -> None:
    report = run_cases(printed_job, range(8))
    assert [fault.told or fault.what for fault in report.faults] == []
    assert any(words.endswith("printed") for words in report.came_to), "some are sound"
