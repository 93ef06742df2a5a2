"""A narrow label to stick on a cut line, or a strip of them: what it is, how long, for which job."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from planner.documents.paper.pages import sheets_as_pdf
from planner.documents.paper.parts import gap
from planner.documents.paper.style import POINTS_PER_MM, words
from planner.documents.words.wording import end_name
from planner.plan.cut_length import cut_words
from planner.plan.routing_plan import RoutingPlan

LABEL_WIDTH_MM, LABEL_HEIGHT_MM, LABEL_MARGIN_MM = 60.0, 30.0, 2.0
_LEAST_LABEL_MM = (25.0, 15.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class CutLabel:
    """One label.

    line_name : the line to cut
    length_mm : to cut to [mm]
    cut_over_mm : how much longer the cut may come out, never shorter; None where the shop has not said [mm]
    title : the job, or where the piece belongs
    note : a further line; "" for none
    """

    line_name: str
    length_mm: float
    cut_over_mm: float | None = None
    title: str
    note: str = ""


def least_label_mm() -> tuple[float, float]:
    """Width and height below which a label cannot be read. [mm]"""
    return _LEAST_LABEL_MM


def label_of_plan(plan: RoutingPlan) -> CutLabel | None:
    """The label of a plan's new line.

    None where there is nothing to cut, its length is not known, or no plan says to.
    """
    lengths = plan.lengths
    if lengths is None or lengths.cut_mm is None or not lengths.is_cut or not plan.outcome.lets_work_begin:
        return None
    note = f"feed from {end_name(plan, plan.feed_from)}" if plan.feed_from is not None else ""
    return CutLabel(
        line_name=plan.new_line_name,
        length_mm=lengths.cut_mm,
        cut_over_mm=lengths.cut_over_mm,
        title=plan.job_title or plan.job_id,
        note=note,
    )


def cut_label_pdf(
    *, labels: Sequence[CutLabel], width_mm: float = LABEL_WIDTH_MM, height_mm: float = LABEL_HEIGHT_MM
) -> bytes:
    """Labels on a strip, one a page.

    Returns PDF; the same for the same input.

    labels : in the order they are printed

    Raises ValueError when there is no label, or a label is narrower than 25 mm or lower than 15 mm.
    """
    if not labels:
        raise ValueError("there is no label to print")
    sizes_mm = {"width_mm": width_mm, "height_mm": height_mm}
    for (name, size_mm), least_mm in zip(sizes_mm.items(), _LEAST_LABEL_MM, strict=True):
        if size_mm < least_mm:
            raise ValueError(f"{name}: {size_mm:g} mm was given; a label needs {least_mm:g} mm or more")
    return sheets_as_pdf(
        list(_parts(labels, width_mm, height_mm)),
        width_mm=width_mm,
        height_mm=height_mm,
        margin_mm=LABEL_MARGIN_MM,
        title="Cut labels",
        foot="",
    )


def _parts(labels: Sequence[CutLabel], width_mm: float, height_mm: float) -> Iterable[Any]:
    from reportlab.platypus import KeepInFrame, PageBreak

    room = (
        (width_mm - 2 * LABEL_MARGIN_MM) * POINTS_PER_MM - 12,
        (height_mm - 2 * LABEL_MARGIN_MM) * POINTS_PER_MM - 13,
    )
    for number, label in enumerate(labels):
        if number:
            yield PageBreak()
        lines = [
            words(f"✂ {cut_words(length_mm=label.length_mm, cut_over_mm=label.cut_over_mm)}", "figure"),
            words(label.line_name, "strong"),
            words(label.title),
            *([words(label.note, "small")] if label.note else []),
        ]
        yield KeepInFrame(*room, [*lines, gap(0)], mode="shrink")
