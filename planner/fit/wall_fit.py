"""Does a rigid piece, a joint or a fitting, dip through the hole in a tube wall and lie down along an open cavity?

A hole that looks along its tube (a boss, the end of a head tube: line's angle to the tube plus tilt under 45 degrees)
asks no dive; only diameters are asked there.
"""

from dataclasses import replace
from functools import lru_cache

from planner.fit.port_fit import find_insert_place
from planner.geometry.openings.opening_shape import opening_at_limit
from planner.geometry.rigid.wall_motion import (
    LongestThroughWall,
    WallPassage,
    find_longest_through_wall_mm,
    find_motion_through_wall,
)
from planner.geometry.rigid.wall_opening import gap_along_tube_mm
from planner.parts import Opening, Port, is_gauged
from planner.rules import CAVITY_NOT_MEASURED, GAUGED, HOLE_NOT_MEASURED, LOOKS_NOT_TOLD, SPREAD, PlaceRule
from planner.verdicts import Check, InsertPlace, Outcome, Room, State, Thing

_THINNEST_MM = 1e-3
"""A wall is never nothing."""


def check_rigid_through_wall(
    *,
    port: Port,
    run_id: str,
    corridor_mm: float | None,
    item: Thing,
    is_entry: bool,
    is_insert_out: bool,
    corridor_tolerance_mm: float = 0.0,
) -> Check:
    """Whether a rigid piece gets through a port into, or out of, the open cavity behind it.

    Taken in the plane of the hole's length and the tube. The other side of the wall is taken as free; where it is a
    cavity too, that cavity is asked the same in its turn, and the two answers together are the answer. An insert that
    stays in is soft: it leans with the piece and takes no length from the hole. The clearance is a spare length, not a
    sliding gap: no running clearance is asked of it, and it has no fit class.

    Returns rule `wall_entry` or `wall_exit`, with the motion as its proof. Available is the length at which a piece
    jams; the worst case takes a hole and a cavity smaller, and a wall and a piece thicker, by their tolerances. UNKNOWN
    when hole or cavity were not measured, where the piece touches so nearly that nothing is proven, and in place of a
    no where a thinner wall and a wider cavity would be none, the hole is known by a gauge alone, or nobody told whether
    it goes through the tube's side at all.

    corridor_mm : clear width of the cavity; None when not measured
    corridor_tolerance_mm : plus or minus on that
    item : the piece; its part that does not bend must be longer than nothing
    is_entry : whether the piece goes into the cavity; coming out, the same motion is told backwards
    is_insert_out : whether the port's insert lies on the bench

    Raises ImpossibleDimensionError when a size is not above zero, or a tolerance leaves nothing of the hole.
    """
    insert = find_insert_place(port=port, is_insert_out=is_insert_out)
    room = Room(opening=port.opening, wall_thickness_mm=port.wall_thickness_mm, insert=insert, corridor_mm=corridor_mm)
    answer = Check(
        rule=PlaceRule.WALL_ENTRY if is_entry else PlaceRule.WALL_EXIT,
        outcome=Outcome.UNKNOWN,
        state=State.DRAWING,
        port_id=port.id,
        run_id=run_id,
        thing=item,
        room=room,
        size_mm=item.rigid_length_mm,
    )
    if port.opening is None:
        return replace(answer, note=HOLE_NOT_MEASURED)
    if corridor_mm is None:
        return replace(answer, note=CAVITY_NOT_MEASURED)
    nominal, worst, best = _passages(
        opening=port.opening,
        wall_thickness_mm=port.wall_thickness_mm,
        wall_tolerance_mm=port.wall_tolerance_mm,
        corridor_mm=corridor_mm,
        corridor_tolerance_mm=corridor_tolerance_mm,
        diameter_mm=item.diameter_mm,
        tolerance_mm=item.tolerance_mm,
        rigid_length_mm=item.rigid_length_mm,
    )
    outcome = _outcome_of(nominal=nominal, worst=worst)
    doubt = _doubt_of_no(port, best) if outcome is Outcome.NO_FIT else ""
    return replace(
        answer,
        outcome=Outcome.UNKNOWN if doubt else outcome,
        available_mm=nominal.longest_mm,
        clearance_mm=nominal.longest_mm - item.rigid_length_mm,
        worst_clearance_mm=worst.longest_mm - item.rigid_length_mm,
        motion=(nominal.motion if is_entry else nominal.motion[::-1]) or None,
        note=doubt or ("insert" if insert is InsertPlace.IN else ""),
    )


