"""Do the fittings belong on this line: olive over its outside, insert in its bore?"""

from planner.fit.size_match import match_room_mm
from planner.parts import Fitting, Line, LineEnd, LineKind
from planner.rules import PartRule, Rule
from planner.verdicts import Check, Outcome

KINDS_WITH_A_FITTED_BORE = (LineKind.HYDRAULIC_HOSE,)


def check_line_end(*, line: Line, end: LineEnd, bore_tolerance_mm: float | None) -> tuple[Check, ...]:
    """Whether the fitting that belongs on one end is made for this line.

    A fitting that already sits on the line has proven it. The bore counts for hydraulic hoses only: nothing goes into
    the bore of a housing or a wire but what belongs there.

    Returns rule "hose_end_outer", and for a hose "hose_end_bore": FITS with note "made_for_it" or "sits_already";
    NO_FIT with "line_too_thick", "line_too_thin", "bore_too_wide" or "bore_too_narrow"; UNKNOWN with
    "line_not_measured" or "fitting_not_measured", or with "tolerance_not_known" where the bores differ. Empty for an
    end without a fitting.

    bore_tolerance_mm : how far the line's bore and the one the insert is made for may differ; None when the shop has
        not said

    Common practice, no source: olive and insert are made for one outside and one bore.
    """
    fitting = end.fitting
    if fitting is None:
        return ()
    if end.is_fitted:
        sits = Check(
            rule=PartRule.HOSE_END_OUTER, outcome=Outcome.FITS, note="sits_already", with_ids=(line.id, fitting.id)
        )
        return (sits,)
    outer = _compare(
        PartRule.HOSE_END_OUTER,
        line,
        fitting,
        line_mm=line.outer_diameter_mm,
        made_for_mm=fitting.line_outer_diameter_mm,
        tolerance_mm=line.outer_tolerance_mm,
        wrong=("line_too_thick", "line_too_thin"),
    )
    if line.kind not in KINDS_WITH_A_FITTED_BORE:
        return (outer,)
    bore = _compare(
        PartRule.HOSE_END_BORE,
        line,
        fitting,
        line_mm=line.bore_diameter_mm,
        made_for_mm=fitting.line_bore_diameter_mm,
        tolerance_mm=bore_tolerance_mm,
        wrong=("bore_too_wide", "bore_too_narrow"),
    )
    return (outer, bore)


def _compare(
    rule: Rule,
    line: Line,
    fitting: Fitting,
    *,
    line_mm: float | None,
    made_for_mm: float | None,
    tolerance_mm: float | None,
    wrong: tuple[str, str],
) -> Check:
    ids = (line.id, fitting.id)
    if line_mm is None or made_for_mm is None:
        note = "line_not_measured" if line_mm is None else "fitting_not_measured"
        return Check(
            rule=rule,
            outcome=Outcome.UNKNOWN,
            note=note,
            with_ids=ids,
            size_mm=line_mm,
            available_mm=made_for_mm,
        )
    room_mm = match_room_mm(first_mm=line_mm, second_mm=made_for_mm, tolerance_mm=tolerance_mm)
    if room_mm is None:
        outcome, note = Outcome.UNKNOWN, "tolerance_not_known"
    elif room_mm >= 0:
        outcome, note = Outcome.FITS, "made_for_it"
    else:
        outcome, note = Outcome.NO_FIT, wrong[0] if line_mm > made_for_mm else wrong[1]
    return Check(
        rule=rule,
        outcome=outcome,
        note=note,
        with_ids=ids,
        size_mm=line_mm,
        available_mm=made_for_mm,
        clearance_mm=room_mm,
    )
