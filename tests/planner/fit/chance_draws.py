"""Random openings whose chance of fitting is told by sizes drawn at random, each searched anew: a slower way of ours.

The draws are laid out in lines, along the direction in which the clearance falls fastest; where along its line the
things stop fitting is sought by halving, and the share of the normal law beyond it is the chance on that line.

    python -m tests.planner.fit.chance_draws SHAPE THINGS OPENINGS [FIRST]
"""

import sys
from math import cos, pi, sin, sqrt

import numpy as np
from scipy.optimize import brentq
from scipy.stats import norm, qmc

from planner.errors import ImpossibleDimensionError
from planner.fit.fit_chance import find_chance_of_fit
from planner.geometry.openings.opening_shape import opening_sizes, see_opening, vary_opening
from planner.geometry.packing.search import find_placement
from planner.geometry.packing.set_clearance import find_set_clearance
from planner.parts import BoxOpening, Opening, OutlineOpening, OvalOpening, RoundOpening, SlotOpening
from planner.verdicts import Thing, ThingKind

SHAPES = ("round", "slot", "oval", "box", "outline")
FARTHEST = 7.0
FEW_LINES, MANY_LINES = 32, 256
DOUBT = 0.012
"""Where the chance and the few lines differ by more, many lines are drawn."""


class Question:
    """A random opening, its things, and every size's standard deviation."""

    def __init__(self, shape: str, things: int, seed: int) -> None:
        draw = np.random.default_rng([SHAPES.index(shape), things, seed])
        self.place = {
            "tilt_deg": float(draw.choice([0, 0, 20, 40])),
            "wall_thickness_mm": float(draw.choice([1, 1.6, 3])),
        }
        self.tolerances = draw.choice([0.05, 0.1, 0.2], things + 1)
        sizes = draw.uniform(2, 7, things)
        if draw.random() < 0.3:
            sizes[1:] = sizes[-1]
        outline = random_opening(draw, shape, float(self.tolerances[0]))
        low, high = 0.01, 100.0
        for _ in range(24):
            middle = sqrt(low * high)
            fits = self.clearance(outline, sizes * middle) >= 0
            low, high = (middle, high) if fits else (low, middle)
        scale = float(sizes.mean()) * low / 5
        self.opening = scaled(outline, 1 / scale)
        self.sizes = sizes * low / scale + draw.normal() * 0.03
        for _ in range(4):  # the wall is not scaled, so what just fitted does so only nearly
            self.sizes = self.sizes + self.clearance(self.opening, self.sizes)
        self.sizes = self.sizes + draw.normal() * 0.05
        deviations = [self.tolerances[0]] * len(opening_sizes(self.opening)) + self.tolerances[1:].tolist()
        self.deviations = np.array(deviations) / 2

    def clearance(self, opening: Opening, sizes: np.ndarray) -> float:
        """Searched anew; less than nothing where nothing is left of the hole."""
        try:
            if len(sizes) == 3:
                seen = see_opening(opening=opening, **self.place)
                order = np.sort(sizes)[::-1]
                return find_placement(seen, tuple(order.tolist())).growth_mm
            found = find_set_clearance(opening=opening, diameters_mm=np.maximum(sizes, 1e-6).tolist(), **self.place)
        except (ImpossibleDimensionError, ValueError):
            return -float(sizes.max())
        assert found.clearance_mm is not None
        return found.clearance_mm

    def clearance_off(self, off: np.ndarray) -> float:
        """With every size off by so many of its standard deviations."""
        off_mm, names = off * self.deviations, opening_sizes(self.opening)
        changes = dict(zip(names, off_mm.tolist(), strict=False))
        return self.clearance(vary_opening(opening=self.opening, changes_mm=changes), self.sizes + off_mm[len(names) :])

    def told(self) -> float:
        """By the planner."""
        items = [
            Thing(id=f"thing {k}", kind=ThingKind.LINE, diameter_mm=size, tolerance_mm=tolerance)
            for k, (size, tolerance) in enumerate(zip(self.sizes.tolist(), self.tolerances[1:].tolist(), strict=True))
        ]
        return find_chance_of_fit(opening=self.opening, items=items, **self.place)

    def drawn(self, lines: int) -> float:
        """By lines of drawn sizes."""
        count, step = len(self.deviations), 0.5
        units = np.eye(count) * step
        slope = np.array([self.clearance_off(one) - self.clearance_off(-one) for one in units])
        size = float(np.linalg.norm(slope))
        if size == 0:
            return float(self.clearance_off(np.zeros(count)) >= 0)
        direction = -slope / size
        points = norm.ppf(np.clip(qmc.Sobol(count, seed=1).random(lines), 1e-9, 1 - 1e-9))
        rests = points - (points @ direction)[:, None] * direction
        return float(np.mean([norm.cdf(self._end_of_line(rest, direction)) for rest in rests]))

    def _end_of_line(self, rest: np.ndarray, direction: np.ndarray) -> float:
        def room(along: float) -> float:
            return self.clearance_off(rest + along * direction)

        step, low = 0.5, 0.0
        at_low = room(low)
        sense = 1.0 if at_low >= 0 else -1.0
        while abs(low) < FARTHEST:
            high = low + sense * step
            at_high = room(high)
            if (at_high >= 0) != (at_low >= 0):
                return float(brentq(room, low, high, xtol=0.01))
            low, at_low, step = high, at_high, 2 * step
        return sense * FARTHEST


