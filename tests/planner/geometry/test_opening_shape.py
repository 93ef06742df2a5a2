"""What a line sees of an opening, held against plane figures drawn point by point."""

import csv
from math import cos, pi, radians, sin
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.errors import ImpossibleDimensionError
from planner.geometry.openings.opening_depth import depths_mm, nearest_edge
from planner.geometry.openings.opening_shape import SeenArcs, opening_at_limit, opening_sizes, see_opening, vary_opening
from planner.geometry.packing.bounds import area_mm2
from planner.geometry.packing.one import find_largest_disc
from planner.parts import BoxOpening, Opening, OutlineOpening, OvalOpening, RoundOpening, SlotOpening
from tests.planner.geometry.drawn_openings import draw_opening

ROWS = list(csv.DictReader((Path(__file__).parents[2] / "published_values/oblique_hole.csv").open(encoding="utf-8")))

sizes_mm = st.floats(4, 20)
tilts_deg = st.floats(0, 60)
walls_mm = st.floats(0, 3)
rounds = st.builds(RoundOpening, diameter_mm=sizes_mm, tolerance_mm=st.just(0.1))
slots = st.builds(SlotOpening, length_mm=sizes_mm, width_mm=sizes_mm, tolerance_mm=st.just(0.1))
ovals = st.builds(OvalOpening, length_mm=sizes_mm, width_mm=sizes_mm, tolerance_mm=st.just(0.1))
boxes = st.builds(
    BoxOpening, length_mm=sizes_mm, width_mm=sizes_mm, corner_radius_mm=st.floats(0, 2), tolerance_mm=st.just(0.1)
)
openings = st.one_of(rounds, slots, ovals, boxes)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["case"])
def test_leaning_line_sees_the_hole_worked_by_hand(row: dict[str, str]) -> None:
    seen = see_opening(
        opening=RoundOpening(diameter_mm=float(row["hole_mm"]), tolerance_mm=0.0),
        tilt_deg=float(row["tilt_deg"]),
        wall_thickness_mm=float(row["wall_mm"]),
    )
    assert find_largest_disc(seen).diameter_mm == pytest.approx(
        float(row["expected_mm"]), abs=float(row["tolerance_mm"])
    )


@given(opening=openings, tilt_deg=tilts_deg, wall_mm=walls_mm, x=st.floats(-12, 12), y=st.floats(-12, 12))
@settings(max_examples=100, deadline=None)
def test_depth_is_the_distance_to_an_edge_drawn_point_by_point(
    opening: Opening, tilt_deg: float, wall_mm: float, x: float, y: float
) -> None:
    drawn = draw_opening(opening, tilt_deg=tilt_deg, wall_mm=wall_mm, points_per_arc=100)
    seen = see_opening(opening=opening, tilt_deg=tilt_deg, wall_thickness_mm=wall_mm)
    assert isinstance(seen, SeenArcs)
    depth, nx, ny = nearest_edge(seen=seen, x_mm=x, y_mm=y)
    if not drawn.is_empty and drawn.area > 0:
        by_drawing = drawn.depth(x, y)
        if by_drawing > 0 or seen.flat_x_mm >= 0:  # outside a figure cut off to a point, each rim counts for itself
            assert depth == pytest.approx(by_drawing, abs=2e-3)
        else:
            assert by_drawing - 2e-3 <= depth <= 2e-3
    assert nx * nx + ny * ny == pytest.approx(1)


@given(opening=openings, tilt_deg=tilts_deg, wall_mm=walls_mm)
@settings(max_examples=60, deadline=None)
def test_area_is_that_of_the_drawn_figure(opening: Opening, tilt_deg: float, wall_mm: float) -> None:
    drawn = draw_opening(opening, tilt_deg=tilt_deg, wall_mm=wall_mm, points_per_arc=200)
    seen = see_opening(opening=opening, tilt_deg=tilt_deg, wall_thickness_mm=wall_mm)
    assert area_mm2(seen) == pytest.approx(drawn.area, abs=0.01)


@given(opening=openings, tilt_deg=tilts_deg, wall_mm=walls_mm)
@settings(max_examples=60, deadline=None)
def test_leaning_the_other_way_shows_the_same(opening: Opening, tilt_deg: float, wall_mm: float) -> None:
    one = see_opening(opening=opening, tilt_deg=tilt_deg, wall_thickness_mm=wall_mm)
    assert one == see_opening(opening=opening, tilt_deg=-tilt_deg, wall_thickness_mm=wall_mm)


def test_slot_wider_than_long_has_its_round_ends_across() -> None:
    seen = see_opening(opening=SlotOpening(length_mm=6, width_mm=10, tolerance_mm=0), tilt_deg=0, wall_thickness_mm=1)
    assert seen == SeenArcs(flat_x_mm=0, flat_y_mm=2, arc_x_mm=3, arc_y_mm=3)


def test_rims_that_do_not_overlap_leave_less_than_nothing() -> None:
    hole = RoundOpening(diameter_mm=3, tolerance_mm=0)
    seen = see_opening(opening=hole, tilt_deg=60, wall_thickness_mm=4)
    expected = 3 * cos(radians(60)) - 4 * sin(radians(60))
    assert expected < 0
    assert find_largest_disc(seen).diameter_mm == pytest.approx(expected)


