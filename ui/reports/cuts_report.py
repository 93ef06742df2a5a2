"""Cuts in the terminal: how many rolls, then each length with its cuts in order, then what is not cut and why."""

from collections.abc import Iterator, Sequence

from rich.console import RenderableType
from rich.markup import escape
from rich.padding import Padding
from rich.panel import Panel
from rich.table import Table
from rich.text import Text

from catalog import Catalog
from planner import (
    CutList,
    JobCut,
    JobCuts,
    OpenedLength,
    cut_size,
    cuts_sentence,
    uncut_sentence,
    why_not_cut_sentence,
)
from planner.verdicts import Outcome
from ui.reports.plain_table import outcome_text, plain_table
from ui.reports.report import print_report


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
    yield from _not_cut(cuts)
    yield from _shared_names(cuts, files)


def _verdict(cuts: JobCuts) -> Text:
    verdict = Text(cuts_sentence(cuts.cut_list), style="bold green" if cuts.is_complete else "bold")
    if cuts.supplied_ids:
        verdict.append(f" Cut from what was supplied with the job: {len(cuts.supplied_ids)}.")
    missing = len(cuts.cut_list.uncut) + sum(not asked.has_its_line for asked in cuts.jobs)
    if missing:
        verdict.append(f" Without a line: {missing} of {len(cuts.jobs)}, see below.", style="bold red")
    return verdict


def _cuts_table(cuts: JobCuts, catalog: Catalog) -> Table:
    figures = ("From", "To", "Length")
    table = plain_table(("Cut from / for", *figures), title="Cuts in their order (mm)", right=figures)
    for number, opened in enumerate(cuts.cut_list.opened, start=1):
        table.add_row(Text(f"{number}. {_told(opened, cuts, catalog)}", style="bold"), "", "", _bare(opened.length_mm))
        for cut in opened.cuts:
            end_mm = cut.start_mm + cut.length_mm
            table.add_row(f"   {escape(cut.piece_id)}", _bare(cut.start_mm), _bare(end_mm), _bare(cut.length_mm))
        table.add_row(Text(f"   {_rest(opened)}", style="dim"), *_rest_places(opened), end_section=True)
    return table


def _told(opened: OpenedLength, cuts: JobCuts, catalog: Catalog) -> str:
    line = catalog.lines[opened.line_id].name
    if opened.stock_id not in cuts.supplied_ids:
        return f"{opened.stock_id}{', offcut' if opened.is_offcut else ''} · {line}"
    new = next(asked.job.new for asked in cuts.jobs if asked.label == opened.cuts[0].piece_id)
    is_fitted = new.from_end.is_fitted or new.to_end.is_fitted
    return f"{opened.stock_id} · {line}{', from the end whose fitting stays on' if is_fitted else ''}"


def _rest(opened: OpenedLength) -> str:
    if opened.offcut_mm:
        return "keep as offcut"
    return "scrap" if opened.scrap_mm else "nothing is left"


def _rest_places(opened: OpenedLength) -> tuple[str, str, str]:
    left_mm = opened.offcut_mm or opened.scrap_mm
    if not left_mm:
        return "", "", ""
    return _bare(opened.length_mm - left_mm), _bare(opened.length_mm), _bare(left_mm)


def _bare(length_mm: float) -> str:
    return cut_size(length_mm).removesuffix(" mm")


def _totals(cut_list: CutList, catalog: Catalog) -> RenderableType:
    if cut_list.price is None:
        price = "not told: a roll that is opened has no price"
    else:
        price = f"{cut_list.price} {catalog.workshop.limits.currency}, offcuts and supplied lines not counted"
    return Padding(Text.assemble(("Price of the rolls opened  ", "bold"), price), (0, 0, 1, 1))


def _outcome_of(asked: JobCut) -> Outcome:
    """Of a job that gets no line: what its plan says, and where that stands, whether its length is only not known."""
    if asked.plan.outcome > Outcome.TIGHT:
        return asked.plan.outcome
    return Outcome.UNKNOWN if asked.cut_mm is None else Outcome.NO_FIT


def _not_cut(cuts: JobCuts) -> Iterator[RenderableType]:
    lines = {asked.label: asked.job.new.line for asked in cuts.jobs}
    rows: list[tuple[Outcome, str, str]] = [
        (_outcome_of(asked), asked.label, reason) for asked in cuts.jobs if (reason := why_not_cut_sentence(asked))
    ]
    for uncut in cuts.cut_list.uncut:
        name = f"{cut_size(uncut.length_mm)} of {lines[uncut.piece_id].name}"
        rows.append((Outcome.NO_FIT, uncut.piece_id, f"{name} cannot be cut: {uncut_sentence(uncut)}."))
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
