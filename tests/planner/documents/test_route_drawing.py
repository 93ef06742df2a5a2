"""The side view of a plan: what is in it, where, and that no two words lie on each other."""

import itertools
import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from math import dist

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from planner.documents.drawings.label_places import Area, Label, place_labels, text_width_mm, wrapped
from planner.documents.drawings.posed_frame import frame_in_posture, pose_route
from planner.documents.drawings.route_drawing import draw_route
from planner.documents.drawings.side_view import place_position, places_in_order
from planner.geometry.motion.rear_motion import LinkageLocked
from planner.parts import FourBar, Frame, JobEnd, Line, LineKind, MovesWith, Zone
from planner.rules import PlaceRule
from planner.verdicts import Check, Outcome, State
from tests.planner.documents.drawing_samples import ROUTE, boxes_of_words, make_frame, make_plan, make_stopped_plan
from tests.planner.plan.way_samples import plan_and_table
from tests.planner.whole_bike.cockpit import cockpit
from tests.ui.noes_of_every_sort import demo_job

SVG = "{http://www.w3.org/2000/svg}"
HOSE = Line(
    id="hose-50",
    name="Brake hose",
    kind=LineKind.HYDRAULIC_HOSE,
    outer_diameter_mm=5.0,
    outer_tolerance_mm=0.05,
    bore_diameter_mm=2.1,
    minimum_bend_radius_mm=35,
)


def _words(svg: str) -> list[str]:
    return [node.text or "" for node in ET.fromstring(svg).iter(f"{SVG}text")]


def _named(svg: str, role: str) -> list[ET.Element]:
    return [node for node in ET.fromstring(svg).iter(f"{SVG}g") if node.get("class") == role]


@pytest.mark.parametrize("width_mm", [180, 95], ids=["wide paper", "narrow paper"])
@pytest.mark.parametrize("picked", ["", "belly-left"], ids=["nothing picked", "a port picked"])
def test_no_two_words_overlap_and_none_leaves_the_paper(width_mm: float, picked: str) -> None:
    for plan in (make_plan(), make_plan(with_lengths=False), make_stopped_plan()):
        svg = draw_route(plan, make_frame(), width_mm=width_mm, picked_port=picked).svg
        boxes = boxes_of_words(svg)
        for (first, a), (second, b) in itertools.combinations(boxes, 2):
            assert a.shared_with(b) < 0.05, f"{first!r} lies on {second!r}"
        for words, area in boxes:
            assert area.left_mm >= 0, words
            assert area.right_mm <= width_mm, words


def test_words_lie_on_no_mark_of_a_port() -> None:
    svg = draw_route(make_plan(), make_frame()).svg
    labels = [
        (words, area) for words, area in boxes_of_words(svg) if words.split(":")[0] in ROUTE and "Down" not in words
    ]
    for group in _named(svg, "port"):
        ring = next(group.iter(f"{SVG}circle"))
        x, y, radius = (float(ring.get(name, "0")) for name in ("cx", "cy", "r"))
        mark = Area(left_mm=x - radius, top_mm=y - radius, right_mm=x + radius, bottom_mm=y + radius)
        for words, area in labels:
            assert area.shared_with(mark) < 0.05, f"{words} lies on {group.get('data-name')}"


def test_every_port_can_be_found_by_its_name() -> None:
    names = [group.get("data-name") for group in _named(draw_route(make_plan(), make_frame()).svg, "port")]
    assert sorted(map(str, names)) == sorted(make_frame().ports)


def test_numbered_ports_lie_above_the_others() -> None:
    plan = replace(make_plan(), route=("neck-left", "stay-rear"))
    names = [group.get("data-name") for group in _named(draw_route(plan, make_frame()).svg, "port")]
    assert names[-2:] == ["neck-left", "stay-rear"]