@pytest.mark.parametrize(
    ("points", "expected_mm"),
    [
        (((-6, -3), (6, -3), (6, 3), (-6, 3)), 6.0),
        (((0, 0), (4, 0), (0, 3)), 2.0),
        (((0, 0), (10, 0), (10, 4), (4, 4), (4, 10), (0, 10)), 8 * 2**0.5 / (1 + 2**0.5)),
    ],
    ids=["rectangle", "triangle of 3 4 5", "corner of two arms"],
)
def test_largest_disc_in_an_outline_known_by_hand(points: tuple[tuple[float, float], ...], expected_mm: float) -> None:
    seen = see_opening(opening=OutlineOpening(points_mm=points, tolerance_mm=0), tilt_deg=0, wall_thickness_mm=1)
    disc = find_largest_disc(seen)
    assert disc.diameter_mm == pytest.approx(expected_mm, abs=1e-5)
    assert disc.diameter_mm <= disc.bound_mm <= disc.diameter_mm + 1e-5


def test_outline_of_many_chords_is_nearly_the_round_hole() -> None:
    points = tuple((4 * cos(k * pi / 64), 4 * sin(k * pi / 64)) for k in range(128))
    outline = see_opening(opening=OutlineOpening(points_mm=points, tolerance_mm=0), tilt_deg=30, wall_thickness_mm=1.5)
    ring = see_opening(opening=RoundOpening(diameter_mm=8, tolerance_mm=0), tilt_deg=30, wall_thickness_mm=1.5)
    places = np.array([(0.0, 0.0), (1.0, 1.5), (-2.0, 0.3), (0.0, 3.9), (5.0, 1.0)])
    assert depths_mm(seen=outline, points_mm=places) == pytest.approx(depths_mm(seen=ring, points_mm=places), abs=0.005)


def test_limits_change_every_size_and_round_the_corners_the_other_way() -> None:
    box = BoxOpening(length_mm=12, width_mm=8, corner_radius_mm=1, tolerance_mm=0.2)
    smaller, larger = (opening_at_limit(opening=box, is_larger=is_larger) for is_larger in (False, True))
    assert smaller == BoxOpening(length_mm=11.8, width_mm=7.8, corner_radius_mm=1.2, tolerance_mm=0)
    assert larger == BoxOpening(length_mm=12.2, width_mm=8.2, corner_radius_mm=0.8, tolerance_mm=0)


def test_outline_at_its_limits_has_its_edges_moved() -> None:
    square = OutlineOpening(points_mm=((0, 0), (5, 0), (5, 5), (0, 5)), tolerance_mm=0.25)
    for is_larger, side in ((False, 4.5), (True, 5.5)):
        limit = opening_at_limit(opening=square, is_larger=is_larger)
        seen = see_opening(opening=limit, tilt_deg=0, wall_thickness_mm=1)
        assert find_largest_disc(seen).diameter_mm == pytest.approx(side, abs=1e-5)


def test_each_size_can_be_varied_alone() -> None:
    box = BoxOpening(length_mm=12, width_mm=8, corner_radius_mm=1, tolerance_mm=0.2)
    for name in opening_sizes(box):
        changed = opening_sizes(vary_opening(opening=box, changes_mm={name: 0.1}))
        assert {key for key, size in changed.items() if size != opening_sizes(box)[key]} == {name}


@pytest.mark.parametrize(
    ("opening", "said"),
    [
        (RoundOpening(diameter_mm=0, tolerance_mm=0), "diameter_mm: 0 mm was given; it must be above zero"),
        (SlotOpening(length_mm=9, width_mm=-1, tolerance_mm=0), "width_mm: -1 mm"),
        (RoundOpening(diameter_mm=5, tolerance_mm=-0.1), "tolerance_mm: -0.1 mm"),
        (BoxOpening(length_mm=9, width_mm=4, corner_radius_mm=2.1, tolerance_mm=0), "half the shorter side"),
        (OutlineOpening(points_mm=((0, 0), (1, 0), (2, 0)), tolerance_mm=0), "width_mm: 0 mm"),
    ],
    ids=["no diameter", "negative width", "negative tolerance", "corner too round", "outline without width"],
)
def test_impossible_sizes_are_refused(opening: Opening, said: str) -> None:
    with pytest.raises(ImpossibleDimensionError, match=said):
        see_opening(opening=opening, tilt_deg=0, wall_thickness_mm=1)


@pytest.mark.parametrize(("tilt_deg", "wall_mm", "said"), [(90, 1, "tilt_deg"), (0, -0.1, "wall_thickness_mm")])
def test_impossible_places_are_refused(tilt_deg: float, wall_mm: float, said: str) -> None:
    hole = RoundOpening(diameter_mm=5, tolerance_mm=0)
    with pytest.raises(ImpossibleDimensionError, match=said):
        see_opening(opening=hole, tilt_deg=tilt_deg, wall_thickness_mm=wall_mm)


def test_tolerance_that_eats_the_hole_is_refused() -> None:
    with pytest.raises(ImpossibleDimensionError, match="leaves nothing of the opening"):
        opening_at_limit(opening=RoundOpening(diameter_mm=5, tolerance_mm=5), is_larger=False)
