"""Every way that works, described and put in order: outcome, then handling, then minutes, then length."""

from collections.abc import Sequence

from planner.parts import Adapter, Fact, Job, JobEnd, LineFamily, Method, Placeholder, PullWord, Workshop
from planner.plan.cut_length import bitten_mm, check_supplied_length, find_lengths
from planner.plan.job_facts import JobWay, find_job_facts
from planner.plan.job_time import expected_minutes
from planner.plan.job_words import find_job_words
from planner.plan.joint_drag import find_joint
from planner.plan.leg_views import leg_as_travelled, with_slack
from planner.plan.length_allowance import BY_SHAPE
from planner.plan.lengths import LegLength, Lengths
from planner.plan.routing_plan import Joint, PlanOption, Remark, Step
from planner.plan.work_order import find_part_ids, find_steps
from planner.quick_dataclass import dataclass
from planner.routing.attempts import Attempt
from planner.routing.made import is_joined_to_old_line
from planner.rules import Suits
from planner.verdicts import Check, Outcome, worst_of

HANDLING = {PullWord.MAY_PULL: 0, PullWord.EASE_GENTLY: 1, PullWord.PUSH_ONLY: 2, None: 2}
"""The more a joint bears the better; one whose hold nobody knows is only pushed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pin:
    """The one way of doing a job that is wanted, whatever else would be better.

    method_id, feed_from : how
    undoes_leading : whether a fitting is taken off the leading end first
    """

    method_id: str
    feed_from: JobEnd
    undoes_leading: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """One attempt that found a way, with all that its plan needs.

    attempt : the method, direction and route
    joint : its joint
    lengths : of the new line on its route
    facts, words : for steps and cautions
    steps : its work order
    option : the short form
    length_checks : whether the supplied line reaches
    """

    attempt: Attempt
    joint: Joint
    lengths: Lengths
    facts: frozenset[Fact]
    words: dict[Placeholder, str]
    steps: tuple[Step, ...]
    option: PlanOption
    length_checks: tuple[Check, ...]


def find_candidates(
    *,
    workshop: Workshop,
    attempts: Sequence[Attempt],
    legs: dict[str, LegLength],
    worst_allowed: Outcome,
    adapter: Adapter | None = None,
    pin: Pin | None = None,
) -> tuple[Candidate, ...]:
    """Every method and end that found a way no worse than allowed, best first.

    Returns ordered by outcome, the supplied length counted, then those on the old line's way where that is known, then
    by what the hands may do to
    the joint (pull, ease, push only), then expected minutes, repeats of what fails counted, then length; of equals the
    rod that suits its bores best, then the joint that holds more, then by name.

    workshop : its limits and steps
    attempts : everything tried
    legs : every run's length and shape, by run id
    adapter : what goes between frame and caliper
    worst_allowed : TIGHT for a plan to work from; UNKNOWN to see what would have to be measured
    pin : goes before all others

    Common practice, no source: a joint that holds is worth more than minutes saved.
    """
    described = (
        describe_attempt(workshop=workshop, attempt=attempt, legs=legs, adapter=adapter)
        for attempt in attempts
        if attempt.outcome <= worst_allowed
    )
    found = [candidate for candidate in described if candidate is not None]
    best: dict[tuple[str, JobEnd], Candidate] = {}
    for candidate in sorted(found, key=lambda each: (not _is_pinned(each, pin), rank_of_candidate(each))):
        best.setdefault((candidate.option.method_id, candidate.option.feed_from), candidate)
    return tuple(best.values())


def _is_pinned(candidate: Candidate, pin: Pin | None) -> bool:
    attempt = candidate.attempt
    told = Pin(method_id=attempt.method.id, feed_from=attempt.feed_from, undoes_leading=attempt.undoes_leading)
    return told == pin


def handling_of(candidate: Candidate) -> int:
    """How careful the hands must be: 0 where the joint may be pulled or there is none, 1 eased, 2 pushed only."""
    return handling_of_pull(method=candidate.attempt.method, advice=candidate.option.joint.advice)


def handling_of_pull(*, method: Method, advice: PullWord | None) -> int:
    """The same from what the hands may do to the joint."""
    return HANDLING[advice] if method.kind.can_part_inside else 0


def rank_of_candidate(candidate: Candidate) -> tuple[Outcome, bool, int, float, bool, float, float, float, str, str]:
    """What candidates are put in order by, best first, minutes and mm among it: see `find_candidates`."""
    option, route = candidate.option, candidate.attempt.route
    return (
        max(option.outcome, worst_of(candidate.length_checks, of_nothing=Outcome.FITS)),
        candidate.attempt.leaves_old_way,
        handling_of(candidate),
        option.work_min,
        candidate.attempt.undoes_leading,
        0.0 if route is None else route.length_mm,
        looseness_mm(candidate.attempt.general_checks),
        -(option.joint.holds_n or 0.0),
        option.method_id,
        option.feed_from.value,
    )


def looseness_mm(general_checks: Sequence[Check]) -> float:
    """How badly a rod suits its bores: the play of a spoke; for a stud the less, the farther it is from its limits."""
    signs = {Suits.LITTLE_ROOM: 1.0, Suits.MUCH_ROOM: -1.0}
    rooms = (
        signs[check.rule.row.suits] * check.clearance_mm
        for check in general_checks
        if check.rule.row.suits in signs and check.clearance_mm is not None
    )
    return max(rooms, default=0.0)


def describe_attempt(
    *, workshop: Workshop, attempt: Attempt, legs: dict[str, LegLength], adapter: Adapter | None
) -> Candidate | None:
    """One attempt with the lengths, facts and steps of its way.

    None where no joint can be made or no way was found.

    workshop : its limits and steps
    legs : every run's length and shape, by run id
    adapter : what goes between frame and caliper
    """
    job = attempt.job
    joint = find_joint(job=job, attempt=attempt, legs=legs, limits=workshop.limits)
    if joint is None or attempt.route is None:
        return None
    feed_from = attempt.feed_from
    route = attempt.route.port_ids
    travelled = [
        with_slack(
            leg=leg_as_travelled(leg=legs[state.run_id], from_place=state.place), run=job.frame.runs[state.run_id]
        )
        for state in attempt.route.states
    ]
    lengths = find_lengths(
        job=job,
        legs=travelled,
        limits=workshop.limits,
        posture=_posture_words(job, travelled),
        bitten_mm=bitten_mm(job=job, method=attempt.method, feed_from=feed_from, limits=workshop.limits),
        undone_mm=(workshop.limits.undone_end_mm or 0.0) if attempt.undoes_leading else 0.0,
        leaves_old_way=attempt.leaves_old_way,
    )
    way = JobWay(
        job=job,
        method=attempt.method,
        feed_from=feed_from,
        joint=joint,
        route=route,
        adapter=adapter,
        undoes_leading=attempt.undoes_leading,
        leaves_old_way=attempt.leaves_old_way,
        bitten_mm=lengths.bitten_mm,
    )
    facts, words = find_job_facts(way), find_job_words(way, lengths=lengths)
    steps = find_steps(workshop=workshop, facts=facts, words=words)
    step_ids = tuple(step.id for step in steps)
    option = PlanOption(
        method=attempt.method,
        feed_from=feed_from,
        part_ids=find_part_ids(job=job, method=attempt.method, feed_from=feed_from),
        cut_old_at=cut_old_at(job=job, method=attempt.method, feed_from=feed_from),
        route=route,
        outcome=attempt.outcome,
        joint=joint,
        holds_drag=_holds(joint),
        work_min=float(expected_minutes(step_ids=step_ids, method=attempt.method, workshop=workshop)),
        length_mm=None if any(leg.way_mm is None for leg in travelled) else attempt.route.length_mm,
        step_ids=step_ids,
        cut_mm=lengths.cut_mm,
        remark=_remark(attempt, joint),
    )
    reach = check_supplied_length(lengths=lengths)
    return Candidate(
        attempt=attempt,
        joint=joint,
        lengths=lengths,
        facts=facts,
        words=words,
        steps=steps,
        option=option,
        length_checks=() if reach is None else (reach,),
    )


def cut_old_at(*, job: Job, method: Method, feed_from: JobEnd) -> JobEnd | None:
    """Where the old line is cut: nowhere where it draws nothing, and a wire never."""
    is_cut = job.old is not None and job.old.line.kind.family is not LineFamily.ELECTRIC
    return feed_from if is_cut and is_joined_to_old_line(job=job, method=method) else None


def _remark(attempt: Attempt, joint: Joint) -> Remark:
    if not attempt.method.kind.can_part_inside:
        return Remark.NO_JOINT
    return Remark.HOLDS_NOTHING if joint.holds_n == 0 else Remark.NONE


def _posture_words(job: Job, legs: Sequence[LegLength]) -> str:
    """What the lengths were looked at over."""
    if any(leg.told_by is not None for leg in legs) and not any(leg.basis.startswith(BY_SHAPE) for leg in legs):
        return "as measured"
    moves = job.frame.bar is not None or job.frame.rear is not None
    return "worst posture of bar and rear" if moves else "at rest"


def _holds(joint: Joint) -> bool | None:
    if joint.holds_n is None or joint.drag_n is None:
        return None
    return joint.holds_n >= joint.drag_n and joint.holds_n > 0
