"""Every fact of a way of doing a job, and no other: a step that is told wrongly, or left out, begins here."""

from dataclasses import replace
from typing import Any

import pytest

from planner.parts import (
    Adapter,
    AdapterKind,
    AnchorServes,
    Fact,
    Fitting,
    FittingStyle,
    FrameFeature,
    Insert,
    Job,
    JobEnd,
    LaidOutside,
    LineEnd,
    Method,
    MountKind,
    PortPlace,
    PullWord,
    RoundOpening,
    SetBy,
    SinglePivot,
    StayingLine,
)
from planner.plan.job_facts import (
    JobWay,
    find_facts_of_going_out,
    find_job_facts,
    has_rotor,
    is_brake_job,
    worked_brake,
)
from planner.plan.routing_plan import Joint
from planner.verdicts import Thing, ThingKind
from tests.builders import make_coupler, make_line, make_sleeve, make_spoke
from tests.work_orders.job_kinds import CABLE, HOSE, KINDS, LEADER, LINER, OVER

STUD = make_coupler()
THING = Thing(id="joint", kind=ThingKind.JOINT, diameter_mm=5.0, tolerance_mm=0.0)
PORTS = ("in-0", "out-0")
NUT = Fitting(
    id="nut", name="Nut", style=FittingStyle.COMPRESSION, set_by=SetBy.WORKSHOP, outer_diameter_mm=8.0, length_mm=15.0
)
SAME = "plain: hose with mineral_oil to hose with mineral_oil"
ADAPTER = Adapter(
    id="a",
    name="A",
    kind=AdapterKind.POST_STEP,
    frame_mount=MountKind.POST,
    caliper_mount=MountKind.POST,
    step_mm=20.0,
)


def plain(name: str) -> Job:
    """A job of the kinds, with nothing beside it and no inserts."""
    job = KINDS[name]
    ports = {key: replace(port, insert=None) for key, port in job.frame.ports.items()}
    return replace(job, staying=(), frame=replace(job.frame, ports=ports))


def facts(
    job: Job,
    method: Method = STUD,
    *,
    holds_n: float | None = 60.0,
    advice: PullWord | None = None,
    feed_from: JobEnd = JobEnd.FROM,
    route: tuple[str, ...] = PORTS,
    **way: Any,
) -> set[Fact]:
    joint = Joint(thing=THING, holds_n=holds_n, advice=advice)
    return set(find_job_facts(JobWay(job=job, method=method, feed_from=feed_from, joint=joint, route=route, **way)))


OF_A_BRAKE = {
    Fact.BRAKE,
    Fact.DISC,
    Fact.NEW_LEVER,
    Fact.NEW_CALIPER,
    Fact.NEW_PADS,
    Fact.NEW_ROTOR,
    Fact.LEADING_END_BARE,
    Fact.SETS_LEADING_FITTING,
    Fact.SETS_TRAILING_FITTING,
    Fact.TRIMS,
}
BY_STUD = {Fact.JOINED, Fact.METHOD_THREADED_COUPLER}
WET = {Fact.HYDRAULIC, Fact.OLD_HYDRAULIC, Fact.FLUID_MINERAL}


def test_a_hose_with_its_brake_beside_one_of_the_same_fluid() -> None:
    assert facts(plain(SAME)) == OF_A_BRAKE | BY_STUD | WET | {Fact.OLD_FLUID_MINERAL}


def test_the_front_brake() -> None:
    job = plain("front cockpit: hose with mineral_oil to hose with mineral_oil")
    assert facts(job) - facts(plain(SAME)) == {Fact.FRONT, Fact.HEADSET_ROUTE, Fact.FORK_LEG}


def test_a_hose_for_another_fluid_and_one_whose_old_fluid_nobody_told() -> None:
    other = plain("plain: hose with glycol_dot4 to hose with mineral_oil")
    assert facts(other) == OF_A_BRAKE | BY_STUD | WET | {Fact.OLD_FLUID_GLYCOL, Fact.FLUID_DIFFERS}
    assert other.old is not None
    untold = replace(other, old=replace(other.old, brake=None))
    assert facts(untold) == OF_A_BRAKE | BY_STUD | WET | {Fact.FLUID_DIFFERS}