def test_narrow_paper_names_only_what_decides_and_numbers_the_rest() -> None:
    narrow = _words(draw_route(make_plan(), make_frame(), width_mm=95).svg)
    assert not any(words.startswith("Down tube, lower left") for words in narrow)
    assert _is_followed_by(narrow, "Chainstay, front left:", "1.12 mm at worst")
    assert {"1", "2", "3", "4"} <= set(narrow)
    roomy = _words(draw_route(make_plan(), make_frame()).svg)
    assert any(words.startswith("Down tube, lower left") for words in roomy)


def test_the_deciding_port_is_told_with_its_number() -> None:
    assert "Chainstay, front left: 1.12 mm at worst" in _words(draw_route(make_plan(), make_frame()).svg)


def test_a_run_can_decide_too() -> None:
    guide = Check(
        rule=PlaceRule.GUIDE_BORE, state=State.DRAWING, run_id="stay-run", outcome=Outcome.FITS, worst_clearance_mm=0.82
    )
    plan = make_plan()
    assert "stay-run: 0.82 mm at worst" in _words(
        draw_route(replace(plan, checks=(*plan.checks, guide)), make_frame()).svg
    )


def test_lines_outside_are_dashed_and_lines_inside_are_not() -> None:
    for group in _named(draw_route(make_plan(), make_frame()).svg, "leg"):
        is_outside = make_frame().runs[group.get("data-name", "")].zone_id == "outside"
        dashed = any(path.get("stroke-dasharray") for path in group.iter(f"{SVG}path"))
        assert dashed == is_outside, group.get("data-name")


def test_forward_is_right_and_up_is_up() -> None:
    centres = {}
    for group in _named(draw_route(make_plan(), make_frame()).svg, "port"):
        ring = next(group.iter(f"{SVG}circle"))
        centres[group.get("data-name")] = (float(ring.get("cx", "0")), float(ring.get("cy", "0")))
    assert centres["neck-left"][0] > centres["belly-left"][0] > centres["stay-front"][0] > centres["stay-rear"][0]
    assert centres["neck-left"][1] < centres["belly-left"][1]


def test_distances_on_the_paper_are_true_to_the_stated_scale() -> None:
    svg = draw_route(make_plan(), make_frame()).svg
    (divisor,) = [float(words.removeprefix("Scale 1:")) for words in _words(svg) if words.startswith("Scale 1:")]
    centres = {}
    for group in _named(svg, "port"):
        ring = next(group.iter(f"{SVG}circle"))
        centres[group.get("data-name")] = (float(ring.get("cx", "0")), float(ring.get("cy", "0")))
    dx = (centres["neck-left"][0] - centres["stay-rear"][0]) * divisor
    dz = (centres["stay-rear"][1] - centres["neck-left"][1]) * divisor
    assert dx == pytest.approx(416 + 392, abs=0.02 * divisor)
    assert dz == pytest.approx(520 - 10, abs=0.02 * divisor)


def test_the_cut_and_the_feeding_end_are_told() -> None:
    words = _words(draw_route(make_plan(), make_frame()).svg)
    assert "cut the old line" in words
    assert "feed from bar-right" in words
    nothing_cut = _words(draw_route(replace(make_plan(), cut_old_at=None), make_frame()).svg)
    assert "cut the old line" not in nothing_cut


def test_feeding_from_the_other_end_turns_every_arrow() -> None:
    there = draw_route(make_plan(), make_frame()).svg
    back = draw_route(replace(make_plan(), feed_from=JobEnd.TO), make_frame()).svg
    assert "feed from caliper-rear" in _words(back)
    for one, other in zip(_named(there, "leg"), _named(back, "leg"), strict=True):
        assert list(one.iter(f"{SVG}path"))[-1].get("d") != list(other.iter(f"{SVG}path"))[-1].get("d")


def test_without_a_way_the_stopping_port_is_marked_and_no_line_is_drawn() -> None:
    svg = draw_route(make_stopped_plan(), make_frame()).svg
    assert "no way through" in _words(svg)
    assert _is_followed_by(
        _words(svg), "Down tube, lower left, in a moulded boss that faces down the tube", "stops every way"
    )
    assert not _named(svg, "leg")


def _is_followed_by(words: list[str], first: str, second: str) -> bool:
    return (first, second) in itertools.pairwise(words)


