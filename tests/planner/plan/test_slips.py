"""What is asked about as a likely slip: at, below and beyond each limit, and with what was likely meant."""

from dataclasses import replace
from math import cos, radians, sin

import pytest

from planner import sentence_for
from planner.parts import AnchorPart, AnchorServes, Frame, MovesWith, Point, SinglePivot, Zone
from planner.plan.slips.frame_slips import find_slips
from planner.rules import SlipRule
from planner.verdicts import Outcome
from tests.builders import make_port
from tests.planner.geometry.frame_table.test_frame_table import table_of
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
WINDOW = make_port(
    "window", joins=("down_tube", "stay_left"), position_mm=(0.0, 0.0, 290.0), heading=(-1, 0, 0), wall_thickness_mm=2
)


def note_of(frame: Frame, rule: SlipRule) -> str:
    (check,) = (check for check in slips_of(frame, with_loops=True) if check.rule is rule)
    assert check.outcome is Outcome.UNKNOWN
    assert sentence_for(check)
    return check.note


def test_nothing_is_asked_about_a_likely_frame() -> None:
    assert slips_of(PLAIN, with_loops=True) == []


def test_a_shop_without_limits_asks_nothing() -> None:
    wrong = with_port(PLAIN, "neck-left", position_mm=(350, 300, 300))
    assert find_slips(frame=wrong, limits=None, with_loops=True) == ()


@pytest.mark.parametrize(("off_mm", "is_asked"), [(19.9, False), (20.1, True)])
def test_a_hole_off_its_tube(off_mm: float, is_asked: bool) -> None:
    moved = with_port(PLAIN, "neck-left", position_mm=(350, 22 + off_mm, 300))
    assert (SlipRule.OFF_TUBE in asked(moved)) is is_asked


@pytest.mark.parametrize(("off_mm", "is_asked"), [(29.9, False), (30.1, True)])
def test_a_window_may_lie_further_off(off_mm: float, is_asked: bool) -> None:
    """On the down tube's end, off the stay's wall: the stay is led past it at that distance."""
    stay = Zone(id="stay_left", path_mm=((0, 0, 290 - 10 - off_mm), (-400, 50, 20)), bore_diameter_mm=16)
    frame = replace(PLAIN, zones={**PLAIN.zones, "stay_left": stay}, ports={**PLAIN.ports, "window": WINDOW})
    questions = [check for check in slips_of(frame) if check.rule is SlipRule.OFF_TUBE and check.port_id == "window"]
    assert bool(questions) is is_asked


@pytest.mark.parametrize(
    ("place", "meant"),
    [
        ((35.0, 2.2, 30.0), "all of it in centimetres?"),
        ((350.0, 22.0, 30.0), "z 300?"),
        ((350.0, 300.0, 22.0), "y and z changed about?"),
        ((-350.0, 22.0, 300.0), "x 350?"),
        ((350.0, 220.0, 300.0), "y 22?"),
        ((350.0, 22.0, 520.0), "measure it again"),
    ],
)
def test_what_was_likely_meant_by_a_place(place: Point, meant: str) -> None:
    assert note_of(with_port(PLAIN, "neck-left", position_mm=place), SlipRule.OFF_TUBE) == meant


@pytest.mark.parametrize(("y_mm", "is_asked"), [(-3.0, False), (-3.1, True), (4.0, False)])
def test_what_is_called_left_lies_left(y_mm: float, is_asked: bool) -> None:
    moved = with_port(PLAIN, "neck-left", position_mm=(350, y_mm, 322))
    assert (SlipRule.OTHER_SIDE in asked(moved)) is is_asked


def test_anchors_and_cavities_have_sides_too() -> None:
    anchor = with_anchor(PLAIN, "lever-left", position_mm=(450, -200, 600))
    stay = replace(PLAIN.zones["stay_left"], path_mm=((0, -50, 20), (-400, -50, 20)))
    assert note_of(anchor, SlipRule.OTHER_SIDE) == "y 200?"
    assert note_of(replace(PLAIN, zones={**PLAIN.zones, "stay_left": stay}), SlipRule.OTHER_SIDE) == "y 50?"


