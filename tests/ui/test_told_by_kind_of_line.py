"""What the terminal and the papers tell of lines that are not cut, not joined, or go through no hole."""

import re
from dataclasses import replace
from functools import cache

from planner import RoutingPlan, label_of_plan, plan_as_record, plan_job, verdict_sentence
from planner.parts import MethodKind
from planner.verdicts import Outcome
from tests.builders import make_workshop
from tests.ui.test_plan_in_short import printed
from tests.work_orders.job_kinds import KINDS, METHODS
from tests.work_orders.worked_jobs import starter


@cache
def planned(kind: str, method_kind: MethodKind) -> RoutingPlan:
    shop = starter()
    work = {"limits": shop.limits, "steps": shop.steps, "cautions": shop.cautions, "rescues": shop.rescues}
    (method,) = (method for method in METHODS if method.kind is method_kind)
    return plan_job(job=KINDS[kind], workshop=make_workshop(method, **work))


def test_no_wire_is_told_to_be_cut() -> None:
    for kind, method in (("wire", MethodKind.SLEEVE_TUBE), ("wire, empty frame", MethodKind.LEADER_LINE)):
        plan = planned(f"plain: {kind}", method)
        assert plan.outcome <= Outcome.TIGHT
        told = " ".join(printed(plan, is_whole=True).split())
        assert re.search(r"cut to (\d|its mark)", told) is None
        assert "to trim" not in told
        assert "or more; it is not cut" in told
        assert "Cut the old line nothing to cut" in told
        assert label_of_plan(plan) is None
        record = plan_as_record(plan)
        assert record["cut_old_at"] is None
        assert record["lengths"]["is_cut"] is False


def test_a_hose_whose_ends_came_closed_is_not_told_to_be_cut() -> None:
    plan = planned("hose with ends that came closed", MethodKind.SLEEVE_TUBE)
    assert plan.outcome <= Outcome.TIGHT
    assert "it is not cut" in " ".join(printed(plan).split())


def test_a_no_lists_nothing_to_buy_and_no_chance() -> None:
    job = KINDS["plain: hose with mineral_oil to hose with mineral_oil"]
    short = replace(job, new=replace(job.new, supplied_length_mm=99.5))
    plan = plan_job(job=short, workshop=make_workshop(METHODS[0]))
    assert plan.outcome is Outcome.NO_FIT
    assert plan.needs
    told = printed(plan, is_whole=True)
    assert "too short" in told
    for words in ("Also needed", "Have ready", "Chance that"):
        assert words not in told


def test_a_line_laid_outside_is_told_without_holes_joint_or_feeding() -> None:
    plan = planned("outside: hose with mineral_oil", MethodKind.SLEEVE_TUBE)
    told = " ".join(printed(plan, is_whole=True).split())
    assert verdict_sentence(plan) == "It fits: Brake, laid outside, through no hole."
    for words in ("Holes (sizes", "fed from", "Feed from", "Joint "):
        assert words not in told
    assert "Holes (sizes" in printed(planned("plain: gears", MethodKind.SLEEVE_TUBE), is_whole=True)
