"""Pairs drawn at random, each planned by itself beside its row: `python -m tests.planner.table.random_pairs 2000`.

A second number is what the questions about holes of one plan may cost, in rows: with 400000 many plans run out of it.
"""

import sys
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from random import Random
from typing import Any

from catalog import read_catalog
from planner import book_of, decide_case, look_of
from tests.planner.table.one_by_one import told_by_plan, told_by_table
from tests.planner.table.realistic import brakes_of, cases_of

PAIRS_A_CASE = 4


def pairs_told(
    cases_n: int, *, seed: int, shake: bool, plan_work_rows: int | None = None
) -> Iterator[tuple[str, dict[str, Any], dict[str, Any]]]:
    """What the plan and the row of some pairs say, with their names.

    plan_work_rows : what the questions of one plan may cost; None for what the starter's shop allows
    """
    workshop, brakes, draw = read_catalog().workshop, brakes_of(60), Random(f"pairs {seed}")
    if plan_work_rows is not None:
        workshop = replace(workshop, limits=replace(workshop.limits, plan_work_rows=plan_work_rows))
    looks = tuple(dict.fromkeys(map(look_of, brakes)))
    book = book_of(looks, workshop)
    for case in cases_of(cases_n, seed=seed, shake=shake):
        answers = decide_case(case=case, book=book)
        for brake in draw.sample(brakes, PAIRS_A_CASE):
            row = told_by_table(answers, looks.index(look_of(brake)), brake)
            yield f"{case.id} {brake.id}", told_by_plan(case, brake, workshop), row


def main(pairs_n: int, plan_work_rows: int | None = None) -> int:
    """Draw so many pairs, print what differs; returns how many do."""
    outcomes: Counter[str] = Counter()
    differ = 0
    for name, plan, row in pairs_told(pairs_n // PAIRS_A_CASE, seed=7, shake=False, plan_work_rows=plan_work_rows):
        outcomes[plan["outcome"].word] += 1
        if plan != row:
            differ += 1
            print(name, {key: (plan[key], row[key]) for key in plan if plan[key] != row[key]})
    print(f"{sum(outcomes.values())} pairs ({dict(outcomes)}): {differ} differ")
    return differ


if __name__ == "__main__":
    sys.exit(bool(main(*map(int, sys.argv[1:]))))
