"""What is said at the bench, read: each form, beside it, and what is refused with what would be allowed."""

from typing import Any

import pytest

from catalog import HoleKind, without_notes
from planner.parts import OUTSIDE
from ui.shared.dialogue.questions import AnswerRefused
from ui.shared.dialogue.said_parts import read_guide, read_mount, read_rubber, read_travel
from ui.shared.dialogue.said_places import read_place
from ui.shared.dialogue.said_sizes import opening_fields, read_hole_size, read_size, size_words


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("slot 18x7", {"shape": "slot", "length": 18, "width": 7}),
        ("slot 18,5 × 7", {"shape": "slot", "length": 18.5, "width": 7}),
        ("round 6.4", {"shape": "round", "diameter": 6.4}),
        ("7 round", {"shape": "round", "diameter": 7}),
        ("8x7 slot", {"shape": "slot", "length": 8, "width": 7}),
        ("6,4", {"shape": "round", "diameter": 6.4}),
        ("round 6.4 mm", {"shape": "round", "diameter": 6.4}),
        ("6.5..7", {"shape": "round", "diameter": "6.5..7"}),
        ("6,5..7", {"shape": "round", "diameter": "6.5..7"}),
        ("round 6.4 ±0.05", {"shape": "round", "diameter": 6.4, "tolerance": 0.05}),
        ("slot 18x6.8..7.2", {"shape": "slot", "length": 18, "width": "6.8..7.2"}),
        ("oval 12x7", {"shape": "oval", "length": 12, "width": 7}),
        ("box 12x7 r1", {"shape": "box", "length": 12, "width": 7, "corner_radius": 1}),
        ("outline 0,0 8,0 8,6", {"shape": "outline", "points": [[0, 0], [8, 0], [8, 6]]}),
        ("goes 6.4", {"at_least": 6.4}),
        ("at least 6,4", {"at_least": 6.4}),
    ],
)
def test_a_hole_as_it_is_said(said: str, told: dict[str, Any]) -> None:
    assert read_hole_size(said) == told
    assert read_hole_size(size_words(told)) == told, "what is told can be said again"


@pytest.mark.parametrize(
    ("said", "why"),
    [
        ("square 7", "“square” is not a shape"),
        ("8x7", "is it a slot, an oval or a box. Say “slot 8x7”"),
        ("slot 18", "slot is told by length along the tube and width"),
        ("round 18x7", "round is told by diameter"),
        ("round wide", "“wide” is not a number"),
        ("round 0.25", "0.25 is not within 1 to 100 mm"),
        ("round 100.1", "100.1 is not within 1 to 100 mm"),
        ("7..6.5", "from 7 to 6.5 runs backwards"),
        ("6..6.5..7", "one size is wanted"),
        ("round 6.4 ±4", "plus or minus 4 is not within 0 to 3 mm"),
        ("6..7 ±0.1", "one size is wanted|a range says how well by itself"),
        ("slot 18x6..7 ±0.1", "a range says how well by itself"),
        ("goes 6..7", "one number is wanted, without a range"),
        ("box 12x7 r4", "at most half the smaller side"),
        ("outline 0,0 8,0", "2 points were given: at least 3 corners"),
        ("goes", "a number is wanted"),
    ],
)
def test_what_is_no_hole_is_refused_with_what_would_be(said: str, why: str) -> None:
    with pytest.raises(AnswerRefused, match=f"(?s).*{why.replace('(', '.')}"):
        read_hole_size(said)


@pytest.mark.parametrize(("said", "takes"), [("1", True), ("0.99", False), ("100", True), ("100.1", False)])
def test_a_size_at_and_beside_the_limits_of_its_field(said: str, takes: bool) -> None:
    if takes:
        assert read_size(said, kind="round", name="diameter").low == float(said)
    else:
        with pytest.raises(AnswerRefused, match="is not within 1 to 100 mm"):
            read_size(said, kind="round", name="diameter")


def test_a_hole_of_unknown_size_says_so() -> None:
    assert without_notes(opening_fields(None)) == {"opening": "unknown"}
    assert opening_fields({"at_least": 6.4}) == {"opening": {"at_least": 6.4}}


DOWN, STAY = "down_tube", "stay_left"


