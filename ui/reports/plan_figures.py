"""The figures behind a plan in the terminal: holes, other questions, lengths, all ways."""

from collections.abc import Iterator

from rich.console import Group, RenderableType
from rich.markup import escape
from rich.padding import Padding
from rich.text import Text

from planner import (
    NOT_MEASURED,
    NOT_THESE,
    Names,
    RoutingPlan,
    added_words,
    asked_length_words,
    basis_words,
    fed_words,
    finely,
    fit_class_words,
    leg_size,
    order_words,
    other_ways,
    outcome_word,
    proposals,
    remark_words,
    ruled_out_in_short,
    sentence_for,
    tape_millimetres,
    unknown_legs_words,
    whole_minutes,
)
from planner.verdicts import Check
from ui.reports.plain_table import outcome_text, plain_table

OTHER_WAYS_WORDS = {True: "Would also work", False: "Not proven either"}


def show_figures(plan: RoutingPlan) -> Iterator[RenderableType]:
    """The numbers that carry the verdict."""
    if plan.checks:
        yield from _holes_table(plan)
        yield _other_checks(plan)
    if plan.lengths is not None:
        yield _lengths_table(plan)


def show_other_ways(plan: RoutingPlan) -> Iterator[RenderableType]:
    """What would also work, and what stands against the rest."""
    proposed = proposals(plan) if plan.outcome.lets_work_begin else ()
    ways = [*_options(plan), *(sentence_for(check, names=plan.names) for check in proposed)]
    if ways:
        yield Text(f"\n{OTHER_WAYS_WORDS[plan.outcome.lets_work_begin]}", style="bold")
    yield from (Padding(Text(way), (0, 0, 0, 2)) for way in ways)
    ruled_out = ruled_out_in_short(plan)
    if ruled_out:
        yield Text(f"\n{NOT_THESE} (--json tells all)", style="bold")
    for sentence, tried in ruled_out.items():
        yield Padding(Text.assemble(f"{sentence}: ", (", ".join(tried), "dim")), (0, 0, 0, 2))


def _options(plan: RoutingPlan) -> Iterator[str]:
    for option in other_ways(plan):
        remark = f", {remark_words(option.remark)}" if option.remark else ""
        minutes = f"about {whole_minutes(option.work_min)} min"
        yield (
            f"{fed_words(plan, method_name=option.method.name, feed_from=option.feed_from, route=option.route)}:"
            f" {outcome_word(option.outcome)}, {minutes}{remark}"
        )


def _holes_table(plan: RoutingPlan) -> Iterator[RenderableType]:
    holes = [check for check in plan.checks if check.rule.is_about_hole]
    if not holes:
        return
    table = plain_table(
        ("Port", "While", "Beside", "Size", "Clear", "Worst", "Fit class", "Verdict"),
        title="Holes (sizes and clearances in mm, clearance on the diameter)",
        right=("Size", "Clear", "Worst"),
    )
    for check in holes:
        table.add_row(*_hole_row(check, plan.names))
    yield table


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
    return NOT_MEASURED if value_mm is None else finely(value_mm, digits=2)


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
        table.add_row(*ends, *sizes, basis_words(leg))
    total = Text(f"Need {_need_words(plan)}. ", style="bold")
    if lengths.supplied_mm is not None and not lengths.known:
        total.append(f"Supplied {lengths.supplied_mm:.0f} mm.")
    elif lengths.supplied_mm is None or lengths.spare_mm is None:
        order = order_words(lengths)
        total.append(f"The supplied length was not told{f'; {order}' if order else ''}.")
    elif lengths.spare_mm >= 0:
        total.append(f"Supplied {lengths.supplied_mm:.0f} mm: {lengths.spare_mm:.0f} mm to spare.")
    else:
        total.append(
            f"Supplied {lengths.supplied_mm:.0f} mm: {tape_millimetres(-lengths.spare_mm)} too short.", style="red"
        )
    return Padding(Group(table, total), (0, 0, 1, 0))


def _need_words(plan: RoutingPlan) -> str:
    lengths = plan.lengths
    assert lengths is not None
    need = (
        f"of a length not known ({unknown_legs_words(lengths, names=plan.names)})"
        if lengths.need_mm is None
        else f"{lengths.need_mm:.0f} mm"
    )
    return f"{need}{added_words(lengths)}, rounded up: {asked_length_words(plan)}"