def test_a_fresh_hose_on_the_brake_that_stays_is_a_brakes_too() -> None:
    job = plain("plain: fresh hose, silicone_dot5")
    wet = {Fact.HYDRAULIC, Fact.OLD_HYDRAULIC, Fact.FLUID_SILICONE, Fact.OLD_FLUID_SILICONE}
    of_new = {Fact.NEW_LEVER, Fact.NEW_CALIPER, Fact.NEW_PADS, Fact.NEW_ROTOR}
    assert facts(job) == (OF_A_BRAKE - of_new) | BY_STUD | wet | {Fact.LINE_ONLY}


def test_a_new_brake_without_a_rotor_of_its_own() -> None:
    assert facts(plain(SAME)) - facts(replace(plain(SAME), rotor_mm=None)) == {Fact.NEW_ROTOR}


def test_gear_housing_over_housing_and_over_a_bare_cable() -> None:
    dry = {Fact.MECHANICAL, Fact.OLD_MECHANICAL, Fact.HOUSING, Fact.SHIFT, Fact.LINE_ONLY}
    ends = {Fact.LEADING_END_BARE, Fact.SETS_LEADING_FITTING, Fact.SETS_TRAILING_FITTING, Fact.TRIMS}
    assert facts(plain("plain: gears")) == dry | ends | BY_STUD | {Fact.OLD_HOUSING}
    over = facts(plain("plain: gears, bare cable"), OVER, holds_n=0.0)
    assert over == dry | ends | {Fact.METHOD_OVER_CABLE}


def test_a_droppers_housing_is_no_gears() -> None:
    for end in ("start", "end"):
        job = plain("plain: gears")
        anchor = replace(job.frame.anchors[end], serves=AnchorServes.DROPPER)
        frame = replace(job.frame, anchors={**job.frame.anchors, end: anchor})
        dropper = replace(job, frame=frame)
        assert facts(dropper) ^ facts(job) == {Fact.SHIFT, Fact.DROPPER}


def test_a_wire_behind_a_cord_in_an_empty_frame_is_not_trimmed() -> None:
    job = plain("plain: wire, empty frame")
    assert facts(job, LEADER) == {
        Fact.ELECTRIC,
        Fact.LINE_ONLY,
        Fact.EMPTY_FRAME,
        Fact.LEADER,
        Fact.METHOD_LEADER_LINE,
        Fact.LEADING_END_BARE,
    }
    assert facts(plain("plain: wire"), LEADER) - facts(job, LEADER) == {Fact.OLD_ELECTRIC}


def test_a_bare_cable_is_no_housing() -> None:
    job = plain("plain: gears")
    found = facts(replace(job, new=replace(job.new, line=CABLE)))
    assert facts(job) ^ found == {Fact.HOUSING, Fact.SHIFT, Fact.BARE_CABLE}


def test_a_cable_brake_on_a_frame_without_a_mount_works_on_the_rim() -> None:
    job = plain("plain: cable brake to cable brake")
    assert job.new.brake is not None
    assert {Fact.BRAKE, Fact.DISC, Fact.MECHANICAL, Fact.OLD_MECHANICAL, Fact.OLD_HOUSING} <= facts(job)
    without = replace(job.frame, brakes={})
    assert has_rotor(replace(job, frame=without))  # its caliper has a mount
    rim = replace(job, frame=without, new=replace(job.new, brake=replace(job.new.brake, caliper_mount=None)))
    assert not has_rotor(rim)
    assert has_rotor(replace(rim, frame=job.frame))  # the frame has a mount at that end
    assert facts(job) - facts(rim) == {Fact.DISC}
    hose = replace(rim, new=replace(rim.new, line=HOSE))
    assert has_rotor(hose)  # a hose of which nothing is told is taken for a disc brake's


def test_the_brake_that_is_ridden_afterwards_is_the_new_one_or_the_old_one_where_it_stays() -> None:
    both = plain("plain: hose with glycol_dot4 to hose with mineral_oil")
    assert both.old is not None
    old, new = both.old.brake, both.new.brake
    assert worked_brake(both) is new
    stays = replace(both, new=replace(both.new, brake=None))
    assert worked_brake(stays) is old
    assert worked_brake(replace(stays, old=None)) is None
    assert worked_brake(replace(both, old=None)) is new
    assert is_brake_job(stays)
    assert not is_brake_job(plain("plain: gears"))
    assert is_brake_job(plain("plain: cable brake to cable brake"))


