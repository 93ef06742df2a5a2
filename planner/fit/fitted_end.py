"""What draws a line whose end carries a fitting already: the joint then goes over the fitting, or not at all."""

from collections.abc import Sequence
from dataclasses import replace

from planner.fit.joint_size import stretched_sleeve_diameter_mm
from planner.parts import (
    Fitting,
    Job,
    JobEnd,
    LeaderLine,
    LineFamily,
    LinerTube,
    Method,
    SetBy,
    ShopLimits,
    SleeveTube,
    SpokeLink,
    ThreadedCoupler,
)
from planner.rules.joint_rules import NOT_STRETCHED, NOT_THROUGH_LINER, SLIPS_OFF, JointRule
from planner.verdicts import Check, Outcome, State, Thing


def fittings_drawn(*, job: Job, method: Method, feed_from: JobEnd) -> tuple[Fitting, ...]:
    """Fittings that the joint has to be made on, the new line's first.

    feed_from : the end the new line enters at
    """
    found = (
        new_fitting_drawn(job=job, feed_from=feed_from),
        old_plug_drawn(job=job, method=method, feed_from=feed_from),
    )
    return tuple(fitting for fitting in found if fitting is not None)


def new_fitting_drawn(*, job: Job, feed_from: JobEnd) -> Fitting | None:
    """What sits on the leading end; None for a bare one.

    feed_from : the end the new line enters at
    """
    leading = job.new.end_at(feed_from.other)
    return leading.fitting if leading.is_fitted else None


def old_plug_drawn(*, job: Job, method: Method, feed_from: JobEnd) -> Fitting | None:
    """A moulded plug of the old wire, which is not cut, so that its plug goes through the frame with the joint.

    feed_from : the end the new line enters at
    """
    if job.old is None or not method.kind.joins_old_line or job.old.line.kind.family is not LineFamily.ELECTRIC:
        return None
    plug = job.old.end_at(feed_from).fitting
    return plug if plug is not None and plug.set_by is SetBy.FACTORY else None


def check_joint_on_fittings(*, method: Method, fittings: Sequence[Fitting], limits: ShopLimits) -> Check | None:
    """Whether this joint can be made on an end that carries a fitting, how thick it is there and what it holds.

    A fitting closes the bore it sits on. Over it go soft joints only; what they are like there is known where somebody
    has made one up and measured it.

    Returns rule "leading_joint": FITS as measured; NO_FIT; UNKNOWN with what to measure. None where no fitting is in
    the way, or nothing is joined.

    Common practice, no source.
    """
    if not fittings or not isinstance(method, ThreadedCoupler | SpokeLink | SleeveTube | LeaderLine | LinerTube):
        return None
    if isinstance(method, LinerTube):
        passes = all(fitting.outer_diameter_mm < method.bore_diameter_mm for fitting in fittings)
        return None if passes else _check(Outcome.NO_FIT, fittings, note=NOT_THROUGH_LINER)
    if _goes_into_bore(method):
        return _check(Outcome.NO_FIT, fittings)
    if isinstance(method, SleeveTube):
        for fitting in fittings:
            if fitting.outer_diameter_mm <= method.bore_diameter_mm:
                return _check(Outcome.NO_FIT, fittings, note=SLIPS_OFF)
            most_ratio = limits.sleeve_stretch_max_ratio
            if most_ratio is not None and fitting.outer_diameter_mm > most_ratio * method.bore_diameter_mm:
                return _check(Outcome.NO_FIT, fittings, note=NOT_STRETCHED)
    is_measured = all(
        fitting.joint_diameter_mm is not None and fitting.joint_holds_n is not None for fitting in fittings
    )
    return _check(Outcome.FITS if is_measured else Outcome.UNKNOWN, fittings)


def _goes_into_bore(method: Method) -> bool:
    """Whether it is screwed or slid into the new line's bore, which a fitting on its end closes."""
    has_stud = isinstance(method, LeaderLine) and method.stud_diameter_mm is not None
    return has_stud or isinstance(method, ThreadedCoupler | SpokeLink)


def joint_on_fittings(*, joint: Thing, method: Method, fittings: Sequence[Fitting]) -> Thing:
    """The joint as it is over fittings: as measured, else the least it can be; stiff as far as they are.

    joint : as it is on bare lines
    """
    if not fittings or _goes_into_bore(method) or not isinstance(method, SleeveTube | LeaderLine):
        return joint
    return replace(
        joint,
        diameter_mm=max(joint.diameter_mm, *(_over_mm(method, fitting) for fitting in fittings)),
        rigid_length_mm=max(joint.rigid_length_mm, sum(fitting.length_mm for fitting in fittings)),
    )


def hold_on_fittings_n(fittings: Sequence[Fitting]) -> float | None:
    """What the joint holds over fittings, the weaker counting; None where one was not measured. Derived."""
    holds = [fitting.joint_holds_n for fitting in fittings]
    return min((hold for hold in holds if hold is not None), default=None) if None not in holds else None


def _over_mm(method: SleeveTube | LeaderLine, fitting: Fitting) -> float:
    if fitting.joint_diameter_mm is not None:
        return fitting.joint_diameter_mm
    if isinstance(method, LeaderLine):
        return fitting.outer_diameter_mm
    return stretched_sleeve_diameter_mm(
        outer_diameter_mm=method.outer_diameter_mm,
        bore_diameter_mm=method.bore_diameter_mm,
        line_diameter_mm=fitting.outer_diameter_mm,
    )


def _check(outcome: Outcome, fittings: Sequence[Fitting], *, note: str = "") -> Check:
    return Check(
        rule=JointRule.LEADING_JOINT,
        outcome=outcome,
        state=State.DRAWING,
        with_ids=tuple(dict.fromkeys(fitting.id for fitting in fittings)),
        note=note,
    )
