"""What was likely meant where a number is unlikely: the unit, the point, the sign, or two numbers changed about."""

from collections.abc import Callable, Iterator
from itertools import product

from planner.amounts import MILLIMETRES_PER_INCH
from planner.geometry.motion.frame_axes import unit_vector
from planner.geometry.vectors import dot
from planner.parts import Point

AXES = ("x", "y", "z")
_TIMES = (10.0, 0.1, MILLIMETRES_PER_INCH, 1 / MILLIMETRES_PER_INCH)
MEASURE_AGAIN = "measure it again"
TURNED_ABOUT = 0.75
"""A heading that goes against its way by more than this cosine was likely told from its other end."""


def likely_place(place_mm: Point, is_likely: Callable[[Point], bool]) -> str:
    """The one change that makes a place likely, as a question.

    is_likely : whether a place would not be asked about

    >>> likely_place((53.0, 0.0, 540.0), lambda place: place[0] > 500 and place[2] < 600)
    'x 530?'
    """
    for changed_mm, words in _changes(place_mm):
        if is_likely(changed_mm):
            return words
    return MEASURE_AGAIN


def _changes(place_mm: Point) -> Iterator[tuple[Point, str]]:
    for times in (10.0, MILLIMETRES_PER_INCH):
        whole = (place_mm[0] * times, place_mm[1] * times, place_mm[2] * times)
        yield whole, f"all of it in {'centimetres' if times == 10 else 'inches'}?"
    for times, axis in ((-1.0, 0), (-1.0, 1), (-1.0, 2), *product(_TIMES, range(3))):
        changed = _with(place_mm, axis, place_mm[axis] * times)
        yield changed, f"{AXES[axis]} {changed[axis]:.4g}?"
    for one, other in ((1, 2), (0, 2), (0, 1)):
        swapped = _with(_with(place_mm, one, place_mm[other]), other, place_mm[one])
        yield swapped, f"{AXES[one]} and {AXES[other]} changed about?"


def _with(place_mm: Point, axis: int, number: float) -> Point:
    """number : in place of one coordinate [mm]"""
    x, y, z = (number if i == axis else old for i, old in enumerate(place_mm))
    return (x, y, z)


def likely_length(length_mm: float, *, least_mm: float, most_mm: float) -> str:
    """The change of a length that makes it likely, as a question.

    least_mm, most_mm : what would not be asked about

    >>> likely_length(61.5, least_mm=560, most_mm=800)
    '615?'
    """
    for times in _TIMES:
        if least_mm <= length_mm * times <= most_mm:
            return f"{length_mm * times:.4g}?"
    return MEASURE_AGAIN


def likely_heading(heading: Point, *, way: Point, least_ratio: float, also: str) -> str:
    """The sign of a direction that was likely meant otherwise, as a question; nothing for one that is likely.

    way : where it should go, length 1 [no unit]
    least_ratio : cosine of the angle between the two from which on it is likely
    also : what else may be turned about, where the whole heading is

    >>> likely_heading((-0.7, 0.7, 0.0), way=(0.0, -1.0, 0.0), least_ratio=-0.3, also="")
    'y of its heading -0.7?'
    """
    goes = dot(unit_vector(heading), way)
    if goes >= least_ratio:
        return ""
    for axis in (1, 0, 2) if goes > -TURNED_ABOUT else ():
        if dot(unit_vector(_with(heading, axis, -heading[axis])), way) >= least_ratio:
            return f"{AXES[axis]} of its heading {-heading[axis]:.3g}?"
    return f"its heading the other way{also}?"
