"""Every shape of hole, way of joining and fitting that can be chosen has a drawing of its own, with words for it."""

import re
from typing import get_args

import pytest

from catalog import annotation_of, kind_word
from catalog.openings import OpeningEntry
from planner import can_draw_choices, draw_choices
from planner.documents.drawings.choice_drawing import SKETCHES
from planner.documents.drawings.joint_sketches import FITTING_SKETCHES, HALF_MM, JOINT_SKETCHES
from planner.documents.drawings.shape_key import SHAPE_SKETCHES
from planner.documents.words.choice_words import CHOICE_WORDS
from planner.parts import FittingStyle, MethodKind, Opening
from ui.page.views.port_picker import IN_THE_DARK
from ui.shared.opening_text import SHAPES


def test_every_choice_there_is_has_a_drawing_and_words() -> None:
    assert set(JOINT_SKETCHES) == set(MethodKind)
    assert set(FITTING_SKETCHES) == set(FittingStyle)
    assert set(SHAPE_SKETCHES) == set(SHAPES)
    assert {get_args(shape.__annotations__["shape"])[0] for shape in get_args(Opening)} <= set(SHAPE_SKETCHES)
    assert set(CHOICE_WORDS) == set(SKETCHES)
    assert all(words.partition(": ")[2] for words in CHOICE_WORDS.values())


@pytest.mark.parametrize("annotation", [annotation_of("method"), OpeningEntry], ids=["methods", "openings"])
def test_every_kind_that_a_form_offers_is_drawn(annotation: object) -> None:
    _, kinds = kind_word(annotation)
    assert can_draw_choices(kinds)


def test_no_two_drawings_are_alike_and_each_stays_within_its_cell() -> None:
    drawn = {word: "".join(sketch((0.0, 0.0))) for word, sketch in SKETCHES.items()}
    assert len(set(drawn.values())) == len(drawn)
    for word, markup in drawn.items():
        ways = re.findall(r' d="([^"]*)"', markup)
        points = [(float(x), float(y)) for way in ways for x, y in re.findall(r"[ML](-?[\d.]+) (-?[\d.]+)", way)]
        assert points, word
        assert all(abs(x) <= HALF_MM and abs(y) <= 7.5 for x, y in points), word


@pytest.mark.parametrize("width_mm", [172.0, 114.0, 85.0])
def test_choices_are_named_aloud_the_picked_one_is_framed_and_all_colours_have_one_for_the_dark(
    width_mm: float,
) -> None:
    words = [kind.value for kind in MethodKind]
    svg = draw_choices(words, picked="spoke_link", width_mm=width_mm).svg
    for word in words:
        assert f'class="port" data-name="{word}"><title>{CHOICE_WORDS[word]}</title>' in svg
    assert len(re.findall(r'<rect[^>]*stroke-width="0.9"', svg)) == 1
    assert set(re.findall(r"#[0-9a-f]{6}", svg)) <= set(IN_THE_DARK)
    wide = [float(x) + 27.0 for x in re.findall(r'<rect x="([\d.]+)"[^>]*stroke=', svg)]
    assert max(wide) <= width_mm + 0.5


def test_what_has_no_drawing_is_left_to_its_words() -> None:
    assert not can_draw_choices(["hydraulic_hose", "brake_housing"])
    assert not can_draw_choices([])
    assert not can_draw_choices(["round"]), "one is no choice"
