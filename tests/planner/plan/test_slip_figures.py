"""What is told with a likely slip: the figure, its limit and what it was held against, each worked by hand."""

from dataclasses import replace
from math import sqrt
from typing import Any

import pytest

from planner.parts import Anchor, AnchorPart, AnchorServes, Frame, MovesWith, Point, Run, Zone
from planner.plan.slips.anchor_slips import is_for_the_hand
from planner.plan.slips.frame_slips import find_slips
from planner.plan.slips.likely import MEASURE_AGAIN, likely_heading, likely_length, likely_place
from planner.plan.slips.port_slips import off_tube_mm
from planner.rules import SlipRule
from planner.verdicts import Check, Outcome
from tests.builders import make_port
from tests.planner.plan.slip_samples import (
    asked,
    guide,
    limits,
    plain_frame,
    slips_of,
    with_anchor,
    with_port,
    with_run,
)

PLAIN = plain_frame()


def the(frame: Frame, rule: SlipRule, *, with_loops: bool = False) -> Check:
    (check,) = (check for check in slips_of(frame, with_loops=with_loops) if check.rule is rule)
    assert check.outcome is Outcome.UNKNOWN
    return check


def told(frame: Frame, rule: SlipRule) -> tuple[Any, ...]:
    """Figure, limit, what it is held against and the question."""
    check = the(frame, rule)
    figures = (None if value is None else round(value, 3) for value in (check.size_mm, check.available_mm))
    return (*figures, *check.with_ids, check.note)


def test_lengths_are_told_with_the_chord_or_the_most_they_could_be() -> None:
    assert told(with_run(PLAIN, "down", guide=guide(284.9)), SlipRule.SHORT_LENGTH) == (284.9, 300, "measure it again")
    assert told(with_run(PLAIN, "down", guide=guide(405.1)), SlipRule.LONG_LENGTH) == (405.1, 405, "measure it again")
    assert the(with_run(PLAIN, "down", guide=guide(31)), SlipRule.SHORT_LENGTH).run_id == "down"
    for length_mm in (285.0, 405.0):
        assert asked(with_run(PLAIN, "down", guide=guide(length_mm))) == set()


def test_a_hole_off_its_tube_is_told_with_the_tube_that_it_lies_furthest_from() -> None:
    """22 off the middle is on the wall of 20 + 2; 60 more is 60 off."""
    assert told(with_port(PLAIN, "neck-left", position_mm=(350, 82, 300)), SlipRule.OFF_TUBE) == (
        60,
        20,
        "down_tube",
        "y 8.2?",
    )
    tube = PLAIN.zones["down_tube"]
    assert off_tube_mm(tube, (350, 82, 300), wall_mm=2) == pytest.approx(60)
    assert off_tube_mm(tube, (350, 0, 300), wall_mm=2) == pytest.approx(-22)
    assert off_tube_mm(replace(tube, bore_diameter_mm=None), (0, 0, 0), wall_mm=2) is None
    assert off_tube_mm(replace(tube, path_mm=()), (0, 0, 0), wall_mm=2) is None
    both = make_port(
        "window", joins=("down_tube", "stay_left"), position_mm=(0, 25, 160), heading=(-1, 0, 0), wall_thickness_mm=2
    )
    frame = replace(PLAIN, ports={**PLAIN.ports, "window": both})
    down_mm, stay_mm = sqrt(25**2 + 140**2) - 22, sqrt(25**2 + 140**2) - 10
    assert stay_mm > down_mm
    assert told(frame, SlipRule.OFF_TUBE)[:3] == (round(stay_mm, 3), 30, "stay_left")


def test_a_side_is_told_with_how_far_beyond_the_middle_it_lies() -> None:
    assert told(with_port(PLAIN, "neck-left", position_mm=(350, -22, 300)), SlipRule.OTHER_SIDE) == (
        22,
        None,
        "left",
        "y 22?",
    )
    right = with_anchor(PLAIN, "caliper", label="Right caliper")
    assert told(right, SlipRule.OTHER_SIDE) == (60, None, "right", "y -60?")


