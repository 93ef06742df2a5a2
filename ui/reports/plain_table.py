"""The one look of tables in the terminal: a title, headings over a rule, no frame."""

from collections.abc import Collection, Iterable

from rich import box
from rich.markup import escape
from rich.table import Table
from rich.text import Text


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
