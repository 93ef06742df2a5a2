"""A hole told on its tube, against figures worked by hand."""

import csv
from math import cos, dist, hypot, radians, sin
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.errors import ImpossibleDimensionError
from planner.geometry.frame_table.port_on_tube import outward_at, pose_in_end, pose_in_side, radius_at_mm
from planner.geometry.frame_table.tube_path import nearest_station, nearest_stations, path_length_mm, station_at
from planner.geometry.vectors import dot
from planner.parts import Point, SideWord, TubeSide

TABLE = Path(__file__).parents[3] / "published_values" / "ports_on_tubes.csv"
WORKED = list(csv.DictReader(TABLE.open(encoding="utf-8")))
BENT = ((420.0, 0.0, 560.0), (330.0, 0.0, 440.0), (150.0, 0.0, 330.0), (40.0, 0.0, 60.0))
DOWN_TUBE = BENT[:2]


def point(text: str) -> Point:
    x, y, z = (float(number) for number in text.split())
    return (x, y, z)


def side(word: str) -> TubeSide:
    return TubeSide.of_word(SideWord(word))


def clock(hour: float) -> TubeSide:
    return TubeSide(word=None, clock=hour)


@pytest.mark.parametrize("row", WORKED, ids=[row["case"] for row in WORKED])
def test_worked_points(row: dict[str, str]) -> None:
    path_mm = tuple(point(text) for text in row["path_mm"].split(";"))
    along_mm = (
        float(row["from_start_mm"]) if row["from_start_mm"] else path_length_mm(path_mm) - float(row["from_end_mm"])
    )
    pose = pose_in_side(
        station=station_at(path_mm, distance_mm=along_mm),
        side=side(row["side"]),
        lean_deg=float(row["lean_deg"]),
        radius_mm=float(row["radius_mm"]),
        goes_in=row["goes_in"] == "yes",
        goes_on=row["goes_on"] == "yes",
    )
    assert pose.position_mm == pytest.approx(point(row["place_mm"]), abs=float(row["tolerance_mm"]))
    assert pose.heading == pytest.approx(point(row["heading"]), abs=float(row["heading_tolerance"]))


def test_a_bent_tube_is_as_long_as_its_pieces() -> None:
    assert path_length_mm(BENT) == pytest.approx(150 + 210.95 + 291.55, abs=0.01)


def test_a_tube_goes_on_straight_beyond_its_ends() -> None:
    assert station_at(DOWN_TUBE, distance_mm=-50).position_mm == pytest.approx((450, 0, 600))
    assert station_at(DOWN_TUBE, distance_mm=200).position_mm == pytest.approx((300, 0, 400))


@pytest.mark.parametrize(("off_mm", "share"), [(-20, 0.0), (-10, 0.25), (0, 0.5), (10, 0.75), (20, 1.0), (40, 1.0)])
def test_a_corner_is_turned_evenly_over_twenty_millimetres_on_either_side(off_mm: float, share: float) -> None:
    before, behind = (-0.6, 0.0, -0.8), (-180 / hypot(180, 110), 0.0, -110 / hypot(180, 110))
    mixed = [(1 - share) * a + share * b for a, b in zip(before, behind, strict=True)]
    expected = [number / hypot(*mixed) for number in mixed]
    assert station_at(BENT, distance_mm=150 + off_mm).along == pytest.approx(expected, abs=1e-9)


def test_a_short_piece_between_two_corners_keeps_its_own_direction_in_its_middle() -> None:
    path_mm = ((0.0, 0.0, 0.0), (-100.0, 0.0, 0.0), (-100.0, 0.0, -10.0), (-200.0, 0.0, -10.0))
    assert station_at(path_mm, distance_mm=105).along == pytest.approx((0, 0, -1))


def test_the_top_of_a_down_tube_faces_up_and_back() -> None:
    out = outward_at(station_at(DOWN_TUBE, distance_mm=50), side("top"))
    assert out[2] > 0
    assert out[0] < 0


def test_on_a_steep_tube_twelve_is_the_front_and_top_is_still_the_top() -> None:
    seat_tube = station_at(((-10.0, 0.0, 30.0), (-150.0, 0.0, 540.0)), distance_mm=200)
    assert outward_at(seat_tube, clock(0)) == pytest.approx(outward_at(seat_tube, side("front")))
    assert outward_at(seat_tube, clock(0))[0] > 0.9


@pytest.mark.parametrize(("word", "hour"), [("left", 9), ("right", 3), ("top", 0), ("bottom", 6)])
def test_words_and_hours_agree_on_a_tube_that_is_not_steep(word: str, hour: float) -> None:
    station = station_at(DOWN_TUBE, distance_mm=50)
    assert outward_at(station, clock(hour)) == pytest.approx(outward_at(station, side(word)), abs=1e-12)


