"""Which single measurement, made carefully, would tell most about whether things fit."""

from collections.abc import Iterator, Sequence
from math import erf, sqrt
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

from planner.fit.clearance_model import (
    DEVIATIONS_IN_TOLERANCE,
    ClearanceModel,
    find_clearance_model,
)
from planner.fit.fit_chance import find_chance_of_fit
from planner.fit.hole_fit import check_things_in_room
from planner.fit.measure_lean import find_lean_readings
from planner.geometry.packing.work import Allowance
from planner.parts import Opening, is_gauged
from planner.quick_dataclass import dataclass
from planner.rules import PlaceRule
from planner.verdicts import Check, Outcome, Room, Thing, fit_outcome_of

CAREFUL_TOLERANCE_MM = 0.02
"""What a careful measurement leaves open: plus or minus, two standard deviations."""

_READINGS = 41

ROUNDS_TO_NONE = 0.01
"""Shares nearer to 0 or 1 than this are told by words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A place where things share an opening.

    id : of the port, guide or zone
    label : what people call it; "" to call it by its id
    room : the hole there
    things : what shares it
    names : what people call the things that go by an id
    """

    id: str
    room: Room
    things: tuple[Thing, ...]
    label: str = ""
    names: tuple[tuple[str, str], ...] = ()

    @property
    def called(self) -> str:
        """What people call it."""
        return self.label or self.id

    def name_of(self, what: str) -> str:
        """What people call a size: that of a line beside by the line's name."""
        return dict(self.names).get(what, what)


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasureFirst:
    """One measurement worth making.

    place_id : where
    what : "opening", "opening length" and the like, or the id of an item
    outcome : as it stands
    clearance_mm : at nominal sizes; None when not measured [mm]
    chance_ratio : of fitting as it stands; None when not measured
    outcome_change_ratio : how often the measurement would change the outcome; 1 where nothing was measured
    narrowing_ratio : how much of the doubt about fitting it takes away on average; 1 where nothing was measured
    reason : one sentence, with the figures
    """

    place_id: str
    what: str
    outcome: Outcome
    clearance_mm: float | None
    chance_ratio: float | None
    outcome_change_ratio: float
    narrowing_ratio: float
    reason: str


def rank_measurements(
    *, places: Sequence[Place], running_clearance_mm: float, allowance: Allowance | None = None
) -> tuple[MeasureFirst, ...]:
    """What to measure first, best first.

    Every size is independent and normal, its tolerance two standard deviations. A careful measurement gives a size to
    0.02 mm; the reading itself is not known beforehand, so every reading is weighed by how likely it is. First come
    openings that nobody measured, then what changes the outcome most often, then what takes away most doubt.

    Returns without measurements that would change the outcome less than once in a hundred times.

    places : where things share an opening
    running_clearance_mm : what the shop wants to be left in the worst case
    allowance : the work that questions may cost; None for the usual of one; where it ran out nothing is asked

    Raises ImpossibleDimensionError when a size is not one that a workshop could measure.

    Source: H. Raiffa, R. Schlaifer, "Applied statistical decision theory", Harvard, 1961, for weighing a measurement
    before it is made; from memory.
    """
    found: list[MeasureFirst] = []
    for place in places:
        if place.room.opening is None:
            found.append(_nothing_measured(place))
        elif is_gauged(place.room.opening):
            if _asked(place, running_clearance_mm, allowance).outcome is not Outcome.FITS:
                found.append(_nothing_measured(place))
        else:
            found.extend(_measurements_at(place, place.room.opening, running_clearance_mm, allowance))
    return tuple(
        sorted(found, key=lambda one: (-one.outcome_change_ratio, -one.narrowing_ratio, one.place_id, one.what))
    )


def _nothing_measured(place: Place) -> MeasureFirst:
    return MeasureFirst(
        place_id=place.id,
        what="opening",
        outcome=Outcome.UNKNOWN,
        clearance_mm=None,
        chance_ratio=None,
        outcome_change_ratio=1.0,
        narrowing_ratio=1.0,
        reason=_why_measure(place),
    )


def _why_measure(place: Place) -> str:
    if place.room.opening is None:
        return f"Nobody has measured the opening of {place.called}, so nothing can be said about it."
    return f"Of the opening of {place.called} only {place.room.opening.words} is sure, by what went in: measure it."


def _asked(place: Place, running_clearance_mm: float, allowance: Allowance | None) -> Check:
    return check_things_in_room(
        rule=PlaceRule.PORT_CLEARANCE,
        room=place.room,
        things=place.things,
        running_clearance_mm=running_clearance_mm,
        allowance=allowance,
    )


