"""Under a no of the parts, of the length or of the methods stands what would change it, each worked by hand here."""

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

import pytest

from planner import measures_told, other_ways, plan_job, verdict_sentence, way_out_sentences
from planner.parts import (
    Adapter,
    AdapterKind,
    AskFirst,
    Brake,
    BrakeMount,
    FrameEnd,
    Guide,
    HubKind,
    Insert,
    Job,
    LineEnd,
    LineKind,
    Method,
    MountKind,
    MovesWith,
    NewLine,
    OldLine,
    RoundOpening,
    Workshop,
)
from planner.plan.routing_plan import RoutingPlan
from planner.plan.way_out import WayOut, WayOutKind
from planner.verdicts import Outcome
from tests.builders import (
    make_coupler,
    make_frame,
    make_job,
    make_lane_frame,
    make_limits,
    make_line,
    make_sleeve,
    make_spoke,
    make_workshop,
)
from tests.planner.plan.test_ends_undone import LIMITS, NUT
from tests.work_orders.job_kinds import CABLE, GEAR_HOUSING, LEADER

POSTS = BrakeMount(mount=MountKind.POST, rotor_native_mm=160.0, rotor_max_mm=203.0, hub=HubKind.SIX_BOLT)
BY_20 = Adapter(
    id="post-20",
    name="Post adapter +20",
    kind=AdapterKind.POST_STEP,
    frame_mount=MountKind.POST,
    caliper_mount=MountKind.POST,
    step_mm=20.0,
    lift_mm=10.0,
)


def brake(**changes: Any) -> Brake:
    fields: dict[str, Any] = {
        "id": "named",
        "name": "Named",
        "fluid": None,
        "line": make_line(id="new"),
        "supplied_length_mm": None,
        "lever_end": LineEnd(),
        "caliper_end": LineEnd(),
        "caliper_mount": MountKind.POST,
    }
    return Brake(**{**fields, **changes})


def brake_job(mount: BrakeMount = POSTS, *, named: Brake | None = None, **changes: Any) -> Job:
    of_job = named or brake()
    frame = replace(make_lane_frame((8.0, 8.0)), brakes={"rear": mount})
    new = NewLine(line=of_job.line, from_end=LineEnd(), to_end=LineEnd(), brake=of_job)
    return make_job(frame, **{"new": new, "rotor_mm": 160.0, **changes})


def shop(*methods: Method, **changes: Any) -> Workshop:
    limits = replace(make_limits(), tab_base_front_mm=160.0, tab_base_rear_mm=140.0)
    return make_workshop(*methods, **{"limits": limits, **changes})


def told(plan: RoutingPlan) -> tuple[WayOut, ...]:
    return plan.ways_out if plan.no_route is None else plan.no_route.ways_out


def ways_of(job: Job, workshop: Workshop) -> dict[WayOutKind, list[WayOut]]:
    plan = plan_job(job=job, workshop=workshop)
    assert plan.outcome is Outcome.NO_FIT
    found: dict[WayOutKind, list[WayOut]] = {}
    for way in told(plan):
        found.setdefault(way.kind, []).append(way)
    return found


def sizes(ways: Iterable[WayOut]) -> list[float | None]:
    return [way.size_mm for way in ways]


def test_a_rotor_that_no_adapter_serves_is_told_with_those_that_serve_and_the_adapter_that_is_missing() -> None:
    """183 on 160 is a step of 23, half of it 11.5; at hand are 160 straight and 180 by the step of 20."""
    ways = ways_of(brake_job(rotor_mm=183.0), shop(adapters=(BY_20,)))
    assert sizes(ways[WayOutKind.OTHER_ROTOR]) == [180.0, 160.0]
    assert sizes(ways[WayOutKind.ADAPTER]) == [23.0]
    plan = plan_job(job=brake_job(rotor_mm=183.0), workshop=shop(adapters=(BY_20,)))
    assert "takes 23 mm more rotor and lifts the caliper by 11.5 mm" in " ".join(way_out_sentences(plan))


def test_below_its_native_size_no_adapter_is_told_but_the_native_rotor_is() -> None:
    ways = ways_of(brake_job(rotor_mm=140.0), shop(adapters=(BY_20,)))
    assert WayOutKind.ADAPTER not in ways
    assert sizes(ways[WayOutKind.OTHER_ROTOR]) == [160.0, 180.0]


def test_above_what_the_frame_allows_a_smaller_rotor_is_told() -> None:
    ways = ways_of(brake_job(replace(POSTS, rotor_max_mm=180.0), rotor_mm=203.0), shop(adapters=(BY_20,)))
    assert sizes(ways[WayOutKind.OTHER_ROTOR]) == [180.0, 160.0]


