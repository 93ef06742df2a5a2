"""A quote in the terminal: what there is to pay first, then its lines, the time, what it assumes, other ways."""

from collections.abc import Iterator

from rich.console import Group, RenderableType
from rich.markup import escape
from rich.padding import Padding
from rich.panel import Panel
from rich.table import Table
from rich.text import Text

from planner import (
    Alternative,
    assumption_sentences,
    quote_line_words,
    remark_words,
    rounding_sentence,
    spread_sentence,
    tax_words,
    time_sentences,
    whole_minutes,
)
from ui.reports.plain_table import facts_grid, outcome_text, plain_table
from ui.reports.report import print_report
from ui.shared.quote_paper import QuotePaper, standing_sentences, stands_words
from ui.shared.state_words import told


def print_quote(paper: QuotePaper) -> None:
    """Print a quote for people."""
    print_report(*_sections(paper))


def _sections(paper: QuotePaper) -> Iterator[RenderableType]:
    quote = paper.quote
    number = f"Quote {paper.number}".strip()
    to_pay = Text(f"To pay: {quote.total} {quote.currency}", style="bold")
    if quote.unpriced:
        to_pay.append(", without what is not priced", style="bold red")
    said = Group(to_pay, Text(paper.verdict)) if paper.verdict else to_pay
    yield Panel(said, title=escape(f"{number} · {quote.job_title or quote.job_id}"), title_align="left")
    yield Padding(_heads(paper), (0, 0, 1, 1))
    for sentence in standing_sentences(paper):
        yield Padding(Text(sentence, style="bold"), (0, 0, 1, 1))
    yield _lines_table(paper)
    yield Text(f" {rounding_sentence(quote)}", style="dim")
    if quote.unpriced:
        yield Text.assemble(("\nNot in the price  ", "bold red"), ", ".join(dict.fromkeys(quote.unpriced)))
    mean, rests_on = time_sentences(quote)
    yield Text.assemble(("\nTime  ", "bold"), f"{mean} ", (rests_on, "dim"))
    yield Text.assemble(("Spread  ", "bold"), spread_sentence(quote))
    if quote.assumptions:
        yield Text("\nWhat this takes for granted", style="bold")
    for sentence in assumption_sentences(quote):
        yield Padding(Text(f"• {sentence}"), (0, 0, 0, 1))
    if quote.alternatives:
        yield Text("")
        yield _ways_table(paper)


def _heads(paper: QuotePaper) -> Table:
    facts = {
        "For": paper.for_whom,
        "From": paper.shop_name,
        "Day": stands_words(paper),
        "State": told(paper.state),
    }
    return facts_grid((name, fact) for name, fact in facts.items() if fact)


def _lines_table(paper: QuotePaper) -> Table:
    quote = paper.quote
    figures = ("Quantity", "Each", "Together")
    table = plain_table(("Item", *figures), title=f"Items (amounts in {quote.currency})", right=figures, whole=figures)
    for line in quote.lines:
        name, *amounts = quote_line_words(line)
        table.add_row(escape(name), *amounts)
    table.add_section()
    table.add_row("Sum", "", "", str(quote.subtotal))
    table.add_row(tax_words(quote), "", "", str(quote.tax))
    table.add_row(Text("To pay", style="bold"), "", "", Text(str(quote.total), style="bold"))
    return table


def _ways_table(paper: QuotePaper) -> Table:
    """The way that is quoted, and below it what is different with the others."""
    table = plain_table(
        ("Way", "Verdict", "Minutes", "To pay", "Joint"),
        title=f"Ways of doing it (the others by what they differ in, tax included, {paper.quote.currency})",
        right=("Minutes", "To pay"),
        whole=("Verdict", "Minutes", "To pay"),
    )
    if paper.way is not None:
        table.add_row(*_way_row(paper, paper.way, is_quoted=True), style="bold")
    for other in paper.quote.alternatives:
        table.add_row(*_way_row(paper, other, is_quoted=False))
    return table


def _way_row(paper: QuotePaper, way: Alternative, *, is_quoted: bool) -> tuple[str | Text, ...]:
    end = paper.feed_names.get(way.feed_from, "")
    fed = f", fed from {end}" if end else ""
    minutes, money = (
        (str(whole_minutes(paper.quote.time.mean_min)), str(paper.quote.total)) if is_quoted else _differences(way)
    )
    return (
        escape(f"{way.method_name}{fed}"),
        outcome_text(way.outcome),
        minutes,
        money,
        _holding(way),
    )


def _differences(way: Alternative) -> tuple[str, str]:
    minutes = round(way.more_min)
    money = "not priced" if way.more_money is None else f"{way.more_money:+}" if way.more_money else "the same"
    return f"{minutes:+d}" if minutes else "the same", money


def _holding(way: Alternative) -> str:
    if way.remark:
        return remark_words(way.remark)
    return "hold not known" if way.holds_n is None else f"holds {way.holds_n:.0f} N"
