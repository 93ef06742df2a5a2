"""A job file of several lines, planned."""

from dataclasses import dataclass
from pathlib import Path

from catalog import read_job_or_visit
from planner import VisitPlan, plan_visit
from planner.parts import Visit, Workshop
from ui.shared.catalog_choice import CatalogChoice, chosen_catalog, stand_in_remarks
from ui.shared.planned_job import is_job_file


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedVisit:
    """A visit and its plan.

    workshop : it was planned with
    remarks : what the reader should know about where it comes from
    """

    visit: Visit
    plan: VisitPlan
    workshop: Workshop
    remarks: tuple[str, ...]


def find_planned_visit(asked: str, *, choice: CatalogChoice) -> PlannedVisit | None:
    """The visit in a job file, planned; None where the file holds a job of one line, or a saved job is meant."""
    if not is_job_file(asked):
        return None
    catalog = chosen_catalog(choice)
    visit = read_job_or_visit(Path(asked), catalog)
    if not isinstance(visit, Visit):
        return None
    plan = plan_visit(visit=visit, workshop=catalog.workshop)
    return PlannedVisit(visit=visit, plan=plan, workshop=catalog.workshop, remarks=stand_in_remarks(catalog.stands_in))
