"""A visit becomes a plan: the order decided first, then each line described at its moment, then the work of all."""

from collections.abc import Iterable, Sequence

from planner.parts import Visit, Workshop
from planner.plan.names import Names, find_frame_names
from planner.plan.routing_plan import RoutingPlan
from planner.verdicts import Outcome
from planner.whole_bike.moments import Moment, find_moments, plan_moment
from planner.whole_bike.place_book import MOST_PACKINGS
from planner.whole_bike.visit_plan import LinePlan, OrderStep, VisitPlan
from planner.whole_bike.visit_search import Answer, VisitSearch, find_visit_order
from planner.whole_bike.visit_totals import find_totals
from planner.whole_bike.visit_work_order import find_turn, find_visit_steps


def plan_visit(*, visit: Visit, workshop: Workshop, most_packings: int = MOST_PACKINGS) -> VisitPlan:
    """Plan several lines in one visit.

    Returns outcome FITS or TIGHT with an order to work in; UNKNOWN with what to measure; NO_FIT with what forbids it.

    visit : frame, lines and what the job allows
    workshop : methods, limits, steps and small parts
    most_packings : how many questions about several things in one hole may be asked before the best so far is told

    Raises OldWayNotToldError where an old line may lie on several ways and the job does not say.
    """
    answer, search = find_visit_order(visit=visit, workshop=workshop, most_packings=most_packings)
    if answer.found.order is None:
        return VisitPlan(
            visit_id=visit.id,
            visit_title=visit.title,
            frame_id=visit.frame.id,
            frame_name=visit.frame.name,
            outcome=answer.outcome,
            is_proven=answer.is_proven,
            names=_names_of(visit, ()),
        )
    return _plan_of_order(visit, workshop, answer, search)


def _plan_of_order(visit: Visit, workshop: Workshop, answer: Answer, search: VisitSearch) -> VisitPlan:
    steps_book = search.steps.asking(level=answer.outcome)
    moments = find_moments(visit=visit, found=answer.found, steps=steps_book)
    plans = [plan_moment(moment=moment, workshop=workshop) for moment in moments]
    names = _names_of(visit, plans)
    turns = [
        find_turn(visit=visit, moment=moment, plan=plan, workshop=workshop)
        for moment, plan in zip(moments, plans, strict=True)
    ]
    outcome = max((answer.outcome, *(plan.outcome for plan in plans if plan is not None)))
    steps = find_visit_steps(turns=turns, workshop=workshop, names=names) if outcome <= Outcome.TIGHT else ()
    return VisitPlan(
        visit_id=visit.id,
        visit_title=visit.title,
        frame_id=visit.frame.id,
        frame_name=visit.frame.name,
        outcome=outcome,
        is_proven=answer.is_proven,
        order=tuple(OrderStep(line_id=moment.line.id, kind=moment.kind) for moment in moments),
        lines=_line_plans(moments, plans),
        steps=steps,
        totals=find_totals(turns=turns, steps=steps, workshop=workshop),
        cautions=tuple(dict.fromkeys(told for plan in plans if plan is not None for told in plan.cautions)),
        names=names,
    )


def _line_plans(moments: Sequence[Moment], plans: Sequence[RoutingPlan | None]) -> tuple[LinePlan, ...]:
    """One for each line; of a line taken out first, that of its going in."""
    found = {moment.line.id: plan for moment, plan in zip(moments, plans, strict=True)}
    return tuple(LinePlan(line_id=line_id, plan=plan) for line_id, plan in found.items())


def _names_of(visit: Visit, plans: Iterable[RoutingPlan | None]) -> Names:
    of_frame = find_frame_names(visit.frame)
    things = {key: name for plan in plans if plan is not None for key, name in plan.names.things.items()}
    return Names(places=of_frame.places, runs=of_frame.runs, things=things)
