"""How tight a bend is, and how far it turns: plane geometry, derived."""

from math import atan2, degrees, hypot

from planner.errors import ImpossibleDimensionError
from planner.parts import Point


def centreline_bend_radius_mm(*, inside_bend_radius_mm: float, outer_diameter_mm: float) -> float:
    """The radius of a hose's centre line where its inside bends as tightly as its maker allows.

    inside_bend_radius_mm : the maker's limit, measured to the inside of the bend

    >>> centreline_bend_radius_mm(inside_bend_radius_mm=35, outer_diameter_mm=5.0)
    37.5

    Raises ImpossibleDimensionError when the radius is below zero or the diameter not above zero.

    Source: SAE J343, "Test and Test Procedures for SAE 100R Series Hydraulic Hose and Hose Assemblies", revision
    2016-05: the free length of a test piece is pi * (r + d / 2) + 2 d, so r is measured to the inside of the bend.
    """
    if not 0 <= inside_bend_radius_mm < float("inf"):
        raise ImpossibleDimensionError(
            name="inside_bend_radius_mm", value=inside_bend_radius_mm, unit="mm", rule="must be zero or more"
        )
    if not 0 < outer_diameter_mm < float("inf"):
        raise ImpossibleDimensionError(
            name="outer_diameter_mm", value=outer_diameter_mm, unit="mm", rule="must be above zero"
        )
    return inside_bend_radius_mm + outer_diameter_mm / 2


def turn_between_deg(*, first: Point, second: Point) -> float:
    """The change of direction from one heading to the next: 0 straight on, 180 straight back.

    Returns between 0 and 180.

    first, second : directions of travel; any length above zero

    >>> turn_between_deg(first=(1, 0, 0), second=(0, 0, 5))
    90.0

    Raises ImpossibleDimensionError when a heading has no length.
    """
    for name, vector in (("first", first), ("second", second)):
        if not 0 < hypot(*vector) < float("inf"):
            raise ImpossibleDimensionError(
                name=name, value=hypot(*vector), unit="long", rule="must have a length above zero"
            )
    ax, ay, az = first
    bx, by, bz = second
    sine = hypot(ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx)
    return degrees(atan2(sine, ax * bx + ay * by + az * bz))
