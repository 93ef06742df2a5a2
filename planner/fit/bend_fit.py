"""Is the line anywhere bent tighter than its maker allows?"""

from planner.parts import Guide, Line
from planner.rules import PlaceRule
from planner.verdicts import Check, Outcome, State


def check_guide_bends_line(*, guide: Guide, run_id: str, line: Line) -> Check | None:
    """Whether a guide's bend is wide enough for the line that lies in it.

    A line that is thinner than the bore may lie anywhere between the inner and the outer wall of the bend. In the
    middle of the bore is taken as its place; hard against the outer wall is the most it can gain.

    Returns rule "bend_radius", radii to the inside of the line's bend: TIGHT where only the outer wall saves it,
    UNKNOWN where the guide's bend was not measured. None for a straight guide.

    Source: SAE J343 practice: a bend radius is measured to the inside of the bend. The rest: plane geometry.
    """
    if guide.turn_deg == 0:
        return None
    needed_mm = line.minimum_bend_radius_mm
    if guide.bend_radius_mm is None:
        return Check(
            rule=PlaceRule.BEND_RADIUS, outcome=Outcome.UNKNOWN, state=State.RIDING, run_id=run_id, size_mm=needed_mm
        )
    play_mm = max(guide.bore_diameter_mm - line.outer_diameter_mm, 0.0)
    middle_mm, outermost_mm = guide.bend_radius_mm + play_mm / 2, guide.bend_radius_mm + play_mm
    outcome = Outcome.FITS if middle_mm >= needed_mm else Outcome.TIGHT
    return Check(
        rule=PlaceRule.BEND_RADIUS,
        outcome=outcome if outermost_mm >= needed_mm else Outcome.NO_FIT,
        state=State.RIDING,
        run_id=run_id,
        size_mm=needed_mm,
        available_mm=middle_mm,
        clearance_mm=middle_mm - needed_mm,
    )
