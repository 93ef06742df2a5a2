"""Do these round things pass this hole side by side, at nominal sizes and with every size at its worse limit?"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache, partial

from planner.geometry.openings.opening_shape import opening_at_limit
from planner.geometry.packing.set_clearance import (
    SetClearance,
    Variant,
    find_set_clearance,
    find_varied_clearances,
    follow_clearance,
)
from planner.geometry.packing.work import Allowance
from planner.outcomes import FitClass
from planner.parts import Opening, is_gauged
from planner.rules import GAUGED, PLAN_WORK_RAN_OUT, SPREAD, Rule
from planner.rules import WORK_RAN_OUT as WORK_RAN_OUT
from planner.verdicts import Check, Outcome, Room, State, Thing, fit_class_of, fit_outcome_of

NOT_MEASURED = "not measured"
"""What the answer rests on where nobody measured the hole."""

Sizes = tuple[tuple[float, float], ...]
"""Diameter and tolerance of each thing."""


def check_things_in_room(
    *,
    rule: Rule,
    room: Room,
    things: Sequence[Thing],
    running_clearance_mm: float,
    allowance: Allowance | None = None,
    proves_no: bool = True,
    state: State | None = None,
    port_id: str | None = None,
    run_id: str | None = None,
) -> Check:
    """Whether round things pass a hole side by side, and with how much to spare.

    Where tilt or wall may be off, the worst case takes the most of both; and a no is told only where the least of both
    is a no too. A hole known by a gauge that went in may be larger: it is never a no. The cavity behind is not asked.

    Returns the placement as its proof. UNKNOWN when the opening was not measured, or where neither a placement nor a
    proof decides.

    things : the thing asked about, whose room is told, then what lies beside it
    running_clearance_mm : wanted in the worst case, diametral
    allowance : the work that this and other questions may cost; None for the usual of one question; where it runs out
        undecided, the proof says so
    proves_no : whether "does not fit" is to be told from "not known"; what fits is found either way

    Raises ImpossibleDimensionError when a size is not one that a workshop could measure.

    Source: ISO 286-1:2010 for the classes of fit, from memory; the limits are common practice, no source.
    """
    if room.opening is None:
        found = Check(rule=rule, outcome=Outcome.UNKNOWN, proof=NOT_MEASURED)
    else:
        sizes = tuple((thing.diameter_mm, thing.tolerance_mm) for thing in things)
        found = _check_in(rule, room, room.opening, sizes, running_clearance_mm, allowance or Allowance(), proves_no)
    return replace(
        found,
        state=state,
        port_id=port_id,
        run_id=run_id,
        thing=things[0],
        room=room,
        with_ids=tuple(thing.id for thing in things[1:]),
        size_mm=things[0].diameter_mm,
    )


def _check_in(
    rule: Rule,
    room: Room,
    opening: Opening,
    sizes: Sizes,
    running_clearance_mm: float,
    allowance: Allowance,
    proves_no: bool,
) -> Check:
    question = (opening, room, sizes, running_clearance_mm, proves_no)
    if not allowance.may_ask(question):
        return Check(rule=rule, outcome=Outcome.UNKNOWN, proof=PLAN_WORK_RAN_OUT, note=PLAN_WORK_RAN_OUT)
    cost_rows = 0

    def asked(seen: Room) -> Check:
        nonlocal cost_rows
        answer = _check_measured(
            rule,
            opening,
            seen.tilt_deg,
            seen.wall_thickness_mm,
            sizes,
            running_clearance_mm,
            allowance.each_rows,
            proves_no,
        )
        cost_rows += answer.work_rows
        return answer.check

    found = asked(room)
    if room.is_spread:
        found = _with_spread(found, worst=asked(room.at_worst), best=asked(room.at_best), running=running_clearance_mm)
    allowance.note(question, cost_rows)
    if is_gauged(opening):
        found = replace(found, fit_class=None)
        if found.outcome is Outcome.NO_FIT:
            found = replace(found, outcome=Outcome.UNKNOWN, proof=GAUGED, note=GAUGED)
    return found


def _with_spread(found: Check, *, worst: Check, best: Check, running: float) -> Check:
    """The answer in the middle, with its worst case and its no where the tilt or the wall may be off."""
    worst_mm = worst.worst_clearance_mm
    told = replace(found, worst_clearance_mm=worst_mm, fit_class=None)
    if found.outcome is Outcome.NO_FIT and best.outcome is not Outcome.NO_FIT:
        return replace(told, outcome=Outcome.UNKNOWN, proof=SPREAD, note=SPREAD)
    if found.outcome is Outcome.FITS and (worst_mm is None or worst_mm < running):
        return replace(told, outcome=Outcome.TIGHT)
    return told


@dataclass(frozen=True, slots=True, kw_only=True)
class _Answer:
    """A check, and what it cost to find, remembered or not."""

    check: Check
    work_rows: int


@lru_cache(maxsize=4096)
def _check_measured(
    rule: Rule,
    opening: Opening,
    tilt_deg: float,
    wall_thickness_mm: float,
    sizes: Sizes,
    running_clearance_mm: float,
    most_work: int,
    proves_no: bool,
) -> _Answer:
    """Remembered: a plan asks the same hole for every method and from both ends."""
    clearance_of = partial(
        find_set_clearance,
        tilt_deg=tilt_deg,
        wall_thickness_mm=wall_thickness_mm,
        most_work=most_work,
        proves_no=proves_no,
    )
    middle, worse, better = (_at_limit(opening, sizes, limit) for limit in (0, -1, 1))
    nominal = clearance_of(opening=middle.opening, diameters_mm=middle.diameters_mm)
    varied = partial(
        find_varied_clearances,
        nominal=middle,
        tilt_deg=tilt_deg,
        wall_thickness_mm=wall_thickness_mm,
        most_work=most_work,
    )
    (worst,) = varied(variants=(worse,))
    cost_rows = nominal.work_rows + worst.work_rows
    if worst.clearance_mm > nominal.clearance_mm:
        nominal = follow_clearance(  # what holds in the worst case holds at nominal sizes all the more
            opening=opening,
            tilt_deg=tilt_deg,
            wall_thickness_mm=wall_thickness_mm,
            clearance=nominal,
            placement=worst.placement,
        )
    best = worst  # whose class is a clearance already where there is room at the worse limit
    if worst.clearance_mm < 0:
        (best,) = varied(variants=(better,))
        cost_rows += best.work_rows
        if proves_no and best.clearance_mm < 0:
            best = clearance_of(opening=better.opening, diameters_mm=better.diameters_mm)
            cost_rows += best.work_rows
    is_proven = nominal.clearance_mm >= 0 or nominal.upper_bound_mm < 0
    outcome = fit_outcome_of(
        nominal_mm=nominal.clearance_mm, worst_mm=worst.clearance_mm, running_clearance_mm=running_clearance_mm
    )
    fit_class = fit_class_of(worst_clearance_mm=worst.clearance_mm, best_clearance_mm=best.clearance_mm)
    at_most = fit_class_of(worst_clearance_mm=worst.clearance_mm, best_clearance_mm=best.upper_bound_mm)
    proof = _proof_of(nominal, is_proven=is_proven)
    check = Check(
        rule=rule,
        outcome=outcome if is_proven else Outcome.UNKNOWN,
        available_mm=nominal.clearance_mm + sizes[0][0],
        clearance_mm=nominal.clearance_mm,
        worst_clearance_mm=worst.clearance_mm,
        fit_class=fit_class if fit_class is not FitClass.INTERFERENCE or at_most is fit_class else None,
        band_mm=None if is_proven else (nominal.clearance_mm, nominal.upper_bound_mm),
        proof=proof,
        note=WORK_RAN_OUT if proof == WORK_RAN_OUT else "",
        placement=nominal.placement,
    )
    return _Answer(check=check, work_rows=cost_rows)


def _proof_of(nominal: SetClearance, *, is_proven: bool) -> str:
    if nominal.clearance_mm >= 0:
        return "placement"
    return WORK_RAN_OUT if nominal.is_cut_short and not is_proven else nominal.proof


def _at_limit(opening: Opening, sizes: Sizes, limit: int) -> Variant:
    """Every size at its nominal (0), worse (-1) or better (1) limit."""
    return Variant(
        opening=opening if limit == 0 else opening_at_limit(opening=opening, is_larger=limit > 0),
        diameters_mm=tuple(diameter_mm - limit * tolerance_mm for diameter_mm, tolerance_mm in sizes),
    )
