"""Rigid pieces in bends: worked figures, the switch between the two forms, and what no piece may do."""

import csv
from math import acos, cos, degrees, hypot, inf, nan, radians, sin, tan
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.errors import ImpossibleDimensionError
from planner.geometry.rigid.rigid_in_bend import longest_rigid_in_bend_mm

ROWS = list(csv.DictReader((Path(__file__).parents[2] / "published_values/rod_in_bend.csv").open(encoding="utf-8")))

bores = st.floats(2, 20)
radii = st.floats(0, 400)
turns = st.floats(0.5, 200)
shares = st.floats(0.01, 0.99)


def longest(bore, radius, turn, piece):
    return longest_rigid_in_bend_mm(
        bore_diameter_mm=bore, inside_bend_radius_mm=radius, turn_deg=turn, piece_diameter_mm=piece
    )


def switch_deg(bore, radius, piece):
    """The turn at which both ends of the piece stand just where the legs begin."""
    return 2 * degrees(acos((radius + piece) / (radius + bore)))


@pytest.mark.parametrize("row", ROWS, ids=[row["case"] for row in ROWS])
def test_worked_figure(row):
    """No published figure for tools in pipe bends was found; these were worked by hand and by brute force."""
    bore = float(row["bore_diameter_mm"])
    found = longest(
        bore, float(row["centre_radius_mm"]) - bore / 2, float(row["turn_deg"]), float(row["piece_diameter_mm"])
    )
    assert found == pytest.approx(float(row["expected_mm"]), abs=float(row["tolerance_mm"]))


def test_free_clearance_is_the_sagitta_on_the_outer_wall():
    length = longest(8, 56, 90, 5)
    outer_wall = 56 + 8
    assert outer_wall - (outer_wall**2 - length**2 / 4) ** 0.5 == pytest.approx(8 - 5)


def test_the_two_forms_meet_where_the_ends_stand_at_the_legs():
    at = switch_deg(8, 56, 5)
    assert at == pytest.approx(35.2249, abs=1e-4)
    long_bend = longest(8, 56, 90, 5)
    assert longest(8, 56, at + 1e-6, 5) == pytest.approx(long_bend, abs=1e-9)
    assert longest(8, 56, at, 5) == pytest.approx(long_bend, abs=1e-9)
    assert longest(8, 56, at - 1e-6, 5) == pytest.approx(long_bend, abs=1e-6)
    assert longest(8, 56, at - 1, 5) > long_bend + 0.01


@pytest.mark.parametrize(("bore", "radius", "turn", "piece"), [(8, 56, 20, 5), (7, 36.5, 25, 5), (6, 0, 60, 1)])
def test_short_bend_against_the_straight_legs_drawn_out(bore, radius, turn, piece):
    """The piece lies square to the bisector on the inner arc; its outer corners must stand on the outer leg walls."""
    half = radians(turn) / 2
    inner_face, outer_wall = radius + piece, radius + bore
    half_length = longest(bore, radius, turn, piece) / 2
    leg_begins = (outer_wall * sin(half), outer_wall * cos(half))
    assert half_length > leg_begins[0]
    height_on_leg = leg_begins[1] - (half_length - leg_begins[0]) * tan(half)
    assert height_on_leg == pytest.approx(inner_face)
    assert hypot(half_length, inner_face) > outer_wall


def test_a_sharp_square_corner_is_the_thick_ladder_of_equal_widths():
    """2 * sqrt(2) * a - 2 * t (Moretti 2002, from memory); the ends stand in the legs, whose walls are straight."""
    assert longest(10, 0, 90, 3) == pytest.approx(2 * 2**0.5 * 10 - 2 * 3)


def test_no_turn_takes_any_length():
    assert longest(6, 100, 0, 5) == inf


def test_a_piece_as_thick_as_the_bore_passes_no_bend():
    assert longest(6, 100, 12, 6) == 0


def test_half_circle_and_more_are_as_hard_as_a_long_bend():
    assert longest(8, 56, 180, 5) == longest(8, 56, 90, 5) == longest(8, 56, 400, 5)


@pytest.mark.parametrize(
    ("bore", "radius", "turn", "piece", "message"),
    [
        (0, 50, 90, 0, "bore_diameter_mm: 0 mm was given; it must be above zero"),
        (nan, 50, 90, 1, "bore_diameter_mm: nan mm"),
        (6, -1, 90, 5, "inside_bend_radius_mm: -1 mm was given; it must not be negative"),
        (6, 50, -5, 5, "turn_deg: -5 deg was given; it must not be negative"),
        (6, 50, 90, 6.1, "piece_diameter_mm: 6.1 mm was given; it must lie between 0 and the bore, 6 mm"),
        (6, 50, 90, -0.1, "piece_diameter_mm: -0.1 mm"),
    ],
)
def test_impossible_numbers_are_refused(bore, radius, turn, piece, message):
    with pytest.raises(ImpossibleDimensionError, match=message.replace(".", r"\.")):
        longest(bore, radius, turn, piece)


@given(bores, radii, turns, shares, st.floats(1.01, 3))
def test_rounder_wider_straighter_thinner_never_shortens(bore, radius, turn, share, more):
    piece = bore * share
    at_first = longest(bore, radius, turn, piece) * (1 - 1e-9)
    assert longest(bore * more, radius, turn, piece) >= at_first
    assert longest(bore, radius * more, turn, piece) >= at_first
    assert longest(bore, radius, turn / more, piece) >= at_first
    assert longest(bore, radius, turn, piece / more) >= at_first


@given(bores, radii, turns, shares)
def test_a_short_bend_never_takes_less_than_a_long_one(bore, radius, turn, share):
    assert longest(bore, radius, turn, bore * share) >= longest(bore, radius, 180, bore * share) * (1 - 1e-9)
