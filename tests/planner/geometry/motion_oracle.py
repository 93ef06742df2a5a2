"""Compares our answer for a rigid piece through a wall with a general motion planner: run it, it prints a table.

    python -m tests.planner.geometry.motion_oracle [seconds a planner may think, 10 unless told]

The planner is RRT-Connect of the Open Motion Planning Library (I. A. Sucan, M. Moll, L. E. Kavraki, "The Open Motion
Planning Library", IEEE Robotics & Automation Magazine 19(4), 2012, 72-82; from memory) over SE(2), with an own test for
touching that shares nothing with ours. It can find a motion, but not prove that there is none; where it found none in
its time, that is told as such. Exits with 1 when it finds a motion where we say that there is none.
"""

import sys
from dataclasses import dataclass
from math import cos, pi, sin
from time import perf_counter

from ompl import base, geometric
from ompl import util as ompl_util

from planner.geometry.rigid.wall_motion import find_longest_through_wall_mm, find_motion_through_wall

SHORTER, LONGER = 0.97, 1.03
STEP_MM = 0.1
TURN_WEIGHT, RANGE_RATIO = 2.0, 0.02
"""Tuned for the planner: a turn counts as that many piece lengths a radian, a step is that share of a length. With its
own defaults it found no motion at all in 1 s."""

WALLS = [  # piece diameter, opening length, wall, corridor [mm]
    (5.0, 12.0, 2.0, 35.0),
    (5.0, 7.0, 2.0, 25.0),
    (5.0, 8.0, 1.5, 30.0),
    (5.5, 9.0, 1.2, 28.0),
    (4.0, 6.0, 1.0, 20.0),
    (4.0, 8.0, 3.0, 18.0),
    (5.0, 10.0, 2.5, 44.0),
    (5.2, 7.0, 1.6, 44.0),
    (5.2, 19.0, 1.6, 44.0),
    (6.0, 10.0, 2.0, 30.0),
    (6.7, 9.0, 1.6, 35.0),
    (5.0, 15.0, 3.0, 22.0),
    (5.0, 20.0, 1.0, 19.0),
    (3.0, 6.0, 2.0, 15.0),
    (3.0, 12.0, 6.0, 15.0),
    (8.2, 12.0, 2.0, 40.0),
    (4.6, 11.0, 4.0, 26.0),
    (5.0, 8.0, 8.0, 24.0),
    (2.5, 5.0, 1.0, 12.0),
    (9.5, 16.0, 2.0, 38.0),
]


@dataclass(frozen=True, slots=True)
class Box:
    """A solid rectangle with upright sides. [mm]"""

    left: float
    right: float
    low: float
    high: float


def touches(*, x: float, y: float, angle: float, half_length: float, half_width: float, box: Box) -> bool:
    """Separating axes of two rectangles, one upright and one leaning."""
    c, s = cos(angle), sin(angle)
    dx, dy = (box.left + box.right) / 2 - x, (box.low + box.high) / 2 - y
    bx, by = (box.right - box.left) / 2, (box.high - box.low) / 2
    ac, as_ = abs(c), abs(s)
    return (
        abs(dx) <= bx + half_length * ac + half_width * as_
        and abs(dy) <= by + half_length * as_ + half_width * ac
        and abs(dx * c + dy * s) <= half_length + bx * ac + by * as_
        and abs(dy * c - dx * s) <= half_width + bx * as_ + by * ac
    )


