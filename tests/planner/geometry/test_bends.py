import csv
from math import acos, cos, degrees, pi, radians, sin
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.errors import ImpossibleDimensionError
from planner.geometry.curves.bends import bend_arc_length_mm, centreline_bend_radius_mm, turn_between_deg

PUBLISHED = Path(__file__).parents[2] / "published_values"
HOSES = list(csv.DictReader((PUBLISHED / "hose_bends.csv").open(encoding="utf-8")))


@pytest.mark.parametrize("row", HOSES, ids=lambda row: row["case"])
def test_test_piece_of_a_hose_has_its_published_free_length(row: dict[str, str]) -> None:
    radius_mm = centreline_bend_radius_mm(
        inside_bend_radius_mm=float(row["inside_radius_mm"]), outer_diameter_mm=float(row["outer_diameter_mm"])
    )
    length_mm = bend_arc_length_mm(centreline_bend_radius_mm=radius_mm, turn_deg=float(row["turn_deg"]))
    expected = pytest.approx(float(row["expected_mm"]), abs=float(row["tolerance_mm"]))
    assert length_mm + float(row["end_allowance_mm"]) == expected


def test_s_bend_of_a_hose_takes_what_two_arcs_take_and_not_the_831_once_printed() -> None:
    """A metal-hose maker's worked example, plan 9.4 example 13: offset 50, radius 310, 145 of ends at either side."""
    turn_deg = degrees(acos((2 * 310 - 50) / (2 * 310)))
    hose_mm = 2 * bend_arc_length_mm(centreline_bend_radius_mm=310, turn_deg=turn_deg) + 290
    assert turn_deg == pytest.approx(23.168054736, abs=1e-8)
    assert hose_mm == pytest.approx(540.702478581, abs=1e-6)
    assert 2 * 310 * sin(radians(23)) + 290 == pytest.approx(532, abs=0.5)  # the span printed there, and right
    assert abs(hose_mm - 831) > 280  # the length printed there: the ends were added twice


def test_straight_bend_takes_no_line_and_a_full_loop_a_circumference() -> None:
    assert bend_arc_length_mm(centreline_bend_radius_mm=37.5, turn_deg=0) == 0
    assert bend_arc_length_mm(centreline_bend_radius_mm=37.5, turn_deg=360) == pytest.approx(75 * pi)


@given(st.floats(0.1, 1000), st.floats(0, 180))
def test_twice_the_turn_is_twice_the_arc(radius_mm: float, turn_deg: float) -> None:
    once = bend_arc_length_mm(centreline_bend_radius_mm=radius_mm, turn_deg=turn_deg)
    twice = bend_arc_length_mm(centreline_bend_radius_mm=radius_mm, turn_deg=2 * turn_deg)
    assert twice == pytest.approx(2 * once)


@pytest.mark.parametrize(
    ("radius_mm", "turn_deg", "complaint"),
    [
        (0, 90, "centreline_bend_radius_mm: 0 mm was given; it must be above zero"),
        (float("inf"), 90, "centreline_bend_radius_mm: inf mm was given; it must be above zero"),
        (40, -1, "turn_deg: -1 deg was given; it must be 0 to 360"),
        (40, 360.5, "turn_deg: 360.5 deg was given; it must be 0 to 360"),
        (40, float("nan"), "turn_deg: nan deg was given; it must be 0 to 360"),
    ],
)
def test_impossible_bends_are_refused_with_the_number(radius_mm: float, turn_deg: float, complaint: str) -> None:
    with pytest.raises(ImpossibleDimensionError, match=complaint):
        bend_arc_length_mm(centreline_bend_radius_mm=radius_mm, turn_deg=turn_deg)


def test_bend_radius_is_measured_to_the_inside_of_the_bend() -> None:
    assert centreline_bend_radius_mm(inside_bend_radius_mm=35, outer_diameter_mm=5) == 37.5
    assert centreline_bend_radius_mm(inside_bend_radius_mm=0, outer_diameter_mm=5) == 2.5
    with pytest.raises(
        ImpossibleDimensionError, match="inside_bend_radius_mm: -1 mm was given; it must be zero or more"
    ):
        centreline_bend_radius_mm(inside_bend_radius_mm=-1, outer_diameter_mm=5)
    with pytest.raises(ImpossibleDimensionError, match="outer_diameter_mm: 0 mm was given; it must be above zero"):
        centreline_bend_radius_mm(inside_bend_radius_mm=35, outer_diameter_mm=0)


def test_turns_between_headings_at_their_limits() -> None:
    assert turn_between_deg(first=(1, 2, 3), second=(2, 4, 6)) == pytest.approx(0, abs=1e-12)
    assert turn_between_deg(first=(1, 2, 3), second=(-1, -2, -3)) == 180
    assert turn_between_deg(first=(1, 0, 0), second=(0, 0, 5)) == 90
    with pytest.raises(ImpossibleDimensionError, match="second: 0 long was given; it must have a length above zero"):
        turn_between_deg(first=(1, 0, 0), second=(0, 0, 0))


def test_tiny_turns_keep_their_digits() -> None:
    turned = (cos(1e-9), sin(1e-9), 0.0)
    assert turn_between_deg(first=(1, 0, 0), second=turned) == pytest.approx(degrees(1e-9), rel=1e-9)
