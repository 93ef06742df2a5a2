"""The facts of a plan that its steps and cautions depend on, and the words that fill their sentences."""

from planner.parts import FittingStyle, Fluid, Job, LineEnd, LineKind, Method, SetBy
from planner.parts.methods import LeaderLine, SleeveTube, SpokeLink, ThreadedCoupler
from planner.plan.routing_plan import JobEnd, Joint, Lengths
from planner.routing.passage import is_insert_taken_out

MECHANICAL_KINDS = (LineKind.BRAKE_HOUSING, LineKind.SHIFT_HOUSING, LineKind.INNER_CABLE)
METHOD_WORDS = {
    ThreadedCoupler: "threaded_coupler",
    SleeveTube: "sleeve_tube",
    SpokeLink: "spoke_link",
    LeaderLine: "leader_line",
}
FLUID_FAMILIES = {
    Fluid.GLYCOL_DOT3: "glycol",
    Fluid.GLYCOL_DOT4: "glycol",
    Fluid.GLYCOL_DOT5_1: "glycol",
    Fluid.SILICONE_DOT5: "silicone",
    Fluid.MINERAL_OIL: "mineral",
}


def find_job_facts(
    *, job: Job, method: Method, feed_from: JobEnd, joint: Joint, route: tuple[str, ...]
) -> frozenset[str]:
    """Everything that holds for this way of doing the job, as short words that steps and cautions name.

    method : how the new line is drawn
    feed_from : the end it is fed from
    route : ids of the ports
    """
    leading, trailing = ends_by_feed(job=job, feed_from=feed_from)
    kind = job.new.line.kind
    old_is_hose = job.old is not None and job.old.line.kind is LineKind.HYDRAULIC_HOSE
    uses_leader = isinstance(method, LeaderLine)
    fluid = None if job.new.brake is None else job.new.brake.fluid
    held = {
        "hydraulic": kind is LineKind.HYDRAULIC_HOSE,
        "mechanical": kind in MECHANICAL_KINDS,
        "electric": kind is LineKind.ELECTRIC_WIRE,
        "shift": kind is LineKind.SHIFT_HOUSING,
        "brake": job.new.brake is not None,
        "joined": not uses_leader and job.old is not None,
        "leader": uses_leader,
        "empty_frame": job.old is None,
        "old_hydraulic": old_is_hose,
        "keeps_old_brake": job.keeps_old_brake and job.old is not None,
        "inserts_out": bool(inserts_taken_out(job=job, route=route)),
        "leading_end_bare": not leading.is_fitted,
        "sets_leading_fitting": must_be_set(leading),
        "sets_trailing_fitting": must_be_set(trailing),
        "trims": can_be_trimmed(leading) or can_be_trimmed(trailing),
        "holds_nothing": joint.holds_n == 0,
        "has_staying_lines": bool(job.staying),
        f"method:{METHOD_WORDS[type(method)]}": True,
        f"advice:{joint.advice}": joint.advice is not None,
        f"fluid:{FLUID_FAMILIES[fluid] if fluid is not None else ''}": fluid is not None,
    }
    return frozenset(fact for fact, holds in held.items() if holds)


def ends_by_feed(*, job: Job, feed_from: JobEnd) -> tuple[LineEnd, LineEnd]:
    """The new line's leading and trailing end.

    feed_from : the end it is fed from
    """
    if feed_from is JobEnd.FROM:
        return job.new.to_end, job.new.from_end
    return job.new.from_end, job.new.to_end


def must_be_set(end: LineEnd) -> bool:
    """Whether a fitting belongs on this end and is not on it yet.

    True when the workshop has to set it.
    """
    return end.fitting is not None and not end.is_fitted


def can_be_trimmed(end: LineEnd) -> bool:
    """Whether the line can be cut to length at this end: it is bare, and a workshop can set what belongs on it.

    False where a fitting already sits.
    """
    return not end.is_fitted and (end.fitting is None or end.fitting.set_by is SetBy.WORKSHOP)


def inserts_taken_out(*, job: Job, route: tuple[str, ...]) -> tuple[str, ...]:
    """Ids of the ports on the route whose insert is taken out for drawing.

    route : ids of the ports
    """
    return tuple(port_id for port_id in route if is_insert_taken_out(job=job, port=job.frame.ports[port_id]))


def find_job_words(
    *, job: Job, method: Method, feed_from: JobEnd, joint: Joint, lengths: Lengths, route: tuple[str, ...]
) -> dict[str, str]:
    """Words that fill the {placeholders} of steps and cautions.

    method : how the new line is drawn
    feed_from : the end it is fed from
    lengths : how long the line must be
    route : ids of the ports
    """
    leading, trailing = ends_by_feed(job=job, feed_from=feed_from)
    anchors = {JobEnd.FROM: job.from_anchor_id, JobEnd.TO: job.to_anchor_id}
    labels = [job.frame.ports[port_id].label or port_id for port_id in inserts_taken_out(job=job, route=route)]
    return {
        "method": method.name,
        "feed_end": anchors[feed_from],
        "cut_end": anchors[feed_from],
        "far_end": anchors[feed_from.other],
        "cut_length_mm": f"{lengths.cut_mm:.0f} mm",
        "route": " → ".join(route if feed_from is JobEnd.FROM else reversed(route)),
        "leading_fitting": _fitting_words(leading),
        "trailing_fitting": _fitting_words(trailing),
        "new_line": job.new.line.name,
        "old_line": "no old line" if job.old is None else job.old.line.name,
        "joint_diameter_mm": f"{joint.diameter_mm:.2f} mm",
        "holds_n": "an unmeasured force" if joint.holds_n is None else f"{joint.holds_n:.0f} N",
        "inserts": ", ".join(labels) or "none",
        "frame": job.frame.name,
        "from_anchor": job.from_anchor_id,
        "to_anchor": job.to_anchor_id,
        "ease_up_to_n": "0 N" if joint.ease_up_to_n is None else f"{joint.ease_up_to_n:.0f} N",
    }


def _fitting_words(end: LineEnd) -> str:
    if end.fitting is None:
        return "no fitting"
    style = "banjo end" if end.fitting.style is FittingStyle.BANJO else end.fitting.style.value
    return end.fitting.name or style
