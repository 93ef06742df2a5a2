"""All lines of a visit in one picture: told apart without colour, beside each other, with sides, reasons and a key."""

import re
from dataclasses import replace
from itertools import combinations
from math import hypot
from xml.etree import ElementTree

import pytest

from planner import draw_visit
from planner.documents.drawings.beside_lines import moved_aside, steps_aside_mm
from planner.documents.drawings.visit_drawing import find_drawn_lines
from planner.documents.drawings.visit_key import hole_tags
from planner.documents.drawings.visit_lines import STAYS, STROKES
from planner.parts import Frame, StayingLine
from planner.whole_bike.visit_plan import VisitPlan
from tests.planner.whole_bike.cockpit import catalog, cockpit, planned

SVG = "{http://www.w3.org/2000/svg}"
LINES = ("gear", "lamp", "rear-brake", "sensor")
WIDE_MM, NARROW_MM = 180.0, 92.0


def groups(svg: str, role: str) -> list[ElementTree.Element]:
    """Every group of a role."""
    return [one for one in ElementTree.fromstring(svg).iter(f"{SVG}g") if one.get("class") == role]


def words(svg: str) -> str:
    """All words of a picture."""
    return " ".join(one.text or "" for one in ElementTree.fromstring(svg).iter(f"{SVG}text"))


def order() -> list[str]:
    """The lines in the order that works; lamp before rear brake is all that is forced."""
    return [step.line_id for step in planned().order]


def why() -> str:
    """The reason as the picture tells it."""
    before, after = ("ABCD"[order().index(line_id)] for line_id in ("lamp", "rear-brake"))
    return f"{before} before {after}, else 0.15 mm missing"


def strokes_of(svg: str, line_id: str) -> set[tuple[str | None, int]]:
    """How a line is drawn where no colour can be seen: its dashes, and of how many strokes."""
    legs = [one for one in groups(svg, "leg") if one.get("data-name") == line_id]
    return {(leg.findall(f"{SVG}path")[1].get("stroke-dasharray"), len(leg.findall(f"{SVG}path"))) for leg in legs}


@pytest.mark.parametrize("width_mm", [WIDE_MM, NARROW_MM])
def test_lines_differ_in_more_than_colour_and_carry_their_letters_at_both_ends_and_along(width_mm: float) -> None:
    svg = draw_visit(planned(), cockpit(), width_mm=width_mm).svg
    looks = [strokes_of(svg, line_id) for line_id in LINES]
    assert all(len(look) == 1 for look in looks)
    assert len({frozenset(look) for look in looks}) == len(LINES)
    for letter, line_id in zip("ABCD", order(), strict=True):
        marks = [one for one in groups(svg, "letter") if one.get("data-name") == line_id]
        assert len(marks) >= 3
        assert {mark.findtext(f"{SVG}text") for mark in marks} == {letter}


def test_as_many_lines_as_a_visit_may_have_are_told_apart_without_colour() -> None:
    looks = [(look.dash_mm, look.is_double) for look in (*STROKES, STAYS)]
    assert len(set(looks)) == len(looks) == 11


@pytest.mark.parametrize("width_mm", [WIDE_MM, NARROW_MM])
def test_nothing_stands_off_the_paper_and_no_two_letters_at_one_place(width_mm: float) -> None:
    picture = draw_visit(planned(), cockpit(), width_mm=width_mm)
    circles = [one.find(f"{SVG}circle") for one in groups(picture.svg, "letter")]
    at = [(float(one.get("cx", "")), float(one.get("cy", ""))) for one in circles if one is not None]
    assert all(0 < x < width_mm and 0 < y < picture.height_mm for x, y in at)
    assert all(hypot(a[0] - b[0], a[1] - b[1]) > 1.5 for a, b in combinations(at, 2))


def test_the_order_of_the_strips_gives_the_letters_and_the_key_tells_line_and_holes() -> None:
    told = words(draw_visit(planned(), cockpit()).svg)
    assert "gear: Gear housing 4.0 for Gear housing 5.0 (1L 3R 5R)" in told
    assert "lamp: Electric wire 2.5 goes in (1L 2L 4L)" in told
    assert "L and R: left and right side of the bicycle" in told


def test_left_and_right_holes_behind_one_another_stand_side_by_side() -> None:
    svg = draw_visit(planned(), cockpit()).svg
    boxes = {one.get("data-name"): one.find(f"{SVG}rect") for one in groups(svg, "port")}
    left, right = boxes["bb-window"], boxes["bb-window-right"]
    assert left is not None
    assert right is not None
    assert float(left.get("x", "")) + float(left.get("width", "")) <= float(right.get("x", "")) + 1e-6


def test_what_forces_the_order_stands_at_its_place() -> None:
    assert why() in words(draw_visit(planned(), cockpit()).svg)


def no_order() -> VisitPlan:
    """The same on guides that no order of swaps passes."""
    return planned(guide_mm=10.2, takes_out_first=False)