@pytest.mark.parametrize(
    ("towards", "word"),
    [((0, 100, 5), "left"), ((1, 0, 100), "top"), ((100, 0, 1), "front"), ((0, 95, 30), "right")],
)
def test_a_tube_without_such_a_side_is_refused(towards: Point, word: str) -> None:
    with pytest.raises(ImpossibleDimensionError, match="side"):
        outward_at(station_at(((0.0, 0.0, 0.0), towards), distance_mm=1), side(word))


@pytest.mark.parametrize("word", ["left", "right"])
def test_an_upright_tube_has_a_left_and_a_right(word: str) -> None:
    out = outward_at(station_at(((0.0, 0.0, 0.0), (0.0, 0.0, 100.0)), distance_mm=1), side(word))
    assert out == pytest.approx((0, 1 if word == "left" else -1, 0))


def test_an_oval_tube_is_as_far_across_and_up_as_it_is_told() -> None:
    assert radius_at_mm(across_mm=60, up_mm=40, side=side("left")) == pytest.approx(30)
    assert radius_at_mm(across_mm=60, up_mm=40, side=side("bottom")) == pytest.approx(20)
    between = radius_at_mm(across_mm=60, up_mm=40, side=clock(1.5))
    assert (between * cos(radians(45)) / 20) ** 2 + (between * sin(radians(45)) / 30) ** 2 == pytest.approx(1)


@pytest.mark.parametrize(
    ("is_last", "goes_in", "with_path"), [(False, True, 1), (True, False, 1), (False, False, -1), (True, True, -1)]
)
def test_in_an_open_end_the_line_lies_along_the_tube(is_last: bool, goes_in: bool, with_path: int) -> None:
    station = station_at(DOWN_TUBE, distance_mm=150 if is_last else 0)
    pose = pose_in_end(station=station, is_last=is_last, goes_in=goes_in, off_mm=0, side=None)
    assert dot(pose.heading, station.along) == pytest.approx(with_path)
    assert pose.position_mm == station.position_mm


hours = st.integers(0, 23).map(lambda half: clock(half / 2))
leans = st.floats(0, 90)


@given(hour=hours, lean_deg=leans, along_mm=st.floats(-50, 700), goes_in=st.booleans(), goes_on=st.booleans())
def test_a_hole_lies_on_the_wall_and_its_line_leans_as_told(
    hour: TubeSide, lean_deg: float, along_mm: float, goes_in: bool, goes_on: bool
) -> None:
    station = station_at(BENT, distance_mm=along_mm)
    pose = pose_in_side(station=station, side=hour, lean_deg=lean_deg, radius_mm=24, goes_in=goes_in, goes_on=goes_on)
    out = outward_at(station, hour)
    assert dist(pose.position_mm, station.position_mm) == pytest.approx(24)
    assert hypot(*pose.heading) == pytest.approx(1)
    assert abs(dot(out, station.along)) < 1e-9
    assert dot(pose.heading, out) == pytest.approx((-1 if goes_in else 1) * cos(radians(lean_deg)), abs=1e-9)
    inwards = dot(pose.heading, station.along) * (1 if goes_in else -1) * (1 if goes_on else -1)
    assert inwards == pytest.approx(sin(radians(lean_deg)), abs=1e-9)


coordinates = st.floats(-400, 400)
points = st.tuples(coordinates, coordinates, coordinates)


@given(place=points)
def test_no_point_of_a_tube_is_nearer_than_the_nearest(place: Point) -> None:
    found_mm = dist(nearest_station(BENT, place).position_mm, place)
    along = [step * path_length_mm(BENT) / 200 for step in range(201)]
    assert found_mm <= min(dist(station_at(BENT, distance_mm=at_mm).position_mm, place) for at_mm in along) + 1e-9


@given(a=points, b=points, c=points, d=points)
def test_no_two_points_of_two_tubes_are_nearer_than_the_nearest(a: Point, b: Point, c: Point, d: Point) -> None:
    if min(dist(a, b), dist(c, d)) < 1:
        return
    first, second = nearest_stations((a, b), (c, d))
    found_mm = dist(first.position_mm, second.position_mm)
    steps = [step / 20 for step in range(21)]
    ones = [tuple(p + (q - p) * by for p, q in zip(a, b, strict=True)) for by in steps]
    others = [tuple(p + (q - p) * by for p, q in zip(c, d, strict=True)) for by in steps]
    assert found_mm <= min(dist(one, other) for one in ones for other in others) + 1e-6
