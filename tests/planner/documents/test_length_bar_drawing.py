"""The length bar: to scale, with what is spare or missing, and nothing guessed."""

import re
import xml.etree.ElementTree as ET
from dataclasses import replace

import pytest

from planner.documents.drawings.length_bar import draw_length_bar
from tests.planner.documents.drawing_samples import make_lengths

SVG = "{http://www.w3.org/2000/svg}"


def _words(svg: str) -> list[str]:
    return [node.text or "" for node in ET.fromstring(svg).iter(f"{SVG}text")]


def _widths(svg: str, role: str) -> list[float]:
    (group,) = [node for node in ET.fromstring(svg).iter(f"{SVG}g") if node.get("class") == role]
    return [float(node.get("width", "0")) for node in group.iter(f"{SVG}rect")]


@pytest.mark.parametrize("width_mm", [180, 92])
def test_bars_are_as_long_as_their_figures(width_mm: float) -> None:
    svg = draw_length_bar(make_lengths(), width_mm=width_mm).svg
    scale = (width_mm - 10) / 2100
    assert _widths(svg, "supplied") == pytest.approx([width_mm - 10], abs=0.01)
    assert sum(_widths(svg, "needed")) == pytest.approx(1860 * scale, abs=0.05)
    assert len(_widths(svg, "needed")) == len(make_lengths().legs) + 1


def test_what_is_spare_is_told() -> None:
    words = _words(draw_length_bar(make_lengths()).svg)
    assert {"Supplied 2100 mm", "Cut to 1860 mm", "240 mm to spare"} <= set(words)


def test_what_is_missing_is_told() -> None:
    words = _words(draw_length_bar(replace(make_lengths(), supplied_mm=1800, spare_mm=-60)).svg)
    assert "60 mm missing" in words


def test_a_line_that_just_reaches_has_nothing_to_spare() -> None:
    assert "0 mm to spare" in _words(draw_length_bar(replace(make_lengths(), supplied_mm=1860, spare_mm=0)).svg)


def test_a_length_that_was_not_told_is_not_drawn() -> None:
    svg = draw_length_bar(replace(make_lengths(), supplied_mm=None, spare_mm=None)).svg
    words = _words(svg)
    assert "Supplied length: not told" in words
    assert not any("spare" in word or "missing" in word for word in words)


def test_every_leg_is_named_with_its_longest_length() -> None:
    told = " ".join(_words(draw_length_bar(make_lengths(), width_mm=92).svg))
    for leg in make_lengths().legs:
        assert f"{leg.from_place} – {leg.to_place}" in told
        assert f"{leg.high_mm:.0f} mm" in told


@pytest.mark.parametrize("width_mm", [180, 92])
def test_the_words_about_the_spare_length_stay_on_the_paper(width_mm: float) -> None:
    svg = draw_length_bar(replace(make_lengths(), supplied_mm=1855, spare_mm=-5), width_mm=width_mm).svg
    for node in ET.fromstring(svg).iter(f"{SVG}text"):
        if node.get("text-anchor") == "middle":
            half = len(node.text or "") * float(node.get("font-size", "0")) * 0.6 / 2
            assert half <= float(node.get("x", "0")) <= width_mm - half


def test_a_leg_that_bar_or_rear_make_longer_tells_its_range_and_its_longest_posture() -> None:
    from tests.planner.plan.way_samples import plan_and_table

    plan = plan_and_table("trail-rear-brake")[0]
    assert plan.lengths is not None
    drawn = draw_length_bar(plan.lengths, names=plan.names).svg
    moved = [leg for leg in plan.lengths.legs if leg.worst_posture not in ("at rest", "not known")]
    assert moved
    for leg in moved:
        assert leg.high_mm is not None
        assert leg.low_mm is not None
        words = f"up to {leg.high_mm:.0f} mm, {leg.low_mm:.0f} at least; longest at {leg.worst_posture}"
        told = " ".join(re.sub("<[^>]*>", " ", drawn).split())
        assert words in told
    assert drawn.count('class="range"') >= len(moved)
