from math import atan2, cos, degrees, dist, radians, sin

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from planner.errors import ImpossibleDimensionError
from planner.geometry.motion.frame_axes import Pose3
from planner.geometry.motion.rear_motion import LinkageLocked, RearPlacement, find_rear_placement, move_with_rear
from planner.parts import FourBar, SinglePivot

Flat = tuple[float, float]

PARALLELOGRAM = FourBar(
    frame_pivots_mm=((0, 0), (0, 100)), link_pivots_mm=((-300, 0), (-300, 100)), swing_deg=20, moves=()
)
SUSPENSION = FourBar(
    frame_pivots_mm=((10, 40), (-40, 250)), link_pivots_mm=((-350, 10), (-150, 230)), swing_deg=12, moves=()
)


def placed(rear: SinglePivot | FourBar, swing_deg: float) -> RearPlacement:
    placement = find_rear_placement(rear=rear, swing_deg=swing_deg)
    assert isinstance(placement, RearPlacement)
    return placement


def moved(point: Flat, placement: RearPlacement) -> Flat:
    x, y, z = move_with_rear(
        Pose3(position_mm=(point[0], 7.0, point[1]), heading=(1, 0, 0)), placement=placement
    ).position_mm
    assert y == 7.0
    return x, z


def test_single_pivot_lifts_what_lies_behind_it_by_the_chord() -> None:
    axle = (12 - 430.0, 58.0)
    after = moved(axle, placed(SinglePivot(pivot_mm=(12, 58), swing_deg=15, moves=()), 15))
    assert after == pytest.approx((12 - 430 * cos(radians(15)), 58 + 430 * sin(radians(15))))
    assert dist(axle, after) == pytest.approx(2 * 430 * sin(radians(7.5)))


def test_heading_turns_with_the_rear_and_keeps_its_side() -> None:
    placement = placed(SinglePivot(pivot_mm=(0, 0), swing_deg=90, moves=()), 90)
    turned = move_with_rear(Pose3(position_mm=(-100, 5, 0), heading=(-1, 0.5, 0)), placement=placement)
    assert turned.position_mm == pytest.approx((0, 5, 100), abs=1e-12)
    assert turned.heading == pytest.approx((0, 0.5, 1), abs=1e-12)


@pytest.mark.parametrize("rear", [SinglePivot(pivot_mm=(12, 58), swing_deg=15, moves=()), PARALLELOGRAM, SUSPENSION])
def test_at_rest_nothing_moves(rear: SinglePivot | FourBar) -> None:
    assert moved((-420, 48), placed(rear, 0)) == pytest.approx((-420, 48), abs=1e-9)


def test_parallelogram_carries_without_turning() -> None:
    placement = placed(PARALLELOGRAM, 20)
    assert placement.turn_deg == pytest.approx(0, abs=1e-9)
    assert moved((-300, 0), placement) == pytest.approx((-300 * cos(radians(20)), 300 * sin(radians(20))))


def test_rear_of_a_suspension_frame_rises() -> None:
    assert moved((-420, 48), placed(SUSPENSION, 12))[1] > 48 + 50
    assert moved((-420, 48), placed(SUSPENSION, -3))[1] < 48


points = st.tuples(st.floats(-300, 300), st.floats(-300, 300))


@given(points, points, points, points, st.floats(-170, 170))
def test_four_bar_keeps_its_lengths_and_freudensteins_equation(
    a: Flat, b: Flat, c: Flat, d: Flat, swing: float
) -> None:
    """K1 cos(out) - K2 cos(in) + K3 = cos(in - out): Freudenstein, Trans. ASME 76 (1954) 483-492."""
    rear = FourBar(frame_pivots_mm=(a, b), link_pivots_mm=(c, d), swing_deg=10, moves=())
    ground, first, coupler, last = dist(a, b), dist(a, c), dist(c, d), dist(b, d)
    assume(min(ground, first, coupler, last) > 20)
    placement = find_rear_placement(rear=rear, swing_deg=swing)
    assume(isinstance(placement, RearPlacement))
    assert isinstance(placement, RearPlacement)
    c_now, d_now = moved(c, placement), moved(d, placement)
    assert dist(a, c_now) == pytest.approx(first, abs=1e-6)
    assert dist(b, d_now) == pytest.approx(last, abs=1e-5)
    base = atan2(b[1] - a[1], b[0] - a[0])
    into = atan2(c_now[1] - a[1], c_now[0] - a[0]) - base
    out = atan2(d_now[1] - b[1], d_now[0] - b[0]) - base
    third = (first**2 - coupler**2 + last**2 + ground**2) / (2 * first * last)
    assert ground / first * cos(out) - ground / last * cos(into) + third == pytest.approx(cos(into - out), abs=1e-9)


