"""The demo frames told with less: without any place, or with places that make no sense."""

from dataclasses import replace
from functools import cache
from pathlib import Path
from random import Random
from typing import Any

from catalog import STARTER_FOLDER, Catalog, read_catalog, read_job
from planner import plan_as_record, plan_job
from planner.fit.brake_end import find_brake_end
from planner.fit.port_fit import is_in_line_with_tube
from planner.parts import (
    OUTSIDE,
    AnchorPart,
    Frame,
    Job,
    Point,
    Port,
    PortLooks,
    RiderSide,
    Workshop,
    is_lever_at_from,
)

FOLDER = Path(__file__).parents[3] / "demo_frames"
JOBS = sorted(path.name.removesuffix(".job.yaml") for path in FOLDER.glob("*.job.yaml"))


@cache
def demo_catalog() -> Catalog:
    """Starter and demo frames."""
    return read_catalog([STARTER_FOLDER, *sorted(FOLDER.glob("*.frame.yaml"))])


@cache
def demo_job(name: str) -> tuple[Job, Workshop]:
    """A demo job with the workshop it is planned in."""
    catalog = demo_catalog()
    return read_job(FOLDER / f"{name}.job.yaml", catalog), catalog.workshop


def planned(job: Job, workshop: Workshop) -> dict[str, Any]:
    """The record of a plan."""
    return plan_as_record(plan_job(job=job, workshop=workshop))


@cache
def planned_in_full(name: str) -> dict[str, Any]:
    """The record of a demo job's plan, its frame with all places and with the words of `with_words`."""
    job, workshop = demo_job(name)
    return planned(with_words(job), workshop)


def holes_only(job: Job) -> Job:
    """The job on its frame told without a place; which way a hole looks, and what sits at the ends, in words."""
    frame = with_words(job).frame
    return replace(
        job,
        frame=replace(
            frame,
            zones={key: replace(zone, path_mm=()) for key, zone in frame.zones.items()},
            ports={key: replace(port, position_mm=None, heading=None) for key, port in frame.ports.items()},
            anchors={key: replace(end, position_mm=None, heading=None) for key, end in frame.anchors.items()},
            runs={key: replace(run, via_mm=(), clips_mm=()) for key, run in frame.runs.items()},
        ),
    )


def with_nonsense(job: Job, *, seed: int) -> Job:
    """The job on its frame with every place and heading of ports, anchors and cavities drawn at random.

    How much line is supplied is left out, for that it is too short for nonsense is true.
    """
    chance, frame = Random(seed), with_words(job).frame

    def place() -> Point:
        return (chance.uniform(-900, 900), chance.uniform(-300, 300), chance.uniform(-200, 900))

    return replace(
        job,
        new=replace(job.new, supplied_length_mm=None),
        frame=replace(
            frame,
            zones={
                key: replace(zone, path_mm=tuple(place() for _ in zone.path_mm)) for key, zone in frame.zones.items()
            },
            ports={key: replace(port, position_mm=place(), heading=place()) for key, port in frame.ports.items()},
            anchors={key: replace(end, position_mm=place(), heading=place()) for key, end in frame.anchors.items()},
            runs={key: replace(run, via_mm=(), clips_mm=()) for key, run in frame.runs.items()},
        ),
    )


def with_words(job: Job) -> Job:
    """The same job with what its places say told in words too."""
    frame, ends = job.frame, (job.from_anchor_id, job.to_anchor_id)
    is_at_from = is_lever_at_from(frame=frame, from_anchor_id=ends[0], to_anchor_id=ends[1])
    parts = dict(zip(ends if is_at_from else ends[::-1], (AnchorPart.LEVER, AnchorPart.CALIPER), strict=True))
    anchors = {}
    for key, anchor in frame.anchors.items():
        aside_mm = 0.0 if anchor.position_mm is None else anchor.position_mm[1]
        side = None if aside_mm == 0 else RiderSide.LEFT if aside_mm > 0 else RiderSide.RIGHT
        end = find_brake_end(job=job) if parts.get(key) is AnchorPart.CALIPER else None
        anchors[key] = replace(anchor, part=parts.get(key), side=side, end=end)
    ports = {key: replace(port, looks=_looks(frame, port)) for key, port in frame.ports.items()}
    return replace(job, frame=replace(frame, ports=ports, anchors=anchors))


def _looks(frame: Frame, port: Port) -> PortLooks:
    zones = [frame.zones[zone_id] for zone_id in port.joins if zone_id != OUTSIDE]
    is_along = all(is_in_line_with_tube(port=port, zone=zone) for zone in zones)
    return PortLooks.ALONG if is_along else PortLooks.SIDE
