"""The long run, `python -m tests.fuzz --files 100000 --jobs 10000 --holes 100000`: prints what it came to.

Ends with 1 for a fault.
"""

import argparse
import os
import sys
from functools import partial
from pathlib import Path
from time import monotonic

from tests.fuzz.cases import hole_question, mutated_file, random_job
from tests.fuzz.runs import Report, run_cases

FOLLOWS_EVERY_N, PLANS_EVERY_N, PRINTS_EVERY_N = 10, 5, 10
"""Of broken files one in ten is read beside its catalog, and one in five of those that are sound is planned with; of
random jobs, all planned and drawn, one in ten is printed. Each takes many times as long as what goes before."""

TOLD_EVERY_N = 500


def main() -> int:
    """Run as many cases as asked, and tell what went wrong, alike faults once."""
    asked = argparse.ArgumentParser(prog="python -m tests.fuzz", description=__doc__)
    asked.add_argument("--files", type=int, default=1000, help="how many broken files")
    asked.add_argument("--jobs", type=int, default=10, help="how many random jobs")
    asked.add_argument("--holes", type=int, default=0, help="how many questions about random holes")
    asked.add_argument(
        "--first", type=int, default=0, help="number of the first case, to go on where a run was stopped"
    )
    asked.add_argument("--keep", type=Path, help="a folder for the files of cases that went wrong")
    words = asked.parse_args()
    os.environ["LINEPLAN_CACHE"] = "off"  # nobody asks twice for one of these files
    file_case = partial(mutated_file, follows_every_n=FOLLOWS_EVERY_N, plans_every_n=PLANS_EVERY_N)
    job_case = partial(random_job, prints_every_n=PRINTS_EVERY_N)
    faults_n = 0
    for name, case, count in (
        ("broken files", file_case, words.files),
        ("random jobs", job_case, words.jobs),
        ("questions about holes", hole_question, words.holes),
    ):
        if not count:
            continue
        begun = monotonic()
        keep = words.keep and words.keep / name.replace(" ", "-")
        numbers = range(words.first, words.first + count)
        report = run_cases(case, numbers, keep=keep, after_each=partial(_tell_now_and_then, name, words.first))
        print(f"{name}: {count} cases in {monotonic() - begun:.0f} s", dict(report.came_to.most_common()))
        _tell(report)
        faults_n += len(report.faults)
    return 1 if faults_n else 0


def _tell_now_and_then(name: str, first: int, report: Report) -> None:
    """How far a long run is, so that one that is stopped can be gone on with and is not lost."""
    if report.count % TOLD_EVERY_N == 0:
        print(f"    {name} {first} to {first + report.count - 1}: {len(report.faults)} faults", flush=True)


def _tell(report: Report) -> None:
    took_s, number = report.longest_s
    print(f"slowest: {took_s:.1f} s, case {number}; faults: {len(report.faults)}")
    alike: dict[str, list[int]] = {}
    for fault in report.faults:
        alike.setdefault(f"{fault.what.split(':')[0]} at {fault.where}", []).append(fault.number)
        if len(alike[f"{fault.what.split(':')[0]} at {fault.where}"]) == 1:
            print(fault.told or fault.what)
    for words, numbers in alike.items():
        print(f"{len(numbers)} x {words}: cases {numbers[:20]}")


if __name__ == "__main__":
    sys.exit(main())