@pytest.mark.parametrize("label", ["from left to right", "leftover hole"])
def test_a_name_with_both_sides_or_in_a_longer_word_says_nothing(label: str) -> None:
    belly = replace(PLAIN.ports["belly-left"], id="belly", label=label, position_mm=(50, -22, 300), heading=(-1, -1, 0))
    alone = replace(PLAIN, ports={"belly": belly}, runs={})
    assert SlipRule.OTHER_SIDE not in asked(alone)


@pytest.mark.parametrize(("sine", "is_asked"), [(0.29, False), (0.31, True)])
@pytest.mark.parametrize(("id_", "sign"), [("neck-left", 1), ("belly-left", -1)])
def test_a_line_that_points_out_where_it_goes_in(id_: str, sign: int, sine: float, is_asked: bool) -> None:
    turned = with_port(PLAIN, id_, heading=(-((1 - sine**2) ** 0.5), sign * sine, 0))
    assert (SlipRule.POINTS_OUT in asked(turned)) is is_asked
    if is_asked:
        assert note_of(turned, SlipRule.POINTS_OUT) == f"y of its heading {-sign * sine:.3g}?"


@pytest.mark.parametrize(("off_mm", "is_asked"), [(13.1, False), (13.3, True)])
def test_a_hole_near_the_middle_line_has_no_side(off_mm: float, is_asked: bool) -> None:
    """0.6 times the radius of 22 is 13.2; on a thin tube 8 mm count."""
    turned = with_port(PLAIN, "neck-left", position_mm=(350, off_mm, 300), heading=(-0.7, 0.7, 0))
    assert (SlipRule.POINTS_OUT in asked(turned)) is is_asked


@pytest.mark.parametrize(("off_mm", "is_asked"), [(7.9, False), (8.1, True)])
def test_on_a_thin_tube_eight_millimetres_have_a_side(off_mm: float, is_asked: bool) -> None:
    turned = with_port(PLAIN, "stay-rear", position_mm=(-350, 50, 20 + off_mm), heading=(-0.7, 0, -0.7))
    assert (SlipRule.POINTS_OUT in asked(turned)) is is_asked


@pytest.mark.parametrize(("sine", "is_asked"), [(0.19, False), (0.21, True)])
def test_a_line_that_points_away_from_where_it_goes(sine: float, is_asked: bool) -> None:
    turned = with_port(PLAIN, "neck-left", heading=(sine, -((1 - sine**2) ** 0.5), 0))
    assert (SlipRule.BACKWARDS in asked(turned)) is is_asked


def test_joins_told_the_wrong_way_round() -> None:
    turned = with_port(PLAIN, "neck-left", joins=("down_tube", "outside"))
    assert asked(turned) == {SlipRule.POINTS_OUT, SlipRule.BACKWARDS}
    assert note_of(turned, SlipRule.BACKWARDS) == "x of its heading 0.7?"
    assert note_of(with_port(PLAIN, "neck-left", heading=(1, 0.2, 0)), SlipRule.BACKWARDS) == (
        "its heading the other way, or its `joins`?"
    )


@pytest.mark.parametrize(("sine", "is_asked"), [(0.29, False), (0.31, True)])
def test_a_caliper_whose_line_points_away(sine: float, is_asked: bool) -> None:
    """From (-420, 60, 60) to (-350, 50, 30): the way is (70, -10, -30) / 76.8."""
    way, across = (70 / 76.811, -10 / 76.811, -30 / 76.811), (10 / 70.711, 70 / 70.711, 0.0)
    share = (1 - sine**2) ** 0.5
    heading = tuple(-sine * a + share * b for a, b in zip(way, across, strict=True))
    turned = with_anchor(PLAIN, "caliper", heading=heading)
    assert (SlipRule.ANCHOR_BACKWARDS in asked(turned)) is is_asked


@pytest.mark.parametrize(
    ("place", "is_asked"),
    [
        ((450, 61, 600), False),
        ((450, 59, 600), True),
        ((450, 429, 600), False),
        ((450, 431, 600), True),
        ((400 + 402.9, 200, 600), False),
        ((400 + 403.3, 200, 600), True),
        ((450, 200, 521), False),
        ((450, 200, 519), True),
    ],
)
def test_where_a_lever_can_sit(place: Point, is_asked: bool) -> None:
    assert (SlipRule.LEVER_PLACE in asked(with_anchor(PLAIN, "lever-left", position_mm=place))) is is_asked


def test_a_lever_in_centimetres() -> None:
    assert note_of(with_anchor(PLAIN, "lever-left", position_mm=(45, 20, 60)), SlipRule.LEVER_PLACE) == (
        "all of it in centimetres?"
    )


