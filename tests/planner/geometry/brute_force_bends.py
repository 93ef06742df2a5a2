"""Curves of limited bend by another road: any bend up to the limit in fourteen stretches, from random starts.

Nothing is known here of what shortest curves are made of: in every stretch the curve bends as much as it likes, up to
the limit, in one plane that it may choose, and SciPy's SLSQP makes the whole as short as it can be. What it finds is a
real curve, so its length is never below the true least.

    python -m tests.planner.geometry.brute_force_bends > tests/published_values/bounded_bends_brute_force.csv
"""

import csv
import sys
from collections.abc import Callable

import numpy as np
from scipy.optimize import minimize

from planner.geometry.curves.pose_pairs import PosePairs
from tests.planner.geometry.brute_force_curves import unit

STRETCHES = 14
STARTS = 8
PAIRS = 200
STEP = 1e-6


def near_pairs(count: int = PAIRS, *, seed: int = 11, farthest: float = 4.0) -> PosePairs:
    """Ends up to four radii apart, headings any."""
    chance = np.random.default_rng(seed)
    ways = unit(chance.normal(size=(count, 3))) * chance.uniform(0.1, farthest, size=(count, 1))
    return PosePairs(ways=ways, starts=unit(chance.normal(size=(count, 3))), ends=unit(chance.normal(size=(count, 3))))


def followed(bends: np.ndarray, heading: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Place and heading at the end of curves told by the bend in two directions of each stretch, and the length."""
    count, along = len(bends), bends[:, -1:] / STRETCHES
    least = np.eye(3)[np.abs(heading).argmin()]
    first = unit((least - (least @ heading) * heading)[None])[0]
    one, two = np.tile(first, (count, 1)), np.tile(np.cross(heading, first), (count, 1))
    way, place = np.tile(heading, (count, 1)), np.zeros((count, 3))
    for i in range(STRETCHES):
        a, b = bends[:, 2 * i : 2 * i + 1], bends[:, 2 * i + 1 : 2 * i + 2]
        bend = np.sqrt(a * a + b * b + 1e-18)
        towards, aside = (a * one + b * two) / bend, (a * two - b * one) / bend
        c, s = np.cos(bend * along), np.sin(bend * along)
        place = place + s / bend * way + (1 - c) / bend * towards
        way, towards = c * way + s * towards, c * towards - s * way
        one, two = (a * towards - b * aside) / bend, (b * towards + a * aside) / bend
    return place, way


def shortest_length(way: np.ndarray, start: np.ndarray, end: np.ndarray, *, seed: int) -> float:
    """Of all that the random starts lead to, in units of the radius; infinite where none arrives."""
    chance, unknowns = np.random.default_rng([3, seed]), 2 * STRETCHES + 1
    least = np.eye(3)[np.abs(end).argmin()]
    aside = unit((least - (least @ end) * end)[None])[0]
    square = np.stack([aside, np.cross(end, aside)], axis=1)

    def missed(bends: np.ndarray) -> np.ndarray:
        place, heading = followed(np.atleast_2d(bends), start)
        return np.concatenate([place - way, heading @ square], axis=1)

    def slopes(bends: np.ndarray) -> np.ndarray:
        steps = STEP * np.eye(unknowns)
        return ((missed(bends + steps) - missed(bends - steps)) / (2 * STEP)).T

    def spare(bends: np.ndarray) -> np.ndarray:
        return 1 - bends[0:-1:2] ** 2 - bends[1:-1:2] ** 2

    def spare_slopes(bends: np.ndarray) -> np.ndarray:
        table, i = np.zeros((STRETCHES, unknowns)), np.arange(STRETCHES)
        table[i, 2 * i], table[i, 2 * i + 1] = -2 * bends[0:-1:2], -2 * bends[1:-1:2]
        return table

    found = np.inf
    for _ in range(STARTS):
        turning = chance.normal(size=(STRETCHES, 2))
        turning = np.cumsum(turning, axis=0) * chance.uniform(0, 0.6) + chance.normal(size=2)
        begin = np.concatenate([0.9 * unit(turning).ravel(), [chance.uniform(3, 9)]])
        bends = _minimised(begin, lambda bends: missed(bends)[0], slopes, spare, spare_slopes)
        arrives = np.abs(missed(bends)).max() < 1e-5 and followed(bends[None], start)[1][0] @ end > 0
        if arrives and spare(bends).min() > -1e-5 and bends[-1] > 0:
            found = min(found, float(bends[-1]))
    return found


def _minimised(
    begin: np.ndarray, missed: Callable, slopes: Callable, spare: Callable, spare_slopes: Callable
) -> np.ndarray:
    by_length = np.eye(len(begin))[-1]
    return minimize(
        lambda bends: bends[-1],
        begin,
        jac=lambda _: by_length,
        method="SLSQP",
        constraints=[
            {"type": "eq", "fun": missed, "jac": slopes},
            {"type": "ineq", "fun": spare, "jac": spare_slopes},
        ],
        options={"maxiter": 120, "ftol": 1e-7},
    ).x


def main() -> None:
    pairs = near_pairs()
    writer = csv.writer(sys.stdout, lineterminator="\n")
    writer.writerow(["case", "expected_ratio", "tolerance_ratio", "kind", "source", "locator", "read_on"])
    for row in range(PAIRS):
        length = shortest_length(pairs.ways[row], pairs.starts[row], pairs.ends[row], seed=row)
        if np.isfinite(length):
            source, locator = "SLSQP from 8 random starts", "tests/planner/geometry/brute_force_bends.py"
            writer.writerow([f"near poses {row}", f"{length:.6f}", 0.005, "brute_force", source, locator, ""])


if __name__ == "__main__":
    main()
