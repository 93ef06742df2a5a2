"""`lineplan demo`: an invented job planned, then the page."""

import sys
from pathlib import Path

from ui.commands.page import run_page
from ui.commands.plan import run_plan
from ui.shared.exit_status import ExitStatus

DEMO_FOLDER = Path(__file__).parents[2] / "demo_frames"


def run_demo(name: str, *, opens_page: bool) -> int:
    """Plan a demo job by name and open the page; returns the exit status."""
    jobs = {path.name.removesuffix(".job.yaml"): path for path in sorted(DEMO_FOLDER.glob("*.job.yaml"))}
    visits = {path.name.removesuffix(".visit.yaml"): path for path in sorted(DEMO_FOLDER.glob("*.visit.yaml"))}
    if name == "list":
        print("\n".join((*jobs, *visits)))
        return ExitStatus.DONE
    if name not in jobs | visits:
        known = ", ".join((*jobs, *visits)) or f"none (no folder {DEMO_FOLDER})"
        print(f"demo > job: {name} was given, there are: {known}", file=sys.stderr)
        return ExitStatus.BAD_INPUT
    frames = sorted(DEMO_FOLDER.glob("*.frame.yaml"))
    status = run_plan((jobs | visits)[name], frames, as_json=False, pictures=None)
    return run_page(port=None, catalog=frames, job=(jobs | visits)[name]) if opens_page else status