def test_where_the_native_rotor_was_not_told_the_no_stands_and_no_size_is_guessed() -> None:
    ways = ways_of(brake_job(replace(POSTS, rotor_native_mm=None), rotor_mm=220.0), shop(adapters=(BY_20,)))
    assert ways.keys() & {WayOutKind.OTHER_ROTOR, WayOutKind.ADAPTER} == set()


def test_tabs_want_a_bracket_for_their_end_and_rotor() -> None:
    ways = ways_of(brake_job(BrakeMount(mount=MountKind.IS_TABS, rotor_max_mm=203.0)), shop())
    assert [(way.name, way.size_mm) for way in ways[WayOutKind.ADAPTER]] == [("is_tabs", 20.0)]


def test_another_mount_is_told_by_the_brakes_that_have_it_and_else_by_its_kind() -> None:
    flat = brake(caliper_mount=MountKind.FLAT)
    without = ways_of(brake_job(named=flat), shop())
    assert [way.name for way in without[WayOutKind.OTHER_MOUNT]] == ["post"]
    others = {each.id: each for each in (brake(id="a"), brake(id="b"), brake(id="c"), flat)}
    ways = ways_of(brake_job(named=flat), shop(brakes=others))
    assert [way.with_id for way in ways[WayOutKind.OTHER_BRAKE]] == ["a", "b"]
    assert WayOutKind.OTHER_MOUNT not in ways


def test_a_brake_for_the_other_end_is_answered_by_those_for_this_end() -> None:
    front = replace(make_lane_frame((8.0, 8.0)), brakes={"rear": POSTS, "front": POSTS})
    anchors = {key: replace(anchor, moves_with=MovesWith.BAR) for key, anchor in front.anchors.items()}
    rear_only = brake(made_for=FrameEnd.REAR)
    job = brake_job(named=rear_only)
    job = replace(job, frame=replace(front, anchors=anchors))
    fits = brake(id="front", made_for=FrameEnd.FRONT)
    ways = ways_of(job, shop(brakes={"named": rear_only, "front": fits}))
    assert [way.with_id for way in ways[WayOutKind.OTHER_BRAKE]] == ["front"]


def test_a_rotor_for_the_other_hub_is_told_by_the_hub() -> None:
    ways = ways_of(brake_job(rotor_hub=HubKind.SPLINED), shop())
    assert [way.name for way in ways[WayOutKind.OTHER_ROTOR_SEAT]] == ["six_bolt"]


def test_a_no_of_its_mounts_offers_no_other_way_of_drawing_the_line() -> None:
    job = brake_job(named=brake(caliper_mount=MountKind.FLAT))
    plan = plan_job(job=job, workshop=shop(make_coupler(), make_sleeve(), make_spoke()))
    assert plan.no_route is None
    assert len(plan.options) > 1
    assert {option.outcome for option in plan.options} == {Outcome.NO_FIT}
    assert other_ways(plan) == ()


def test_a_line_too_short_is_told_by_how_much_and_how_long_it_must_be() -> None:
    job = make_job(make_lane_frame((8.0, 8.0)))
    need_mm = plan_job(job=job, workshop=shop(make_coupler())).lengths.cut_mm  # type: ignore[union-attr]
    short = replace(job, new=replace(job.new, supplied_length_mm=need_mm - 37))
    (way,) = ways_of(short, shop(make_coupler()))[WayOutKind.LONGER_LINE]
    assert (way.size_mm, way.missing_mm) == (need_mm, 37.0)


def test_a_joint_that_costs_less_length_goes_before_one_that_makes_the_line_too_short() -> None:
    """A stud costs 19 mm of the end of a dry line, a spoke nothing."""
    job = make_job(make_lane_frame((8.0, 8.0)))
    dry = replace(job, new=replace(job.new, line=replace(job.new.line, kind=LineKind.SHIFT_HOUSING)))
    by_coupler = plan_job(job=dry, workshop=shop(make_coupler(), limits=LIMITS))
    assert by_coupler.lengths is not None
    assert by_coupler.lengths.cut_mm is not None
    short = replace(dry, new=replace(dry.new, supplied_length_mm=by_coupler.lengths.cut_mm - 1))
    plan = plan_job(job=short, workshop=shop(make_coupler(), make_spoke(), limits=LIMITS))
    assert (plan.outcome, plan.method_id) == (Outcome.FITS, "spoke")


def test_a_fitting_that_does_not_suit_is_answered_at_each_end_by_one_that_does() -> None:
    wrong = LineEnd(fitting=replace(NUT, id="nut-55", line_outer_diameter_mm=5.5))
    job = make_job(make_lane_frame((8.0, 8.0)), new=NewLine(line=make_line(id="new"), from_end=wrong, to_end=wrong))
    right = replace(NUT, id="nut-50", name="Nut for 5.0", line_outer_diameter_mm=5.0)
    ways = ways_of(job, shop(fittings={"nut-55": wrong.fitting, "nut-50": right}))
    assert [(way.end, way.with_id) for way in ways[WayOutKind.OTHER_FITTING]] == [("from", "nut-50"), ("to", "nut-50")]
    made = ways_of(job, shop(fittings={"nut-55": wrong.fitting}))
    assert sizes(made[WayOutKind.FITTING_MADE]) == [5.0, 5.0]


