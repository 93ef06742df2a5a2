"""A paper gauge at true size: is each hole as large as it must be, is what goes through as thin as was reckoned?"""

from collections.abc import Iterator, Sequence
from typing import Any

from planner.documents.drawings.gauge_drawing import draw_hole_gauge, draw_jaws, draw_ruler, least_opening
from planner.documents.drawings.svg import SOFT_INK
from planner.documents.paper.pages import pages_as_pdf
from planner.documents.paper.parts import gap, heading, picture, side_by_side
from planner.documents.paper.style import PageSize, text_width_mm, words
from planner.parts import Frame, Measure, Measured
from planner.plan.routing_plan import RoutingPlan
from planner.plan.tightest import tightest_by_port

_TALLEST_MM = 235.0


def gauge_sheet_pdf(
    *,
    plan: RoutingPlan,
    frame: Frame,
    measures: Sequence[Measure] = (),
    page_size: PageSize = "a4",
    date_text: str = "",
    shop_name: str = "",
) -> bytes:
    """Plugs for the holes of a plan, jaws for its joint, and a ruler that tells whether the printer kept the size.

    Returns PDF; the same for the same input.

    plan : with its checks; a "no" gets the holes that it was asked about
    frame : the frame it was made for
    measures : among them how well a paper gauge does
    date_text : the day to print; "" for none
    shop_name : printed at the foot; "" for none

    Raises ValueError where a hole is too large for the paper.
    """
    width_mm = text_width_mm(page_size)
    title = f"Gauge: {plan.job_title or plan.job_id}"
    ruler = draw_ruler(width_mm=width_mm)
    parts = [
        words(title, "title"),
        words(
            "Print at 100 %, not fitted to the page. Hold a real ruler to the one below: where they differ, throw this "
            "sheet away. Cut a plug out along its line and push it in flat, without force.",
            colour=SOFT_INK,
        ),
        gap(1),
        *picture(ruler, width_mm=width_mm, height_mm=ruler.height_mm),
        *_holes(plan, frame, _paper_error_mm(measures), width_mm),
        *_joint(plan, width_mm),
    ]
    foot = " · ".join(text for text in (shop_name, plan.job_id, date_text) if text)
    return pages_as_pdf(parts, page_size=page_size, title=title, foot=foot or "gauge")


def _paper_error_mm(measures: Sequence[Measure]) -> float | None:
    return next((measure.give_or_take for measure in measures if measure.of is Measured.PAPER), None)


def _holes(plan: RoutingPlan, frame: Frame, paper_error_mm: float | None, width_mm: float) -> Iterator[Any]:
    yield from heading(
        "Holes: the upper plug must go in; the lower one shows the hole as it was told", followed_by_mm=40
    )
    drawn: list[list[Any]] = []
    untold: list[str] = []
    for port_id, check in tightest_by_port(plan, frame.ports).items():
        label = frame.ports[port_id].label or port_id
        label += ", its insert in" if check.is_insert_in else ""
        if least_opening(check) is None:
            untold.append(label)
            continue
        gauge = draw_hole_gauge(check, label=label, width_mm=width_mm / 2, paper_error_mm=paper_error_mm)
        drawn.append(_at_true_size(gauge, width_mm / 2, label))
    for first in range(0, len(drawn), 2):
        left, right = [*drawn[first : first + 2], []][:2]
        yield side_by_side(left, right, width_mm=width_mm)
    if not drawn and not untold:
        yield words("The answer rests on no hole that could be gauged.")
    if untold:
        yield words(f"No gauge, for it is not measured, or too small for all that share it: {', '.join(untold)}.")


def _joint(plan: RoutingPlan, width_mm: float) -> Iterator[Any]:
    if plan.joint is None:
        return
    yield from heading("What goes through: it must lie between the two lines", followed_by_mm=30)
    jaws = draw_jaws(plan.joint.thing, label=plan.method_name, width_mm=width_mm)
    yield from _at_true_size(jaws, width_mm, plan.method_name)


def _at_true_size(drawing: Any, width_mm: float, label: str) -> list[Any]:
    if drawing.width_mm > width_mm + 1e-6 or drawing.height_mm > _TALLEST_MM:
        raise ValueError(f"{label}: too large for this paper")
    return picture(drawing, width_mm=width_mm, height_mm=_TALLEST_MM)
