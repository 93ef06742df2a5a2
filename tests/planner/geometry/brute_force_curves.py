"""A second, slower way to the shortest arc-straight-arc curve in space, for the tests to hold the planner's against.

Five unknowns (both arcs as turn vectors, and the straight) under six equations, by damped Gauss-Newton steps from forty
random directions of the straight, each arc once the short and once the long way round.

    python -m tests.planner.geometry.brute_force_curves > tests/published_values/arc_straight_arc_brute_force.csv
"""

import csv
import sys
from typing import NamedTuple

import numpy as np

RADIUS_MM = 40.0
GUESSES = 40
STEPS = 30


class Arc(NamedTuple):
    turn: np.ndarray
    side: np.ndarray
    leaving: np.ndarray
    change: np.ndarray
    cos: np.ndarray
    sin: np.ndarray
    polar: np.ndarray
    divisor: np.ndarray


def random_poses(count: int, *, seed: int = 1) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Ways to go in units of the radius, up to eight of it, and both headings."""
    chance = np.random.default_rng(seed)
    goals = unit(chance.normal(size=(count, 3))) * chance.uniform(0.3, 8, size=(count, 1))
    return goals, unit(chance.normal(size=(count, 3))), unit(chance.normal(size=(count, 3)))


def brute_force_lengths(goals: np.ndarray, starts: np.ndarray, ends: np.ndarray, *, seed: int = 2) -> np.ndarray:
    """Length of the shortest curve found for each row, in units of the radius."""
    chance = np.random.default_rng(seed)
    count, many = len(goals), 4 * GUESSES
    leaving = np.repeat(unit(chance.normal(size=(count * GUESSES, 3))), 4, axis=0)
    goal, start, end = (np.repeat(rows, many, axis=0) for rows in (goals, starts, ends))
    start_axes, end_axes = axes_across(start), axes_across(end)
    first = turn_vectors(leaving, start, start_axes, np.tile([False, False, True, True], count * GUESSES))
    last = turn_vectors(leaving, end, end_axes, np.tile([False, True, False, True], count * GUESSES))
    stretch = (leaving * goal).sum(axis=1)
    for _ in range(STEPS):
        a, b = arc(first, start, start_axes), arc(last, end, end_axes)
        reach = stretch[:, None] * a.leaving - (1 - a.cos) * a.change - (1 - b.cos) * b.change
        miss = np.concatenate([reach - goal, a.leaving - b.leaving], axis=1)
        error = np.abs(miss).max(axis=1)
        step = newton_step(a, b, stretch[:, None], miss, error)
        first = first + in_plane(step[:, 0:2], a.polar)
        last = last + in_plane(step[:, 2:4], b.polar)
        stretch = stretch + step[:, 4]
    straight = stretch - a.sin[:, 0] - b.sin[:, 0]
    found = (error < 1e-9) & (straight > -1e-9) & (a.turn < 2 * np.pi) & (b.turn < 2 * np.pi)
    lengths = np.where(found, a.turn + b.turn + straight, np.inf)
    return lengths.reshape(count, many).min(axis=1)


def newton_step(a: Arc, b: Arc, stretch: np.ndarray, miss: np.ndarray, error: np.ndarray) -> np.ndarray:
    slope = np.zeros((len(miss), 6, 5))
    slope[:, :3, 0] = (stretch - a.sin) * a.change + (1 - a.cos) * a.leaving
    slope[:, :3, 1] = (stretch * a.sin - (1 - a.cos) * a.cos) / a.divisor * a.side
    slope[:, :3, 2] = (1 - b.cos) * b.leaving - b.sin * b.change
    slope[:, :3, 3] = -(1 - b.cos) * b.cos / b.divisor * b.side
    slope[:, :3, 4] = a.leaving
    slope[:, 3:, 0], slope[:, 3:, 1] = a.change, a.sin / a.divisor * a.side
    slope[:, 3:, 2], slope[:, 3:, 3] = -b.change, -b.sin / b.divisor * b.side
    across = slope.transpose(0, 2, 1)
    normal = across @ slope
    normal[:, range(5), range(5)] += 1e-13 + 1e-3 * np.minimum(error, 1.0)[:, None] ** 2
    step = np.linalg.solve(normal, -(across @ miss[:, :, None]))[:, :, 0]
    return step / np.maximum(1.0, np.abs(step[:, :4]).max(axis=1) / 0.8)[:, None]


def arc(vector: np.ndarray, heading: np.ndarray, axes: tuple[np.ndarray, np.ndarray]) -> Arc:
    turn = np.maximum(np.hypot(vector[:, 0], vector[:, 1]), 1e-12)
    polar = vector / turn[:, None]
    normal = polar[:, :1] * axes[0] + polar[:, 1:] * axes[1]
    side = polar[:, :1] * axes[1] - polar[:, 1:] * axes[0]
    c, s = np.cos(turn)[:, None], np.sin(turn)[:, None]
    return Arc(turn, side, c * heading + s * normal, c * normal - s * heading, c, s, polar, turn[:, None])


def in_plane(step: np.ndarray, polar: np.ndarray) -> np.ndarray:
    return step[:, :1] * polar + step[:, 1:] * np.stack([-polar[:, 1], polar[:, 0]], axis=1)


def turn_vectors(leaving: np.ndarray, heading: np.ndarray, axes: tuple, long_way: np.ndarray) -> np.ndarray:
    flat = np.stack([(leaving * axis).sum(axis=1) for axis in axes], axis=1)
    size = np.hypot(flat[:, 0], flat[:, 1])
    turn = np.arctan2(size, (leaving * heading).sum(axis=1))
    return (np.where(long_way, turn - 2 * np.pi, turn) / size)[:, None] * flat


def unit(vectors: np.ndarray) -> np.ndarray:
    return vectors / np.linalg.norm(vectors, axis=1, keepdims=True)


def axes_across(heading: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    least = np.eye(3)[np.abs(heading).argmin(axis=1)]
    first = unit(np.cross(heading, least))
    return first, np.cross(heading, first)


def main() -> None:
    goals, starts, ends = random_poses(1000)
    lengths = np.concatenate(
        [brute_force_lengths(goals[i : i + 50], starts[i : i + 50], ends[i : i + 50]) for i in range(0, 1000, 50)]
    )
    writer = csv.writer(sys.stdout, lineterminator="\n")
    names = [f"{what}_{axis}" for what in ("goal", "start_heading", "end_heading") for axis in "xyz"]
    names[:3] = [f"{name}_mm" for name in names[:3]]
    writer.writerow(
        ["case", *names, "radius_mm", "expected_mm", "tolerance_mm", "kind", "source", "locator", "read_on"]
    )
    for i, row in enumerate(zip(goals, starts, ends, lengths, strict=True)):
        numbers = [f"{x:.12g}" for x in (*row[0] * RADIUS_MM, *row[1], *row[2])]
        source, locator = "brute force from 160 first guesses", "tests/planner/geometry/brute_force_curves.py"
        writer.writerow(
            [
                f"random poses {i}",
                *numbers,
                RADIUS_MM,
                f"{row[3] * RADIUS_MM:.9f}",
                1e-6,
                "brute_force",
                source,
                locator,
                "",
            ]
        )


if __name__ == "__main__":
    main()
