"""What is remembered from case to case: everything that one case asks and another asks again."""

from collections.abc import Hashable

from planner.parts import Case, Fact, Method, Workshop
from planner.plan.job_facts import JobWay, find_job_facts
from planner.plan.job_time import expected_minutes
from planner.plan.work_order import holds_under
from planner.table.answers import PartsAnswer
from planner.table.ground import Ground, find_ground, plan_of_holes
from planner.table.leg_book import LegBook
from planner.table.looks import Looks
from planner.table.manner_table import MannerTable, find_manner_table
from planner.table.manners import what_lies_in
from planner.table.pieces import PieceBook
from planner.table.places import PlaceBook


class AnswerBook:
    """For one workshop and one set of looks; it lives as long as the process that works with it."""

    def __init__(self, looks: Looks, workshop: Workshop) -> None:
        self.looks, self.workshop = looks, workshop
        self.pieces = PieceBook()
        self.places = PlaceBook(workshop.limits, self.pieces)
        self.legs = LegBook()
        self.parts: dict[Hashable, tuple[tuple[PartsAnswer, ...], tuple[int, ...]]] = {}
        self._grounds: dict[Hashable, Ground] = {}
        self._manners: dict[Hashable, tuple[int, MannerTable]] = {}
        self._minutes: dict[Hashable, float] = {}
        self._facts_min: dict[Hashable, float] = {}

    def ground(self, case: Case) -> Ground:
        """The ways of a case."""
        key = plan_of_holes(case)
        found = self._grounds.get(key)
        if found is None:
            found = self._grounds[key] = find_ground(case)
        return found

    def manners(self, case: Case) -> tuple[int, MannerTable]:
        """The manners of all looks on a case, with a number for all that they hang on."""
        key = what_lies_in(case)
        found = self._manners.get(key)
        if found is None:
            table = find_manner_table(case=case, looks=self.looks, workshop=self.workshop, book=self.pieces)
            found = self._manners[key] = (len(self._manners), table)
        return found

    def work_min(self, way: JobWay, key: Hashable) -> float:
        """How long a way of doing a job takes.

        key : all that its facts hang on
        """
        found = self._facts_min.get(key)
        if found is None:
            found = self._facts_min[key] = self._minutes_of(way.method, find_job_facts(way))
        return found

    def _minutes_of(self, method: Method, facts: frozenset[Fact]) -> float:
        key = (method.id, facts)
        found = self._minutes.get(key)
        if found is None:
            step_ids = [step.id for step in self.workshop.steps if holds_under(step, facts)]
            minutes = expected_minutes(step_ids=step_ids, method=method, workshop=self.workshop)
            found = self._minutes[key] = float(minutes)
        return found