@given(points, points, points, points, st.floats(1, 170))
def test_where_links_lock_they_lie_in_line_and_just_before_they_still_move(
    a: Flat, b: Flat, c: Flat, d: Flat, swing: float
) -> None:
    rear = FourBar(frame_pivots_mm=(a, b), link_pivots_mm=(c, d), swing_deg=10, moves=())
    assume(min(dist(a, b), dist(a, c), dist(c, d), dist(b, d)) > 20)
    answer = find_rear_placement(rear=rear, swing_deg=swing)
    if isinstance(answer, RearPlacement):
        return
    assert answer.asked_deg == swing
    assert 0 <= answer.locks_at_deg < swing
    turn = radians(answer.locks_at_deg)
    x, z = c[0] - a[0], c[1] - a[1]
    end = (a[0] + x * cos(turn) + z * sin(turn), a[1] - x * sin(turn) + z * cos(turn))
    reaches = (dist(c, d) + dist(b, d), abs(dist(c, d) - dist(b, d)))
    assert min(abs(dist(end, b) - reach) for reach in reaches) < 1e-6
    if answer.locks_at_deg > 0.01:
        assert isinstance(find_rear_placement(rear=rear, swing_deg=answer.locks_at_deg - 0.005), RearPlacement)


def test_lock_is_told_with_its_angle_at_its_limits() -> None:
    """Links 100 and 100 on pivots 150 apart with a coupler of 100: it stretches out where the far link is in line."""
    rear = FourBar(
        frame_pivots_mm=((0, 0), (150, 0)), link_pivots_mm=((0, 100), (100, 86.6025403784)), swing_deg=90, moves=()
    )
    coupler, last = dist((0, 100), (100, 86.6025403784)), dist((150, 0), (100, 86.6025403784))
    cosine = (150**2 + 100**2 - (coupler + last) ** 2) / (2 * 150 * 100)
    expected = 90 - degrees(atan2((1 - cosine**2) ** 0.5, cosine))  # negative swing leans it away from the far pivot
    answer = find_rear_placement(rear=rear, swing_deg=-80)
    assert isinstance(answer, LinkageLocked)
    assert answer.locks_at_deg == pytest.approx(expected, abs=1e-9)
    assert isinstance(find_rear_placement(rear=rear, swing_deg=expected + 1e-6), RearPlacement)
    assert isinstance(find_rear_placement(rear=rear, swing_deg=expected - 1e-6), LinkageLocked)


def test_links_without_length_are_refused() -> None:
    rear = FourBar(frame_pivots_mm=((0, 0), (0, 100)), link_pivots_mm=((0, 0), (-300, 100)), swing_deg=20, moves=())
    with pytest.raises(ImpossibleDimensionError, match="four-bar link: 0 mm was given; it must be longer than zero"):
        find_rear_placement(rear=rear, swing_deg=5)


@given(points, points, points, points)
def test_coupler_moves_on_from_rest_without_a_jump(a: Flat, b: Flat, c: Flat, d: Flat) -> None:
    rear = FourBar(frame_pivots_mm=(a, b), link_pivots_mm=(c, d), swing_deg=10, moves=())
    assume(min(dist(a, b), dist(a, c), dist(c, d), dist(b, d)) > 20)
    assume(dist(b, c) > 1)  # with the first link's end upon the other pivot the coupler may swing round it at once
    assume(isinstance(find_rear_placement(rear=rear, swing_deg=1), RearPlacement))
    assume(isinstance(find_rear_placement(rear=rear, swing_deg=-1), RearPlacement))
    places = [moved(d, placed(rear, swing)) for swing in (-1e-4, 0, 1e-4)]
    assert places[1] == pytest.approx(d, abs=1e-6)
    assert max(dist(places[0], d), dist(places[2], d)) < 1


@pytest.mark.parametrize("swing_deg", [-5e-5, 1e-6, 5.0])
def test_linkage_folded_onto_its_pivot_cannot_say_where_it_goes(swing_deg: float) -> None:
    """The first link's end lies on the second frame pivot: the second link may stand anywhere around it."""
    rear = FourBar(frame_pivots_mm=((0, 0), (20, 1)), link_pivots_mm=((20, 1), (0, 0)), swing_deg=10, moves=())
    assert isinstance(find_rear_placement(rear=rear, swing_deg=0), RearPlacement)
    assert isinstance(find_rear_placement(rear=rear, swing_deg=swing_deg), LinkageLocked)


@given(points, points, points, points, st.floats(1, 170))
def test_a_locked_rear_stays_where_it_was_just_before(a: Flat, b: Flat, c: Flat, d: Flat, swing: float) -> None:
    rear = FourBar(frame_pivots_mm=(a, b), link_pivots_mm=(c, d), swing_deg=10, moves=())
    assume(min(dist(a, b), dist(a, c), dist(c, d), dist(b, d)) > 20)
    answer = find_rear_placement(rear=rear, swing_deg=swing)
    assume(isinstance(answer, LinkageLocked) and answer.locks_at_deg > 0.01)
    assert isinstance(answer, LinkageLocked)
    assert find_rear_placement(rear=rear, swing_deg=answer.locks_at_deg) == answer.placement
    before = placed(rear, answer.locks_at_deg * (1 - 1e-9))
    # close to the lock the coupler turns with the square root of what is left of the swing
    assert dist(moved(d, answer.placement), moved(d, before)) < 0.5
