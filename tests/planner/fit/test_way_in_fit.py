"""Leaders, liners and cables left in the frame: at, below and above what each needs."""

from dataclasses import replace

import pytest

from catalog import STARTER_FOLDER, read_catalog
from planner import draw_route, plan_job
from planner.fit.joint_size import check_method_suits_lines, find_joint_size
from planner.fit.way_in_fit import check_cable_can_stay, check_magnet
from planner.parts import (
    AnchorServes,
    Fitting,
    FittingStyle,
    FrameFeature,
    Job,
    JobEnd,
    Line,
    LineEnd,
    LineKind,
    LinerTube,
    MethodKind,
    MovesWith,
    OldLine,
    OverCable,
    SetBy,
)
from planner.rules import JointRule
from planner.verdicts import Outcome, worst_of
from tests.builders import (
    make_coupler,
    make_frame,
    make_job,
    make_lane_frame,
    make_limits,
    make_line,
    make_run,
    make_workshop,
)
from tests.work_orders.job_kinds import CABLE, GEAR_HOUSING, HOSE, KINDS, LEADER, LINER, MAGNET, OVER, SUCTION, WIRE
from ui.shared.plan_in_short import plan_in_short

FERRULE = Fitting(
    id="ferrule",
    name="Ferrule",
    style=FittingStyle.PLUG,
    set_by=SetBy.WORKSHOP,
    outer_diameter_mm=5.0,
    length_mm=12.0,
)


def suits(method: object, old: object, new: object) -> Outcome:
    checks = check_method_suits_lines(method=method, old=old, new=new, limits=make_limits())  # type: ignore[arg-type]
    return worst_of(checks, of_nothing=Outcome.FITS)


@pytest.mark.parametrize(
    ("bore_mm", "outcome"),
    [  # cable 1.6 +- 0.05, wanted 0.2: 1.85 slides, what it only fills does not
        (1.6, Outcome.NO_FIT),
        (1.61, Outcome.TIGHT),
        (1.84, Outcome.TIGHT),
        (1.85, Outcome.FITS),
        (None, Outcome.UNKNOWN),
    ],
)
def test_housing_slides_over_a_cable_with_the_clearance_of_what_slides(bore_mm: float | None, outcome: Outcome) -> None:
    assert suits(OVER, CABLE, replace(GEAR_HOUSING, bore_diameter_mm=bore_mm)) is outcome


def test_only_housing_goes_over_a_cable_and_only_where_one_lies() -> None:
    assert suits(OVER, CABLE, HOSE) is Outcome.NO_FIT
    assert suits(OVER, None, GEAR_HOUSING) is Outcome.NO_FIT
    assert suits(OVER, HOSE, GEAR_HOUSING) is Outcome.NO_FIT
    assert suits(OVER, GEAR_HOUSING, GEAR_HOUSING) is Outcome.FITS  # its cable is told
    assert suits(OVER, replace(GEAR_HOUSING, cable_diameter_mm=None), GEAR_HOUSING) is Outcome.UNKNOWN


def gears_with(old_line: Line, *, fitting: Fitting | None = None) -> Job:
    """Fresh gear housing; the old line has such an end at the shifter."""
    end = LineEnd(fitting=fitting)
    job = KINDS["plain: gears"]
    return replace(job, old=OldLine(line=old_line, from_end=end, to_end=LineEnd()))


def test_the_old_housing_is_drawn_off_its_cable_and_the_new_one_goes_on_at_the_free_end() -> None:
    plan = plan_job(job=gears_with(GEAR_HOUSING, fitting=FERRULE), workshop=make_workshop(OVER))
    assert (plan.outcome, plan.feed_from, plan.cut_old_at) == (Outcome.FITS, JobEnd.TO, None)
    assert {check.rule for check in plan.checks} >= {JointRule.HOUSING_OFF, JointRule.CABLE_HEAD}
    assert {r.check.rule for r in plan.rejected} == {JointRule.CABLE_HEAD}  # at the shifter sits the head
    assert plan.joint is not None
    assert plan.joint.thing.diameter_mm == GEAR_HOUSING.outer_diameter_mm


def test_a_housing_with_a_factory_end_is_not_drawn_off_but_a_bare_cable_needs_none() -> None:
    moulded = replace(FERRULE, set_by=SetBy.FACTORY)
    refused = plan_job(job=gears_with(GEAR_HOUSING, fitting=moulded), workshop=make_workshop(OVER))
    assert refused.outcome is Outcome.NO_FIT
    assert JointRule.HOUSING_OFF in {r.check.rule for r in refused.rejected}
    bare = plan_job(job=gears_with(CABLE, fitting=moulded), workshop=make_workshop(OVER))
    assert JointRule.HOUSING_OFF not in {r.check.rule for r in bare.rejected} | {c.rule for c in bare.checks}


