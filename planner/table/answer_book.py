"""What is remembered from case to case: everything that one case asks and another asks again."""

from collections.abc import Hashable
from itertools import count

from planner.parts import Case, Fact, Method, Workshop
from planner.plan.job_facts import JobWay, find_job_facts
from planner.plan.job_time import expected_minutes
from planner.plan.work_order import holds_under
from planner.table.answers import PartsAnswer
from planner.table.ground import Ground, find_ground, plan_of_holes
from planner.table.kept import Kept
from planner.table.leg_book import LegBook
from planner.table.looks import Looks
from planner.table.manner_table import MannerTable, find_manner_table
from planner.table.manners import what_lies_in
from planner.table.pieces import PieceBook
from planner.table.places import PlaceBook

MOST_KEPT, MOST_MINUTES = 1_000, 100_000
MOST_KINDS = 64
"""Sets of manners that are kept; each has some thousand."""


class AnswerBook:
    """For one workshop and one set of looks; it lives as long as the process that works with it."""

    def __init__(self, looks: Looks, workshop: Workshop) -> None:
        self.looks, self.workshop = looks, workshop
        self.pieces = PieceBook()
        self.places = PlaceBook(workshop.limits, self.pieces)
        self.legs = LegBook()
        self.parts: Kept[tuple[tuple[PartsAnswer, ...], tuple[int, ...]]] = Kept(MOST_KEPT)
        self._grounds: Kept[Ground] = Kept(MOST_KEPT)
        self._manners: Kept[tuple[int, MannerTable]] = Kept(MOST_KINDS)
        self._kinds = count()
        self._minutes: Kept[float] = Kept(MOST_MINUTES)
        self._facts_min: Kept[float] = Kept(MOST_MINUTES)

    def ground(self, case: Case) -> Ground:
        """The ways of a case."""
        return self._grounds.once(plan_of_holes(case), lambda: find_ground(case))

    def manners(self, case: Case) -> tuple[int, MannerTable]:
        """The manners of all looks on a case, with a number for all that they hang on."""
        return self._manners.once(what_lies_in(case), lambda: (next(self._kinds), self._new_manners(case)))

    def _new_manners(self, case: Case) -> MannerTable:
        return find_manner_table(case=case, looks=self.looks, workshop=self.workshop, book=self.pieces)

    def work_min(self, way: JobWay, key: Hashable) -> float:
        """How long a way of doing a job takes.

        key : all that its facts hang on
        """
        return self._facts_min.once(key, lambda: self._minutes_of(way.method, find_job_facts(way)))

    def _minutes_of(self, method: Method, facts: frozenset[Fact]) -> float:
        return self._minutes.once((method.id, facts), lambda: self._expected_min(method, facts))

    def _expected_min(self, method: Method, facts: frozenset[Fact]) -> float:
        step_ids = [step.id for step in self.workshop.steps if holds_under(step, facts)]
        return float(expected_minutes(step_ids=step_ids, method=method, workshop=self.workshop))
