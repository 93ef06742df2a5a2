"""A shared hole step by step: who lies in it is worked by hand, and the picture tells them apart without colour."""

import re
from xml.etree import ElementTree

import pytest

from planner import draw_visit_strips
from planner.documents.drawings.hole_strip import LEAST_BADGE_MM
from tests.planner.whole_bike.cockpit import planned


def told(place_id: str) -> list[set[str]]:
    """Who lies in a place at each moment, as line and state."""
    (story,) = (story for story in planned().holes if story.place_id == place_id)
    return [{f"{thing.line_id} {thing.lies_as}" for thing in moment.things} for moment in story.moments]


def test_who_lies_in_the_slot_before_the_work_and_after_every_step() -> None:
    assert [step.line_id for step in planned().order] == ["gear", "lamp", "rear-brake", "sensor"]
    assert told("shared-neck") == [
        {"gear old", "rear-brake old"},
        {"gear new", "rear-brake old"},
        {"gear new", "rear-brake old", "lamp new"},
        {"gear new", "rear-brake new", "lamp new"},
        {"gear new", "rear-brake new", "sensor new", "lamp new"},
    ]


def test_a_guide_that_two_lines_share_has_its_story_too() -> None:
    assert told("stay-run")[-1] == {"rear-brake new", "lamp new"}
    assert told("stay-run-right")[0] == {"gear old"}


def test_the_places_told_hold_every_line_side_by_side() -> None:
    for story in planned().holes:
        for moment in story.moments:
            assert moment.placement is not None
            at = list(zip(moment.things, moment.placement.centres_mm, strict=True))
            for n, (one, (x, y)) in enumerate(at):
                for other, (u, v) in at[n + 1 :]:
                    apart_mm = ((x - u) ** 2 + (y - v) ** 2) ** 0.5
                    assert apart_mm >= (one.diameter_mm + other.diameter_mm) / 2 - 1e-6


def test_old_lines_are_hollow_new_ones_filled_and_each_has_a_letter() -> None:
    svg = draw_visit_strips(planned())["shared-neck"].svg
    ElementTree.fromstring(svg)
    discs = re.findall(r'<g class="thing" data-name="([\w-]+)"><title>([^<]+)</title><circle [^>]*fill="([^"]+)"', svg)
    assert len(discs) == 2 + 2 + 3 + 3 + 4
    assert {(name, fill == "none") for name, title, fill in discs if "hollow" in title} == {
        ("gear", True),
        ("rear-brake", True),
    }
    assert all(fill != "none" for _, title, fill in discs if "filled" in title)
    for words in ("before", "1. gear changed", "2. lamp in", "A gear", "C rear-brake"):
        assert words in svg


@pytest.mark.parametrize("width_mm", [180.0, 92.0])
def test_the_letter_in_the_thinnest_line_can_be_read_on_narrow_paper_too(width_mm: float) -> None:
    """In a long slot the letters were a millimetre high."""
    for picture in draw_visit_strips(planned(), width_mm=width_mm).values():
        badges = re.findall(r'<g class="thing".*?</title><circle.*?/><circle [^>]*r="([0-9.]+)"', picture.svg)
        assert badges
        assert min(map(float, badges)) >= LEAST_BADGE_MM / 2 - 0.01
