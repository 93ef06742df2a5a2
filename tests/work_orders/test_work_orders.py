"""The starter's work order, walked for every kind of job, method and fluid: each step can be done when it comes.

Also what is said when it sticks or parts: asked of the same plans, which take longest to make.
"""

from dataclasses import replace
from itertools import permutations

import pytest

from planner import RoutingPlan, hand_over_asked, plan_job, rescue_sheet, step_with_rescue
from planner.parts import AnchorServes, Job, LineFamily, LineKind, MethodKind, RescueCase, RescueKind, WorkStep
from planner.verdicts import Outcome
from tests.builders import make_workshop
from tests.work_orders.bench import DEEDS, walk
from tests.work_orders.bolts import TIGHTENS, hold_rows
from tests.work_orders.job_kinds import KINDS, METHODS
from tests.work_orders.worked_jobs import starter, worked_jobs

DRY = ("fluid", "drain", "bleed", "leak", "lever-firm", "cup", "gloves")
"""Words that no step of a dry line may hold."""

STOPS = ("test", "bed-in", "stand-test", "cable-brake-set", "lever-firm", "pump-up", "leaks")
"""Steps that only a brake asks for."""


@pytest.fixture(scope="module")
def worked() -> list[tuple[str, Job, RoutingPlan]]:
    return [(one.name, one.job, one.plan) for one in worked_jobs()]


def start_of(job: Job) -> dict[str, bool]:
    """How the bicycle stands before the first step."""
    old = job.old
    is_wet = old is not None and old.line.kind.family is LineFamily.HYDRAULIC
    return {
        "old_wet": is_wet,
        "clips": old is not None,
        "leading_closed": job.new.line.kind is not LineKind.HYDRAULIC_HOSE,
        "trailing_closed": job.new.line.kind is not LineKind.HYDRAULIC_HOSE,
        "clamp_in_reach": not any(anchor.serves is AnchorServes.DROPPER for anchor in job.frame.anchors.values()),
        "old_cable": old is not None and old.line.kind.family is LineFamily.MECHANICAL,
        "has_cable": job.new.line.kind.family is LineFamily.MECHANICAL,
        "power_matters": job.new.line.kind is LineKind.ELECTRIC_WIRE,
    }


def test_every_kind_of_job_is_walked_with_more_than_one_method(worked: list[tuple[str, Job, RoutingPlan]]) -> None:
    walked = {name.rpartition(",")[0] for name, _, _ in worked}
    assert walked == set(KINDS)
    assert len(worked) > 2 * len(KINDS)


def test_the_bench_knows_every_step_of_the_starter() -> None:
    assert {step.id for step in starter().steps} == set(DEEDS)


def test_every_step_can_be_done_when_it_comes(worked: list[tuple[str, Job, RoutingPlan]]) -> None:
    refused = {}
    for name, job, plan in worked:
        slips = walk([step.id for step in plan.steps], start_of(job))
        if slips:
            refused[name] = slips
    assert refused == {}


def test_each_step_stands_once(worked: list[tuple[str, Job, RoutingPlan]]) -> None:
    for name, _, plan in worked:
        ids = [step.id for step in plan.steps]
        assert len(ids) == len(set(ids)), name
        assert [step.n for step in plan.steps] == list(range(1, len(ids) + 1))


def test_every_bolt_that_is_tightened_for_good_has_its_row_for_a_torque_and_nothing_else_has(
    worked: list[tuple[str, Job, RoutingPlan]],
) -> None:
    seen = set()
    for name, job, plan in worked:
        record = hand_over_asked(plans=[plan], steps=plan.steps, workshop=starter())
        hold_rows(name, plan.steps, record, [job.new.line.kind.family])
        seen |= {step.id for step in plan.steps} & set(TIGHTENS)
    assert len(seen) > len(TIGHTENS) * 0.8


def test_dry_lines_hear_nothing_of_fluid(worked: list[tuple[str, Job, RoutingPlan]]) -> None:
    for name, job, plan in worked:
        lines = [job.new.line, *([] if job.old is None else [job.old.line])]
        if any(line.kind is LineKind.HYDRAULIC_HOSE for line in lines):
            continue
        told = " ".join([*(f"{step.id} {step.text} {' '.join(step.cautions)}" for step in plan.steps), *plan.cautions])
        assert [word for word in DRY if word in told.lower()] == [], name


def test_only_brakes_are_tested_as_brakes(worked: list[tuple[str, Job, RoutingPlan]]) -> None:
    for name, job, plan in worked:
        ids = {step.id for step in plan.steps}
        if job.new.brake is not None or job.new.line.kind in (LineKind.HYDRAULIC_HOSE, LineKind.BRAKE_HOUSING):
            assert {"stand-test", "test"} <= ids, name
        else:
            assert ids.isdisjoint(STOPS), name
            assert "ride-dry" in ids, name


