"""Frames told in a dialogue: what their files say, that a check takes them, and what is said to be unknown."""

from collections.abc import Mapping
from typing import Any

import pytest

from catalog import problems_of_text, without_notes
from tests.ui.dialogue.told import HEADSET, TABLE, THREE_HOLES, TWO_HOLES, answered
from ui.shared.dialogue.frame_fields import frame_entry, unknown_words
from ui.shared.dialogue.frame_layouts import LAYOUTS
from ui.shared.dialogue.frame_questions import frame_script, id_of_name
from ui.shared.dialogue.questions import walk
from ui.shared.dialogue.told_files import frame_text, wrong_with_frame


def _told(*words: Mapping[str, str], **more: str) -> dict[str, Any]:
    typed = {key: value for one in words for key, value in one.items()} | more
    entry: dict[str, Any] = without_notes(frame_entry(answered(frame_script, typed)))
    return entry


@pytest.mark.parametrize("holes", [TWO_HOLES, THREE_HOLES, HEADSET], ids=["two", "three", "headset"])
@pytest.mark.parametrize("layout", LAYOUTS)
@pytest.mark.parametrize("lengths", ["1", "2", "3"])
def test_a_check_takes_every_frame_that_is_told(holes: dict[str, str], layout: str, lengths: str) -> None:
    entry = frame_entry(answered(frame_script, {**holes, **TABLE, "layout": layout, "lengths": lengths}))
    assert list(wrong_with_frame(entry)) == []


def test_holes_alone_make_ports_in_order_with_defaults_marked() -> None:
    answers = answered(frame_script, TWO_HOLES)
    text = frame_text(frame_entry(answers))
    assert "tilt: 20..45   # default: the larger end counts; it decides, measure it first" in text
    assert "wall: 1.5   # default" in text
    assert "bar_clamp: 22.2   # default" in text
    assert "opening: {shape: slot, length: 18, width: 7}\n" in text
    entry = _told(TWO_HOLES)
    assert [port["id"] for port in entry["ports"]] == ["neck", "boss"]
    assert [run["between"] for run in entry["runs"]] == [
        ["bar-right", "neck"],
        ["neck", "boss"],
        ["boss", "caliper-rear"],
        ["bar-left", "neck"],
    ]
    assert "geometry" not in entry
    assert not any("on" in port or "at" in port for port in entry["ports"])


def test_what_somebody_typed_is_not_marked_as_a_default() -> None:
    answers = answered(frame_script, {**TWO_HOLES, "hole 1 tilt": "40", "hole 1 wall": "1.6", "clamp": "31.8"})
    lines = frame_text(frame_entry(answers)).splitlines()
    assert "        tilt: 40" in lines
    assert "        wall: 1.6" in lines
    assert "    bar_clamp: 31.8" in lines


def test_a_range_stays_a_range() -> None:
    assert _told(TWO_HOLES, **{"hole 1 tilt": "30..35"})["ports"][0]["tilt"] == "30..35"


def test_carbon_said_once_is_the_default_from_then_on_and_a_feature() -> None:
    entry = _told(TWO_HOLES, **{"hole 1 wall": "carbon"})
    assert [port["wall"] for port in entry["ports"]] == [2.0, 2.0]
    assert entry["features"] == ["carbon"]


def test_tape_lengths_go_to_their_stretches() -> None:
    lengths = {"lengths": "2", "stretch 1 length": "440 ±8", "stretch 2 length": "560..570", "reached": "yes"}
    first, second, third, other = _told(TWO_HOLES, lengths)["runs"]
    assert (first["length"], first["length_tolerance"], first["length_by"], first["reached"]) == (
        440,
        8,
        "old_line",
        True,
    )
    assert (second["length"], "length_tolerance" in second, "reached" in second) == ("560..570", False, False)
    assert "length" not in third
    assert "length" not in other


def test_a_table_places_the_holes_and_says_how_well() -> None:
    entry = _told(THREE_HOLES, TABLE, layout="single pivot", lengths="3", travel="130")
    assert entry["geometry"] == {
        "layout": "single_pivot",
        **{name: float(TABLE[name].replace(",", ".")) for name in list(TABLE)[:8]},
    }
    assert entry["cockpit"] == {"bar": "flat", "width": 780, "stem": 50, "spacers": 20}
    assert [port["on"] for port in entry["ports"]] == [
        {"zone": "down_tube", "from_start": 35, "side": "left"},
        "window",
        {"zone": "stay_left", "from_start": 360, "side": "top", "lean": 65},
    ]
    assert entry["geometry_error"] == "ordinary"
    assert entry["rear"] == {"kind": "single_pivot", "travel": 130}


def test_travel_that_the_rear_end_cannot_have_is_told_before_anything_is_written() -> None:
    typed = {**THREE_HOLES, **TABLE, "layout": "2", "lengths": "3", "travel": "300 pivot -400 0"}
    problems = list(wrong_with_frame(frame_entry(answered(frame_script, typed))))
    assert any("travel" in problem for problem in problems)


def test_what_is_unknown_is_named_what_decides_first() -> None:
    words = unknown_words(answered(frame_script, {**TWO_HOLES, "hole 1 opening": "-"}))
    assert words == [
        "the opening of hole 1 (Down tube, 35 mm from its upper end, left)",
        "the tilt at hole 1 (Down tube, 35 mm from its upper end, left), taken as the usual 20..45 degrees",
        "the tilt at hole 2 (Down tube, 600 mm from its upper end, left), taken as the usual 10..30 degrees",
        "every length: the line is laid in, then marked; or measure the old one",
        "the caliper mount, rotors and hub",
    ]


def test_everything_told_leaves_nothing_unknown() -> None:
    told = {"hole 1 tilt": "40", "hole 2 tilt": "12", "mount": "post 160 203 six", "lengths": "3", **TABLE}
    assert unknown_words(answered(frame_script, {**TWO_HOLES, **told})) == []


def test_a_suspension_frame_without_its_travel_says_what_that_costs() -> None:
    words = unknown_words(answered(frame_script, {**THREE_HOLES, **TABLE, "layout": "3", "lengths": "3"}))
    assert any(word.startswith("how the rear end moves") for word in words)


def test_a_name_that_is_taken_is_refused() -> None:
    found = walk(lambda: frame_script(known_ids=("blue-hardtail",)), {"name": "Blue hardtail"})
    assert "there is a frame blue-hardtail already" in found.refusal


@pytest.mark.parametrize(
    ("name", "id_"), [("Blue bike", "blue-bike"), ("  X/1: a ", "x-1-a"), ("Café 29+", "café-29"), ("--", "")]
)
def test_the_short_name_made_of_a_name(name: str, id_: str) -> None:
    assert id_of_name(name) == id_


def test_whatever_is_typed_as_a_name_makes_a_sound_file() -> None:
    entry = frame_entry(answered(frame_script, {**TWO_HOLES, "name": 'no: "x" # y\' {z}'}))
    assert problems_of_text("told", frame_text(entry)) == ()
    assert entry["name"] == 'no: "x" # y\' {z}'
