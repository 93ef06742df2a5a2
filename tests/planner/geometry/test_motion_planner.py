"""A stiff piece through a wall, and flat curves, against the Open Motion Planning Library."""

from importlib import import_module
from math import degrees
from random import Random

import pytest

from planner.geometry.curves.planar_dubins import find_dubins_paths
from planner.geometry.rigid.wall_motion import find_longest_through_wall_mm
from tests.oracles import oracle

base = oracle("ompl.base")
motion_oracle = import_module("tests.planner.geometry.motion_oracle")
SECONDS_TO_REFUTE, SECONDS_TO_FIND = 1.0, 120.0
"""The planner is given little time where it should find nothing, and all it wants where it should find a way."""
QUICKLY_FOUND = motion_oracle.WALLS[1:6]


def longest_mm(wall: tuple[float, float, float, float]) -> float:
    diameter_mm, opening_mm, thickness_mm, corridor_mm = wall
    return find_longest_through_wall_mm(
        piece_diameter_mm=diameter_mm,
        opening_length_mm=opening_mm,
        wall_thickness_mm=thickness_mm,
        corridor_mm=corridor_mm,
    ).upper_mm


@pytest.mark.parametrize("wall", motion_oracle.WALLS, ids=str)
def test_the_planner_finds_no_way_for_a_piece_a_little_too_long(wall: tuple[float, float, float, float]) -> None:
    length_mm = longest_mm(wall) * motion_oracle.LONGER
    assert motion_oracle.find_ours(length=length_mm, wall=wall)[0] is False
    assert motion_oracle.plan_with_oracle(length=length_mm, wall=wall, seconds=SECONDS_TO_REFUTE) is None


@pytest.mark.parametrize("wall", QUICKLY_FOUND, ids=str)
def test_the_planner_finds_a_way_for_a_piece_a_little_shorter(wall: tuple[float, float, float, float]) -> None:
    """Else it finding nothing for the longer one would tell nothing."""
    length_mm = longest_mm(wall) * motion_oracle.SHORTER
    assert motion_oracle.find_ours(length=length_mm, wall=wall)[0] is True
    assert motion_oracle.plan_with_oracle(length=length_mm, wall=wall, seconds=SECONDS_TO_FIND) is not None


@pytest.mark.parametrize("radius_mm", [20.0, 37.5, 80.0])
def test_flat_curves_are_as_long_as_the_librarys(radius_mm: float) -> None:
    space, draw = base.DubinsStateSpace(radius_mm), Random(1)
    start, end = space.allocState(), space.allocState()
    for _ in range(1000):
        poses = [(draw.uniform(-300, 300), draw.uniform(-300, 300), draw.uniform(-3.14, 3.14)) for _ in range(2)]
        for state, (x_mm, y_mm, heading_rad) in zip((start, end), poses, strict=True):
            state.setX(x_mm)
            state.setY(y_mm)
            state.setYaw(heading_rad)
        ours = find_dubins_paths(
            start_mm=poses[0][:2],
            start_heading_deg=degrees(poses[0][2]),
            end_mm=poses[1][:2],
            end_heading_deg=degrees(poses[1][2]),
            radius_mm=radius_mm,
        )[0]
        assert ours.length_mm == pytest.approx(space.distance(start, end), abs=1e-9)
