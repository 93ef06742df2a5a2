"""How a check ends: from fits to does not fit, with the numbers that decided it."""

from collections.abc import Iterable
from dataclasses import replace
from enum import StrEnum

from planner.outcomes import FitClass, NoWay, Outcome, State
from planner.parts.openings import Opening
from planner.quick_dataclass import dataclass
from planner.rules import Rule

__all__ = [
    "Check",
    "FitClass",
    "InsertPlace",
    "NoWay",
    "Outcome",
    "Placement",
    "Pose",
    "Room",
    "State",
    "Thing",
    "ThingKind",
    "fit_class_of",
    "fit_outcome_of",
    "worst_of",
]


class ThingKind(StrEnum):
    """What moves through a place, or lies in it."""

    JOINT = "joint"
    FITTING = "fitting"
    LINE = "line"
    OTHER = "other"


@dataclass(frozen=True, slots=True, kw_only=True)
class Thing:
    """A round thing that a place is asked about: a line, a joint, a fitting.

    id : what it is called in checks
    diameter_mm : outside, nominal; of a joint or fitting its largest section
    tolerance_mm : plus or minus
    rigid_length_mm : of the part that does not bend; 0 for what is soft all along
    """

    id: str
    kind: ThingKind
    diameter_mm: float
    tolerance_mm: float
    rigid_length_mm: float = 0.0


class InsertPlace(StrEnum):
    """Where the insert of a port is at the moment asked about."""

    NONE = "none"
    IN = "in"
    OUT = "out"


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """What a thing is held against: a hole as the lines see it, and the cavity behind it.

    opening : the hole that decides; None when nobody measured it
    tilt_deg : how far the lines lean in it
    wall_thickness_mm : of the wall it goes through
    insert : whether there is an insert, and where
    corridor_mm : clear width of the cavity behind; None when not measured or not asked about
    tilt_tolerance_deg, wall_tolerance_mm : plus or minus on how the lines lean, and on the wall
    """

    opening: Opening | None
    tilt_deg: float = 0.0
    wall_thickness_mm: float = 0.0
    insert: InsertPlace = InsertPlace.NONE
    corridor_mm: float | None = None
    tilt_tolerance_deg: float = 0.0
    wall_tolerance_mm: float = 0.0

    @property
    def is_spread(self) -> bool:
        """Whether tilt or wall may be off."""
        return self.tilt_tolerance_deg > 0 or self.wall_tolerance_mm > 0

    @property
    def at_worst(self) -> "Room":
        """The same with the lines leaning the most, through the thickest wall: no hole is seen smaller."""
        return _leaning(self, 1)

    @property
    def at_best(self) -> "Room":
        """The same with the lines leaning the least, through the thinnest wall."""
        return _leaning(self, -1)


def _leaning(room: Room, sign: int) -> Room:
    return replace(
        room,
        tilt_deg=max(0.0, room.tilt_deg + sign * room.tilt_tolerance_deg),
        wall_thickness_mm=max(0.0, room.wall_thickness_mm + sign * room.wall_tolerance_mm),
        tilt_tolerance_deg=0.0,
        wall_tolerance_mm=0.0,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Placement:
    """Where round things lie side by side in a hole: the proof of a clearance, ready to be drawn.

    centres_mm : (x, y) of each thing, x along the opening's length, measured from the opening's middle
    diameters_mm : the outer diameter of each thing, in the same order
    """

    centres_mm: tuple[tuple[float, float], ...]
    diameters_mm: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pose:
    """One moment of a rigid piece on its way through a wall.

    x_mm, y_mm : middle of the piece; x along the tube from the middle of the opening, y into the cavity from the
        wall's inner face (negative: outside)
    tilt_deg : angle of the piece's axis against the tube; 0 lies along it, 90 points straight in
    """

    x_mm: float
    y_mm: float
    tilt_deg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One question asked of one place, with the answer and the numbers behind it.

    rule : the rule asked; its row says what the numbers are and how they are told
    state : while drawing, while riding, or None where the question is not about a moment
    port_id, run_id : the place; None where it is not about one
    thing : what was checked; None where the question is not about a thing that moves
    room : what it was held against; None likewise
    with_ids : what shares the place with the thing checked
    size_mm : size of the thing checked
    available_mm : the room it was held against
    clearance_mm : room minus size at nominal sizes; negative is what is missing; None when not measured
    worst_clearance_mm : the same with every size at its worse limit
    fit_class : ISO 286-1 class, None when not measured
    outcome : the answer
    band_mm : where the answer is not proven, the clearance lies between these two
    proof : what a clearance rests on: "placement", an argument against, or "not measured"; "" where it needs none
    placement : proof that the things lie side by side, where there is one
    motion : proof that a rigid piece gets through, where there is one
    note : a short fact that the sentence may quote
    """

    rule: Rule
    outcome: Outcome
    state: State | None = None
    port_id: str | None = None
    run_id: str | None = None
    thing: Thing | None = None
    room: Room | None = None
    with_ids: tuple[str, ...] = ()
    size_mm: float | None = None
    available_mm: float | None = None
    clearance_mm: float | None = None
    worst_clearance_mm: float | None = None
    fit_class: FitClass | None = None
    band_mm: tuple[float, float] | None = None
    proof: str = ""
    placement: Placement | None = None
    motion: tuple[Pose, ...] | None = None
    note: str = ""

    @property
    def is_insert_in(self) -> bool:
        """Whether the insert of the hole was in place."""
        return self.room is not None and self.room.insert is InsertPlace.IN

    @property
    def key(self) -> str:
        """A name for this question that no other check of a place in the same plan has."""
        thing = "" if self.thing is None else f"{self.thing.kind}:{self.thing.id}"
        return "|".join(str(part or "") for part in (self.rule, self.state, self.port_id, self.run_id, thing))


def worst_of(checks: Iterable[Check], *, of_nothing: Outcome) -> Outcome:
    """The outcome of several checks together: that of the worst.

    of_nothing : what it means that there is none: FITS where nothing stands in the way, UNKNOWN where nothing is proven
    """
    return max((check.outcome for check in checks), default=of_nothing)


_ROUNDING_MM = 1e-9
"""What adding and taking away sizes leaves where nothing should be left."""


def fit_class_of(*, worst_clearance_mm: float, best_clearance_mm: float) -> FitClass:
    """The ISO 286-1 class of a fit from its two limits; exactly no room is an extreme of the classes beside transition.

    Source: ISO 286-1:2010, "Geometrical product specifications - ISO code system for tolerances on linear sizes",
    clause 3.3 (clearance fit, interference fit, transition fit); from memory of the standard.
    """
    if worst_clearance_mm >= -_ROUNDING_MM:
        return FitClass.CLEARANCE
    return FitClass.INTERFERENCE if best_clearance_mm <= _ROUNDING_MM else FitClass.TRANSITION


def fit_outcome_of(*, nominal_mm: float, worst_mm: float, running_clearance_mm: float) -> Outcome:
    """FITS, TIGHT or NO_FIT from the clearance at nominal sizes and at the worse limits.

    Common practice, no source: a line that is to slide wants the shop's running clearance even in the worst
    case.
    """
    if nominal_mm < 0:
        return Outcome.NO_FIT
    return Outcome.FITS if worst_mm >= running_clearance_mm else Outcome.TIGHT