def _measurements_at(
    place: Place, opening: Opening, running_clearance_mm: float, allowance: Allowance | None
) -> list[MeasureFirst]:
    fit = _asked(place, running_clearance_mm, allowance)
    if fit.clearance_mm is None or fit.worst_clearance_mm is None:
        return []  # not asked: the work allowed ran out
    model = find_clearance_model(
        opening=opening,
        tilt_deg=place.room.tilt_deg,
        wall_thickness_mm=place.room.wall_thickness_mm,
        items=place.things,
        most_work=None if allowance is None else allowance.each_rows,
    )
    chance = find_chance_of_fit(
        opening=opening,
        tilt_deg=place.room.at_worst.tilt_deg,
        wall_thickness_mm=place.room.at_worst.wall_thickness_mm,
        items=place.things,
        allowance=allowance,
    )
    if chance is None:
        return []
    found = list(_lean_measurements(place, fit, chance, running_clearance_mm, allowance))
    for index, what in enumerate(model.names):
        changes = _outcome_changes(model, index, fit.clearance_mm, fit.worst_clearance_mm, running_clearance_mm)
        if changes >= ROUNDS_TO_NONE:
            found.append(
                MeasureFirst(
                    place_id=place.id,
                    what=what,
                    outcome=fit.outcome,
                    clearance_mm=fit.clearance_mm,
                    chance_ratio=chance,
                    outcome_change_ratio=changes,
                    narrowing_ratio=_doubt_taken(model, index, chance),
                    reason=_reason(place.called, place.name_of(what), model, index, chance, changes),
                )
            )
    return found


def _lean_measurements(
    place: Place, fit: Check, chance: float, running_clearance_mm: float, allowance: Allowance | None
) -> Iterator[MeasureFirst]:
    """Tilt and wall, where they were told as a range that decides."""
    for one in find_lean_readings(
        room=place.room,
        things=place.things,
        outcome=fit.outcome,
        running_clearance_mm=running_clearance_mm,
        allowance=allowance,
    ):
        if one.changes_ratio >= ROUNDS_TO_NONE:
            yield MeasureFirst(
                place_id=place.id,
                what=one.what,
                outcome=fit.outcome,
                clearance_mm=fit.clearance_mm,
                chance_ratio=chance,
                outcome_change_ratio=one.changes_ratio,
                narrowing_ratio=one.changes_ratio,
                reason=(
                    f"The {one.what} at {place.called} is known to {one.low:g} to {one.high:g}{one.unit}; measured it"
                    f" would change the outcome {_share(one.changes_ratio)} of the time."
                ),
            )


def _readings(model: ClearanceModel, index: int) -> NDArray[np.float64]:
    """Equally likely readings of one size, as differences to its nominal value. [mm]"""
    left = min(CAREFUL_TOLERANCE_MM / DEVIATIONS_IN_TOLERANCE, float(model.deviations_mm[index]))
    spread = sqrt(float(model.deviations_mm[index]) ** 2 - left**2)
    normal = NormalDist()
    return spread * np.array([normal.inv_cdf((k + 0.5) / _READINGS) for k in range(_READINGS)])


def _outcome_changes(
    model: ClearanceModel, index: int, nominal_mm: float, worst_mm: float, running_clearance_mm: float
) -> float:
    """Share of readings after which the outcome is another."""
    slope = float(model.slopes[0, index])
    tolerance = DEVIATIONS_IN_TOLERANCE * float(model.deviations_mm[index])
    gained = abs(slope) * max(0.0, tolerance - CAREFUL_TOLERANCE_MM)
    before = fit_outcome_of(nominal_mm=nominal_mm, worst_mm=worst_mm, running_clearance_mm=running_clearance_mm)
    after = [
        fit_outcome_of(
            nominal_mm=nominal_mm + slope * reading,
            worst_mm=worst_mm + gained + slope * reading,
            running_clearance_mm=running_clearance_mm,
        )
        for reading in _readings(model, index).tolist()
    ]
    return sum(outcome is not before for outcome in after) / len(after)


def _doubt_taken(model: ClearanceModel, index: int, chance: float) -> float:
    """Share of the doubt chance * (1 - chance) that a reading takes away, averaged over the readings."""
    doubt = chance * (1 - chance)
    if doubt == 0:
        return 0.0
    pull = model.slopes[0] * model.deviations_mm
    left = min(CAREFUL_TOLERANCE_MM / DEVIATIONS_IN_TOLERANCE, float(model.deviations_mm[index]))
    pull[index] = model.slopes[0, index] * left
    spread = max(float(np.sqrt(pull @ pull)), 1e-12)
    # The line that stands for all of them is moved so that it gives the chance as it stands.
    whole = model.slopes[0] * model.deviations_mm
    middle = NormalDist().inv_cdf(chance) * float(np.sqrt(whole @ whole))
    after = [  # (1 + erf) / 2 times (1 - erf) / 2
        (1 - erf((middle + float(model.slopes[0, index]) * reading) / spread / sqrt(2)) ** 2) / 4
        for reading in _readings(model, index).tolist()
    ]
    return max(0.0, 1 - sum(after) / len(after) / doubt)


def _reason(called: str, what: str, model: ClearanceModel, index: int, chance: float, changes: float) -> str:
    tolerance = DEVIATIONS_IN_TOLERANCE * float(model.deviations_mm[index])
    much = abs(float(model.slopes[0, index])) * tolerance
    return (
        f"The {what} at {called} is known to ±{tolerance:.2f} mm, worth {much:.2f} mm of clearance; measured to "
        f"±{CAREFUL_TOLERANCE_MM:.2f} mm it would change the outcome {_share(changes)} of the time "
        f"(chance of fitting now {_share(chance)})."
    )


def _share(ratio: float) -> str:
    """A share in percent; what is not certain is never rounded to certainty."""
    if 0 < ratio < ROUNDS_TO_NONE:
        return "less than 1 %"
    if 1 - ROUNDS_TO_NONE < ratio < 1:
        return "more than 99 %"
    return f"{100 * ratio:.0f} %"
