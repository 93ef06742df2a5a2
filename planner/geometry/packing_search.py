"""Three and more round things in one opening: a placement found by many starts."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from planner.geometry.opening_depth import Array, depths_mm
from planner.geometry.opening_shape import SeenOpening
from planner.geometry.packing_one import find_largest_disc

_STARTS = 12
_GOLDEN_STEPS = (0.7548776662466927, 0.5698402909980532)


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundPlacement:
    """The best placement found.

    growth_mm : how much every diameter can grow there [mm]
    centres_mm : where the things lie, in the order given [mm]
    """

    growth_mm: float
    centres_mm: tuple[tuple[float, float], ...]


def growth_of_placement(*, seen: SeenOpening, diameters_mm: Sequence[float], centres_mm: Array) -> float:
    """How much every diameter can grow where the things lie, before one touches another or the edge.

    Parameters
    ----------
    seen : SeenOpening
        The opening as the line sees it.
    diameters_mm : sequence of float
        Outer diameters. [mm]
    centres_mm : Array
        One row (x, y) for each thing. [mm]

    Returns
    -------
    float
        Below zero where they overlap. [mm]

    References
    ----------
    Plane geometry; no outside source needed.
    """
    sizes = np.asarray(diameters_mm)
    growth = float((2 * depths_mm(seen=seen, points_mm=centres_mm) - sizes).min())
    first, second = np.triu_indices(len(sizes), 1)
    if len(first):
        apart = np.hypot(*(centres_mm[first] - centres_mm[second]).T)
        growth = min(growth, float((apart - (sizes[first] + sizes[second]) / 2).min()))
    return growth


def find_placement(*, seen: SeenOpening, diameters_mm: Sequence[float]) -> FoundPlacement:
    """The best placement of several things that a fixed set of starts leads to.

    Parameters
    ----------
    seen : SeenOpening
        The opening as the line sees it.
    diameters_mm : sequence of float
        Outer diameters. [mm]

    Returns
    -------
    FoundPlacement
        What it holds is proven by itself; that no better one exists is not.

    References
    ----------
    Common practice, no source.
    """
    from scipy.optimize import minimize

    sizes = np.asarray(diameters_mm)
    count = len(sizes)
    first, second = np.triu_indices(count, 1)
    middle = np.array(find_largest_disc(seen).centre_mm)

    def slack(state: Array) -> Array:
        centres, growth = state[:-1].reshape(-1, 2), state[-1]
        wall = 2 * depths_mm(seen=seen, points_mm=centres) - sizes - growth
        apart = np.hypot(*(centres[first] - centres[second]).T) - (sizes[first] + sizes[second]) / 2 - growth
        return np.concatenate([wall, apart])

    best_growth, best = -np.inf, np.tile(middle, (count, 1))
    for start in range(_STARTS):
        grid = (0.5 + np.outer(start * count + np.arange(1, count + 1), _GOLDEN_STEPS)) % 1 - 0.5
        centres = middle + grid * 10
        state = np.append(
            centres.ravel(), growth_of_placement(seen=seen, diameters_mm=diameters_mm, centres_mm=centres)
        )
        found = (
            minimize(lambda state: -state[-1], state, method="SLSQP", constraints={"type": "ineq", "fun": slack})
            .x[:-1]
            .reshape(-1, 2)
        )
        growth = growth_of_placement(seen=seen, diameters_mm=diameters_mm, centres_mm=found)
        if growth > best_growth:
            best_growth, best = growth, found
    return FoundPlacement(growth_mm=best_growth, centres_mm=tuple((float(x), float(y)) for x, y in best))
