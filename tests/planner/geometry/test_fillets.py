import csv
from itertools import pairwise
from math import cos, dist, pi, radians, sin, tan
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.errors import ImpossibleDimensionError
from planner.geometry.curves.bends import bend_arc_length_mm
from planner.geometry.curves.fillets import filleted_length_mm, round_corners

PUBLISHED = Path(__file__).parents[2] / "published_values"
CORNERS = list(csv.DictReader((PUBLISHED / "fillets.csv").open(encoding="utf-8")))
PATHS = list(csv.DictReader((PUBLISHED / "filleted_paths.csv").open(encoding="utf-8")))


def points_of(text: str) -> list[tuple[float, float, float]]:
    rows = [[float(number) for number in point.split()] for point in text.split(";")]
    return [(x, y, z) for x, y, z in rows]


@pytest.mark.parametrize("row", CORNERS, ids=lambda row: row["case"])
def test_corner_has_the_tangent_arc_and_saving_of_the_formula_sheet(row: dict[str, str]) -> None:
    turn_deg, tolerance_mm = float(row["turn_deg"]), float(row["tolerance_mm"])
    arc_mm = bend_arc_length_mm(centreline_bend_radius_mm=1, turn_deg=turn_deg)
    assert arc_mm == pytest.approx(float(row["expected_arc_mm"]), abs=tolerance_mm)
    tangent_mm = float(row["expected_tangent_mm"])
    corner = [(-10.0, 0.0, 0.0), (0.0, 0.0, 0.0), _ahead(turn_deg, 10.0)]
    saved_mm = 20 - (filleted_length_mm(points_mm=corner, radius_mm=1) or 0)
    assert saved_mm == pytest.approx(float(row["expected_saving_mm"]), abs=tolerance_mm)
    first = round_corners(points_mm=corner, radius_mm=1).curve.points_mm[1]
    assert dist(first, corner[1]) == pytest.approx(tangent_mm, abs=tolerance_mm)


@pytest.mark.parametrize("row", PATHS, ids=lambda row: row["case"])
def test_path_with_rounded_corners_has_its_worked_length(row: dict[str, str]) -> None:
    length_mm = filleted_length_mm(points_mm=points_of(row["points_mm"]), radius_mm=float(row["radius_mm"]))
    assert length_mm == pytest.approx(float(row["expected_mm"]), abs=float(row["tolerance_mm"]))


def test_highway_page_prints_a_right_tangent_and_a_wrong_arc() -> None:
    assert 420 * tan(radians(71.65) / 2) == pytest.approx(303.19, abs=0.02)
    arc_mm = bend_arc_length_mm(centreline_bend_radius_mm=420, turn_deg=71.65)
    assert arc_mm == pytest.approx(525.22, abs=0.01)
    assert abs(arc_mm - 630.27) > 100


def test_two_points_are_a_straight_line() -> None:
    curve = round_corners(points_mm=[(0, 0, 0), (3, 4, 12)], radius_mm=50).curve
    assert (curve.length_mm, curve.tightest_radius_mm, len(curve.points_mm)) == (13, None, 2)


def test_a_point_on_a_straight_line_changes_nothing() -> None:
    path = round_corners(points_mm=[(0, 0, 0), (1, 0, 0), (100, 0, 0)], radius_mm=500)
    assert path.curve.length_mm == pytest.approx(100)
    assert path.curve.tightest_radius_mm is None
    assert path.corners_too_tight == ()


@pytest.mark.parametrize(("leg_mm", "fits"), [(50.0, True), (50.000001, True), (49.99, False)])
def test_corner_fits_while_its_tangents_do(leg_mm: float, fits: bool) -> None:
    path = round_corners(points_mm=[(0, 0, 0), (leg_mm, 0, 0), (leg_mm, leg_mm, 0)], radius_mm=50)
    assert (path.corners_too_tight == ()) is fits
    if not fits:
        (corner,) = path.corners_too_tight
        assert (corner.corner, corner.point_mm, corner.radius_wanted_mm) == (1, (leg_mm, 0, 0), 50)
        assert corner.turn_deg == pytest.approx(90)
        assert corner.radius_available_mm == pytest.approx(leg_mm)
        assert path.curve.tightest_radius_mm == corner.radius_available_mm


