"""What of a line is cut away, what is told of its length, and which way of doing a job goes before which; by hand."""

from dataclasses import replace
from typing import Any

import pytest

from planner.parts import (
    Fluid,
    GeometryError,
    Job,
    JobEnd,
    LaidOutside,
    LineEnd,
    LineKind,
    Method,
    NewLine,
    PullWord,
)
from planner.plan.change import NO_WAY, is_less
from planner.plan.cut_length import (
    added_words,
    allowance_words,
    bitten_mm,
    check_supplied_length,
    cut_words,
    find_lengths,
    length_words,
    order_words,
    words_beside_cut,
)
from planner.plan.cut_list import find_cut_list
from planner.plan.lengths import LegLength, Lengths
from planner.plan.no_route import _badness
from planner.plan.options import cut_old_at, handling_of_pull, looseness_mm
from planner.rules import BrakeRule, JointRule, LengthRule, PlaceRule
from planner.verdicts import Check, Outcome
from tests.builders import make_coupler, make_job, make_lane_frame, make_limits, make_line, make_sleeve, make_spoke
from tests.planner.fit.compatibility_samples import make_brake, make_fitting
from tests.work_orders.job_kinds import LEADER, LINER, OVER, WIRE

SHOP = make_limits(coupler_cut_away_mm=10.0, sleeve_cut_away_mm=2.0, spoke_cut_away_mm=0.0, touched_cut_away_mm=20.0)
STUDDED = replace(LEADER, stud_diameter_mm=2.6, joint_length_mm=12.0)


def drawn(*, kind: LineKind = LineKind.HYDRAULIC_HOSE, old: Fluid = Fluid.MINERAL_OIL, **ends: LineEnd) -> Job:
    """A line of this kind, for mineral oil if it is a hose; the old hose held this fluid."""
    job = make_job(make_lane_frame((8.0, 8.0)))
    assert job.old is not None
    wet = kind is LineKind.HYDRAULIC_HOSE
    new = NewLine(
        line=make_line(id="new", kind=kind),
        from_end=ends.get("from_end", LineEnd()),
        to_end=ends.get("to_end", LineEnd()),
        brake=make_brake(fluid=Fluid.MINERAL_OIL) if wet else None,
    )
    return replace(job, old=replace(job.old, brake=make_brake(fluid=old, id="old")), new=new)


def bitten(job: Job, method: Method, *, feed_from: JobEnd = JobEnd.FROM, **limits: Any) -> float:
    return bitten_mm(job=job, method=method, feed_from=feed_from, limits=replace(SHOP, **limits))


@pytest.mark.parametrize(
    ("method", "wet_mm", "dry_mm", "touched_mm"),
    [
        (make_coupler(), 9 + 10, 9 + 10, 9 + 20),  # a thread was cut into the bore, of a dry line as well
        (make_sleeve(), 25 + 2, 0, 25 + 20),
        (make_spoke(), 20 + 0, 0, 20 + 20),
        (STUDDED, 6 + 10, 0, 6 + 20),  # half of its joint is screwed in
        (LEADER, 0, 0, 20),
        (LINER, 0, 0, 20),
        (OVER, 0, 0, 20),
        (LaidOutside(), 0, 0, 0),
    ],
    ids=lambda value: getattr(value, "kind", None),
)
def test_what_the_joint_marked_is_cut_away(method: Method, wet_mm: float, dry_mm: float, touched_mm: float) -> None:
    assert bitten(drawn(), method) == wet_mm
    assert bitten(drawn(kind=LineKind.SHIFT_HOUSING), method) == dry_mm
    assert bitten(drawn(old=Fluid.GLYCOL_DOT4), method) == touched_mm


def test_where_the_shop_says_nothing_nothing_is_cut_away() -> None:
    silent = {"coupler_cut_away_mm": None, "touched_cut_away_mm": None}
    assert bitten(drawn(), make_coupler(), **silent) == 0
    assert bitten(drawn(old=Fluid.GLYCOL_DOT4), make_coupler(), touched_cut_away_mm=None) == 19
    assert bitten(drawn(old=Fluid.GLYCOL_DOT4), make_coupler(), touched_cut_away_mm=5.0) == 19  # the more of both


