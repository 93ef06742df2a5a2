"""Legs as real hoses over all postures: against sweeps, one branch, one length, loops."""

import numpy as np
import pytest

from planner.geometry.curves.elastica_chain import choose_rods
from planner.geometry.curves.hose_lengths import HoseRange, find_hose_ranges
from planner.geometry.curves.hose_postures import follow_shapes, rows_of_legs
from planner.geometry.curves.hose_shapes import refined, shapes_from_neighbours
from planner.geometry.curves.leg_loops import LoopGrade, find_loop
from planner.geometry.curves.legs import (
    LegEnd,
    LegMotion,
    LegRange,
    Posture,
    ends_in_postures,
    find_leg_motion,
    find_leg_ranges,
)
from planner.geometry.curves.pose_pairs import pairs_of, rows_of
from planner.geometry.curves.space_curves import find_shortest_curves
from planner.geometry.motion.frame_axes import Pose3
from planner.parts import Bar, FourBar, MovesWith, SinglePivot
from tests.planner.geometry.hose_samples import random_bar_legs, still_leg

RADIUS_MM = 37.5
SWEEP = 240


def told(*motions: LegMotion, radius_mm: float = RADIUS_MM) -> list[tuple[LegRange, HoseRange]]:
    ranges = find_leg_ranges(motions=motions, centreline_radius_mm=radius_mm)
    return list(zip(ranges, find_hose_ranges(ranges), strict=True))


def highest_in_a_sweep_mm(found: LegRange) -> float:
    """The most that many postures ask, each reached from the nearest one of the grid."""
    motion, rows = found.motion, rows_of_legs([found])
    lyings = follow_shapes(rows, [motion])
    angles = np.linspace(-motion.lock_deg, motion.lock_deg, SWEEP)
    postures = [Posture(bar_deg=float(angle)) for angle in angles]
    pairs = pairs_of(ends=ends_in_postures(motion, postures), centreline_radius_mm=RADIUS_MM)
    least = find_shortest_curves(pairs).chains.lengths
    on_grid = np.array([rows.postures[int(row)].bar_deg for row in lyings.rows])
    near = np.abs(angles[:, None] - on_grid[None]).argmin(axis=1)
    shapes = shapes_from_neighbours(
        pairs,
        choose_rods(lyings.shapes.rods, near),
        least=least,
        neighbours_least=rows.curves.chains.lengths[lyings.rows[near]],
    )
    rods = choose_rods(shapes.rods, shapes.found)
    _, lengths, settled = refined(rows_of(pairs, shapes.found), rods, least=least[shapes.found])
    assert settled.mean() > 0.9
    return float(lengths[settled].max()) * RADIUS_MM


def test_the_most_asked_is_that_of_a_sweep_within_half_a_millimetre_and_never_short() -> None:
    for found, hose in told(*random_bar_legs(6, seed=3)):
        assert hose.estimated == ()
        over_mm = hose.longest_mm - highest_in_a_sweep_mm(found)
        assert 0 <= over_mm < 0.5


def test_no_posture_of_random_legs_is_left_without_a_length() -> None:
    legs = random_bar_legs(12, seed=31, widest_deg=(150, 110))
    for found, hose in told(*legs):
        assert hose.estimated == () or not found.curves.is_only_plain.all()
        assert hose.longest_mm >= found.longest_mm - 1e-9
        assert hose.need_mm >= hose.longest_mm


def test_a_small_turn_of_the_bar_changes_the_need_by_little() -> None:
    """One branch is followed: between locks half a degree apart no more than the ends move and turn."""
    (motion,) = random_bar_legs(1, seed=17)
    assert motion.bar is not None
    needs = []
    for lock_deg in (40.0, 40.5, 41.0):
        bar = Bar(axis_point_mm=motion.bar.axis_point_mm, axis=motion.bar.axis, lock_deg=lock_deg)
        moved = find_leg_motion(start=motion.start, end=motion.end, bar=bar, rear=None)
        needs.append(told(moved)[0][1].longest_mm)
    assert max(needs) - min(needs) < 5


