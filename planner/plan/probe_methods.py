"""Joints that a shop has not and that would serve a job: tried, and told by their size."""

from collections.abc import Iterator
from math import sqrt

from planner.fit.joint_size import check_method_suits_lines
from planner.fit.way_in_fit import cable_in_frame_mm
from planner.parts import (
    Job,
    LeaderLine,
    Line,
    LineKind,
    Method,
    MethodKind,
    OverCable,
    ShopLimits,
    SleeveTube,
    SpokeLink,
    ThreadedCoupler,
    Workshop,
)
from planner.plan.way_out import WayOutKind
from planner.verdicts import Outcome

SPOKE_REACH_MM = 20.0
"""Of the spoke link that is tried where the shop has none."""

STUD_LENGTH_MM, COLLAR_LENGTH_MM = 9.0, 3.0
"""Of the coupler that is tried where none of the shop's suits the bores; common practice, no source."""

SLEEVE_GRIP_MM = 25.0
THIN_MM = 0.01
"""A wall or a reach that adds nothing: for a joint of which only the diameter is asked."""


def missing_methods(*, job: Job, workshop: Workshop) -> Iterator[tuple[WayOutKind, Method, float | None]]:
    """Joints of kinds of which the shop has none that suits both lines, with the size in mm they are told by."""
    found = (
        (WayOutKind.SPOKE_LINK, _spoke(job)),
        (WayOutKind.COUPLER, _coupler(job, workshop.limits)),
        (WayOutKind.OVER_CABLE, _over_cable(job)),
    )
    for kind, method in found:
        if method is not None and not _has_one(job, workshop, method.kind):
            yield kind, method, _told_size_mm(method)


def _told_size_mm(method: Method) -> float | None:
    if isinstance(method, SpokeLink):
        return method.rod_diameter_mm
    return method.stud_diameter_mm if isinstance(method, ThreadedCoupler) else None


def _has_one(job: Job, workshop: Workshop, kind: MethodKind) -> bool:
    old = None if job.old is None else job.old.line
    return any(
        method.kind is kind
        and all(
            check.outcome < Outcome.NO_FIT
            for check in check_method_suits_lines(method=method, old=old, new=job.new.line, limits=workshop.limits)
        )
        for method in workshop.methods
    )


def _bores_mm(job: Job) -> list[float]:
    """Of old and new line; empty where one has none, or nobody measured it."""
    bores = [line.bore_diameter_mm for line in _lines(job)]
    known = [bore for bore in bores if bore is not None]
    return known if job.old is not None and len(known) == len(bores) else []


def _lines(job: Job) -> list[Line]:
    return [job.new.line, *([] if job.old is None else [job.old.line])]


def _spoke(job: Job) -> SpokeLink | None:
    bores_mm = _bores_mm(job)
    if not bores_mm:
        return None
    return SpokeLink(
        id="spoke_link",
        name="Spoke link",
        rod_diameter_mm=min(bores_mm),
        reach_mm=SPOKE_REACH_MM,
        holds_n=0.0,
        setup_min=0.0,
    )


def _coupler(job: Job, limits: ShopLimits) -> ThreadedCoupler | None:
    """The thinnest stud that bites in both bores, with a collar no thicker than the lines."""
    bores_mm = _bores_mm(job)
    if not bores_mm:
        return None
    stud_mm = round(max(bores_mm) + limits.stud_squeeze_min_mm, 3)
    thinnest_mm = min(line.outer_diameter_mm for line in _lines(job))
    if stud_mm > min(bores_mm) + limits.stud_squeeze_max_mm or stud_mm >= thinnest_mm:
        return None
    return ThreadedCoupler(
        id="coupler",
        name="Threaded coupler",
        stud_diameter_mm=stud_mm,
        stud_length_mm=STUD_LENGTH_MM,
        collar_diameter_mm=thinnest_mm,
        collar_length_mm=COLLAR_LENGTH_MM,
        holds_n=None,
        setup_min=0.0,
    )


def _over_cable(job: Job) -> OverCable | None:
    is_housing = job.new.line.kind in (LineKind.BRAKE_HOUSING, LineKind.SHIFT_HOUSING)
    cable_mm = cable_in_frame_mm(None if job.old is None else job.old.line)
    return OverCable(id="over_cable", name="Over the old cable", setup_min=0.0) if is_housing and cable_mm else None


def soft_joint(*, job: Job, diameter_mm: float) -> SleeveTube | LeaderLine | None:
    """A soft joint of this diameter: a sleeve over both ends, or a leader's own; None where no sleeve is so thin."""
    if job.old is None or job.old.line.kind is LineKind.INNER_CABLE:
        return LeaderLine(
            id="soft_leader",
            name="Leader with a soft joint",
            outer_diameter_mm=THIN_MM,
            joint_diameter_mm=diameter_mm,
            joint_length_mm=0.0,
            holds_n=None,
            setup_min=0.0,
        )
    thickest_mm = max(line.outer_diameter_mm for line in _lines(job))
    bore_mm = min(line.outer_diameter_mm for line in _lines(job)) - THIN_MM
    outer_mm = sqrt(max(0.0, diameter_mm**2 - thickest_mm**2) + bore_mm**2)
    if outer_mm <= bore_mm + THIN_MM:
        return None
    return SleeveTube(
        id="soft_sleeve",
        name="Soft sleeve",
        bore_diameter_mm=bore_mm,
        outer_diameter_mm=outer_mm,
        grip_length_mm=SLEEVE_GRIP_MM,
        holds_n=None,
        setup_min=0.0,
    )


def thin_joints(*, job: Job) -> tuple[Method, ...]:
    """A joint that is no thicker than the lines, of which only that is asked."""
    if job.old is None or job.old.line.kind is LineKind.INNER_CABLE:
        leader = soft_joint(job=job, diameter_mm=job.new.line.outer_diameter_mm)
        return () if leader is None else (leader,)
    if bores_mm := _bores_mm(job):
        return (
            SpokeLink(
                id="thin_link",
                name="Link in both bores",
                rod_diameter_mm=min(bores_mm),
                reach_mm=THIN_MM,
                holds_n=0.0,
                setup_min=0.0,
            ),
        )
    return ()
