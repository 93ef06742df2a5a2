"""The joint: how thick, how stiff, and whether it can be made between two lines."""

import csv
from itertools import product
from math import sqrt
from pathlib import Path

import pytest

from planner.documents.words.check_words import sentence_for
from planner.errors import ImpossibleDimensionError
from planner.fit.joint_size import (
    check_method_suits_lines,
    find_joint_size,
    stretched_sleeve_diameter_mm,
    swollen_line_diameter_mm,
)
from planner.parts import LeaderLine, LineKind, Method
from planner.verdicts import Outcome
from tests.builders import make_coupler, make_limits, make_line, make_sleeve, make_spoke
from tests.work_orders.job_kinds import LINER, OVER

STRETCHED = Path(__file__).parents[2] / "published_values" / "stretched_sleeve.csv"
LEADER = LeaderLine(
    id="leader",
    name="Leader",
    outer_diameter_mm=1.2,
    joint_diameter_mm=3.5,
    joint_length_mm=12.0,
    holds_n=40.0,
    setup_min=9.0,
)


@pytest.mark.parametrize("row", list(csv.DictReader(STRETCHED.open(encoding="utf-8"))), ids=lambda row: row["outer_mm"])
def test_stretched_sleeve_agrees_with_the_table(row: dict[str, str]) -> None:
    found_mm = stretched_sleeve_diameter_mm(
        outer_diameter_mm=float(row["outer_mm"]),
        bore_diameter_mm=float(row["bore_mm"]),
        line_diameter_mm=float(row["line_mm"]),
    )
    assert found_mm == pytest.approx(float(row["stretched_mm"]), abs=1e-6)


def test_swollen_hose_keeps_its_wall_area() -> None:
    swollen_mm = swollen_line_diameter_mm(outer_diameter_mm=5.0, bore_diameter_mm=2.1, stud_diameter_mm=2.6)
    assert swollen_mm**2 - 2.6**2 == pytest.approx(5.0**2 - 2.1**2)


def test_a_stud_thinner_than_the_bore_swells_nothing() -> None:
    assert swollen_line_diameter_mm(outer_diameter_mm=5.0, bore_diameter_mm=2.1, stud_diameter_mm=2.1) == 5.0


@pytest.mark.parametrize("bore_mm", [5.0, 6.0, -0.1])
def test_an_impossible_bore_is_refused(bore_mm: float) -> None:
    with pytest.raises(ImpossibleDimensionError, match="bore_diameter_mm"):
        swollen_line_diameter_mm(outer_diameter_mm=5.0, bore_diameter_mm=bore_mm, stud_diameter_mm=2.6)


def test_coupler_joint_is_the_thickest_of_both_swellings_and_the_collar() -> None:
    thin, thick = make_line(), make_line(outer_diameter_mm=5.5, bore_diameter_mm=2.3, outer_tolerance_mm=0.1)
    joint = find_joint_size(method=make_coupler(), old=thick, new=thin)
    assert joint.diameter_mm == pytest.approx(sqrt(5.5**2 + 2.6**2 - 2.3**2))
    assert (joint.tolerance_mm, joint.rigid_length_mm) == (0.1, 21.0)
    assert find_joint_size(method=make_coupler(collar_diameter_mm=7.0), old=thick, new=thin).diameter_mm == 7.0


def test_spoke_adds_nothing_and_is_twice_its_reach() -> None:
    joint = find_joint_size(method=make_spoke(), old=make_line(outer_diameter_mm=5.5), new=make_line())
    assert (joint.diameter_mm, joint.rigid_length_mm) == (5.5, 40.0)


def test_sleeve_is_soft() -> None:
    joint = find_joint_size(method=make_sleeve(), old=make_line(), new=make_line())
    assert joint.rigid_length_mm == 0.0
    assert joint.diameter_mm == pytest.approx(6.708204, abs=1e-6)


def test_leader_is_its_own_joint_or_the_new_line() -> None:
    assert find_joint_size(method=LEADER, old=None, new=make_line()).diameter_mm == 5.0
    thin = make_line(outer_diameter_mm=3.0, bore_diameter_mm=None, kind=LineKind.ELECTRIC_WIRE)
    assert find_joint_size(method=LEADER, old=None, new=thin).diameter_mm == 3.5


