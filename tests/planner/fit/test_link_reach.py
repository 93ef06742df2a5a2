"""How far a spoke may reach into both lines: the place that decides, no limit at all, and places nobody measured."""

from dataclasses import replace
from math import inf

import pytest

from planner.fit.guide_fit import check_rigid_in_guide
from planner.fit.link_reach import GuideOnWay, WallOnWay, find_longest_reach
from planner.fit.wall_fit import check_rigid_through_wall, find_longest_through_port
from planner.parts import OUTSIDE, Guide, Port, RoundOpening, SlotOpening
from planner.verdicts import Outcome, State, Thing, ThingKind

PORT = Port(
    id="belly-left",
    label="Down tube, lower left",
    joins=(OUTSIDE, "down_tube"),
    position_mm=(58.0, 20.0, 96.0),
    heading=(0.6, 0.0, 0.8),
    opening=SlotOpening(length_mm=12.0, width_mm=7.0, tolerance_mm=0.1),
    wall_thickness_mm=2.0,
)
NECK = replace(PORT, id="neck-left", opening=RoundOpening(diameter_mm=7.0, tolerance_mm=0.1))
LINE = Thing(id="hose", kind=ThingKind.LINE, diameter_mm=5.0, tolerance_mm=0.05)
GUIDE = Guide(bore_diameter_mm=6.2, bend_radius_mm=400.0, turn_deg=12.0, tolerance_mm=0.1)


def wall_outcome(port, length):
    return check_rigid_through_wall(
        port=port,
        run_id="down-run",
        corridor_mm=35.0,
        item=replace(LINE, rigid_length_mm=length),
        is_entry=True,
        is_insert_out=True,
    ).outcome


def bend_outcome(guide, length):
    return check_rigid_in_guide(
        guide=guide, run_id="loop", state=State.DRAWING, item=replace(LINE, rigid_length_mm=length)
    ).outcome


def reach(guides=(), walls=()):
    return find_longest_reach(line=LINE, guides=guides, walls=walls)


def wall_way(port=PORT, run_id="down-run", corridor=35.0):
    return WallOnWay(port=port, run_id=run_id, corridor_mm=corridor)


def test_the_tightest_wall_decides_the_reach():
    found = reach(walls=[wall_way(), wall_way(NECK)])
    longest = find_longest_through_port(port=NECK, corridor_mm=35.0, item=LINE, is_worst_case=True)
    assert (found.port_id, found.run_id, found.not_measured) == ("neck-left", "down-run", ())
    assert found.reach_mm == pytest.approx(longest.length_mm / 2)
    assert wall_outcome(NECK, 2 * found.reach_mm) is Outcome.FITS
    assert wall_outcome(NECK, 2 * found.reach_mm * 1.002) is not Outcome.FITS


def test_the_tightest_bend_decides_the_reach():
    tight = replace(GUIDE, bend_radius_mm=60.0, turn_deg=90.0)
    ways = [GuideOnWay(run_id="stay-run", guide=GUIDE), GuideOnWay(run_id="loop", guide=tight)]
    found = reach(guides=ways, walls=[wall_way()])
    worst = 2 * ((60 + 6.1) ** 2 - (60 + 5.05) ** 2) ** 0.5
    assert (found.run_id, found.port_id) == ("loop", None)
    assert found.reach_mm == pytest.approx(worst / 2)
    assert bend_outcome(tight, 2 * found.reach_mm) is Outcome.FITS
    assert bend_outcome(tight, 2 * found.reach_mm * 1.001) is not Outcome.FITS


def test_nothing_in_the_way_sets_no_limit():
    straight = GuideOnWay(run_id="stay-run", guide=replace(GUIDE, turn_deg=0.0))
    for found in (reach(), reach(guides=[straight])):
        assert (found.reach_mm, found.run_id, found.port_id, found.not_measured) == (inf, None, None, ())


def test_a_place_not_measured_is_named():
    blind = GuideOnWay(run_id="loop", guide=replace(GUIDE, bend_radius_mm=None))
    found = reach(guides=[blind], walls=[wall_way(corridor=None), wall_way(run_id="other")])
    assert found.not_measured == ("loop", "down-run")
    assert (found.port_id, found.run_id) == ("belly-left", "other")


def test_a_line_wider_than_a_bore_has_no_reach():
    narrow = GuideOnWay(run_id="loop", guide=replace(GUIDE, bore_diameter_mm=5.1))
    assert reach(guides=[narrow]).reach_mm == 0
