"""A cut list in rows, as terminal and page tell it: each length with its cuts in order, and what is not cut and why."""

from catalog import Catalog
from planner import CutList, JobCut, JobCuts, OpenedLength, cut_size, uncut_sentence, why_not_cut_sentence
from planner.verdicts import Outcome


def opened_words(opened: OpenedLength, cuts: JobCuts, catalog: Catalog) -> str:
    """What to cut from: its name on the shelf and its line."""
    line = catalog.lines[opened.line_id].name
    if opened.stock_id not in cuts.supplied_ids:
        return f"{opened.stock_id}{', offcut' if opened.is_offcut else ''} · {line}"
    new = next(asked.job.new for asked in cuts.jobs if asked.label == opened.cuts[0].piece_id)
    is_fitted = new.from_end.is_fitted or new.to_end.is_fitted
    return f"{opened.stock_id} · {line}{', from the end whose fitting stays on' if is_fitted else ''}"


def rest_words(opened: OpenedLength) -> str:
    """What becomes of the end."""
    if opened.offcut_mm:
        return "keep as offcut"
    return "scrap" if opened.scrap_mm else "nothing is left"


def rest_places(opened: OpenedLength) -> tuple[str, str, str]:
    """From where to where the end goes, and its length."""
    left_mm = opened.offcut_mm or opened.scrap_mm
    if not left_mm:
        return "", "", ""
    return bare(opened.length_mm - left_mm), bare(opened.length_mm), bare(left_mm)


def bare(length_mm: float) -> str:
    """A length without its unit."""
    return cut_size(length_mm).removesuffix(" mm")


def price_words(cut_list: CutList, catalog: Catalog) -> str:
    """What the rolls cost that are opened."""
    if cut_list.price is None:
        return "not told: a roll that is opened has no price"
    return f"{cut_list.price} {catalog.workshop.limits.currency}, offcuts and supplied lines not counted"


def missing_words(cuts: JobCuts) -> str:
    """How many get no line; "" where all do."""
    missing = sum(uncut.quantity for uncut in cuts.cut_list.uncut) + sum(not one.has_its_line for one in cuts.jobs)
    asked = len(cuts.jobs) + sum(piece.quantity for piece in cuts.own)
    return f"Without a line: {missing} of {asked}, see below." if missing else ""


def _outcome_of(asked: JobCut) -> Outcome:
    """Of a job that gets no line: what its plan says, and where that stands, whether its length is only not known."""
    if asked.plan.outcome > Outcome.TIGHT:
        return asked.plan.outcome
    return Outcome.UNKNOWN if asked.cut_mm is None else Outcome.NO_FIT


def not_cut_rows(cuts: JobCuts, catalog: Catalog) -> list[tuple[Outcome, str, str]]:
    """What gets no line: where it stands, its name in the list, and why."""
    rows = [(_outcome_of(asked), asked.label, reason) for asked in cuts.jobs if (reason := why_not_cut_sentence(asked))]
    for uncut in cuts.cut_list.uncut:
        name = f"{cut_size(uncut.length_mm)} of {catalog.lines[cuts.line_ids[uncut.piece_id]].name}"
        rows.append((Outcome.NO_FIT, uncut.piece_id, f"{name} cannot be cut: {uncut_sentence(uncut)}."))
    return rows
