"""`lineplan plan`: read, plan, tell."""

import json
import sys
from pathlib import Path

from catalog import read_catalog, read_job
from planner import RoutingPlan, plan_as_record, plan_job
from planner.parts import Job
from planner.verdicts import Outcome
from ui.reports.refusals import EXIT_BAD_INPUT, refusals_as_sentences

EXIT_PLAN, EXIT_NO_PLAN = 0, 3


def run_plan(job_file: Path, catalog_paths: list[Path] | None, *, as_json: bool, pictures: Path | None) -> int:
    """Plan the job in a file and print the plan; returns the exit status."""
    if pictures is not None and not _is_folder(pictures):
        return EXIT_BAD_INPUT
    with refusals_as_sentences():
        catalog = read_catalog(catalog_paths or None)
        job = read_job(job_file, catalog)
        plan = plan_job(job=job, workshop=catalog.workshop)
    if as_json:
        print(json.dumps(plan_as_record(plan), indent=2, ensure_ascii=False))
    else:
        from ui.reports.plan_report import print_plan

        print_plan(plan, job)
    if pictures is not None:
        write_pictures(plan, job, pictures)
    return EXIT_PLAN if plan.outcome <= Outcome.TIGHT else EXIT_NO_PLAN


def _is_folder(folder: Path) -> bool:
    """Whether the folder is there or can be made; told on the error stream where not, before anything is printed."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as refusal:
        why = refusal.strerror or "it cannot be used"
        print(f"plan > pictures: {folder} was given, allowed: a folder to write to ({why})", file=sys.stderr)
        return False
    return True


def write_pictures(plan: RoutingPlan, job: Job, folder: Path) -> None:
    """Write every picture of a plan as an SVG file into a folder."""
    from ui.shared.plan_pictures import pictures_of
    from ui.shared.whole_files import write_whole

    for name, svg in pictures_of(plan, job).items():
        write_whole(folder / f"{plan.job_id}-{name}.svg", svg)
