"""Under a no stands what would change it: each way out is planned again, and a step short of it there is still none."""

from dataclasses import replace
from pathlib import Path
from random import Random
from typing import Any

import pytest

from catalog import STARTER_FOLDER, read_catalog, read_job
from planner import plan_job, way_out_sentences
from planner.fit import hole_fit
from planner.fit.measure_first import MeasureFirst, rank_measurements
from planner.geometry.packing import set_clearance
from planner.geometry.packing.proof import find_growth_bound
from planner.parts import (
    Insert,
    Job,
    LineEnd,
    NewLine,
    OldLine,
    Opening,
    OvalOpening,
    RoundOpening,
    SlotOpening,
    SpokeLink,
    StayingLine,
    Workshop,
)
from planner.plan import plan_builder
from planner.plan.change import Stuck
from planner.plan.routing_plan import RoutingPlan
from planner.plan.size_changes import STEP_MM, grown_opening
from planner.plan.way_out import WayOut, WayOutKind
from planner.plan.ways_out import find_ways_out
from planner.routing.attempts import find_attempts, works_somehow
from planner.verdicts import Outcome
from tests.builders import make_coupler, make_job, make_lane_frame, make_line, make_sleeve, make_workshop
from tests.planner.plan.test_ends_undone import CRIMP
from tests.planner.routing.test_route_search import graph_with_lengths

DEMO = Path(__file__).parents[3] / "demo_frames"


def ways_of(job: Job, workshop: Workshop) -> dict[WayOutKind, WayOut]:
    plan = plan_job(job=job, workshop=workshop)
    assert plan.outcome is Outcome.NO_FIT
    assert plan.no_route is not None
    return {way.kind: way for way in plan.no_route.ways_out}


def works(job: Job, workshop: Workshop) -> bool:
    return plan_job(job=job, workshop=workshop).outcome <= Outcome.TIGHT


def with_line_of(job: Job, diameter_mm: float) -> Job:
    return replace(job, new=replace(job.new, line=replace(job.new.line, outer_diameter_mm=diameter_mm)))


def test_the_smallest_hole_that_would_do_does_and_a_step_less_does_not() -> None:
    workshop = make_workshop(make_coupler())
    job = make_job(make_lane_frame((8.0, 5.1)))
    way = ways_of(job, workshop)[WayOutKind.LARGER_HOLE]
    assert way.port_id == "out-0"
    assert way.size_mm == pytest.approx(0.15)  # the joint is 5.23: 5.25 is the first step that lets it through
    for growth_mm, is_enough in ((way.size_mm or 0.0, True), ((way.size_mm or 0.0) - STEP_MM, False)):
        port = replace(
            job.frame.ports["out-0"], opening=grown_opening(RoundOpening(diameter_mm=5.1, tolerance_mm=0.1), growth_mm)
        )
        frame = replace(job.frame, ports={**job.frame.ports, "out-0": port})
        assert works(replace(job, frame=frame), workshop) is is_enough


def test_the_line_itself_passes_and_the_thickest_joint_is_told() -> None:
    workshop = make_workshop(make_sleeve())
    way = ways_of(make_job(make_lane_frame((6.0, 6.0))), workshop)[WayOutKind.THINNER_JOINT]
    assert way.size_mm == pytest.approx(6.0)


def test_the_thickest_line_that_passes_passes_and_a_step_more_does_not() -> None:
    workshop = make_workshop(SpokeLink(id="s", name="S", rod_diameter_mm=2.0, reach_mm=5, holds_n=0, setup_min=5))
    job = make_job(
        make_lane_frame((4.3, 8.0)),
        old=OldLine(line=make_line(outer_diameter_mm=3.0), from_end=LineEnd(), to_end=LineEnd()),
    )
    way = ways_of(job, workshop)[WayOutKind.THINNER_LINE]
    assert way.size_mm == pytest.approx(4.3)
    assert works(with_line_of(job, way.size_mm or 0.0), workshop)
    assert not works(with_line_of(job, (way.size_mm or 0.0) + STEP_MM), workshop)


def test_inserts_that_may_not_come_out_are_told_where_they_alone_stop_it() -> None:
    frame = make_lane_frame((9.0, 9.0))
    tight = Insert(opening=RoundOpening(diameter_mm=5.1, tolerance_mm=0.05), is_removable=True)
    ports = {key: replace(port, insert=tight) for key, port in frame.ports.items()}
    job = make_job(replace(frame, ports=ports), may_remove_inserts=False)
    assert WayOutKind.INSERTS_OUT in ways_of(job, make_workshop(make_coupler()))
    assert works(replace(job, may_remove_inserts=True), make_workshop(make_coupler()))


def test_bare_ends_and_a_given_up_brake_are_told_where_they_alone_stop_it() -> None:
    crimped = LineEnd(fitting=replace(CRIMP, outer_diameter_mm=12.0), is_fitted=True)
    job = make_job(make_lane_frame((8.0, 8.0)), new=NewLine(line=make_line(id="new"), from_end=crimped, to_end=crimped))
    assert WayOutKind.BARE_ENDS in ways_of(job, make_workshop(make_coupler()))
    kept = make_job(
        make_lane_frame((8.0, 8.0)),
        old=OldLine(line=make_line(id="old"), from_end=crimped, to_end=crimped),
        keeps_old_brake=True,
    )
    assert WayOutKind.OLD_BRAKE_GIVEN_UP in ways_of(kept, make_workshop(make_coupler()))


