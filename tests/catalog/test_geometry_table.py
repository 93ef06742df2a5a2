# ruff: noqa: E501  (a message is easier to compare in one piece)
"""A frame told by its geometry table and its cockpit: what is drawn from it, and what is refused with its line."""

import pytest

from planner.parts import GeometryError, MovesWith
from tests.catalog.samples import catalog_of, problems_in

FRAME = """format: 1
frames:
  - id: bench
    geometry: {layout: single_pivot, reach: 450, stack: 625, head_angle: 65, head_tube: 115, seat_angle: 76.5, seat_tube: 430,
               chainstay: 438, bb_drop: 30, fork: 540, offset: 44}
    cockpit: {width: 780, stem: 50}
    zones:
      - {id: down_tube, bore: 46, outer: 49.2}
      - {id: stay_left, bore: 18}
      - {id: seatstay_left, path: [[-92, 44, 330], [-418, 68, 34]], bore: 14, moves_with: rear}
    ports:
      - {id: neck, joins: [outside, down_tube], wall: 1.6, tilt: 45, on: {from_start: 35, side: left}}
      - {id: belly, joins: [down_tube, outside], wall: 1.6, on: {from_end: 35, side: left, lean: 85}}
      - {id: front, joins: [outside, stay_left], wall: 1.2, on: {end: start}}
      - {id: rear, joins: [stay_left, outside], wall: 1.2, on: {from_end: 55, side: top, lean: 65}}
    anchors:
      - {id: lever-left, is: lever, side: left}
      - {id: shifter-right, is: shifter, side: right}
      - {id: caliper, is: caliper, side: left}
      - {id: mech, is: derailleur, side: right}
    runs:
      - {id: cockpit, zone: outside, between: [lever-left, neck]}
      - {id: down, zone: down_tube, between: [neck, belly]}
      - {id: loop, zone: outside, between: [belly, front]}
      - {id: stay, zone: stay_left, between: [front, rear]}
      - {id: tail, zone: outside, between: [rear, caliper]}
    rear: {kind: single_pivot, travel: 130}
    brakes:
      rear: {mount: post}
"""


def told(text: str) -> list[str]:
    return [str(problem) for problem in problems_in(text)]


def test_tubes_are_drawn_and_named_ones_go_before_them() -> None:
    zones = catalog_of(FRAME).frames["bench"].zones
    assert zones["head_tube"].path_mm[0] == (450, 0, 625)
    assert (zones["head_tube"].bore_diameter_mm, zones["down_tube"].bore_diameter_mm) == (None, 46)
    assert zones["down_tube"].path_mm[0] == pytest.approx((490, 0, 539), abs=1)
    assert zones["seatstay_left"].path_mm == ((-92, 44, 330), (-418, 68, 34))
    assert zones["seatstay_right"].path_mm != ()


def test_the_cockpit_places_levers_and_the_axle_a_caliper() -> None:
    anchors = catalog_of(FRAME).frames["bench"].anchors
    assert anchors["lever-left"].position_mm == pytest.approx((512, 210, 698), abs=1)
    shifter = anchors["shifter-right"].position_mm
    assert shifter is not None
    assert shifter[1] == -190
    assert anchors["lever-left"].moves_with is MovesWith.BAR
    assert anchors["caliper"].position_mm == pytest.approx((-427, 76, 58), abs=1)
    assert anchors["mech"].position_mm is None


def test_a_drawn_frame_is_as_well_told_as_an_ordinary_one() -> None:
    """Drawn from a table, its levers and holes lie as far off as from a photograph; who measured better says so."""
    careful = FRAME.replace("    cockpit: {width", "    geometry_error: careful\n    cockpit: {width")
    assert catalog_of(FRAME).frames["bench"].geometry_error is GeometryError.ORDINARY
    assert catalog_of(careful).frames["bench"].geometry_error is GeometryError.CAREFUL


def test_the_bar_turns_about_the_head_tube_and_locks_as_usual() -> None:
    bar = catalog_of(FRAME).frames["bench"].bar
    assert bar is not None
    assert (bar.axis_point_mm, bar.lock_deg) == ((450, 0, 625), 75)
    assert bar.axis == pytest.approx((-0.4226, 0, 0.9063), abs=1e-4)
    told_lock = catalog_of(FRAME.replace("    rear: {kind", "    bar: {lock: 60}\n    rear: {kind")).frames["bench"].bar
    assert told_lock is not None
    assert (told_lock.axis_point_mm, told_lock.lock_deg) == ((450, 0, 625), 60)


def test_travel_becomes_swing_and_all_behind_the_pivot_rides() -> None:
    """Arm 450.2 from (-437, 30) to (12, 60): d = asin(30 / 450) = 3.8; swing = 3.8 + asin((130 - 30) / 450) = 16.7."""
    rear = catalog_of(FRAME).frames["bench"].rear
    assert rear is not None
    assert rear.swing_deg == pytest.approx(16.65, abs=0.05)
    assert rear.moves == ("front", "rear", "caliper", "mech")


def test_a_stay_that_is_told_to_stand_where_it_is_does_not_ride_by_itself() -> None:
    still = FRAME.replace(
        "{id: stay_left, bore: 18}", "{id: stay_left, bore: 18, path: [[-26, 42, 25], [-405, 66, 12]]}"
    )
    rear = catalog_of(still).frames["bench"].rear
    assert rear is not None
    assert rear.moves == ("caliper", "mech")