def test_a_kept_old_brake_and_a_way_that_is_left_are_told() -> None:
    job = plain(SAME)
    assert facts(replace(job, keeps_old_brake=True)) - facts(job) == {Fact.KEEPS_OLD_BRAKE}
    assert Fact.KEEPS_OLD_BRAKE not in facts(replace(job, keeps_old_brake=True, old=None))
    assert facts(job, leaves_old_way=True) - facts(job) == {Fact.LEAVES_OLD_WAY}
    assert facts(job, adapter=ADAPTER) - facts(job) == {Fact.NEEDS_ADAPTER}
    assert facts(job, bitten_mm=0.1) - facts(job) == {Fact.BITES}
    assert facts(job, undoes_leading=True) - facts(job) == {Fact.FITTED_LEADING}


def test_what_lies_beside_and_what_is_round_the_line_are_told() -> None:
    job = plain(SAME)
    beside = StayingLine(line=make_line(id="gear"), through=("in-0",))
    assert facts(replace(job, staying=(beside,))) - facts(job) == {Fact.HAS_STAYING_LINES}
    foam = replace(job, new=replace(job.new, line=replace(job.new.line, foam_diameter_mm=9.0)))
    assert facts(foam) - facts(job) == {Fact.HAS_FOAM}


FEATURES = {
    FrameFeature.CARBON: {Fact.CARBON},
    FrameFeature.STEEL: {Fact.STEEL},
    FrameFeature.SUSPENSION: {Fact.SUSPENSION},
    FrameFeature.EBIKE: {Fact.EBIKE},
    FrameFeature.MOTOR_IN_WAY: {Fact.EBIKE, Fact.MOTOR_IN_WAY},
}


@pytest.mark.parametrize("feature", FEATURES)
def test_what_the_hands_must_know_of_a_frame(feature: FrameFeature) -> None:
    job = plain(SAME)
    told = replace(job, frame=replace(job.frame, features=frozenset({feature})))
    assert facts(told) - facts(job) == FEATURES[feature]
    outside = facts(told, LaidOutside(), route=()) - facts(job, LaidOutside(), route=())
    assert outside == FEATURES[feature] - {Fact.MOTOR_IN_WAY}  # outside no motor is in the way


def test_a_frame_whose_rear_moves_is_sprung() -> None:
    job = plain(SAME)
    rear = SinglePivot(pivot_mm=(0.0, 50.0), swing_deg=15.0, moves=("out-0",))
    assert facts(replace(job, frame=replace(job.frame, rear=rear))) - facts(job) == {Fact.SUSPENSION}


PLACES = {
    PortPlace.HEADSET: Fact.HEADSET_ROUTE,
    PortPlace.BAR: Fact.BAR_ROUTE,
    PortPlace.FORK_LEG: Fact.FORK_LEG,
    PortPlace.BOTTOM_BRACKET: Fact.BB_PASS,
}


@pytest.mark.parametrize("place", PLACES)
def test_the_part_that_must_come_off_counts_where_the_way_goes_there(place: PortPlace) -> None:
    job = plain(SAME)
    ports = {**job.frame.ports, "out-0": replace(job.frame.ports["out-0"], lies_at=place)}
    told = replace(job, frame=replace(job.frame, ports=ports))
    assert facts(told) - facts(job) == {PLACES[place]}
    assert facts(told, route=("in-0",)) == facts(job)


@pytest.mark.parametrize(
    ("splits", "expected"),
    [
        ((None, None), set()),
        ((True, None), {Fact.INSERTS_OUT, Fact.INSERTS_SPLIT}),
        ((True, True), {Fact.INSERTS_OUT, Fact.INSERTS_SPLIT}),
        ((True, False), {Fact.INSERTS_OUT}),
        ((False, False), {Fact.INSERTS_OUT}),
    ],
)
def test_inserts_that_come_out_are_split_where_all_are_known_to_be(
    splits: tuple[bool | None, bool | None], expected: set[Fact]
) -> None:
    job = plain(SAME)
    inserts = [
        None
        if is_split is None
        else Insert(opening=RoundOpening(diameter_mm=5.5, tolerance_mm=0.1), is_removable=True, is_split=is_split)
        for is_split in splits
    ]
    ports = {
        key: replace(port, insert=insert) for (key, port), insert in zip(job.frame.ports.items(), inserts, strict=True)
    }
    assert facts(replace(job, frame=replace(job.frame, ports=ports))) - facts(job) == expected


