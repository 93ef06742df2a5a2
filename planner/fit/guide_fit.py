"""What passes a guide: round things through its bore, and rigid pieces round its bend."""

from collections.abc import Sequence
from dataclasses import replace
from math import inf

from planner.fit.hole_fit import check_things_in_room
from planner.geometry.packing.work import Allowance
from planner.geometry.rigid.rigid_in_bend import longest_rigid_in_bend_mm
from planner.parts import Guide, RoundOpening
from planner.rules import PlaceRule
from planner.verdicts import Check, Outcome, Room, State, Thing, fit_outcome_of


def check_line_in_guide(
    *,
    guide: Guide,
    run_id: str,
    state: State,
    item: Thing,
    running_clearance_mm: float,
    allowance: Allowance | None = None,
    beside: Sequence[Thing] = (),
    proves_no: bool = True,
) -> Check:
    """Whether a round thing passes the bore of a guide, beside what lies in it already.

    The bore is taken as round and the same all along, also in the bend.

    Returns rule `guide_bore`. The size is the item's diameter; the clearances are those of all things together.

    state : while drawing or while riding
    item : what is checked
    running_clearance_mm : clearance the shop wants in the worst case
    allowance : the work that questions may cost; None for the usual of one
    beside : what shares the bore; empty for nothing
    proves_no : whether "does not fit" is to be told from "not known"
    """
    bore = RoundOpening(diameter_mm=guide.bore_diameter_mm, tolerance_mm=guide.tolerance_mm)
    return check_things_in_room(
        rule=PlaceRule.GUIDE_BORE,
        room=Room(opening=bore),
        things=(item, *beside),
        running_clearance_mm=running_clearance_mm,
        allowance=allowance,
        proves_no=proves_no,
        state=state,
        run_id=run_id,
    )


def check_rigid_in_guide(
    *,
    guide: Guide,
    run_id: str,
    state: State,
    item: Thing,
) -> Check:
    """Whether a rigid piece, a joint or a fitting, gets round the bend of a guide.

    Guide and piece are stiff and the guide has straight legs before and after its bend. The clearance here is a spare
    length, not a sliding gap: no running clearance is asked of it, and it has no fit class.

    Returns rule `guide_bend`. Available is the longest piece that passes, 0 where the piece is wider than the bore;
    the worst case takes a bore smaller and a piece thicker by their tolerances. UNKNOWN when the bend's radius was
    not measured; FITS without numbers in a straight guide.

    state : while drawing or while riding
    item : the piece; only its part that does not bend is asked about
    """
    rigid_length_mm = item.rigid_length_mm
    if guide.turn_deg == 0:
        return _bend_check(run_id, state, item, Outcome.FITS, note="straight guide")
    available_mm = longest_in_guide_mm(guide=guide, item=item, is_worst_case=False)
    worst_mm = longest_in_guide_mm(guide=guide, item=item, is_worst_case=True)
    if available_mm is None or worst_mm is None:
        return _bend_check(run_id, state, item, Outcome.UNKNOWN, note="bend radius not measured")
    spare_mm, worst_spare_mm = available_mm - rigid_length_mm, worst_mm - rigid_length_mm
    outcome = fit_outcome_of(nominal_mm=spare_mm, worst_mm=worst_spare_mm, running_clearance_mm=0.0)
    note = "wider than the bore" if item.diameter_mm > guide.bore_diameter_mm else ""
    return replace(
        _bend_check(run_id, state, item, outcome, note=note),
        available_mm=available_mm,
        clearance_mm=spare_mm,
        worst_clearance_mm=worst_spare_mm,
    )


def longest_in_guide_mm(*, guide: Guide, item: Thing, is_worst_case: bool) -> float | None:
    """The longest rigid piece that gets round the bend of a guide.

    In the worst case the bore is smaller and the piece thicker by their tolerances, and the inner wall stays where it
    was measured.

    Returns the length, 0 where the piece is wider than the bore, infinite in a straight guide; None when the bend's
    radius was not measured.

    item : the piece, by its largest outer diameter
    is_worst_case : whether bore and piece are taken at their worse limits

    Source: as for `longest_rigid_in_bend_mm`, derived.
    """
    bore_mm, piece_mm = guide.bore_diameter_mm, item.diameter_mm
    if is_worst_case:
        bore_mm, piece_mm = bore_mm - guide.tolerance_mm, piece_mm + item.tolerance_mm
    if guide.turn_deg == 0:
        return inf
    if guide.bend_radius_mm is None:
        return None
    if piece_mm > bore_mm:
        return 0.0
    return longest_rigid_in_bend_mm(
        bore_diameter_mm=bore_mm,
        inside_bend_radius_mm=guide.bend_radius_mm,
        turn_deg=guide.turn_deg,
        piece_diameter_mm=piece_mm,
    )


def _bend_check(run_id: str, state: State, item: Thing, outcome: Outcome, *, note: str) -> Check:
    return Check(
        rule=PlaceRule.GUIDE_BEND,
        outcome=outcome,
        state=state,
        run_id=run_id,
        thing=item,
        size_mm=item.rigid_length_mm,
        note=note,
    )
