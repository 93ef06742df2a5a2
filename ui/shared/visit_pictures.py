"""Every picture of a visit by name, for the page and for files alike."""

from planner import Picture, VisitPlan, draw_visit, draw_visit_strips
from planner.parts import Visit
from ui.shared.plan_pictures import pictures_of


def pictures_of_visit(plan: VisitPlan, visit: Visit) -> dict[str, Picture]:
    """All lines on the frame, a strip for each shared hole, and the pictures of every line's own plan."""
    name = plan.visit_id
    pictures = {f"{name}-side-view": draw_visit(plan, visit)}
    pictures |= {f"{name}-{place_id}-strip": strip for place_id, strip in draw_visit_strips(plan).items()}
    for line in plan.lines:
        if line.plan is not None and line.job is not None:
            pictures |= {f"{line.plan.job_id}-{key}": one for key, one in pictures_of(line.plan, line.job).items()}
    return pictures