def test_a_place_that_decides_keeps_its_whole_name_in_two_rows_where_there_is_no_room_for_one() -> None:
    frame = make_frame()
    called = "Down tube, upper left, in a long boss"
    stays = {name: replace(frame.ports[name], label=called) for name in ("stay-front", "stay-rear")}
    ports = {**frame.ports, **stays}
    words = _words(draw_route(make_plan(), replace(frame, ports=ports), width_mm=90.0, is_bare=True).svg)
    assert _is_followed_by(words, f"{called}:", "1.12 mm at worst")
    assert "…" not in "".join(words)


def test_the_name_of_a_stretch_that_decides_stays_on_narrow_paper() -> None:
    """It was cut off at the edge where the stretch lies far to one side."""
    job, plan = demo_job("empty-frame-leader"), plan_and_table("empty-frame-leader")[0]
    svg = draw_route(plan, job.frame, line=job.new.line, width_mm=90.0, is_bare=True).svg
    assert _is_followed_by(_words(svg), "Down tube, inside:", "0.45 mm at worst")
    papers = [one for one in ET.fromstring(svg).iter(f"{SVG}rect") if one.get("fill-opacity") == "0.7"]
    assert len(papers) == 3
    for paper in papers:
        assert 0 <= float(paper.get("x", "")) <= 90 - float(paper.get("width", ""))


def test_many_holes_on_narrow_paper_stand_by_number_and_are_named_below_off_each_other() -> None:
    """Their names lay on one another."""
    frame = cockpit().frame
    narrow, wide = (draw_route(None, frame, width_mm=mm, is_bare=True).svg for mm in (95.0, 180.0))
    names = [port.label or port.id for port in frame.ports.values()]
    assert [words for words in _words(narrow) if words in names] == names
    assert {str(n) for n in range(1, len(names) + 1)} <= set(_words(narrow))
    assert not any(words.isdigit() for words in _words(wide))
    for (first, a), (second, b) in itertools.combinations(boxes_of_words(narrow), 2):
        assert a.shared_with(b) < 0.05, f"{first!r} lies on {second!r}"


def test_a_bare_frame_can_be_drawn_without_a_plan() -> None:
    svg = draw_route(None, make_frame()).svg
    assert _words(svg)[0] == make_frame().name
    assert not any("way" in words for words in _words(svg))


def test_a_frame_without_bore_bar_or_rear_can_be_drawn() -> None:
    frame = make_frame()
    zones = {one.id: replace(one, bore_diameter_mm=None) for one in frame.zones.values()}
    svg = draw_route(make_plan(), replace(frame, zones=zones, bar=None, rear=None)).svg
    assert "pivot" not in _words(svg)
    assert "steering axis" not in _words(svg)


def test_the_same_plan_gives_the_same_bytes() -> None:
    assert draw_route(make_plan(), make_frame()).svg == draw_route(make_plan(), make_frame()).svg


def test_nothing_that_converters_lose_is_used() -> None:
    for svg in (draw_route(make_plan(), make_frame()).svg, draw_route(make_stopped_plan(), make_frame()).svg):
        assert not re.search(r"<(marker|pattern|style|script|image|foreignObject|use)\b", svg)


def test_names_from_a_file_are_escaped() -> None:
    frame = make_frame()
    ports = {one.id: replace(one, label="<b>&</b>") for one in frame.ports.values()}
    assert "<b>" not in draw_route(make_plan(), replace(frame, ports=ports)).svg


def test_places_run_from_anchor_to_anchor() -> None:
    assert places_in_order(make_plan(), make_frame()) == ("bar-right", *ROUTE, "caliper-rear")
    assert places_in_order(make_stopped_plan(), make_frame()) == ()


def test_turning_the_bar_moves_what_rides_on_it_and_nothing_else() -> None:
    frame = make_frame()
    turned = frame_in_posture(frame, bar_deg=40, swing_deg=0)
    assert isinstance(turned, Frame)
    assert turned.anchors["bar-right"].position_mm != frame.anchors["bar-right"].position_mm
    assert turned.anchors["caliper-rear"].position_mm == pytest.approx(frame.anchors["caliper-rear"].position_mm)
    assert turned.zones == frame.zones