def test_a_no_marks_the_place_and_draws_the_lines_where_they_are_told_to_lie() -> None:
    plan = no_order()
    assert plan.conflict is not None
    picture = draw_visit(plan, cockpit(guide_mm=10.2, takes_out_first=False))
    told = words(picture.svg)
    assert "no order found" in told
    assert re.search(r"A \+ C do not pass, 0\.\d\d mm missing", told)
    assert {one.get("data-name") for one in groups(picture.svg, "leg")} == set(LINES)
    assert "arrow" not in told
    assert "where the job says that they lie or are to go" in told


def test_a_line_whose_way_nobody_told_is_said_not_to_be_drawn() -> None:
    visit = cockpit(guide_mm=10.2, takes_out_first=False)
    lines = tuple(replace(line, through=()) if line.id == "lamp" else line for line in visit.lines)
    picture = draw_visit(no_order(), replace(visit, lines=lines))
    assert "lamp: Electric wire 2.5 goes in (not drawn: its way is not told)" in words(picture.svg)
    assert "lamp" not in {one.get("data-name") for one in groups(picture.svg, "leg")}


def test_the_mark_of_a_hole_that_forbids_an_order_leaves_its_tag_free() -> None:
    plan = no_order()
    assert plan.conflict is not None
    at_hole = replace(plan.conflict, obstacle=replace(plan.conflict.obstacle, places=("shared-neck",)))
    svg = draw_visit(replace(plan, conflict=at_hole), cockpit(guide_mm=10.2, takes_out_first=False)).svg
    (tag,) = [one.find(f"{SVG}rect") for one in groups(svg, "port") if one.get("data-name") == "shared-neck"]
    assert tag is not None
    mark = next(one for one in ElementTree.fromstring(svg).iter(f"{SVG}rect") if one.get("width") == "4.6")
    assert float(mark.get("y", "")) + 4.6 <= float(tag.get("y", ""))


def test_lines_that_stay_or_only_come_out_are_drawn_and_told() -> None:
    visit = cockpit()
    wire = catalog().lines["wire-25"]
    visit = replace(visit, staying=(StayingLine(line=wire, through=("shared-neck", "bb-window")),))
    out = tuple(replace(line, new=None) if line.id == "gear" else line for line in visit.lines)
    plan = planned()
    plan = replace(plan, lines=tuple(line for line in plan.lines if line.line_id != "gear"))
    told = words(draw_visit(plan, replace(visit, lines=out)).svg)
    assert "gear: Gear housing 5.0 comes out (1L 3R 5R)" in told
    assert "Electric wire 2.5 stays (1L 2L)" in told


def without_places(frame: Frame) -> Frame:
    """The frame with nothing told of where its holes lie."""
    return replace(
        frame,
        ports={key: replace(port, position_mm=None, heading=None) for key, port in frame.ports.items()},
        anchors={key: replace(anchor, position_mm=None, heading=None) for key, anchor in frame.anchors.items()},
    )


def test_where_no_places_are_told_lines_and_holes_stand_in_a_table() -> None:
    visit = replace(cockpit(), frame=without_places(cockpit().frame))
    told = words(draw_visit(planned(), visit).svg)
    assert "this is no picture of the frame" in told
    assert "lamp: Electric wire 2.5 goes in (1 2 4)" in told


def test_holes_are_numbered_in_the_frames_order_with_their_side() -> None:
    tags = hole_tags(find_drawn_lines(planned(), cockpit()), cockpit().frame)
    assert list(tags.values()) == ["1L", "2L", "3R", "4L", "5R"]


def test_lines_on_one_way_lie_beside_each_other_from_whichever_end_they_are_told() -> None:
    way = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0)]
    steps_mm = steps_aside_mm(3, step_mm=2.0, most_mm=10.0)
    assert steps_mm == (-2.0, 0.0, 2.0)
    assert steps_aside_mm(11, step_mm=2.0, most_mm=10.0)[1] == pytest.approx(-4.0)
    beside = moved_aside(way, by_mm=2.0)
    assert beside == moved_aside(way[::-1], by_mm=2.0)[::-1]
    assert {round(abs(y), 6) for _, y in beside[:1]} == {2.0}
    assert moved_aside([(1.0, 1.0), (1.0, 1.0)], by_mm=2.0) == [(1.0, 1.0)]


def test_names_from_outside_are_never_markup() -> None:
    frame = cockpit().frame
    neck = replace(frame.ports["shared-neck"], label='<a href="http:x">&')
    visit = replace(cockpit(), frame=replace(frame, ports={**frame.ports, "shared-neck": neck}))
    plan = planned()
    names = replace(plan.names, places={**plan.names.places, "shared-neck": neck.label})
    svg = draw_visit(replace(plan, names=names), visit).svg
    assert not list(ElementTree.fromstring(svg).iter(f"{SVG}a"))
