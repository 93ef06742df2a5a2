"""One change to a job or a shop, tried by planning again: does it turn the no, and what still stands in the way?"""

from collections.abc import Callable, Iterator, Mapping, Set
from dataclasses import replace

from planner.geometry.packing.work import Allowance
from planner.parts import Job, Method, NewLine, Workshop
from planner.plan.routing_plan import RoutingPlan
from planner.plan.way_out import WayOut
from planner.quick_dataclass import dataclass
from planner.routing.attempts import works_somehow
from planner.routing.run_graph import RunGraph
from planner.rules import LengthRule
from planner.verdicts import Check, Outcome

NO_WAY = "no way"
"""What stands for the way among the rules that speak against a job."""

Replan = Callable[[Job, Workshop], RoutingPlan]
"""Plans a job again, without asking what would change a no."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stuck:
    """A job without a plan, with all that is needed to ask again.

    bend_checks : what the shape of each run has shown about the line's bends, by run id
    no : the plan that is none
    look : plans a changed job without a proof of what does not pass, which is UNKNOWN then
    replan : plans a changed job in full
    allowance : what is left of the work that questions about holes may cost; None for what the shop allows each time
    """

    job: Job
    workshop: Workshop
    graph: RunGraph
    bend_checks: Mapping[str, tuple[Check, ...]]
    no: RoutingPlan
    look: Replan
    replan: Replan
    allowance: Allowance | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """A change, and the job and shop it makes.

    ways : how it is told; several where several things have to change together
    """

    ways: tuple[WayOut, ...]
    job: Job
    workshop: Workshop


def confirmed(*, stuck: Stuck, change: Change) -> Iterator[WayOut]:
    """The change as it is told, with the outcome of the whole job then; nothing where it does not help.

    A change helps where the job then has a plan, or only lacks measures; or where of several things against it fewer
    are left, which are told.
    """
    then = stuck.look(change.job, change.workshop)
    against = faults_of(stuck.no).keys()
    if then.outcome is Outcome.UNKNOWN or _leaves_a_figure_out(then, against):
        then = stuck.replan(change.job, change.workshop)
    left = faults_of(then)
    if then.outcome < Outcome.NO_FIT or is_less(left.keys(), against):
        leaves = tuple(check for check in left.values() if check is not None)
        yield from (replace(way, outcome=then.outcome, leaves=leaves) for way in change.ways)


def _leaves_a_figure_out(glance: RoutingPlan, against: Set[str]) -> bool:
    """Whether a change helps but makes no plan yet, and what it leaves was not told with its figure."""
    left = faults_of(glance)
    return is_less(left.keys(), against) and any(
        check is not None and check.size_mm is not None and check.available_mm is None for check in left.values()
    )


def is_less(left: Set[str], before: Set[str]) -> bool:
    """Whether fewer things speak against a job; that its line is too short shows only once there is a way."""
    shown = {LengthRule.SUPPLIED_LENGTH.value} if NO_WAY in before and NO_WAY not in left else set()
    return left - shown < before


def faults_of(plan: RoutingPlan) -> dict[str, Check | None]:
    """What makes a no of a job, by rule, the way itself by its nearest miss; empty for what is no no."""
    if plan.outcome < Outcome.NO_FIT:
        return {}
    checks = (check for check in plan.checks if check.outcome is Outcome.NO_FIT)
    if plan.no_route is None:
        return {check.rule.value: check for check in checks}
    nearest = next((miss.check for miss in plan.no_route.closest_misses), None)
    return {NO_WAY: nearest, **{check.rule.value: check for check in plan.no_route.parts_against}}


def passes_so(stuck: Stuck, job: Job, *, methods: tuple[Method, ...] | None = None) -> bool:
    """Whether a changed job has a way that can be planned on; parts and lengths are not asked.

    methods : to try; None for the shop's
    """
    return works_somehow(
        job=job,
        methods=stuck.workshop.methods if methods is None else methods,
        graph=stuck.graph,
        limits=stuck.workshop.limits,
        bend_checks=stuck.bend_checks,
        allowance=stuck.allowance,
    )


def with_new(job: Job, new: NewLine) -> Job:
    """The same job with another new line."""
    return replace(job, new=new)
