"""The gap a stiff piece finds in a hole: by hand, and against slots drawn with shapely."""

from math import asin, atan2, cos, hypot, pi, sin

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.affinity import scale

from planner.fit.wall_fit import find_longest_through_port
from planner.geometry.openings.opening_depth import nearest_edge
from planner.geometry.openings.opening_shape import SeenArcs
from planner.geometry.rigid.wall_opening import _gap_in_oval, gap_along_tube_mm, longest_way_across_mm
from planner.parts import OUTSIDE, BoxOpening, Opening, OutlineOpening, OvalOpening, Port, RoundOpening, SlotOpening
from planner.verdicts import Thing, ThingKind

NICKED = ((-6, -4), (6, -4), (6, -0.5), (12, -0.5), (12, 0.5), (6, 0.5), (6, 4), (-6, 4))
"""A box 12 x 8 with a nick 1 wide, 6 long at its end."""


def outline(points: tuple[tuple[float, float], ...]) -> OutlineOpening:
    return OutlineOpening(points_mm=points, tolerance_mm=0)


def plus(arm_mm: float) -> OutlineOpening:
    """A plus 18 long and 10 wide, its upright 6, its arms so wide."""
    a = arm_mm / 2
    return outline(
        ((-9, -a), (-3, -a), (-3, -5), (3, -5), (3, -a), (9, -a), (9, a), (3, a), (3, 5), (-3, 5), (-3, a), (-9, a))
    )


def gap(opening: Opening, diameter_mm: float, wall_mm: float = 1.5) -> float:
    return gap_along_tube_mm(opening=opening, piece_diameter_mm=diameter_mm, wall_thickness_mm=wall_mm)


@pytest.mark.parametrize(
    ("opening", "diameter_mm", "expected_mm"),
    [
        (outline(NICKED), 5.0, 12.0),
        (outline(NICKED), 1.01, 12.0),
        (outline(NICKED), 0.99, 18.0),
        (plus(6.0), 5.0, 18.0),
        (plus(5.01), 5.0, 18.0),
        (plus(4.99), 5.0, 6.0),
        (RoundOpening(diameter_mm=9, tolerance_mm=0), 5.0, 9.0),
        (SlotOpening(length_mm=12, width_mm=7, tolerance_mm=0), 6.9, 12.0),
        (BoxOpening(length_mm=12, width_mm=7, corner_radius_mm=3, tolerance_mm=0), 6.9, 12.0),
        (OvalOpening(length_mm=12, width_mm=8, tolerance_mm=0), 5.0, 12.0),  # ends as round as 4^2 / 6 = 2.67
    ],
    ids=[
        "nick narrower than the piece",
        "nick a hair narrower",
        "nick a hair wider",
        "arms wider than the piece",
        "arms a hair wider",
        "arms a hair narrower",
        "round",
        "slot",
        "box",
        "oval",
    ],
)
def test_the_gap_known_by_hand(opening: Opening, diameter_mm: float, expected_mm: float) -> None:
    assert gap(opening, diameter_mm) == pytest.approx(expected_mm, abs=1e-5)


def longest_ladder_mm(gap_mm: float, diameter_mm: float, wall_mm: float, corridor_mm: float) -> float:
    """The thick ladder worked on a fine grid of tilts, up to the steepest at which the piece cannot slide."""
    lean = asin(diameter_mm / hypot(gap_mm, wall_mm)) + atan2(wall_mm, gap_mm)
    tilts = np.linspace(lean / 20000, lean, 20000)
    s, c = np.sin(tilts), np.cos(tilts)
    tail_in = corridor_mm / s + gap_mm / c - diameter_mm / (s * c)
    tail_out = (corridor_mm - diameter_mm * c) / s + gap_mm * c
    return float(np.maximum(tail_in, tail_out).min())


@pytest.mark.parametrize(
    ("opening", "gap_mm"),
    [(outline(NICKED), 12.0), (plus(6.0), 18.0), (plus(4.0), 6.0)],
    ids=["nick", "plus", "narrow"],
)
def test_the_longest_piece_finds_its_own_width(opening: OutlineOpening, gap_mm: float) -> None:
    """60.1 mm through the nicked box, where the nick would have lent it 88.5."""
    port = Port(
        id="hole",
        label="hole",
        joins=(OUTSIDE, "tube"),
        position_mm=(0.0, 0.0, 0.0),
        heading=(0.0, 0.0, -1.0),
        opening=opening,
        wall_thickness_mm=1.5,
    )
    item = Thing(kind=ThingKind.OTHER, id="joint", diameter_mm=5.0, tolerance_mm=0.0)
    found = find_longest_through_port(port=port, corridor_mm=30.0, item=item, is_worst_case=False)
    assert found is not None
    expected = longest_ladder_mm(gap_mm, 5.0, 1.5, 30.0)
    assert found.upper_mm == pytest.approx(expected, abs=0.001)
    assert found.length_mm == pytest.approx(expected * 0.999, abs=0.01)
    if gap_mm == 12.0:
        assert found.length_mm == pytest.approx(60.1, abs=0.05)