def test_a_spoke_link_is_told_where_the_shop_has_none() -> None:
    job = make_job(make_lane_frame((5.1, 5.1)))
    assert WayOutKind.SPOKE_LINK in ways_of(job, make_workshop(make_coupler(), make_sleeve()))
    assert works(job, make_workshop())  # the shop with a spoke link
    no_bore = replace(job, new=replace(job.new, line=replace(job.new.line, bore_diameter_mm=None)))
    assert WayOutKind.SPOKE_LINK not in ways_of(no_bore, make_workshop(make_sleeve()))


def plan_of_demo(name: str) -> tuple[RoutingPlan, Job]:
    catalog = read_catalog([STARTER_FOLDER, *sorted(DEMO.glob("*.frame.yaml"))])
    job = read_job(DEMO / f"{name}.job.yaml", catalog)
    return plan_job(job=job, workshop=catalog.workshop), job


def test_closed_stops_are_told_with_the_word_that_nobody_drills() -> None:
    plan, _ = plan_of_demo("city-cable-stops")
    told = " ".join(way_out_sentences(plan))
    assert "never made larger at the bench" in told


@pytest.mark.parametrize("name", ["city-cable-stops", "touring-unmeasured"])
def test_a_no_and_what_is_not_proven_keep_their_hands_off(name: str) -> None:
    plan, _ = plan_of_demo(name)
    assert plan.outcome >= Outcome.UNKNOWN
    assert (plan.steps, plan.cautions) == ((), ())
    assert plan.measure_first or plan.no_route


def test_a_plan_has_no_ways_out() -> None:
    plan, _ = plan_of_demo("trail-rear-brake")
    assert way_out_sentences(plan) == ()


def crowded_job(opening: Opening, *beside_mm: float) -> Job:
    """One hole for the new line and some that stay."""
    frame = make_lane_frame((20.0, 20.0))
    port = replace(frame.ports["out-0"], opening=opening)
    staying = tuple(
        StayingLine(line=make_line(id=f"s{n}", outer_diameter_mm=size), through=("out-0",))
        for n, size in enumerate(beside_mm)
    )
    return make_job(replace(frame, ports={**frame.ports, "out-0": port}), staying=staying)


def test_no_proof_is_sought_while_sizes_are_tried(monkeypatch: pytest.MonkeyPatch) -> None:
    """A size that is not shown to do does not do; proving that it never could took 15 s of a plan."""
    job = crowded_job(OvalOpening(length_mm=11.4, width_mm=7.4, tolerance_mm=0.1), 4.0, 3.6, 2.2)
    attempts_asked: list[bool] = []

    def counted(**asked: Any) -> float:
        attempts_asked.append(True)
        return find_growth_bound(**asked)

    monkeypatch.setattr(set_clearance, "find_growth_bound", counted)
    plan = plan_job(job=job, workshop=make_workshop(make_coupler()))
    assert plan.outcome is Outcome.NO_FIT
    asked_n = len(attempts_asked)
    stuck = Stuck(
        job=job,
        workshop=make_workshop(make_coupler()),
        graph=graph_with_lengths(job.frame),
        bend_checks={},
        no=plan,
        look=plan_builder.look_at,
        replan=plan_builder.plan_again,
    )
    hole_fit._check_measured.cache_clear()
    set_clearance._clearance_largest_first.cache_clear()
    ways = find_ways_out(stuck)
    assert {way.kind for way in ways} >= {WayOutKind.LARGER_HOLE}
    assert asked_n > 0, "the no itself is proven"
    assert len(attempts_asked) == asked_n


def test_what_to_measure_is_asked_of_the_no_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    """Plans that only confirm a change were asked it too, and for their chances of fitting: 12 s of a plan of 15."""
    asked_n = 0

    def counted(**asked: Any) -> tuple[MeasureFirst, ...]:
        nonlocal asked_n
        asked_n += 1
        return rank_measurements(**asked)

    monkeypatch.setattr(plan_builder, "rank_measurements", counted)
    job = crowded_job(OvalOpening(length_mm=11.4, width_mm=7.4, tolerance_mm=0.1), 4.0, 3.6, 2.2)
    plan = plan_job(job=job, workshop=make_workshop(make_coupler()))
    assert plan.no_route is not None
    assert plan.no_route.ways_out, "so plans were made to confirm them"
    assert asked_n == 1


def test_whether_anything_works_is_what_all_attempts_say() -> None:
    draw, answers = Random(4), set()
    workshop = make_workshop(make_coupler(), make_sleeve())
    for _ in range(30):
        beside_mm = [round(draw.uniform(2, 5), 1) for _ in range(draw.randint(0, 3))]
        slot = SlotOpening(length_mm=draw.uniform(9, 22), width_mm=draw.uniform(4, 9), tolerance_mm=0.1)
        job = crowded_job(slot, *beside_mm)
        job = replace(job, keeps_old_brake=draw.random() < 0.5)
        graph = graph_with_lengths(job.frame)
        asked: dict[str, Any] = {"job": job, "methods": workshop.methods, "graph": graph, "limits": workshop.limits}
        attempts = find_attempts(**asked)
        works_ = any(attempt.outcome <= Outcome.TIGHT for attempt in attempts)
        assert works_somehow(**asked, bend_checks={}) is works_
        answers.add(works_)
    assert answers == {True, False}
