"""A method from one end: whether its joint can be made and its ends led so, and what then moves through the frame."""

from collections.abc import Iterator
from dataclasses import replace

from planner.fit.fitted_end import (
    check_joint_on_fittings,
    fittings_drawn,
    joint_on_fittings,
    new_fitting_drawn,
    old_plug_drawn,
)
from planner.fit.joint_size import check_method_suits_lines, find_joint_size
from planner.fit.line_ends import (
    check_bores_stay_apart,
    check_leading_end_can_be_set,
    check_old_end_may_be_cut,
)
from planner.fit.things import thing_of_fitting
from planner.fit.way_in_fit import check_cable_can_stay, check_magnet
from planner.parts import Job, JobEnd, LeaderLine, LineEnd, Method, MethodKind, SetBy, ShopLimits
from planner.quick_dataclass import dataclass
from planner.routing.passage import Mover
from planner.verdicts import Check, Outcome, worst_of


@dataclass(frozen=True, slots=True, kw_only=True)
class LedJob:
    """A job with its leading end as it goes through the frame.

    undoes_leading : whether a fitting is taken off it first
    leaves_old_way : whether the old line is known to run through ports that the new one keeps away from
    """

    job: Job
    undoes_leading: bool
    leaves_old_way: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """One method from one end, before anybody has asked where it passes.

    led : the job as it is done so
    general_checks : whether the joint can be made, and the ends led and cut so
    mover : what moves through the frame; None where the joint cannot be made
    """

    led: LedJob
    method: Method
    feed_from: JobEnd
    general_checks: tuple[Check, ...]
    mover: Mover | None


def is_joined_to_old_line(*, job: Job, method: Method) -> bool:
    """Whether the old line itself is cut and used to draw the new one.

    False for an empty frame, and for a leader that takes the place of a bare cable.

    method : how the new line is drawn
    """
    return job.old is not None and method.kind.joins_old_line


def make_all(*, job: Job, methods: tuple[Method, ...], limits: ShopLimits) -> Iterator[Made]:
    """Every method through the frame, from either end, with the leading end as it is and bare.

    methods : in catalog order
    limits : the shop's margins
    """
    for method in methods:
        for feed_from in JobEnd:
            for led in _ways_to_lead(job, feed_from):
                yield make_one(led, method, feed_from, limits)


def make_one(led: LedJob, method: Method, feed_from: JobEnd, limits: ShopLimits) -> Made:
    """One method from one end, as the job is led there."""
    job = led.job
    old_line = None if job.old is None else job.old.line
    suits = check_method_suits_lines(
        method=method,
        old=old_line,
        new=job.new.line,
        limits=limits,
        is_old_fitted=old_plug_drawn(job=job, method=method, feed_from=feed_from) is not None,
        is_new_fitted=new_fitting_drawn(job=job, feed_from=feed_from) is not None,
    )
    can_be_made = worst_of(suits, of_nothing=Outcome.FITS) is not Outcome.NO_FIT
    return Made(
        led=led,
        method=method,
        feed_from=feed_from,
        general_checks=(*suits, *_end_checks(job, method, feed_from, limits)),
        mover=_mover(job, method, feed_from, limits) if can_be_made else None,
    )


def _mover(job: Job, method: Method, feed_from: JobEnd, limits: ShopLimits) -> Mover:
    joint = joint_on_fittings(
        joint=find_joint_size(
            method=method,
            old=job.old.line if job.old is not None and is_joined_to_old_line(job=job, method=method) else None,
            new=job.new.line,
            least_squeeze_mm=limits.stud_squeeze_min_mm,
        ),
        method=method,
        fittings=fittings_drawn(job=job, method=method, feed_from=feed_from),
    )
    leading = job.new.end_at(feed_from.other)
    fitting = leading.fitting if leading.is_fitted else None
    return Mover(
        joint=joint,
        leading_fitting=None if fitting is None else thing_of_fitting(fitting),
        feed_from=feed_from,
    )


def _ways_to_lead(job: Job, feed_from: JobEnd) -> Iterator[LedJob]:
    """The leading end as it is; and bare, where a fitting sits on it that the workshop can take off and set again."""
    yield LedJob(job=job, undoes_leading=False)
    leading = job.new.end_at(feed_from.other)
    if leading.is_fitted and leading.fitting is not None and leading.fitting.set_by is SetBy.WORKSHOP:
        yield LedJob(job=with_leading_bare(job, feed_from), undoes_leading=True)


def with_leading_bare(job: Job, feed_from: JobEnd) -> Job:
    """The job with the fitting that sits on its leading end taken off, to be set again afterwards."""
    bare = LineEnd(fitting=job.new.end_at(feed_from.other).fitting)
    leads_to = feed_from is JobEnd.FROM
    return replace(job, new=replace(job.new, to_end=bare) if leads_to else replace(job.new, from_end=bare))


def _end_checks(job: Job, method: Method, feed_from: JobEnd, limits: ShopLimits) -> Iterator[Check]:
    if method.kind is MethodKind.LAID_OUTSIDE:
        return
    yield check_leading_end_can_be_set(leading_end=job.new.end_at(feed_from.other))
    fittings = fittings_drawn(job=job, method=method, feed_from=feed_from)
    over = check_joint_on_fittings(method=method, fittings=fittings, limits=limits)
    if over is not None:
        yield over
    if isinstance(method, LeaderLine):
        yield from check_magnet(leader=method, frame=job.frame)
    if job.old is not None and method.kind is MethodKind.OVER_CABLE:
        yield from check_cable_can_stay(job=job, old=job.old, feed_from=feed_from)
    if job.old is not None and is_joined_to_old_line(job=job, method=method):
        cut_end = job.old.end_at(feed_from)
        yield check_old_end_may_be_cut(cut_end=cut_end, keeps_old_brake=job.keeps_old_brake)
        apart = check_bores_stay_apart(method_kind=method.kind, old=job.old, new=job.new)
        if apart is not None:
            yield apart
