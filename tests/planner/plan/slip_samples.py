"""A frame whose tubes run along the axes, so that what is unlikely of it can be worked in the head; and its limits."""

from dataclasses import replace
from functools import cache
from typing import Any

from catalog import read_catalog
from planner.parts import OUTSIDE, Anchor, Bar, Frame, Guide, MovesWith, Run, SlipLimits, Zone
from planner.plan.slips.frame_slips import find_slips
from planner.rules import SlipRule
from planner.verdicts import Check
from tests.builders import make_port

STAY_OUT = ("stay_left", OUTSIDE)


@cache
def limits() -> SlipLimits:
    """Those of the starter catalog."""
    found = read_catalog().workshop.limits.slips
    assert found is not None
    return found


def plain_frame() -> Frame:
    """A down tube level at z 300, a stay level at z 20, an upright head tube; nothing of it is unlikely."""
    zones = (
        Zone(id="down_tube", path_mm=((400, 0, 300), (0, 0, 300)), bore_diameter_mm=40),
        Zone(id="stay_left", path_mm=((0, 50, 20), (-400, 50, 20)), bore_diameter_mm=16),
        Zone(id="head_tube", path_mm=((400, 0, 620), (400, 0, 500)), bore_diameter_mm=44),
    )
    into, out_of = (OUTSIDE, "down_tube"), ("down_tube", OUTSIDE)
    ports = (
        make_port("neck-left", joins=into, position_mm=(350, 22, 300), heading=(-0.7, -0.7, 0), wall_thickness_mm=2),
        make_port("belly-left", joins=out_of, position_mm=(50, 22, 300), heading=(-0.7, 0.7, 0), wall_thickness_mm=2),
        make_port("stay-rear", joins=STAY_OUT, position_mm=(-350, 50, 30), heading=(-0.9, 0, 0.4), wall_thickness_mm=2),
    )
    anchors = (
        Anchor(id="lever-left", position_mm=(450, 200, 600), heading=(-0.5, -0.8, -0.5), moves_with=MovesWith.BAR),
        Anchor(id="caliper", position_mm=(-420, 60, 60), heading=(0.9, -0.1, -0.4)),
    )
    runs = (
        Run(id="cockpit", zone_id=OUTSIDE, between=("lever-left", "neck-left")),
        Run(id="down", zone_id="down_tube", between=("neck-left", "belly-left"), guide=guide(310)),
        Run(id="tail", zone_id=OUTSIDE, between=("stay-rear", "caliper")),
    )
    return Frame(
        id="plain",
        name="Plain",
        zones={zone.id: replace(zone, path_mm=_floats(zone.path_mm)) for zone in zones},
        ports={port.id: port for port in ports},
        anchors={anchor.id: anchor for anchor in anchors},
        runs={run.id: run for run in runs},
        bar=Bar(axis_point_mm=(400, 0, 600), axis=(0, 0, 1), lock_deg=70),
    )


def _floats(path_mm: tuple[Any, ...]) -> tuple[Any, ...]:
    return tuple(tuple(float(number) for number in point) for point in path_mm)


def guide(length_mm: float | None) -> Guide:
    """A straight guide of that length."""
    return Guide(bore_diameter_mm=6, bend_radius_mm=None, turn_deg=0, length_mm=length_mm, tolerance_mm=0.1)


def with_port(frame: Frame, id_: str, **changes: Any) -> Frame:
    """The frame with one hole told otherwise."""
    return replace(frame, ports={**frame.ports, id_: replace(frame.ports[id_], **changes)})


def with_anchor(frame: Frame, id_: str, **changes: Any) -> Frame:
    """The frame with one lever or caliper told otherwise."""
    return replace(frame, anchors={**frame.anchors, id_: replace(frame.anchors[id_], **changes)})


def with_run(frame: Frame, id_: str, **changes: Any) -> Frame:
    """The frame with one run told otherwise."""
    return replace(frame, runs={**frame.runs, id_: replace(frame.runs[id_], **changes)})


def slips_of(frame: Frame, *, with_loops: bool = False) -> list[Check]:
    """What is asked about a frame, by the starter's limits."""
    return list(find_slips(frame=frame, limits=limits(), with_loops=with_loops))


def asked(frame: Frame, *, with_loops: bool = False) -> set[SlipRule]:
    """The rules of it."""
    return {check.rule for check in slips_of(frame, with_loops=with_loops) if isinstance(check.rule, SlipRule)}
