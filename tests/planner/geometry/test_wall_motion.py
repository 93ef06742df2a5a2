"""A rigid piece through a wall: worked limits, motions walked again with another library, and what no piece may do."""

import csv
from dataclasses import replace
from itertools import pairwise
from math import cos, inf, nan, pi, radians, sin
from pathlib import Path

import networkx as nx
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import affinity

from planner.errors import ImpossibleDimensionError
from planner.geometry.rigid.wall_contacts import least_gap_between_mm
from planner.geometry.rigid.wall_motion import find_longest_through_wall_mm, find_motion_through_wall
from planner.geometry.rigid.wall_opening import longest_way_across_mm
from planner.geometry.rigid.wall_slices import WallScene, find_roomiest_pose
from planner.parts import BoxOpening, OutlineOpening, OvalOpening, RoundOpening, SlotOpening
from planner.verdicts import Pose

ROWS = list(csv.DictReader((Path(__file__).parents[2] / "published_values/thick_ladder.csv").open(encoding="utf-8")))
FAR_MM = 500.0

WALLS = [  # diameter, opening, wall, corridor: a zoo of common and odd ones
    (5.0, 12.0, 2.0, 35.0),
    (5.0, 7.0, 2.0, 25.0),
    (5.23, 7.0, 1.6, 44.0),
    (4.0, 20.0, 1.0, 18.0),
    (5.0, 6.0, 0.0, 30.0),
    (5.0, 8.0, 12.0, 20.0),
    (8.0, 9.0, 3.0, 9.5),
    (5.0, 4.0, 2.0, 25.0),
    (0.5, 12.0, 2.0, 35.0),
    (5.0, 40.0, 2.0, 12.0),
]

diameters = st.floats(1, 8)
openings = st.floats(3, 25)
thicknesses = st.floats(0, 12)
corridors = st.floats(5, 50)


def passage(length, wall):
    diameter, opening, thickness, corridor = wall
    return find_motion_through_wall(
        piece_length_mm=length,
        piece_diameter_mm=diameter,
        opening_length_mm=opening,
        wall_thickness_mm=thickness,
        corridor_mm=corridor,
    )


def longest(diameter, opening, thickness, corridor):
    return find_longest_through_wall_mm(
        piece_diameter_mm=diameter,
        opening_length_mm=opening,
        wall_thickness_mm=thickness,
        corridor_mm=corridor,
    )


def obstacles(wall):
    _, opening, thickness, corridor = wall
    ahead = shapely.box(opening / 2, -thickness, FAR_MM, 0)
    behind = shapely.box(-FAR_MM, -thickness, -opening / 2, 0)
    return shapely.MultiPolygon([ahead, behind, shapely.box(-FAR_MM, corridor, FAR_MM, corridor + FAR_MM)])


def piece_at(pose, length, diameter):
    lying = shapely.box(-length / 2, -diameter / 2, length / 2, diameter / 2)
    return affinity.translate(affinity.rotate(lying, pose.tilt_deg, origin=(0, 0)), pose.x_mm, pose.y_mm)


def poses_between(motion, steps):
    for start, end in pairwise(motion):
        for i in range(steps):
            part = i / steps
            yield Pose(
                x_mm=start.x_mm + part * (end.x_mm - start.x_mm),
                y_mm=start.y_mm + part * (end.y_mm - start.y_mm),
                tilt_deg=start.tilt_deg + part * (end.tilt_deg - start.tilt_deg),
            )
    yield motion[-1]


@pytest.mark.parametrize("row", ROWS, ids=[row["case"] for row in ROWS])
def test_in_a_very_thick_wall_the_limit_is_the_thick_ladder(row):
    opening = float(row["opening_length_mm"])
    found = longest(float(row["piece_diameter_mm"]), opening, 1000 * opening, float(row["corridor_mm"]))
    expected = float(row["expected_mm"])
    assert found.upper_mm == pytest.approx(expected, abs=float(row["tolerance_mm"]))
    assert found.tightest_tilt_deg == pytest.approx(float(row["expected_tilt_deg"]), abs=1e-3)
    assert found.length_mm == pytest.approx(expected, rel=0.005)


