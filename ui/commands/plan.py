"""`lineplan plan`: read, plan, tell."""

import json
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from ui.reports.refusals import refusals_as_sentences
from ui.shared.catalog_choice import CatalogChoice
from ui.shared.exit_status import status_of
from ui.shared.planned_visit import PlannedVisit, find_planned_either

if TYPE_CHECKING:
    from planner import Picture, RoutingPlan
    from planner.parts import Job


def run_plan(
    asked: Path | str,
    catalog_paths: Sequence[Path] | None,
    *,
    as_json: bool,
    is_whole: bool = False,
    pictures: Path | None,
    replaces: bool = False,
    is_bare: bool = False,
    place: str = "",
) -> int:
    """Plan a job, write its pictures where they are wanted, print the plan; returns the exit status.

    asked : a job file, or the name of a saved job
    catalog_paths, is_bare, place : which catalog, see CatalogChoice
    is_whole : told with every figure and reason, or only what the hands need
    replaces : whether pictures that are there may be lost
    """
    with refusals_as_sentences():
        if pictures is not None:
            _refuse_no_folder(pictures)
        choice = CatalogChoice(paths=tuple(catalog_paths or ()), is_bare=is_bare, place=place)
        planned = find_planned_either(str(asked), choice=choice)
        if isinstance(planned, PlannedVisit):
            return _tell_visit(planned, as_json=as_json, is_whole=is_whole, pictures=pictures, replaces=replaces)
        for remark in planned.remarks:
            print(remark, file=sys.stderr)
        job, plan = planned.job, planned.plan
        if pictures is not None:
            write_pictures(plan, job, pictures, replaces=replaces)
    if as_json:
        from planner import plan_as_record

        print(json.dumps(plan_as_record(plan), indent=2, ensure_ascii=False))
    else:
        from ui.reports.plan_report import print_plan

        print_plan(plan, is_whole=is_whole)
    return status_of(plan.outcome)


def _refuse_no_folder(folder: Path) -> None:
    from catalog import FileNotWritten, folder_obstacle

    in_the_way = folder_obstacle(folder)
    if in_the_way is not None:
        raise FileNotWritten([in_the_way])


def _tell_visit(planned: PlannedVisit, *, as_json: bool, is_whole: bool, pictures: Path | None, replaces: bool) -> int:
    from planner import visit_as_record

    for remark in planned.remarks:
        print(remark, file=sys.stderr)
    plan = planned.plan
    if pictures is not None:
        from ui.shared.visit_pictures import pictures_of_visit

        _write_drawn(pictures_of_visit(plan, planned.visit), pictures, replaces=replaces)
    if as_json:
        print(json.dumps(visit_as_record(plan), indent=2, ensure_ascii=False))
    else:
        from ui.reports.visit_report import print_visit

        print_visit(plan, is_whole=is_whole)
    return status_of(plan.outcome)


def write_pictures(plan: "RoutingPlan", job: "Job", folder: Path, *, replaces: bool) -> None:
    """Write every picture of a plan as an SVG file into a folder; all of them or, where one stands in the way, none.

    replaces : whether files that say something else may be lost

    Raises FileNotWritten with everything that stands in the way.
    """
    from ui.shared.plan_pictures import pictures_of

    drawn = {f"{plan.job_id}-{name}": picture for name, picture in pictures_of(plan, job).items()}
    _write_drawn(drawn, folder, replaces=replaces)


def _write_drawn(drawn: "Mapping[str, Picture]", folder: Path, *, replaces: bool) -> None:
    from catalog import make_folder, write_all

    make_folder(folder)
    write_all({folder / f"{name}.svg": picture.svg for name, picture in drawn.items()}, replaces=replaces)