def test_a_thinner_line_of_the_catalog_is_named() -> None:
    job = make_job(make_lane_frame((5.2, 5.2)), old=None, new=NewLine(line=make_line(outer_diameter_mm=5.5), **ENDS))
    thin = replace(LEADER, joint_diameter_mm=4.0)
    lines = {"five": make_line(id="five"), "six": make_line(id="six", outer_diameter_mm=6.0)}
    ways = ways_of(job, shop(thin, lines=lines))
    assert [way.with_id for way in ways[WayOutKind.OTHER_LINE]] == ["five"]


ENDS = {"from_end": LineEnd(), "to_end": LineEnd()}


def test_where_no_joint_suits_the_bores_a_stud_that_does_is_told() -> None:
    """The bores are 2.1: a stud of 2.3 is the first that bites."""
    (way,) = ways_of(make_job(make_lane_frame((8.0, 8.0))), shop(make_coupler(stud_diameter_mm=3.5)))[
        WayOutKind.COUPLER
    ]
    assert way.size_mm == pytest.approx(2.1 + make_limits().stud_squeeze_min_mm)


def test_the_old_cable_is_told_where_the_shop_has_no_method_of_going_over_it() -> None:
    job = make_job(make_lane_frame((5.2, 5.2)), old=OldLine(line=CABLE, **ENDS), new=NewLine(line=GEAR_HOUSING, **ENDS))
    roomy = replace(job, new=NewLine(line=replace(GEAR_HOUSING, bore_diameter_mm=2.1), **ENDS))
    assert WayOutKind.OVER_CABLE in ways_of(roomy, shop(make_spoke()))


def test_what_no_joint_joins_goes_in_behind_a_cord_in_two_journeys() -> None:
    """A spoke leaves the bores open to each other, and here two fluids would meet; a cord keeps them apart."""
    wire = make_line(id="wire", kind=LineKind.ELECTRIC_WIRE, outer_diameter_mm=2.5, bore_diameter_mm=None)
    job = make_job(make_lane_frame((8.0, 8.0)), new=NewLine(line=wire, **ENDS))
    (way,) = ways_of(job, shop(make_spoke(), LEADER))[WayOutKind.CORD_FIRST]
    assert way.with_id == LEADER.id


def test_a_wider_insert_is_told_before_any_hole() -> None:
    """The hole is 9, its insert 4.8 for a line of 5.0: 5.0 is the first step that lets it ride."""
    frame = make_lane_frame((9.0, 9.0))
    insert = Insert(opening=RoundOpening(diameter_mm=4.8, tolerance_mm=0.05), is_removable=True)
    ports = {**frame.ports, "in-0": replace(frame.ports["in-0"], insert=insert)}
    ways = ways_of(make_job(replace(frame, ports=ports)), shop(make_coupler()))
    (way,) = ways[WayOutKind.WIDER_INSERT]
    assert (way.port_id, way.opening) == ("in-0", RoundOpening(diameter_mm=5.0, tolerance_mm=0.05))
    assert WayOutKind.LARGER_HOLE not in ways


def test_two_holes_that_both_stop_it_are_told_together_each_as_small_as_it_may_be() -> None:
    """The joint is 5.23: 4.5 lacks 0.75 in steps of 0.05, 5.0 lacks 0.25."""
    ways = ways_of(make_job(make_lane_frame((4.5, 5.0))), shop(make_coupler()))
    assert {way.port_id: way.size_mm for way in ways[WayOutKind.LARGER_HOLE]} == {"in-0": 0.75, "out-0": 0.25}


def test_holes_of_which_one_is_enough_are_told_one_by_one() -> None:
    ways = ways_of(make_job(make_lane_frame((5.0, 8.0), (8.0, 4.5))), shop(make_coupler()))
    assert {way.port_id: way.size_mm for way in ways[WayOutKind.LARGER_HOLE]} == {"in-0": 0.25, "out-1": 0.75}


def test_an_old_way_that_is_none_is_looked_at_again() -> None:
    frame = make_lane_frame((8.0, 8.0), (8.0, 8.0))
    job = make_job(frame)
    assert job.old is not None
    crossed = replace(job, old=replace(job.old, through=("in-0", "out-1")))
    assert WayOutKind.OLD_WAY in ways_of(crossed, shop(make_coupler()))