@pytest.mark.parametrize(
    ("stud_mm", "outcome"),
    [
        (2.29, Outcome.NO_FIT),
        (2.3, Outcome.FITS),
        (2.6, Outcome.FITS),
        (2.9, Outcome.FITS),
        (2.91, Outcome.NO_FIT),
    ],
)
def test_stud_squeeze_at_below_and_above_its_limits(stud_mm: float, outcome: Outcome) -> None:
    """Bore 2.1, squeeze 0.2 to 0.8 (common practice, no source)."""
    checks = check_method_suits_lines(
        method=make_coupler(stud_diameter_mm=stud_mm), old=make_line(), new=make_line(), limits=make_limits()
    )
    assert {check.outcome for check in checks} == {outcome}


@pytest.mark.parametrize(("rod_mm", "outcome"), [(2.0, Outcome.FITS), (2.1, Outcome.FITS), (2.11, Outcome.NO_FIT)])
def test_spoke_needs_a_bore_as_wide_as_itself(rod_mm: float, outcome: Outcome) -> None:
    checks = check_method_suits_lines(
        method=make_spoke(rod_diameter_mm=rod_mm), old=make_line(), new=make_line(), limits=make_limits()
    )
    assert {check.outcome for check in checks} == {outcome}


@pytest.mark.parametrize(("bore_mm", "outcome"), [(4.9, Outcome.FITS), (5.0, Outcome.NO_FIT), (5.1, Outcome.NO_FIT)])
def test_sleeve_that_is_not_stretched_grips_nothing(bore_mm: float, outcome: Outcome) -> None:
    checks = check_method_suits_lines(
        method=make_sleeve(bore_diameter_mm=bore_mm, outer_diameter_mm=7.0),
        old=make_line(),
        new=make_line(),
        limits=make_limits(),
    )
    assert {check.outcome for check in checks} == {outcome}


def test_an_unmeasured_bore_is_unknown_and_a_wire_has_none() -> None:
    unmeasured = make_line(bore_diameter_mm=None)
    wire = make_line(bore_diameter_mm=None, kind=LineKind.ELECTRIC_WIRE)
    for line, outcome in ((unmeasured, Outcome.UNKNOWN), (wire, Outcome.NO_FIT)):
        checks = check_method_suits_lines(method=make_spoke(), old=make_line(), new=line, limits=make_limits())
        assert checks[1].outcome is outcome
        assert checks[1].rule == "joint_bore"


def test_leader_is_for_an_empty_frame_or_a_bare_cable() -> None:
    cable = make_line(kind=LineKind.INNER_CABLE, bore_diameter_mm=None)
    for old, outcome in ((None, Outcome.FITS), (cable, Outcome.FITS), (make_line(), Outcome.NO_FIT)):
        (check,) = check_method_suits_lines(method=LEADER, old=old, new=make_line(), limits=make_limits())
        assert check.outcome is outcome


def test_a_joint_needs_an_old_line() -> None:
    (check,) = check_method_suits_lines(method=make_coupler(), old=None, new=make_line(), limits=make_limits())
    assert (check.rule, check.outcome) == ("joint_needs_line", Outcome.NO_FIT)


@pytest.mark.parametrize(
    ("most_ratio", "rule"), [(None, "sleeve_grip"), (1.25, "sleeve_grip"), (1.24, "sleeve_stretch")]
)
def test_a_sleeve_is_stretched_no_further_than_the_shop_gets_it(most_ratio: float | None, rule: str) -> None:
    """A line of 5.0 in a bore of 4.0 is stretched 1.25 times."""
    checks = check_method_suits_lines(
        method=make_sleeve(),
        old=make_line(),
        new=make_line(),
        limits=make_limits(sleeve_stretch_max_ratio=most_ratio),
    )
    assert {check.rule for check in checks} == {rule}
    assert {check.outcome for check in checks} == {Outcome.FITS if rule == "sleeve_grip" else Outcome.NO_FIT}


