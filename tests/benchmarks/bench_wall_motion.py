"""How long the answer for a rigid piece through a wall takes; to be read, not asserted."""

import pytest

from planner.geometry.rigid.wall_motion import find_longest_through_wall_mm, find_motion_through_wall

WALLS = [(5.0, 12.0, 2.0, 35.0), (5.0, 7.0, 2.0, 25.0), (5.0, 8.0, 8.0, 24.0)]


@pytest.mark.parametrize("wall", WALLS, ids=str)
def test_motion_one_hundredth_below_the_limit(benchmark, wall):
    diameter, opening, thickness, corridor = wall
    walls = {"opening_length_mm": opening, "wall_thickness_mm": thickness, "corridor_mm": corridor}
    limit = find_longest_through_wall_mm(piece_diameter_mm=diameter, **walls).upper_mm
    asked = {"piece_length_mm": 0.99 * limit, "piece_diameter_mm": diameter, **walls}
    found = benchmark.pedantic(
        lambda: find_motion_through_wall(**asked), setup=find_motion_through_wall.cache_clear, rounds=200
    )
    assert found.passes is True


@pytest.mark.parametrize("wall", WALLS, ids=str)
def test_longest_piece(benchmark, wall):
    diameter, opening, thickness, corridor = wall
    asked = {
        "piece_diameter_mm": diameter,
        "opening_length_mm": opening,
        "wall_thickness_mm": thickness,
        "corridor_mm": corridor,
    }
    found = benchmark.pedantic(
        lambda: find_longest_through_wall_mm(**asked), setup=find_longest_through_wall_mm.cache_clear, rounds=100
    )
    assert 0 < found.length_mm < found.upper_mm
