"""A job of one line or of several with its plan: read from a file and planned, or as the store keeps both."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from catalog import Catalog, read_job_or_visit
from planner.parts import Job, Visit, Workshop
from ui.shared.catalog_choice import CatalogChoice, chosen_catalog, stand_in_remarks
from ui.shared.planned_job import (
    ONE_LINE,
    JobForm,
    PlannedJob,
    fields_opened,
    is_job_file,
    kept_in_form,
    kept_plan,
    planned_from_file,
    saved_job,
    store_with_jobs,
)

if TYPE_CHECKING:
    from catalog import Pin, Store, StoredJob
    from planner import VisitPlan


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedVisit:
    """A visit and its plan.

    workshop : it was planned with
    for_whom : whom the job is for; "" where that was not told
    plan_id, pins : the plan's number in the store and the revisions it was made from; None and none for a file
    remarks : what the reader should know about where it comes from
    """

    visit: Visit
    plan: "VisitPlan"
    workshop: Workshop
    for_whom: str = ""
    plan_id: int | None = None
    pins: "tuple[Pin, ...]" = ()
    remarks: tuple[str, ...] = ()


Planned = PlannedJob | PlannedVisit


def _visit_of(fields: Mapping[str, object], catalog: Catalog) -> Visit:
    from catalog import visit_from_fields

    return visit_from_fields(fields, catalog)


def _plan_of(visit: Visit, workshop: Workshop) -> "VisitPlan":
    from planner import plan_visit

    return plan_visit(visit=visit, workshop=workshop)


def _record_of(plan: "VisitPlan") -> dict[str, Any]:
    from planner import visit_as_record

    return visit_as_record(plan)


def _answer() -> "type[VisitPlan]":
    from planner import VisitPlan

    return VisitPlan


SEVERAL_LINES = JobForm(opened=_visit_of, plan=_plan_of, record=_record_of, answer=_answer)


def find_planned_either(asked: str, *, choice: CatalogChoice) -> Planned:
    """The job or the visit in a file, planned; or the saved one of that name with the plan that was kept with it."""
    if not is_job_file(asked) and not choice.paths and not choice.is_bare:
        with store_with_jobs(asked, place=choice.place) as store:
            return kept_either(store, asked)
    catalog = chosen_catalog(choice)
    job = find_job_or_visit(asked, catalog=catalog, place=choice.place)
    planned = planned_from_file(job, catalog) if isinstance(job, Job) else _planned_visit(job, catalog)
    return planned if is_job_file(asked) else replace(planned, for_whom=saved_job(asked, place=choice.place).for_whom)


def _planned_visit(visit: Visit, catalog: Catalog) -> PlannedVisit:
    plan, remarks = _plan_of(visit, catalog.workshop), stand_in_remarks(catalog.stands_in)
    return PlannedVisit(visit=visit, plan=plan, workshop=catalog.workshop, remarks=remarks)


def find_job_or_visit(asked: str, *, catalog: Catalog, place: str) -> Job | Visit:
    """The job in a file or the saved one of that name, of one line or of several, held against a catalog.

    Raises EntryNotAccepted with everything that is wrong with it, or CommandRefused where there is no store to look in.
    """
    if is_job_file(asked):
        return read_job_or_visit(Path(asked), catalog)
    return job_or_visit_opened(saved_job(asked, place=place), catalog)


def job_or_visit_opened(stored: "StoredJob", catalog: Catalog) -> Job | Visit:
    """A saved job, of one line or of several, held against a catalog.

    Raises EntryNotAccepted with everything that is wrong with it.
    """
    job: Job | Visit = fields_opened(stored, catalog, form_of(stored.content))
    return job


def form_of(fields: Mapping[str, object]) -> JobForm[Any, Any]:
    """How a job with these fields is opened, planned and told."""
    return SEVERAL_LINES if is_visit(fields) else ONE_LINE


def is_visit(fields: Mapping[str, object]) -> bool:
    """Whether a job with these fields is one of several lines."""
    from catalog import has_several_lines

    return has_several_lines({"job": fields})


def kept_either(store: "Store", name: str) -> Planned:
    """A saved job of one line or of several, with the plan kept last."""
    stored: StoredJob = store.jobs.get(name)
    if form_of(stored.content) is ONE_LINE:
        return kept_plan(store, name)
    kept = kept_in_form(store, stored, SEVERAL_LINES)
    return PlannedVisit(
        visit=kept.job,
        plan=kept.plan,
        workshop=kept.workshop,
        for_whom=stored.for_whom,
        plan_id=kept.plan_id,
        pins=kept.pins,
        remarks=kept.remarks,
    )
