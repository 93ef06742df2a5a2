"""Which end may lead, which end may be cut, and where two fluids would meet in a joint."""

from dataclasses import replace

import pytest

from planner.fit.line_ends import check_bores_stay_apart, check_leading_end_can_be_set, check_old_end_may_be_cut
from planner.parts import Fluid, LineEnd, LineKind, MethodKind, SetBy
from planner.rules import JointRule
from planner.verdicts import Check, Outcome, State
from tests.planner.fit.compatibility_samples import make_brake, make_fitting, make_new, make_old

CRIMPED = replace(make_fitting(), id="crimped", set_by=SetBy.FACTORY)
BY_HAND = make_fitting()


def drawing(check: Check, rule: JointRule) -> Outcome:
    """The outcome of a check that is about drawing the line in."""
    assert (check.rule, check.state) == (rule, State.DRAWING)
    return check.outcome


@pytest.mark.parametrize(
    ("end", "outcome", "with_ids"),
    [
        (LineEnd(), Outcome.FITS, ()),
        (LineEnd(fitting=BY_HAND), Outcome.FITS, ("nut",)),
        (LineEnd(fitting=BY_HAND, is_fitted=True), Outcome.FITS, ("nut",)),
        (LineEnd(fitting=CRIMPED), Outcome.NO_FIT, ("crimped",)),  # nobody in the shop can crimp it on afterwards
        (LineEnd(fitting=CRIMPED, is_fitted=True), Outcome.FITS, ("crimped",)),  # it sits there: the joint goes over it
    ],
)
def test_an_end_leads_where_its_fitting_can_follow(end: LineEnd, outcome: Outcome, with_ids: tuple[str, ...]) -> None:
    check = check_leading_end_can_be_set(leading_end=end)
    assert drawing(check, JointRule.LEADING_END) is outcome
    assert check.with_ids == with_ids


@pytest.mark.parametrize(
    ("end", "keeps_old_brake", "outcome"),
    [
        (LineEnd(fitting=CRIMPED, is_fitted=True), True, Outcome.NO_FIT),
        (LineEnd(fitting=CRIMPED, is_fitted=True), False, Outcome.FITS),
        (LineEnd(fitting=BY_HAND, is_fitted=True), True, Outcome.FITS),
        (LineEnd(), True, Outcome.FITS),
    ],
)
def test_an_old_brake_that_is_used_again_is_not_cut_where_nobody_can_set_its_fitting(
    end: LineEnd, keeps_old_brake: bool, outcome: Outcome
) -> None:
    check = check_old_end_may_be_cut(cut_end=end, keeps_old_brake=keeps_old_brake)
    assert drawing(check, JointRule.CUT_END) is outcome
    assert check.with_ids == (() if end.fitting is None else (end.fitting.id,))


@pytest.mark.parametrize(
    ("was", "becomes", "outcome"),
    [
        (Fluid.GLYCOL_DOT4, Fluid.GLYCOL_DOT5_1, None),
        (Fluid.GLYCOL_DOT4, Fluid.MINERAL_OIL, Outcome.NO_FIT),
        (Fluid.SILICONE_DOT5, Fluid.GLYCOL_DOT4, Outcome.NO_FIT),
        (None, Fluid.MINERAL_OIL, Outcome.UNKNOWN),
    ],
)
def test_a_spoke_lets_two_fluids_meet_and_a_closed_bore_does_not(
    was: Fluid | None, becomes: Fluid, outcome: Outcome | None
) -> None:
    old, new = make_old(brake=make_brake(fluid=was, id="old")), make_new(brake=make_brake(fluid=becomes))
    check = check_bores_stay_apart(method_kind=MethodKind.SPOKE_LINK, old=old, new=new)
    if outcome is None:
        assert check is None
    else:
        assert check is not None
        assert drawing(check, JointRule.FLUID_BARRIER) is outcome
        assert check.with_ids == (old.line.id, new.line.id)
    for kind in MethodKind:
        if kind is not MethodKind.SPOKE_LINK:
            assert check_bores_stay_apart(method_kind=kind, old=old, new=new) is None


def test_a_cable_has_no_fluid_to_meet() -> None:
    old, new = make_old(kind=LineKind.BRAKE_HOUSING), make_new(brake=make_brake())
    assert check_bores_stay_apart(method_kind=MethodKind.SPOKE_LINK, old=old, new=new) is None
