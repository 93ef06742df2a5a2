"""When it sticks or parts: what is said for every kind of job and joint, and where it is shown."""

from functools import cache

from planner import RoutingPlan, plan_job, rescue_sheet, step_with_rescue
from planner.parts import MethodKind, RescueCase, RescueKind
from tests.builders import make_workshop
from tests.work_orders.job_kinds import KINDS, METHODS
from tests.work_orders.test_work_orders import starter

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


@cache
def plans() -> tuple[tuple[str, MethodKind, RoutingPlan], ...]:
    shop = starter()
    work = {"limits": shop.limits, "steps": shop.steps, "cautions": shop.cautions, "rescues": shop.rescues}
    found = []
    for name, job in KINDS.items():
        for method in METHODS:
            plan = plan_job(job=job, workshop=make_workshop(method, **work))
            if plan.steps:
                found.append((name, method.kind, plan))
    return tuple(found)


def said(plan: RoutingPlan) -> str:
    return " ".join(line.text for line in plan.rescue)


def test_every_way_through_a_frame_says_what_never_to_do_what_to_try_and_when_to_stop() -> None:
    whole = {(case, kind) for case in RescueCase for kind in RescueKind}
    for name, method, plan in plans():
        if not plan.route:
            assert plan.rescue == (), name
            continue
        assert {(line.case, line.kind) for line in plan.rescue} == whole, (name, method)


def test_each_kind_of_joint_hears_its_own_and_nothing_of_the_others() -> None:
    heard = set()
    for name, method, plan in plans():
        if not plan.route:
            continue
        told = {kind for kind, words in OF_ONE_KIND.items() if words in said(plan)}
        assert told == {method} & set(OF_ONE_KIND), name
        heard |= told
    assert heard == set(OF_ONE_KIND)


def test_a_spoke_is_never_drawn_back() -> None:
    for name, method, plan in plans():
        if method is MethodKind.SPOKE_LINK and plan.route:
            assert "led back, the old one pushed after" not in said(plan), name
            assert "old line pushed back from" in said(plan), name


def test_no_wire_and_no_cord_is_told_to_be_pushed_through_the_frame() -> None:
    seen = set()
    for name, method, plan in plans():
        is_limp = "wire" in name or method in (MethodKind.SUCTION_CORD, MethodKind.MAGNET_TIP)
        if is_limp and plan.route:
            assert not [words for words in ("pushed after it", "Push the old line back") if words in said(plan)], name
            seen.add(method)
    assert {MethodKind.SLEEVE_TUBE, MethodKind.SUCTION_CORD, MethodKind.MAGNET_TIP} <= seen


def test_what_alone_knows_the_way_is_kept_in_until_something_else_does() -> None:
    for name, method, plan in plans():
        if method is MethodKind.LINER_TUBE and plan.route:
            assert [step.id for step in plan.steps if step is step_with_rescue(plan)] == ["liner-in"], name
        if method in (MethodKind.OVER_CABLE, MethodKind.LINER_TUBE) and plan.route:
            assert "knows the way" in said(plan), name


def test_it_is_shown_with_one_step_that_moves_something_through_the_frame() -> None:
    for name, _, plan in plans():
        step = step_with_rescue(plan)
        assert (step is None) == (not plan.route), name
        assert step is None or step.part == "through", name


def test_dry_lines_hear_nothing_of_fluid_and_no_placeholder_is_left() -> None:
    for name, _, plan in plans():
        assert "{" not in said(plan), name
        if "hydraulic" not in name and "hose" not in name:
            continue
        assert not plan.route or "seals" in said(plan), name


def test_what_is_tried_is_numbered_in_its_order() -> None:
    plan = next(plan for _, _, plan in plans() if plan.route)
    for _, told in rescue_sheet(plan):
        kinds = [kind for kind, _ in told]
        assert kinds == ["Never", "Try, in this order", "Stop and ask the maker"]
        tried = dict(told)["Try, in this order"]
        assert [text.partition(".")[0] for text in tried] == [str(n) for n in range(1, len(tried) + 1)]
