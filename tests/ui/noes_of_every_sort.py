"""Jobs that have no plan, or not yet: one for each reason, on demo frames and the starter catalog."""

from dataclasses import replace
from functools import cache
from pathlib import Path

from catalog import STARTER_FOLDER, Catalog, read_catalog, read_job
from planner import RoutingPlan, plan_job
from planner.parts import HubKind, Job, LineEnd, MountKind, NewLine, OldLine

DEMO = Path(__file__).parents[2] / "demo_frames"


@cache
def demo_catalog() -> Catalog:
    return read_catalog([STARTER_FOLDER, *sorted(DEMO.glob("*.frame.yaml"))])


def demo_job(name: str) -> Job:
    return read_job(DEMO / f"{name}.job.yaml", demo_catalog())


def _brake_with(mount: MountKind) -> Job:
    job = demo_job("trail-rear-brake")
    assert job.new.brake is not None
    return replace(job, new=replace(job.new, brake=replace(job.new.brake, caliper_mount=mount)))


def _hose_without_bore() -> Job:
    job = demo_job("hardtail-shared-port")
    return replace(job, new=replace(job.new, line=replace(job.new.line, bore_diameter_mm=None)))


def _plugged_wire() -> Job:
    catalog, job = demo_catalog(), demo_job("hardtail-gear-housing")
    wire, plug = catalog.lines["wire-25"], LineEnd(fitting=catalog.fittings["wire-plug"], is_fitted=True)
    old = OldLine(line=catalog.lines["gear-cable-12"], from_end=LineEnd(), to_end=LineEnd())
    return replace(job, old=old, new=NewLine(line=wire, from_end=plug, to_end=plug))


def _empty_and_plugged() -> Job:
    return replace(_plugged_wire(), old=None)


def _short() -> Job:
    job = demo_job("trail-rear-brake")
    return replace(job, new=replace(job.new, supplied_length_mm=1000.0))


def _only(job: Job, *method_ids: str) -> RoutingPlan:
    workshop = demo_catalog().workshop
    methods = tuple(method for method in workshop.methods if method.id in method_ids)
    return plan_job(job=job, workshop=replace(workshop, methods=methods))


@cache
def noes() -> dict[str, RoutingPlan]:
    """Plans that let no work begin, by what stands against them."""
    workshop = demo_catalog().workshop

    def planned(job: Job) -> RoutingPlan:
        return plan_job(job=job, workshop=workshop)

    hub = replace(demo_job("trail-rear-brake"), rotor_hub=HubKind.SPLINED)
    return {
        "closed stops": planned(demo_job("city-cable-stops")),
        "an unmeasured hole": planned(demo_job("touring-unmeasured")),
        "another mount": planned(_brake_with(MountKind.IS_TABS)),
        "another hub": planned(hub),
        "a short line": planned(_short()),
        "an unmeasured bore": _only(_hose_without_bore(), "coupler-26", "spoke-18"),
        "a plug nobody measured": planned(_empty_and_plugged()),
        "no joint": _only(demo_job("trail-rear-brake"), "coupler-30"),
    }