@pytest.mark.parametrize(("wall", "expected", "tolerance"), [(WALLS[0], 65.9, 0.7), (WALLS[1], 31.0, 0.4)])
def test_worked_limits_of_common_walls(wall, expected, tolerance):
    assert longest(*wall).length_mm == pytest.approx(expected, abs=tolerance)


@pytest.mark.parametrize("wall", WALLS, ids=str)
def test_a_piece_a_hundredth_shorter_shows_a_motion_that_touches_nothing(wall):
    diameter, _, _, corridor = wall
    length = longest(*wall).upper_mm * 0.99
    found = passage(length, wall)
    assert found.passes is True
    solid = obstacles(wall)
    shapely.prepare(solid)
    for pose in poses_between(found.motion, 40):
        piece = piece_at(pose, length, diameter)
        assert not solid.intersects(piece)
    start, end = found.motion[0], found.motion[-1]
    assert piece_at(start, length, diameter).bounds[3] < -wall[2]
    assert end.tilt_deg == 0
    assert end.y_mm - diameter / 2 > 0
    assert end.y_mm + diameter / 2 < corridor


@pytest.mark.parametrize("wall", WALLS, ids=str)
def test_the_clearance_told_is_kept_and_not_boasted(wall):
    length = longest(*wall).upper_mm * 0.95
    found = passage(length, wall)
    solid = obstacles(wall)
    nearest = min(solid.distance(piece_at(pose, length, wall[0])) for pose in poses_between(found.motion, 10))
    assert found.clearance_mm <= nearest + 1e-9
    assert found.clearance_mm >= nearest / 4


@pytest.mark.parametrize("wall", WALLS, ids=str)
def test_just_below_the_limit_passes_just_above_does_not(wall):
    limit = longest(*wall).upper_mm
    below, at, above = passage(limit * 0.999, wall), passage(limit, wall), passage(limit * 1.000001, wall)
    assert below.passes is True
    assert at.passes is None
    assert above.passes is False
    assert not at.motion
    assert not above.motion
    assert above.clearance_mm is None
    assert above.longest_mm == limit


@pytest.mark.parametrize(
    ("wall", "share"), [(wall, share) for wall in (WALLS[0], WALLS[2], WALLS[5]) for share in (0.96, 1.03)]
)
def test_a_plain_search_over_slices_finds_the_same(wall, share):
    """The free space itself, sliced at whole degrees with another library: the plane less Minkowski sums."""
    length = longest(*wall).upper_mm * share
    assert is_reached_by_slices(length, wall) == (share < 1)


def is_reached_by_slices(length, wall):
    diameter, _, thickness, corridor = wall
    solid = obstacles(wall)
    window = shapely.box(-150, -thickness - 120, 150, corridor)
    graph = nx.Graph()
    previous = []
    for tilt_deg in range(181):
        mirrored = piece_at(Pose(x_mm=0, y_mm=0, tilt_deg=tilt_deg), length, diameter)  # its own point reflection
        sums = [minkowski_sum(part, mirrored) for part in solid.geoms]
        pockets = [p for p in shapely.get_parts(window.difference(shapely.union_all(sums))) if p.area > 1e-9]
        for i, pocket in enumerate(pockets):
            graph.add_node((tilt_deg, i))
            for j, earlier in enumerate(previous):
                if pocket.intersection(earlier).area > 1e-9:
                    graph.add_edge((tilt_deg, i), (tilt_deg - 1, j))
            if pocket.contains(shapely.Point(0, -thickness - 110)):
                graph.add_edge("outside", (tilt_deg, i))
            if tilt_deg in (0, 180) and pocket.contains(shapely.Point(140, corridor / 2)):
                graph.add_edge("lying", (tilt_deg, i))
        previous = pockets
    return nx.has_path(graph, "outside", "lying")


def minkowski_sum(first, second):
    """Of two convex shapes: the hull of all sums of corners."""
    corners = [(a + c, b + d) for a, b in first.exterior.coords for c, d in second.exterior.coords]
    return shapely.MultiPoint(corners).convex_hull