@pytest.mark.parametrize("feed_from", JobEnd)
def test_an_end_that_leads_with_its_fitting_on_is_not_marked(feed_from: JobEnd) -> None:
    fitted = LineEnd(fitting=make_fitting(), is_fitted=True)
    leading, trailing = ("to_end", "from_end") if feed_from is JobEnd.FROM else ("from_end", "to_end")
    assert bitten(drawn(**{leading: fitted}), make_coupler(), feed_from=feed_from) == 0
    assert bitten(drawn(**{trailing: fitted}), make_coupler(), feed_from=feed_from) == 19
    assert bitten(drawn(**{leading: LineEnd(fitting=make_fitting())}), make_coupler(), feed_from=feed_from) == 19


def lengths(**changes: Any) -> Lengths:
    fields: dict[str, Any] = {"need_mm": 1451.0, "cut_mm": 1485.0, "supplied_mm": None, "spare_mm": None}
    return Lengths(**{"legs": (), "insertion_mm": 22.0, "trim_mm": 10.0, **fields, **changes})


def test_a_length_is_told_for_the_hands_or_that_it_is_not_known() -> None:
    assert length_words(lengths(cut_over_mm=3.0)) == "cut to 1485 mm (+3/-0)"
    wetted = length_words(lengths(cut_over_mm=3.0, bitten_mm=19.0, undone_mm=30.0))
    assert wetted == "cut to 1485 mm (+3/-0), in the end 1436 mm"
    assert length_words(lengths(is_cut=False)) == "1485 mm or more; it is not cut"
    assert length_words(lengths(is_cut=False, cut_mm=None)) == "as much as the way takes; it is not cut"
    assert length_words(lengths(cut_mm=None)).startswith("cut to its mark")
    assert cut_words(length_mm=0.0, cut_over_mm=0.0) == "0 mm (+0/-0)"


def test_what_is_added_is_told_term_by_term_where_it_is_something() -> None:
    told = added_words(lengths(bitten_mm=19.0, undone_mm=20.0, allow_mm=7.0, geometry_error=GeometryError.CAREFUL))
    assert told == (
        " + 22 mm into the fittings + 19 mm to cut away where the joint was"
        " + 20 mm lost where a fitting is taken off and set again + 10 mm to trim"
        " + 7 mm because the frame was measured with tape and rule"
    )
    assert added_words(lengths(insertion_mm=0.0, trim_mm=0.0, allow_mm=None)) == ""
    assert added_words(lengths(insertion_mm=0.0, trim_mm=0.0, allow_mm=0.0)) == ""


@pytest.mark.parametrize(
    ("error", "why"),
    [
        (None, "lengths were measured by tape or wire"),
        (GeometryError.CAREFUL, "the frame was measured with tape and rule"),
        (GeometryError.ORDINARY, "the frame was measured from photographs or in words"),
    ],
)
def test_an_allowance_is_told_with_its_reason(error: GeometryError | None, why: str) -> None:
    found = lengths(allow_mm=18.4, geometry_error=error)
    assert allowance_words(found) == f"18 mm because {why}"
    assert words_beside_cut(found) == [("In that length", f"18 mm because {why}")]
    old = replace(found, is_from_old_line=True)
    assert words_beside_cut(old)[0] == ("Length from", "the old line as it lay")
    assert len(words_beside_cut(old)) == 2
    for none in (replace(found, allow_mm=None), replace(found, allow_mm=0.0), replace(found, cut_mm=None)):
        assert allowance_words(none) is None
        assert words_beside_cut(none) == []


@pytest.mark.parametrize(
    ("tolerance_mm", "order_mm"), [(12.7, 1498), (13.0, 1498), (12.0, 1497), (0.1, 1486), (0.0, 1485)]
)
def test_a_hose_is_ordered_so_that_it_reaches_at_its_short_end(tolerance_mm: float, order_mm: int) -> None:
    told = order_words(lengths(cutting_tolerance_mm=tolerance_mm))
    assert told == f"a hose ordered to length comes within ±{tolerance_mm:g} mm: order {order_mm} mm or more"
    assert order_words(lengths(cutting_tolerance_mm=tolerance_mm, cut_mm=None)) is None
    assert order_words(lengths(cutting_tolerance_mm=tolerance_mm, supplied_mm=2000.0)) is None