def test_a_droppers_cable_has_its_head_at_either_end() -> None:
    plan = plan_job(job=KINDS["dropper"], workshop=read_catalog([STARTER_FOLDER]).workshop)
    assert plan.method_id == "over-old-cable"
    assert "slide-over-dropper" in [step.id for step in plan.steps]
    assert "slide-over" not in [step.id for step in plan.steps]


@pytest.mark.parametrize("kind", ["plain: gears", "plain: gears, bare cable"])
def test_where_nothing_is_joined_nobody_is_told_how_to_pull_a_joint(kind: str) -> None:
    plan = plan_job(job=KINDS[kind], workshop=read_catalog([STARTER_FOLDER]).workshop)
    assert plan.method_id == "over-old-cable"
    told = " ".join([*(words for _, words in plan_in_short(plan)), *plan.cautions, *(s.text for s in plan.steps)])
    assert "this joint" not in told.lower()
    assert "Joint" not in dict(plan_in_short(plan))


def test_the_starter_tells_the_inner_cable_of_its_housings_and_it_slides_in_each() -> None:
    lines = read_catalog([STARTER_FOLDER]).lines.values()
    housings = [line for line in lines if line.kind in (LineKind.BRAKE_HOUSING, LineKind.SHIFT_HOUSING)]
    assert len(housings) >= 3
    for old in housings:
        assert suits(OVER, old, old) is Outcome.FITS, old.id


def test_over_the_cable_nothing_is_thicker_than_the_housing_and_nothing_can_part() -> None:
    joint = find_joint_size(method=OVER, old=None, new=GEAR_HOUSING)
    assert (joint.diameter_mm, joint.rigid_length_mm) == (GEAR_HOUSING.outer_diameter_mm, 0.0)
    assert not MethodKind.OVER_CABLE.can_part_inside


def test_a_cable_in_the_frame_is_the_leader_of_a_new_housing() -> None:
    plan = plan_job(job=KINDS["plain: gears, bare cable"], workshop=make_workshop(LEADER, LINER, OVER))
    assert (plan.outcome, plan.method_id, plan.cut_old_at) == (Outcome.FITS, OVER.id, None)


@pytest.mark.parametrize(
    ("bore_mm", "new", "outcome"),
    [
        (1.6, WIRE, Outcome.NO_FIT),  # the cable of 1.6 fills the liner
        (1.85, replace(HOSE, bore_diameter_mm=2.25), Outcome.FITS),  # the hose's bore goes over the liner of 2.05
        (1.85, replace(HOSE, bore_diameter_mm=2.24), Outcome.TIGHT),
        (1.85, replace(WIRE, outer_diameter_mm=1.6), Outcome.FITS),  # through it, wire 1.6 +- 0.05
        (1.85, replace(WIRE, outer_diameter_mm=1.61), Outcome.TIGHT),
        (1.85, replace(WIRE, outer_diameter_mm=1.85), Outcome.NO_FIT),
    ],
)
def test_a_liner_goes_over_the_cable_and_the_line_through_or_over_it(
    bore_mm: float, new: object, outcome: Outcome
) -> None:
    assert suits(replace(LINER, bore_diameter_mm=bore_mm), CABLE, new) is outcome


def test_a_liner_passes_with_its_own_outside_where_the_line_goes_through_it() -> None:
    liner = LinerTube(id="l", name="L", bore_diameter_mm=3.0, outer_diameter_mm=3.6, holds_n=5, setup_min=6)
    wire = make_line(kind=LineKind.ELECTRIC_WIRE, outer_diameter_mm=2.5, bore_diameter_mm=None)
    assert find_joint_size(method=liner, old=None, new=wire).diameter_mm == 3.6
    assert find_joint_size(method=LINER, old=None, new=HOSE).diameter_mm == HOSE.outer_diameter_mm


@pytest.mark.parametrize("method", [SUCTION, MAGNET], ids=lambda method: method.kind)
def test_what_fishes_an_empty_tube_wants_it_empty(method: object) -> None:
    assert suits(method, None, HOSE) is Outcome.FITS
    assert suits(method, CABLE, HOSE) is Outcome.NO_FIT


@pytest.mark.parametrize(
    ("bore_mm", "outcome"),
    [(2.5, Outcome.NO_FIT), (2.4, Outcome.FITS), (1.8, Outcome.FITS), (1.7, Outcome.NO_FIT), (None, Outcome.UNKNOWN)],
)
def test_a_leaders_thread_bites_as_a_coupler_does(bore_mm: float | None, outcome: Outcome) -> None:
    leader = replace(LEADER, stud_diameter_mm=2.6, joint_length_mm=12.0)
    assert suits(leader, None, replace(HOSE, bore_diameter_mm=bore_mm)) is outcome
    assert leader.covers_mm == 6.0


