"""Three lines alike that can wedge are told in a plan too, once, by the rule that the quick question asks."""

from dataclasses import replace

import pytest

from planner import advice_to_heed, plan_job, sentence_for, wedge_in
from planner.parts import Guide, Job, RoundOpening, SlotOpening, StayingLine
from planner.plan.routing_plan import RoutingPlan
from planner.rules import PlaceRule
from planner.verdicts import Check, Outcome
from tests.builders import make_job, make_lane_frame, make_line, make_spoke, make_workshop
from ui.shared.fit_question import wedge_sentence


def crowded(hole_mm: float, *beside_mm: float, through: tuple[str, ...] = ("out-0",)) -> Job:
    """A hose of 5.0 through a wide hole and this one, in which lines stay."""
    staying = tuple(
        StayingLine(line=make_line(id=f"stays-{n}", outer_diameter_mm=size), through=through)
        for n, size in enumerate(beside_mm)
    )
    return make_job(make_lane_frame((30.0, hole_mm)), staying=staying)


def plan_of(job: Job) -> RoutingPlan:
    return plan_job(job=job, workshop=make_workshop(make_spoke()))


def wedges_in(plan: RoutingPlan) -> list[Check]:
    return [check for check in plan.advisories if check.rule is PlaceRule.WEDGE]


@pytest.mark.parametrize(
    ("hole_mm", "beside_mm", "is_told"),
    [
        (13.9, (5.0, 5.0), False),  # 2.78 times: they cannot line up
        (14.0, (5.0, 5.0), True),
        (15.0, (5.0, 5.2), True),  # alike within a twentieth
        (16.0, (5.0, 5.0), True),
        (16.1, (5.0, 5.0), False),  # 3.22 times: they fall past each other
        (15.0, (5.0,), False),
        (15.0, (5.0, 4.0), False),
        (15.0, (5.0, 5.0, 5.0), False),
    ],
)
def test_a_plan_tells_the_hole_in_which_three_lines_can_wedge(
    hole_mm: float, beside_mm: tuple[float, ...], is_told: bool
) -> None:
    plan = plan_of(crowded(hole_mm, *beside_mm))
    assert plan.outcome is Outcome.FITS  # it is a caution, no part of the outcome
    assert [check.port_id for check in wedges_in(plan)] == (["out-0"] if is_told else [])


def test_it_is_told_once_among_what_the_hands_heed_in_the_words_of_the_quick_question() -> None:
    plan = plan_of(crowded(15.0, 5.0, 5.0))
    (told,) = [check for check in advice_to_heed(plan) if check.rule is PlaceRule.WEDGE]
    words = sentence_for(told, names=plan.names)
    assert words.startswith("three lines alike can wedge side by side in out-0: it is 3.00 times as wide")
    wedge = wedge_in(opening=RoundOpening(diameter_mm=15.0, tolerance_mm=0.1), diameters_mm=[5.0, 5.0, 5.0])
    assert wedge is not None
    assert wedge_sentence(wedge).lower().startswith("three lines alike can wedge side by side in this place")


def test_a_slot_is_not_asked_but_a_guide_is() -> None:
    job = crowded(15.0, 5.0, 5.0)
    slot = replace(job.frame.ports["out-0"], opening=SlotOpening(length_mm=20.0, width_mm=15.0, tolerance_mm=0.1))
    assert wedges_in(plan_of(replace(job, frame=replace(job.frame, ports={**job.frame.ports, "out-0": slot})))) == []
    crowd = crowded(30.0, 5.0, 5.0, through=("in-0", "out-0"))
    guide = Guide(bore_diameter_mm=15.0, bend_radius_mm=None, turn_deg=0.0, tolerance_mm=0.1)
    runs = {**crowd.frame.runs, "through-0": replace(crowd.frame.runs["through-0"], guide=guide)}
    plan = plan_of(replace(crowd, frame=replace(crowd.frame, runs=runs)))
    assert [check.run_id for check in wedges_in(plan)] == ["through-0"]
