"""Every fact that files may name is set by some job: a demo job, or one built here where the demo has none."""

from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from catalog import STARTER_FOLDER, Catalog, check_files, read_catalog, read_job
from planner import plan_job
from planner.fit.things import thing_of_line
from planner.parts import (
    OUTSIDE,
    Brake,
    Fact,
    Fitting,
    FittingStyle,
    Fluid,
    Job,
    JobEnd,
    LaidOutside,
    LeaderLine,
    LineEnd,
    LineFamily,
    LineKind,
    LineTie,
    Method,
    Minutes,
    NewLine,
    OldLine,
    SetBy,
    Workshop,
    WorkStep,
)
from planner.plan.job_facts import JobWay, find_facts_of_going_out
from planner.plan.routing_plan import Joint
from planner.whole_bike.drawn_together import tied_on
from tests.builders import (
    make_coupler,
    make_frame,
    make_job,
    make_lane_frame,
    make_line,
    make_run,
    make_sleeve,
    make_workshop,
)
from tests.work_orders.job_kinds import KINDS, LINER, MAGNET, OVER, SUCTION

DEMO = Path(__file__).parents[3] / "demo_frames"
TYING = make_coupler(tie=LineTie(most_n=1, adds_mm=1.0, holds_n=15.0, setup_min=3.0))
LEADER = LeaderLine(
    id="cord",
    name="Cord",
    outer_diameter_mm=1.5,
    joint_diameter_mm=2.5,
    joint_length_mm=0.0,
    holds_n=40.0,
    setup_min=5.0,
)

SHOWN_BY = {
    Fact.HYDRAULIC: "trail-rear-brake",
    Fact.MECHANICAL: "hardtail-gear-housing",
    Fact.ELECTRIC: "built: wire behind a leader",
    Fact.SHIFT: "hardtail-gear-housing",
    Fact.DROPPER: "kind: dropper",
    Fact.HOUSING: "hardtail-gear-housing",
    Fact.BARE_CABLE: "built: cable behind a leader",
    Fact.LINE_ONLY: "dropbar-headset",
    Fact.BRAKE: "trail-rear-brake",
    Fact.DISC: "trail-rear-brake",
    Fact.FRONT: "kind: front cockpit: cable brake to cable brake",
    Fact.NEW_LEVER: "trail-rear-brake",
    Fact.NEW_CALIPER: "trail-rear-brake",
    Fact.NEW_PADS: "trail-rear-brake",
    Fact.NEW_ROTOR: "trail-rear-brake",
    Fact.NEEDS_ADAPTER: "trail-rear-brake",
    Fact.FLUID_GLYCOL: "trail-rear-brake",
    Fact.FLUID_SILICONE: "built: silicone brake",
    Fact.FLUID_MINERAL: "spoke-only",
    Fact.OLD_HYDRAULIC: "trail-rear-brake",
    Fact.OLD_MECHANICAL: "hardtail-gear-housing",
    Fact.OLD_ELECTRIC: "kind: plain: wire",
    Fact.OLD_HOUSING: "hardtail-gear-housing",
    Fact.OLD_FLUID_GLYCOL: "trail-rear-brake",
    Fact.OLD_FLUID_SILICONE: "built: silicone brake",
    Fact.OLD_FLUID_MINERAL: "hardtail-shared-port",
    Fact.FLUID_DIFFERS: "kind: plain: hose with glycol_dot4 to hose with mineral_oil",
    Fact.EMPTY_FRAME: "empty-frame-leader",
    Fact.LEAVES_OLD_WAY: "built: old line inside, new one outside",
    Fact.KEEPS_OLD_BRAKE: "trail-rear-brake",
    Fact.HAS_STAYING_LINES: "trail-rear-brake",
    Fact.INSERTS_OUT: "trail-rear-brake",
    Fact.INSERTS_SPLIT: "kind: split inserts: gears",
    Fact.CARBON: "kind: carbon: gears",
    Fact.EBIKE: "kind: e-bike: gears",
    Fact.MOTOR_IN_WAY: "kind: e-bike: gears",
    Fact.SUSPENSION: "trail-rear-brake",
    Fact.STEEL: "kind: carbon: gears",
    Fact.HAS_FOAM: "built: foam",
    Fact.HEADSET_ROUTE: "dropbar-headset",
    Fact.BAR_ROUTE: "kind: bar: gears",
    Fact.FORK_LEG: "kind: fork leg: gears",
    Fact.BB_PASS: "dropbar-headset",
    Fact.OUTSIDE_ONLY: "built: nothing inside the frame",
    Fact.JOINED: "trail-rear-brake",
    Fact.LEADER: "empty-frame-leader",
    Fact.METHOD_THREADED_COUPLER: "trail-rear-brake",
    Fact.METHOD_SLEEVE_TUBE: "built: sleeve",
    Fact.METHOD_SPOKE_LINK: "spoke-only",
    Fact.METHOD_LEADER_LINE: "empty-frame-leader",
    Fact.METHOD_SUCTION_CORD: "built: suction",
    Fact.METHOD_MAGNET_TIP: "built: magnet",
    Fact.METHOD_OVER_CABLE: "built: over the cable",
    Fact.METHOD_LINER_TUBE: "built: liner",
    Fact.METHOD_LAID_OUTSIDE: "built: nothing inside the frame",
    Fact.METHOD_TIED_ON: "built: tied on behind another line",
    Fact.BITES: "trail-rear-brake",
    Fact.HOLDS_NOTHING: "spoke-only",
    Fact.ADVICE_PUSH_ONLY: "spoke-only",
    Fact.ADVICE_EASE_GENTLY: "built: stud that holds a little more than the drag",
    Fact.ADVICE_MAY_PULL: "trail-rear-brake",
    Fact.FITTED_LEADING: "built: a fitting too thick for the way",
    Fact.LEADING_END_BARE: "trail-rear-brake",
    Fact.SETS_LEADING_FITTING: "trail-rear-brake",
    Fact.SETS_TRAILING_FITTING: "dropbar-headset",
    Fact.TRIMS: "trail-rear-brake",
}


