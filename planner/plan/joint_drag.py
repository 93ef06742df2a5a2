"""The joint of one attempt, with what it holds against what the way through the frame asks of it.

Weight downhill is no help, and the outer legs, whose shape nobody knows, are left out.
"""

from collections.abc import Sequence

from planner.fit.fitted_end import fittings_drawn, hold_on_fittings_n
from planner.mechanics.drag import Leg, estimate_drag
from planner.mechanics.joint_hold import decide_pull, joint_hold
from planner.parts import Frame, Job, JobEnd, Method, Port, PullWord, ShopLimits
from planner.plan.leg_views import turn_of_leg_deg
from planner.plan.lengths import LegLength
from planner.plan.routing_plan import Joint
from planner.routing.attempts import Attempt


def find_joint(*, job: Job, attempt: Attempt, legs: dict[str, LegLength], limits: ShopLimits) -> Joint | None:
    """The moving joint: its size, what it holds, and the estimated drag on its way.

    Only the way between the first and the last port counts: before it the line hangs free, behind it the hand takes
    over. Lines tied on behind drag as much as each would by itself, so one that is wound round another drags more; the
    joint bears them all, each tie its own line, and the hands do what the weakest of them stands.

    None where the joint cannot be made or no way was found.

    attempt : a method from one end
    legs : every run's length and shape, by run id
    limits : margins, and figures for what was not measured
    """
    if attempt.joint is None or attempt.route is None:
        return None
    drag_legs = _drag_legs(job, attempt, legs)
    drags_n = [estimate_drag(line=line, legs=drag_legs, limits=limits).drag_n for line in (job.new.line, *job.tied_on)]
    holds_n = find_hold_n(job=attempt.job, method=attempt.method, feed_from=attempt.feed_from, limits=limits)
    tie = getattr(attempt.method, "tie", None)
    borne = [(holds_n, sum(drags_n)), *((None if tie is None else tie.holds_n, drag_n) for drag_n in drags_n[1:])]
    advices = [
        decide_pull(
            holds_n=holds_n,
            drag_n=drag_n,
            pull_margin_ratio=limits.pull_margin_ratio,
            ease_margin_ratio=limits.ease_margin_ratio,
        )
        for holds_n, drag_n in borne
    ]
    eased_n = [each.ease_up_to_n for each in advices if each.ease_up_to_n is not None]
    return Joint(
        thing=attempt.joint,
        holds_n=holds_n,
        drag_n=sum(drags_n),
        advice=min((each.advice for each in advices), key=list(PullWord).index),
        ease_up_to_n=min(eased_n) if len(eased_n) == len(advices) else None,
        is_drag_least=any(leg.curve is None for leg in _between(attempt, legs)),
    )


def find_hold_n(*, job: Job, method: Method, feed_from: JobEnd, limits: ShopLimits) -> float | None:
    """The pull that a joint holds, over fittings where it goes over some; None where nobody knows.

    job : with the leading end as it goes through the frame
    """
    fittings = fittings_drawn(job=job, method=method, feed_from=feed_from)
    if fittings and method.kind.can_part_inside:
        return hold_on_fittings_n(fittings)
    return joint_hold(
        method=method,
        old_line=None if job.old is None else job.old.line,
        new_line=job.new.line,
        sleeve_modulus_mpa=limits.sleeve_modulus_mpa,
        sleeve_friction_ratio=limits.sleeve_friction_ratio,
    ).holds_n


def _between(attempt: Attempt, legs: dict[str, LegLength]) -> list[LegLength]:
    """The legs from the first hole to the last."""
    return [] if attempt.route is None else [legs[run_id] for run_id in attempt.route.run_ids[1:-1]]


def _drag_legs(job: Job, attempt: Attempt, legs: dict[str, LegLength]) -> list[Leg]:
    assert attempt.route is not None
    between = _between(attempt, legs)
    return drag_legs(
        frame=job.frame,
        port_ids=attempt.route.port_ids,
        between=between,
        turns_deg=[turn_of_leg_deg(leg=leg, run=job.frame.runs[leg.run_id]) for leg in between],
        feed_from=attempt.feed_from,
    )


def drag_legs(
    *,
    frame: Frame,
    port_ids: Sequence[str],
    between: Sequence[LegLength],
    turns_deg: Sequence[float],
    feed_from: JobEnd,
) -> list[Leg]:
    """Ports and runs in the order the new line meets them.

    port_ids : of the route, from the job's `from`
    between : the legs from the first hole to the last
    turns_deg : how far the line turns on each of these
    """
    ports = [frame.ports[port_id] for port_id in port_ids]
    if feed_from is JobEnd.TO:
        ports, between, turns_deg = ports[::-1], between[::-1], turns_deg[::-1]
    stretches = [
        Leg(
            turn_deg=turn_deg,
            length_mm=leg.way_mm or 0.0,
            entry_drag_n=port.entry_drag_n,
            rise_mm=_rise_mm(port, onward, leg),
        )
        for port, leg, turn_deg, onward in zip(ports, between, turns_deg, ports[1:], strict=False)
    ]
    return [*stretches, *(Leg(turn_deg=0.0, length_mm=0.0, entry_drag_n=port.entry_drag_n) for port in ports[-1:])]


def _rise_mm(port: Port, onward: Port, leg: LegLength) -> float:
    """How much higher the next hole lies.

    Where nobody told a place, or told places that a measured length denies, as if it hung straight down: what the
    weight takes then is the least.
    """
    length_mm = leg.way_mm or 0.0
    if port.position_mm is None or onward.position_mm is None:
        return -length_mm
    rise_mm = onward.position_mm[2] - port.position_mm[2]
    return rise_mm if abs(rise_mm) <= length_mm else -length_mm
