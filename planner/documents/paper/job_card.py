"""The job card: what the mechanic takes to the bench, as PDF."""

from collections.abc import Iterator, Sequence
from typing import Any

from planner.documents.drawings.hole_drawing import draw_hole
from planner.documents.drawings.route_drawing import draw_route
from planner.documents.drawings.svg import SOFT_INK, Picture
from planner.documents.paper.card_evidence import (
    hole_parts,
    length_parts,
    other_check_parts,
    rescue_parts,
    ruled_out_parts,
)
from planner.documents.paper.card_tables import mark_table, part_table, step_table
from planner.documents.paper.pages import pages_as_pdf
from planner.documents.paper.parts import gap, heading, picture
from planner.documents.paper.style import TICK_BOX, Cell, PageSize, table, text_width_mm, words
from planner.documents.words.advice import advice_to_heed, ways_out_told
from planner.documents.words.caution_letters import caution_letters
from planner.documents.words.check_words import sentence_for
from planner.documents.words.hand_words import cut_words, joint_size_words
from planner.documents.words.measure_words import measures_told
from planner.documents.words.need_words import need_words
from planner.documents.words.outcome_words import marked_outcome
from planner.documents.words.wording import (
    end_name,
    joint_title,
    may_part_inside,
    pull_sentence,
    verdict_sentence,
    way_words,
)
from planner.parts import Frame
from planner.plan.cut_length import words_beside_cut
from planner.plan.routing_plan import RoutingPlan
from planner.plan.tightest import tightest_by_port
from planner.verdicts import Outcome

PICTURE_HEIGHT_MM = 125.0
"""So that the verdict, the way and the cuts find room on the first page."""


def job_card_pdf(
    *,
    plan: RoutingPlan,
    frame: Frame,
    pictures: Sequence[Picture] | None = None,
    page_size: PageSize = "a4",
    date_text: str = "",
    shop_name: str = "",
) -> bytes:
    """A plan on paper: verdict, picture of the way, holes with sections, marks, parts, cautions, steps to tick.

    Returns PDF; the same for the same input.

    plan : a plan, or a "no" with its proof
    frame : the frame it was made for
    pictures : the way first, then sections of holes and others; None to draw the usual ones
    date_text : the day to print, as the reader writes days; "" for none
    shop_name : printed at the foot; "" for none
    """
    drawn = card_pictures(plan, frame) if pictures is None else tuple(pictures)
    width_mm = text_width_mm(page_size)
    parts = [
        *_head(plan, date_text, width_mm),
        *_way(plan, drawn[:1], width_mm),
        *_bench(plan, width_mm),
        *_steps(plan, width_mm),
        *rescue_parts(plan, width_mm=width_mm),
        *hole_parts(plan, drawn[1:], width_mm=width_mm),
        *length_parts(plan, width_mm=width_mm),
        *other_check_parts(plan),
        *ruled_out_parts(plan, width_mm=width_mm),
    ]
    title = f"Job card: {plan.job_title or plan.job_id}"
    foot = " · ".join(text for text in (shop_name, plan.job_id, date_text) if text)
    return pages_as_pdf(parts, page_size=page_size, title=title, foot=foot or "job card")


def card_pictures(plan: RoutingPlan, frame: Frame) -> tuple[Picture, ...]:
    """The usual pictures: the way, then the tightest moment of every hole on it.

    frame : the frame it was made for
    """
    holes = (
        draw_hole(check, label=plan.names.place(port), width_mm=88.0, names=plan.names.things)
        for port, check in tightest_by_port(plan, frame.ports).items()
    )
    return (_route_picture(plan, frame), *holes)


def _route_picture(plan: RoutingPlan, frame: Frame) -> Picture:
    """As wide as the sheet, or less where the frame is so tall that it would push all else to the next page."""
    width_mm = 180.0
    while True:
        drawn = draw_route(plan, frame, width_mm=width_mm)
        if drawn.height_mm <= PICTURE_HEIGHT_MM or width_mm <= 100:
            return drawn
        width_mm -= 10


