"""What pressure does to a line's length is a property of the line: told where it is known, and never else."""

from dataclasses import replace

import pytest

from planner.documents.words.check_words import sentence_for
from planner.parts import Job
from planner.plan.plan_builder import plan_job
from planner.plan.routing_plan import RoutingPlan
from planner.rules import LengthRule
from tests.builders import make_job, make_lane_frame, make_workshop


def plan_with(shrink_ratio: float | None) -> RoutingPlan:
    job = make_job(make_lane_frame((10.0, 10.0)))
    line = replace(job.new.line, pressure_shrink_ratio=shrink_ratio)
    shrinking: Job = replace(job, new=replace(job.new, line=line))
    return plan_job(job=shrinking, workshop=make_workshop())


def told(plan: RoutingPlan) -> list[str]:
    return [sentence_for(check) for check in plan.advisories if check.rule is LengthRule.PRESSURE]


def test_a_line_that_says_nothing_of_pressure_is_not_asked_about_it() -> None:
    plan = plan_with(None)
    assert plan.lengths is not None
    assert plan.lengths.pressure_mm is None
    assert told(plan) == []


def test_a_line_that_shortens_is_told_with_its_own_share() -> None:
    plan = plan_with(0.04)
    assert plan.lengths is not None
    assert plan.lengths.pressure_mm == pytest.approx(0.04 * plan.lengths.need_mm)
    (sentence,) = told(plan)
    assert sentence.startswith(f"under pressure this line may shorten by {plan.lengths.pressure_mm:.0f} mm")