def rocker_loop() -> LegMotion:
    """A hose that spans a linkage: straight on at rest, its ends some 75 mm closer at full swing."""
    rear = SinglePivot(pivot_mm=(-30.0, 200.0), swing_deg=30.0, moves=())
    start = LegEnd(pose=Pose3(position_mm=(-180.0, 20.0, 330.0), heading=(1.0, 0.0, 0.1)), moves_with=MovesWith.REAR)
    end = LegEnd(pose=Pose3(position_mm=(-15.0, 20.0, 345.0), heading=(1.0, 0.0, 0.1)))
    return find_leg_motion(start=start, end=end, bar=None, rear=rear)


def test_a_hose_that_is_long_enough_at_rest_may_be_bent_too_tightly_at_full_swing() -> None:
    ((_, hose),) = told(rocker_loop())
    held = hose.one_length
    assert held is not None
    assert not held.serves
    assert held.tightest_radius_mm < RADIUS_MM / 1.2
    assert held.tightest_at != hose.longest_at
    assert held.slack_mm > 50
    assert hose.need_mm == hose.longest_mm  # asked, not lengthened


def test_one_length_that_serves_every_posture_is_the_need() -> None:
    for _, hose in told(*random_bar_legs(6, seed=3)):
        assert hose.one_length is not None
        assert hose.one_length.serves
        assert hose.one_length.tightest_radius_mm >= RADIUS_MM / 1.006
        assert hose.need_mm == pytest.approx(hose.one_length.length_mm)


def test_a_leg_that_does_not_move_is_not_asked_for_one_length() -> None:
    start = Pose3(position_mm=(0.0, 0.0, 0.0), heading=(1.0, 0.0, 0.0))
    end = Pose3(position_mm=(300.0, 40.0, 0.0), heading=(1.0, 0.0, 0.0))
    ((found, hose),) = told(still_leg(start, end))
    assert hose.one_length is None
    assert find_loop(found, hose) is None


@pytest.mark.parametrize(("aside_mm", "grade"), [(0.0, None), (0.5, LoopGrade.LOOP), (6.0, LoopGrade.LOOP)])
def test_ends_six_millimetres_apart_need_a_loop_as_soon_as_they_are_out_of_line(
    aside_mm: float, grade: LoopGrade | None
) -> None:
    start = Pose3(position_mm=(0.0, 0.0, 0.0), heading=(1.0, 0.0, 0.0))
    end = Pose3(position_mm=(6.0, aside_mm, 0.0), heading=(1.0, 0.0, 0.0))
    ((found, hose),) = told(still_leg(start, end))
    loop = find_loop(found, hose)
    assert (None if loop is None else loop.grade) is grade
    if loop is not None:
        assert loop.length_mm > 200
        assert loop.radius_without_mm == pytest.approx((36 + aside_mm**2) / (4 * aside_mm), rel=0.02)


def test_a_four_bar_that_locks_is_followed_up_to_its_lock() -> None:
    rear = FourBar(frame_pivots_mm=((0, 0), (0, 100)), link_pivots_mm=((-200, 0), (-90, 120)), swing_deg=-80, moves=())
    on_rear = LegEnd(pose=Pose3(position_mm=(-260, 40, 27), heading=(-0.998, 0.064, -0.048)), moves_with=MovesWith.REAR)
    on_frame = LegEnd(pose=Pose3(position_mm=(150, 24, 320), heading=(-0.6, -0.1, -0.8)))
    motion = find_leg_motion(start=on_frame, end=on_rear, bar=None, rear=rear)
    assert motion.locked is not None
    ((found, hose),) = told(motion)
    beyond = ends_in_postures(motion, [Posture(rear_deg=-80.0)])
    pairs = pairs_of(ends=beyond, centreline_radius_mm=RADIUS_MM)
    at_lock_mm = float(find_shortest_curves(pairs).chains.lengths[0]) * RADIUS_MM
    assert hose.longest_mm >= at_lock_mm
    assert found.longest_mm >= at_lock_mm - 0.05
