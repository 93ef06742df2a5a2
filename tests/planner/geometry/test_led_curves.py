"""Curves led past points, against a dense search over the headings at them."""

import numpy as np
import pytest

from planner.geometry.curves import led_curves
from planner.geometry.curves.arc_straight_arc import ArcStraightArcs, find_plain_curves
from planner.geometry.curves.led_curves import LedCurve, LedWays
from planner.geometry.curves.led_runs import find_stretches, widest_radius_past_points_mm
from planner.geometry.curves.legs import LegEnd
from planner.geometry.curves.pose_pairs import PosePairs
from planner.geometry.curves.space_curves import find_shortest_curves
from planner.geometry.motion.frame_axes import Pose3
from planner.parts import MovesWith


def unit(vectors: np.ndarray) -> np.ndarray:
    return vectors / np.linalg.norm(vectors, axis=-1, keepdims=True)


def length_of(led: LedCurve) -> float:
    return float(led.pieces.chains.lengths.sum())


def spread(count: int) -> np.ndarray:
    """Directions all over the sphere, about evenly."""
    i = np.arange(count) + 0.5
    down, around = np.arccos(1 - 2 * i / count), np.pi * (1 + 5**0.5) * i
    return np.stack([np.cos(around) * np.sin(down), np.sin(around) * np.sin(down), np.cos(down)], axis=1)


def random_run(chance: np.random.Generator) -> tuple[np.ndarray, ...]:
    """First heading, a point, the end and its heading; the headings within 60 degrees of the way."""
    point = unit(chance.normal(size=3)) * chance.uniform(2, 8)
    end = point + unit(unit(point) + unit(chance.normal(size=3))) * chance.uniform(2, 8)
    first, last = (unit(unit(way) + 0.8 * unit(chance.normal(size=3))) for way in (point, end - point))
    return first, point, end, last


def lengths_past(headings: np.ndarray, first: np.ndarray, point: np.ndarray, end: np.ndarray, last: np.ndarray):
    count = len(headings)
    before = PosePairs(ways=np.tile(point, (count, 1)), starts=np.tile(first, (count, 1)), ends=headings)
    after = PosePairs(ways=np.tile(end - point, (count, 1)), starts=headings, ends=np.tile(last, (count, 1)))
    curves = find_plain_curves(before), find_plain_curves(after)
    return sum(np.where(one.is_plain, one.lengths, np.inf) for one in curves)


def test_past_one_point_no_heading_of_a_dense_search_is_shorter() -> None:
    chance = np.random.default_rng(12)
    for _ in range(6):
        first, point, end, last = random_run(chance)
        led = LedWays(start=(np.zeros(3), first), points=point[None], end=(end, last)).shortest
        around = unit(led.headings[0] + 0.02 * spread(300))
        headings = np.concatenate([spread(1500), around])
        assert length_of(led) <= lengths_past(headings, first, point, end, last).min() + 0.01
        direct = find_shortest_curves(PosePairs(ways=end[None], starts=first[None], ends=last[None]))
        assert length_of(led) >= float(direct.chains.lengths[0]) - 1e-9 or not direct.is_only_plain[0]


def test_a_free_point_cuts_its_arc_into_equal_halves() -> None:
    chance = np.random.default_rng(5)
    halved = 0
    for _ in range(7):
        first, point, end, last = random_run(chance)
        led = LedWays(start=(np.zeros(3), first), points=point[None], end=(end, last)).shortest
        sizes = led.pieces.chains.sizes
        if led.pieces.is_only_plain.all() and (sizes[:, 1] > 0.01).all():
            assert sizes[0, 2] == pytest.approx(sizes[1, 0], abs=1e-3)
            halved += 1
    assert halved >= 4


def test_a_point_on_the_shortest_curve_changes_nothing_and_two_points_are_no_shorter_than_one() -> None:
    start, end = (np.zeros(3), np.array([1.0, 0.0, 0.0])), (np.array([8.0, 3.0, 1.0]), unit(np.array([1.0, 0.5, 0.0])))
    pairs = PosePairs(ways=end[0][None], starts=start[1][None], ends=end[1][None])
    direct = find_shortest_curves(pairs)
    straight_at = direct.chains.sizes[0, 0] + direct.chains.sizes[0, 1] / 2
    turn = direct.chains.sizes[0, 0]
    first = np.sin(turn) * start[1] + (1 - np.cos(turn)) * direct.chains.towards[0, 0]
    middle = first + (straight_at - turn) * direct.chains.headings[0, 1]
    one = LedWays(start=start, points=middle[None], end=end).shortest
    assert length_of(one) == pytest.approx(float(direct.chains.lengths[0]), abs=1e-6)
    aside = middle + np.array([0.0, 0.4, 0.0])
    longer = LedWays(start=start, points=aside[None], end=end).shortest
    two = LedWays(start=start, points=np.array([aside, aside + np.array([1.0, -0.5, 0.0])]), end=end).shortest
    assert length_of(one) < length_of(longer) < length_of(two)


def test_turning_space_changes_no_led_length() -> None:
    chance = np.random.default_rng(8)
    turn = np.linalg.qr(chance.normal(size=(3, 3)))[0]
    for _ in range(2):
        first, point, end, last = random_run(chance)
        told = LedWays(start=(np.zeros(3), first), points=point[None], end=(end, last)).shortest
        turned = LedWays(
            start=(np.zeros(3), first @ turn), points=(point @ turn)[None], end=(end @ turn, last @ turn)
        ).shortest
        assert length_of(turned) == pytest.approx(length_of(told), abs=1e-4)