def test_corners_too_tight_have_no_length_but_a_drawing() -> None:
    points = [(0, 0, 0), (40, 0, 0), (40, 30, 0), (0, 30, 0)]
    assert filleted_length_mm(points_mm=points, radius_mm=50) is None
    path = round_corners(points_mm=points, radius_mm=50)
    assert [corner.radius_available_mm for corner in path.corners_too_tight] == pytest.approx([15, 15])
    assert path.curve.length_mm == pytest.approx(2 * 25 + 15 * pi)
    assert filleted_length_mm(points_mm=points, radius_mm=15) == pytest.approx(2 * 25 + 15 * pi)


def test_corner_straight_back_has_room_for_no_arc_and_leaves_its_neighbour_alone() -> None:
    path = round_corners(points_mm=[(0, 0, 0), (100, 0, 0), (100, 100, 0), (100, 0, 0)], radius_mm=20)
    (corner,) = path.corners_too_tight
    assert (corner.corner, corner.turn_deg, corner.radius_available_mm) == (2, 180, 0)
    assert path.curve.length_mm == pytest.approx(300 - 2 * 20 + 20 * pi / 2)
    assert path.curve.tightest_radius_mm == 0


@pytest.mark.parametrize(
    ("points", "radius_mm", "complaint"),
    [
        ([(0, 0, 0)], 5, "points_mm: 1 points was given; it must be two points or more"),
        ([(0, 0, 0), (0, 0, 0)], 5, "points_mm: 0 mm was given; it must be above zero between neighbouring points"),
        ([(0, 0, 0), (1, 0, 0)], 0, "radius_mm: 0 mm was given; it must be above zero"),
    ],
)
def test_impossible_paths_are_refused(
    points: list[tuple[float, float, float]], radius_mm: float, complaint: str
) -> None:
    with pytest.raises(ImpossibleDimensionError, match=complaint):
        filleted_length_mm(points_mm=points, radius_mm=radius_mm)


places = st.tuples(*[st.floats(-500, 500).map(lambda x: round(x, 3))] * 3)


@given(st.lists(places, min_size=3, max_size=6, unique=True), st.floats(0.1, 5))
def test_rounding_shortens_and_the_drawing_is_as_long_as_the_curve(
    points: list[tuple[float, float, float]], radius_mm: float
) -> None:
    curve = round_corners(points_mm=points, radius_mm=radius_mm).curve
    sharp_mm = sum(dist(a, b) for a, b in pairwise(points))
    drawn_mm = sum(dist(a, b) for a, b in pairwise(curve.points_mm))
    assert curve.length_mm <= sharp_mm * (1 + 1e-9)
    assert drawn_mm == pytest.approx(curve.length_mm, rel=2e-3)
    assert drawn_mm <= curve.length_mm * (1 + 1e-9)


@given(st.lists(places, min_size=3, max_size=6, unique=True), st.floats(0.1, 100))
def test_a_path_is_as_long_walked_backwards(points: list[tuple[float, float, float]], radius_mm: float) -> None:
    there = round_corners(points_mm=points, radius_mm=radius_mm)
    back = round_corners(points_mm=points[::-1], radius_mm=radius_mm)
    assert there.curve.length_mm == pytest.approx(back.curve.length_mm, rel=1e-9)
    assert len(there.corners_too_tight) == len(back.corners_too_tight)


def _ahead(turn_deg: float, by_mm: float) -> tuple[float, float, float]:
    return (by_mm * cos(radians(turn_deg)), by_mm * sin(radians(turn_deg)), 0.0)
