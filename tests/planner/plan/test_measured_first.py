"""What a plan tells of its chance and of what to measure first is told for the joint that it draws in."""

from dataclasses import replace
from math import sqrt
from statistics import NormalDist

import pytest

from planner import RoutingPlan, plan_job
from planner.parts import OUTSIDE, Guide
from planner.verdicts import Outcome
from tests.builders import (
    make_frame,
    make_job,
    make_lane_frame,
    make_run,
    make_sleeve,
    make_spoke,
    make_workshop,
)


def asked_of(plan: RoutingPlan) -> set[tuple[str, str]]:
    return {(one.place_id, one.what) for one in plan.measure_first}


def test_the_chance_is_that_of_the_joint_in_the_holes_of_the_plans_way() -> None:
    """A link is as thick as its line, 5.0 by 0.05; a hole of 5.1 by 0.1. Tolerances are two deviations, so that 0.1
    stands against half of sqrt(0.05^2 + 0.1^2) = 0.0559: 96.3 %, twice. Wide holes are all but certain."""
    once = NormalDist().cdf(0.1 / (sqrt(0.05**2 + 0.1**2) / 2))
    shop = make_workshop(make_spoke())
    for hole_mm, chance in ((5.1, once**2), (8.0, 1.0)):
        plan = plan_job(job=make_job(make_lane_frame((hole_mm, hole_mm))), workshop=shop)
        assert plan.outcome < Outcome.UNKNOWN
        assert plan.fit_chance == pytest.approx(chance, abs=1e-3)


def test_of_two_holes_the_one_whose_size_decides_is_to_be_measured() -> None:
    plan = plan_job(job=make_job(make_lane_frame((8.0, 5.1))), workshop=make_workshop(make_spoke()))
    assert plan.outcome is Outcome.TIGHT
    assert ("out-0", "opening diameter") in asked_of(plan)
    assert {place_id for place_id, _ in asked_of(plan)} == {"out-0"}


def test_of_a_hole_that_nobody_measured_nothing_is_told_but_to_measure_it() -> None:
    plan = plan_job(job=make_job(make_lane_frame((8.0, None))), workshop=make_workshop(make_spoke()))
    assert (plan.outcome, plan.fit_chance, asked_of(plan)) == (Outcome.UNKNOWN, None, {("out-0", "opening")})


def test_a_line_that_is_laid_outside_passes_what_holds_it_and_else_nothing() -> None:
    """A line of 5 in a clip of 8 passes for certain; without one there is nothing that it might not pass."""
    clip = Guide(bore_diameter_mm=8.0, tolerance_mm=0.1, bend_radius_mm=None, turn_deg=0.0)
    for guide, chance in ((None, None), (clip, 1.0)):
        frame = make_frame(runs=(make_run("along", "start", "end", zone_id=OUTSIDE, guide=guide),))
        plan = plan_job(job=make_job(frame), workshop=make_workshop(make_spoke()))
        assert plan.outcome < Outcome.UNKNOWN
        assert (plan.runs, plan.fit_chance, plan.measure_first) == (("along",), chance, ())


@pytest.mark.parametrize("is_turned", [False, True])
def test_under_a_no_a_hole_is_asked_about_for_the_thinnest_joint(is_turned: bool) -> None:
    """The link of 5.0 lacks 0.05 in a hole of 4.95 by 0.1, and a careful measure may give it that; the sleeve of 6.7
    lacks so much that no measure turns its no."""
    methods = (make_spoke(), make_sleeve())
    job = make_job(make_lane_frame((8.0, 4.95)))
    plan = plan_job(job=job, workshop=make_workshop(*(methods[::-1] if is_turned else methods)))
    assert plan.outcome is Outcome.NO_FIT
    assert ("out-0", "opening diameter") in asked_of(plan)
    assert asked_of(plan_job(job=job, workshop=make_workshop(make_sleeve()))) == set()
    narrow = replace(job, frame=make_lane_frame((8.0, 4.0)))
    assert asked_of(plan_job(job=narrow, workshop=make_workshop(*methods))) == set()
