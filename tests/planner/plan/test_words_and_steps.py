"""What steps and cautions quote of a plan, and which of them are told; every sentence by hand."""

from dataclasses import replace
from itertools import combinations, product
from typing import Any

import pytest

from planner.parts import (
    AdapterKind,
    AtHand,
    Caution,
    Fact,
    Fitting,
    FittingStyle,
    Fluid,
    FrameEnd,
    Insert,
    Job,
    JobEnd,
    LineEnd,
    LineKind,
    Minutes,
    NewLine,
    Placeholder,
    Rescue,
    RoundOpening,
    SetBy,
    SmallPart,
    WorkPart,
    WorkStep,
)
from planner.parts.workshop import RescueCase, RescueKind
from planner.plan.job_facts import JobWay
from planner.plan.job_words import find_job_words
from planner.plan.lengths import Lengths
from planner.plan.part_changes import _brakes_by_likeness
from planner.plan.routing_plan import Joint
from planner.plan.work_order import (
    count_parts,
    find_at_hand,
    find_cautions,
    find_part_ids,
    find_rescue,
    find_short_cautions,
    find_steps,
    holds_under,
)
from planner.verdicts import Thing, ThingKind
from tests.builders import make_coupler, make_frame, make_job, make_line, make_port, make_run, make_workshop
from tests.planner.fit.compatibility_samples import make_adapter, make_brake

BANJO = Fitting(
    id="banjo",
    name="",
    style=FittingStyle.BANJO,
    set_by=SetBy.FACTORY,
    outer_diameter_mm=10.0,
    length_mm=20.0,
    uses=("washer", "washer"),
)
NUT = replace(BANJO, id="nut", name="Nut M8", style=FittingStyle.COMPRESSION, uses=("olive", "insert"))
INSERT = Insert(opening=RoundOpening(diameter_mm=6.0, tolerance_mm=0.1), is_removable=True)


def a_job(**changes: Any) -> Job:
    frame = make_frame(
        make_port("p", label="Neck, left", insert=INSERT), make_port("q"), runs=(make_run("a", "start", "p"),)
    )
    anchors = {**frame.anchors, "end": replace(frame.anchors["end"], label="Caliper")}
    job = make_job(replace(frame, anchors=anchors))
    new = replace(job.new, line=make_line(id="new", name="Hose, new"), from_end=LineEnd(fitting=BANJO))
    return replace(job, **{"new": replace(new, to_end=LineEnd(fitting=NUT)), **changes})


def lengths(**changes: Any) -> Lengths:
    sizes: dict[str, Any] = {"need_mm": 1451.0, "cut_mm": 1485.0, "bitten_mm": 19.0, "cut_over_mm": 3.0}
    fields = {"legs": (), "supplied_mm": None, "spare_mm": None, "insertion_mm": 0, "trim_mm": 0}
    return Lengths(**{**fields, **sizes, **changes})


def words(job: Job, *, of: Lengths | None = None, joint: Joint | None = None, **way: Any) -> dict[str, str]:
    thing = Thing(id="joint", kind=ThingKind.JOINT, diameter_mm=5.2297, tolerance_mm=0.0)
    fields: dict[str, Any] = {"method": make_coupler(name="Stud"), "feed_from": JobEnd.FROM, "route": ("p", "q")}
    told = JobWay(job=job, joint=joint or Joint(thing=thing, holds_n=59.6, ease_up_to_n=12.4), **{**fields, **way})
    return {key.value: value for key, value in find_job_words(told, lengths=of or lengths()).items()}


def test_every_placeholder_has_its_words() -> None:
    found = words(a_job(rotor_mm=203.0), adapter=make_adapter(AdapterKind.POST_STEP, 43, lift_mm=21.5))
    assert found == {
        "method": "Stud",
        "feed_end": "start",
        "cut_end": "start",
        "far_end": "Caliper",
        "cut_length_mm": "1485 mm (+3/-0)",
        "least_length_mm": "1485 mm",
        "route": "Neck, left → q",
        "leading_fitting": "Nut M8",
        "trailing_fitting": "banjo end",
        "new_line": "Hose, new",
        "old_line": "Hose",
        "joint_diameter_mm": "5.23 mm",
        "holds_n": "60 N",
        "ease_up_to_n": "12 N",
        "inserts": "Neck, left",
        "frame": "Frame",
        "from_anchor": "start",
        "to_anchor": "Caliper",
        "rotor": "203 mm",
        "adapter": "Adapter (invented)",
        "bitten": "19 mm",
        "final_length_mm": "1466 mm (+3/-0)",
    }
    assert found.keys() == {each.value for each in Placeholder}


