"""A narrow label to stick on a cut line, or a strip of them: what it is, how long, for which job."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from planner.documents.paper.pages import sheets_as_pdf
from planner.documents.paper.parts import gap
from planner.documents.paper.style import POINTS_PER_MM, words
from planner.documents.words.wording import end_name
from planner.plan.cut_list import CutList
from planner.plan.routing_plan import RoutingPlan

LABEL_WIDTH_MM, LABEL_HEIGHT_MM, LABEL_MARGIN_MM = 62.0, 29.0, 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class CutLabel:
    """One label.

    line_name : the line to cut
    length_mm : to cut to [mm]
    title : the job, or where the piece belongs
    note : a further line; "" for none
    """

    line_name: str
    length_mm: float
    title: str
    note: str = ""


def label_of_plan(plan: RoutingPlan) -> CutLabel | None:
    """The label of a plan's new line.

    None where there is nothing to cut.
    """
    if plan.lengths is None:
        return None
    note = f"feed from {end_name(plan, plan.feed_from)}" if plan.feed_from is not None else ""
    return CutLabel(
        line_name=plan.new_line_name, length_mm=plan.lengths.cut_mm, title=plan.job_title or plan.job_id, note=note
    )


def labels_of_cut_list(cut_list: CutList) -> tuple[CutLabel, ...]:
    """A label for every piece, in the order they are cut.

    Returns the note tells the roll and where on it the piece begins.
    """
    return tuple(
        CutLabel(
            line_name=opened.line_id,
            length_mm=cut.length_mm,
            title=cut.piece_id,
            note=f"from {opened.stock_id}, at {cut.start_mm:.0f} mm",
        )
        for opened in cut_list.opened
        for cut in opened.cuts
    )


def cut_label_pdf(*, labels: Sequence[CutLabel], width_mm: float = LABEL_WIDTH_MM) -> bytes:
    """Labels on a narrow strip, one a page.

    Returns PDF; the same for the same input.

    labels : in the order they are printed

    Raises ValueError when there is no label, or the strip is narrower than 25 mm.
    """
    if not labels:
        raise ValueError("there is no label to print")
    if width_mm < 25:
        raise ValueError(f"width_mm: {width_mm:g} mm was given; a label needs 25 mm or more")
    return sheets_as_pdf(
        list(_parts(labels, width_mm)),
        width_mm=width_mm,
        height_mm=LABEL_HEIGHT_MM,
        margin_mm=LABEL_MARGIN_MM,
        title="Cut labels",
        foot="",
    )


def _parts(labels: Sequence[CutLabel], width_mm: float) -> Iterable[Any]:
    from reportlab.platypus import KeepInFrame, PageBreak

    room = (
        (width_mm - 2 * LABEL_MARGIN_MM) * POINTS_PER_MM - 12,
        (LABEL_HEIGHT_MM - 2 * LABEL_MARGIN_MM) * 72 / 25.4 - 13,
    )
    for number, label in enumerate(labels):
        if number:
            yield PageBreak()
        lines = [
            words(f"✂ {label.length_mm:.0f} mm", "figure"),
            words(label.line_name, "strong"),
            words(label.title),
            *([words(label.note, "small")] if label.note else []),
        ]
        yield KeepInFrame(*room, [*lines, gap(0)], mode="shrink")
