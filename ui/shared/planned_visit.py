"""A job file of several lines, planned; or of one line, where that is what the file holds."""

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from catalog import Catalog, read_job_or_visit
from planner.parts import Job, Visit, Workshop
from ui.shared.catalog_choice import CatalogChoice, chosen_catalog, stand_in_remarks
from ui.shared.planned_job import PlannedJob, find_planned, is_job_file, planned_from_file

if TYPE_CHECKING:
    from planner import VisitPlan


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedVisit:
    """A visit and its plan.

    workshop : it was planned with
    remarks : what the reader should know about where it comes from
    """

    visit: Visit
    plan: "VisitPlan"
    workshop: Workshop
    remarks: tuple[str, ...]


def find_planned_either(asked: str, *, choice: CatalogChoice) -> PlannedJob | PlannedVisit:
    """The job or the visit in a file, planned; or the saved job of that name with the plan that was kept with it."""
    if not is_job_file(asked):
        return find_planned(asked, choice=choice)
    catalog = chosen_catalog(choice)
    job = read_job_or_visit(Path(asked), catalog)
    return planned_from_file(job, catalog) if isinstance(job, Job) else _planned_visit(job, catalog)


def _planned_visit(visit: Visit, catalog: Catalog) -> PlannedVisit:
    from planner import plan_visit

    plan = plan_visit(visit=visit, workshop=catalog.workshop)
    return PlannedVisit(visit=visit, plan=plan, workshop=catalog.workshop, remarks=stand_in_remarks(catalog.stands_in))
