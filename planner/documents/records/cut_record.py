"""Cuts for several jobs as plain values for a file: the words of the file format, millimetres to two decimals."""

from collections import Counter
from typing import Any

from planner.documents.words.cut_wording import uncut_sentence, why_not_cut_sentence
from planner.plan.cut_stock import OpenedLength, StockLength, UncutPiece
from planner.plan.job_cuts import JobCut, JobCuts

Record = dict[str, Any]


def cuts_as_record(cuts: JobCuts) -> Record:
    """The cuts as the one object that `lineplan cuts --json` prints.

    Returns plain values only, in a fixed order.

    cuts : the jobs and their cut list
    """
    cut_list = cuts.cut_list
    return {
        "format": 1,
        "is_complete": cuts.is_complete,
        "rolls_used": cut_list.rolls_used,
        "lower_bound": cut_list.lower_bound,
        "rolls_above_at_most": cut_list.rolls_above_n,
        "is_proven": cut_list.is_proven,
        "is_length_proven": cut_list.is_length_proven,
        "is_waste_proven": cut_list.is_waste_proven,
        "uncut_at_least": cut_list.uncut_at_least,
        "opened_mm": cut_list.opened_mm,
        "length_at_least_mm": cut_list.length_at_least_mm,
        "length_above_at_most_mm": cut_list.length_above_mm,
        "waste_mm": round(cut_list.waste_mm, 2),
        "saw_mm": round(cut_list.saw_mm, 2),
        "kept_mm": round(sum(each.length_mm for each in cut_list.offcuts), 2),
        "price": None if cut_list.price is None else str(cut_list.price),
        "jobs": [_job(each) for each in cuts.jobs],
        "opened": _opened_lengths(cuts),
        "uncut": [_uncut(each) for each in cut_list.uncut],
        "offcuts": [_offcut(each) for each in cut_list.offcuts],
    }


def _job(asked: JobCut) -> Record:
    return {
        "job": asked.label,
        "id": asked.job.id,
        "outcome": asked.plan.outcome.word,
        "line": asked.job.new.line.id,
        "cut_mm": asked.cut_mm,
        "supplied_mm": asked.job.new.supplied_length_mm,
        "taken_from": asked.taken_from,
        "why_not": asked.why_not,
        "reason": why_not_cut_sentence(asked),
    }


def _opened_lengths(cuts: JobCuts) -> list[Record]:
    count: Counter[str] = Counter()
    records = []
    for opened in cuts.cut_list.opened:
        count[opened.stock_id] += 1
        kind = "supplied" if opened.stock_id in cuts.supplied_ids else "offcut" if opened.is_offcut else "roll"
        records.append({"stock": opened.stock_id, "n": count[opened.stock_id], "kind": kind, **_opened(opened)})
    return records


def _opened(opened: OpenedLength) -> Record:
    return {
        "line": opened.line_id,
        "length_mm": opened.length_mm,
        "cuts": [{"job": cut.piece_id, "start_mm": cut.start_mm, "length_mm": cut.length_mm} for cut in opened.cuts],
        "offcut_mm": opened.offcut_mm,
        "scrap_mm": opened.scrap_mm,
        "saw_mm": opened.saw_mm,
    }


def _uncut(uncut: UncutPiece) -> Record:
    return {
        "job": uncut.piece_id,
        "length_mm": uncut.length_mm,
        "quantity": uncut.quantity,
        "why": uncut.why,
        "longest_mm": uncut.longest_mm,
        "reason": uncut_sentence(uncut),
    }


def _offcut(offcut: StockLength) -> Record:
    return {"id": offcut.id, "line": offcut.line_id, "length_mm": offcut.length_mm}