def test_every_brake_with_fluid_is_bled_once_by_its_own_name_and_tried_for_leaks(
    worked: list[tuple[str, Job, RoutingPlan]],
) -> None:
    seen = set()
    for name, job, plan in worked:
        if job.new.line.kind is not LineKind.HYDRAULIC_HOSE:
            continue
        ids = [step.id for step in plan.steps]
        fluid = fluid_of(job)
        assert [each for each in ids if each.startswith("bleed-")] == [f"bleed-{fluid}"], name
        assert {"fluid-check", "leaks", "clean", "lever-firm", "waste"} <= set(ids), name
        assert ids.index(f"bleed-{fluid}") < ids.index("leaks") < ids.index("lever-firm"), name
        seen.add(fluid)
    assert seen == {"glycol", "mineral", "silicone"}


def fluid_of(job: Job) -> str:
    """The fluid that goes in; "named" where only the brake tells it."""
    brake = job.new.brake or (None if job.old is None else job.old.brake)
    if brake is None or brake.fluid is None:
        return "named"
    return brake.fluid.value.partition("_")[0]


@pytest.mark.parametrize("step", [step for step in starter().steps if step.id.startswith("bleed-")], ids=lambda s: s.id)
def test_whoever_fills_a_brake_is_warned_of_the_fluid_and_of_mixing_it(step: WorkStep) -> None:
    assert {"fluid", "eyes", "fluid-mixing"} <= set(step.cautions)


def test_no_wire_is_cut(worked: list[tuple[str, Job, RoutingPlan]]) -> None:
    for name, job, plan in worked:
        if job.new.line.kind is LineKind.ELECTRIC_WIRE:
            assert not [step.id for step in plan.steps if step.id.startswith(("cut-", "trim-", "square-"))], name


def ids_of(worked: list[tuple[str, Job, RoutingPlan]], kind: str) -> list[set[str]]:
    found = [{step.id for step in plan.steps} for name, _, plan in worked if name.startswith(kind)]
    assert found, kind
    return found


def test_a_split_insert_is_taken_apart_and_a_whole_one_slid(worked: list[tuple[str, Job, RoutingPlan]]) -> None:
    told = {
        "split": {"inserts-apart"},
        "whole": {"inserts-out", "inserts-on"},
        "mixed": {"inserts-out", "inserts-on"},
    }
    every = set().union(*told.values())
    for kind, steps in told.items():
        for ids in ids_of(worked, f"{kind} inserts"):
            assert ids & every == steps
            assert "inserts-back" in ids


def test_an_end_that_is_taken_off_is_cut_once(worked: list[tuple[str, Job, RoutingPlan]]) -> None:
    for ids in ids_of(worked, "hose with a nut taken off"):
        assert ids & {"unset-leading", "square-new", "plug-new"} == {"unset-leading"}


def test_ends_that_came_closed_are_joined_and_neither_cut_nor_set(
    worked: list[tuple[str, Job, RoutingPlan]],
) -> None:
    for ids in ids_of(worked, "hose with ends that came closed"):
        assert {"join-leading", "join-trailing"} <= ids
        assert ids.isdisjoint({"trim-new", "set-leading", "set-trailing", "thread-on", "square-new"})


def test_a_dry_line_leaves_the_wheel_where_it_is(worked: list[tuple[str, Job, RoutingPlan]]) -> None:
    shop = make_workshop(METHODS[0], limits=starter().limits, steps=starter().steps, cautions=starter().cautions)
    swap = KINDS["plain: cable brake to cable brake"]
    fresh = plan_job(job=replace(swap, new=replace(swap.new, brake=None), rotor_mm=None), workshop=shop)
    assert {step.id for step in fresh.steps}.isdisjoint({"wheel-out", "wheel-in", "pads-out"})
    assert {"wheel-out", "wheel-in"} <= ids_of(worked, "plain: cable brake to cable brake")[0]


def test_the_cable_of_a_post_is_clamped_where_a_hand_reaches_it(worked: list[tuple[str, Job, RoutingPlan]]) -> None:
    for name, _, plan in worked:
        ids = [step.id for step in plan.steps]
        if name.startswith("dropper"):
            assert ids.index("cable-for-post") < ids.index("post-in") < ids.index("cable-at-lever"), name
            assert "inner-cable" not in ids


def test_a_line_laid_outside_hears_nothing_of_holes(worked: list[tuple[str, Job, RoutingPlan]]) -> None:
    for name, _, plan in worked:
        if not plan.route:
            told = " ".join(step.text for step in plan.steps if step.id not in ("old-away", "note-before"))
            assert [word for word in ("insert", "hole", "came through", "drill") if word in told] == [], name
            assert "old-away" in {step.id for step in plan.steps}, name


def test_every_sentence_is_filled(worked: list[tuple[str, Job, RoutingPlan]]) -> None:
    for name, _, plan in worked:
        for step in plan.steps:
            assert "{" not in step.text + step.why + "".join(step.cautions), (name, step.id)


