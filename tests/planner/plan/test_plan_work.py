"""What a whole plan may cost: counted over all its holes, and told where it runs out."""

from dataclasses import replace
from math import cos, pi, sin

from planner import plan_job, sentence_for
from planner.geometry.packing.work import ROWS_OF_A_QUESTION, Allowance
from planner.parts import Job, OutlineOpening, StayingLine, Workshop
from planner.plan.routing_plan import RoutingPlan
from planner.rules import PLAN_WORK_RAN_OUT, PlaceRule
from planner.verdicts import Check, Outcome
from tests.builders import make_coupler, make_job, make_lane_frame, make_limits, make_line, make_sleeve, make_workshop
from tests.mutation.coverage import forget_answers

LITTLE = 200_000


def star(blunt_mm: float) -> OutlineOpening:
    """A hole like a star with five blunt points, wider or narrower than what two lines and a joint need."""
    angles = (2 * pi * k / 60 for k in range(60))
    points = tuple(((blunt_mm + cos(5 * a)) * cos(a), (blunt_mm + cos(5 * a)) * sin(a)) for a in angles)
    return OutlineOpening(points_mm=points, tolerance_mm=0.1)


def job_through_stars(*blunt_mm: float) -> Job:
    """Every way leads through two such holes, beside two lines."""
    frame = make_lane_frame(*((12.0, 12.0) for _ in blunt_mm))
    ports = {
        f"{side}-{lane}": replace(frame.ports[f"{side}-{lane}"], opening=star(wide_mm))
        for lane, wide_mm in enumerate(blunt_mm)
        for side in ("in", "out")
    }
    stays = tuple(StayingLine(line=make_line(id=f"stays-{k}"), through=tuple(ports)) for k in range(2))
    return replace(make_job(replace(frame, ports=ports)), staying=stays)


def shop(plan_work_rows: int | None) -> Workshop:
    return make_workshop(make_sleeve(), make_coupler(), limits=make_limits(plan_work_rows=plan_work_rows))


def told(plan: RoutingPlan) -> list[Check]:
    return [check for check in plan.advisories if check.rule is PlaceRule.PLAN_WORK]


def test_a_plan_whose_work_runs_out_is_not_known_and_says_so_with_the_number() -> None:
    job = job_through_stars(6.6)
    whole = plan_job(job=job, workshop=shop(None))
    assert whole.outcome.lets_work_begin
    assert told(whole) == []
    short = plan_job(job=job, workshop=shop(LITTLE))
    assert short.outcome is Outcome.UNKNOWN
    (said,) = told(short)
    assert said.outcome is Outcome.UNKNOWN
    assert "0.2 million rows, ran out" in sentence_for(said)
    unasked = [check for check in short.checks if check.proof == PLAN_WORK_RAN_OUT]
    assert unasked
    assert all(check.outcome is Outcome.UNKNOWN and check.clearance_mm is None for check in unasked)
    assert "was not asked: the work that the shop allows a plan had run out" in sentence_for(unasked[0])


def test_the_same_job_ends_the_same_whatever_is_remembered() -> None:
    job = job_through_stars(6.6, 6.7)
    forget_answers()
    cold = plan_job(job=job, workshop=shop(LITTLE))
    assert plan_job(job=job, workshop=shop(LITTLE)) == cold
    plan_job(job=job, workshop=shop(2 * LITTLE))
    assert plan_job(job=job, workshop=shop(LITTLE)) == cold


def test_a_question_is_paid_once_and_those_already_asked_are_answered_when_nothing_is_left() -> None:
    allowance = Allowance(whole_rows=50_000)
    assert allowance.may_ask("hole")
    allowance.note("hole", 60_000)
    allowance.note("hole", 60_000)
    assert allowance.spent_rows == 60_000 + ROWS_OF_A_QUESTION
    assert allowance.may_ask("hole")
    assert allowance.refused_n == 0
    assert not allowance.may_ask("another")
    assert allowance.refused_n == 1
    assert Allowance(whole_rows=None, spent_rows=10**12).may_ask("another")