@pytest.mark.parametrize(
    ("wall_max_mm", "outcome"), [(0.9, Outcome.NO_FIT), (1.0, Outcome.FITS), (None, Outcome.UNKNOWN)]
)
def test_a_magnet_works_through_thin_walls_only(wall_max_mm: float | None, outcome: Outcome) -> None:
    (check,) = check_magnet(leader=replace(MAGNET, wall_max_mm=wall_max_mm), frame=make_lane_frame((8.0, 8.0)))
    assert check.outcome is outcome


def test_a_magnet_leads_nothing_through_steel() -> None:
    frame = replace(make_lane_frame((8.0, 8.0)), features=frozenset({FrameFeature.STEEL}))
    (check,) = check_magnet(leader=MAGNET, frame=frame)
    assert check.outcome is Outcome.NO_FIT


def test_a_way_through_no_hole_is_laid_and_nothing_is_joined_or_cut() -> None:
    frame = make_frame(runs=(make_run("along", "start", "end", zone_id="outside"),))
    plan = plan_job(job=make_job(frame), workshop=make_workshop())
    assert (plan.outcome, plan.method_id, plan.route) == (Outcome.FITS, "laid_outside", ())
    assert (plan.cut_old_at, plan.parts) == (None, ())
    assert plan.lengths is not None
    assert plan.lengths.bitten_mm == 0.0


def outside_or_inside(bore_mm: float, *through: str) -> Job:
    """A hose for another fluid, beside a tube with two such holes; the old hose may be known to run through them."""
    wet = KINDS["plain: hose with glycol_dot4 to hose with mineral_oil"]
    lane = make_lane_frame((bore_mm, bore_mm))
    runs = {**lane.runs, "along": make_run("along", "start", "end", zone_id="outside")}
    assert wet.old is not None
    return make_job(replace(lane, runs=runs), old=replace(wet.old, through=through), new=wet.new)


def test_the_old_lines_way_goes_before_a_way_outside() -> None:
    workshop = make_workshop(make_coupler())
    assert plan_job(job=outside_or_inside(9.0), workshop=workshop).route == ()
    followed = plan_job(job=outside_or_inside(9.0, "in-0", "out-0"), workshop=workshop)
    assert (followed.outcome, followed.route) == (Outcome.FITS, ("in-0", "out-0"))


def test_where_the_new_line_goes_outside_the_old_one_is_drawn_out() -> None:
    workshop = read_catalog([STARTER_FOLDER]).workshop
    for through, is_told in (((), False), (("in-0", "out-0"), True)):
        plan = plan_job(job=outside_or_inside(4.0, *through), workshop=workshop)
        assert plan.method_id == "laid_outside"
        assert ("old-out" in [step.id for step in plan.steps]) is is_told


def test_a_line_laid_outside_meets_no_joint_no_other_fluid_and_no_hole() -> None:
    job = outside_or_inside(4.0)
    workshop = read_catalog([STARTER_FOLDER]).workshop
    plan = plan_job(job=job, workshop=workshop)
    assert plan.lengths is not None
    assert plan.lengths.final_mm == plan.lengths.cut_mm
    assert "the planned way: outside, through no hole." in " ".join(step.why for step in plan.steps)
    assert not {"Joint size", "Pulling"} & {name for name, _ in plan_in_short(plan)}
    assert "no way through" not in draw_route(plan, job.frame).svg


def test_foam_over_a_line_counts_with_its_squeezed_size() -> None:
    thin = make_job(make_lane_frame((8.0, 8.0)))
    foam = replace(thin, new=replace(thin.new, line=replace(thin.new.line, foam_diameter_mm=7.95)))
    workshop = make_workshop()
    assert plan_job(job=thin, workshop=workshop).outcome is Outcome.FITS
    wrapped = plan_job(job=foam, workshop=workshop)
    assert wrapped.outcome is Outcome.TIGHT
    assert min(c.clearance_mm for c in wrapped.checks if c.port_id and c.clearance_mm is not None) == pytest.approx(
        0.05
    )


def test_kinds_say_of_themselves_what_they_are() -> None:
    assert {kind for kind in MethodKind if kind.is_leader} == {LEADER.kind, SUCTION.kind, MAGNET.kind}
    assert OverCable(id="o", name="O", setup_min=1).holds_n == 0


