"""What all open jobs of the store take, by the plans kept last."""

from typing import TYPE_CHECKING

from catalog import JobState, NotInStore, QuoteState, Stock
from planner import OpenJob, RoutingPlan, Shelf, ShoppingList, VisitPlan, find_shopping_list
from planner.parts import Workshop
from ui.shared.planned_job import FORM_NOW, WHOLE, WHOLE_FORM
from ui.shared.planned_visit import is_visit, kept_either

if TYPE_CHECKING:
    from catalog import Store

OPEN_STATES = (JobState.WAITING, JobState.ON_THE_BENCH)
AGREED = (QuoteState.AGREED,)


def shopping_list_of(
    store: "Store", *, workshop: Workshop, only_agreed: bool, stock: Stock | None = None
) -> ShoppingList:
    """Small parts, adapters and lines of every job that is waiting or on the bench.

    workshop : with what is on the shelf
    stock : what lines are cut from; None where nobody told
    only_agreed : whether only jobs count that have a quote which was agreed, or are on the bench
    """
    found = []
    for state in OPEN_STATES:
        for brief in store.briefs(state):
            is_agreed = state is JobState.ON_THE_BENCH or any(quote.state in AGREED for quote in brief.quotes)
            if is_agreed or not only_agreed:
                found.append(_open_job(store, brief.id))
    shelf = None if stock is None else Shelf(lengths=stock.lengths, kerf_mm=stock.kerf_mm)
    return find_shopping_list(sorted(found, key=lambda job: job.id), workshop=workshop, shelf=shelf)


def job_names(store: "Store") -> dict[str, str]:
    """What people call the jobs that are not finished, by id."""
    return {brief.id: brief.title for state in OPEN_STATES for brief in store.briefs(state)}


def _open_job(store: "Store", name: str) -> OpenJob:
    plan = _plan(store, name)
    if plan is None or not plan.outcome.lets_work_begin:
        return OpenJob(id=name)
    if isinstance(plan, VisitPlan):
        plans = tuple(line.plan for line in plan.lines if line.plan is not None)
        return OpenJob(id=name, plans=plans, parts=() if plan.totals is None else plan.totals.parts)
    return OpenJob(id=name, plans=(plan,), parts=plan.parts)


def _plan(store: "Store", name: str) -> RoutingPlan | VisitPlan | None:
    """The plan kept last, as it was kept; one of an older program is made again."""
    from catalog import from_record

    numbers = store.plans.ids_of_job(name)
    if not numbers:
        return None
    record = store.plans.get(numbers[-1]).record
    if record.get(WHOLE_FORM) != FORM_NOW or WHOLE not in record:
        try:
            return kept_either(store, name).plan
        except NotInStore:
            return None
    if is_visit(store.jobs.get(name).content):
        return from_record(VisitPlan, record[WHOLE])
    return from_record(RoutingPlan, record[WHOLE])
