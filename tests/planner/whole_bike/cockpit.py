"""The worked example: four lines on the widened hardtail of the demo, with guides of any bore."""

from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

from catalog import Catalog, read_catalog, read_job_or_visit
from planner import VisitPlan, plan_visit
from planner.parts import Point, Visit, Workshop

DEMO = Path(__file__).parents[3] / "demo_frames"


@cache
def catalog() -> Catalog:
    """The starter catalog with the demo's wide frames."""
    return read_catalog([DEMO / "hardtail-wide.frame.yaml"], over_starter=True)


def workshop() -> Workshop:
    """The starter's workshop."""
    return catalog().workshop


def cockpit(*, guide_mm: float = 10.6, slot_mm: float = 24.0, takes_out_first: bool = True) -> Visit:
    """The demo's cockpit swap with other guides or another slot."""
    visit = read_job_or_visit(DEMO / "cockpit-swap.visit.yaml", catalog())
    assert isinstance(visit, Visit)
    frame = visit.frame
    runs = {
        run_id: run if run.guide is None else replace(run, guide=replace(run.guide, bore_diameter_mm=guide_mm))
        for run_id, run in frame.runs.items()
    }
    neck = frame.ports["shared-neck"]
    slot = replace(neck, opening=replace(neck.opening, length_mm=slot_mm))  # type: ignore[type-var]
    frame = replace(frame, runs=runs, ports={**frame.ports, "shared-neck": slot})
    return replace(visit, frame=frame, may_take_out_first=takes_out_first)


@cache
def planned(*, guide_mm: float = 10.6, takes_out_first: bool = True) -> VisitPlan:
    """The plan of the demo's cockpit swap: gear, lamp, rear brake, sensor; with guides of 10.2 and swaps only, a no."""
    return plan_visit(visit=cockpit(guide_mm=guide_mm, takes_out_first=takes_out_first), workshop=workshop())


def mirrored(visit: Visit) -> Visit:
    """The same bicycle in a mirror: what lay to the rider's left lies to the right."""

    def turned(point: Point | None) -> Point | None:
        return None if point is None else (point[0], -point[1], point[2])

    def at(thing: Any) -> Any:
        return replace(thing, position_mm=turned(thing.position_mm), heading=turned(thing.heading))

    frame = visit.frame
    zones = {
        key: replace(zone, path_mm=tuple((x, -y, z) for x, y, z in zone.path_mm)) for key, zone in frame.zones.items()
    }
    ports = {key: at(port) for key, port in frame.ports.items()}
    anchors = {key: at(anchor) for key, anchor in frame.anchors.items()}
    return replace(visit, frame=replace(frame, zones=zones, ports=ports, anchors=anchors))