@pytest.mark.parametrize("feed_from", list(JobEnd))
@pytest.mark.parametrize("lever_at", list(JobEnd))
def test_a_new_housing_goes_on_where_the_cables_head_is_not(feed_from: JobEnd, lever_at: JobEnd) -> None:
    job = gears_with(CABLE)
    rides = {job.from_anchor_id: lever_at is JobEnd.FROM, job.to_anchor_id: lever_at is JobEnd.TO}
    ends = {key: replace(job.frame.anchors[key], moves_with=MovesWith.BAR if at else None) for key, at in rides.items()}
    job = replace(job, frame=replace(job.frame, anchors={**job.frame.anchors, **ends}))
    assert job.old is not None
    (head,) = check_cable_can_stay(job=job, old=job.old, feed_from=feed_from)
    assert head.rule is JointRule.CABLE_HEAD
    assert (head.outcome is Outcome.NO_FIT) is (feed_from is lever_at)
    for key in rides:  # the head of a dropper's cable is at either end, whichever of the two is the post
        dropper = replace(ends[key], serves=AnchorServes.DROPPER)
        frame = replace(job.frame, anchors={**job.frame.anchors, key: dropper})
        (head,) = check_cable_can_stay(job=replace(job, frame=frame), old=job.old, feed_from=feed_from)
        assert (head.outcome, head.note) == (Outcome.FITS, "either_end")


@pytest.mark.parametrize("at", ["from_end", "to_end"])
def test_an_old_housing_comes_off_unless_either_end_was_moulded_on(at: str) -> None:
    def off(fitting: Fitting, line: Line = GEAR_HOUSING) -> list[tuple[Outcome, tuple[str, ...]]]:
        job = gears_with(line)
        assert job.old is not None
        old = replace(job.old, **{"from_end": LineEnd(), "to_end": LineEnd(), at: LineEnd(fitting=fitting)})
        checks = check_cable_can_stay(job=job, old=old, feed_from=JobEnd.TO)
        return [(check.outcome, check.with_ids) for check in checks if check.rule is JointRule.HOUSING_OFF]

    assert off(FERRULE) == [(Outcome.FITS, ())]
    assert off(replace(FERRULE, set_by=SetBy.FACTORY)) == [(Outcome.NO_FIT, ("ferrule",))]
    assert off(replace(FERRULE, set_by=SetBy.FACTORY), CABLE) == []


@pytest.mark.parametrize(
    ("bore_mm", "outcome"),
    [(1.6, Outcome.NO_FIT), (1.61, Outcome.TIGHT), (1.79, Outcome.TIGHT), (1.8, Outcome.FITS)],
)
def test_of_a_cable_in_its_housing_only_the_size_is_told(bore_mm: float, outcome: Outcome) -> None:
    """1.6 with 0.2 about it; the housing's own tolerance is none of its cable's."""
    old = replace(GEAR_HOUSING, cable_diameter_mm=1.6, outer_tolerance_mm=0.3)
    assert suits(OVER, old, replace(GEAR_HOUSING, bore_diameter_mm=bore_mm)) is outcome


def test_a_liner_wants_a_bare_cable_and_a_bore_that_somebody_measured() -> None:
    unmeasured = replace(HOSE, bore_diameter_mm=None)
    assert suits(LINER, None, HOSE) is Outcome.NO_FIT
    assert suits(LINER, GEAR_HOUSING, HOSE) is Outcome.NO_FIT
    wide = replace(LINER, bore_diameter_mm=1.9)
    assert suits(wide, CABLE, unmeasured) is Outcome.UNKNOWN  # it may go over the liner: through it, it does not
    assert suits(wide, CABLE, replace(unmeasured, outer_diameter_mm=1.9)) is Outcome.UNKNOWN
    assert suits(wide, CABLE, replace(unmeasured, outer_diameter_mm=1.6)) is Outcome.FITS  # through it, it does
    for kind in (LineKind.INNER_CABLE, LineKind.ELECTRIC_WIRE):
        assert suits(wide, CABLE, replace(unmeasured, kind=kind)) is Outcome.NO_FIT


def test_a_leader_does_not_take_the_place_of_a_housing_and_says_why_where_it_wants_an_empty_frame() -> None:
    for method, old, note in ((SUCTION, CABLE, "empty_only"), (MAGNET, CABLE, "empty_only"), (LEADER, HOSE, "")):
        (use,) = check_method_suits_lines(method=method, old=old, new=HOSE, limits=make_limits())
        assert (use.outcome, use.note, use.with_ids) == (Outcome.NO_FIT, note, (method.id, old.id))
    (use,) = check_method_suits_lines(method=SUCTION, old=None, new=HOSE, limits=make_limits())
    assert (use.outcome, use.note, use.with_ids) == (Outcome.FITS, "", (SUCTION.id,))
    (use,) = check_method_suits_lines(method=OVER, old=CABLE, new=HOSE, limits=make_limits())
    assert (use.outcome, use.note) == (Outcome.NO_FIT, "no_housing")
