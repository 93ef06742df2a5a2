"""`lineplan save`: a job, its plan and the catalog they rest on, kept in the store."""

import sys

from planner import printable_line
from ui.reports.refusals import refusals_as_sentences
from ui.shared.exit_status import status_of
from ui.shared.import_words import PRUNE_COMMAND, import_lines
from ui.shared.job_keeping import KeptJob, SaveQuestion, keep_job
from ui.shared.planned_job import is_job_file
from ui.shared.quote_paper import verdict_of
from ui.shared.store_place import opened_store, who_saves


def run_save(question: SaveQuestion) -> int:
    """Keep a job and its plan, and tell what was kept; returns the exit status."""
    with refusals_as_sentences():
        by = who_saves(question.by, command="save")
        with opened_store(question.choice.place, creates=is_job_file(question.asked)) as store:
            kept = keep_job(store, question, by=by)
            place = store.place
    for remark in kept.planned.remarks:
        print(remark, file=sys.stderr)
    print("\n".join(_told(kept, place)))
    return status_of(kept.planned.plan.outcome)


def _told(kept: KeptJob, place: str) -> list[str]:
    """What was kept, a line each; what was there already is told as such."""
    job, plan = kept.job, kept.plan
    said = [verdict_of(kept.planned.plan)]
    job_words = f"version {job.version}" if kept.is_new_job else f"version {job.version}, unchanged"
    plan_words = f"plan {plan.id}" if kept.is_new_plan else f"plan {plan.id}, the same as before"
    said.append(f"Kept in {printable_line(str(place))}: job {job.id} ({job_words}), {plan_words}.")
    if kept.imported is not None:
        said += import_lines(kept.imported, prune_words=PRUNE_COMMAND)
    return said
