from dataclasses import replace
from math import cos, dist, radians, sqrt

import pytest

from planner.geometry.curves.legs import (
    LegEnd,
    LegRange,
    Posture,
    ends_in_postures,
    find_leg_motion,
    find_leg_ranges,
    find_mover,
    pose_in_posture,
)
from planner.geometry.curves.pose_pairs import pairs_of
from planner.geometry.curves.space_curves import find_shortest_curves
from planner.geometry.motion.frame_axes import Pose3
from planner.geometry.motion.rear_motion import LinkageLocked
from planner.parts import Anchor, Bar, FourBar, Frame, MovesWith, SinglePivot

BAR = Bar(axis_point_mm=(405, 0, 612), axis=(-0.42, 0, 0.91), lock_deg=75)
UPRIGHT = Bar(axis_point_mm=(0, 0, 0), axis=(0, 0, 1), lock_deg=60)
REAR = SinglePivot(pivot_mm=(12, 58), swing_deg=15, moves=("stay-front",))
ON_BAR = LegEnd(pose=Pose3(position_mm=(470, -210, 690), heading=(0.5, 0.85, 0.1)), moves_with=MovesWith.BAR)
ON_FRAME = LegEnd(pose=Pose3(position_mm=(416, 24, 520), heading=(-0.48, -0.643, -0.6)))
ON_REAR = LegEnd(pose=Pose3(position_mm=(-26, 40, 27), heading=(-0.998, 0.064, -0.048)), moves_with=MovesWith.REAR)


def leg_range(
    start: LegEnd, end: LegEnd, bar: Bar | None, rear: SinglePivot | FourBar | None, *, radius_mm: float = 1e-3
) -> LegRange:
    """With a bend radius of next to nothing, a curve is its chord."""
    motion = find_leg_motion(start=start, end=end, bar=bar, rear=rear)
    return find_leg_ranges(motions=[motion], centreline_radius_mm=radius_mm)[0]


def chords_mm(ends: list[tuple[Pose3, Pose3]]) -> list[float]:
    return [dist(start.position_mm, end.position_mm) for start, end in ends]


def test_leg_between_still_ends_is_looked_at_once() -> None:
    found = leg_range(ON_FRAME, replace(ON_REAR, moves_with=None), BAR, REAR)
    assert (found.postures, found.longest_at, found.shortest_at) == ((Posture(),), Posture(), Posture())
    assert found.rest_mm == found.longest_mm == found.shortest_mm


def test_ends_that_move_together_keep_their_leg() -> None:
    other = LegEnd(pose=Pose3(position_mm=(-420, 78, 48), heading=(-0.9, 0.1, 0.42)), moves_with=MovesWith.REAR)
    found = leg_range(ON_REAR, other, BAR, REAR)
    assert found.postures == (Posture(),)


def test_distance_to_the_bar_is_longest_and_shortest_where_the_law_of_cosines_says() -> None:
    """Frame point 40 from the axis, bar point 60 from it and 80 higher, 50 degrees apart; the bar turns 60 each way."""
    on_frame = LegEnd(
        pose=Pose3(position_mm=(40 * cos(radians(50)), -40 * sqrt(1 - cos(radians(50)) ** 2), 0), heading=(1, 0, 0))
    )
    on_bar = LegEnd(pose=Pose3(position_mm=(60, 0, 80), heading=(1, 0, 0)), moves_with=MovesWith.BAR)
    found = leg_range(on_bar, on_frame, UPRIGHT, None)
    longest_mm = sqrt(40**2 + 60**2 + 80**2 - 2 * 40 * 60 * cos(radians(110)))
    shortest_mm = sqrt(40**2 + 60**2 + 80**2 - 2 * 40 * 60)
    assert found.longest_at == Posture(bar_deg=60)
    assert found.longest_mm == pytest.approx(longest_mm, abs=0.02)
    assert found.shortest_at.bar_deg == pytest.approx(-50, abs=0.7)
    assert found.shortest_mm == pytest.approx(shortest_mm, abs=0.01)