@pytest.mark.parametrize(
    ("said", "inside", "kind", "joins", "on"),
    [
        ("down 35 left", OUTSIDE, "neck", (OUTSIDE, DOWN), {"zone": DOWN, "from_start": 35, "side": "left"}),
        (
            "Down tube, 35,5 mm, left",
            OUTSIDE,
            "neck",
            (OUTSIDE, DOWN),
            {"zone": DOWN, "from_start": 35.5, "side": "left"},
        ),
        ("down 35 at 10 o'clock", OUTSIDE, "neck", (OUTSIDE, DOWN), {"zone": DOWN, "from_start": 35, "side": "10"}),
        ("down 600 left", DOWN, "boss", (DOWN, OUTSIDE), {"zone": DOWN, "from_start": 600, "side": "left"}),
        (
            "down 0 from lower end bottom",
            DOWN,
            "boss",
            (DOWN, OUTSIDE),
            {"zone": DOWN, "from_end": 0, "side": "bottom"},
        ),
        (
            "downtube, 60 mm below the head tube, left",
            OUTSIDE,
            "neck",
            (OUTSIDE, DOWN),
            {"zone": DOWN, "from_start": 60, "side": "left"},
        ),
        (
            "down 40 above the bottom bracket right",
            DOWN,
            "boss",
            (DOWN, OUTSIDE),
            {"zone": DOWN, "from_end": 40, "side": "right"},
        ),
        (
            "on top of the chainstay, 55 from the rear end",
            STAY,
            "stay",
            (STAY, OUTSIDE),
            {"zone": STAY, "from_end": 55, "side": "top"},
        ),
        (
            "top tube 50 left",
            OUTSIDE,
            "neck",
            (OUTSIDE, "top_tube"),
            {"zone": "top_tube", "from_start": 50, "side": "left"},
        ),
        (
            "through the headset bearing",
            OUTSIDE,
            "headset",
            (OUTSIDE, "head_tube"),
            {"zone": "head_tube", "end": "start"},
        ),
        ("window to the motor bay", DOWN, "window", (DOWN, "motor_bay"), "window"),
        ("end of motor bay", "motor_bay", "end", ("motor_bay", OUTSIDE), {"zone": "motor_bay", "end": "end"}),
        ("end of chainstay left", OUTSIDE, "end", (OUTSIDE, STAY), {"zone": STAY, "end": "start"}),
        ("end of chainstay left", STAY, "end", (STAY, OUTSIDE), {"zone": STAY, "end": "end"}),
        (
            "rear end of the right chainstay",
            OUTSIDE,
            "end",
            (OUTSIDE, "stay_right"),
            {"zone": "stay_right", "end": "end"},
        ),
        ("chainstay 360 top", STAY, "stay", (STAY, OUTSIDE), {"zone": STAY, "from_start": 360, "side": "top"}),
        (
            "chainstay right 20 top",
            OUTSIDE,
            "stay",
            (OUTSIDE, "stay_right"),
            {"zone": "stay_right", "from_start": 20, "side": "top"},
        ),
        (
            "seat stay 40 back",
            OUTSIDE,
            "stay",
            (OUTSIDE, "seatstay_left"),
            {"zone": "seatstay_left", "from_start": 40, "side": "back"},
        ),
        ("window to chainstay", DOWN, "window", (DOWN, STAY), "window"),
        ("window to the down tube", "head_tube", "window", ("head_tube", DOWN), "window"),
        ("window to bottom bracket", DOWN, "window", (DOWN, "bb_shell"), "window"),
        ("headset", OUTSIDE, "headset", (OUTSIDE, "head_tube"), {"zone": "head_tube", "end": "start"}),
    ],
)
def test_a_place_as_it_is_said(said: str, inside: str, kind: str, joins: tuple[str, str], on: object) -> None:
    place = read_place(said, inside=inside, is_last=False)
    assert (place.kind, place.joins, place.on_fields) == (HoleKind(kind), joins, on)
    assert place.label