def test_a_piece_too_thick_for_the_tube_never_lies_down():
    found = passage(3, (5, 12, 2, 4.9))
    assert found.passes is False
    assert found.longest_mm == 0
    assert found.tightest_tilt_deg is None
    none = longest(5, 12, 2, 4.9)
    assert (none.length_mm, none.upper_mm, none.motion) == (0, 0, ())


def test_a_piece_too_thick_to_slide_may_still_drop_in_flat():
    assert passage(3.9, (5, 4, 2, 25)).passes is True
    assert passage(4.1, (5, 4, 2, 25)).passes is False


def test_a_piece_of_just_the_tube_is_left_undecided():
    assert passage(10, (5, 12, 2, 5)).passes is None
    assert longest(5, 12, 2, 5).length_mm == 0


def test_a_hole_of_just_the_piece_lets_only_short_ones_in_for_sure():
    found = longest(5, 5, 2, 25)
    assert found.length_mm == pytest.approx(5, rel=0.002)
    assert found.upper_mm == pytest.approx(25)


def test_a_thin_sheet_has_a_closed_form():
    """Without thickness the piece jams where its flanks touch both rims, sin(tilt) = d/w: length H/sin(tilt)."""
    assert longest(5, 12, 0, 35).upper_mm == pytest.approx(35 * 12 / 5)


def test_the_motion_proves_the_longest_length_told():
    found = longest(*WALLS[0])
    assert found.length_mm == pytest.approx(found.upper_mm, rel=0.0011)
    assert found.motion == passage(found.length_mm, WALLS[0]).motion


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("piece_length_mm", 0),
        ("piece_diameter_mm", -1),
        ("opening_length_mm", 0),
        ("corridor_mm", inf),
        ("wall_thickness_mm", -0.1),
        ("piece_length_mm", nan),
    ],
)
def test_impossible_sizes_are_refused(name, value):
    sizes = {
        "piece_length_mm": 20,
        "piece_diameter_mm": 5,
        "opening_length_mm": 12,
        "wall_thickness_mm": 2,
        "corridor_mm": 35,
    }
    with pytest.raises(ImpossibleDimensionError, match=f"{name}: {value:g} mm was given; it must"):
        find_motion_through_wall(**{**sizes, name: value})


@settings(max_examples=40, deadline=None)
@given(diameters, openings, thicknesses, corridors, st.floats(1.02, 2))
def test_wider_is_never_worse_and_thicker_never_better(diameter, opening, thickness, corridor, more):
    at_first = longest(diameter, opening, thickness, corridor).upper_mm
    slack = at_first * 1e-6
    assert longest(diameter, opening * more, thickness, corridor).upper_mm >= at_first - slack
    assert longest(diameter, opening, thickness, corridor * more).upper_mm >= at_first - slack
    assert longest(diameter, opening, thickness * more, corridor).upper_mm <= at_first + slack
    assert longest(diameter * more, opening, thickness, corridor).upper_mm <= at_first + slack


@settings(max_examples=40, deadline=None)
@given(diameters, openings, thicknesses, corridors, st.floats(0.1, 1.5))
def test_yes_and_no_are_never_mixed_up(diameter, opening, thickness, corridor, share):
    assume(abs(share - 1) > 0.01 and corridor > diameter * 1.02 and abs(opening / diameter - 1) > 0.02)
    wall = (diameter, opening, thickness, corridor)
    length = longest(*wall).upper_mm * share
    found = passage(length, wall)
    assert found.passes is (share < 1)
    if found.passes:
        solid = obstacles(wall)
        assert all(not solid.intersects(piece_at(p, length, diameter)) for p in poses_between(found.motion, 4))


