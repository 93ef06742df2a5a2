"""How long the lengths of legs take: one curve, one relaxed shape, and a whole line with everything that moves.

Run with `python -m pytest tests/benchmarks/bench_curves.py --benchmark-only`.
"""

from functools import partial

import pytest

from planner.geometry.curves.legs import LegEnd, find_leg_motion, find_leg_range, measure_shortest
from planner.geometry.curves.relaxed_legs import find_relaxed_range
from planner.geometry.curves.relaxed_shape import find_relaxed_shapes
from planner.geometry.curves.space_curves import shortest_bend_limited_curve
from planner.geometry.motion.frame_axes import Curve, Pose3
from planner.parts import Bar, MovesWith, SinglePivot

RADIUS_MM = 37.5
BAR = Bar(axis_point_mm=(405, 0, 612), axis=(-0.42, 0, 0.91), lock_deg=75)
REAR = SinglePivot(pivot_mm=(12, 58), swing_deg=15, moves=())


def end(
    place: tuple[float, float, float], heading: tuple[float, float, float], mover: MovesWith | None = None
) -> LegEnd:
    return LegEnd(pose=Pose3(position_mm=place, heading=heading), moves_with=mover)


NECK = ((416, 24, 520), (-0.48, -0.643, -0.6))
BELLY = ((58, 20, 96), (-0.62, 0.1, -0.78))
LEGS = {
    "cockpit": (end((470, -210, 690), (0.5, 0.85, 0.1), MovesWith.BAR), end(*NECK)),
    "down tube": (end(*NECK), end(*BELLY)),
    "bottom bracket": (end(*BELLY), end((-26, 40, 27), (-0.998, 0.064, -0.048), MovesWith.REAR)),
    "loop to the caliper": (
        end((-392, 64, 10), (-0.998, 0.064, -0.048), MovesWith.REAR),
        end((-420, 78, 48), (-0.9, 0.1, 0.42), MovesWith.REAR),
    ),
}


def shortest(start: Pose3, finish: Pose3) -> Curve:
    return shortest_bend_limited_curve(start=start, end=finish, centreline_radius_mm=RADIUS_MM)


@pytest.mark.parametrize("leg", LEGS)
def test_one_shortest_curve(benchmark, leg: str) -> None:
    start, finish = LEGS[leg]
    assert benchmark(shortest, start.pose, finish.pose).length_mm > 0


def test_all_shortest_curves_at_rest(benchmark) -> None:
    assert len(benchmark(lambda: [shortest(a.pose, b.pose) for a, b in LEGS.values()])) == len(LEGS)


@pytest.mark.parametrize("leg", LEGS)
def test_one_relaxed_shape(benchmark, leg: str) -> None:
    ends = [(LEGS[leg][0].pose, LEGS[leg][1].pose)]
    found = benchmark(lambda: find_relaxed_shapes(ends=ends, centreline_radius_mm=RADIUS_MM))
    assert found[0] is not None


def test_all_relaxed_shapes_at_rest_together(benchmark) -> None:
    ends = [(a.pose, b.pose) for a, b in LEGS.values()]
    found = benchmark(lambda: find_relaxed_shapes(ends=ends, centreline_radius_mm=RADIUS_MM))
    assert all(shape is not None for shape in found)


def test_whole_line_over_all_postures_both_bounds(benchmark) -> None:
    def whole() -> float:
        need_mm = 0.0
        for start, finish in LEGS.values():
            motion = find_leg_motion(start=start, end=finish, bar=BAR, rear=REAR)
            low = find_leg_range(motion=motion, measure=partial(measure_shortest, centreline_radius_mm=RADIUS_MM))
            high = find_relaxed_range(motion=motion, centreline_radius_mm=RADIUS_MM, shortest=low)
            assert high is not None
            need_mm += high.longest.length_mm
        return need_mm

    assert 1300 < benchmark(whole) < 1400
