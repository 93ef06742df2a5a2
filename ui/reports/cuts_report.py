"""Cuts in the terminal: how many rolls, then each length with its cuts in order, then what is not cut and why."""

from collections.abc import Iterator, Sequence

from rich.console import RenderableType
from rich.markup import escape
from rich.padding import Padding
from rich.panel import Panel
from rich.table import Table
from rich.text import Text

from catalog import Catalog
from planner import CutList, JobCuts, cuts_sentence
from ui.reports.plain_table import outcome_text, plain_table
from ui.reports.report import print_report
from ui.shared.cut_rows import bare, missing_words, not_cut_rows, opened_words, price_words, rest_places, rest_words


def print_cuts(cuts: JobCuts, *, files: Sequence[str], catalog: Catalog) -> None:
    """Print the cuts for people."""
    print_report(*_sections(cuts, files, catalog))


def _sections(cuts: JobCuts, files: Sequence[str], catalog: Catalog) -> Iterator[RenderableType]:
    cut_list = cuts.cut_list
    count = f"{len(cuts.jobs)} job{'' if len(cuts.jobs) == 1 else 's'}"
    yield Panel(_verdict(cuts), title=f"Cut list for {count}", title_align="left")
    if cut_list.opened:
        yield _cuts_table(cuts, catalog)
        yield _totals(cut_list, catalog)
    yield from _not_cut(cuts, catalog)
    yield from _shared_names(cuts, files)


def _verdict(cuts: JobCuts) -> Text:
    verdict = Text(cuts_sentence(cuts.cut_list), style="bold green" if cuts.is_complete else "bold")
    if cuts.supplied_ids:
        verdict.append(f" Cut from what was supplied with the job: {len(cuts.supplied_ids)}.")
    if missing := missing_words(cuts):
        verdict.append(f" {missing}", style="bold red")
    return verdict


def _cuts_table(cuts: JobCuts, catalog: Catalog) -> Table:
    figures = ("From", "To", "Length")
    table = plain_table(("Cut from / for", *figures), title="Cuts in their order (mm)", right=figures)
    for number, opened in enumerate(cuts.cut_list.opened, start=1):
        table.add_row(
            Text(f"{number}. {opened_words(opened, cuts, catalog)}", style="bold"), "", "", bare(opened.length_mm)
        )
        for cut in opened.cuts:
            end_mm = cut.start_mm + cut.length_mm
            table.add_row(f"   {escape(cut.piece_id)}", bare(cut.start_mm), bare(end_mm), bare(cut.length_mm))
        table.add_row(Text(f"   {rest_words(opened)}", style="dim"), *rest_places(opened), end_section=True)
    return table


def _totals(cut_list: CutList, catalog: Catalog) -> RenderableType:
    price = price_words(cut_list, catalog)
    return Padding(Text.assemble(("Price of the rolls opened  ", "bold"), price), (0, 0, 1, 1))


def _not_cut(cuts: JobCuts, catalog: Catalog) -> Iterator[RenderableType]:
    rows = not_cut_rows(cuts, catalog)
    if rows:
        yield Text("Not cut", style="bold")
    for outcome, label, reason in rows:
        mark = Text.assemble(outcome_text(outcome, after="  "), (f"{label}  ", "bold"), reason)
        yield Padding(mark, (0, 0, 0, 1))


def _shared_names(cuts: JobCuts, files: Sequence[str]) -> Iterator[RenderableType]:
    """Which file a numbered job stands in."""
    rows = [
        f"  {asked.label} is {file}"
        for asked, file in zip(cuts.jobs, files, strict=True)
        if asked.label != asked.job.id
    ]
    if rows:
        yield Text("\n".join(("\nJobs that share an id", *rows)))