def random_opening(draw: np.random.Generator, shape: str, tolerance: float) -> Opening:
    width, longer = 10.0, float(draw.uniform(1.02, 2.5))
    match shape:
        case "round":
            return RoundOpening(diameter_mm=width, tolerance_mm=tolerance)
        case "slot":
            return SlotOpening(length_mm=width * longer, width_mm=width, tolerance_mm=tolerance)
        case "oval":
            return OvalOpening(length_mm=width * longer, width_mm=width, tolerance_mm=tolerance)
        case "box":
            corner = float(draw.choice([0.0, draw.uniform(0.02, 0.48) * width]))
            return BoxOpening(length_mm=width * longer, width_mm=width, corner_radius_mm=corner, tolerance_mm=tolerance)
    angles = 2 * pi * (np.arange(count := int(draw.integers(6, 25))) + draw.uniform(-0.3, 0.3, count)) / count
    radii = width / 2 * (1 - draw.choice([0.0, 0.1, 0.3]) * draw.uniform(0, 1, count))
    points = tuple((longer * r * cos(a), r * sin(a)) for r, a in zip(radii.tolist(), angles.tolist(), strict=True))
    return OutlineOpening(points_mm=points, tolerance_mm=tolerance)


def scaled(opening: Opening, times: float) -> Opening:
    match opening:
        case RoundOpening():
            return RoundOpening(diameter_mm=opening.diameter_mm * times, tolerance_mm=opening.tolerance_mm)
        case OutlineOpening():
            points = tuple((x * times, y * times) for x, y in opening.points_mm)
            return OutlineOpening(points_mm=points, tolerance_mm=opening.tolerance_mm)
        case BoxOpening():
            return BoxOpening(
                length_mm=opening.length_mm * times,
                width_mm=opening.width_mm * times,
                corner_radius_mm=opening.corner_radius_mm * times,
                tolerance_mm=opening.tolerance_mm,
            )
    kind = type(opening)
    return kind(
        length_mm=opening.length_mm * times, width_mm=opening.width_mm * times, tolerance_mm=opening.tolerance_mm
    )


def differences(shape: str, things: int, seed: int) -> tuple[float, float]:
    """The chance told, and by how much it is above that of the draws."""
    question = Question(shape, things, seed)
    told = question.told()
    off = told - question.drawn(FEW_LINES)
    if abs(off) > DOUBT:
        off = told - question.drawn(MANY_LINES)
    return told, off


def main() -> None:
    shape, things, count = sys.argv[1], int(sys.argv[2]), int(sys.argv[3])
    first = int(sys.argv[4]) if len(sys.argv) > 4 else 0
    for seed in range(first, first + count):
        told, off = differences(shape, things, seed)
        print(shape, things, seed, f"{told:.4f}", f"{off:+.4f}", flush=True)


if __name__ == "__main__":
    main()
