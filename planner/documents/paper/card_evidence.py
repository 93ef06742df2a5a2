"""The back of the job card: the numbers behind the verdict."""

from collections.abc import Iterator, Sequence
from typing import Any

from planner.documents.drawings.length_bar import draw_length_bar
from planner.documents.drawings.svg import Picture
from planner.documents.paper.card_tables import hole_table, length_table, ruled_out_table
from planner.documents.paper.parts import gap, heading, height_of_mm, picture, side_by_side
from planner.documents.paper.style import Cell, table, words
from planner.documents.words.check_words import sentence_for
from planner.documents.words.outcome_words import OUTCOME_MARKS
from planner.documents.words.rescue_words import rescue_sheet
from planner.documents.words.sizes_in_words import unknown_legs_words
from planner.documents.words.way_table_words import NOT_THESE
from planner.plan.cut_length import added_words
from planner.plan.routing_plan import RoutingPlan

SECTION_HEIGHT_MM = 235.0
"""Nearly a page: a section at true size is never made smaller without need."""


def hole_parts(plan: RoutingPlan, sections: Sequence[Picture], *, width_mm: float) -> Iterator[Any]:
    """The table of holes and their sections, two in a row.

    sections : of the holes
    width_mm : width there is
    """
    holes = hole_table(plan, width_mm=width_mm)
    if holes is not None:
        yield from heading("Holes (to spare: on the diameter)")
        yield holes
    made = [picture(section, width_mm=width_mm / 2, height_mm=SECTION_HEIGHT_MM) for section in sections]
    if made:
        tallest_mm = max(height_of_mm(parts) for parts in made[:2])
        yield from heading("Sections of the holes, each at its tightest moment", followed_by_mm=tallest_mm)
    for first in range(0, len(made), 2):
        left, right = [*made[first : first + 2], []][:2]
        yield side_by_side(left, right, width_mm=width_mm)


def length_parts(plan: RoutingPlan, *, width_mm: float) -> Iterator[Any]:
    """The lengths, drawn and in figures.

    width_mm : width there is
    """
    lengths = plan.lengths
    if lengths is None:
        return
    yield from heading(f"Lengths, {lengths.posture}")
    yield from picture(
        draw_length_bar(lengths, names=plan.names, width_mm=width_mm, may_be_cut=plan.outcome.lets_work_begin),
        width_mm=width_mm,
        height_mm=SECTION_HEIGHT_MM,
    )
    yield length_table(plan, width_mm=width_mm)
    yield gap(1.5)
    if lengths.need_mm is None or lengths.cut_mm is None:
        unknown = unknown_legs_words(lengths, names=plan.names)
        then = " Lay the line in, then mark it." if plan.outcome.lets_work_begin else ""
        yield words(f"How much is needed is not known: {unknown}.{then}")
        return
    need = f"{lengths.need_mm:.0f} mm{added_words(lengths)}"
    yield words(f"Needed {need}, rounded up: {lengths.cut_mm:.0f} mm.")


def other_check_parts(plan: RoutingPlan) -> Iterator[Any]:
    """Every other question that was asked, with its answer."""
    said = [
        f"{OUTCOME_MARKS[check.outcome]} {sentence_for(check, names=plan.names)}"
        for check in plan.checks
        if not check.rule.is_about_hole
    ]
    if said:
        yield from heading("Also checked")
        yield from (words(sentence) for sentence in dict.fromkeys(said))


def ruled_out_parts(plan: RoutingPlan, *, width_mm: float) -> Iterator[Any]:
    """What was tried and why not.

    width_mm : width there is
    """
    ruled_out = ruled_out_table(plan, width_mm=width_mm)
    if ruled_out is not None:
        yield from heading(NOT_THESE)
        yield ruled_out


def rescue_parts(plan: RoutingPlan, *, width_mm: float) -> Iterator[Any]:
    """The sheet for what sticks or parts, on a page of its own.

    width_mm : width there is
    """
    from reportlab.platypus import PageBreak

    for place, (title, told) in enumerate(rescue_sheet(plan)):
        if not place:
            yield PageBreak()
        yield from heading(title)
        rows: list[list[Cell]] = [[(kind, "strong"), "\n".join(texts)] for kind, texts in told]
        yield table(rows, widths_mm=(32, width_mm - 32), has_head=False)
    if plan.rescue:
        yield PageBreak()
