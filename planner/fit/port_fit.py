"""Does everything that goes through this port pass it side by side, while drawing and while riding?"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from math import dist

from planner.fit.hole_fit import check_things_in_room
from planner.geometry.curves.bends import turn_between_deg
from planner.geometry.packing.work import Allowance
from planner.parts import LineKind, Point, Port, PortLooks, Zone
from planner.rules import PlaceRule
from planner.verdicts import Check, InsertPlace, Outcome, Room, State, Thing, ThingKind

HALF_A_RIGHT_ANGLE_DEG = 45.0


def find_hole_seen(*, port: Port, is_insert_out: bool) -> Room:
    """The hole that decides: the insert's, taken square to the line, or the frame's with its tilt and wall.

    is_insert_out : whether its insert lies on the bench

    Common practice, no source: a rubber insert turns with the line, so its hole is taken square to it.
    """
    insert = find_insert_place(port=port, is_insert_out=is_insert_out)
    if port.insert is not None and insert is InsertPlace.IN:
        return Room(opening=port.insert.opening, insert=insert)
    return Room(
        opening=port.opening,
        tilt_deg=port.tilt_deg,
        tilt_tolerance_deg=port.tilt_tolerance_deg,
        wall_thickness_mm=port.wall_thickness_mm,
        wall_tolerance_mm=port.wall_tolerance_mm,
        insert=insert,
    )


def find_insert_place(*, port: Port, is_insert_out: bool) -> InsertPlace:
    """Whether a port has an insert, and where it is.

    is_insert_out : whether it would lie on the bench, if there is one
    """
    if port.insert is None:
        return InsertPlace.NONE
    return InsertPlace.OUT if is_insert_out else InsertPlace.IN


def check_things_through_port(
    *,
    port: Port,
    state: State,
    things: Sequence[Thing],
    is_insert_out: bool,
    running_clearance_mm: float,
    allowance: Allowance | None = None,
    proves_no: bool = True,
) -> Check:
    """Whether all things pass the port side by side; the first of them is the one asked about.

    Asked of a fitting the rule is that of the leading end's, asked of anything else that of the port.

    Returns with the placement as its proof. UNKNOWN when the opening was not measured or nothing is proven.

    state : while drawing or while riding
    things : the thing asked about, then what shares the hole with it
    is_insert_out : whether the port's insert lies on the bench
    running_clearance_mm : wanted in the worst case, diametral
    allowance : the work that questions may cost; None for the usual of one
    proves_no : whether "does not fit" is to be told from "not known"
    """
    hole = find_hole_seen(port=port, is_insert_out=is_insert_out)
    check = check_things_in_room(
        rule=PlaceRule.LEADING_FITTING if things[0].kind is ThingKind.FITTING else PlaceRule.PORT_CLEARANCE,
        room=hole,
        things=things,
        running_clearance_mm=running_clearance_mm,
        allowance=allowance,
        proves_no=proves_no,
        state=state,
        port_id=port.id,
    )
    return replace(check, note=check.note or ("insert" if hole.insert is InsertPlace.IN else ""))


def is_in_line_with_tube(*, port: Port, zone: Zone) -> bool:
    """Whether a hole looks along its tube, like a boss or the end of a head tube, rather than through its side.

    The line's angle to the tube and its tilt against the hole's axis add up to the axis's angle to the tube; below
    half a right angle the hole looks along. What is told of the hole goes before all that.

    False for a hole in the side, and where the cavity's path has no length or one of the two has no place.

    zone : the cavity it opens into
    """
    if port.looks is not None:
        return port.looks is PortLooks.ALONG
    at_mm, heading = port.position_mm, port.heading
    if at_mm is None or heading is None:
        return False
    nearest = min(pairwise(zone.path_mm), key=lambda ends: _distance_mm(at_mm, *ends), default=None)
    if nearest is None or nearest[0] == nearest[1]:
        return False
    (ax, ay, az), (bx, by, bz) = nearest
    turn_deg = turn_between_deg(first=heading, second=(bx - ax, by - ay, bz - az))
    return min(turn_deg, 180 - turn_deg) + port.tilt_deg < HALF_A_RIGHT_ANGLE_DEG


def _distance_mm(point: Point, start: Point, end: Point) -> float:
    """From a point to a straight piece of path."""
    along = tuple(b - a for a, b in zip(start, end, strict=True))
    squared = sum(step * step for step in along)
    share = sum((p - a) * step for p, a, step in zip(point, start, along, strict=True)) / squared if squared else 0.0
    foot = tuple(a + min(max(share, 0.0), 1.0) * step for a, step in zip(start, along, strict=True))
    return dist(point, foot)


def check_port_admits(*, port: Port, kind: LineKind) -> Check | None:
    """Whether the port takes this kind of line at all: a closed cable stop takes an inner cable only.

    Returns rule "line_kind"; None where the port takes whatever fits.
    """
    if not port.admits:
        return None
    return Check(
        rule=PlaceRule.LINE_KIND,
        outcome=Outcome.FITS if port.takes(kind) else Outcome.NO_FIT,
        port_id=port.id,
        note=", ".join(kind.value for kind in port.admits),
    )