def plan_with_oracle(*, length: float, wall: tuple[float, float, float, float], seconds: float) -> float | None:
    """Seconds until the planner had a motion; None when it had none in time."""
    diameter, opening, thickness, corridor = wall
    reach = length + opening / 2
    boxes = (
        Box(-4 * reach, -opening / 2, -thickness, 0.0),
        Box(opening / 2, 4 * reach, -thickness, 0.0),
        Box(-4 * reach, 4 * reach, corridor, corridor + 4 * reach),
    )
    bounds = base.RealVectorBounds(2)
    for axis, (low, high) in enumerate(((-reach, reach), (-thickness - reach, corridor))):
        bounds.setLow(axis, low)
        bounds.setHigh(axis, high)
    space = base.SE2StateSpace()
    space.setBounds(bounds)
    space.setSubspaceWeight(1, TURN_WEIGHT * length)
    setup = geometric.SimpleSetup(space)

    def is_free(state: object) -> bool:
        pose = {"x": state.getX(), "y": state.getY(), "angle": state.getYaw()}
        size = {"half_length": length / 2, "half_width": diameter / 2}
        return not any(touches(**pose, **size, box=box) for box in boxes)

    setup.setStateValidityChecker(is_free)
    info = setup.getSpaceInformation()
    info.setStateValidityCheckingResolution(STEP_MM / space.getMaximumExtent())
    start, goal = space.allocState(), space.allocState()
    for state, x, y, angle in (
        (start, 0.0, -thickness - 0.6 * length, pi / 2),
        (goal, 0.6 * length, corridor / 2, 0.0),
    ):
        state.setX(x)
        state.setY(y)
        state.setYaw(angle)
    setup.setStartAndGoalStates(start, goal)
    planner = geometric.RRTConnect(info)
    planner.setRange(RANGE_RATIO * length)
    setup.setPlanner(planner)
    began = perf_counter()
    setup.solve(seconds)
    took = perf_counter() - began
    return took if setup.haveExactSolutionPath() else None


def find_ours(*, length: float, wall: tuple[float, float, float, float]) -> tuple[bool | None, float]:
    diameter, opening, thickness, corridor = wall
    began = perf_counter()
    found = find_motion_through_wall(
        piece_length_mm=length,
        piece_diameter_mm=diameter,
        opening_length_mm=opening,
        wall_thickness_mm=thickness,
        corridor_mm=corridor,
    )
    return found.passes, perf_counter() - began


def compare(seconds: float) -> int:
    ompl_util.setLogLevel(ompl_util.LogLevel.LOG_NONE)
    print(
        "diameter opening  wall corridor |    limit | 3 % shorter: ours, planner (slower) | 3 % longer: ours, planner"
    )
    contradictions, speedups = 0, []
    for wall in WALLS:
        diameter, opening, thickness, corridor = wall
        limit = find_longest_through_wall_mm(
            piece_diameter_mm=diameter,
            opening_length_mm=opening,
            wall_thickness_mm=thickness,
            corridor_mm=corridor,
        ).upper_mm
        passes, ours_s = find_ours(length=limit * SHORTER, wall=wall)
        found_s = plan_with_oracle(length=limit * SHORTER, wall=wall, seconds=seconds)
        passes_longer, _ = find_ours(length=limit * LONGER, wall=wall)
        found_longer_s = plan_with_oracle(length=limit * LONGER, wall=wall, seconds=seconds)
        contradictions += passes is not True or passes_longer is not False or found_longer_s is not None
        speedups += [] if found_s is None else [found_s / ours_s]
        print(
            f"{diameter:8g} {opening:7g} {thickness:5g} {corridor:8g} | {limit:8.3f} | "
            f"{passes!s:5} {ours_s * 1e3:4.1f} ms, {told(found_s, seconds):15} {told_ratio(found_s, ours_s):8} | "
            f"{passes_longer!s:5}, {told(found_longer_s, seconds)}",
            flush=True,
        )
    print(f"the planner found {len(speedups)} of {len(WALLS)} shorter pieces")
    print(f"and was at least {min(speedups, default=0):.0f} times slower where it did")
    print(f"contradictions: {contradictions}")
    return 1 if contradictions else 0


def told(found_s: float | None, seconds: float) -> str:
    return f"none in {seconds:g} s" if found_s is None else f"found in {found_s:.2f} s"


def told_ratio(found_s: float | None, ours_s: float) -> str:
    return "" if found_s is None else f"({found_s / ours_s:.0f} x)"


if __name__ == "__main__":
    sys.exit(compare(float(sys.argv[1]) if len(sys.argv) > 1 else 10.0))