def test_a_hole_told_twice_is_told_with_how_far_apart_and_turned() -> None:
    retold = {"neck-left": ((350.0, 22.0, 310.0), (-0.7, -0.7, 0.0))}
    assert asked(replace(PLAIN, retold=retold)) == set()
    turned = {"neck-left": ((350.0, 22.0, 310.0), (-1.0, 0.0, 0.0))}
    assert told(replace(PLAIN, retold=turned), SlipRule.TOLD_TWICE) == (
        10,
        None,
        "turned by 45°",
        "leave one out; the numbers count",
    )
    nowhere = with_port(PLAIN, "neck-left", position_mm=None, heading=None)
    assert asked(replace(nowhere, retold=turned)) == set()


def test_a_frame_in_other_units_is_told_with_its_greatest_distance() -> None:
    tube = Zone(id="tube", path_mm=((0, 0, 0), (300, 0, 400), (100, 0, 0)), bore_diameter_mm=40)
    alone = Frame(id="f", name="f", zones={"tube": tube}, ports={}, anchors={}, runs={})
    assert asked(alone) == set()
    for times, note in ((0.99, "millimetres"), (0.3, "centimetres"), (0.12, "centimetres"), (0.04, "inches")):
        path = tuple((x * times, y, z * times) for x, y, z in tube.path_mm)
        frame = replace(alone, zones={"tube": replace(tube, path_mm=path)})
        assert told(frame, SlipRule.FRAME_UNITS) == (500 * times, None, f"all of it in {note}?")


@pytest.mark.parametrize(
    ("far_mm", "unit"),
    [
        (150, "centimetres"),
        (150.1, "millimetres"),
        (60, "centimetres"),
        (59.9, "inches"),
        (20, "inches"),
        (19.9, "millimetres"),
        (2000, "millimetres"),
    ],
)
def test_the_unit_that_was_likely_meant_goes_by_the_shops_limits(far_mm: float, unit: str) -> None:
    tube = Zone(id="tube", path_mm=((0, 0, 0), (far_mm, 0, 0)), bore_diameter_mm=None)
    alone = Frame(id="f", name="f", zones={"tube": tube}, ports={}, anchors={}, runs={})
    assert the(alone, SlipRule.FRAME_UNITS).note == f"all of it in {unit}?"


def test_a_steering_axis_is_told_with_its_distance_and_lean() -> None:
    assert PLAIN.bar is not None
    aside = replace(PLAIN, bar=replace(PLAIN.bar, axis_point_mm=(340, 30, 580)))
    assert told(aside, SlipRule.STEERING_AXIS) == (
        round(sqrt(60**2 + 30**2), 3),
        None,
        "leaning 0° to it",
        "measure it again",
    )
    leaning = replace(PLAIN, bar=replace(PLAIN.bar, axis=(0.0, 1.0, 1.0)))
    assert told(leaning, SlipRule.STEERING_AXIS) == (0, None, "leaning 45° to it", "measure it again")


@pytest.mark.parametrize(
    ("place", "why"),
    [
        ((450, 50, 600), "50 mm from the middle"),
        ((450, -500, 600), "500 mm from the middle"),
        ((750, 300, 600), "461 mm from the steering axis' point"),
        ((450, 200, 500), "100 mm below the steering axis' point"),
    ],
)
def test_a_lever_is_told_with_what_is_unlikely_of_its_place(place: Point, why: str) -> None:
    frame = with_anchor(PLAIN, "lever-left", position_mm=place, part=AnchorPart.LEVER, id="lever")
    check = the(frame, SlipRule.LEVER_PLACE)
    assert check.with_ids == (why,)
    assert check.port_id == "lever"


