"""A plan in the terminal: the verdict first, then holes, lengths, steps, and what was ruled out."""

from collections.abc import Iterator

from rich.console import Group, RenderableType
from rich.markup import escape
from rich.padding import Padding
from rich.panel import Panel
from rich.table import Table
from rich.text import Text

from planner import (
    RoutingPlan,
    added_words,
    caution_letters,
    cut_words,
    end_name,
    fit_class_words,
    need_words,
    order_words,
    outcome_word,
    remark_words,
    sentence_for,
    verdict_sentence,
    way_out_sentences,
)
from planner.parts import Job
from planner.verdicts import Check
from ui.reports.plain_table import facts_grid, outcome_text, plain_table
from ui.reports.report import print_report
from ui.shared.labels import ADVISORY_WORDS, labels_of
from ui.shared.outcome_looks import OUTCOME_LOOKS
from ui.shared.plan_in_short import plan_in_short


def print_plan(plan: RoutingPlan, job: Job) -> None:
    """Print a plan for people."""
    labels = labels_of(job)
    print_report(*_sections(plan, labels))


def _sections(plan: RoutingPlan, labels: dict[str, str]) -> Iterator[RenderableType]:
    title = f"{plan.job_title or plan.job_id} · {plan.frame_name}"
    verdict = Text(verdict_sentence(plan, labels=labels), style=f"bold {OUTCOME_LOOKS[plan.outcome].terminal_style}")
    yield Panel(verdict, title=escape(title), title_align="left")
    yield from _ways_out(plan, labels)
    if plan.runs:
        yield Padding(facts_grid(plan_in_short(plan)), (0, 0, 1, 1))
    if plan.checks:
        yield _holes_table(plan)
        yield _other_checks(plan, labels)
    if plan.lengths is not None:
        yield _lengths_table(plan)
    yield from _bench(plan, labels)
    yield from _steps(plan)
    yield from _ruled_out(plan, labels)


def _ways_out(plan: RoutingPlan, labels: dict[str, str]) -> Iterator[RenderableType]:
    sentences = way_out_sentences(plan, labels=labels)
    if sentences:
        yield Text("What would change it", style="bold")
    for sentence in sentences:
        yield Padding(Text(f"- {sentence}"), (0, 0, 0, 1))


def _holes_table(plan: RoutingPlan) -> Table:
    table = plain_table(
        ("Port", "While", "Beside", "Size", "Clear", "Worst", "Fit class", "Verdict"),
        title="Holes (sizes and clearances in mm, clearance on the diameter)",
        right=("Size", "Clear", "Worst"),
    )
    for check in plan.checks:
        if check.rule.is_about_hole:
            table.add_row(*_hole_row(check))
    return table


def _hole_row(check: Check) -> tuple[str | Text, ...]:
    insert = " (insert)" if check.is_insert_in else ""
    return (
        escape(f"{check.port_id}{insert}"),
        check.state or "",
        escape(", ".join(check.with_ids)) or "-",
        _number(check.size_mm),
        _number(check.clearance_mm),
        _number(check.worst_clearance_mm),
        fit_class_words(check.fit_class),
        outcome_text(check.outcome),
    )


def _number(value_mm: float | None) -> str:
    return "not measured" if value_mm is None else f"{value_mm:.2f}"


def _other_checks(plan: RoutingPlan, labels: dict[str, str]) -> RenderableType:
    lines = Text()
    told: set[str] = set()
    for check in plan.checks:
        sentence = sentence_for(check, labels=labels)
        if not check.rule.is_about_hole and sentence not in told:
            told.add(sentence)
            lines.append_text(outcome_text(check.outcome, after="  ")).append(f"{sentence}\n")
    return Padding(Group(Text("Also checked", style="bold"), lines), (1, 0, 0, 1))


