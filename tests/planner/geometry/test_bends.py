import csv
from math import acos, cos, degrees, radians, sin
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.errors import ImpossibleDimensionError
from planner.geometry.curves.bends import centreline_bend_radius_mm, turn_between_deg
from planner.geometry.motion.frame_axes import Pose3
from tests.planner.geometry.hose_samples import shortest_bend_limited_curve

PUBLISHED = Path(__file__).parents[2] / "published_values"
HOSES = list(csv.DictReader((PUBLISHED / "hose_bends.csv").open(encoding="utf-8")))


def arc_mm(*, radius_mm: float, turn_deg: float) -> float:
    """The shortest curve between the ends of one arc."""
    turn = radians(turn_deg)
    start = Pose3(position_mm=(0.0, 0.0, 0.0), heading=(1.0, 0.0, 0.0))
    end = Pose3(
        position_mm=(radius_mm * sin(turn), radius_mm * (1 - cos(turn)), 0.0), heading=(cos(turn), sin(turn), 0.0)
    )
    return shortest_bend_limited_curve(start=start, end=end, centreline_radius_mm=radius_mm).length_mm


@pytest.mark.parametrize("row", HOSES, ids=lambda row: row["case"])
def test_test_piece_of_a_hose_has_its_published_free_length(row: dict[str, str]) -> None:
    radius_mm = centreline_bend_radius_mm(
        inside_bend_radius_mm=float(row["inside_radius_mm"]), outer_diameter_mm=float(row["outer_diameter_mm"])
    )
    length_mm = arc_mm(radius_mm=radius_mm, turn_deg=float(row["turn_deg"]))
    expected = pytest.approx(float(row["expected_mm"]), abs=float(row["tolerance_mm"]))
    assert length_mm + float(row["end_allowance_mm"]) == expected


def test_s_bend_of_a_hose_takes_what_two_arcs_take_and_not_the_831_once_printed() -> None:
    """A metal-hose maker's worked example, plan 9.4 example 13: offset 50, radius 310, 145 of ends at either side."""
    turn_deg = degrees(acos((2 * 310 - 50) / (2 * 310)))
    along_mm = 2 * 310 * sin(radians(turn_deg))
    straight_on = (1.0, 0.0, 0.0)
    bent_mm = shortest_bend_limited_curve(
        start=Pose3(position_mm=(0.0, 0.0, 0.0), heading=straight_on),
        end=Pose3(position_mm=(along_mm, 50.0, 0.0), heading=straight_on),
        centreline_radius_mm=310,
    ).length_mm
    assert turn_deg == pytest.approx(23.168054736, abs=1e-8)
    assert bent_mm + 290 == pytest.approx(540.702478581, abs=1e-6)
    assert 2 * 310 * sin(radians(23)) + 290 == pytest.approx(532, abs=0.5)  # the span printed there, and right
    assert abs(bent_mm + 290 - 831) > 280  # the length printed there: the ends were added twice


@given(st.floats(0.1, 1000), st.floats(0.1, 180))
def test_an_arc_is_as_long_as_its_turn_says(radius_mm: float, turn_deg: float) -> None:
    assert arc_mm(radius_mm=radius_mm, turn_deg=turn_deg) == pytest.approx(radius_mm * radians(turn_deg), rel=1e-7)


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
