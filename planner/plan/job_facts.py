"""What holds for one way of doing a job. A new fact is a member of `Fact` and one row here."""

from planner.fit.brake_end import find_brake_end
from planner.fit.fluid_fit import may_old_fluid_meet_new
from planner.parts import (
    FLUID_FACTS,
    Adapter,
    AnchorServes,
    Brake,
    Fact,
    FluidClass,
    FrameEnd,
    FrameFeature,
    Job,
    JobEnd,
    Line,
    LineFamily,
    LineKind,
    Method,
    MethodKind,
    PortPlace,
    PullWord,
)
from planner.plan.line_ends import ends_by_feed, is_cut_to_length, must_be_set
from planner.plan.routing_plan import Joint
from planner.quick_dataclass import dataclass
from planner.routing.passage import is_insert_taken_out

Rows = dict[Fact, bool]

HOUSINGS = (LineKind.BRAKE_HOUSING, LineKind.SHIFT_HOUSING)
BRAKE_LINES = (LineKind.BRAKE_HOUSING, LineKind.HYDRAULIC_HOSE)


@dataclass(frozen=True, slots=True, kw_only=True)
class JobWay:
    """One way of doing a job, as far as steps and cautions ask about it.

    method : how the new line is drawn
    feed_from : the end it is fed from
    route : ids of the ports
    adapter : what goes between the mounts; None where nothing does, or where it is not known
    undoes_leading : whether a fitting is taken off the leading end first
    leaves_old_way : whether the old line runs through ports that the new one keeps away from
    bitten_mm : cut off the leading end afterwards [mm]
    """

    job: Job
    method: Method
    feed_from: JobEnd
    joint: Joint
    route: tuple[str, ...]
    adapter: Adapter | None = None
    undoes_leading: bool = False
    leaves_old_way: bool = False
    bitten_mm: float = 0.0


def find_job_facts(way: JobWay) -> frozenset[Fact]:
    """Everything that holds for this way of doing the job."""
    groups = (_line_facts, _brake_facts, _old_line_facts, _frame_facts, _joint_facts, _end_facts)
    return frozenset(fact for group in groups for fact, holds in group(way).items() if holds)


def find_facts_of_going_out(way: JobWay) -> frozenset[Fact]:
    """What holds where a line is only taken out: nothing of what would go in.

    way : with the old line told as the new one too
    """
    job = way.job
    has_brake = job.old is not None and job.old.brake is not None
    rows = {
        **_old_line_facts(way),
        **_frame_facts(way),
        Fact.DISC: is_brake_job(job) and has_rotor(job),
        Fact.DROPPER: _serves(job, AnchorServes.DROPPER),
        Fact.LINE_ONLY: not has_brake,
        Fact.LEAVES_OLD_WAY: True,
        Fact.FLUID_DIFFERS: False,
    }
    return frozenset(fact for fact, holds in rows.items() if holds)


def inserts_taken_out(*, job: Job, route: tuple[str, ...]) -> tuple[str, ...]:
    """Ids of the ports on the route whose insert is taken out for drawing.

    route : ids of the ports
    """
    return tuple(port_id for port_id in route if is_insert_taken_out(job=job, port=job.frame.ports[port_id]))


def _line_facts(way: JobWay) -> Rows:
    kind = way.job.new.line.kind
    is_for_dropper = _serves(way.job, AnchorServes.DROPPER)
    return {
        Fact.HYDRAULIC: kind.family is LineFamily.HYDRAULIC,
        Fact.MECHANICAL: kind.family is LineFamily.MECHANICAL,
        Fact.ELECTRIC: kind.family is LineFamily.ELECTRIC,
        Fact.HOUSING: kind in HOUSINGS,
        Fact.BARE_CABLE: kind is LineKind.INNER_CABLE,
        Fact.SHIFT: kind is LineKind.SHIFT_HOUSING and not is_for_dropper,
        Fact.DROPPER: is_for_dropper,
        Fact.HAS_FOAM: way.job.new.line.foam_diameter_mm is not None,
        Fact.LINE_ONLY: way.job.new.brake is None,
        Fact.HAS_STAYING_LINES: bool(way.job.staying or way.job.ridden_beside),
    }


def _brake_facts(way: JobWay) -> Rows:
    job, brake = way.job, way.job.new.brake
    is_brake = is_brake_job(job)
    fluid = _class_of(worked_brake(job))
    return {
        Fact.BRAKE: is_brake,
        Fact.DISC: is_brake and has_rotor(job),
        Fact.FRONT: is_brake and find_brake_end(job=job) is FrameEnd.FRONT,
        Fact.NEW_LEVER: brake is not None,
        Fact.NEW_CALIPER: brake is not None,
        Fact.NEW_PADS: brake is not None,
        Fact.NEW_ROTOR: brake is not None and job.rotor_mm is not None,
        Fact.NEEDS_ADAPTER: way.adapter is not None,
        **{Fact(f"fluid:{each}"): _is_wet(job.new.line) and each is fluid for each in FluidClass},
    }


