"""Saved jobs in the terminal: a row for each, or one with its plans, quotes and history."""

from collections.abc import Iterator, Sequence

from rich.console import RenderableType
from rich.markup import escape
from rich.panel import Panel
from rich.table import Table
from rich.text import Text

from catalog import Happening, QuoteState, StoredQuote
from planner.verdicts import Outcome
from ui.reports.plain_table import outcome_text, plain_table
from ui.reports.report import print_report
from ui.shared.days import in_zone, told_moment
from ui.shared.job_facts import JobFacts
from ui.shared.quote_paper import ENDED
from ui.shared.state_words import told

OUTCOMES = {outcome.word: outcome for outcome in Outcome}


def print_jobs(facts: Sequence[JobFacts], *, state: str | None) -> None:
    """Print a row for every job."""
    if not facts:
        print(f"No job here is {told(state)}." if state else "No job is kept here. `lineplan save JOB` keeps one.")
        return
    table = plain_table(("Job", "For", "State", "Changed", "Plan", "Quotes"), whole=("Changed", "Plan"))
    for known in facts:
        job = known.job
        quotes = ", ".join(f"{quote.id} {told(quote.state_on(known.today))}" for quote in known.quotes) or "-"
        name = Text.assemble((job.id, "bold"), f"\n{job.title}")
        stands = (told(job.state), f"{in_zone(job.changed_at, known.time_zone):%Y-%m-%d}", _outcome(known))
        table.add_row(name, escape(job.for_whom), *stands, quotes)
    print_report(table)
    print(f"{len(facts)} job{'' if len(facts) == 1 else 's'}")


def print_job(facts: JobFacts) -> None:
    """Print all that is kept of one job."""
    print_report(*_sections(facts))


def _sections(facts: JobFacts) -> Iterator[RenderableType]:
    job = facts.job
    whom = f", for {job.for_whom}" if job.for_whom else ""
    said = Text(f"{told(job.state)}, version {job.version}{whom}", style="bold")
    yield Panel(said, title=escape(f"{job.id} · {job.title}"), title_align="left")
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


def _outcome(facts: JobFacts) -> Text | str:
    return _marked(facts.plans[-1].outcome) if facts.plans else "-"


def _marked(word: str) -> Text:
    return outcome_text(OUTCOMES[word])