def built_jobs() -> dict[str, tuple[Job, Method]]:
    """Jobs through two wide holes, with the one method that draws the line."""
    plain = make_job(make_lane_frame((9.0, 9.0)))
    wire = make_line(id="wire", kind=LineKind.ELECTRIC_WIRE, outer_diameter_mm=2.5, bore_diameter_mm=None)
    cable = make_line(id="cable", kind=LineKind.INNER_CABLE, outer_diameter_mm=1.6, bore_diameter_mm=None)
    open_run = make_run("along", "start", "end", zone_id=OUTSIDE)
    inside_or_outside = replace(
        plain, frame=replace(plain.frame, runs={**plain.frame.runs, "along": open_run}), new=plain.new
    )
    hose = make_line(id="new")
    ends = {"from_end": LineEnd(), "to_end": LineEnd()}
    barb = Fitting(
        id="barb",
        name="Barb",
        style=FittingStyle.BARBED,
        set_by=SetBy.FACTORY,
        outer_diameter_mm=6.0,
        length_mm=12.0,
        joint_diameter_mm=7.5,
        joint_holds_n=30.0,
    )
    fitted = LineEnd(fitting=barb, is_fitted=True)
    thick = LineEnd(fitting=replace(barb, set_by=SetBy.WORKSHOP, outer_diameter_mm=12.0), is_fitted=True)
    brake = Brake(
        id="brake",
        name="Brake",
        fluid=Fluid.SILICONE_DOT5,
        line=hose,
        supplied_length_mm=None,
        lever_end=LineEnd(),
        caliper_end=LineEnd(),
    )
    return {
        "wire behind a leader": (
            replace(plain, old=None, new=NewLine(line=wire, from_end=LineEnd(), to_end=LineEnd())),
            LEADER,
        ),
        "cable behind a leader": (
            replace(plain, old=None, new=NewLine(line=cable, from_end=LineEnd(), to_end=LineEnd())),
            LEADER,
        ),
        "tied on behind another line": (replace(plain, old=None), tied_on(method=TYING, first=hose, line=hose)),
        "suction": (replace(plain, old=None), SUCTION),
        "magnet": (replace(plain, old=None), MAGNET),
        "over the cable": (KINDS["plain: gears, bare cable"], OVER),
        "liner": (KINDS["plain: gears, bare cable"], LINER),
        "foam": (replace(plain, new=NewLine(line=replace(hose, foam_diameter_mm=7.0), **ends)), make_coupler()),
        "nothing inside the frame": (make_job(make_frame(runs=(open_run,))), make_coupler()),
        "old line inside, new one outside": (
            replace(inside_or_outside, old=replace(plain.old, through=("in-0", "out-0"))),
            make_coupler(stud_diameter_mm=9.0),
        ),
        "silicone brake": (
            replace(
                plain,
                old=OldLine(line=hose, from_end=LineEnd(), to_end=LineEnd(), brake=brake),
                new=NewLine(line=hose, from_end=LineEnd(), to_end=LineEnd(), brake=brake),
            ),
            make_coupler(),
        ),
        "both ends fitted": (
            replace(plain, new=NewLine(line=hose, from_end=fitted, to_end=fitted)),
            make_sleeve(),
        ),
        "a fitting too thick for the way": (
            replace(plain, new=NewLine(line=hose, from_end=thick, to_end=thick)),
            make_coupler(),
        ),
        "sleeve": (plain, make_sleeve()),
        "stud that holds a little more than the drag": (plain, make_coupler(holds_n=5.0)),
    }


