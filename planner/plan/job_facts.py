"""What holds for one way of doing a job. A new fact is a member of `Fact` and one row here."""

from dataclasses import dataclass

from planner.parts import FLUID_FACTS, Fact, FluidClass, Job, JobEnd, LineFamily, LineKind, Method, MethodKind, PullWord
from planner.plan.line_ends import can_be_trimmed, ends_by_feed, must_be_set
from planner.plan.routing_plan import Joint
from planner.routing.passage import is_insert_taken_out

Rows = dict[Fact, bool]


@dataclass(frozen=True, slots=True, kw_only=True)
class JobWay:
    """One way of doing a job, as far as steps and cautions ask about it.

    method : how the new line is drawn
    feed_from : the end it is fed from
    route : ids of the ports
    """

    job: Job
    method: Method
    feed_from: JobEnd
    joint: Joint
    route: tuple[str, ...]


def find_job_facts(way: JobWay) -> frozenset[Fact]:
    """Everything that holds for this way of doing the job."""
    groups = (_new_line_facts, _frame_and_old_line_facts, _joint_facts, _end_facts)
    return frozenset(fact for group in groups for fact, holds in group(way).items() if holds)


def inserts_taken_out(*, job: Job, route: tuple[str, ...]) -> tuple[str, ...]:
    """Ids of the ports on the route whose insert is taken out for drawing.

    route : ids of the ports
    """
    return tuple(port_id for port_id in route if is_insert_taken_out(job=job, port=job.frame.ports[port_id]))


def _new_line_facts(way: JobWay) -> Rows:
    line, brake = way.job.new.line, way.job.new.brake
    fluid = None if brake is None else brake.fluid
    fluid_class = None if fluid is None else FLUID_FACTS[fluid].fluid_class
    return {
        Fact.HYDRAULIC: line.kind.family is LineFamily.HYDRAULIC,
        Fact.MECHANICAL: line.kind.family is LineFamily.MECHANICAL,
        Fact.ELECTRIC: line.kind.family is LineFamily.ELECTRIC,
        Fact.SHIFT: line.kind is LineKind.SHIFT_HOUSING,
        Fact.BRAKE: brake is not None,
        **{Fact(f"fluid:{each}"): each is fluid_class for each in FluidClass},
    }


def _frame_and_old_line_facts(way: JobWay) -> Rows:
    old = way.job.old
    return {
        Fact.OLD_HYDRAULIC: old is not None and old.line.kind.family is LineFamily.HYDRAULIC,
        Fact.EMPTY_FRAME: old is None,
        Fact.KEEPS_OLD_BRAKE: old is not None and way.job.keeps_old_brake,
        Fact.HAS_STAYING_LINES: bool(way.job.staying),
        Fact.INSERTS_OUT: bool(inserts_taken_out(job=way.job, route=way.route)),
    }


def _joint_facts(way: JobWay) -> Rows:
    has_leader = way.method.kind is MethodKind.LEADER_LINE
    return {
        Fact.JOINED: not has_leader and way.job.old is not None,
        Fact.LEADER: has_leader,
        **{Fact(f"method:{each}"): each is way.method.kind for each in MethodKind},
        Fact.HOLDS_NOTHING: way.joint.holds_n == 0,
        **{Fact(f"advice:{each}"): each is way.joint.advice for each in PullWord},
    }


def _end_facts(way: JobWay) -> Rows:
    leading, trailing = ends_by_feed(job=way.job, feed_from=way.feed_from)
    return {
        Fact.LEADING_END_BARE: not leading.is_fitted,
        Fact.SETS_LEADING_FITTING: must_be_set(leading),
        Fact.SETS_TRAILING_FITTING: must_be_set(trailing),
        Fact.TRIMS: can_be_trimmed(leading) or can_be_trimmed(trailing),
    }
