"""How long to cut the new line, and whether the supplied one reaches.

Low is the shortest curve in the slackest posture, nominal the one at rest, least the one in the worst posture; high
is the relaxed shape in the worst posture, and the cut uses high. Torsion, gravity and contact are left out.
"""

from collections.abc import Sequence
from dataclasses import replace
from math import ceil

from planner.fit.fluid_fit import may_old_fluid_meet_new
from planner.parts import GeometryError, Job, JobEnd, LineEnd, LineKind, Method, MethodKind, OldMeasured, ShopLimits
from planner.plan.length_allowance import Allowance, find_allowance
from planner.plan.lengths import LegLength, Lengths
from planner.plan.line_ends import is_cut_to_length
from planner.plan.old_line_length import OldLineLength, find_old_line_length, find_visible_mm, moved_mm
from planner.rules import LengthRule
from planner.verdicts import Check, Outcome


def hose_cut_tolerance_mm(*, length_mm: float, limits: ShopLimits) -> float | None:
    """Usual plus or minus on a hose that a supplier cuts to an ordered length; a workshop's own cut is told otherwise.

    Returns plus or minus; None where the shop has no figure for this length.

    limits : the shop's rows, and its share of the length beyond them

    Source: The figures are the shop's; those it starts with are of the Rubber Manufacturers Association, "Hose
    Handbook", IP-2, 2003, Table 4-8.
    """
    for up_to_mm, tolerance_mm in limits.hose_cut_tolerances:
        if length_mm <= up_to_mm:
            return tolerance_mm
    share = limits.hose_cut_tolerance_over_ratio
    return None if share is None else length_mm * share


def bitten_mm(*, job: Job, method: Method, feed_from: JobEnd, limits: ShopLimits) -> float:
    """How much of the new line's leading end is cut off afterwards, because the joint scored or wetted it.

    Nothing where the leading end carries its fitting, for the joint then sits on that; nothing of a line that is laid
    outside, for it meets no other; nothing of a dry line but what a thread was cut into.

    Common practice, no source: a thread cut into a bore neither seals nor holds a fitting.
    """
    is_wet = job.new.line.kind is LineKind.HYDRAULIC_HOSE
    is_spared = not is_wet and method.kind is not MethodKind.THREADED_COUPLER
    is_spared |= method.kind is MethodKind.LAID_OUTSIDE
    if job.new.end_at(feed_from.other).is_fitted or is_spared:
        return 0.0
    margins = {
        MethodKind.THREADED_COUPLER: limits.coupler_cut_away_mm,
        MethodKind.SLEEVE_TUBE: limits.sleeve_cut_away_mm,
        MethodKind.SPOKE_LINK: limits.spoke_cut_away_mm,
    }
    told = [margins.get(method.kind, limits.coupler_cut_away_mm if method.covers_mm else None)]
    if not may_old_fluid_meet_new(old=job.old, new=job.new):
        told.append(limits.touched_cut_away_mm)
    known = [margin for margin in told if margin is not None]
    return method.covers_mm + max(known) if known else 0.0