def one_step_for_each_fact() -> tuple[WorkStep, ...]:
    minutes = Minutes(least=1, likely=1, most=1)
    return tuple(WorkStep(id=fact, text="Do it.", why="It holds.", when=(fact,), minutes=minutes) for fact in Fact)


@cache
def demo_catalog() -> Catalog:
    return read_catalog([STARTER_FOLDER, *sorted(DEMO.glob("*.frame.yaml"))])


def job_and_workshop(name: str) -> tuple[Job, Workshop]:
    if name.startswith("kind: "):
        return KINDS[name.removeprefix("kind: ")], make_workshop(make_sleeve())
    if name.startswith("built: "):
        job, method = built_jobs()[name.removeprefix("built: ")]
        return job, make_workshop(method)
    return read_job(DEMO / f"{name}.job.yaml", demo_catalog()), demo_catalog().workshop


@cache
def facts_of(name: str) -> frozenset[str]:
    """The facts of a job's best way: the steps that are told when there is one for each fact."""
    job, workshop = job_and_workshop(name)
    plan = plan_job(job=job, workshop=replace(workshop, steps=one_step_for_each_fact()))
    assert plan.runs, f"{name} has no way"
    return frozenset(step.id for step in plan.steps)


@pytest.mark.parametrize("fact", Fact)
def test_some_job_sets_every_fact_that_files_may_name(fact: Fact) -> None:
    assert fact in facts_of(SHOWN_BY[fact])


@pytest.mark.parametrize("fact", Fact)
def test_no_fact_holds_for_every_job(fact: Fact) -> None:
    names = {*SHOWN_BY.values(), "built: both ends fitted"}
    assert any(fact not in facts_of(name) for name in names)


def test_every_kind_of_line_has_its_family() -> None:
    assert {kind: kind.family for kind in LineKind} == {
        LineKind.HYDRAULIC_HOSE: LineFamily.HYDRAULIC,
        LineKind.BRAKE_HOUSING: LineFamily.MECHANICAL,
        LineKind.SHIFT_HOUSING: LineFamily.MECHANICAL,
        LineKind.INNER_CABLE: LineFamily.MECHANICAL,
        LineKind.ELECTRIC_WIRE: LineFamily.ELECTRIC,
    }


def caution_problems(folder: Path, when: str) -> Iterator[tuple[str, str, str]]:
    own = folder / "own.yaml"
    own.write_text(f"format: 1\ncautions:\n  - {{id: dust, text: Dust harms., when: [{when}]}}\n", encoding="utf-8")
    return ((problem.field, problem.given, problem.allowed) for problem in check_files([own]))


def test_a_fact_that_no_plan_sets_is_refused_in_files(tmp_path: Path) -> None:
    ((field, given, allowed),) = caution_problems(tmp_path, "glows_in_the_dark")
    assert (field, given) == ("when no. 1", "'glows_in_the_dark' was given")
    assert allowed.startswith("known here: ")


def test_a_misspelt_fact_is_told_with_the_nearest_ones(tmp_path: Path) -> None:
    ((_, _, allowed),) = caution_problems(tmp_path, "hydralic")
    assert allowed.startswith("did you mean hydraulic")


@pytest.mark.parametrize("field", ["when", "when_any", "unless"])
def test_a_misspelt_fact_is_told_wherever_facts_are_named(tmp_path: Path, field: str) -> None:
    own = tmp_path / "own.yaml"
    entry = f"{{id: dust, text: Dust harms., case: stuck, kind: try, {field}: [hydralic]}}"
    own.write_text(f"format: 1\nrescues:\n  - {entry}\n", encoding="utf-8")
    ((told, given),) = ((problem.field, problem.given) for problem in check_files([own]))
    assert (told, given) == (f"{field} no. 1", "'hydralic' was given")


def test_a_line_that_only_goes_out_is_told_nothing_of_what_would_go_in() -> None:
    """Its fluid is nobody's other fluid, and it leaves its way, with a brake on it or not."""
    old = OldLine(line=make_line(), from_end=LineEnd(), to_end=LineEnd())
    job = make_job(make_lane_frame((8.0, 8.0)), old=old)
    joint = Joint(thing=thing_of_line(old.line), holds_n=None)
    ports = ("in-0", "out-0")
    way = JobWay(job=job, method=LaidOutside(), feed_from=JobEnd.FROM, joint=joint, route=ports, leaves_old_way=False)
    bare = find_facts_of_going_out(way)
    assert Fact.LEAVES_OLD_WAY in bare
    assert Fact.LINE_ONLY in bare
    assert Fact.FLUID_DIFFERS not in bare
    assert Fact.DROPPER not in bare