@pytest.mark.parametrize(
    ("said", "inside", "is_last", "why"),
    [
        ("left", OUTSIDE, False, "no tube is named"),
        ("down left", OUTSIDE, False, "how many mm from its upper end"),
        ("down 35", OUTSIDE, False, "on which side"),
        ("down 35 left right", OUTSIDE, False, "one side and one end are wanted"),
        ("down 35 left purple", OUTSIDE, False, "“purple” says nothing of a place"),
        ("down 1501 left", OUTSIDE, False, "not within 0 to 1500 mm"),
        ("top 30 left", DOWN, False, "the next hole is on it, its end, or a window out of it"),
        ("window to chainstay", OUTSIDE, False, "the line is still outside"),
        ("window to down", DOWN, False, "to another tube"),
        ("headset", DOWN, False, "cannot enter at the headset"),
        ("headset left", OUTSIDE, False, "stands alone"),
        ("down 35 left", OUTSIDE, True, "after it the line would still lie in the down tube"),
        ("end of chainstay top", OUTSIDE, False, "told by the tube alone"),
    ],
)
def test_a_place_that_cannot_be_is_refused_with_the_reason(said: str, inside: str, is_last: bool, why: str) -> None:
    with pytest.raises(AnswerRefused, match=why):
        read_place(said, inside=inside, is_last=is_last)


def test_the_last_hole_may_be_the_one_that_leads_out() -> None:
    assert read_place("chainstay 360 top", inside=STAY, is_last=True).joins == (STAY, OUTSIDE)


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("no", None),
        ("6.7 200 30", {"bore": 6.7, "bend_radius": 200, "turn": 30}),
        ("6,7, 200, 30", {"bore": 6.7, "bend_radius": 200, "turn": 30}),
        ("bore 6.7 bend 200 turn 30", {"bore": 6.7, "bend_radius": 200, "turn": 30}),
        ("6.6..6.8 200 30", {"bore": "6.6..6.8", "bend_radius": 200, "turn": 30}),
        ("6.7 straight", {"bore": 6.7}),
    ],
)
def test_a_guide_as_it_is_said(said: str, told: object) -> None:
    assert read_guide(said) == told


@pytest.mark.parametrize("said", ["6.7", "6.7 200", "6.7 200 361", "0.5 200 30", "yes", "6.7 200 30 5"])
def test_half_a_guide_is_refused(said: str) -> None:
    with pytest.raises(AnswerRefused):
        read_guide(said)


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("post 160 203 six-bolt", {"mount": "post", "rotor_native": 160, "rotor_max": 203, "hub": "six_bolt"}),
        ("post 160", {"mount": "post", "rotor_native": 160}),
        ("flat, 140, 160, splined", {"mount": "flat", "rotor_native": 140, "rotor_max": 160, "hub": "splined"}),
        ("flat 140/160 centrelock", {"mount": "flat", "rotor_native": 140, "rotor_max": 160, "hub": "splined"}),
        ("tabs 203", {"mount": "is_tabs", "rotor_max": 203}),
        ("flat 140 160 6 bolt", {"mount": "flat", "rotor_native": 140, "rotor_max": 160, "hub": "six_bolt"}),
    ],
)
def test_a_mount_as_it_is_said(said: str, told: object) -> None:
    assert read_mount(said) == told


@pytest.mark.parametrize("said", ["160 203", "post 203 160", "post 50", "post 160 180 203", "post 160 wobbly"])
def test_what_is_no_mount_is_refused(said: str) -> None:
    with pytest.raises(AnswerRefused):
        read_mount(said)


def test_the_rubber_in_a_hole() -> None:
    hole = {"shape": "slot", "length": 18.0, "width": 7.0}
    assert read_rubber("no", hole=hole) is None
    assert read_rubber("slot 10x5.4", hole=hole) == {
        "opening": {"shape": "slot", "length": 10, "width": 5.4},
        "removable": True,
    }
    fixed = read_rubber("round 5.9 fixed", hole=None)
    assert fixed is not None
    assert fixed["removable"] is False
    assert read_rubber("slot 18x7", hole=hole) is not None
    with pytest.raises(AnswerRefused, match=r"7\.1 is more than the hole's own width, 7"):
        read_rubber("slot 10x7.1", hole=hole)


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("131", {"kind": "single_pivot", "travel": 131}),
        ("131 mm", {"kind": "single_pivot", "travel": 131}),
        ("131 pivot 14 60", {"kind": "single_pivot", "travel": 131, "pivot": [14, 60]}),
        ("131, pivot -5,5 60", {"kind": "single_pivot", "travel": 131, "pivot": [-5.5, 60]}),
    ],
)
def test_a_rear_end_as_it_is_said(said: str, told: object) -> None:
    assert read_travel(said) == told


@pytest.mark.parametrize("said", ["long", "9", "301", "131 pivot 14", "131 14 6000"])
def test_what_is_no_travel_is_refused(said: str) -> None:
    with pytest.raises(AnswerRefused):
        read_travel(said)
