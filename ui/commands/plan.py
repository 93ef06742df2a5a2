"""`lineplan plan`: read, plan, tell."""

import json
from pathlib import Path

from catalog import FileNotWritten, folder_obstacle, make_folder, read_catalog, read_job, write_all
from planner import RoutingPlan, plan_as_record, plan_job
from planner.parts import Job
from ui.reports.refusals import refusals_as_sentences
from ui.shared.exit_status import status_of


def run_plan(
    job_file: Path, catalog_paths: list[Path] | None, *, as_json: bool, pictures: Path | None, replaces: bool = False
) -> int:
    """Plan the job in a file, write its pictures where they are wanted, print the plan; returns the exit status.

    replaces : whether pictures that are there may be lost
    """
    with refusals_as_sentences():
        in_the_way = None if pictures is None else folder_obstacle(pictures)
        if in_the_way is not None:
            raise FileNotWritten([in_the_way])
        catalog = read_catalog(catalog_paths or None)
        job = read_job(job_file, catalog)
        plan = plan_job(job=job, workshop=catalog.workshop)
        if pictures is not None:
            write_pictures(plan, job, pictures, replaces=replaces)
    if as_json:
        print(json.dumps(plan_as_record(plan), indent=2, ensure_ascii=False))
    else:
        from ui.reports.plan_report import print_plan

        print_plan(plan, job)
    return status_of(plan.outcome)


def write_pictures(plan: RoutingPlan, job: Job, folder: Path, *, replaces: bool) -> None:
    """Write every picture of a plan as an SVG file into a folder; all of them or, where one stands in the way, none.

    replaces : whether files that say something else may be lost

    Raises FileNotWritten with everything that stands in the way.
    """
    from ui.shared.plan_pictures import pictures_of

    drawn: dict[Path, str | bytes] = {
        folder / f"{plan.job_id}-{name}.svg": picture.svg for name, picture in pictures_of(plan, job).items()
    }
    make_folder(folder)
    write_all(drawn, replaces=replaces)
