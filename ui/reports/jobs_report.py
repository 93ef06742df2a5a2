"""Saved jobs in the terminal: a row for each, or one with its plans, quotes and history."""

from collections.abc import Iterator, Sequence
from datetime import date

from rich.console import RenderableType
from rich.markup import escape
from rich.panel import Panel
from rich.table import Table
from rich.text import Text

from catalog import Happening, JobBrief, QuoteState, StoredQuote
from planner import marked_outcome
from planner.verdicts import Outcome
from ui.reports.plain_table import outcome_text, plain_table
from ui.reports.report import print_columns, print_report
from ui.shared.days import in_zone, today_in, told_moment
from ui.shared.job_facts import JobFacts
from ui.shared.state_words import ENDED, told

OUTCOMES = {outcome.word: outcome for outcome in Outcome}
DAMAGED = "damaged"
COLUMNS = ("For", "State", "Changed", "Plan", "Quotes")
ROWS_IN_A_TABLE = 300
"""Laying out a table takes half a millisecond a row; a list of thousands is printed in a tenth of that."""


def print_jobs(briefs: Sequence[JobBrief], *, state: str | None, time_zone: str) -> None:
    """Print a row for every job; very long lists in plain columns, for which nobody waits."""
    if not briefs:
        print(f"No job here is {told(state)}." if state else "No job is kept here. `lineplan save JOB` keeps one.")
        return
    today = today_in(time_zone)
    if len(briefs) > ROWS_IN_A_TABLE:
        print_columns(("Job", *COLUMNS, "Title"), (_row(brief, today, time_zone) for brief in briefs))
    else:
        table = plain_table(("Job", *COLUMNS), whole=("Changed", "Plan"))
        for brief in briefs:
            id, whom, *stands, _, quotes, title = _row(brief, today, time_zone)
            name = Text.assemble((id, "bold"), f"\n{title}")
            table.add_row(name, escape(whom), *stands, _outcome(brief), quotes)
        print_report(table)
    print(f"{len(briefs)} job{'' if len(briefs) == 1 else 's'}")


def _row(brief: JobBrief, today: date, time_zone: str) -> tuple[str, ...]:
    quotes = ", ".join(f"{quote.id} {told(quote.state_on(today))}" for quote in brief.quotes) or "-"
    state = DAMAGED if brief.state is None else told(brief.state)
    changed = DAMAGED if brief.changed_at is None else f"{in_zone(brief.changed_at, time_zone):%Y-%m-%d}"
    outcome = OUTCOMES.get(brief.outcome)
    plan = (DAMAGED if brief.outcome else "-") if outcome is None else marked_outcome(outcome)
    return brief.id, brief.for_whom, state, changed, plan, quotes, brief.title


def _outcome(brief: JobBrief) -> Text | str:
    outcome = OUTCOMES.get(brief.outcome)
    return (DAMAGED if brief.outcome else "-") if outcome is None else outcome_text(outcome)


def print_job(facts: JobFacts) -> None:
    """Print all that is kept of one job."""
    print_report(*_sections(facts))


def _sections(facts: JobFacts) -> Iterator[RenderableType]:
    job = facts.job
    whom = f", for {job.for_whom}" if job.for_whom else ""
    said = Text(f"{told(job.state)}, version {job.version}{whom}", style="bold")
    yield Panel(said, title=escape(f"{job.id} · {job.title}"), title_align="left")
    for damage in facts.damages:
        yield Text(damage, style="bold red")
    for words in facts.bench:
        yield Text(words)
    yield _history_table("History", facts.history, facts.time_zone)
    if facts.plans:
        yield _plans_table(facts)
    for quote in facts.quotes:
        yield _history_table(_quote_title(quote, facts), facts.quote_histories.get(quote.id, ()), facts.time_zone)


def _quote_title(quote: StoredQuote, facts: JobFacts) -> str:
    draft, state = quote.draft, quote.state_on(facts.today)
    replaced = "" if draft.replaces_id is None else f", in place of quote {draft.replaces_id}"
    until = "its days not counted yet" if state is QuoteState.DRAFTED else f"stands until {draft.valid_until}"
    if state in ENDED:
        until = told(state) + ("" if quote.replaced_by_id is None else f", replaced by quote {quote.replaced_by_id}")
    return f"Quote {quote.id}: {draft.total} {draft.currency}, {until}{replaced}"


def _history_table(title: str, history: Sequence[Happening], time_zone: str) -> Table:
    table = plain_table(("Version", "State", "When", "By", "Note"), title=title)
    for step in history:
        table.add_row(
            str(step.version),
            told(step.state),
            told_moment(step.done_at, time_zone),
            escape(step.done_by),
            escape(step.note),
        )
    return table


def _plans_table(facts: JobFacts) -> Table:
    table = plain_table(("Plan", "Of version", "Verdict", "Made", "By", "From"), title="Plans")
    for plan in facts.plans:
        entries = sum(pin.kind != "file" for pin in plan.pins)
        made = (told_moment(plan.made_at, facts.time_zone), escape(plan.made_by), f"{entries} exact revisions")
        table.add_row(str(plan.id), str(plan.job_version), _marked(plan.outcome), *made)
    return table


def _marked(word: str) -> Text:
    return outcome_text(OUTCOMES[word])
