"""A plan in the terminal: what the hands need first; with `--all` the figures, the whys and the other ways too."""

from collections.abc import Iterator, Sequence

from rich.console import RenderableType
from rich.markup import escape
from rich.padding import Padding
from rich.panel import Panel
from rich.table import Table
from rich.text import Text

from planner import (
    RoutingPlan,
    advice_in_order,
    advice_to_heed,
    bench_rows,
    caution_letters,
    measures_told,
    rescue_sheet,
    sentence_for,
    step_with_rescue,
    steps_by_part,
    told_first,
    verdict_sentence,
    ways_out_told,
    whole_minutes,
)
from planner.verdicts import Check, Outcome
from ui.reports.plain_table import facts_grid
from ui.reports.report import print_report
from ui.shared.labels import ADVISORY_WORDS
from ui.shared.outcome_looks import OUTCOME_LOOKS
from ui.shared.plan_in_short import chance_row, plan_in_short

MORE = "With --all: holes, lengths, whys, cautions in full, what to do when it sticks, all ways."
CAUTION_STYLE = "bold yellow"


def print_plan(plan: RoutingPlan, *, is_whole: bool = False) -> None:
    """Print a plan for people.

    is_whole : with every figure and reason, or only what the hands need
    """
    print_report(*(_whole(plan) if is_whole else _in_short(plan)))


def _in_short(plan: RoutingPlan) -> Iterator[RenderableType]:
    yield from _head(plan)
    if plan.runs:
        yield Padding(facts_grid(plan_in_short(plan)), (0, 0, 1, 1))
    yield from _bench(plan, advice_to_heed(plan))
    yield from _steps_in_short(plan)
    yield Text(f"\n{MORE}", style="dim")


def _whole(plan: RoutingPlan) -> Iterator[RenderableType]:
    from ui.reports.plan_figures import show_figures, show_other_ways

    yield from _head(plan)
    if plan.runs:
        yield Padding(facts_grid([*plan_in_short(plan), *chance_row(plan)]), (0, 0, 1, 1))
    yield from show_figures(plan)
    yield from _bench(plan, (*advice_to_heed(plan), *advice_in_order(plan)))
    yield from _steps(plan)
    yield from show_other_ways(plan)


def _head(plan: RoutingPlan) -> Iterator[RenderableType]:
    """The verdict; before it, where nothing may begin yet, what to measure."""
    title = f"{plan.job_title or plan.job_id} · {plan.frame_name}"
    verdict = Text(verdict_sentence(plan), style=f"bold {OUTCOME_LOOKS[plan.outcome].terminal_style}")
    if plan.outcome is Outcome.UNKNOWN:
        yield from _measure_first(plan)
    yield Panel(verdict, title=escape(title), title_align="left")
    ways_out = ways_out_told(plan)
    if ways_out:
        yield Text("What would change it", style="bold")
    yield from (Padding(Text(f"- {sentence}"), (0, 0, 0, 1)) for sentence in ways_out)
    if plan.outcome is not Outcome.UNKNOWN:
        yield from _measure_first(plan)


def _measure_first(plan: RoutingPlan) -> Iterator[RenderableType]:
    for item in measures_told(plan):
        yield _row("Measure first", item.reason)


def _bench(plan: RoutingPlan, advice: Sequence[Check]) -> Iterator[RenderableType]:
    for name, words in bench_rows(plan):
        yield _row(name, words)
    for check in advice:
        yield _row(ADVISORY_WORDS[check.outcome].capitalize(), sentence_for(check, names=plan.names))


def _row(name: str, words: str) -> RenderableType:
    return Text.assemble((f"{name}  ", "bold"), words)


def _steps_title(plan: RoutingPlan) -> Iterator[RenderableType]:
    if plan.steps:
        minutes = f" (about {whole_minutes(plan.options[0].work_min)} min, repeats counted)" if plan.options else ""
        yield Text(f"\nSteps{minutes}", style="bold")


def _steps_in_short(plan: RoutingPlan) -> Iterator[RenderableType]:
    if plan.cautions:
        hurts = " ".join(plan.short_cautions.get(caution, caution) for caution in plan.cautions)
        yield Text.assemble(("What can hurt  ", CAUTION_STYLE), hurts)
    yield from _steps_title(plan)
    for title, steps in steps_by_part(plan):
        text = Text.assemble((f"{title}  ", "bold"))
        for step in steps:
            text.append(f"{step.n} ", style="bold")
            text.append(f"{step.short or step.text} ")
        for step in steps:
            for caution in told_first(plan, step):
                text.append(f"! {plan.short_cautions.get(caution, caution)} ", style="yellow")
        yield Padding(text, (0, 0, 0, 1))


def _steps(plan: RoutingPlan) -> Iterator[RenderableType]:
    letters = caution_letters(plan)
    if plan.cautions:
        yield Text("\nWhat can hurt", style="bold")
    for caution in plan.cautions:
        yield Padding(_caution(letters[caution], caution), (0, 0, 0, 1))
    yield from _steps_title(plan)
    for title, steps in steps_by_part(plan):
        yield Text(title, style="bold")
        for step in steps:
            first = told_first(plan, step)
            text = Text(f"{step.text} ")
            text.append(step.why, style="dim")
            again = [letters[caution] for caution in step.cautions if caution not in first]
            if again:
                text.append(f" [! {', '.join(again)}]", style=CAUTION_STYLE)
            row = Table.grid(padding=(0, 1))
            row.add_row(f"{step.n:2d}.", text)
            for caution in first:
                row.add_row("", _caution(letters[caution], caution))
            yield row
            if step is step_with_rescue(plan):
                yield from _rescue(plan)


def _rescue(plan: RoutingPlan) -> Iterator[RenderableType]:
    for title, told in rescue_sheet(plan):
        yield Padding(Text(title, style="bold"), (0, 0, 0, 4))
        for words, texts in told:
            yield Padding(Text.assemble((f"{words}  ", "bold"), " ".join(texts)), (0, 0, 0, 6))


def _caution(letter: str, sentence: str) -> Text:
    return Text.assemble((f"! {letter}  ", CAUTION_STYLE), sentence)
