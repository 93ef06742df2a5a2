"""Sentences about cuts: how good the list is, and why a piece or a job is not in it."""

from planner.documents.words.wording import verdict_sentence
from planner.plan.cut_stock import CutList, UncutPiece, WhyUncut
from planner.plan.job_cuts import JobCut, WhyNotCut


def cut_size(length_mm: float) -> str:
    """A length to be cut or marked, without rounding: whole millimetres, or the hundredths there are.

    >>> cut_size(1450), cut_size(12.5)
    ('1450 mm', '12.5 mm')
    """
    return f"{length_mm:.2f}".rstrip("0").rstrip(".") + " mm"


def cuts_sentence(cut_list: CutList) -> str:
    """How many rolls are opened, whether fewer would do, and what is lost.

    Returns one sentence; what is not proven is said to be so.
    """
    rolls = "1 roll" if cut_list.rolls_used == 1 else f"{cut_list.rolls_used} rolls"
    kept = sum(each.length_mm for each in cut_list.offcuts)
    return (
        f"{rolls} opened, {_roll_proof(cut_list)}. {cut_size(cut_list.waste_mm)} scrap"
        f"{'' if not cut_list.saw_mm else f', {cut_size(cut_list.saw_mm)} lost in the cuts'}"
        f"{'' if not kept else f', {cut_size(kept)} kept as offcuts'}{_rest_proof(cut_list)}."
    )


def _roll_proof(cut_list: CutList) -> str:
    if cut_list.is_proven and cut_list.uncut:
        return "proven: no way of cutting gives more of the pieces, or as many from fewer rolls"
    if cut_list.is_proven:
        return "proven: no way of cutting opens fewer" if cut_list.rolls_used else "none is needed"
    more = cut_list.uncut_n - (cut_list.uncut_at_least or 0)
    if cut_list.uncut and more:
        return f"not proven to be the best: at most {more} more of the pieces could be cut"
    return (
        f"at most {cut_list.rolls_above_n} more than needed: no way of cutting opens fewer than {cut_list.lower_bound}"
    )


def _rest_proof(cut_list: CutList) -> str:
    told = ""
    if not cut_list.is_length_proven and cut_list.length_above_mm:
        told = (
            f"; {cut_size(cut_list.opened_mm)} of stock opened, at most {cut_size(cut_list.length_above_mm)} more than "
        )
        told += "as many rolls need"
    elif not cut_list.is_length_proven and cut_list.length_above_mm is None:
        told = "; not proven to be the least length of stock"
    return told if cut_list.is_waste_proven else f"{told}; not proven to be the least scrap"


def uncut_sentence(uncut: UncutPiece) -> str:
    """Why the stock does not give a piece.

    Returns without a full stop.
    """
    if uncut.why is WhyUncut.NO_STOCK or uncut.longest_mm is None:
        return "there is no stock of this line"
    if uncut.why is WhyUncut.TOO_LONG:
        return f"it is longer than the longest stock of this line, {cut_size(uncut.longest_mm)}"
    return "the stock of this line is used up"


def why_not_cut_sentence(asked: JobCut) -> str:
    """Why a job's line is not to be cut at all.

    Returns for a job without a plan, the verdict; "" for a job that is cut.

    asked : a job that is not cut
    """
    if asked.why_not is None:
        return ""
    if asked.why_not is WhyNotCut.LENGTH_NOT_KNOWN:
        return "The plan stands, but how long this line must be is not known: lay it in, then mark and cut it."
    if asked.why_not is WhyNotCut.COMES_CLOSED:
        return "Nothing to cut: this line comes as it is and is long enough; what is over is stowed."
    if asked.why_not is not WhyNotCut.FACTORY_END or asked.cut_mm is None:
        return verdict_sentence(asked.plan)
    supplied_mm = asked.job.new.supplied_length_mm
    own = (
        "how long its own line is was not told"
        if supplied_mm is None
        else f"its own line, {cut_size(supplied_mm)}, is {cut_size(asked.cut_mm - supplied_mm)} too short"
    )
    return (
        f"The plan stands, but this line comes with a factory's end, so it cannot be cut from stock, and {own}: "
        f"{cut_size(asked.cut_mm)} needed."
    )