def find_lengths(
    *,
    job: Job,
    legs: Sequence[LegLength],
    limits: ShopLimits,
    posture: str = "at rest",
    bitten_mm: float = 0.0,
    undone_mm: float = 0.0,
    leaves_old_way: bool = False,
) -> Lengths:
    """Longest need, cut length and spare of the new line.

    Need is the sum of the legs' upper estimates; where the length of a leg is not known, what the old line says; else
    it is not known. Cut length adds the insertion depth of both fittings, the trim allowance of a line that is cut,
    what is cut away and what is allowed for errors in what was told, and is rounded up.

    Returns with what is missing as a negative spare.

    legs : in route order
    limits : trim allowance and rounding step
    posture : what the legs were measured over, for the sheet
    bitten_mm, undone_mm : cut off the ends of the line before it has its length
    leaves_old_way : whether the line is known to take another way than the old one

    Common practice, no source: what is wanted inside the fittings and for trimming square.
    """
    known_mm = [leg.high_mm for leg in legs if leg.high_mm is not None]
    is_cut = is_cut_to_length(job.new)
    are_legs_known = len(known_mm) == len(legs)
    old = OldLineLength()
    if not are_legs_known:
        old = find_old_line_length(job=job, leaves_old_way=leaves_old_way, limits=limits)
    need_mm = sum(known_mm) if are_legs_known else old.need_mm
    allowance = find_allowance(frame=job.frame, legs=legs, limits=limits) if are_legs_known else Allowance()
    found = Lengths(
        legs=tuple(legs),
        need_mm=need_mm,
        cut_mm=None,
        supplied_mm=job.new.supplied_length_mm,
        spare_mm=None,
        insertion_mm=_depth_mm(job.new.from_end) + _depth_mm(job.new.to_end),
        trim_mm=limits.trim_allowance_mm if is_cut else 0.0,
        bitten_mm=bitten_mm,
        undone_mm=undone_mm,
        cut_over_mm=limits.cut_over_mm,
        is_cut=is_cut,
        measured_old_mm=None if job.old is None else job.old.measured_length_mm,
        posture=posture if are_legs_known or need_mm is None else AS_THE_OLD_LINE,
        allow_mm=allowance.allow_mm,
        geometry_error=allowance.error,
        is_from_old_line=need_mm is not None and not are_legs_known,
        old_line_checks=old.questions,
    )
    return found if need_mm is None else _with_cut(found, need_mm, job, limits)


AS_THE_OLD_LINE = "as the old line lay"
"""What a length was looked at over that comes from the old line."""


def _with_cut(found: Lengths, need_mm: float, job: Job, limits: ShopLimits) -> Lengths:
    """The lengths with all that follows from a need that is known."""
    added_mm = found.insertion_mm + found.trim_mm + found.bitten_mm + found.undone_mm + (found.allow_mm or 0.0)
    cut_mm = _rounded_up_mm(need_mm + added_mm, step_mm=limits.length_step_mm)
    line, old_mm = job.new.line, _old_to_compare_mm(found, job, added_mm)
    is_hose = line.kind is LineKind.HYDRAULIC_HOSE
    return replace(
        found,
        cut_mm=cut_mm,
        spare_mm=None if found.supplied_mm is None else found.supplied_mm - cut_mm,
        pressure_mm=None if line.pressure_shrink_ratio is None else need_mm * line.pressure_shrink_ratio,
        cutting_tolerance_mm=hose_cut_tolerance_mm(length_mm=cut_mm, limits=limits) if is_hose else None,
        old_makes_mm=old_mm,
        measured_difference_ratio=None if old_mm is None else (old_mm - cut_mm) / cut_mm,
    )


def _old_to_compare_mm(found: Lengths, job: Job, added_mm: float) -> float | None:
    """What of the old line may be held against the cut; nothing where the cut comes from it.

    A line measured from cut end to cut end stands for itself; one measured otherwise for what would be cut by it.
    """
    if found.is_from_old_line or job.old is None or job.old.measured is OldMeasured.CUT_ENDS:
        return None if found.is_from_old_line else found.measured_old_mm
    visible_mm = find_visible_mm(job.old)
    return None if visible_mm is None else visible_mm + moved_mm(job.old) + added_mm


def cut_words(*, length_mm: float | None, cut_over_mm: float | None) -> str:
    """A length to cut to, as it is printed for the hands: a little longer will do, shorter never.

    length_mm : None where it is not known
    cut_over_mm : how much longer the cut may come out; None where the shop has not said

    >>> cut_words(length_mm=1485, cut_over_mm=3), cut_words(length_mm=1485, cut_over_mm=None)
    ('1485 mm (+3/-0)', '1485 mm (never shorter)')
    """
    if length_mm is None:
        return "its mark (its length is not known: lay it in, then mark)"
    allowed = "never shorter" if cut_over_mm is None else f"+{cut_over_mm:g}/-0"
    return f"{length_mm:.0f} mm ({allowed})"