def test_fed_from_the_other_end_all_of_it_is_told_from_there() -> None:
    found = words(a_job(), feed_from=JobEnd.TO)
    assert (found["feed_end"], found["cut_end"], found["far_end"]) == ("Caliper", "Caliper", "start")
    assert (found["leading_fitting"], found["trailing_fitting"]) == ("banjo end", "Nut M8")
    assert (found["route"], found["from_anchor"], found["to_anchor"]) == ("q → Neck, left", "start", "Caliper")


def test_what_is_not_known_or_not_there_has_words_too() -> None:
    thing = Thing(id="joint", kind=ThingKind.JOINT, diameter_mm=5.0, tolerance_mm=0.0)
    plain = NewLine(line=make_line(), from_end=LineEnd(), to_end=LineEnd(fitting=replace(NUT, name="")))
    job = a_job(old=None, new=plain)
    found = words(job, of=lengths(cut_mm=None, need_mm=None), joint=Joint(thing=thing, holds_n=None), route=("q",))
    assert found["old_line"] == "no old line"
    assert (found["holds_n"], found["ease_up_to_n"]) == ("an unmeasured force", "0 N")
    assert (found["inserts"], found["rotor"], found["adapter"]) == ("none", "rotor", "no adapter")
    assert (found["leading_fitting"], found["trailing_fitting"]) == ("compression", "no fitting")
    assert found["cut_length_mm"].startswith("enough length and to spare")
    assert found["least_length_mm"].startswith("as much as the way takes")
    assert found["final_length_mm"].startswith("its mark")
    assert words(job, route=())["route"] == "outside, through no hole"


A, B, C = Fact.BRAKE, Fact.CARBON, Fact.DISC
EVERY_SET = [some for count in range(4) for some in combinations((A, B, C), count)]


@pytest.mark.parametrize("facts", EVERY_SET, ids=" ".join)
def test_what_asks_all_of_one_any_of_another_and_none_of_a_third(facts: tuple[Fact, ...]) -> None:
    def told(**asked: tuple[Fact, ...]) -> bool:
        return holds_under(AtHand(id="x", text="x", **asked), frozenset(facts))

    assert told()
    assert told(when=(A, B)) is (A in facts and B in facts)
    assert told(when_any=(A, B)) is (A in facts or B in facts)
    assert told(unless=(A, B)) is (A not in facts and B not in facts)
    assert told(when=(A,), when_any=(B, C), unless=()) is (A in facts and bool({B, C} & {*facts}))
    assert told(when=(A,), unless=(C,)) is (A in facts and C not in facts)


def step(id_: str, *, part: WorkPart | None = None, cautions: tuple[str, ...] = (), **asked: Any) -> WorkStep:
    minutes = Minutes(least=1, likely=2, most=4)
    text = f"{id_} {{frame}} {{nobody}}"
    return WorkStep(id=id_, text=text, why="For {frame}.", minutes=minutes, part=part, cautions=cautions, **asked)


WORDS = {Placeholder.FRAME: "Ambry"}
SHOP = make_workshop(
    steps=(
        step("look", part=WorkPart.BEFORE, cautions=("dust", "bound")),
        step("hidden", part=WorkPart.OPEN, when=(Fact.EBIKE,)),
        step("open"),
        step("draw", part=WorkPart.THROUGH, shows_rescue=True, short="Draw {frame}"),
    ),
    cautions={
        "dust": Caution(id="dust", text="Dust in {frame}.", short="Dust"),
        "bound": Caution(id="bound", text="Carbon cracks.", when=(Fact.CARBON,)),
        "always": Caution(id="always", text="Told at steps only."),
        "any": Caution(id="any", text="Any of {frame}.", when_any=(Fact.CARBON, Fact.STEEL), short="Any, {frame}"),
        "unless": Caution(id="unless", text="Not wet.", unless=(Fact.HYDRAULIC,)),
    },
    rescues=(
        Rescue(id="never", case=RescueCase.STUCK, kind=RescueKind.NEVER, text="pull {frame}"),
        Rescue(id="try", case=RescueCase.STUCK, kind=RescueKind.TRY, text="Turn.", when=(Fact.STEEL,)),
    ),
    at_hand=(
        AtHand(id="gloves", text="Gloves for {frame}"),
        AtHand(id="bleed", text="Bleed kit", when=(Fact.HYDRAULIC,)),
    ),
)


def test_steps_are_numbered_filled_in_and_keep_the_stretch_of_those_before_them() -> None:
    steps = find_steps(workshop=SHOP, facts=frozenset({Fact.STEEL}), words=WORDS)
    assert [(one.n, one.id, one.part) for one in steps] == [
        (1, "look", WorkPart.BEFORE),
        (2, "open", WorkPart.OPEN),  # of the stretch that a step left out began
        (3, "draw", WorkPart.THROUGH),
    ]
    assert (steps[0].text, steps[0].why) == ("look Ambry {nobody}", "For Ambry.")
    assert (steps[0].cautions, steps[2].short, steps[2].shows_rescue) == (("Dust in Ambry.",), "Draw Ambry", True)
    assert (steps[0].least_min, steps[0].likely_min, steps[0].most_min) == (1, 2, 4)
    carbon = find_steps(workshop=SHOP, facts=frozenset({Fact.CARBON, Fact.EBIKE}), words=WORDS)
    assert [one.id for one in carbon] == ["look", "hidden", "open", "draw"]
    assert carbon[0].cautions == ("Dust in Ambry.", "Carbon cracks.")


