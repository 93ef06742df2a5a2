"""How long the lengths of legs take: one curve, one relaxed shape, and a whole line with everything that moves.

Run with `python -m pytest tests/benchmarks/bench_curves.py --benchmark-only`.
"""

import pytest

from planner.geometry.curves.hose_lengths import find_hose_ranges
from planner.geometry.curves.led_runs import find_stretches
from planner.geometry.curves.legs import LegEnd, LegMotion, find_leg_motion, find_leg_ranges
from planner.geometry.motion.frame_axes import Curve, Pose3
from planner.parts import Bar, MovesWith, SinglePivot
from tests.benchmarks.bench_plan import empty_memories
from tests.planner.geometry.hose_samples import shortest_bend_limited_curve

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


def motions(*, moving: bool) -> tuple[LegMotion, ...]:
    bar, rear = (BAR, REAR) if moving else (None, None)
    return tuple(find_leg_motion(start=a, end=b, bar=bar, rear=rear) for a, b in LEGS.values())


@pytest.mark.parametrize("moving", [False, True], ids=["at rest", "over all postures"])
def test_whole_line_shortest(benchmark, moving: bool) -> None:
    together = motions(moving=moving)
    found = benchmark(lambda: find_leg_ranges(motions=together, centreline_radius_mm=RADIUS_MM))
    assert len(found) == len(LEGS)


@pytest.mark.parametrize("moving", [False, True], ids=["at rest", "over all postures"])
def test_whole_line_as_a_real_hose(benchmark, moving: bool) -> None:
    found = find_leg_ranges(motions=motions(moving=moving), centreline_radius_mm=RADIUS_MM)
    hoses = benchmark(lambda: find_hose_ranges(found))
    assert 1300 < sum(hose.longest_mm for hose in hoses) < 1400


def test_a_run_led_past_two_points(benchmark) -> None:
    start, finish = LEGS["down tube"]
    points_mm = ((300, 30, 400), (180, 10, 250))

    def led() -> float:
        pieces = find_stretches(start=start, points_mm=points_mm, end=finish, centreline_radius_mm=RADIUS_MM)
        return float(len(pieces))

    assert benchmark.pedantic(led, setup=empty_memories, rounds=10) == 3
