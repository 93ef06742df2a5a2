"""How hard it is to draw a line through a frame."""

from collections.abc import Iterable, Sequence
from math import sqrt

from planner.errors import ImpossibleDimensionError
from planner.mechanics.capstan import Passage, tension_through
from planner.parts import Line, LineKind, ShopLimits
from planner.quick_dataclass import dataclass

HOUSINGS = (LineKind.BRAKE_HOUSING, LineKind.SHIFT_HOUSING)
"""Lines whose friction is that of the inner cable in them, and says nothing of how they slide over a frame."""

STANDARD_GRAVITY_M_PER_S2 = 9.80665
"""By definition of the 3rd General Conference on Weights and Measures, 1901."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Leg:
    """One stretch of a route as the drag sees it: a port, then the way to the next.

    turn_deg : sum of the changes of direction at the port and on the way, in space [deg]
    length_mm : along the line [mm]
    entry_drag_n : force to slide the line through the port; 0 where there is none, None when not measured [N]
    rise_mm : how much higher the far end lies than the near end; negative downhill [mm]
    """

    turn_deg: float
    length_mm: float
    entry_drag_n: float | None = 0.0
    rise_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class DragEstimate:
    """An estimate of the pull that draws a line through, with what it rests on.

    drag_n : pull at the leading end when the whole route is full [N]
    friction_ratio, mass_g_per_m, entry_drag_n : figures used for the line, and for ports nobody measured [N]
    assumed : which of these are the shop's figure and not the part's: "friction_ratio", "mass_g_per_m", "entry_drag_n"
    """

    drag_n: float
    friction_ratio: float
    mass_g_per_m: float
    entry_drag_n: float
    assumed: tuple[str, ...]


def estimate_drag_n(*, legs: Iterable[Leg], friction_ratio: float, mass_g_per_m: float) -> float:
    """The pull at the leading end of a line once it fills the whole route: the most that its joint is asked to hold.

    The line counts as limp, sliding everywhere. A stretch downhill counts as level: falling weight may help, but a hose
    that rests on its bends does not pass the help on. An estimate, good for choosing between push and pull, no more.

    legs : in the order the line meets them, from the end it is fed in; every port's drag must be given
    friction_ratio : friction of the line on the frame
    mass_g_per_m : mass of a metre of the line, filled as it is drawn

    >>> legs = [Leg(turn_deg=90, length_mm=500, entry_drag_n=2.0), Leg(turn_deg=90, length_mm=500, entry_drag_n=2.0)]
    >>> round(estimate_drag_n(legs=legs, friction_ratio=0.2, mass_g_per_m=0), 3)
    6.487

    Raises ImpossibleDimensionError when a number is negative, a leg rises more than it is long, or a port's drag is
        missing.

    Source: Euler-Eytelwein formula, as for `planner.mechanics.capstan.capstan_ratio`; weight on a slope: elementary
    statics.
    """
    passages = [_passage(leg, friction_ratio=friction_ratio, mass_g_per_m=mass_g_per_m) for leg in legs]
    return tension_through(passages=passages, friction_ratio=friction_ratio)


def estimate_drag(*, line: Line, legs: Sequence[Leg], limits: ShopLimits) -> DragEstimate:
    """The same for a line of the catalog, with the shop's figures where the line's or a port's own are not known.

    The friction of a housing is that of its inner cable, so over the frame the shop's figure is taken for it.

    Returns the pull, the figures used, and which of them were assumed.

    line : the line drawn through
    legs : in the order the line meets them
    limits : figures for what was not measured

    Raises ImpossibleDimensionError when a number is negative or a leg rises more than it is long.

    Source: Euler-Eytelwein formula, as for `planner.mechanics.capstan.capstan_ratio`.
    """
    assumed = []
    friction_ratio = None if line.kind in HOUSINGS else line.friction_ratio
    mass_g_per_m = line.mass_g_per_m
    if friction_ratio is None:
        friction_ratio = limits.friction_ratio
        assumed.append("friction_ratio")
    if mass_g_per_m is None:
        mass_g_per_m = limits.mass_g_per_m
        assumed.append("mass_g_per_m")
    if any(leg.entry_drag_n is None for leg in legs):
        assumed.append("entry_drag_n")
    known = [_with_entry_drag(leg, entry_drag_n=limits.entry_drag_n) for leg in legs]
    return DragEstimate(
        drag_n=estimate_drag_n(legs=known, friction_ratio=friction_ratio, mass_g_per_m=mass_g_per_m),
        friction_ratio=friction_ratio,
        mass_g_per_m=mass_g_per_m,
        entry_drag_n=limits.entry_drag_n,
        assumed=tuple(assumed),
    )


def _with_entry_drag(leg: Leg, *, entry_drag_n: float) -> Leg:
    if leg.entry_drag_n is not None:
        return leg
    return Leg(turn_deg=leg.turn_deg, length_mm=leg.length_mm, entry_drag_n=entry_drag_n, rise_mm=leg.rise_mm)


def _passage(leg: Leg, *, friction_ratio: float, mass_g_per_m: float) -> Passage:
    if leg.entry_drag_n is None:
        raise ImpossibleDimensionError(name="entry_drag_n", value=float("nan"), unit="N", rule="must be measured")
    if not abs(leg.rise_mm) <= leg.length_mm:
        raise ImpossibleDimensionError(
            name="rise_mm", value=leg.rise_mm, unit="mm", rule=f"must not exceed the leg's length, {leg.length_mm:g} mm"
        )
    if not mass_g_per_m >= 0:
        raise ImpossibleDimensionError(name="mass_g_per_m", value=mass_g_per_m, unit="g/m", rule="must not be negative")
    newton_per_mm = mass_g_per_m * 1e-6 * STANDARD_GRAVITY_M_PER_S2
    level_mm = sqrt(leg.length_mm**2 - leg.rise_mm**2)
    lifted_mm = leg.rise_mm if leg.rise_mm > 0 else 0.0
    weight_drag_n = newton_per_mm * (lifted_mm + friction_ratio * level_mm)
    return Passage(turn_deg=leg.turn_deg, entry_drag_n=leg.entry_drag_n, weight_drag_n=weight_drag_n)
