"""A plain search for room, as anybody would write it: scipy's SLSQP, given slopes, from random starts."""

from math import pi, sqrt
from typing import Any

import numpy as np

from planner.geometry.openings.opening_depth import nearest_edge
from planner.geometry.openings.opening_shape import SeenArcs
from planner.geometry.packing.search import growth_of_placement
from planner.parts import BoxOpening, Opening, OvalOpening, RoundOpening, SlotOpening

PLAIN_STARTS = 40


def random_case(seed: int) -> tuple[Opening, float, float, tuple[float, ...]]:
    """Three to six things and an opening that they all but fill."""
    draw = np.random.default_rng(seed)
    sizes = np.sort(draw.uniform(2, 6, int(draw.integers(3, 7))))[::-1]
    tilt = float(draw.choice([0, 0, 20, 40, 55]))
    area = float((pi * sizes**2 / 4).sum() * draw.uniform(1.25, 1.6))
    longer = float(draw.uniform(1.0, 2.2))
    width = sqrt(area / longer)
    openings: tuple[Opening, ...] = (
        RoundOpening(diameter_mm=sqrt(area * 4 / pi), tolerance_mm=0.1),
        SlotOpening(length_mm=width * longer + 1, width_mm=width, tolerance_mm=0.1),
        OvalOpening(length_mm=width * longer * 1.1, width_mm=width * 1.1, tolerance_mm=0.1),
        BoxOpening(length_mm=width * longer, width_mm=width, corner_radius_mm=min(1.5, width / 2), tolerance_mm=0.1),
        BoxOpening(length_mm=width * longer, width_mm=width, corner_radius_mm=0, tolerance_mm=0.1),
    )
    return openings[seed % 5], tilt, 1.5, tuple(sizes.tolist())


def plain_search(seen: SeenArcs, sizes: tuple[float, ...], *, seed: int) -> float:
    """The best growth SLSQP finds, given slopes, from random starts."""
    from scipy.optimize import minimize

    count = len(sizes)
    size = np.array(sizes)
    first, second = np.triu_indices(count, 1)
    pairs = np.arange(len(first))
    half = np.array([seen.flat_x_mm + seen.arc_x_mm, seen.flat_y_mm + seen.arc_y_mm])

    def slack(state: Any) -> Any:
        centres = state[:-1].reshape(count, 2)
        depth = np.array([nearest_edge(seen=seen, x_mm=x, y_mm=y)[0] for x, y in centres.tolist()])
        apart = np.hypot(*(centres[first] - centres[second]).T)
        return np.concatenate([apart - (size[first] + size[second]) / 2 - state[-1], depth - (size + state[-1]) / 2])

    def slopes(state: Any) -> Any:
        centres = state[:-1].reshape(count, 2)
        rows = np.zeros((len(pairs) + count, 2 * count + 1))
        between = centres[first] - centres[second]
        towards = between / (np.hypot(*between.T)[:, None] + 1e-12)
        for axis in (0, 1):
            rows[pairs, 2 * first + axis], rows[pairs, 2 * second + axis] = towards[:, axis], -towards[:, axis]
        rows[pairs, -1], rows[len(pairs) :, -1] = -1.0, -0.5
        for thing, (x, y) in enumerate(centres.tolist()):
            _, nx, ny = nearest_edge(seen=seen, x_mm=x, y_mm=y)
            rows[len(pairs) + thing, 2 * thing : 2 * thing + 2] = -nx, -ny
        return rows

    goal = np.zeros(2 * count + 1)
    goal[-1] = -1.0
    draw, best = np.random.default_rng(seed), -np.inf
    for _ in range(PLAIN_STARTS):
        start = np.append(((draw.random((count, 2)) - 0.5) * 1.6 * half).ravel(), -3.0)
        found = minimize(
            lambda state: -state[-1],
            start,
            jac=lambda _: goal,
            constraints={"type": "ineq", "fun": slack, "jac": slopes},
            method="SLSQP",
            options={"maxiter": 100},
        )
        centres = found.x[:-1].reshape(count, 2)
        best = max(best, growth_of_placement(seen=seen, diameters_mm=sizes, centres_mm=centres))
    return best
