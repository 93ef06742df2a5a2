"""Does the line, beside what stays, have room in an open cavity?"""

from collections.abc import Sequence

from planner.fit.hole_fit import check_things_in_room
from planner.geometry.packing.work import Allowance
from planner.parts import RoundOpening
from planner.rules import PlaceRule
from planner.verdicts import Check, Room, State, Thing


def check_things_in_zone(
    *,
    zone_bore_mm: float | None,
    run_id: str,
    state: State,
    things: Sequence[Thing],
    running_clearance_mm: float,
    allowance: Allowance | None = None,
    proves_no: bool = True,
    bore_tolerance_mm: float = 0.0,
) -> Check:
    """Whether all things lie side by side in the clear bore of a cavity; the first is the one asked about.

    Returns rule "zone_bore". UNKNOWN when not measured.

    zone_bore_mm : clear diameter of the cavity; None when not measured
    state : while drawing or while riding
    things : the thing asked about, then what stays beside it
    running_clearance_mm : wanted in the worst case, diametral
    allowance : the work that questions may cost; None for the usual of one
    proves_no : whether "does not fit" is to be told from "not known"
    bore_tolerance_mm : plus or minus on the clear diameter; none where one figure was told
    """
    opening = None
    if zone_bore_mm is not None:
        opening = RoundOpening(diameter_mm=zone_bore_mm, tolerance_mm=bore_tolerance_mm)
    return check_things_in_room(
        rule=PlaceRule.ZONE_BORE,
        room=Room(opening=opening),
        things=things,
        running_clearance_mm=running_clearance_mm,
        allowance=allowance,
        proves_no=proves_no,
        state=state,
        run_id=run_id,
    )
