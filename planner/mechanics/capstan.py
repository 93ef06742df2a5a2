"""How pull grows where a line is drawn around bends: the capstan equation."""

from collections.abc import Iterable
from math import exp, radians

from planner.errors import ImpossibleDimensionError
from planner.quick_dataclass import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Passage:
    """One stretch a line is drawn through, in the order the line meets it.

    turn_deg : sum of all changes of direction in the stretch, in space, however they face [deg]
    entry_drag_n : force to slide the line through the hole at its entrance [N]
    weight_drag_n : force that lifting and sliding the line's own weight takes there [N]
    """

    turn_deg: float
    entry_drag_n: float = 0.0
    weight_drag_n: float = 0.0


def capstan_ratio(*, friction_ratio: float, turn_deg: float) -> float:
    """How many times the pull behind a bend must be applied in front of it.

    The radius of the bend does not matter, nor whether several bends face different ways: their turns add up. The line
    counts as limp; the stiffness of a real hose adds to it.

    Returns pull in front over pull behind, 1 or more.

    friction_ratio : friction of the line on what it slides over; 0 is frictionless
    turn_deg : sum of the changes of direction, 0 for a straight line; may exceed 360

    >>> round(capstan_ratio(friction_ratio=0.1, turn_deg=180), 4)
    1.3691

    Raises ImpossibleDimensionError when a number is negative.

    Source: Euler-Eytelwein formula, e.g. "Capstan equation" in engineering handbooks; limits of it: Jung, Pan, Kang,
    "Generalized capstan problem", Tribology International 41 (2008) 524-534 (abstract read).
    """
    _refuse_negative(name="friction_ratio", value=friction_ratio, unit="")
    _refuse_negative(name="turn_deg", value=turn_deg, unit="deg")
    return exp(friction_ratio * radians(turn_deg))


def tension_through(*, passages: Iterable[Passage], friction_ratio: float, start_n: float = 0.0) -> float:
    """The pull at the leading end of a line that has been drawn through several stretches.

    In each stretch the hole's drag and the weight come first and the whole turn after them, so that the bends act on
    all of it: never less than the same forces spread along the stretch would give.

    Returns pull at the leading end. [N]

    passages : in the order the line meets them, from the end it is fed in to the end it is pulled at
    friction_ratio : friction of the line on the frame
    start_n : pull that holds the trailing end back

    >>> hole_then_half_turn = Passage(turn_deg=180, entry_drag_n=2.0)
    >>> round(tension_through(passages=[hole_then_half_turn], friction_ratio=0.1), 3)
    2.738

    Raises ImpossibleDimensionError when a number is negative.

    Source: Euler-Eytelwein formula, as for `capstan_ratio`; the order of the forces within a stretch is ours, chosen
    to err on the heavy side.
    """
    _refuse_negative(name="start_n", value=start_n, unit="N")
    tension_n = start_n
    for passage in passages:
        _refuse_negative(name="entry_drag_n", value=passage.entry_drag_n, unit="N")
        _refuse_negative(name="weight_drag_n", value=passage.weight_drag_n, unit="N")
        tension_n += passage.entry_drag_n + passage.weight_drag_n
        tension_n *= capstan_ratio(friction_ratio=friction_ratio, turn_deg=passage.turn_deg)
    return tension_n


def _refuse_negative(*, name: str, value: float, unit: str) -> None:
    if not value >= 0:
        raise ImpossibleDimensionError(name=name, value=value, unit=unit, rule="must not be negative")