@pytest.mark.parametrize(
    ("layout", "drop_mm", "lock_deg"),
    [("hardtail", 60, 75), ("drop_bar", 70, 60), ("step_through", 60, 90), ("ebike", 25, 75)],
)
def test_what_is_usual_of_a_layout_stands_where_nothing_is_told(layout: str, drop_mm: float, lock_deg: float) -> None:
    text = FRAME.replace("single_pivot, reach", f"{layout}, reach").replace("bb_drop: 30, ", "")
    text = text.replace("{kind: single_pivot, travel: 130}", "{kind: single_pivot, pivot: [12, 60], swing: 17}")
    frame = catalog_of(text).frames["bench"]
    assert frame.table is not None
    assert frame.bar is not None
    assert (frame.table.bb_drop_mm, frame.bar.lock_deg) == (drop_mm, lock_deg)


def test_height_and_wheel_stand_for_the_drop() -> None:
    frame = catalog_of(FRAME.replace("bb_drop: 30", "bb_height: 340, wheel_radius: 372")).frames["bench"]
    assert frame.table is not None
    assert frame.table.bb_drop_mm == 32


WRONG = {
    "reach in centimetres": (
        "reach: 450", "reach: 45",
        "f.yaml:4: frame bench > geometry reach: 45 mm was given, 300 to 560 mm is allowed; if that was centimetres, it is 450 mm",
    ),
    "stack in inches": (
        "stack: 625", "stack: 24.6",
        "f.yaml:4: frame bench > geometry stack: 24.6 mm was given, 450 to 720 mm is allowed; if that was inches, it is 624.8 mm",
    ),
    "an unknown layout": (
        "layout: single_pivot", "layout: singlepivot",
        "f.yaml:4: frame bench > geometry layout: 'singlepivot' was given, one of hardtail, single_pivot, four_bar, drop_bar, step_through, ebike is allowed; did you mean single_pivot?",
    ),
    "half a seat tube": (
        ", seat_angle: 76.5", "",
        "f.yaml:4: frame bench > geometry seat_angle: nothing was given, seat_angle and seat_tube together, or neither",
    ),
    "half a fork": (
        ", offset: 44", "",
        "f.yaml:4: frame bench > geometry offset: nothing was given, fork and offset together, or neither",
    ),
    "two drops": (
        "bb_drop: 30", "bb_drop: 30, bb_height: 340, wheel_radius: 372",
        "f.yaml:5: frame bench > geometry bb_height: 340 mm was given beside bb_drop, one of the two",
    ),
    "a bottom bracket too low for its wheel": (
        "bb_drop: 30", "bb_height: 240, wheel_radius: 372",
        "f.yaml:5: frame bench > geometry bb_height: 240 mm was given, a drop of 132 mm with this wheel, a drop of -20 to 90 mm is allowed",
    ),
    "travel and swing": (
        "travel: 130", "travel: 130, swing: 17",
        "f.yaml:27: frame bench > rear swing: 17 degrees was given beside travel, one of swing and, beside `geometry`, travel",
    ),
    "travel out of reach": (
        "pivot, travel: 130", "pivot, travel: 300, pivot: [-250, 60]",
        "f.yaml:27: frame bench > rear travel: 300 mm was given, it must be in reach of an arm of 189 mm",
    ),
    "neither travel nor swing": (
        "single_pivot, travel: 130", "single_pivot",
        "f.yaml:27: frame bench > rear swing: nothing was given, one of swing and, beside `geometry`, travel",
    ),
}  # fmt: skip


@pytest.mark.parametrize("slip", WRONG.values(), ids=WRONG.keys())
def test_what_is_wrong_is_told_with_its_line(slip: tuple[str, str, str]) -> None:
    before, after, message = slip
    assert before in FRAME
    assert told(FRAME.replace(before, after, 1)) == [message]


DRAWN = FRAME.replace("      - {id: stay_left, bore: 18}\n", "")


def test_a_cavity_that_is_drawn_needs_no_entry_of_its_own() -> None:
    frame = catalog_of(
        DRAWN.replace("wall: 1.2, on: {from_end: 55, side: top", "wall: 1.2, on: {from_end: 55, off: 10, side: top")
    )
    assert frame.frames["bench"].zones["stay_left"].bore_diameter_mm is None


def test_a_table_that_is_wrong_hides_none_of_what_it_would_draw() -> None:
    assert len(told(DRAWN.replace("reach: 450", "reach: 45"))) == 1


def test_a_cavity_that_the_table_cannot_draw_is_not_there() -> None:
    text = FRAME.replace("seat_angle: 76.5, seat_tube: 430,", "").replace(
        "{end: start}", "{end: start}, at: [0, 0, 0], heading: [1, 0, 0]"
    )
    (wrong,) = told(
        text.replace("joins: [outside, stay_left]", "joins: [outside, top_tube]").replace(
            "between: [front, rear]", "between: [rear, front]"
        )
    )[:1]
    assert "there is no zone top_tube" in wrong


WITHOUT_TABLE = "\n".join(line for number, line in enumerate(FRAME.split("\n"), 1) if number not in (4, 5))


def test_what_is_drawn_on_a_table_wants_one() -> None:
    wrong = told(WITHOUT_TABLE.replace("    rear: {kind", "    bar: {lock: 60}\n    rear: {kind"))
    assert [message.partition("frame bench ")[2] for message in wrong] == [
        "> cockpit: a cockpit was given without geometry, geometry, which it is drawn on",
        "port neck > on zone: zone down_tube has no path, a path, or `geometry`",
        "port belly > on zone: zone down_tube has no path, a path, or `geometry`",
        "port front > on zone: zone stay_left has no path, a path, or `geometry`",
        "port rear > on zone: zone stay_left has no path, a path, or `geometry`",
        "> bar axis_point: nothing was given, axis_point and axis, or `geometry`, which draws them",
        "> rear pivot: nothing was given, [x, z] of the pivot, from the bottom bracket's middle",
    ]