def test_without_a_bar_only_the_distance_from_the_middle_counts_for_a_lever() -> None:
    low = with_anchor(PLAIN, "lever-left", position_mm=(750, 300, 100), part=AnchorPart.LEVER)
    assert SlipRule.LEVER_PLACE in asked(low)
    assert SlipRule.LEVER_PLACE not in asked(replace(low, bar=None))


@pytest.mark.parametrize(
    ("place", "is_one"),
    [  # a quarter of 600 ahead of the axis at 400, half of 600 up
        ((549.0, 60.0, 100.0), True),
        ((551.0, 60.0, 100.0), False),
        ((551.0, 60.0, 300.0), True),
        ((551.0, 60.0, 299.0), False),
    ],
)
def test_what_rides_on_the_bar_is_for_the_hand_unless_it_is_ahead_of_and_below_it(place: Point, is_one: bool) -> None:
    end = Anchor(id="end", position_mm=place, heading=(0.0, 0.0, -1.0), moves_with=MovesWith.BAR)
    assert is_for_the_hand(end, PLAIN) is is_one
    assert not is_for_the_hand(end, replace(PLAIN, bar=None))
    assert not is_for_the_hand(replace(end, moves_with=None), PLAIN)
    assert not is_for_the_hand(replace(end, position_mm=None), PLAIN)
    for part in AnchorPart:
        told_so = part in (AnchorPart.LEVER, AnchorPart.SHIFTER)
        assert is_for_the_hand(replace(end, part=part), PLAIN) is told_so
        assert is_for_the_hand(replace(end, part=part, moves_with=None), PLAIN) is told_so


def test_a_caliper_is_told_with_the_nearest_end_of_a_stay() -> None:
    far = with_anchor(PLAIN, "caliper", position_mm=(-540, 50, 20))
    assert told(far, SlipRule.CALIPER_PLACE) == (140, 130, "measure it again")
    at = with_anchor(PLAIN, "caliper", position_mm=(-530, 50, 20))
    assert SlipRule.CALIPER_PLACE not in asked(at)


@pytest.mark.parametrize(
    ("changes", "is_asked"),
    [
        ({}, True),
        ({"serves": AnchorServes.BRAKE}, True),
        ({"serves": AnchorServes.GEARS}, True),
        ({"serves": AnchorServes.DROPPER}, False),
        ({"part": AnchorPart.CALIPER}, True),
        ({"part": AnchorPart.DERAILLEUR, "serves": AnchorServes.DROPPER}, True),
        ({"part": AnchorPart.LEVER}, False),
        ({"moves_with": MovesWith.BAR, "position_mm": (-900, 60, 60)}, False),
        ({"heading": None}, False),
        ({"position_mm": None, "heading": None}, False),
    ],
)
def test_only_what_sits_at_the_rear_wheel_is_looked_for_at_the_stays(changes: dict[str, Any], is_asked: bool) -> None:
    far = with_anchor(PLAIN, "caliper", position_mm=(-540, 50, 20))
    assert (SlipRule.CALIPER_PLACE in asked(with_anchor(far, "caliper", **changes))) is is_asked


@pytest.mark.parametrize(
    ("rear_mm", "front_mm", "is_asked"),
    [
        (-400.0, 400.0, True),
        (-201.0, 400.0, True),  # more than half as far back as forward
        (-200.0, 400.0, False),
        (-199.0, 400.0, False),  # no stays are told: a frame's front alone
    ],
)
def test_without_stays_nobody_asks_where_a_caliper_sits(rear_mm: float, front_mm: float, is_asked: bool) -> None:
    zones = {
        "down_tube": Zone(id="down_tube", path_mm=((front_mm, 0, 300), (0, 0, 300)), bore_diameter_mm=40),
        "stay": Zone(id="stay", path_mm=((0, 50, 20), (rear_mm, 50, 20)), bore_diameter_mm=16),
    }
    anchor = Anchor(id="caliper", position_mm=(-700.0, 60.0, 60.0), heading=(1.0, 0.0, 0.0))
    frame = Frame(id="f", name="f", zones=zones, ports={}, anchors={"caliper": anchor}, runs={})
    assert (SlipRule.CALIPER_PLACE in asked(frame)) is is_asked


