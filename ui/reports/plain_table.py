"""The one look of tables and outcomes in the terminal: a title, headings over a rule, no frame; marks in colour."""

from collections.abc import Collection, Iterable

from rich import box
from rich.markup import escape
from rich.table import Table
from rich.text import Text

from planner import marked_outcome
from planner.verdicts import Outcome
from ui.shared.outcome_looks import OUTCOME_LOOKS


def plain_table(
    headings: Iterable[str], *, title: str = "", right: Collection[str] = (), whole: Collection[str] = ()
) -> Table:
    """A table still without rows.

    title : plain text; what looks like markup is printed as it stands
    right : headings of columns of figures
    whole : headings of columns whose words are not broken
    """
    shown = Text(title, style="bold") if title else None
    table = Table(title=shown, title_justify="left", box=box.SIMPLE_HEAD, padding=(0, 1, 0, 0))
    for heading in headings:
        table.add_column(
            heading, justify="right" if heading in right else "left", no_wrap=heading in whole, overflow="fold"
        )
    return table


def facts_grid(facts: Iterable[tuple[str, str]]) -> Table:
    """Names of facts in bold with the facts beside them."""
    grid = Table.grid(padding=(0, 2))
    grid.add_column(style="bold")
    grid.add_column()
    for name, fact in facts:
        grid.add_row(name, escape(fact))
    return grid


def outcome_text(outcome: Outcome, *, after: str = "") -> Text:
    """An outcome by mark, word and colour.

    after : what separates it from words that follow
    """
    return Text(f"{marked_outcome(outcome)}{after}", style=OUTCOME_LOOKS[outcome].terminal_style)
