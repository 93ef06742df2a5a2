"""A visit becomes a plan: the order decided first, then each line described at its moment, then the work of all."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from planner.parts import Visit, VisitLine, Workshop
from planner.plan.job_facts import BRAKE_LINES
from planner.plan.names import Names, find_frame_names
from planner.plan.plan_builder import plan_job
from planner.plan.routing_plan import RoutingPlan
from planner.verdicts import Outcome
from planner.whole_bike.hole_stories import find_hole_stories
from planner.whole_bike.line_ways import job_of_line
from planner.whole_bike.moments import Moment, find_moments, plan_moment
from planner.whole_bike.place_book import MOST_PACKINGS
from planner.whole_bike.reasons import find_conflict, find_forced
from planner.whole_bike.visit_memory import VisitMemory
from planner.whole_bike.visit_plan import LinePlan, OrderStep, VisitPlan
from planner.whole_bike.visit_search import Answer, VisitSearch, find_visit_order, least_minutes
from planner.whole_bike.visit_totals import find_totals
from planner.whole_bike.visit_ways_out import VisitWayOut, VisitWayOutKind, find_visit_ways_out
from planner.whole_bike.visit_work_order import find_turn, find_visit_steps


def plan_visit(
    *, visit: Visit, workshop: Workshop, most_packings: int = MOST_PACKINGS, memory: VisitMemory | None = None
) -> VisitPlan:
    """Plan several lines in one visit.

    Returns outcome FITS or TIGHT with an order to work in; UNKNOWN with what to measure; NO_FIT with what forbids it.

    visit : frame, lines and what the job allows
    workshop : methods, limits, steps and small parts
    most_packings : how many questions about several things in one hole may be asked until the best so far is told;
        as many again for reasons and ways out
    memory : of the visit as it was planned before; a changed line is then planned in the time of that line

    Raises OldWayNotToldError where an old line may lie on several ways and the job does not say.
    """
    answer, search = find_visit_order(visit=visit, workshop=workshop, most_packings=most_packings, memory=memory)
    plan = VisitPlan(
        visit_id=visit.id,
        visit_title=visit.title,
        frame_id=visit.frame.id,
        frame_name=visit.frame.name,
        outcome=answer.outcome,
        is_proven=answer.is_proven,
        least_min=None if answer.is_proven else least_minutes(search=search),
        names=_names_of(visit, ()),
    )
    search.places.left = most_packings
    if answer.found.order is not None:
        return _with_order(plan, visit, workshop, answer, search)
    return _with_conflict(plan, visit, workshop, search) if answer.outcome is Outcome.NO_FIT else plan


def _with_conflict(plan: VisitPlan, visit: Visit, workshop: Workshop, search: VisitSearch) -> VisitPlan:
    """What forbids an order; a line that cannot be led in even alone is told by its own plan."""
    conflict = find_conflict(search=search, level=Outcome.UNKNOWN, splits=True)
    if conflict is None:
        is_by_wish = search.places.left > 0 and bool(visit.first or visit.before)
        wishes = (VisitWayOut(kind=VisitWayOutKind.OTHER_ORDER),) if is_by_wish else ()
        return replace(plan, ways_out=wishes, has_all_reasons=search.places.left > 0)
    alone = [line for line in visit.lines if conflict.line_ids == (line.id,)]
    plans = [plan_job(job=job_of_line(visit=visit, line=line), workshop=workshop) for line in alone]
    ways_out = find_visit_ways_out(search=search, conflict=conflict)
    return replace(
        plan,
        conflict=conflict,
        ways_out=ways_out,
        has_all_reasons=search.places.left > 0,
        lines=tuple(LinePlan(line_id=line.id, plan=each) for line, each in zip(alone, plans, strict=True)),
        names=_names_of(visit, plans),
    )


def _with_order(plan: VisitPlan, visit: Visit, workshop: Workshop, answer: Answer, search: VisitSearch) -> VisitPlan:
    steps_book = search.steps.asking(level=answer.outcome)
    moments = find_moments(visit=visit, found=answer.found, steps=steps_book)
    plans = [plan_moment(moment=moment, workshop=workshop, known=search.memory.plans) for moment in moments]
    names = _names_of(visit, plans)
    turns = [
        find_turn(visit=visit, moment=moment, plan=plan, workshop=workshop)
        for moment, plan in zip(moments, plans, strict=True)
    ]
    outcome = max((answer.outcome, *(plan.outcome for plan in plans if plan is not None)))
    steps = find_visit_steps(turns=turns, workshop=workshop, names=names) if outcome <= Outcome.TIGHT else ()
    level = max(answer.outcome, Outcome.TIGHT)
    whole_swaps = find_conflict(search=search, level=level, splits=False) if answer.split else None
    forced = find_forced(search=search, answer=answer)
    return replace(
        plan,
        outcome=outcome,
        order=_order(moments),
        lines=_line_plans(moments, plans),
        forced=forced,
        has_all_reasons=search.places.left > 0,
        conflict=whole_swaps,
        holes=find_hole_stories(visit=visit, found=answer.found, places=search.places),
        steps=steps,
        totals=find_totals(turns=turns, steps=steps, workshop=workshop) if outcome <= Outcome.TIGHT else None,
        cautions=tuple(dict.fromkeys(told for each in plans if each is not None for told in each.cautions)),
        names=names,
    )


def _order(moments: Sequence[Moment]) -> tuple[OrderStep, ...]:
    """One step for each draw: of lines drawn in together the first stands for all."""
    draws: dict[int, list[Moment]] = {}
    for moment in moments:
        draws.setdefault(id(moment.chosen), []).append(moment)
    return tuple(
        OrderStep(
            line_id=draw[0].line.id,
            kind=draw[0].kind,
            together=tuple(moment.line.id for moment in draw) if len(draw) > 1 else (),
        )
        for draw in draws.values()
    )


def _line_plans(moments: Sequence[Moment], plans: Sequence[RoutingPlan | None]) -> tuple[LinePlan, ...]:
    """One for each line; of a line taken out first, that of its going in."""
    found = {moment.line.id: (moment, plan) for moment, plan in zip(moments, plans, strict=True)}
    return tuple(
        LinePlan(line_id=line_id, plan=plan, job=moment.job, leaves_no_brake=_leaves_no_brake(moment.line))
        for line_id, (moment, plan) in found.items()
    )


def _leaves_no_brake(line: VisitLine) -> bool:
    return line.new is None and line.old is not None and line.old.line.kind in BRAKE_LINES


def _names_of(visit: Visit, plans: Iterable[RoutingPlan | None]) -> Names:
    of_frame = find_frame_names(visit.frame)
    things = {key: name for plan in plans if plan is not None for key, name in plan.names.things.items()}
    return Names(places=of_frame.places, runs=of_frame.runs, things=things)
