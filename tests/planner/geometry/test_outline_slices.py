"""What all slices of a wall leave of an outline with dents: by hand, and against many slices laid over each other."""

from math import cos, degrees, pi, radians, sin

import numpy as np
import pytest
import shapely
from shapely.affinity import rotate, scale, translate

from planner.errors import ImpossibleDimensionError
from planner.geometry.openings.opening_shape import SeenOutline, see_opening
from planner.geometry.openings.outline_slices import longest_level_line, room_of_all_slices
from planner.geometry.packing.one import find_largest_disc
from planner.geometry.packing.set_clearance import find_set_clearance
from planner.parts import OutlineOpening
from tests.planner.geometry.drawn_openings import draw_opening, overlap_of

BURRED = ((-10, -4), (10, -4), (10, 4), (0.2, 4), (0.2, 1), (-0.2, 1), (-0.2, 4), (-10, 4))
"""A box 20 x 8 with a burr that hangs 3 down from the middle of its upper side, 0.4 wide."""
WAISTED = (
    *((-5, -6), (5, -6), (5, -1), (0.5, -1), (0.5, 1), (5, 1)),
    *((5, 6), (-5, 6), (-5, 1), (-0.5, 1), (-0.5, -1), (-5, -1)),
)
"""Two boxes 10 x 5 one above the other, joined by a waist 1 wide."""


def outline(*points: tuple[float, float]) -> OutlineOpening:
    return OutlineOpening(points_mm=points, tolerance_mm=0)


def disc_in(opening: OutlineOpening, *, tilt_deg: float, wall_mm: float) -> float:
    seen = see_opening(opening=opening, tilt_deg=tilt_deg, wall_thickness_mm=wall_mm)
    return find_largest_disc(seen).diameter_mm


def test_a_burr_shades_all_it_passes_between_the_rims() -> None:
    """Half as long at 60 degrees and gliding by 4, the burr sweeps 4.2 of the 6 that the rims leave: 5 high is left.

    Between the burr's two ends alone a disc of 5.72 would find room.
    """
    assert disc_in(outline(*BURRED), tilt_deg=60, wall_mm=4 / sin(radians(60))) == pytest.approx(5.0, abs=1e-5)


def test_a_waist_narrower_than_the_glide_parts_the_room_in_two() -> None:
    """Gliding by 2 at 30 degrees closes a waist seen 0.866 wide; two rooms 6.66 x 5 stay, for a thing of 5 each."""
    seen = see_opening(opening=outline(*WAISTED), tilt_deg=30, wall_thickness_mm=4)
    assert isinstance(seen, SeenOutline)
    assert len(seen.parts_mm) == 2
    found = find_set_clearance(opening=outline(*WAISTED), tilt_deg=30, wall_thickness_mm=4, diameters_mm=(5.0, 5.0))
    assert found.clearance_mm == pytest.approx(0.0, abs=1e-5)
    assert found.is_exact


def test_where_no_slice_is_long_enough_the_missing_length_is_told() -> None:
    """A diamond 8 wide, half as wide at 60 degrees, gliding by 5: 1 is missing."""
    diamond = outline((-4, 0), (0, -3), (4, 0), (0, 3))
    assert disc_in(diamond, tilt_deg=60, wall_mm=5 / sin(radians(60))) == pytest.approx(-1.0)
    found = find_set_clearance(
        opening=diamond, tilt_deg=60, wall_thickness_mm=5 / sin(radians(60)), diameters_mm=(2.0, 3.0)
    )
    assert found.clearance_mm == pytest.approx(-4.0)
    assert found.upper_bound_mm == pytest.approx(-4.0)


def test_longest_level_line_looks_on_both_sides_of_a_corner() -> None:
    plus = ((-9, -1), (-2, -1), (-2, -5), (2, -5), (2, -1), (9, -1), (9, 1), (2, 1), (2, 5), (-2, 5), (-2, 1), (-9, 1))
    assert longest_level_line(plus).length_mm == pytest.approx(18)
    assert longest_level_line(((0, 0), (6, 3), (0, 6), (3, 3))).length_mm == pytest.approx(3)


def burred_ring(draw: np.random.Generator) -> shapely.Polygon:
    radius = draw.uniform(3, 6)
    wide, deep, turn = draw.uniform(0.1, 0.6), draw.uniform(0.3, 1.5), draw.uniform(0, 2 * pi)
    burr = rotate(shapely.box(radius - deep, -wide / 2, radius + 1, wide / 2), degrees(turn), origin=(0, 0))
    return shapely.Point(0, 0).buffer(radius, quad_segs=12).difference(burr)


def merged_rings(draw: np.random.Generator) -> shapely.Polygon:
    radius, turn = draw.uniform(2.5, 4), draw.uniform(0, pi)
    apart, other = draw.uniform(0.6, 1.4) * radius, draw.uniform(0.6, 1) * radius
    second = shapely.Point(apart * cos(turn), apart * sin(turn)).buffer(other, quad_segs=12)
    return shapely.Point(0, 0).buffer(radius, quad_segs=12).union(second)


@pytest.mark.parametrize("seed", range(12))
def test_dented_holes_against_slices_laid_over_each_other(seed: int) -> None:
    """A thousand slices leave a little more than all of them, never less."""
    draw = np.random.default_rng(seed)
    figure = (burred_ring if seed % 2 else merged_rings)(draw)
    points = tuple(figure.exterior.coords[:-1])
    tilt_deg, wall_mm = draw.uniform(20, 65), draw.uniform(1, 3)
    half = wall_mm * sin(radians(tilt_deg)) / 2
    narrowed = scale(figure, cos(radians(tilt_deg)), 1, origin=(0, 0))
    left = shapely.intersection_all([translate(narrowed, shift) for shift in np.linspace(-half, half, 1001)])
    expected = max(2 * shapely.maximum_inscribed_circle(part, 1e-6).length for part in shapely.get_parts(left))
    found = disc_in(outline(*points), tilt_deg=tilt_deg, wall_mm=wall_mm)
    assert expected - 0.002 < found < expected + 1e-4
    rooms = room_of_all_slices(tuple((x * cos(radians(tilt_deg)), y) for x, y in points), 2 * half)
    assert sum(shapely.Polygon(room).area for room in rooms) == pytest.approx(left.area, rel=2e-3)


def test_several_things_keep_clear_of_what_the_burr_sweeps() -> None:
    sizes = (3.0, 2.5, 2.0)
    found = find_set_clearance(opening=outline(*BURRED), tilt_deg=40, wall_thickness_mm=4, diameters_mm=sizes)
    assert found.clearance_mm is not None
    assert found.placement is not None
    drawn = draw_opening(outline(*BURRED), tilt_deg=40, wall_mm=4, points_per_arc=1)
    assert overlap_of(found.placement, found.clearance_mm, drawn) < 1e-3


def test_an_outline_that_crosses_itself_is_refused() -> None:
    bow = outline((0, 0), (6, 6), (6, 0), (0, 6))
    with pytest.raises(ImpossibleDimensionError, match=r"points_mm: 4 corners was given; it must go around once"):
        see_opening(opening=bow, tilt_deg=0, wall_thickness_mm=1)