def test_a_line_that_bends_tighter_is_told_where_bends_alone_stop_it() -> None:
    frame = make_lane_frame((8.0, 8.0))
    guide = replace(GUIDE, bend_radius_mm=30.0)
    runs = {**frame.runs, "through-0": replace(frame.runs["through-0"], guide=guide)}
    (way,) = ways_of(make_job(replace(frame, runs=runs)), shop(make_sleeve()))[WayOutKind.SUPPLER_LINE]
    assert way.size_mm is not None
    assert 0 < way.size_mm < make_line().minimum_bend_radius_mm


GUIDE = Guide(bore_diameter_mm=9.0, bend_radius_mm=30.0, turn_deg=60.0, tolerance_mm=0.1)


def test_of_several_things_against_a_job_each_way_out_takes_one_and_says_that_it_is_not_enough() -> None:
    job = brake_job(rotor_mm=183.0, rotor_hub=HubKind.SPLINED)
    plan = plan_job(job=job, workshop=shop(adapters=(BY_20,)))
    assert {way.outcome for way in plan.ways_out} == {Outcome.NO_FIT}
    assert {way.kind for way in plan.ways_out} == {
        WayOutKind.OTHER_ROTOR,
        WayOutKind.ADAPTER,
        WayOutKind.OTHER_ROTOR_SEAT,
    }
    assert all(len(way.leaves) == 1 for way in plan.ways_out)
    assert way_out_sentences(plan)[0].startswith("More than one thing is against it")


def test_parts_that_do_not_belong_together_are_told_beside_a_way_that_is_stopped() -> None:
    job = brake_job(named=brake(caliper_mount=MountKind.FLAT))
    stopped = replace(job, frame=replace(make_lane_frame((4.0, 8.0)), brakes={"rear": POSTS}))
    plan = plan_job(job=stopped, workshop=shop())
    assert "Beside that: caliper and frame have different mounts" in verdict_sentence(plan)


def test_an_old_line_that_is_thicker_than_the_hole_it_lies_in_is_measured_again_first() -> None:
    plan = plan_job(job=make_job(make_lane_frame((4.5, 8.0))), workshop=shop(make_coupler()))
    assert plan.no_route is not None
    assert plan.no_route.old_too_thick_at == ("in-0",)
    assert "does not pass in-0 either: measure it" in measures_told(plan)[0].reason
    wide = plan_job(job=make_job(make_lane_frame((5.1, 8.0))), workshop=shop(make_coupler()))
    assert wide.no_route is not None
    assert wide.no_route.old_too_thick_at == ()


def test_a_frame_without_any_way_has_no_way_out_of_that() -> None:
    frame = make_frame(runs=())
    plan = plan_job(job=make_job(frame), workshop=shop(make_coupler()))
    assert told(plan) == ()


def test_a_rotor_that_is_to_be_asked_about_is_told_where_none_is_sure() -> None:
    """Flat at the rear, native to 180: a post caliper wants a special adapter, which is looked at with it in hand."""
    flat = BrakeMount(mount=MountKind.FLAT, rotor_native_mm=180.0, rotor_max_mm=180.0)
    special = replace(
        BY_20,
        id="special",
        kind=AdapterKind.SPECIAL,
        frame_mount=MountKind.FLAT,
        step_mm=0.0,
        ask=AskFirst.PIECE_IN_HAND,
    )
    ways = ways_of(brake_job(flat, rotor_mm=160.0), shop(adapters=(special,)))
    assert sizes(ways[WayOutKind.OTHER_ROTOR]) == [180.0]


def test_a_brake_whose_parts_belong_is_named_also_where_the_way_is_stopped() -> None:
    job = brake_job(named=brake(caliper_mount=MountKind.FLAT))
    stopped = replace(job, frame=replace(make_lane_frame((4.0, 8.0)), brakes={"rear": POSTS}))
    ways = ways_of(stopped, shop(brakes={"posts": brake(id="posts")}))
    (way,) = ways[WayOutKind.OTHER_BRAKE]
    assert (way.with_id, way.outcome) == ("posts", Outcome.NO_FIT)


def test_every_part_that_does_not_serve_is_in_the_verdict() -> None:
    plan = plan_job(job=brake_job(rotor_mm=183.0, rotor_hub=HubKind.SPLINED), workshop=shop())
    assert "needs an adapter in one piece" in verdict_sentence(plan)
    assert "does not sit on a six-bolt hub" in verdict_sentence(plan)


def test_a_hole_for_another_kind_of_line_says_so_whatever_its_size() -> None:
    frame = make_lane_frame((9.0, 9.0))
    ports = {**frame.ports, "in-0": replace(frame.ports["in-0"], admits=(LineKind.INNER_CABLE,))}
    plan = plan_job(job=make_job(replace(frame, ports=ports)), workshop=shop(make_coupler()))
    assert "in-0 takes only: inner cable: whatever its size this line goes another way." in way_out_sentences(plan)
