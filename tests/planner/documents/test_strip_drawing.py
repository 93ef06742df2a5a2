"""The strip of holes that stands where nobody told a place: what is in it, and that no two words lie on each other."""

import itertools
import xml.etree.ElementTree as ET
from dataclasses import replace

import pytest

from planner.documents.drawings.route_drawing import draw_route
from planner.documents.paper.job_card import job_card_pdf
from planner.parts import Frame, JobEnd
from planner.plan.routing_plan import RoutingPlan
from tests.planner.documents.drawing_samples import ROUTE, boxes_of_words, make_frame, make_plan, make_stopped_plan

SVG = "{http://www.w3.org/2000/svg}"


def without_places(frame: Frame) -> Frame:
    """The sample frame with every place left out."""
    return replace(
        frame,
        zones={key: replace(zone, path_mm=()) for key, zone in frame.zones.items()},
        ports={key: replace(port, position_mm=None, heading=None) for key, port in frame.ports.items()},
        anchors={key: replace(anchor, position_mm=None, heading=None) for key, anchor in frame.anchors.items()},
    )


def without_curves(plan: RoutingPlan) -> RoutingPlan:
    """The sample plan as it is without places."""
    if plan.lengths is None:
        return plan
    legs = tuple(replace(leg, high_mm=None, curve=None, relaxed_curve=None) for leg in plan.lengths.legs)
    return replace(plan, lengths=replace(plan.lengths, legs=legs, need_mm=None, cut_mm=None, spare_mm=None))


def groups(svg: str, role: str) -> list[str | None]:
    """Names of the groups of a role, from the top."""
    return [node.get("data-name") for node in ET.fromstring(svg).iter(f"{SVG}g") if node.get("class") == role]


def words_of(svg: str) -> list[str]:
    return [node.text or "" for node in ET.fromstring(svg).iter(f"{SVG}text")]


@pytest.mark.parametrize("is_bare", [True, False], ids=["on a screen", "on paper"])
@pytest.mark.parametrize("width_mm", [180, 95, 90])
def test_no_two_words_overlap_and_none_leaves_the_paper(width_mm: float, is_bare: bool) -> None:
    for plan in (without_curves(make_plan()), make_plan(with_lengths=False), make_stopped_plan(), None):
        drawn = draw_route(plan, without_places(make_frame()), width_mm=width_mm, is_bare=is_bare, bar_deg=20)
        boxes = boxes_of_words(drawn.svg)
        assert boxes
        for (first, a), (second, b) in itertools.combinations(boxes, 2):
            assert a.shared_with(b) < 0.05, f"{first!r} lies on {second!r}"
        for words, area in boxes:
            assert area.left_mm >= 0, words
            assert area.right_mm <= width_mm, words
            assert area.bottom_mm <= drawn.height_mm, words


def test_holes_and_legs_stand_in_the_order_of_the_way() -> None:
    plan = without_curves(make_plan())
    svg = draw_route(plan, without_places(make_frame())).svg
    assert groups(svg, "port") == list(ROUTE)
    assert groups(svg, "leg") == list(plan.runs)
    assert any("length not known" in words for words in words_of(svg))
    assert not any("Scale" in words for words in words_of(svg))
    assert groups(svg, "cut") != []


def test_a_frame_with_no_plan_shows_all_its_holes() -> None:
    frame = without_places(make_frame())
    assert groups(draw_route(None, frame).svg, "port") == list(frame.ports)
    stopped = draw_route(make_stopped_plan(), frame).svg
    assert groups(stopped, "port") == list(frame.ports)
    assert "stops every way" in words_of(stopped)


def test_a_long_name_stands_out_in_all_its_rows() -> None:
    frame = without_places(make_frame())
    called = "Down tube, 35 mm from its upper end, in a boss on the left"
    ports = {ROUTE[0]: replace(frame.ports[ROUTE[0]], label=called)}
    svg = draw_route(None, replace(frame, ports=ports), width_mm=90, is_bare=True).svg
    bold = [one.text or "" for one in ET.fromstring(svg).iter(f"{SVG}text") if one.get("font-weight") == "bold"]
    assert len(bold) == 2
    assert " ".join(bold) == called


def test_the_feeding_end_is_named_at_whichever_end_it_is() -> None:
    plan, frame = without_curves(make_plan()), without_places(make_frame())
    for end in JobEnd:
        fed = [words for words in words_of(draw_route(replace(plan, feed_from=end), frame).svg) if "feed from" in words]
        assert len(fed) == 1


def test_one_hole_without_a_place_is_enough_for_a_strip() -> None:
    frame = make_frame()
    port = replace(frame.ports[ROUTE[0]], position_mm=None, heading=None)
    mixed = replace(frame, ports={**frame.ports, ROUTE[0]: port})
    assert groups(draw_route(make_plan(), mixed).svg, "port") == list(ROUTE)
    assert groups(draw_route(make_plan(), mixed).svg, "tubes") == []
    assert len(groups(draw_route(make_plan(), frame).svg, "tubes")) == 1


def test_a_card_without_places_is_made() -> None:
    card = job_card_pdf(plan=without_curves(make_plan()), frame=without_places(make_frame()))
    assert card.startswith(b"%PDF")


def test_a_card_whose_frame_has_a_cavity_without_a_path_is_made() -> None:
    frame = make_frame()
    zone = replace(next(iter(frame.zones.values())), path_mm=())
    card = job_card_pdf(plan=make_plan(), frame=replace(frame, zones={**frame.zones, zone.id: zone}))
    assert card.startswith(b"%PDF")