def test_a_front_caliper_rides_on_the_bar_and_is_no_lever() -> None:
    assert SlipRule.LEVER_PLACE not in asked(with_anchor(PLAIN, "lever-left", position_mm=(740, 70, 80)))
    told = with_anchor(PLAIN, "lever-left", position_mm=(740, 70, 80), part=AnchorPart.LEVER)
    assert SlipRule.LEVER_PLACE in asked(told)


@pytest.mark.parametrize(("x_mm", "is_asked"), [(-523, False), (-524, True)])
def test_what_sits_at_the_rear_is_near_a_stays_end(x_mm: float, is_asked: bool) -> None:
    """123.4^2 + 10^2 + 40^2 = 130^2 from (-400, 50, 20)."""
    assert (SlipRule.CALIPER_PLACE in asked(with_anchor(PLAIN, "caliper", position_mm=(x_mm, 60, 60)))) is is_asked


@pytest.mark.parametrize("serves", [AnchorServes.DROPPER, AnchorServes.ELECTRICS])
def test_a_post_or_a_battery_sits_elsewhere(serves: AnchorServes) -> None:
    post = with_anchor(PLAIN, "caliper", position_mm=(-70, 0, 270), serves=serves)
    assert SlipRule.CALIPER_PLACE not in asked(post)


@pytest.mark.parametrize(
    ("length_mm", "rule"),
    [(284.9, SlipRule.SHORT_LENGTH), (285.1, None), (404.9, None), (405.1, SlipRule.LONG_LENGTH)],
)
def test_a_guide_against_its_chord(length_mm: float, rule: SlipRule | None) -> None:
    """The chord is 300: from 285 on, and up to 1.25 x 300 + 30 = 405, nothing is asked."""
    assert asked(with_run(PLAIN, "down", guide=guide(length_mm))) == ({rule} if rule else set())


@pytest.mark.parametrize(
    ("length_mm", "meant"), [(31, "310?"), (3100, "310?"), (12, "304.8?"), (150, "measure it again")]
)
def test_what_was_likely_meant_by_a_length(length_mm: float, meant: str) -> None:
    frame = with_run(PLAIN, "down", guide=guide(length_mm))
    rule = SlipRule.SHORT_LENGTH if length_mm < 300 else SlipRule.LONG_LENGTH
    assert note_of(frame, rule) == meant


def test_an_open_run_may_hang_in_a_bow_but_is_not_shorter_than_straight() -> None:
    assert asked(with_run(PLAIN, "cockpit", length_mm=900)) == set()
    assert asked(with_run(PLAIN, "cockpit", length_mm=300)) == {SlipRule.SHORT_LENGTH}


@pytest.mark.parametrize(("aside_mm", "is_asked"), [(29.9, False), (30.1, True)])
def test_a_steering_axis_beside_the_head_tube(aside_mm: float, is_asked: bool) -> None:
    assert PLAIN.bar is not None
    moved = replace(PLAIN, bar=replace(PLAIN.bar, axis_point_mm=(400 + aside_mm, 0, 600)))
    assert (SlipRule.STEERING_AXIS in asked(moved)) is is_asked


@pytest.mark.parametrize(("lean_deg", "is_asked"), [(7.9, False), (8.1, True), (-8.1, True)])
@pytest.mark.parametrize("sign", [1, -1])
def test_a_steering_axis_that_leans_against_the_head_tube(lean_deg: float, is_asked: bool, sign: int) -> None:
    assert PLAIN.bar is not None
    axis = (sign * sin(radians(lean_deg)), 0.0, sign * cos(radians(lean_deg)))
    assert (SlipRule.STEERING_AXIS in asked(replace(PLAIN, bar=replace(PLAIN.bar, axis=axis)))) is is_asked


def test_a_steering_axis_told_behind_the_bottom_bracket() -> None:
    assert PLAIN.bar is not None
    mirrored = replace(PLAIN, bar=replace(PLAIN.bar, axis_point_mm=(-400, 0, 600)))
    assert note_of(mirrored, SlipRule.STEERING_AXIS) == "x 400?"


