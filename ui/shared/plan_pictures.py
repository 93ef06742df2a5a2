"""Every picture of a plan by name, for the page and for files alike."""

from planner import RoutingPlan, draw_hole, draw_length_bar, draw_motion, draw_route
from planner.parts import Job, Port
from planner.verdicts import Check
from ui.shared.labels import HOLE_RULES


def pictures_of(plan: RoutingPlan, job: Job) -> dict[str, str]:
    """Every picture of a plan, by name."""
    pictures = {"route": draw_route(plan, job.frame)}
    if plan.lengths is not None:
        pictures["lengths"] = draw_length_bar(plan.lengths)
    for number, check in enumerate(plan.checks, 1):
        port = job.frame.ports.get(check.port_id or "")
        if port is None:
            continue
        name = f"{number:02d}-{port.id}-{check.rule}-{check.state}"
        if check.rule in HOLE_RULES:
            pictures[name] = draw_hole(check, port, names=names_of(job))
        elif check.motion:
            pictures[name] = motion_pictures(check, port, plan, job)[0]
    return pictures


def names_of(job: Job) -> dict[str, str]:
    """What to call the lines that stay, by id."""
    return {staying.line.id: staying.line.name for staying in job.staying}


def motion_pictures(check: Check, port: Port, plan: RoutingPlan, job: Job) -> tuple[str, str]:
    """The strip of poses for a wide and for a narrow window."""
    length_mm = check.size_mm or 0.0
    run = job.frame.runs[check.run_id or ""]
    corridor_mm = job.frame.zones[run.zone_id].bore_diameter_mm or 0.0
    diameter_mm = _diameter_of_piece_mm(length_mm, plan, job)
    wide, narrow = (
        draw_motion(
            check,
            port,
            piece_length_mm=length_mm,
            piece_diameter_mm=diameter_mm,
            corridor_mm=corridor_mm,
            width_mm=width_mm,
        )
        for width_mm in (180, 92)
    )
    return wide, narrow


def _diameter_of_piece_mm(length_mm: float, plan: RoutingPlan, job: Job) -> float:
    """The stiff piece of this length: the joint, or else the fitting on the leading end."""
    if plan.joint is not None and plan.joint.rigid_length_mm == length_mm:
        return plan.joint.diameter_mm
    fittings = [end.fitting for end in (job.new.from_end, job.new.to_end) if end.fitting is not None]
    return next(fitting.outer_diameter_mm for fitting in fittings if fitting.length_mm == length_mm)