@pytest.mark.parametrize(
    ("method", "holds_n", "expected"),
    [
        (STUD, 0.0, {*BY_STUD, Fact.HOLDS_NOTHING}),
        (STUD, None, BY_STUD),
        (make_sleeve(), 8.0, {Fact.JOINED, Fact.METHOD_SLEEVE_TUBE}),
        (make_spoke(), 0.0, {Fact.JOINED, Fact.METHOD_SPOKE_LINK, Fact.HOLDS_NOTHING}),
        (OVER, 0.0, {Fact.METHOD_OVER_CABLE}),  # nothing is joined, and nothing can part
        (LINER, 5.0, {Fact.METHOD_LINER_TUBE}),
        (LaidOutside(), 0.0, {Fact.METHOD_LAID_OUTSIDE}),
        (LEADER, 40.0, {Fact.LEADER, Fact.METHOD_LEADER_LINE}),
    ],
    ids=lambda value: getattr(value, "kind", None),
)
def test_what_is_joined_and_what_holds_nothing(method: Method, holds_n: float | None, expected: set[Fact]) -> None:
    of_joint = {fact for fact in Fact if fact.startswith("method:")} | {Fact.JOINED, Fact.LEADER, Fact.HOLDS_NOTHING}
    assert facts(plain(SAME), method, holds_n=holds_n) & of_joint == expected


@pytest.mark.parametrize("advice", [None, *PullWord])
def test_what_the_hands_may_do_is_told_by_one_word(advice: PullWord | None) -> None:
    told = {fact for fact in facts(plain(SAME), advice=advice) if fact.startswith("advice:")}
    assert told == (set() if advice is None else {Fact(f"advice:{advice}")})


@pytest.mark.parametrize("feed_from", JobEnd)
def test_ends_are_told_as_the_line_is_fed(feed_from: JobEnd) -> None:
    of_ends = {Fact.LEADING_END_BARE, Fact.SETS_LEADING_FITTING, Fact.SETS_TRAILING_FITTING, Fact.TRIMS}
    job = plain(SAME)
    leading, trailing = ("to_end", "from_end") if feed_from is JobEnd.FROM else ("from_end", "to_end")
    on, beside, bare = LineEnd(fitting=NUT, is_fitted=True), LineEnd(fitting=NUT), LineEnd()

    def told(first: LineEnd, last: LineEnd) -> set[Fact]:
        new = replace(job.new, **{leading: first, trailing: last})  # type: ignore[arg-type]
        return facts(replace(job, new=new), feed_from=feed_from) & of_ends

    assert told(on, on) == set()
    assert told(on, beside) == {Fact.SETS_TRAILING_FITTING, Fact.TRIMS}
    assert told(beside, on) == {Fact.LEADING_END_BARE, Fact.SETS_LEADING_FITTING, Fact.TRIMS}
    assert told(bare, on) == {Fact.LEADING_END_BARE, Fact.TRIMS}


def test_a_line_that_only_goes_out_tells_of_what_was_there() -> None:
    def going_out(job: Job) -> set[Fact]:
        assert job.old is not None
        old = replace(job, new=replace(job.new, line=job.old.line, brake=None))
        joint = Joint(thing=THING, holds_n=None)
        way = JobWay(job=old, method=LaidOutside(), feed_from=JobEnd.FROM, joint=joint, route=PORTS)
        return set(find_facts_of_going_out(way))

    wet = plain("plain: hose with glycol_dot4 to hose with mineral_oil")
    assert going_out(wet) == {Fact.OLD_HYDRAULIC, Fact.OLD_FLUID_GLYCOL, Fact.DISC, Fact.LEAVES_OLD_WAY}
    gears = {Fact.OLD_MECHANICAL, Fact.OLD_HOUSING, Fact.LINE_ONLY, Fact.LEAVES_OLD_WAY}
    assert going_out(plain("plain: gears")) == gears
    assert going_out(plain("dropper")) == gears | {Fact.DROPPER}
    assert going_out(plain("plain: wire")) == {Fact.OLD_ELECTRIC, Fact.LINE_ONLY, Fact.LEAVES_OLD_WAY}