def test_of_the_stays_ends_only_those_far_back_count() -> None:
    """The stay's front end, and a short one's rear, lie less than half as far back as -400."""
    short = Zone(id="bridge", path_mm=((-100, 0, 20), (-190, 0, 20)), bore_diameter_mm=16)
    frame = replace(PLAIN, zones={**PLAIN.zones, "bridge": short})
    near_bridge = with_anchor(frame, "caliper", position_mm=(-200, 0, 20))
    assert told(near_bridge, SlipRule.CALIPER_PLACE)[0] == round(sqrt(200**2 + 50**2), 3)


@pytest.mark.parametrize(
    ("length_mm", "is_drawn", "is_asked"), [(None, True, True), (None, False, False), (240.0, True, False)]
)
def test_a_drawn_caliper_is_asked_about_until_every_run_from_it_has_a_length(
    length_mm: float | None, is_drawn: bool, is_asked: bool
) -> None:
    frame = with_anchor(with_run(PLAIN, "tail", length_mm=length_mm), "caliper", is_drawn=is_drawn)
    assert (SlipRule.DRAWN_CALIPER in asked(frame)) is is_asked
    if is_asked:
        assert told(frame, SlipRule.DRAWN_CALIPER) == (None, 40, "measure the last stretch along the line")


@pytest.mark.parametrize("forward", [True, False])
def test_a_heading_is_held_against_the_first_point_that_the_line_is_led_past(forward: bool) -> None:
    """From the lever at (450, 200, 600) the neck lies below; led past a point ahead, the line may well point ahead."""
    ahead, low = (600.0, 200.0, 600.0), (350.0, 100.0, 400.0)
    points = (ahead, low) if forward else (low, ahead)
    between = ("lever-left", "neck-left") if forward else ("neck-left", "lever-left")
    frame = with_anchor(PLAIN, "lever-left", heading=(0.8, 0.0, 0.6))
    assert SlipRule.ANCHOR_BACKWARDS in asked(frame)
    assert the(frame, SlipRule.ANCHOR_BACKWARDS).with_ids == ("neck-left",)
    for via, clips in ((points, ()), ((), points), (points[:1], points[1:])):
        led = with_run(frame, "cockpit", between=between, via_mm=via, clips_mm=clips)
        assert SlipRule.ANCHOR_BACKWARDS not in asked(led)
        back = with_anchor(led, "lever-left", heading=(-0.8, 0.0, -0.6))
        assert SlipRule.ANCHOR_BACKWARDS in asked(back)
    at_once = with_run(frame, "cockpit", via_mm=((450.0, 200.0, 600.0),))
    assert SlipRule.ANCHOR_BACKWARDS not in asked(at_once)  # a point where it starts says nothing


def test_a_loop_is_told_with_its_length_chord_and_posture() -> None:
    """From (-350, 50, 30) on by 14.2 and up by 17.3 with both ends pointing the same way."""
    frame = with_anchor(PLAIN, "caliper", position_mm=(-364.2, 50, 47.3), heading=(0.9, 0, -0.4))
    check = the(frame, SlipRule.LOOPS, with_loops=True)
    assert check.available_mm == pytest.approx(sqrt(14.2**2 + 17.3**2))
    assert check.size_mm is not None
    assert check.size_mm > check.available_mm + 100
    assert (check.run_id, check.with_ids) == ("tail", ("at rest",))