def test_a_hole_that_does_not_ride_with_its_tube() -> None:
    rear = SinglePivot(pivot_mm=(10, 60), swing_deg=15, moves=("stay-rear",))
    front = make_port("stay-front", joins=("outside", "stay_left"), position_mm=(0, 50, 20), wall_thickness_mm=2)
    frame = replace(PLAIN, rear=rear, ports={**PLAIN.ports, "stay-front": front})
    (check,) = slips_of(frame)
    assert (check.rule, check.port_id) == (SlipRule.STANDS_STILL, "stay-front")
    assert asked(with_port(frame, "stay-front", moves_with=MovesWith.REAR)) == set()


@pytest.mark.parametrize(
    ("times", "meant"),
    [(0.1, "all of it in centimetres?"), (1 / 25.4, "all of it in inches?"), (4.0, "all of it in millimetres?")],
)
def test_a_whole_frame_in_another_unit(times: float, meant: str) -> None:
    assert note_of(scaled(PLAIN, times), SlipRule.FRAME_UNITS) == meant


@pytest.mark.parametrize(("far_mm", "is_asked"), [(499, True), (501, False), (1599, False), (1601, True)])
def test_how_far_a_frames_points_are_apart(far_mm: float, is_asked: bool) -> None:
    tube = Zone(id="tube", path_mm=((0, 0, 0), (far_mm, 0, 0)), bore_diameter_mm=40)
    alone = Frame(id="f", name="f", zones={"tube": tube}, ports={}, anchors={}, runs={})
    assert (SlipRule.FRAME_UNITS in asked(alone)) is is_asked


def scaled(frame: Frame, times: float) -> Frame:
    def point(place: Point | None) -> Point | None:
        return None if place is None else (place[0] * times, place[1] * times, place[2] * times)

    return replace(
        frame,
        zones={
            key: replace(zone, path_mm=tuple(point(place) for place in zone.path_mm))
            for key, zone in frame.zones.items()
        },
        ports={key: replace(port, position_mm=point(port.position_mm)) for key, port in frame.ports.items()},
        anchors={key: replace(end, position_mm=point(end.position_mm)) for key, end in frame.anchors.items()},
    )


def test_a_leg_that_loops() -> None:
    """Ends 20 apart and 10 aside, both pointing the same way: no bend of 37.5 joins them without a loop."""
    frame = with_anchor(PLAIN, "caliper", position_mm=(-364.2, 50, 47.3), heading=(0.9, 0, -0.4))
    assert SlipRule.LOOPS in asked(frame, with_loops=True)
    assert SlipRule.LOOPS not in asked(frame)


@pytest.mark.parametrize(("apart_mm", "is_asked"), [(14.9, False), (15.1, True)])
def test_a_hole_told_twice(apart_mm: float, is_asked: bool) -> None:
    place, heading = (350.0, 22.0, 300.0), (-0.7, -0.7, 0.0)
    frame = replace(PLAIN, retold={"neck-left": ((350.0, 22.0, 300.0 + apart_mm), heading)})
    assert (SlipRule.TOLD_TWICE in asked(frame)) is is_asked
    turned = replace(PLAIN, retold={"neck-left": (place, (-1.0, -0.35, 0.0))})
    assert asked(turned) == {SlipRule.TOLD_TWICE}


@pytest.mark.parametrize(("fork_mm", "is_asked"), [(525, False), (528, True)])
def test_a_table_that_does_not_close(fork_mm: float, is_asked: bool) -> None:
    """Each mm of fork lowers the axle by sin 66.5 = 0.917; 0.2 too low to begin with."""
    assert (SlipRule.TABLE_OPEN in asked(replace(PLAIN, table=table_of(fork_mm=fork_mm)))) is is_asked


def test_what_has_no_place_is_not_asked_about() -> None:
    places = {key: replace(port, position_mm=None, heading=None) for key, port in PLAIN.ports.items()}
    ends = {key: replace(end, position_mm=None, heading=None) for key, end in PLAIN.anchors.items()}
    zones = {key: replace(zone, path_mm=()) for key, zone in PLAIN.zones.items()}
    bare = replace(PLAIN, ports=places, anchors=ends, zones=zones, bar=None)
    assert slips_of(bare, with_loops=True) == []


def test_limits_are_the_shops() -> None:
    far = with_port(PLAIN, "neck-left", position_mm=(350, 60, 300))
    wide = replace(limits(), off_tube_mm=100.0)
    assert {check.rule for check in find_slips(frame=far, limits=wide, with_loops=False)} == set()