def test_swinging_the_rear_takes_its_cavity_along() -> None:
    swung = frame_in_posture(make_frame(), bar_deg=0, swing_deg=15)
    assert isinstance(swung, Frame)
    assert swung.zones["down_tube"] == make_frame().zones["down_tube"]
    assert swung.zones["stay_left"].path_mm[1][2] > 60
    rest = make_frame()
    before = dist(place_position(rest, "stay-rear"), rest.zones["stay_left"].path_mm[1])
    assert dist(place_position(swung, "stay-rear"), swung.zones["stay_left"].path_mm[1]) == pytest.approx(before)


def test_a_cavity_without_holes_rides_where_it_says_so() -> None:
    frame = make_frame()
    still = Zone(id="seatstay_left", path_mm=((-92, 44, 330), (-418, 68, 34)), bore_diameter_mm=14)
    for zone, rides in ((still, False), (replace(still, moves_with=MovesWith.REAR), True)):
        swung = frame_in_posture(replace(frame, zones={**frame.zones, zone.id: zone}), bar_deg=0, swing_deg=15)
        assert isinstance(swung, Frame)
        assert (swung.zones[zone.id].path_mm != zone.path_mm) is rides


def test_a_posture_tells_how_much_line_it_takes() -> None:
    svg = draw_route(make_plan(), make_frame(), line=HOSE, bar_deg=30, swing_deg=10).svg
    (told,) = [words for words in _words(svg) if words.startswith("Bar turned")]
    found = re.fullmatch(r"Bar turned 30°, rear swung 10°: (\d+) to (\d+) mm of line from end to end", told)
    assert found
    assert 1000 < int(found[1]) <= int(found[2])


def test_links_that_lock_are_told_and_the_frame_is_shown_at_its_lock() -> None:
    rear = FourBar(
        frame_pivots_mm=((0, 100), (0, 0)),
        link_pivots_mm=((-100, 100), (-30, 0)),
        swing_deg=170,
        moves=("stay-rear", "caliper-rear"),
    )
    frame = replace(make_frame(), rear=rear)
    locked = frame_in_posture(frame, bar_deg=0, swing_deg=170)
    assert isinstance(locked, LinkageLocked)
    posed = pose_route(make_plan(), frame, HOSE, bar_deg=0, swing_deg=170)
    assert re.search(r"links lock at -?\d+\.\d°, before 170°: shown there: \d+ to \d+ mm of line", posed.words)
    stays_at, rests_at = (place_position(one, "stay-rear") for one in (posed.frame, frame))
    near = frame_in_posture(frame, bar_deg=0, swing_deg=locked.locks_at_deg - 0.01)
    assert isinstance(near, Frame)
    assert dist(stays_at, place_position(near, "stay-rear")) < 2 < dist(stays_at, rests_at)


@given(st.lists(st.tuples(st.floats(20, 80), st.floats(20, 80)), min_size=1, max_size=6, unique=True))
@settings(max_examples=60, deadline=None)
@example(points=[(44.25, 60.53125), (51.5, 63.0)])
def test_labels_on_roomy_paper_never_overlap(points: list[tuple[float, float]]) -> None:
    labels = [Label(words=f"port {number}", point=point, height_mm=2) for number, point in enumerate(points)]
    placed = place_labels(labels, paper=Area(left_mm=0, top_mm=0, right_mm=100, bottom_mm=100))
    for one, other in itertools.combinations(placed, 2):
        assert one.area.shared_with(other.area) == pytest.approx(0)


def test_wrapped_rows_stay_within_the_room() -> None:
    rows = wrapped("Down tube, lower left, in a moulded boss that faces down the tube", height_mm=3, room_mm=60)
    assert len(rows) > 1
    assert all(text_width_mm(row, height_mm=3) <= 60 for row in rows)
    assert wrapped("", height_mm=3, room_mm=60) == []
