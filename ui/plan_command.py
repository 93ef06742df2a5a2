"""`lineplan plan`: read, plan, tell."""

import json
from pathlib import Path

from catalog import read_catalog, read_job
from planner import RoutingPlan, plan_as_record, plan_job
from planner.parts import Job
from planner.verdicts import Outcome
from ui.refusals import refusals_as_sentences

EXIT_PLAN, EXIT_NO_PLAN = 0, 3


def run_plan(job_file: Path, catalog_paths: list[Path] | None, *, as_json: bool, pictures: Path | None) -> int:
    """Plan the job in a file and print the plan; returns the exit status."""
    with refusals_as_sentences():
        catalog = read_catalog(catalog_paths or None)
        job = read_job(job_file, catalog)
        plan = plan_job(job=job, workshop=catalog.workshop)
    if as_json:
        print(json.dumps(plan_as_record(plan), indent=2, ensure_ascii=False))
    else:
        from ui.plan_report import print_plan

        print_plan(plan, job)
    if pictures is not None:
        write_pictures(plan, job, pictures)
    return EXIT_PLAN if plan.outcome <= Outcome.TIGHT else EXIT_NO_PLAN


def write_pictures(plan: RoutingPlan, job: Job, folder: Path) -> None:
    """Write the side view and every checked hole as SVG files into a folder."""
    from planner import draw_hole, draw_route
    from ui.whole_files import write_whole

    folder.mkdir(parents=True, exist_ok=True)
    write_whole(folder / f"{plan.job_id}-route.svg", draw_route(plan, job.frame))
    for n, check in enumerate(check for check in plan.checks if check.placement is not None):
        place = check.port_id or check.run_id
        port = job.frame.ports.get(check.port_id or "")
        if port is not None:
            write_whole(folder / f"{plan.job_id}-{n + 1:02d}-{place}-{check.state}.svg", draw_hole(check, port))