@pytest.mark.parametrize(
    ("supplied_mm", "outcome"), [(1484.9, Outcome.NO_FIT), (1485.0, Outcome.FITS), (1485.1, Outcome.FITS)]
)
def test_a_supplied_line_reaches_or_does_not(supplied_mm: float, outcome: Outcome) -> None:
    check = check_supplied_length(lengths=lengths(supplied_mm=supplied_mm, spare_mm=supplied_mm - 1485.0))
    assert check is not None
    assert (check.outcome, check.size_mm, check.available_mm) == (outcome, 1485.0, supplied_mm)
    assert check.clearance_mm == pytest.approx(supplied_mm - 1485.0)
    assert check_supplied_length(lengths=lengths()) is None
    assert check_supplied_length(lengths=lengths(supplied_mm=supplied_mm)) is None


def leg(mm: float | None) -> LegLength:
    sizes = dict.fromkeys(("way_mm", "nominal_mm", "low_mm", "high_mm", "least_mm"), mm)
    return LegLength(run_id="to-0", from_place="start", to_place="in-0", basis="measured", **sizes)  # type: ignore[arg-type]


def test_what_follows_from_a_need_is_told_with_it() -> None:
    """600 + 600 and 10 to trim, in steps of 5: 1210. Of a hose 2 % may be off beyond the shop's rows."""
    job = make_job(make_lane_frame((8.0, 8.0)))
    limits = make_limits(hose_cut_tolerances=((1209.0, 5.0), (1210.0, 8.0)))
    hose = replace(job.new, line=replace(job.new.line, pressure_shrink_ratio=0.02), supplied_length_mm=1200.0)
    found = find_lengths(job=replace(job, new=hose), legs=[leg(600.0), leg(600.0)], limits=limits, posture="so")
    assert (found.need_mm, found.cut_mm, found.spare_mm) == (1200.0, 1210.0, -10.0)
    assert (found.pressure_mm, found.cutting_tolerance_mm, found.posture) == (24.0, 8.0, "so")
    assert (found.allow_mm, found.known, found.final_mm) == (0.0, True, 1210.0)
    dry = replace(hose, line=replace(hose.line, kind=LineKind.SHIFT_HOUSING, pressure_shrink_ratio=None))
    found = find_lengths(job=replace(job, new=dry), legs=[leg(600.0), leg(600.0)], limits=limits)
    assert (found.pressure_mm, found.cutting_tolerance_mm) == (None, None)
    wire = replace(hose, line=replace(hose.line, kind=LineKind.ELECTRIC_WIRE))
    found = find_lengths(job=replace(job, new=wire), legs=[leg(600.0), leg(600.0)], limits=limits)
    assert (found.trim_mm, found.cut_mm, found.is_cut) == (0.0, 1200.0, False)  # nobody trims a wire


def test_one_leg_that_is_not_known_leaves_all_of_it_unknown() -> None:
    job = make_job(make_lane_frame((8.0, 8.0)))
    found = find_lengths(job=job, legs=[leg(600.0), leg(None)], limits=make_limits(), posture="so")
    assert (found.need_mm, found.cut_mm, found.spare_mm, found.allow_mm) == (None,) * 4
    assert (found.posture, found.is_from_old_line, found.final_mm, found.known) == ("so", False, None, False)


@pytest.mark.parametrize(
    ("proven", "length_mm", "at_least_mm", "above_mm"),
    [(True, 0.0, None, 0.0), (False, 0.0, None, None), (False, 0.0, -120.0, 120.0)],
)
def test_how_far_above_the_least_a_cut_list_may_be(
    proven: bool, length_mm: float, at_least_mm: float | None, above_mm: float | None
) -> None:
    found = find_cut_list(pieces=[], stock=[])
    found = replace(found, is_length_proven=proven, length_at_least_mm=at_least_mm)
    assert (found.opened_mm, found.length_above_mm) == (length_mm, above_mm)
    doubtful = replace(found, is_proven=False, rolls_used=5, lower_bound=3)
    assert (doubtful.rolls_above_n, replace(doubtful, is_proven=True).rolls_above_n) == (2, 0)


