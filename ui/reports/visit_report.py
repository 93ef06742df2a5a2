"""A visit's plan in the terminal: the order and why, each line in short, what to have ready, one work order."""

from collections.abc import Iterator
from itertools import groupby

from rich.console import RenderableType
from rich.markup import escape
from rich.padding import Padding
from rich.panel import Panel
from rich.text import Text

from planner import (
    PART_TITLES,
    LinePlan,
    VisitPlan,
    forced_sentences,
    left_undone,
    line_blocks,
    needs_of_visit,
    order_told,
    price_words,
    time_words,
    unproven_sentence,
    verdict_sentence,
    visit_verdict,
    visit_ways_out_told,
)
from ui.reports.plain_table import facts_grid, outcome_text
from ui.reports.plan_report import CAUTION_STYLE, print_plan
from ui.reports.report import print_report
from ui.shared.outcome_looks import OUTCOME_LOOKS
from ui.shared.plan_in_short import plan_in_short

MORE = "With --all: each line's plan with every hole and length, why each step is done, all ways."


def print_visit(plan: VisitPlan, *, is_whole: bool = False) -> None:
    """Print a visit's plan for people.

    is_whole : each line's own plan too, with every figure and reason
    """
    print_report(*_in_short(plan, is_whole=is_whole))
    for line in plan.lines if is_whole else ():
        if line.plan is not None:
            print_report(Text(f"\n{line.line_id}", style="bold"))
            print_plan(line.plan, is_whole=True)


def _in_short(plan: VisitPlan, *, is_whole: bool) -> Iterator[RenderableType]:
    title = f"{plan.visit_title or plan.visit_id} · {plan.frame_name}"
    verdict = Text(visit_verdict(plan), style=f"bold {OUTCOME_LOOKS[plan.outcome].terminal_style}")
    yield Panel(verdict, title=escape(title), title_align="left")
    unproven = unproven_sentence(plan)
    if unproven is not None:
        yield Text(unproven)
    yield from _ways_out(plan)
    yield from _order(plan)
    for line in plan.lines:
        yield from _line(line)
    yield from _bench(plan)
    yield from _steps(plan, is_whole=is_whole)
    if not is_whole:
        yield Text(f"\n{MORE}", style="dim")


def _ways_out(plan: VisitPlan) -> Iterator[RenderableType]:
    told = visit_ways_out_told(plan)
    if told:
        yield Text("What would change it", style="bold")
    yield from (Padding(Text(f"- {sentence}"), (0, 0, 0, 1)) for sentence in told)


def _order(plan: VisitPlan) -> Iterator[RenderableType]:
    if not plan.order:
        return
    yield Text("Order", style="bold")
    for n, words in enumerate(order_told(plan), start=1):
        yield Padding(Text(f"{n}. {words}"), (0, 0, 0, 1))
    yield from (Text(f"! {sentence}", style=CAUTION_STYLE) for sentence in left_undone(plan))
    reasons = forced_sentences(plan)
    yield Text("Why this order", style="bold")
    yield from (Padding(Text(f"- {sentence}"), (0, 0, 0, 1)) for sentence in reasons)
    if not reasons:
        yield Padding(Text("- No line has to go before another; this order is as good as any."), (0, 0, 0, 1))


def _line(line: LinePlan) -> Iterator[RenderableType]:
    if line.plan is None:
        return
    yield Text.assemble((f"\n{line.line_id}  ", "bold"), outcome_text(line.plan.outcome))
    yield Padding(Text(verdict_sentence(line.plan)), (0, 0, 0, 1))
    if line.plan.runs:
        yield Padding(facts_grid(plan_in_short(line.plan)), (0, 0, 0, 1))
    for item in line.plan.measure_first:
        yield Padding(Text.assemble(("Measure first  ", "bold"), item.reason), (0, 0, 0, 1))


def _bench(plan: VisitPlan) -> Iterator[RenderableType]:
    totals = plan.totals
    if totals is None or not plan.steps:
        return
    yield Text("")
    parts = " · ".join(f"{part.quantity} × {part.name}" for part in totals.parts)
    if parts:
        yield Text.assemble(("Have ready  ", "bold"), parts)
    needs = needs_of_visit(plan)
    if needs:
        yield Text.assemble(("Also needed  ", "bold"), " · ".join(needs))
    yield Text.assemble(("Time  ", "bold"), time_words(totals), ("  Price  ", "bold"), price_words(totals))


def _steps(plan: VisitPlan, *, is_whole: bool) -> Iterator[RenderableType]:
    short = {key: words for line in plan.lines if line.plan for key, words in line.plan.short_cautions.items()}
    told = set(plan.cautions)
    if plan.cautions:
        hurts = " ".join(short.get(caution, caution) for caution in plan.cautions)
        yield Text.assemble(("What can hurt  ", CAUTION_STYLE), hurts)
    if plan.steps:
        yield Text("\nSteps, all lines together", style="bold")
    for part, steps in groupby(plan.steps, key=lambda row: row.step.part):
        yield Text(PART_TITLES[part], style="bold")
        for line_ids, rows in line_blocks(steps):
            text = Text.assemble((f"{', '.join(line_ids)}: ", "italic"))
            for row in rows:
                text.append(f"{row.n} ", style="bold")
                text.append(f"{row.step.text} {row.step.why} " if is_whole else f"{row.step.short or row.step.text} ")
            for row in rows:
                for caution in row.step.cautions:
                    if caution not in told:
                        told.add(caution)
                        text.append(f"! {caution if is_whole else short.get(caution, caution)} ", style="yellow")
            yield Padding(text, (0, 0, 0, 1))