@pytest.mark.parametrize(
    ("changes", "is_asked"),
    [
        ({}, True),
        ({"loop_extra_mm": 400.0}, True),  # its turn alone is enough
        ({"loop_turn_deg": 800.0}, True),  # and so is what it is longer than its chord of 22
        ({"loop_turn_deg": 800.0, "loop_extra_mm": 400.0}, False),
        ({"loop_turn_deg": 800.0, "loop_chord_ratio": 0.5}, False),  # unless its ends are far apart for its bend
    ],
)
def test_what_counts_as_a_loop_are_the_shops_limits(changes: dict[str, float], is_asked: bool) -> None:
    frame = with_anchor(PLAIN, "caliper", position_mm=(-364.2, 50, 47.3), heading=(0.9, 0, -0.4))
    found = find_slips(frame=frame, limits=replace(limits(), **changes), with_loops=True)  # type: ignore[arg-type]
    assert (SlipRule.LOOPS in {check.rule for check in found}) is is_asked


def test_a_leg_that_is_led_past_points_or_has_no_length_at_all_is_not_looked_at() -> None:
    frame = with_anchor(PLAIN, "caliper", position_mm=(-364.2, 50, 47.3), heading=(0.9, 0, -0.4))
    led = with_run(frame, "tail", via_mm=((-500.0, 50.0, 30.0),))
    assert SlipRule.LOOPS not in asked(led, with_loops=True)
    same = with_anchor(PLAIN, "caliper", position_mm=PLAIN.ports["stay-rear"].position_mm, heading=(1, 0, 0))
    assert SlipRule.LOOPS not in asked(same, with_loops=True)
    bare = Frame(
        id="f", name="f", zones={}, ports={}, anchors={}, runs={"r": Run(id="r", zone_id="z", between=("a", "b"))}
    )
    assert asked(replace(bare, runs={}), with_loops=True) == set()


@pytest.mark.parametrize(
    ("length_mm", "meant"),
    [
        (61.5, "615?"),
        (6150, "615?"),
        (27.0, "685.8?"),
        (15240, "600?"),
        (900, MEASURE_AGAIN),
        (56, "560?"),
        (80, "800?"),
    ],
)
def test_a_length_that_was_told_in_another_unit(length_mm: float, meant: str) -> None:
    assert likely_length(length_mm, least_mm=560, most_mm=800) == meant


def test_a_place_is_changed_in_one_thing_only_the_likeliest_first() -> None:
    assert likely_place((10.0, 20.0, 30.0), lambda at: at == (254.0, 508.0, 762.0)) == "all of it in inches?"
    assert likely_place((10.0, 20.0, 30.0), lambda at: at[0] == -10) == "x -10?"
    assert likely_place((10.0, 20.0, 30.0), lambda at: at == (30.0, 20.0, 10.0)) == "x and z changed about?"
    assert likely_place((10.0, 20.0, 30.0), lambda at: at == (20.0, 10.0, 30.0)) == "x and y changed about?"
    assert likely_place((10.0, 20.0, 30.0), lambda at: at == (10.0, 20.0, 3.0)) == "z 3?"
    assert likely_place((10.0, 20.0, 30.0), lambda at: at == (10.0, 508.0, 30.0)) == "y 508?"
    assert likely_place((10.0, 20.0, 30.0), lambda _: False) == MEASURE_AGAIN
    assert likely_place((10.0, 20.0, 30.0), lambda _: True) == "all of it in centimetres?"


@pytest.mark.parametrize(
    ("heading", "meant"),
    [
        ((0.0, -1.0, 0.0), ""),
        ((-0.96, 0.28, 0.0), ""),
        ((-0.8, 0.6, 0.0), "y of its heading -0.6?"),
        ((-0.67, 0.74, 0.0), "y of its heading -0.74?"),
        ((-0.6, 0.8, 0.0), "its heading the other way, or so?"),
    ],
)
def test_a_heading_that_goes_against_its_way(heading: Point, meant: str) -> None:
    """Likely up to a cosine of -0.3; told from the other end beyond -0.75."""
    assert likely_heading(heading, way=(0.0, -1.0, 0.0), least_ratio=-0.3, also=", or so") == meant
