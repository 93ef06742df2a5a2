"""Every picture of a plan by name, for the page and for files alike."""

from planner import Picture, RoutingPlan, draw_hole, draw_length_bar, draw_motion, draw_route
from planner.parts import Job


def pictures_of(plan: RoutingPlan, job: Job) -> dict[str, Picture]:
    """Every picture of a plan, by name."""
    pictures = {"route": draw_route(plan, job.frame)}
    if plan.lengths is not None:
        pictures["lengths"] = draw_length_bar(plan.lengths, names=plan.names)
    for number, check in enumerate(plan.checks, 1):
        port = job.frame.ports.get(check.port_id or "")
        if port is None:
            continue
        name = f"{number:02d}-{port.id}-{check.rule}-{check.state}"
        if check.rule.is_about_hole:
            pictures[name] = draw_hole(check, label=plan.names.place(port.id), names=plan.names.things)
        elif check.motion:
            pictures[name] = draw_motion(check, label=plan.names.place(port.id))
    return pictures