@settings(max_examples=60, deadline=None)
@given(diameters, openings, thicknesses, corridors, st.floats(3, 60), st.floats(0, 90), st.floats(-60, 60), st.data())
def test_a_proven_gap_is_never_greater_than_the_true_one(diameter, opening, thickness, corridor, length, tilt, x, data):
    scene = WallScene(
        piece_length_mm=length,
        piece_diameter_mm=diameter,
        opening_length_mm=opening,
        wall_thickness_mm=thickness,
        corridor_mm=corridor,
    )
    start = Pose(x_mm=x / 10, y_mm=data.draw(st.floats(-40, corridor)), tilt_deg=tilt)
    end = Pose(
        x_mm=start.x_mm + data.draw(st.floats(-5, 5)),
        y_mm=start.y_mm + data.draw(st.floats(-5, 5)),
        tilt_deg=min(90.0, max(0.0, tilt + data.draw(st.floats(-20, 20)))),
    )
    proven = least_gap_between_mm(scene=scene, start=start, end=end)
    solid = obstacles((diameter, opening, thickness, corridor))
    for pose in poses_between((start, end), 12):
        assert proven <= solid.distance(piece_at(pose, length, diameter)) + 1e-9


@settings(max_examples=60, deadline=None)
@given(diameters, openings, corridors, st.floats(3, 60), st.floats(0, 90))
def test_the_roomiest_pose_is_as_far_from_the_far_side_as_told(diameter, opening, corridor, length, tilt):
    scene = WallScene(
        piece_length_mm=length,
        piece_diameter_mm=diameter,
        opening_length_mm=opening,
        wall_thickness_mm=2.0,
        corridor_mm=corridor,
    )
    found = find_roomiest_pose(scene=scene, tilt_deg=tilt)
    pose, room = found.pose, found.room_mm
    reach = length / 2 * sin(radians(tilt)) + diameter / 2 * cos(radians(tilt))
    assert corridor - pose.y_mm - reach == pytest.approx(room, abs=1e-6)
    if room > 1e-6:
        solid = obstacles((diameter, opening, 2.0, corridor))
        assert solid.distance(piece_at(pose, length, diameter)) >= room - 1e-6


@pytest.mark.parametrize(("length", "tilt"), [(60, 33), (64, 30), (40, 10)])
def test_no_step_aside_from_the_roomiest_pose_finds_more_room(length, tilt):
    diameter, opening, thickness, corridor = WALLS[0]
    scene = WallScene(
        piece_length_mm=length,
        piece_diameter_mm=diameter,
        opening_length_mm=opening,
        wall_thickness_mm=thickness,
        corridor_mm=corridor,
    )
    pose = find_roomiest_pose(scene=scene, tilt_deg=tilt).pose
    solid = obstacles(WALLS[0])
    room = solid.distance(piece_at(pose, length, diameter))
    for k in range(16):
        aside = replace(pose, x_mm=pose.x_mm + 0.02 * cos(k * pi / 8), y_mm=pose.y_mm + 0.02 * sin(k * pi / 8))
        assert solid.distance(piece_at(aside, length, diameter)) < room


@pytest.mark.parametrize(
    ("opening", "expected"),
    [
        (RoundOpening(diameter_mm=7, tolerance_mm=0.1), 7),
        (SlotOpening(length_mm=19, width_mm=7, tolerance_mm=0.1), 19),
        (OvalOpening(length_mm=12, width_mm=8, tolerance_mm=0.1), 12),
        (BoxOpening(length_mm=10, width_mm=8, corner_radius_mm=2, tolerance_mm=0.1), 10),
        (OutlineOpening(points_mm=((0, 0), (10, 0), (10, 6), (0, 6)), tolerance_mm=0.1), 10),
        (OutlineOpening(points_mm=((0, 0), (6, 0), (10, 6), (4, 6)), tolerance_mm=0.1), 6),  # leaning: not its bounds
        (OutlineOpening(points_mm=((0, 0), (8, 3), (0, 6), (-4, 3)), tolerance_mm=0.1), 12),
        (OutlineOpening(points_mm=((0, 0), (9, 0), (9, 5), (6, 5), (6, 1), (3, 1), (3, 5), (0, 5)), tolerance_mm=0), 9),
    ],
    ids=["round", "slot", "oval", "box", "rectangle", "leaning", "kite", "with a notch"],
)
def test_the_length_of_a_hole_along_its_tube(opening, expected):
    assert longest_way_across_mm(opening=opening) == pytest.approx(expected)