def _old_line_facts(way: JobWay) -> Rows:
    old = way.job.old
    family = None if old is None else old.line.kind.family
    fluid = _class_of(None if old is None else old.brake)
    return {
        Fact.EMPTY_FRAME: old is None,
        Fact.OLD_HYDRAULIC: family is LineFamily.HYDRAULIC,
        Fact.OLD_MECHANICAL: family is LineFamily.MECHANICAL,
        Fact.OLD_ELECTRIC: family is LineFamily.ELECTRIC,
        Fact.OLD_HOUSING: old is not None and old.line.kind in HOUSINGS,
        Fact.LEAVES_OLD_WAY: way.leaves_old_way,
        Fact.KEEPS_OLD_BRAKE: old is not None and way.job.keeps_old_brake,
        Fact.FLUID_DIFFERS: not may_old_fluid_meet_new(old=old, new=way.job.new),
        **{Fact(f"old_fluid:{each}"): each is fluid for each in FluidClass},
    }


def _frame_facts(way: JobWay) -> Rows:
    frame = way.job.frame
    places = {frame.ports[port_id].lies_at for port_id in way.route}
    return {
        Fact.CARBON: FrameFeature.CARBON in frame.features,
        Fact.EBIKE: bool(frame.features & {FrameFeature.EBIKE, FrameFeature.MOTOR_IN_WAY}),
        Fact.MOTOR_IN_WAY: FrameFeature.MOTOR_IN_WAY in frame.features and bool(way.route),
        Fact.SUSPENSION: FrameFeature.SUSPENSION in frame.features or frame.rear is not None,
        Fact.STEEL: FrameFeature.STEEL in frame.features,
        Fact.HEADSET_ROUTE: PortPlace.HEADSET in places,
        Fact.BAR_ROUTE: PortPlace.BAR in places,
        Fact.FORK_LEG: PortPlace.FORK_LEG in places,
        Fact.BB_PASS: PortPlace.BOTTOM_BRACKET in places,
        Fact.OUTSIDE_ONLY: not way.route,
        **_insert_facts(way),
    }


def _insert_facts(way: JobWay) -> Rows:
    """Split where that is known of every insert that comes out."""
    ports = (way.job.frame.ports[port_id] for port_id in inserts_taken_out(job=way.job, route=way.route))
    kinds = {port.insert.is_split for port in ports if port.insert is not None}
    return {
        Fact.INSERTS_OUT: bool(kinds),
        Fact.INSERTS_SPLIT: kinds == {True},
    }


def _joint_facts(way: JobWay) -> Rows:
    return {
        Fact.JOINED: way.method.kind.joins_old_line,
        Fact.LEADER: way.method.kind.is_leader,
        **{Fact(f"method:{each}"): each is way.method.kind for each in MethodKind},
        Fact.BITES: way.bitten_mm > 0,
        Fact.HOLDS_NOTHING: way.method.kind.can_part_inside and way.joint.holds_n == 0,
        **{Fact(f"advice:{each}"): each is way.joint.advice for each in PullWord},
    }


def _end_facts(way: JobWay) -> Rows:
    leading, trailing = ends_by_feed(job=way.job, feed_from=way.feed_from)
    return {
        Fact.FITTED_LEADING: way.undoes_leading,
        Fact.LEADING_END_BARE: not leading.is_fitted,
        Fact.SETS_LEADING_FITTING: must_be_set(leading),
        Fact.SETS_TRAILING_FITTING: must_be_set(trailing),
        Fact.TRIMS: is_cut_to_length(way.job.new),
    }


def is_brake_job(job: Job) -> bool:
    """Whether a brake is worked on; a fresh hose or brake housing on the brake that is there counts."""
    return job.new.brake is not None or job.new.line.kind in BRAKE_LINES


def worked_brake(job: Job) -> Brake | None:
    """The brake that is ridden afterwards: the new one, or the old one where only its line is renewed."""
    if job.new.brake is not None or job.old is None:
        return job.new.brake
    return job.old.brake


def has_rotor(job: Job) -> bool:
    """Whether the brake works on a rotor, so that wheel and pads have to come out.

    Where nothing at all is told of a hose, it is taken for that of a disc brake: taking out a wheel too many harms
    nobody. Housing without a caliper or a mount is taken for that of a rim brake.
    """
    brake, end = worked_brake(job), find_brake_end(job=job)
    has_mount = end is not None and end.value in job.frame.brakes
    return (brake is not None and brake.caliper_mount is not None) or has_mount or _is_wet(job.new.line)


def _is_wet(line: Line) -> bool:
    return line.kind.family is LineFamily.HYDRAULIC


def _class_of(brake: Brake | None) -> FluidClass | None:
    return None if brake is None or brake.fluid is None else FLUID_FACTS[brake.fluid].fluid_class


def _serves(job: Job, asked: AnchorServes) -> bool:
    ends = (job.frame.anchors[anchor_id] for anchor_id in (job.from_anchor_id, job.to_anchor_id))
    return any(end.serves is asked for end in ends)