def _head(plan: RoutingPlan, date_text: str, width_mm: float) -> Iterator[Any]:
    yield words(plan.job_title or plan.job_id, "title")
    asked = [plan.frame_name, f"in: {plan.new_line_name}", f"out: {plan.old_line_name or 'nothing'}", date_text]
    yield words(" · ".join(text for text in asked if text), colour=SOFT_INK)
    yield gap(2)
    if plan.outcome is Outcome.UNKNOWN:
        yield from _measure_first(plan)
    verdict = verdict_sentence(plan)
    yield table(
        [[(marked_outcome(plan.outcome), "strong"), verdict]],
        widths_mm=(26, width_mm - 26),
        has_head=False,
        shaded=(0,),
    )
    yield gap(2)
    if plan.outcome is not Outcome.UNKNOWN:
        yield from _measure_first(plan)
    if ways_out := ways_out_told(plan):
        yield from heading("What would change it")
        yield from (words(f"– {sentence}") for sentence in ways_out)


def _measure_first(plan: RoutingPlan) -> Iterator[Any]:
    if measures := measures_told(plan):
        yield from heading("Measure first")
        yield from (words(f"{TICK_BOX} {item.reason}") for item in measures)


def _way(plan: RoutingPlan, drawn: Sequence[Picture], width_mm: float) -> Iterator[Any]:
    for one in drawn:
        yield from picture(one, width_mm=width_mm, height_mm=1.4 * PICTURE_HEIGHT_MM)
    if not plan.runs:
        return
    rows = [["Way", way_words(plan)]]
    if plan.route:
        rows += [
            [joint_title(plan), f"{plan.method_name}{joint_size_words(plan)}"],
            ["Feed from", end_name(plan, plan.feed_from)],
        ]
    if plan.outcome.lets_work_begin:
        rows += _hand_rows(plan)
    yield table([[(name, "strong"), text] for name, text in rows], widths_mm=(26, width_mm - 26), has_head=False)


def _hand_rows(plan: RoutingPlan) -> list[list[str]]:
    """What to cut and how to pull."""
    rows = [
        ["✂ Old line", f"cut near {end_name(plan, plan.cut_old_at)}" if plan.cut_old_at else "nothing to cut"],
        ["✂ New line", cut_words(plan)],
    ]
    rows += [] if plan.lengths is None else [list(row) for row in words_beside_cut(plan.lengths)]
    if plan.joint is not None and may_part_inside(plan):
        rows.append(["Pulling", pull_sentence(plan.joint)])
    return rows


def _to_settle(plan: RoutingPlan) -> Iterator[Any]:
    settle = [sentence_for(check, names=plan.names) for check in advice_to_heed(plan)]
    if settle:
        yield from heading("To settle and to know")
        yield from (words(f"{TICK_BOX} {sentence}") for sentence in dict.fromkeys(settle))


def _bench(plan: RoutingPlan, width_mm: float) -> Iterator[Any]:
    yield from _to_settle(plan)
    if not plan.outcome.lets_work_begin:
        return
    needs = [need_words(need, names=plan.names) for need in plan.needs]
    parts = part_table(plan, [*needs, *plan.at_hand], width_mm=width_mm)
    if parts is not None:
        yield from heading("On the bench")
        yield parts
    yield from _marks(plan, width_mm)


def _marks(plan: RoutingPlan, width_mm: float) -> Iterator[Any]:
    if not plan.outcome.lets_work_begin:
        return
    marks = mark_table(plan, width_mm=width_mm)
    if marks is not None:
        yield from heading("Marks on the new line (lengths at rest)")
        yield marks


def _steps(plan: RoutingPlan, width_mm: float) -> Iterator[Any]:
    letters = caution_letters(plan)
    if plan.cautions:
        yield from heading("What can hurt")
        rows: list[list[Cell]] = [[(f"⚠ {letters[caution]}", "strong"), caution] for caution in plan.cautions]
        yield table(rows, widths_mm=(12, width_mm - 12), has_head=False)
    if plan.steps:
        yield from heading("Steps")
        yield step_table(plan, letters, width_mm=width_mm)
        yield gap(4)
        yield words(f"{TICK_BOX} Tried before riding off · done by ______________________ · on ________________")