def test_cautions_for_the_whole_job_are_those_with_conditions_that_hold_and_that_no_step_tells() -> None:
    def told(*facts: Fact) -> tuple[str, ...]:
        known = frozenset(facts)
        steps = find_steps(workshop=SHOP, facts=known, words=WORDS)
        return find_cautions(workshop=SHOP, facts=known, words=WORDS, steps=steps)

    assert told(Fact.HYDRAULIC) == ()
    assert told(Fact.HYDRAULIC, Fact.STEEL) == ("Any of Ambry.",)
    assert told(Fact.CARBON) == ("Any of Ambry.", "Not wet.")
    assert find_short_cautions(workshop=SHOP, words=WORDS) == {"Dust in Ambry.": "Dust", "Any of Ambry.": "Any, Ambry"}


def test_rescue_and_what_lies_at_hand_go_by_the_facts_too() -> None:
    def rescue(*facts: Fact) -> list[str]:
        return [one.text for one in find_rescue(workshop=SHOP, facts=frozenset(facts), words=WORDS)]

    assert rescue() == ["pull Ambry"]
    assert rescue(Fact.STEEL) == ["pull Ambry", "Turn."]
    assert rescue(Fact.STEEL, Fact.OUTSIDE_ONLY) == []
    assert find_at_hand(workshop=SHOP, facts=frozenset(), words=WORDS) == ("Gloves for Ambry",)
    wet = frozenset({Fact.HYDRAULIC})
    assert find_at_hand(workshop=SHOP, facts=wet, words=WORDS) == ("Gloves for Ambry", "Bleed kit")


def test_parts_are_those_of_the_joint_and_of_fittings_that_are_still_to_be_set() -> None:
    method = make_coupler(uses=("stud",))
    told = {
        JobEnd.FROM: ("stud", "olive", "insert", "washer", "washer"),
        JobEnd.TO: ("stud", "washer", "washer", "olive", "insert"),
    }
    for feed_from, expected in told.items():
        assert find_part_ids(job=a_job(), method=method, feed_from=feed_from) == expected
    job = a_job()
    on = replace(job, new=replace(job.new, from_end=LineEnd(fitting=BANJO, is_fitted=True)))
    assert find_part_ids(job=on, method=method, feed_from=JobEnd.FROM) == ("stud", "olive", "insert")
    shop = make_workshop(
        small_parts={"olive": SmallPart(id="olive", name="Olive", price=None)},
        adapters=(make_adapter(AdapterKind.POST_STEP, 20, lift_mm=10.0),),
    )
    counted = count_parts(part_ids=("washer", "olive", "washer", "post_step-20"), workshop=shop)
    assert [(one.id, one.name, one.quantity) for one in counted] == [
        ("washer", "washer", 2),
        ("olive", "Olive", 1),
        ("post_step-20", "Adapter (invented)", 1),
    ]


def test_brakes_most_like_the_one_named_come_first_by_line_then_fluid_then_end() -> None:
    def brake(n: int, *, line: bool, fluid: bool, end: bool) -> Any:
        return replace(
            make_brake(
                id=f"b{n}",
                kind=LineKind.HYDRAULIC_HOSE if line else LineKind.BRAKE_HOUSING,
                fluid=Fluid.MINERAL_OIL if fluid else Fluid.GLYCOL_DOT4,
                made_for=FrameEnd.REAR if end else None,
            )
        )

    named = make_brake(id="named", fluid=Fluid.MINERAL_OIL, made_for=FrameEnd.REAR)
    job = make_job(make_frame(runs=()))
    job = replace(job, new=replace(job.new, brake=named))
    every = [
        brake(n, line=line, fluid=fluid, end=end)
        for n, (line, fluid, end) in enumerate(product((True, False), repeat=3))
    ]
    found = _brakes_by_likeness(job, [*every[::-1], named])
    assert [one.id for one in found] == [f"b{n}" for n in range(8)]
    bare = replace(job, new=replace(job.new, brake=None))
    assert {one.id for one in _brakes_by_likeness(bare, [*every, named])} == {*(f"b{n}" for n in range(8)), "named"}
    anywhere = replace(job, new=replace(job.new, brake=replace(named, made_for=None)))
    assert [one.id for one in _brakes_by_likeness(anywhere, every[:2][::-1])] == ["b1", "b0"]  # as in the catalog