def test_a_stud_in_a_bore_nobody_measured_has_no_size() -> None:
    with pytest.raises(ImpossibleDimensionError, match="bore of hose: nan mm was given; it must be measured"):
        find_joint_size(method=make_coupler(), old=make_line(), new=make_line(bore_diameter_mm=None))


@pytest.mark.parametrize(
    ("stud_mm", "said"),
    [
        (1.9, "the stud is 0.40 mm too thin to bite in a bore of 2.10 mm"),
        (2.1, "the stud is 0.20 mm too thin to bite in a bore of 2.10 mm"),
        (2.2999, "the stud is 0.0001 mm too thin to bite in a bore of 2.10 mm"),
        (3.1, "the stud is 0.20 mm too thick for a bore of 2.10 mm: it would split it"),
    ],
)
def test_a_stud_that_does_not_suit_is_told_by_what_it_misses(stud_mm: float, said: str) -> None:
    checks = check_method_suits_lines(
        method=make_coupler(stud_diameter_mm=stud_mm), old=make_line(), new=make_line(), limits=make_limits()
    )
    assert {sentence_for(check) for check in checks} == {said}


def test_the_wall_of_a_line_may_reach_to_its_middle_and_no_further() -> None:
    """With no bore at all the stud's whole area comes on top."""
    for bore_mm in (0.0, 0.5, 4.9):
        swollen_mm = swollen_line_diameter_mm(outer_diameter_mm=5.0, bore_diameter_mm=bore_mm, stud_diameter_mm=4.95)
        assert swollen_mm == pytest.approx(sqrt(25.0 + 4.95**2 - bore_mm**2))


def test_a_liner_that_just_fills_the_lines_bore_lies_inside_and_adds_nothing() -> None:
    for bore_mm, thickness_mm in ((2.05, 5.0), (2.04, 2.05), (None, 2.05)):
        joint = find_joint_size(method=LINER, old=None, new=make_line(bore_diameter_mm=bore_mm))
        assert (joint.diameter_mm, joint.rigid_length_mm) == (thickness_mm, 0.0)


def test_over_a_cable_only_the_new_housing_counts() -> None:
    thick = make_line(outer_diameter_mm=6.0, outer_tolerance_mm=0.3)
    joint = find_joint_size(method=OVER, old=thick, new=make_line())
    assert (joint.diameter_mm, joint.tolerance_mm, joint.rigid_length_mm) == (5.0, 0.05, 0.0)


def test_foam_round_the_new_line_counts_where_it_is_the_thickest() -> None:
    for foam_mm, thickness_mm in ((None, 5.0), (4.0, 5.0), (9.0, 9.0)):
        joint = find_joint_size(method=make_spoke(), old=make_line(), new=make_line(foam_diameter_mm=foam_mm))
        assert joint.diameter_mm == thickness_mm


def test_a_stud_in_a_bore_nobody_measured_is_told_as_thin_as_it_can_be() -> None:
    """Stud 2.6 and 0.2 of squeeze at least: a bore of 2.4 or less swells the line to sqrt(25 + 2.6^2 - 2.4^2) or more.
    In a line of 2.0 the bore is 1.8 at most."""
    for outer_mm, bore_mm in ((5.0, 2.4), (2.0, 1.8)):
        line = make_line(outer_diameter_mm=outer_mm, bore_diameter_mm=None)
        method = make_coupler(collar_diameter_mm=1.0)
        joint = find_joint_size(method=method, old=line, new=line, least_squeeze_mm=0.2)
        assert joint.diameter_mm == pytest.approx(sqrt(outer_mm**2 + 2.6**2 - bore_mm**2))


def test_a_sleeve_is_asked_of_lines_without_a_fitting_only() -> None:
    def asked(method: Method, *, old: bool, new: bool) -> int:
        lines = {"old": make_line(), "new": make_line(), "limits": make_limits()}
        return len(check_method_suits_lines(method=method, is_old_fitted=old, is_new_fitted=new, **lines))  # type: ignore[arg-type]

    assert [asked(make_sleeve(), old=old, new=new) for old, new in product((False, True), repeat=2)] == [2, 1, 1, 0]
    assert [asked(make_spoke(), old=old, new=new) for old, new in product((False, True), repeat=2)] == [2, 2, 2, 2]
