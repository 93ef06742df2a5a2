"""A plan in the terminal: the verdict first, then holes, lengths, steps, and what was ruled out."""

from collections.abc import Iterator

from rich.console import Group, RenderableType
from rich.markup import escape
from rich.padding import Padding
from rich.panel import Panel
from rich.table import Table
from rich.text import Text

from planner import (
    Names,
    RoutingPlan,
    added_words,
    caution_letters,
    cut_words,
    end_name,
    fit_class_words,
    leg_size,
    need_words,
    order_words,
    outcome_word,
    remark_words,
    sentence_for,
    unknown_legs_words,
    verdict_sentence,
    way_out_sentences,
    whole_minutes,
)
from planner.verdicts import Check
from ui.reports.plain_table import facts_grid, outcome_text, plain_table
from ui.reports.report import print_report
from ui.shared.labels import ADVISORY_WORDS
from ui.shared.outcome_looks import OUTCOME_LOOKS
from ui.shared.plan_in_short import plan_in_short


def print_plan(plan: RoutingPlan) -> None:
    """Print a plan for people."""
    print_report(*_sections(plan))


def _sections(plan: RoutingPlan) -> Iterator[RenderableType]:
    title = f"{plan.job_title or plan.job_id} · {plan.frame_name}"
    verdict = Text(verdict_sentence(plan), style=f"bold {OUTCOME_LOOKS[plan.outcome].terminal_style}")
    yield Panel(verdict, title=escape(title), title_align="left")
    yield from _ways_out(plan)
    if plan.runs:
        yield Padding(facts_grid(plan_in_short(plan)), (0, 0, 1, 1))
    if plan.checks:
        yield _holes_table(plan)
        yield _other_checks(plan)
    if plan.lengths is not None:
        yield _lengths_table(plan)
    yield from _bench(plan)
    yield from _steps(plan)
    yield from _ruled_out(plan)


def _ways_out(plan: RoutingPlan) -> Iterator[RenderableType]:
    sentences = way_out_sentences(plan)
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
            table.add_row(*_hole_row(check, plan.names))
    return table


def _hole_row(check: Check, names: Names) -> tuple[str | Text, ...]:
    insert = " (insert)" if check.is_insert_in else ""
    return (
        escape(f"{names.place(check.port_id or '')}{insert}"),
        check.state or "",
        escape(", ".join(map(names.thing, check.with_ids))) or "-",
        _number(check.size_mm),
        _number(check.clearance_mm),
        _number(check.worst_clearance_mm),
        fit_class_words(check.fit_class),
        outcome_text(check.outcome),
    )


def _number(value_mm: float | None) -> str:
    return "not measured" if value_mm is None else f"{value_mm:.2f}"


def _other_checks(plan: RoutingPlan) -> RenderableType:
    lines = Text()
    told: set[str] = set()
    for check in plan.checks:
        sentence = sentence_for(check, names=plan.names)
        if not check.rule.is_about_hole and sentence not in told:
            told.add(sentence)
            lines.append_text(outcome_text(check.outcome, after="  ")).append(f"{sentence}\n")
    return Padding(Group(Text("Also checked", style="bold"), lines), (1, 0, 0, 1))


def _lengths_table(plan: RoutingPlan) -> RenderableType:
    assert plan.lengths is not None
    lengths = plan.lengths
    figures = ("Low", "Nominal", "High")
    table = plain_table(("From", "To", *figures, "How known"), title=f"Lengths, {lengths.posture} (mm)", right=figures)
    for leg in lengths.legs:
        sizes = (leg_size(leg.low_mm, unit=""), leg_size(leg.nominal_mm, unit=""), leg_size(leg.high_mm, unit=""))
        ends = (escape(plan.names.place(end)) for end in (leg.from_place, leg.to_place))
        table.add_row(*ends, *sizes, leg.basis)
    added = f"+ {added_words(lengths)}, rounded up"
    cut = cut_words(length_mm=lengths.cut_mm, cut_over_mm=lengths.cut_over_mm)
    asked = f": cut to {cut}"
    if not plan.outcome.lets_work_begin:
        asked = f": it would take {cut}" if lengths.known else ""
    need = (
        f"of a length not known ({unknown_legs_words(lengths)})"
        if lengths.need_mm is None
        else f"{lengths.need_mm:.0f} mm"
    )
    total = Text(f"Need {need} {added}{asked}. ", style="bold")
    if lengths.supplied_mm is not None and not lengths.known:
        total.append(f"Supplied {lengths.supplied_mm:.0f} mm.")
    elif lengths.supplied_mm is None or lengths.spare_mm is None:
        order = order_words(lengths)
        total.append(f"The supplied length was not told{f'; {order}' if order else ''}.")
    elif lengths.spare_mm >= 0:
        total.append(f"Supplied {lengths.supplied_mm:.0f} mm: {lengths.spare_mm:.0f} mm to spare.")
    else:
        total.append(f"Supplied {lengths.supplied_mm:.0f} mm: {-lengths.spare_mm:.0f} mm too short.", style="red")
    return Padding(Group(table, total), (0, 0, 1, 0))


def _bench(plan: RoutingPlan) -> Iterator[RenderableType]:
    if plan.parts and plan.outcome.lets_work_begin:
        ready = ", ".join(f"{part.quantity} × {part.name}" for part in plan.parts)
        yield Text.assemble(("Have ready  ", "bold"), ready)
    if plan.needs:
        yield Text.assemble(
            ("Also needed  ", "bold"), "; ".join(need_words(need, names=plan.names) for need in plan.needs)
        )
    for check in plan.advisories:
        asks_for = ADVISORY_WORDS[check.outcome].capitalize()
        yield Text.assemble((f"{asks_for}  ", "bold"), sentence_for(check, names=plan.names))
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
    yield Text(f"\nSteps{_minutes(plan)}", style="bold")
    for step in plan.steps:
        text = Text(f"{step.text} ")
        text.append(step.why, style="dim")
        if step.cautions:
            text.append(f" [! {', '.join(letters[caution] for caution in step.cautions)}]", style="bold yellow")
        row = Table.grid(padding=(0, 1))
        row.add_row(f"{step.n:2d}.", text)
        yield row


def _minutes(plan: RoutingPlan) -> str:
    if not plan.options:
        return ""
    return f" (about {whole_minutes(plan.options[0].work_min)} min, repeats of what fails counted)"


def _ruled_out(plan: RoutingPlan) -> Iterator[RenderableType]:
    others = plan.options[1:]
    if others:
        yield Text("\nWould also work", style="bold")
    for option in others:
        remark = f", {remark_words(option.remark)}" if option.remark else ""
        tried = f"{option.method.name}, fed from {end_name(plan, option.feed_from)}"
        yield Text(f"  {tried}: {outcome_word(option.outcome)}{remark}")
    if plan.rejected:
        yield Text("\nRuled out (first reason of each; --json tells all)", style="bold")
    told: set[tuple[str | None, str | None]] = set()
    for rejection in plan.rejected:
        key = (rejection.method_id, rejection.feed_from)
        if key not in told:
            told.add(key)
            tried = f"{plan.names.thing(rejection.method_id)}, fed from {end_name(plan, rejection.feed_from)}"
            yield Text(f"  {tried}: {sentence_for(rejection.check, names=plan.names)}")
