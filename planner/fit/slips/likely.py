"""What was likely meant where a number is unlikely: the unit, the point, the sign, or two numbers changed about."""

from collections.abc import Callable, Iterator

from planner.amounts import MILLIMETRES_PER_INCH
from planner.parts import Point

AXES = ("x", "y", "z")
_TIMES = (10.0, 0.1, MILLIMETRES_PER_INCH, 1 / MILLIMETRES_PER_INCH)
MEASURE_AGAIN = "measure it again"


def likely_place(place_mm: Point, is_likely: Callable[[Point], bool]) -> str:
    """The one change that makes a place likely, as a question.

    is_likely : whether a place would not be asked about

    >>> likely_place((53.0, 0.0, 540.0), lambda place: place[0] > 500)
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
    for axis in range(3):
        for times in (*_TIMES, -1.0):
            changed = _with(place_mm, axis, place_mm[axis] * times)
            yield changed, f"{AXES[axis]} {changed[axis]:.4g}?"
    for one, other in ((1, 2), (0, 2), (0, 1)):
        swapped = _with(_with(place_mm, one, place_mm[other]), other, place_mm[one])
        yield swapped, f"{AXES[one]} and {AXES[other]} changed about?"


def _with(place_mm: Point, axis: int, number: float) -> Point:
    """number : in place of one coordinate [mm]"""
    x, y, z = (number if i == axis else old for i, old in enumerate(place_mm))
    return (x, y, z)


def likely_length(length_mm: float, is_likely: Callable[[float], bool]) -> str:
    """The change of a length that makes it likely, as a question.

    is_likely : whether a length would not be asked about
    """
    for times in _TIMES:
        if is_likely(length_mm * times):
            return f"{length_mm * times:.4g}?"
    return MEASURE_AGAIN


def likely_heading(heading: Point, is_likely: Callable[[Point], bool], *, also: str) -> str:
    """The sign of a direction that was likely meant otherwise, as a question.

    is_likely : whether a heading would not be asked about
    also : what else may be turned about, where the whole heading is
    """
    for axis in (1, 0, 2):
        if heading[axis] and is_likely(_with(heading, axis, -heading[axis])):
            return f"{AXES[axis]} of its heading {-heading[axis]:.3g}?"
    return f"its heading the other way{also}?"