def test_search_over_the_bar_beats_every_whole_degree() -> None:
    found = leg_range(ON_BAR, ON_FRAME, BAR, None, radius_mm=37.5)
    sweep = ends_in_postures(found.motion, [Posture(bar_deg=bar_deg) for bar_deg in range(-75, 76)])
    pairs = pairs_of(ends=sweep, centreline_radius_mm=37.5)
    lengths_mm = find_shortest_curves(pairs).chains.lengths * 37.5
    assert found.longest_mm >= lengths_mm.max() - 0.05
    assert found.shortest_mm <= lengths_mm.min() + 0.05
    assert abs(found.longest_at.bar_deg) <= 75
    assert found.shortest_mm < found.rest_mm < found.longest_mm


def test_leg_from_bar_to_rear_is_searched_over_both() -> None:
    found = leg_range(ON_BAR, ON_REAR, BAR, REAR)
    lengths = {}
    for bar_deg in range(-75, 76, 3):
        for rear_deg in range(16):
            at = Posture(bar_deg=bar_deg, rear_deg=rear_deg)
            lengths[at] = dist(
                pose_in_posture(ON_BAR, posture=at, bar=BAR, rear=REAR).position_mm,
                pose_in_posture(ON_REAR, posture=at, bar=BAR, rear=REAR).position_mm,
            )
    assert found.longest_mm >= max(lengths.values()) - 0.01
    assert found.shortest_mm <= min(lengths.values()) + 0.2
    assert len(found.postures) > 13 * 7
    worst = max(lengths, key=lambda at: lengths[at])
    assert found.longest_at.bar_deg == pytest.approx(worst.bar_deg, abs=3)
    assert found.longest_at.rear_deg == pytest.approx(worst.rear_deg, abs=1)


@pytest.mark.parametrize(("swing_deg", "locks"), [(-10, False), (-80, True)])
def test_rear_that_locks_is_looked_at_up_to_its_lock_and_told(swing_deg: float, locks: bool) -> None:
    rear = FourBar(
        frame_pivots_mm=((0, 0), (0, 100)), link_pivots_mm=((-200, 0), (-90, 120)), swing_deg=swing_deg, moves=("x",)
    )
    found = leg_range(ON_FRAME, ON_REAR, None, rear)
    motion = find_leg_motion(start=ON_FRAME, end=ON_REAR, bar=None, rear=rear)
    assert (motion.locked is not None) is locks
    if locks:
        assert isinstance(motion.locked, LinkageLocked)
        assert motion.locked.asked_deg == -80
        assert -80 < motion.swing_deg == motion.locked.locks_at_deg < -10
        assert found.longest_at.rear_deg >= motion.locked.locks_at_deg
        just_before, at, beyond = (
            pose_in_posture(ON_REAR, posture=Posture(rear_deg=motion.locked.locks_at_deg + by), bar=None, rear=rear)
            for by in (1e-6, 0.0, -5.0)
        )
        assert at == beyond
        assert dist(just_before.position_mm, at.position_mm) < 0.1 < dist(at.position_mm, ON_REAR.pose.position_mm)
        sweep = ends_in_postures(motion, [Posture(rear_deg=-80 * i / 2000) for i in range(2001)])
        assert found.longest_mm == pytest.approx(max(chords_mm(sweep)), abs=0.02)
    else:
        assert motion.swing_deg == -10


def test_motion_that_nobody_described_is_named_and_not_guessed() -> None:
    found = find_leg_motion(start=ON_BAR, end=ON_REAR, bar=None, rear=None)
    assert found.not_measured == (MovesWith.BAR, MovesWith.REAR)
    assert leg_range(ON_BAR, ON_REAR, None, None).postures == (Posture(),)


def test_what_carries_a_place_is_read_from_the_rear_first() -> None:
    frame = Frame(
        id="f",
        name="f",
        zones={},
        ports={},
        anchors={
            "lever": Anchor(id="lever", position_mm=(0, 0, 0), heading=(1, 0, 0), moves_with=MovesWith.BAR),
            "stop": Anchor(id="stop", position_mm=(0, 0, 0), heading=(1, 0, 0)),
        },
        runs={},
        rear=REAR,
    )
    assert find_mover(frame=frame, place="stay-front") is MovesWith.REAR
    assert find_mover(frame=frame, place="lever") is MovesWith.BAR
    assert find_mover(frame=frame, place="stop") is None
    assert find_mover(frame=replace(frame, rear=None), place="stay-front") is None
