"""An invented workshop and plan for the tests of times and money."""

from dataclasses import replace
from decimal import Decimal

from planner.parts import JobEnd, Minutes, SleeveTube, SmallPart, SpokeLink, Workshop, WorkStep
from planner.plan.lengths import Lengths
from planner.plan.routing_plan import Joint, PartNeeded, PlanOption, Remark, RoutingPlan, Step
from planner.verdicts import Outcome, Thing, ThingKind
from tests.planner.mechanics.samples import LIMITS

FEED = Minutes(least=56, likely=56, most=56)
SLEEVE = SleeveTube(
    id="sleeve",
    name="Sleeve (invented)",
    bore_diameter_mm=4,
    outer_diameter_mm=6,
    grip_length_mm=25,
    holds_n=8,
    setup_min=4,
    uses=("tube",),
)
SPOKE = SpokeLink(id="spoke", name="Spoke link (invented)", rod_diameter_mm=2, reach_mm=20, holds_n=0, setup_min=5)
PARTS = {
    part.id: part
    for part in (
        SmallPart(id="olive", name="Olive (invented)", price=Decimal("1.20")),
        SmallPart(id="tube", name="Tube (invented)", price=Decimal("0.80")),
        SmallPart(id="long-bolts", name="Bolts (invented)", price=Decimal("3.10")),
        SmallPart(id="mystery", name="Mystery (invented)"),
    )
}


def make_workshop(
    *,
    money_step: Decimal = Decimal("0.01"),
    tax_ratio: Decimal = Decimal("0.20"),
    labour_per_hour: Decimal = Decimal("60.00"),
    redone_ids: tuple[str, ...] = (),
    feed: Minutes = FEED,
) -> Workshop:
    """A workshop with a sleeve and a spoke link."""
    return Workshop(
        limits=replace(LIMITS, money_step=money_step, tax_ratio=tax_ratio, labour_per_hour=labour_per_hour),
        methods=(SLEEVE, SPOKE),
        small_parts=PARTS,
        lines={},
        fittings={},
        steps=(
            WorkStep(id="feed", text="", why="", minutes=feed),
            WorkStep(id="set-gently", text="", why="", minutes=Minutes(least=6, likely=6, most=6)),
            *(
                WorkStep(id=id, text="", why="", minutes=Minutes(least=1, likely=2, most=3), is_redone=True)
                for id in redone_ids
            ),
        ),
        cautions={},
    )


JOINT = Thing(id="joint", kind=ThingKind.JOINT, diameter_mm=5, tolerance_mm=0.05)


def make_option(
    method_id: str,
    *,
    holds_n: float | None,
    remark: Remark = Remark.NONE,
    step_ids: tuple[str, ...] = ("feed",),
    cut_mm: float = 1790,
) -> PlanOption:
    """A way of doing the job."""
    return PlanOption(
        method={"sleeve": SLEEVE, "spoke": SPOKE}[method_id],
        feed_from=JobEnd.FROM,
        cut_old_at=JobEnd.FROM,
        part_ids={"sleeve": ("tube", "olive"), "spoke": ("olive",)}[method_id],
        route=("front", "back"),
        outcome=Outcome.FITS,
        joint=Joint(thing=JOINT, holds_n=holds_n),
        holds_drag=None,
        work_min=60,
        length_mm=1500,
        step_ids=step_ids,
        cut_mm=cut_mm,
        remark=remark,
    )


def make_plan(
    *,
    outcome: Outcome = Outcome.FITS,
    part_ids: tuple[str, ...] = ("tube", "olive"),
    cut_mm: float = 1790,
    spare_mm: float | None = 100,
) -> RoutingPlan:
    """A plan of one step with the sleeve, and beside it the spoke link, which asks one step more."""
    step = Step(
        n=1,
        id="feed",
        text="",
        why="",
        cautions=(),
        least_min=56,
        likely_min=56,
        most_min=56,
    )
    return RoutingPlan(
        job_id="job",
        job_title="Job (invented)",
        frame_id="frame",
        frame_name="Frame (invented)",
        new_line_name="",
        old_line_name="",
        outcome=outcome,
        method_id="sleeve",
        lengths=Lengths(
            legs=(),
            need_mm=cut_mm - 8,
            cut_mm=cut_mm,
            supplied_mm=None,
            spare_mm=spare_mm,
            insertion_mm=22,
            trim_mm=10,
        ),
        options=(
            make_option("sleeve", holds_n=8, cut_mm=cut_mm),
            make_option(
                "spoke", holds_n=0, remark=Remark.HOLDS_NOTHING, step_ids=("feed", "set-gently"), cut_mm=cut_mm
            ),
        ),
        parts=tuple(PartNeeded(id=id, name=id, quantity=1) for id in part_ids),
        steps=(step,),
    )


def with_no_length(plan: RoutingPlan) -> RoutingPlan:
    """The plan with a leg that nobody measured."""
    assert plan.lengths is not None
    return replace(plan, lengths=replace(plan.lengths, need_mm=None, cut_mm=None, spare_mm=None))
