"""A frame drawn from its geometry table, against figures worked by hand."""

import csv
from dataclasses import replace
from math import dist, hypot
from pathlib import Path

import pytest

from catalog.frame_tables import CockpitEntry, GeometryEntry
from planner.errors import ImpossibleDimensionError
from planner.geometry.frame_table.cockpit import find_caliper_outlet, find_outlet
from planner.geometry.frame_table.frame_table import (
    TableGaps,
    find_table_gaps,
    find_tubes,
    front_axle_by_fork_mm,
    head_tube_bottom_mm,
    rear_axle_mm,
    steering_axis,
    swing_of_travel_deg,
)
from planner.parts import FrameTable, MountKind

TABLE = Path(__file__).parents[3] / "published_values" / "frame_tables.csv"
ROWS = list(csv.DictReader(TABLE.open(encoding="utf-8")))
COCKPITS = {
    "drop_bar": {"width": 420, "stem": 100, "stem_angle": -6, "spacers": 15, "bar_reach": 75},
    "step_through": {"width": 640, "stem": 60, "stem_angle": 20, "spacers": 40, "rise": 60, "lever": {"inboard": 90}},
}
USUAL = {"width": 780, "rise": 20, "stem": 50, "spacers": 20}


def entry_of(row: dict[str, str]) -> GeometryEntry:
    names = ("reach", "stack", "head_tube", "seat_tube", "chainstay", "bb_drop", "fork", "offset")
    figures = {name: float(row[f"{name}_mm"]) for name in names}
    angles = {name: float(row[f"{name}_deg"]) for name in ("head_angle", "seat_angle")}
    return GeometryEntry.model_validate({"layout": row["layout"], **figures, **angles})


def table_of(**changes: float) -> FrameTable:
    return replace(entry_of(ROWS[0]).part(), **changes)


@pytest.mark.parametrize("row", ROWS, ids=[row["case"] for row in ROWS])
def test_six_layouts(row: dict[str, str]) -> None:
    entry, near_mm = entry_of(row), float(row["tolerance_mm"])
    table = entry.part()
    cockpit = CockpitEntry.model_validate(COCKPITS.get(row["layout"], USUAL))
    front, rear, bottom = front_axle_by_fork_mm(table), rear_axle_mm(table), head_tube_bottom_mm(table)
    assert front is not None
    lever = find_outlet(
        table=table,
        cockpit=cockpit.part(entry.layout),
        outlet=cockpit.outlet(entry.layout, is_lever=True),
        is_left=True,
    )
    found = {
        "head_bottom_mm": (bottom[0], bottom[2]),
        "rear_axle_x_mm": (rear[0],),
        "front_axle_mm": (front[0], front[2]),
        "wheelbase_mm": (front[0] - rear[0],),
        "left_lever_mm": lever.position_mm,
    }
    for column, figures in found.items():
        expected = [float(number) for number in row[column].split()]
        assert list(figures) == pytest.approx(expected, abs=near_mm), column


@pytest.mark.parametrize("row", ROWS, ids=[row["case"] for row in ROWS])
def test_both_sides_mirror_each_other_and_tubes_meet_where_they_should(row: dict[str, str]) -> None:
    table = entry_of(row).part()
    tubes = find_tubes(table)
    for left, right in (("stay_left", "stay_right"), ("seatstay_left", "seatstay_right")):
        mirrored = tuple((x, -y, z) for x, y, z in tubes[right])
        assert tubes[left] == mirrored
    top, axis = steering_axis(table)
    assert tubes["head_tube"][0] == top
    assert dist(*tubes["head_tube"]) == pytest.approx(table.head_tube_mm)
    start, end = tubes["down_tube"]
    assert hypot(*end) == pytest.approx(table.down_tube_short_mm)
    assert start[0] / start[2] == pytest.approx(end[0] / end[2])
    assert hypot(*rear_axle_mm(table)) == pytest.approx(table.chainstay_mm)
    assert hypot(*axis) == pytest.approx(1)