@pytest.mark.parametrize(
    ("advice", "by_stud"),
    [(PullWord.MAY_PULL, 0), (PullWord.EASE_GENTLY, 1), (PullWord.PUSH_ONLY, 2), (None, 2)],
)
def test_the_more_a_joint_bears_the_less_care_it_takes(advice: PullWord | None, by_stud: int) -> None:
    assert handling_of_pull(method=make_coupler(), advice=advice) == by_stud
    assert handling_of_pull(method=OVER, advice=advice) == 0


def test_a_rod_suits_its_bores_the_better_the_less_it_plays_and_a_stud_the_farther_it_is_from_its_limits() -> None:
    def check(rule: JointRule, room_mm: float | None) -> Check:
        return Check(rule=rule, outcome=Outcome.FITS, clearance_mm=room_mm)

    spoke, stud = JointRule.SPOKE_BORE, JointRule.STUD_SQUEEZE
    assert looseness_mm([check(spoke, 0.1), check(spoke, 0.3)]) == 0.3
    assert looseness_mm([check(stud, 0.1), check(stud, 0.3)]) == -0.1
    assert looseness_mm([check(JointRule.CABLE_IN_BORE, 0.4), check(spoke, None)]) == 0.0


@pytest.mark.parametrize("feed_from", JobEnd)
def test_the_old_line_is_cut_where_it_is_joined_and_a_wire_never(feed_from: JobEnd) -> None:
    job = make_job(make_lane_frame((8.0, 8.0)))
    assert job.old is not None
    assert cut_old_at(job=job, method=make_coupler(), feed_from=feed_from) is feed_from
    assert cut_old_at(job=job, method=OVER, feed_from=feed_from) is None
    assert cut_old_at(job=replace(job, old=None), method=LEADER, feed_from=feed_from) is None
    wire = replace(job, old=replace(job.old, line=WIRE))
    assert cut_old_at(job=wire, method=make_sleeve(), feed_from=feed_from) is None


def test_a_miss_at_a_place_is_nearer_than_a_joint_that_cannot_be_made() -> None:
    def miss(rule: Any = PlaceRule.PORT_CLEARANCE, outcome: Outcome = Outcome.NO_FIT, **told: Any) -> Check:
        return Check(rule=rule, outcome=outcome, **told)

    in_order = [
        miss(outcome=Outcome.UNKNOWN, port_id="p"),
        miss(port_id="p", clearance_mm=0.1),
        miss(port_id="p"),
        miss(run_id="r", clearance_mm=-0.1),
        miss(port_id="p", clearance_mm=-0.3),
        miss(rule=JointRule.LEADING_JOINT, port_id="p"),
        miss(rule=JointRule.STUD_SQUEEZE, clearance_mm=-0.1),
        miss(rule=JointRule.LEADING_JOINT),
    ]
    shuffled = [in_order[n] for n in (5, 2, 7, 0, 3, 6, 1, 4)]
    assert sorted(shuffled, key=_badness) == in_order


@pytest.mark.parametrize(
    ("left", "before", "less"),
    [
        (set(), {NO_WAY}, True),
        ({BrakeRule.MOUNT}, {BrakeRule.MOUNT, BrakeRule.HUB}, True),
        ({BrakeRule.MOUNT}, {BrakeRule.MOUNT}, False),
        ({BrakeRule.HUB}, {BrakeRule.MOUNT}, False),
        ({LengthRule.SUPPLIED_LENGTH}, {NO_WAY}, True),  # that shows only once there is a way
        ({LengthRule.SUPPLIED_LENGTH, NO_WAY}, {NO_WAY}, False),
        ({LengthRule.SUPPLIED_LENGTH}, {BrakeRule.MOUNT}, False),
        ({LengthRule.SUPPLIED_LENGTH, BrakeRule.HUB}, {NO_WAY}, False),
    ],
)
def test_fewer_things_speak_against_a_job(left: set[str], before: set[str], less: bool) -> None:
    assert is_less({str(rule) for rule in left}, {str(rule) for rule in before}) is less
