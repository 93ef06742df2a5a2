"""Plans with what earlier plans left in memory beside plans without; the command beside the libraries it stands on."""

import resource
import statistics
import subprocess
import sys
from functools import partial
from pathlib import Path

from catalog import STARTER_FOLDER, read_catalog, read_job
from planner import plan_job
from tests.benchmarks.bench_plan import empty_memories
from tests.benchmarks.beside.measured import Measured, Stopwatch

DEMOS = Path(__file__).parents[3] / "demo_frames"
EXAMPLE = Path(__file__).parents[2] / "catalog"
LIBRARIES = "import numpy, shapely, pydantic, typer, rich"


def warm_plans(*, rounds_n: int) -> Measured:
    """The demo's jobs of one line, each planned from emptied memories and once more: the same plan."""
    mine, theirs = Stopwatch(), Stopwatch()
    catalog = read_catalog([STARTER_FOLDER, *sorted(DEMOS.glob("*.frame.yaml"))])
    jobs = [read_job(path, catalog) for path in sorted(DEMOS.glob("*.job.yaml"))]
    for _ in range(rounds_n):
        for job in jobs:
            plan = partial(plan_job, job=job, workshop=catalog.workshop)
            empty_memories()
            assert theirs.time(plan) == mine.time(plan), job.id
    return Measured(
        name="warm plan",
        work=f"{len(jobs)} demo jobs, each for the second time; {rounds_n} rounds",
        ours_s=mine.seconds / rounds_n,
        beside="the same from emptied memories",
        beside_s=theirs.seconds / rounds_n,
    )


def cold_plan(*, rounds_n: int) -> Measured:
    """The whole command in a process of its own, and one that only imports the libraries, by turns; medians."""
    frame, job = EXAMPLE / "example_frame.yaml", EXAMPLE / "example_job.yaml"
    command = ("from ui.terminal import main; main()", "plan", str(job), "--catalog", str(frame), "--json")
    plans, libraries = [], []
    for _ in range(rounds_n):
        libraries.append(cpu_s_of(LIBRARIES))
        plans.append(cpu_s_of(*command))
    return Measured(
        name="cold plan",
        work=f"one plan from the command line; median of {rounds_n}",
        ours_s=statistics.median(plans),
        beside="Python importing numpy, shapely, pydantic, typer and rich, no plan",
        beside_s=statistics.median(libraries),
        aim="0.59",
    )


def cpu_s_of(code: str, *words: str) -> float:
    """CPU time of a Python process that runs some code and must end well."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run([sys.executable, "-c", code, *words], check=True, capture_output=True)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime - before.ru_utime + after.ru_stime - before.ru_stime
