"""How long a rigid piece, a joint or a fitting, may be and still pass the bend of a guide.

The piece touches the inner wall with its middle and the outer wall with both ends. A turn too short for that leaves the
ends in the straight legs before and after the bend.
"""

from math import acos, cos, inf, isfinite, radians, sin, sqrt

from planner.errors import ImpossibleDimensionError


def longest_rigid_in_bend_mm(
    *, bore_diameter_mm: float, inside_bend_radius_mm: float, turn_deg: float, piece_diameter_mm: float
) -> float:
    """The longest rigid round piece that passes a bend.

    The guide is a torus of constant bore with straight legs before and after it, long enough to hold the piece's ends;
    piece and guide are stiff, so a wall that gives way is left out. Exact in space, not only in the plane of the bend.

    Returns length from end to end; infinite where there is no turn.

    bore_diameter_mm : inside diameter of the guide
    inside_bend_radius_mm : radius to the inside of the bend, that is to the inner wall; 0 is a sharp inner corner
    turn_deg : whole change of direction, 0 for a straight guide
    piece_diameter_mm : largest outside diameter of the piece

    >>> round(longest_rigid_in_bend_mm(
    ...     bore_diameter_mm=8, inside_bend_radius_mm=56, turn_deg=90, piece_diameter_mm=5), 2)
    38.73

    Raises ImpossibleDimensionError when the piece is wider than the bore (that question is asked first, of its
        diameter), or a number is negative or not a number.

    Source: Plane geometry, derived: the free clearance is the middle ordinate of a chord on the
    outer wall, as in route surveying, M = A * (1 - cos(delta/2)), C = 2 * A * sin(delta/2).
    """
    _refuse_impossible(bore_diameter_mm, inside_bend_radius_mm, turn_deg)
    if not 0 <= piece_diameter_mm <= bore_diameter_mm:
        rule = f"must lie between 0 and the bore, {bore_diameter_mm:g} mm"
        raise ImpossibleDimensionError(name="piece_diameter_mm", value=piece_diameter_mm, unit="mm", rule=rule)
    if turn_deg == 0:
        return inf
    outer_wall_mm = inside_bend_radius_mm + bore_diameter_mm
    inner_face_mm = inside_bend_radius_mm + piece_diameter_mm
    half_turn = radians(turn_deg) / 2
    if half_turn >= acos(inner_face_mm / outer_wall_mm):
        return 2 * sqrt(outer_wall_mm**2 - inner_face_mm**2)
    return 2 * (outer_wall_mm - inner_face_mm * cos(half_turn)) / sin(half_turn)


def _refuse_impossible(bore_diameter_mm: float, inside_bend_radius_mm: float, turn_deg: float) -> None:
    if not (isfinite(bore_diameter_mm) and bore_diameter_mm > 0):
        raise ImpossibleDimensionError(
            name="bore_diameter_mm", value=bore_diameter_mm, unit="mm", rule="must be above zero"
        )
    if not (isfinite(inside_bend_radius_mm) and inside_bend_radius_mm >= 0):
        raise ImpossibleDimensionError(
            name="inside_bend_radius_mm", value=inside_bend_radius_mm, unit="mm", rule="must not be negative"
        )
    if not (isfinite(turn_deg) and turn_deg >= 0):
        raise ImpossibleDimensionError(name="turn_deg", value=turn_deg, unit="deg", rule="must not be negative")