def test_there_and_back_past_a_point_is_never_under_its_ends_alone() -> None:
    """From heading -x past (200, 0, 0) to (400, 0, 0) heading +x, R = 50: 569.6 mm at the least."""
    led = LedWays(
        start=(np.zeros(3), np.array([-1.0, 0.0, 0.0])),
        points=np.array([[4.0, 0.0, 0.0]]),
        end=(np.array([8.0, 0.0, 0.0]), np.array([1.0, 0.0, 0.0])),
    ).shortest
    assert 569.6 < length_of(led) * 50 < 590
    assert not led.pieces.is_only_plain.all()


def end_at(place: tuple[float, float, float], mover: MovesWith | None = None) -> LegEnd:
    return LegEnd(pose=Pose3(position_mm=place, heading=(1.0, 0.0, 0.0)), moves_with=mover)


def test_points_ride_with_what_carries_both_ends_and_with_nothing_else() -> None:
    points_mm = ((100.0, 20.0, 0.0),)
    for first, last, mover in (
        (MovesWith.BAR, MovesWith.BAR, MovesWith.BAR),
        (MovesWith.BAR, None, None),
        (MovesWith.BAR, MovesWith.REAR, None),
    ):
        pieces = find_stretches(
            start=end_at((0.0, 0.0, 0.0), first),
            points_mm=points_mm,
            end=end_at((250.0, 0.0, 0.0), last),
            centreline_radius_mm=37.5,
        )
        assert [piece[1].moves_with for piece in pieces] == [mover, last]
        assert pieces[0][1] == pieces[1][0]
    assert find_stretches(start=end_at((0, 0, 0)), points_mm=(), end=end_at((9, 0, 0)), centreline_radius_mm=1) == (
        (end_at((0, 0, 0)), end_at((9, 0, 0))),
    )


def test_the_widest_bend_past_points_is_the_one_asked_or_just_gets_past() -> None:
    """Over a point 10 mm aside half-way along 60 mm: four arcs of R on either side, 30 = sqrt(4 R 10 - 100), R = 25."""
    ends = {
        "start": Pose3(position_mm=(0.0, 0.0, 0.0), heading=(1.0, 0.0, 0.0)),
        "end": Pose3(position_mm=(60.0, 0.0, 0.0), heading=(1.0, 0.0, 0.0)),
        "points_mm": ((30.0, 10.0, 0.0),),
    }
    assert widest_radius_past_points_mm(**ends, centreline_radius_mm=20.0) == 20.0
    assert widest_radius_past_points_mm(**ends, centreline_radius_mm=40.0) == pytest.approx(25.0, abs=0.4)


def many_points(count: int) -> dict[str, tuple[np.ndarray, np.ndarray] | np.ndarray]:
    """A run past so many points, a zigzag that a line gets past."""
    points = np.array([[3.0 * (n + 1), 0.4 * (-1) ** n, 0.2 * n] for n in range(count)])
    forward = np.array([1.0, 0.0, 0.0])
    return {"start": (np.zeros(3), forward), "points": points, "end": (np.array([3.0 * count + 3, 0.0, 0.0]), forward)}


def test_a_direction_tried_at_one_point_has_only_the_pieces_beside_it_looked_for(monkeypatch) -> None:
    """Past twenty points: 2 x 20 x 12 pieces a round, not 21 x 20 x 12; 28 x 28 are the most, where it begins."""
    looked_for: list[int] = []

    def counted(pairs: PosePairs) -> ArcStraightArcs:
        looked_for.append(len(pairs))
        return find_plain_curves(pairs)

    monkeypatch.setattr(led_curves, "find_plain_curves", counted)
    assert LedWays(**many_points(20)).shortest.headings.shape == (20, 3)
    assert 2 * 20 * 12 in looked_for
    assert max(looked_for) <= 28 * 28


def test_the_pieces_beside_a_point_give_the_length_of_the_whole() -> None:
    chance = np.random.default_rng(3)
    places, headings = chance.normal(size=(6, 3)) * 3, unit(chance.normal(size=(6, 3)))
    tried = unit(chance.normal(size=(4, 12, 3)))
    pieces = find_plain_curves(led_curves._pairs(places, headings[None])).lengths
    lengths = led_curves._pieces_beside(places, headings, tried, pieces)
    for point in range(4):
        for turned in range(12):
            moved = headings.copy()
            moved[point + 1] = tried[point, turned]
            whole = find_plain_curves(led_curves._pairs(places, moved[None])).lengths
            assert lengths[point * 12 + turned] == pytest.approx(whole, abs=1e-9)


def test_what_the_shortest_curve_gets_past_is_got_past_and_what_no_direction_gets_past_is_not() -> None:
    chance = np.random.default_rng(21)
    answers = set()
    for _ in range(12):
        first, point, end, last = random_run(chance)
        point, end = point / 2, end / 2
        run = {"start": (np.zeros(3), first), "points": point[None], "end": (end, last)}
        gets_past = LedWays(**run).is_led_past
        answers.add(gets_past)
        if LedWays(**run).shortest.pieces.is_only_plain.all():
            assert gets_past
        if np.isfinite(lengths_past(spread(1500), first, point, end, last)).any():
            assert gets_past
    assert answers == {True, False}
