"""Many cases one after another: what each came to, and which ended in a traceback, took too long or too much."""

import os
import resource
import shutil
import signal
import tempfile
import traceback
from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from pathlib import Path
from time import process_time
from types import FrameType

LONGEST_S = 10.0
"""Working time of one case."""

GIVEN_UP_S = 60.0
MOST_MEMORY_MB = 1000
"""By which the process may grow while it looks at one case."""

Case = Callable[[int, Path], str]


class GivenUpError(BaseException):
    """A case that went on and on; nothing in the program catches it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """A case that went wrong.

    number : of the case
    what : the last line of its traceback, or how long or large it was
    where : where the traceback ended
    told : the whole traceback
    """

    number: int
    what: str
    where: str = ""
    told: str = ""


@dataclass(slots=True, kw_only=True)
class Report:
    """What a run came to.

    count : how many cases were run
    came_to : how many of them came how far
    faults : everything that went wrong
    longest_s : working time of the slowest case, and its number
    """

    count: int = 0
    came_to: Counter[str] = field(default_factory=Counter)
    faults: list[Fault] = field(default_factory=list)
    longest_s: tuple[float, int] = (0.0, -1)


def run_cases(
    case: Case, numbers: Iterable[int], *, keep: Path | None = None, after_each: Callable[[Report], None] | None = None
) -> Report:
    """Every case in turn.

    keep : a folder for the files of cases that went wrong; None to throw them away
    after_each : what else is to be done behind every case
    """
    report = Report()
    signal.signal(signal.SIGPROF, _give_up)
    with tempfile.TemporaryDirectory(prefix="lineplan-fuzz-", dir=_quick_folder()) as named:
        folder = Path(named)
        for number in numbers:
            before = len(report.faults)
            _run(case, number, folder, report)
            if keep is not None and len(report.faults) > before:
                shutil.copytree(folder, keep / f"case-{number}", dirs_exist_ok=True)
            for left in folder.iterdir():
                left.unlink()
            if after_each is not None:
                after_each(report)
    return report


def _quick_folder() -> str | None:
    """Where files are written to memory alone, if there is such a place: a quarter of the time of a broken file."""
    in_memory = "/dev/shm"
    return in_memory if os.access(in_memory, os.W_OK) else None


def _run(case: Case, number: int, folder: Path, report: Report) -> None:
    begun, size_mb = process_time(), _size_mb()
    report.count += 1
    signal.setitimer(signal.ITIMER_PROF, GIVEN_UP_S)
    try:
        report.came_to[case(number, folder)] += 1
    except (Exception, GivenUpError) as error:
        last = traceback.extract_tb(error.__traceback__)[-1]
        where = f"{Path(last.filename).name}:{last.lineno}"
        what = f"{type(error).__name__}: {str(error)[:200]}"
        told = "".join(traceback.format_exception(error))
        report.faults.append(Fault(number=number, what=what, where=where, told=told))
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0.0)
    took_s, grown_mb = process_time() - begun, _size_mb() - size_mb
    report.longest_s = max(report.longest_s, (took_s, number))
    if took_s > LONGEST_S:
        report.faults.append(Fault(number=number, what=f"took {took_s:.1f} s"))
    if grown_mb > MOST_MEMORY_MB:
        report.faults.append(Fault(number=number, what=f"grew by {grown_mb:.0f} MB"))


def _give_up(_signal: int, _frame: FrameType | None) -> None:
    raise GivenUpError(f"not done after {GIVEN_UP_S:.0f} s")


def _size_mb() -> float:
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