def _lengths_table(plan: RoutingPlan) -> RenderableType:
    assert plan.lengths is not None
    lengths = plan.lengths
    figures = ("Low", "Nominal", "High")
    table = plain_table(
        ("Run", "From", "To", *figures, "How known"), title=f"Lengths, {lengths.posture} (mm)", right=figures
    )
    for leg in lengths.legs:
        sizes = (f"{leg.low_mm:.0f}", f"{leg.nominal_mm:.0f}", f"{leg.high_mm:.0f}")
        table.add_row(escape(leg.run_id), escape(leg.from_place), escape(leg.to_place), *sizes, leg.basis)
    added = f"+ {added_words(lengths)}, rounded up"
    cut = cut_words(length_mm=lengths.cut_mm, cut_over_mm=lengths.cut_over_mm)
    total = Text(f"Need {lengths.need_mm:.0f} mm {added}: cut to {cut}. ", style="bold")
    if lengths.supplied_mm is None or lengths.spare_mm is None:
        order = order_words(lengths)
        total.append(f"The supplied length was not told{f'; {order}' if order else ''}.")
    elif lengths.spare_mm >= 0:
        total.append(f"Supplied {lengths.supplied_mm:.0f} mm: {lengths.spare_mm:.0f} mm to spare.")
    else:
        total.append(f"Supplied {lengths.supplied_mm:.0f} mm: {-lengths.spare_mm:.0f} mm too short.", style="red")
    return Padding(Group(table, total), (0, 0, 1, 0))


def _bench(plan: RoutingPlan, labels: dict[str, str]) -> Iterator[RenderableType]:
    if plan.parts:
        ready = ", ".join(f"{part.quantity} × {part.name} ({part.id})" for part in plan.parts)
        yield Text.assemble(("Have ready  ", "bold"), ready)
    if plan.needs:
        yield Text.assemble(
            ("Also needed  ", "bold"), "; ".join(need_words(need, labels=labels) for need in plan.needs)
        )
    for check in plan.advisories:
        asks_for = ADVISORY_WORDS[check.outcome].capitalize()
        yield Text.assemble((f"{asks_for}  ", "bold"), sentence_for(check, labels=labels))
    for item in plan.measure_first:
        yield Text.assemble(("Measure first  ", "bold"), item.reason)


def _steps(plan: RoutingPlan) -> Iterator[RenderableType]:
    letters = caution_letters(plan)
    if letters:
        yield Text("\nWhat can hurt", style="bold")
    for sentence, letter in letters.items():
        yield Padding(Text.assemble((f"! {letter}  ", "bold yellow"), sentence), (0, 0, 0, 1))
    if not plan.steps:
        return
    minutes = sum(step.likely_min for step in plan.steps)
    yield Text(f"\nSteps (about {minutes:.0f} min at the bench, the joint's own setup not counted)", style="bold")
    for step in plan.steps:
        text = Text(f"{step.text} ")
        text.append(step.why, style="dim")
        if step.cautions:
            text.append(f" [! {', '.join(letters[caution] for caution in step.cautions)}]", style="bold yellow")
        row = Table.grid(padding=(0, 1))
        row.add_row(f"{step.n:2d}.", text)
        yield row


def _ruled_out(plan: RoutingPlan, labels: dict[str, str]) -> Iterator[RenderableType]:
    others = plan.options[1:]
    if others:
        yield Text("\nWould also work", style="bold")
    for option in others:
        remark = f", {remark_words(option.remark)}" if option.remark else ""
        tried = f"{option.method_id}, fed from {end_name(plan, option.feed_from)}"
        yield Text(f"  {tried}: {outcome_word(option.outcome)}{remark}")
    if plan.rejected:
        yield Text("\nRuled out (first reason of each; --json tells all)", style="bold")
    told: set[tuple[str | None, str | None]] = set()
    for rejection in plan.rejected:
        key = (rejection.method_id, rejection.feed_from)
        if key not in told:
            told.add(key)
            tried = f"{rejection.method_id}, fed from {end_name(plan, rejection.feed_from)}"
            yield Text(f"  {tried}: {sentence_for(rejection.check, labels=labels)}")
