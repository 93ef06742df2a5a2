"""`lineplan demo`: an invented job planned, then the page."""

import sys
from dataclasses import replace
from pathlib import Path

from ui.commands.page import PageQuestion, refuse_mixed, run_page
from ui.commands.plan import run_plan
from ui.reports.refusals import refusals_as_sentences
from ui.shared.exit_status import ExitStatus

DEMO_FOLDER = Path(__file__).parents[2] / "demo_frames"


def run_demo(name: str, page: PageQuestion | None) -> int:
    """Plan a demo job by name and open the page with it, where that is asked for; returns the exit status."""
    jobs = {path.name.removesuffix(".job.yaml"): path for path in sorted(DEMO_FOLDER.glob("*.job.yaml"))}
    visits = {path.name.removesuffix(".visit.yaml"): path for path in sorted(DEMO_FOLDER.glob("*.visit.yaml"))}
    if name == "list":
        print("\n".join((*jobs, *visits)))
        return ExitStatus.DONE
    if name not in jobs | visits:
        known = ", ".join((*jobs, *visits)) or f"none (no folder {DEMO_FOLDER})"
        print(f"demo > job: {name} was given, there are: {known}", file=sys.stderr)
        return ExitStatus.BAD_INPUT
    if page is not None:
        with refusals_as_sentences():
            refuse_mixed(page)
    frames = sorted(DEMO_FOLDER.glob("*.frame.yaml"))
    status = run_plan((jobs | visits)[name], frames, as_json=False, pictures=None)
    if page is None:
        return status
    return run_page(replace(page, catalog=[*frames, *(page.catalog or ())], job=(jobs | visits)[name]))
