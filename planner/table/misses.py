"""Where nothing gets through: how near each method came, and the nearest of all."""

from dataclasses import dataclass

import numpy as np

from planner.rules import JointRule
from planner.table.case_work import Passed
from planner.table.manner_table import MannerTable
from planner.table.manners import Manner
from planner.table.pieces import Array
from planner.verdicts import Check, Outcome


class NotDecidedHere(Exception):  # noqa: N818  (named for what happened)
    """Two answers are so nearly alike that the plan of the pair itself has to tell them apart."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Miss:
    """How near one manner came.

    rank : as misses of one method are put in order by, least bad first; what is missing comes last [mm]
    check : what refuses it; None where a step does
    row : that is the manner's, where a step does
    """

    rank: tuple[int, bool, bool, float]
    check: Check | None
    row: int = -1

    @property
    def missing_mm(self) -> float:
        """As misses of several methods are put in order by; infinite where no place is to blame, or nobody knows."""
        return self.rank[3] if self.check is None and self.rank[3] else float("inf")


@dataclass(frozen=True, slots=True, kw_only=True)
class LeastBad:
    """The least bad way of some rows.

    outcome, missing_mm : its worst
    decided : by way, the first step that is so
    is_least : which ways are as little bad, and have the fewest steps of these
    """

    outcome: Array
    missing_mm: Array
    decided: Array
    is_least: Array

    def columns(self, row: int) -> list[int]:
        """The steps that may decide a row: one for each of the ways that may be the least bad."""
        return list(dict.fromkeys(self.decided[row][self.is_least[row]].tolist()))


def find_nearest_miss(*, table: MannerTable, look: int, least: LeastBad) -> Miss | None:
    """The nearest miss of a way class; None where there is no method at all.

    look : the way class
    least : of all rows
    """
    best: dict[str, Miss] = {}
    row = table.first_row[look]
    for manner in table.manners[look]:
        has_row = manner.mover is not None
        miss = _miss_of(manner, least, row if has_row else None)
        row += has_row
        if miss is not None and (manner.method.id not in best or miss.rank < best[manner.method.id].rank):
            best[manner.method.id] = miss
    return min(best.values(), key=lambda miss: miss.missing_mm, default=None)


def _miss_of(manner: Manner, least: LeastBad, row: int | None) -> Miss | None:
    refusing = manner.refusing
    if row is not None and (refusing is None or refusing.outcome is not Outcome.NO_FIT):
        rank = (int(least.outcome[row]), False, False, float(least.missing_mm[row]))
        return Miss(rank=rank, check=None, row=row)
    if refusing is None:
        return None
    missing_mm = 0.0 if refusing.clearance_mm is None else -refusing.clearance_mm
    is_last = refusing.rule is JointRule.LEADING_JOINT
    return Miss(rank=(int(refusing.outcome), True, is_last, missing_mm), check=refusing)


def find_least_bad(passed: Passed) -> LeastBad:
    """The least bad way of each row: outcome before millimetres, diameters before lengths at each step."""
    diameter, length = passed.diameter, passed.length
    is_by_diameter = diameter.outcomes >= Outcome.UNKNOWN
    outcome = np.where(is_by_diameter, diameter.outcomes, length.outcomes)
    missing = np.where(is_by_diameter, diameter.missing_mm, length.missing_mm)
    is_failing = outcome >= Outcome.UNKNOWN
    outcome, missing = np.where(is_failing, outcome, 0), np.where(is_failing, missing, -np.inf)
    ways = [_worst_on(outcome, missing, columns) for columns in passed.columns]
    worst, worst_mm = (np.stack([way[part] for way in ways], axis=1) for part in (0, 1))
    least = worst.min(axis=1)
    is_least = worst == least[:, None]
    least_mm = np.where(is_least, worst_mm, np.inf).min(axis=1)
    is_least &= worst_mm == least_mm[:, None]
    steps_n = np.array([len(columns) for columns in passed.columns])
    fewest_n = np.where(is_least, steps_n, np.iinfo(int).max).min(axis=1)
    return LeastBad(
        outcome=least,
        missing_mm=least_mm,
        decided=np.stack([way[2] for way in ways], axis=1),
        is_least=is_least & (steps_n == fewest_n[:, None]),
    )


def _worst_on(outcome: Array, missing: Array, columns: Array) -> tuple[Array, Array, Array]:
    """The worst on one way, and the first of its steps that is so."""
    on, on_mm = outcome[:, columns], missing[:, columns]
    worst = on.max(axis=1)
    worst_mm = np.where(on == worst[:, None], on_mm, -np.inf).max(axis=1)
    is_worst = (on == worst[:, None]) & (on_mm == worst_mm[:, None])
    return worst, worst_mm, columns[is_worst.argmax(axis=1)]