def length_words(lengths: Lengths) -> str:
    """What length the hands give the new line, with what comes off it later; or see that it has where it is not cut.

    >>> sizes = {"legs": (), "need_mm": 1377, "supplied_mm": None, "spare_mm": None, "insertion_mm": 0, "trim_mm": 0}
    >>> length_words(Lengths(cut_mm=1380, is_cut=False, **sizes))
    '1380 mm or more; it is not cut'
    >>> length_words(Lengths(cut_mm=890, cut_over_mm=3, bitten_mm=20, **sizes))
    'cut to 890 mm (+3/-0), in the end 870 mm'
    """
    if lengths.is_cut:
        told = f"cut to {cut_words(length_mm=lengths.cut_mm, cut_over_mm=lengths.cut_over_mm)}"
        off_mm = lengths.bitten_mm + lengths.undone_mm
        return f"{told}, in the end {lengths.final_mm:.0f} mm" if lengths.final_mm and off_mm else told
    least = "as much as the way takes" if lengths.cut_mm is None else f"{lengths.cut_mm:.0f} mm or more"
    return f"{least}; it is not cut"


def added_words(lengths: Lengths) -> str:
    """What the line must have beyond the need, term by term: with the need the cut, but for rounding.

    >>> sized = Lengths(legs=(), need_mm=0, cut_mm=0, supplied_mm=None, spare_mm=None, insertion_mm=22, trim_mm=10)
    >>> added_words(sized)
    ' + 22 mm into the fittings + 10 mm to trim'
    """
    terms = [
        (lengths.insertion_mm, "into the fittings"),
        (lengths.bitten_mm, "to cut away where the joint was"),
        (lengths.undone_mm, "lost where a fitting is taken off and set again"),
        (lengths.trim_mm, "to trim"),
        (lengths.allow_mm or 0.0, allowance_reason(lengths)),
    ]
    return "".join(f" + {term_mm:.0f} mm {words}" for term_mm, words in terms if term_mm > 0)


_HOW_TOLD = {
    None: "lengths were measured by tape or wire",
    GeometryError.CAREFUL: "the frame was measured with tape and rule",
    GeometryError.ORDINARY: "the frame was measured from photographs or in words",
}


def allowance_reason(lengths: Lengths) -> str:
    """Why something is added for errors in what was told."""
    return "because " + next(words for error, words in _HOW_TOLD.items() if error is lengths.geometry_error)


def allowance_words(lengths: Lengths) -> str | None:
    """The line of its own that tells what is added for errors in what was told; None where nothing is.

    lengths : with the allowance counted in the cut
    """
    if lengths.cut_mm is None or not lengths.allow_mm:
        return None
    return f"{lengths.allow_mm:.0f} mm {allowance_reason(lengths)}"


def words_beside_cut(lengths: Lengths) -> list[tuple[str, str]]:
    """Name and words of what is told under the length to cut to: where it comes from, and what is added for errors.

    lengths : of a plan that has steps
    """
    rows = [("Length from", "the old line as it lay")] if lengths.is_from_old_line else []
    allowed = allowance_words(lengths)
    return [*rows, ("In that length", allowed)] if allowed else rows


def order_words(lengths: Lengths) -> str | None:
    """How long a hose to order where none is supplied, so that it reaches at the short end of the supplier's tolerance.

    None where the supplied length was told, or no tolerance is known.
    """
    tolerance_mm = lengths.cutting_tolerance_mm
    if lengths.supplied_mm is not None or tolerance_mm is None or lengths.cut_mm is None:
        return None
    order_mm = ceil(round(lengths.cut_mm + tolerance_mm, 6))
    return f"a hose ordered to length comes within ±{tolerance_mm:g} mm: order {order_mm} mm or more"


def check_supplied_length(*, lengths: Lengths) -> Check | None:
    """Whether the supplied line reaches.

    Returns rule "supplied_length"; the clearance is the spare length. None when the supplied length is not told, or
    the one to cut to is not known.
    """
    if lengths.supplied_mm is None or lengths.spare_mm is None:
        return None
    return Check(
        rule=LengthRule.SUPPLIED_LENGTH,
        outcome=Outcome.FITS if lengths.spare_mm >= 0 else Outcome.NO_FIT,
        size_mm=lengths.cut_mm,
        available_mm=lengths.supplied_mm,
        clearance_mm=lengths.spare_mm,
    )


def _depth_mm(end: LineEnd) -> float:
    return 0.0 if end.fitting is None else end.fitting.insertion_depth_mm


def _rounded_up_mm(length_mm: float, *, step_mm: float) -> float:
    return ceil(round(length_mm / step_mm, 9)) * step_mm
