"""What lies at hand: every tool and supply that a step takes up, and none for another kind of line."""

from functools import cache

import pytest

from planner import RoutingPlan, bench_rows, plan_job
from planner.parts import LineFamily
from planner.verdicts import Outcome
from tests.builders import make_workshop
from tests.work_orders.job_kinds import KINDS, METHODS
from tests.work_orders.worked_jobs import starter

TAKEN_UP = {
    "torque wrench": "torque wrench",
    "bleed block": "block",
    "plastic lever": "plastic lever",
    "syringe": "syringe",
    "alcohol": "alcohol",
    "gloves": "gloves",
    "dry paper": "cloths",
    "fresh seals": "fresh seals",
    "grooved blocks": "grooved blocks",
    "pads that never met fluid": "clean pads",
    "clean caps": "clean caps",
    "new inner cable": "new inner cable",
    "awl": "awl",
    "cap on its end": "cap for",
    "cap its end": "cap for",
    "magnet outside": "magnet",
    "hold the suction": "vacuum cleaner",
    "foam sleeve": "foam sleeve",
    "blunt tool": "blunt tool",
    "Strap the fork": "strap",
    "fresh tape": "bar tape",
    "helper": "helper",
    "Clip every": "clips",
}
"""Words of a step, and of what must then lie at hand."""

WET = ("bleed", "syringe", "fluid", "hose", "seals", "caps for what", "bore plug")
SHORT = (
    "plain: ",
    "headset: hose with mineral_oil to",
    "bar: gears",
    "carbon: hose with glycol_dot4 to",
    "dropper",
    "hose",
)


@cache
def plans() -> tuple[tuple[str, RoutingPlan], ...]:
    shop = starter()
    work = {"limits": shop.limits, "steps": shop.steps, "cautions": shop.cautions, "at_hand": shop.at_hand}
    kinds = {name: job for name, job in KINDS.items() if name.startswith(SHORT)}
    found = (
        (f"{name}, {method.kind}", plan_job(job=job, workshop=make_workshop(method, **work)))
        for name, job in kinds.items()
        for method in METHODS
    )
    return tuple((name, plan) for name, plan in found if plan.steps)


@pytest.mark.parametrize("words", TAKEN_UP)
def test_what_a_step_takes_up_lies_at_hand(words: str) -> None:
    asked = [(name, plan) for name, plan in plans() if any(words in step.text for step in plan.steps)]
    assert asked or words == "foam sleeve"
    for name, plan in asked:
        assert any(TAKEN_UP[words] in thing for thing in plan.at_hand), name


def test_a_dry_line_wants_nothing_for_fluid() -> None:
    for name, plan in plans():
        ids = {step.id for step in plan.steps}
        if ids.isdisjoint({"drain-old", "fluid-check"}):
            assert [word for word in WET if word in " ".join(plan.at_hand)] == [], name


def test_what_lies_at_hand_is_told_once_with_its_words_filled() -> None:
    for name, plan in plans():
        assert len(plan.at_hand) == len(set(plan.at_hand)), name
        assert "{" not in "".join(plan.at_hand), name
        assert ("At hand", " · ".join(plan.at_hand)) in bench_rows(plan), name


def test_a_no_has_nothing_at_hand() -> None:
    shop = starter()
    job = next(job for job in KINDS.values() if job.new.line.kind.family is LineFamily.HYDRAULIC)
    plan = plan_job(job=job, workshop=make_workshop(METHODS[-1], at_hand=shop.at_hand))
    assert plan.outcome is Outcome.NO_FIT
    assert plan.at_hand == ()
    assert bench_rows(plan) == []
