"""What is known of the shared places: each hole with its things asked once, and the work counted."""

from collections.abc import Iterable
from dataclasses import dataclass, field

from planner.fit.hole_fit import NOT_MEASURED, check_things_in_room
from planner.geometry.packing.work import Allowance
from planner.parts import ShopLimits
from planner.routing.passage import allowance_of
from planner.rules import PLAN_WORK_RAN_OUT, PlaceRule
from planner.verdicts import Check, Outcome, Room, Thing, ThingKind

Size = tuple[float, float]
"""Diameter and tolerance of one thing [mm]."""

Question = tuple[Room, tuple[Size, ...]]
"""A place as it is, and the things in it, thickest first."""

MOST_PACKINGS = 3_000
"""The usual allowance of questions about several things in one hole; most visits need a hundred."""


class WorkRanOutError(Exception):
    """The allowance was used up before everything was looked at."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lenience:
    """What is overlooked while a reason is sought.

    lacking_mm : how much the diameters may be too large together, each by this [mm]
    endless : ids of ports and runs where nothing is asked
    """

    lacking_mm: float = 0.0
    endless: frozenset[str] = frozenset()


STRICT = Lenience()
"""Nothing is overlooked."""


@dataclass(slots=True)
class PlaceBook:
    """The memory of one visit; an answer is found once, and counted against the allowance.

    limits : the clearance wanted, and how much work one question may cost
    left : questions about two or more things that may still be asked
    asked_n : such questions so far
    unproven_n : how often neither a placement nor a proof decided
    known : what was found
    unproven : of these, what does not fit and was not asked for a proof
    allowance : the work that all questions may cost together; None for what the shop allows
    """

    limits: ShopLimits
    left: int = MOST_PACKINGS
    asked_n: int = 0
    unproven_n: int = 0
    known: dict[Question, Check] = field(default_factory=dict)
    unproven: set[Question] = field(default_factory=set)
    allowance: Allowance | None = None

    def ask(self, room: Room, sizes: Iterable[Size], *, proves_no: bool = True) -> Check:
        """Whether things of these sizes pass side by side.

        proves_no : whether "does not fit" is to be told from "not known"; what fits is found either way

        Raises WorkRanOutError where the allowance is used up.
        """
        key = (room, tuple(sorted(sizes, reverse=True)))
        if key not in self.known or (proves_no and key in self.unproven):
            self._spend(key[1])
            self.known[key] = self._find(*key, proves_no)
            if proves_no or self.known[key].outcome <= Outcome.TIGHT:
                self.unproven.discard(key)
            else:
                self.unproven.add(key)
        found = self.known[key]
        if found.outcome is Outcome.UNKNOWN and found.proof != NOT_MEASURED:
            self.unproven_n += 1
        return found

    def _spend(self, sizes: tuple[Size, ...]) -> None:
        if len(sizes) > 1:
            if self.left <= 0:
                raise WorkRanOutError
            self.left -= 1
            self.asked_n += 1

    def outcome(
        self, place_id: str, room: Room, sizes: Iterable[Size], lenience: Lenience, *, proves_no: bool
    ) -> Outcome:
        """The same as an outcome, with what is overlooked."""
        if place_id in lenience.endless:
            return Outcome.FITS
        check = self.ask(room, sizes, proves_no=proves_no)
        lacks_little = check.clearance_mm is not None and check.clearance_mm + lenience.lacking_mm >= 0
        return Outcome.TIGHT if check.outcome > Outcome.TIGHT and lacks_little else check.outcome

    def lacking_sizes_mm(self) -> list[float]:
        """What was seen to lack anywhere, least first [mm]."""
        seen = {-check.clearance_mm for check in self.known.values() if check.clearance_mm is not None}
        return sorted(size for size in seen if size > 0)

    def _find(self, room: Room, sizes: tuple[Size, ...], proves_no: bool) -> Check:
        things = [
            Thing(id=str(n), kind=ThingKind.LINE, diameter_mm=diameter_mm, tolerance_mm=tolerance_mm)
            for n, (diameter_mm, tolerance_mm) in enumerate(sizes)
        ]
        if self.allowance is None:
            self.allowance = allowance_of(self.limits)
        check = check_things_in_room(
            rule=PlaceRule.PORT_CLEARANCE,
            room=room,
            things=things,
            running_clearance_mm=self.limits.running_clearance_mm,
            allowance=self.allowance,
            proves_no=proves_no,
        )
        if check.proof == PLAN_WORK_RAN_OUT:
            raise WorkRanOutError
        return check