@lru_cache(maxsize=4096)
def _passages(
    *,
    opening: Opening,
    wall_thickness_mm: float,
    wall_tolerance_mm: float,
    corridor_mm: float,
    corridor_tolerance_mm: float,
    diameter_mm: float,
    tolerance_mm: float,
    rigid_length_mm: float,
) -> tuple[WallPassage, WallPassage, WallPassage]:
    """At nominal sizes, at the worst, and, where nominal is a no, with the thinnest wall and the widest cavity.

    Remembered: runs along one cavity ask the same of a hole, and so do methods and both ends.
    """

    def passage(at: Opening, wall_off_mm: float, corridor_off_mm: float, thickness_mm: float) -> WallPassage:
        wall_mm = _wall_off_mm(wall_thickness_mm, wall_off_mm)
        return find_motion_through_wall(
            piece_length_mm=rigid_length_mm,
            piece_diameter_mm=thickness_mm,
            opening_length_mm=gap_along_tube_mm(opening=at, piece_diameter_mm=thickness_mm, wall_thickness_mm=wall_mm),
            wall_thickness_mm=wall_mm,
            corridor_mm=corridor_mm + corridor_off_mm,
        )

    nominal = passage(opening, 0.0, 0.0, diameter_mm)
    smaller = opening_at_limit(opening=opening, is_larger=False)
    worst = passage(smaller, wall_tolerance_mm, -corridor_tolerance_mm, diameter_mm + tolerance_mm)
    if nominal.passes is not False or not (wall_tolerance_mm or corridor_tolerance_mm):
        return nominal, worst, nominal
    return nominal, worst, passage(opening, -wall_tolerance_mm, corridor_tolerance_mm, diameter_mm)


def _wall_off_mm(thickness_mm: float, off_mm: float) -> float:
    return max(_THINNEST_MM, thickness_mm + off_mm) if off_mm else thickness_mm


def _doubt_of_no(port: Port, best: WallPassage) -> str:
    """Why a no is not proven, as a note; "" where it is."""
    if is_gauged(port.opening):
        return GAUGED
    if best.passes is not False:
        return SPREAD
    is_placed = port.position_mm is not None and port.heading is not None
    return "" if port.looks is not None or is_placed else LOOKS_NOT_TOLD


def find_longest_through_port(
    *, port: Port, corridor_mm: float | None, item: Thing, is_worst_case: bool
) -> LongestThroughWall | None:
    """The longest rigid piece that gets through a port into the open cavity behind it.

    Idealised as in `check_rigid_through_wall`.

    Returns with the motion of that piece; None when hole or cavity were not measured.

    corridor_mm : clear width of the cavity; None when not measured
    item : the piece, by its largest outer diameter
    is_worst_case : whether hole and piece are taken at their worse limits

    Raises ImpossibleDimensionError when a size is not above zero, or a tolerance leaves nothing of the hole.
    """
    if port.opening is None or corridor_mm is None:
        return None
    opening, wall_mm, diameter_mm = port.opening, port.wall_thickness_mm, item.diameter_mm
    if is_worst_case:
        wall_mm = _wall_off_mm(wall_mm, port.wall_tolerance_mm)
        opening = opening_at_limit(opening=opening, is_larger=False)
        diameter_mm += item.tolerance_mm
    return find_longest_through_wall_mm(
        piece_diameter_mm=diameter_mm,
        opening_length_mm=gap_along_tube_mm(opening=opening, piece_diameter_mm=diameter_mm, wall_thickness_mm=wall_mm),
        wall_thickness_mm=wall_mm,
        corridor_mm=corridor_mm,
    )


def _outcome_of(*, nominal: WallPassage, worst: WallPassage) -> Outcome:
    if nominal.passes is None:
        return Outcome.UNKNOWN
    if not nominal.passes:
        return Outcome.NO_FIT
    return Outcome.FITS if worst.passes else Outcome.TIGHT