def test_without_a_seat_tube_only_what_needs_none_is_drawn() -> None:
    assert set(find_tubes(table_of(seat_angle_deg=None))) == {"head_tube", "down_tube", "stay_left", "stay_right"}


def test_the_front_axle_hangs_on_fork_and_offset() -> None:
    assert front_axle_by_fork_mm(table_of(fork_mm=None)) is None
    assert front_axle_by_fork_mm(table_of(offset_mm=None)) is None


def test_a_table_that_tells_more_than_it_needs_shows_how_far_it_closes() -> None:
    """Fork 20 longer: the axle comes 20 sin 66.5 = 18.3 lower, and 20 cos 66.5 = 8.0 further forward."""
    assert find_table_gaps(table_of()) == TableGaps(height_mm=pytest.approx(-0.2, abs=0.1))
    longer = find_table_gaps(table_of(fork_mm=530.0, wheelbase_mm=1152.4, front_centre_mm=724.1))
    assert longer.height_mm == pytest.approx(-18.6, abs=0.2)
    assert longer.wheelbase_mm == pytest.approx(8.0, abs=0.2)
    assert longer.front_centre_mm == pytest.approx(hypot(729.6, 41.4) - 724.1, abs=0.3)
    assert find_table_gaps(table_of(fork_mm=None)) == TableGaps()


def test_wheelbase_and_front_centre_are_held_against_each_other_without_a_fork() -> None:
    """sqrt(724^2 - 60^2) + 430.8 = 1152.3."""
    gaps = find_table_gaps(table_of(fork_mm=None, wheelbase_mm=1132.0, front_centre_mm=724.0))
    assert gaps == TableGaps(wheelbase_mm=pytest.approx(20.3, abs=0.1))


@pytest.mark.parametrize("drop_mm", [435.0, -435.0, 500.0])
def test_a_bottom_bracket_further_away_than_the_chainstay_is_long_is_refused(drop_mm: float) -> None:
    with pytest.raises(ImpossibleDimensionError, match="bb_drop"):
        rear_axle_mm(table_of(bb_drop_mm=drop_mm))


def test_travel_becomes_swing() -> None:
    """444 sin a - 30 cos a + 30 = 131 at a = 16.98 degrees."""
    swing_deg = swing_of_travel_deg(axle_mm=(-430, 0, 30), pivot_mm=(14, 60), travel_mm=131)
    assert swing_deg == pytest.approx(16.98, abs=0.01)


@pytest.mark.parametrize("travel_mm", [500.0, 2000.0])
def test_travel_out_of_reach_is_refused(travel_mm: float) -> None:
    with pytest.raises(ImpossibleDimensionError, match="travel"):
        swing_of_travel_deg(axle_mm=(-430, 0, 30), pivot_mm=(14, 60), travel_mm=travel_mm)


@pytest.mark.parametrize(("mount", "place"), [(MountKind.POST, (-421, 76, 58)), (MountKind.FLAT, (-403, 70, 52))])
def test_a_caliper_lies_by_its_mount_on_either_side(mount: MountKind, place: tuple[float, float, float]) -> None:
    left, right = (find_caliper_outlet(axle_mm=(-431, 0, 30), mount=mount, is_left=side) for side in (True, False))
    assert left.position_mm == place
    assert right.position_mm == (place[0], -place[1], place[2])
    assert right.heading == (left.heading[0], -left.heading[1], left.heading[2])


@pytest.mark.parametrize(("far_z_mm", "goes_up"), [(20, False), (57, False), (59, True), (200, True)])
def test_a_line_that_comes_down_a_seat_stay_leaves_the_caliper_upwards(far_z_mm: float, goes_up: bool) -> None:
    """The outlet lies at z 30 + 28 = 58."""
    far_mm = (-370.0, 70.0, far_z_mm)
    pose = find_caliper_outlet(axle_mm=(-431, 0, 30), mount=MountKind.POST, is_left=True, far_mm=far_mm)
    assert (pose.heading[2] > 0) is goes_up
