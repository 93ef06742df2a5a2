"""What was found for one visit, kept so that it is planned again in the time of what changed."""

from dataclasses import dataclass, field
from typing import Any

from planner.parts import Visit, VisitLine, Workshop
from planner.plan.routing_plan import RoutingPlan
from planner.verdicts import Check
from planner.whole_bike.changes import Change
from planner.whole_bike.place_book import Question

UnitKey = tuple[tuple[VisitLine, ...], bool]
"""The line, or the lines of one draw, and whether the old one is taken out first."""


@dataclass(slots=True)
class VisitMemory:
    """Handed to `plan_visit` again and again; one thread at a time.

    The ways of a line hang on the line, the frame and what the job allows, and not on the other lines; a step on what
    lies in the places of its way; a hole on what lies in it. So a changed line, a wish or a line more costs what is new
    with it. Another frame or another workshop forgets all but the holes.

    places, unproven : of the memory of the places
    changes, steps, plans : of lines, of steps, and of lines at their moments
    """

    places: dict[Question, Check] = field(default_factory=dict)
    unproven: set[Question] = field(default_factory=set)
    changes: dict[UnitKey, tuple[Change, ...]] = field(default_factory=dict)
    steps: dict[tuple[object, ...], Any] = field(default_factory=dict)
    plans: dict[tuple[object, ...], RoutingPlan] = field(default_factory=dict)
    _about: tuple[object, ...] = ()

    def turn_to(self, visit: Visit, workshop: Workshop) -> None:
        """Forget what does not hold of this visit."""
        about = (
            visit.id,
            visit.title,
            visit.staying,
            visit.may_remove_inserts,
            visit.keeps_old_brake,
            visit.frame,
            workshop,
        )
        if about == self._about:
            return
        if not self._about or workshop.limits != self._limits:
            self.places.clear()
            self.unproven.clear()
        self.changes.clear()
        self.steps.clear()
        self.plans.clear()
        self._about = about

    @property
    def _limits(self) -> object:
        workshop = self._about[-1]
        return workshop.limits if isinstance(workshop, Workshop) else None