def test_the_bench_refuses_what_would_hurt() -> None:
    """The machine itself: pads and block and lever in every order but the right one."""
    right = ("pads-in", "wheel-in", "pump-up")
    begun = ["wheel-out", "pads-out", "pistons-back", "block-in", "bleed-mineral", "leaks", "clean"]
    for order in permutations(right):
        slips = [slip for slip in walk([*begun, *order], {}) if not slip.startswith("at the end")]
        assert bool(slips) is (order != right), order
    assert "leaks: block must hold" in walk(["wheel-out", "pads-out", "leaks"], {})
    assert "at the end: wheel must hold" in walk(["wheel-out"], {})


def test_a_no_has_no_steps() -> None:
    job = next(iter(KINDS.values()))
    shop = make_workshop(METHODS[-1], steps=starter().steps, cautions=starter().cautions)
    plan = plan_job(job=job, workshop=shop)
    assert plan.outcome is Outcome.NO_FIT
    assert plan.steps == ()


OF_ONE_KIND = {
    MethodKind.THREADED_COUPLER: "stiff piece",
    MethodKind.SLEEVE_TUBE: "rim",
    MethodKind.SPOKE_LINK: "the spoke stays in the frame",
    MethodKind.LEADER_LINE: "Push the leader back",
    MethodKind.OVER_CABLE: "bunched",
    MethodKind.LINER_TUBE: "pushed fast kinks",
    MethodKind.SUCTION_CORD: "another tube",
    MethodKind.MAGNET_TIP: "tip lets go",
}
"""Words that only one kind of joint hears."""


def rescued() -> list[tuple[str, MethodKind, RoutingPlan]]:
    """What is said when it sticks or parts is asked of the same plans, which are dear to make."""
    return [(one.kind, one.method, one.plan) for one in worked_jobs()]


def said(plan: RoutingPlan) -> str:
    return " ".join(line.text for line in plan.rescue)


def test_every_way_through_a_frame_says_what_never_to_do_what_to_try_and_when_to_stop() -> None:
    whole = {(case, kind) for case in RescueCase for kind in RescueKind}
    for name, method, plan in rescued():
        if not plan.route:
            assert plan.rescue == (), name
            continue
        assert {(line.case, line.kind) for line in plan.rescue} == whole, (name, method)


def test_each_kind_of_joint_hears_its_own_and_nothing_of_the_others() -> None:
    heard = set()
    for name, method, plan in rescued():
        if not plan.route:
            continue
        told = {kind for kind, words in OF_ONE_KIND.items() if words in said(plan)}
        assert told == {method} & set(OF_ONE_KIND), name
        heard |= told
    assert heard == set(OF_ONE_KIND)


def test_a_spoke_is_never_drawn_back() -> None:
    for name, method, plan in rescued():
        if method is MethodKind.SPOKE_LINK and plan.route:
            assert "led back, the old one pushed after" not in said(plan), name
            assert "old line pushed back from" in said(plan), name


def test_no_wire_and_no_cord_is_told_to_be_pushed_through_the_frame() -> None:
    seen = set()
    for name, method, plan in rescued():
        is_limp = "wire" in name or method in (MethodKind.SUCTION_CORD, MethodKind.MAGNET_TIP)
        if is_limp and plan.route:
            assert not [words for words in ("pushed after it", "Push the old line back") if words in said(plan)], name
            seen.add(method)
    assert {MethodKind.SLEEVE_TUBE, MethodKind.SUCTION_CORD, MethodKind.MAGNET_TIP} <= seen


def test_what_alone_knows_the_way_is_kept_in_until_something_else_does() -> None:
    for name, method, plan in rescued():
        if method is MethodKind.LINER_TUBE and plan.route:
            assert [step.id for step in plan.steps if step is step_with_rescue(plan)] == ["liner-in"], name
        if method in (MethodKind.OVER_CABLE, MethodKind.LINER_TUBE) and plan.route:
            assert "knows the way" in said(plan), name


def test_it_is_shown_with_one_step_that_moves_something_through_the_frame() -> None:
    for name, _, plan in rescued():
        step = step_with_rescue(plan)
        assert (step is None) == (not plan.route), name
        assert step is None or step.part == "through", name


def test_dry_lines_hear_nothing_of_fluid_and_no_placeholder_is_left() -> None:
    for name, _, plan in rescued():
        assert "{" not in said(plan), name
        if "hydraulic" not in name and "hose" not in name:
            continue
        assert not plan.route or "seals" in said(plan), name


def test_what_is_tried_is_numbered_in_its_order() -> None:
    plan = next(plan for _, _, plan in rescued() if plan.route)
    for _, told in rescue_sheet(plan):
        kinds = [kind for kind, _ in told]
        assert kinds == ["Never", "Try, in this order", "Stop and ask the maker"]
        tried = dict(told)["Try, in this order"]
        assert [text.partition(".")[0] for text in tried] == [str(n) for n in range(1, len(tried) + 1)]
