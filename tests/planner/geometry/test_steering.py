import csv
from math import cos, dist, hypot, pi, radians, sin
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.spatial.transform import Rotation

from planner.errors import ImpossibleDimensionError
from planner.geometry.motion.frame_axes import Pose3
from planner.geometry.motion.steering import turn_about_axis, turn_direction, turn_with_bar
from planner.parts import Bar, Point

PUBLISHED = Path(__file__).parents[2] / "published_values"
ROTATIONS = list(csv.DictReader((PUBLISHED / "steering_rotation.csv").open(encoding="utf-8")))
DISTANCES = list(csv.DictReader((PUBLISHED / "steering_distance.csv").open(encoding="utf-8")))


def three(text: str) -> Point:
    x, y, z = (float(number) for number in text.split())
    return x, y, z


@pytest.mark.parametrize("row", ROTATIONS, ids=lambda row: row["case"])
def test_point_turned_about_a_tilted_axis_lands_where_worked_out(row: dict[str, str]) -> None:
    turned = turn_about_axis(
        Pose3(position_mm=three(row["point_mm"]), heading=(1, 0, 0)),
        axis_point_mm=three(row["axis_point_mm"]),
        axis=three(row["axis"]),
        angle_deg=float(row["angle_deg"]),
    )
    assert turned.position_mm == pytest.approx(three(row["expected_mm"]), abs=float(row["tolerance_mm"]))


@given(
    st.tuples(*[st.floats(-1, 1)] * 3),
    st.tuples(*[st.floats(-1, 1)] * 3).filter(lambda axis: hypot(*axis) > 0.1),
    st.floats(-720, 720),
)
def test_a_direction_turns_as_another_library_turns_it(direction: Point, axis: Point, angle_deg: float) -> None:
    length = hypot(*axis)
    turn = Rotation.from_rotvec([radians(angle_deg) * part / length for part in axis])
    turned = turn_direction(direction, axis=axis, angle_deg=angle_deg)
    assert turned == pytest.approx(tuple(turn.apply(direction)), abs=1e-9)


@pytest.mark.parametrize("row", DISTANCES, ids=lambda row: row["case"])
def test_distance_to_the_bar_follows_the_law_of_cosines(row: dict[str, str]) -> None:
    frame_mm, bar_mm, gap_mm = (float(row[key]) for key in ("frame_side_mm", "bar_side_mm", "axial_gap_mm"))
    lean = radians(17)
    bar = Bar(axis_point_mm=(400, 0, 600), axis=(-sin(lean), 0, cos(lean)), lock_deg=180)
    forward, upward = (cos(lean), 0.0, sin(lean)), (-sin(lean), 0.0, cos(lean))
    on_frame = along((400.0, 0.0, 600.0), forward, frame_mm)
    on_bar = along(along((400.0, 0.0, 600.0), forward, bar_mm), upward, gap_mm)
    moved = turn_with_bar(Pose3(position_mm=on_bar, heading=forward), bar=bar, angle_deg=float(row["angle_deg"]))
    expected = pytest.approx(float(row["expected_mm"]), abs=float(row["tolerance_mm"]))
    assert dist(moved.position_mm, on_frame) == expected


def along(place: Point, direction: Point, by_mm: float) -> Point:
    x, y, z = (p + by_mm * d for p, d in zip(place, direction, strict=True))
    return x, y, z


def test_benchmark_bicycle_has_its_trail_and_its_wheel_turns_to_the_right_side() -> None:
    """Meijaard et al., Proc. R. Soc. A 463 (2007) 1955-1982: w 1.02, c 0.08, lambda pi/10, r_F 0.35 m."""
    wheelbase_mm, trail_mm, lean, wheel_mm = 1020.0, 80.0, pi / 10, 350.0
    offset_mm = wheel_mm * sin(lean) - trail_mm * cos(lean)
    assert offset_mm == pytest.approx(32.0714267276193, abs=1e-9)
    assert trail_mm * cos(lean) == pytest.approx(76.08452130361229, abs=1e-9)
    turned = turn_about_axis(  # axes of the paper: x forward, y right, z down
        Pose3(position_mm=(wheelbase_mm, 0, -wheel_mm), heading=(1, 0, 0)),
        axis_point_mm=(wheelbase_mm + trail_mm, 0, 0),
        axis=(sin(lean), 0, cos(lean)),
        angle_deg=30,
    )
    assert turned.position_mm[1] == pytest.approx(offset_mm * sin(radians(30)), abs=1e-9)


@pytest.mark.parametrize(
    ("head_deg", "wheel_mm", "offset_mm", "trail_mm"),
    [(73, 340, 45, 56.892303), (72, 336, 50, 56.599907), (68, 350, 51, 86.403907), (65, 370, 44, 123.985205)],
)
def test_trail_comes_out_of_the_axis_and_not_of_the_wheel_diameter(
    head_deg: float, wheel_mm: float, offset_mm: float, trail_mm: float
) -> None:
    """Where the steering axis meets the ground: the point that stays put when the bar turns."""
    head = radians(head_deg)
    contact = (0.0, 0.0, -wheel_mm)
    axis_point = (-offset_mm * sin(head), 0.0, -offset_mm * cos(head))  # the wheel's axle lies ahead of the axis
    ground = along(axis_point, (cos(head), 0.0, -sin(head)), (wheel_mm - offset_mm * cos(head)) / sin(head))
    still = turn_about_axis(
        Pose3(position_mm=ground, heading=(1, 0, 0)),
        axis_point_mm=axis_point,
        axis=(-cos(head), 0, sin(head)),
        angle_deg=40,
    )
    assert still.position_mm == pytest.approx(ground, abs=1e-9)
    assert ground[0] - contact[0] == pytest.approx(trail_mm, abs=1e-6)
    assert abs((2 * wheel_mm * cos(head) - offset_mm) / sin(head) - trail_mm) > 40  # the formula with the diameter


def test_bar_turned_left_brings_its_right_end_forward() -> None:
    bar = Bar(axis_point_mm=(405, 0, 612), axis=(-0.42, 0, 0.91), lock_deg=75)
    right = Pose3(position_mm=(470, -210, 690), heading=(0.5, 0.85, 0.1))
    assert turn_with_bar(right, bar=bar, angle_deg=30).position_mm[0] > 470
    assert turn_with_bar(right, bar=bar, angle_deg=-30).position_mm[0] < 470
    assert turn_with_bar(right, bar=bar, angle_deg=0) == right


vectors = st.tuples(*[st.floats(-100, 100)] * 3)


@given(vectors, vectors.filter(lambda v: hypot(*v) > 1), st.floats(-360, 360), st.floats(-360, 360))
def test_turning_twice_is_turning_by_the_sum_and_changes_no_length(
    direction: Point, axis: Point, first_deg: float, second_deg: float
) -> None:
    twice = turn_direction(turn_direction(direction, axis=axis, angle_deg=first_deg), axis=axis, angle_deg=second_deg)
    once = turn_direction(direction, axis=axis, angle_deg=first_deg + second_deg)
    assert twice == pytest.approx(once, abs=1e-9)
    assert hypot(*twice) == pytest.approx(hypot(*direction), abs=1e-9)


def test_axis_without_length_is_refused() -> None:
    with pytest.raises(ImpossibleDimensionError, match="axis: 0 long was given; it must have a length above zero"):
        turn_direction((1, 0, 0), axis=(0, 0, 0), angle_deg=10)
