"""The pictures of why: every way against every place, one way along its places, what stops a no."""

import re
from dataclasses import replace
from xml.etree import ElementTree

import pytest

from planner import Picture, can_draw_stop, draw_stop, draw_way_strip, draw_way_table, find_stops
from planner.documents.drawings.label_places import text_width_mm
from planner.documents.words.way_table_words import cell_words
from planner.rules import PlaceRule
from planner.verdicts import Check, Outcome
from tests.planner.plan.way_samples import plan_and_table, stopped_by_size_alone

SVG = "{http://www.w3.org/2000/svg}"
CAPITAL = 0.73
"""How much of the height of its type a figure takes above its base line."""


@pytest.mark.parametrize("width_mm", [180.0, 92.0])
@pytest.mark.parametrize("name", ["trail-rear-brake", "touring-unmeasured", "dropbar-headset"])
def test_the_table_has_a_cell_for_every_place_and_frames_the_one_that_decides(name: str, width_mm: float) -> None:
    plan, table = plan_and_table(name)
    drawn = draw_way_table(table, plan, width_mm=width_mm)
    ElementTree.fromstring(drawn.svg)
    cells = sum(cell is not None for row in table.ways for cell in row.cells)
    assert drawn.svg.count('class="cell') == cells
    assert drawn.svg.count('class="cell decides"') == sum(row.decides_at is not None for row in table.ways)
    for row in table.ways:
        for cell in row.cells:
            assert cell is None or f">{cell_words(cell)}</text>" in drawn.svg
    farthest = max(float(x) for x in re.findall(r'<text x="([0-9.]+)"', drawn.svg))
    assert farthest <= width_mm


@pytest.mark.parametrize("width_mm", [160.0, 90.0])
def test_a_figure_stays_in_its_cell_and_clear_of_the_mark_of_its_outcome(width_mm: float) -> None:
    """Beside its mark a figure of six letters ran into it."""
    plan, table = plan_and_table("trail-rear-brake")
    figures = 0
    for cell in ElementTree.fromstring(draw_way_table(table, plan, width_mm=width_mm).svg).iter(f"{SVG}g"):
        told = cell.findall(f"{SVG}text")
        if not (cell.get("class") or "").startswith("cell") or not told:
            continue
        height_mm, middle_mm, base_mm = (float(told[-1].get(name, "")) for name in ("font-size", "x", "y"))
        half_mm = text_width_mm(told[-1].text or "", height_mm=height_mm) / 2
        frame, *marks = cell.findall(f"{SVG}rect")
        left_mm, wide_mm = float(frame.get("x", "")), float(frame.get("width", ""))
        assert left_mm <= middle_mm - half_mm
        assert middle_mm + half_mm <= left_mm + wide_mm
        feet = [float(one.get("cy", "")) + float(one.get("r", "")) for one in cell.findall(f"{SVG}circle")]
        feet += [float(one.get("y", "")) + float(one.get("height", "")) for one in marks]
        assert all(foot_mm < base_mm - height_mm * CAPITAL for foot_mm in feet)
        figures += 1
    assert figures == sum(bool(cell and cell_words(cell)) for row in table.ways for cell in row.cells)


def test_no_id_stands_in_the_table_where_somebody_gave_a_name() -> None:
    plan, table = plan_and_table("trail-rear-brake")
    words = _words(draw_way_table(table, plan))
    ids = {*plan.names.places, *plan.names.runs, *plan.names.things}
    assert not {one for one in ids if re.search(rf"(?<![\w-]){re.escape(one)}(?![\w-])", words)}


def test_the_strip_draws_what_passes_each_place_and_tells_what_is_not_measured() -> None:
    plan, table = plan_and_table("touring-unmeasured")
    drawn = draw_way_strip(table, table.ways[0], plan)
    assert drawn.svg.count('class="place') == len(table.places)
    assert drawn.svg.count('class="place decides"') == 1
    assert ">not measured</text>" in drawn.svg


def test_the_strip_and_the_table_hold_at_any_figure() -> None:
    """Lengths and radii of nothing, and places without sizes, are drawn too."""
    plan, table = plan_and_table("dropbar-headset")
    row = next(row for row in table.ways if any(cell and cell.rule is PlaceRule.GUIDE_BEND for cell in row.cells))
    odd = tuple(cell and replace(cell, size_mm=0.0, available_mm=-1.0, clearance_mm=None) for cell in row.cells)
    strange = replace(row, cells=odd)
    ElementTree.fromstring(draw_way_strip(table, strange, plan).svg)
    ElementTree.fromstring(draw_way_table(replace(table, ways=(strange,)), plan).svg)


def test_what_stops_a_no_is_drawn_with_what_is_missing_and_what_it_takes() -> None:
    plan = stopped_by_size_alone()
    stop = find_stops(plan)[0]
    words = _words(draw_stop(stop.check, names=plan.names, needed=stop.needed))
    for told in ("free: 2.20", "5.00", "2.80 mm", "needs round 5"):
        assert told in words
    assert "needs 5.00 mm" in _words(draw_stop(stop.check, names=plan.names))


def test_a_bend_and_a_stiff_piece_that_do_not_pass_are_drawn_too() -> None:
    drawn = set()
    for name in ("dropbar-headset", "trail-rear-brake"):
        plan, _ = plan_and_table(name)
        for rejection in plan.rejected:
            if can_draw_stop(rejection.check):
                drawn.add(rejection.check.rule.row.measures)
                ElementTree.fromstring(draw_stop(rejection.check, names=plan.names).svg)
    assert len(drawn) >= 2


def _words(picture: Picture) -> str:
    return "".join(ElementTree.fromstring(picture.svg).itertext())


def test_what_has_no_two_sizes_has_no_figure() -> None:
    check = Check(rule=PlaceRule.LINE_KIND, outcome=Outcome.NO_FIT)
    assert not can_draw_stop(check)
    with pytest.raises(ValueError, match="no two sizes"):
        draw_stop(check)