def test_a_traced_ring_is_as_long_as_the_ring() -> None:
    points = tuple((6 * cos(k * pi / 90), 6 * sin(k * pi / 90)) for k in range(180))
    assert gap(outline(points), 5.0) == pytest.approx(12.0, abs=0.005)
    assert longest_way_across_mm(opening=outline(points)) == pytest.approx(12.0, abs=1e-9)


def dented(draw: np.random.Generator) -> shapely.Polygon:
    figure = shapely.box(-8, -4, 8, 4)
    for _ in range(int(draw.integers(1, 4))):
        x, y = draw.uniform(-9, 9), draw.choice([-4.0, 4.0])
        figure = figure.difference(shapely.Point(x, y).buffer(draw.uniform(0.3, 2.5), quad_segs=3))
    largest = max(shapely.get_parts(figure), key=lambda part: part.area)
    return shapely.Polygon(largest.exterior)


def longest_drawn_slot(figure: shapely.Polygon, diameter_mm: float, sine: float, *, has_square_ends: bool) -> float:
    """Over many levels: the longest slot, its ends drawn out by the lean or square, that the figure covers."""
    squeezed = scale(figure, sine, 1, origin=(0, 0))
    if has_square_ends:  # free where a whole upright of the piece's width is
        sides = [shapely.affinity.translate(figure, 0, off) for off in np.linspace(-0.5, 0.5, 101) * diameter_mm]
        inset, extra = shapely.intersection_all(sides), 0.0
    else:
        inset, extra = squeezed.buffer(-diameter_mm / 2, quad_segs=200), diameter_mm
    best = 0.0
    left, low, right, high = figure.bounds
    for y in np.linspace(low, high, 1601):
        cut = inset.intersection(shapely.LineString([(left - 1, y), (right + 1, y)]))
        best = max([best, *(part.length for part in shapely.get_parts(cut))])
    return best + extra if has_square_ends else (best + extra) / sine


@pytest.mark.parametrize("seed", range(10))
def test_dented_outlines_between_two_drawn_slots(seed: int) -> None:
    """Never more than a slot with ends as drawn out as the lean allows, never less than one with square ends."""
    draw = np.random.default_rng(seed)
    figure, diameter_mm, wall_mm = dented(draw), draw.uniform(2, 4), draw.uniform(0, 3)
    found = gap(outline(tuple(figure.exterior.coords[:-1])), diameter_mm, wall_mm)
    lean = min(pi / 2, asin(min(1.0, diameter_mm / hypot(found, wall_mm))) + atan2(wall_mm, found))
    assert found <= longest_drawn_slot(figure, diameter_mm, sin(lean), has_square_ends=False) + 0.01
    assert found >= longest_drawn_slot(figure, diameter_mm, 1.0, has_square_ends=True) - 0.02


@given(
    half_length=st.floats(5, 12),
    width=st.floats(5, 9),
    share=st.floats(0.3, 0.98),
    wall_mm=st.floats(0, 3),
)
@settings(max_examples=60, deadline=None)
def test_a_piece_slides_through_an_oval_in_every_plane_at_the_lean_told(
    half_length: float, width: float, share: float, wall_mm: float
) -> None:
    """At the flattest lean of the gap told, no plane beside the middle asks for more than the oval has there."""
    diameter_mm = share * width
    found = gap(OvalOpening(length_mm=2 * half_length, width_mm=width, tolerance_mm=0), diameter_mm, wall_mm)
    assert found <= 2 * half_length + 1e-9
    lean = min(pi / 2, asin(min(1.0, diameter_mm / hypot(found, wall_mm))) + atan2(wall_mm, found))
    y = np.linspace(0, diameter_mm / 2, 400)
    has = 2 * half_length * np.sqrt(1 - (2 * y / width) ** 2)
    needs = (np.sqrt(np.maximum(diameter_mm**2 - 4 * y * y, 0)) + wall_mm * cos(lean)) / sin(lean)
    assert np.all(has >= needs - 1e-5)


def test_a_slot_in_an_oval_ends_where_the_oval_is_as_deep_as_the_slot_is_round() -> None:
    draw = np.random.default_rng(8)
    for half_width_mm, ratio, share in zip(
        draw.uniform(1, 10, 200), draw.uniform(1.01, 4, 200), draw.uniform(0.01, 0.99, 200), strict=True
    ):
        half_length_mm = half_width_mm * ratio
        radius_mm = half_width_mm * (1 / ratio + share * (1 - 1 / ratio))  # rounder than the tip, thinner than the oval
        oval = SeenArcs(flat_x_mm=0.0, flat_y_mm=0.0, arc_x_mm=half_length_mm, arc_y_mm=half_width_mm)
        end_mm = _gap_in_oval(half_length_mm, half_width_mm, radius_mm) / 2 - radius_mm
        assert nearest_edge(seen=oval, x_mm=end_mm, y_mm=0.0)[0] == pytest.approx(radius_mm, abs=1e-9)
    assert _gap_in_oval(6.0, 4.0, 4 * 4 / 6) == 12.0
    assert _gap_in_oval(6.0, 4.0, 4 * 4 / 6 + 1e-9) == pytest.approx(12.0, abs=1e-8)
    assert _gap_in_oval(6.0, 4.0, 4.0) == 8.0
