"""How long a plan takes: warm, with every memory emptied, and cold from the command line against bare imports.

Run with `python -m pytest tests/benchmarks/bench_plan.py --benchmark-only -s`.
"""

import gc
import statistics
import subprocess
import sys
import time
from dataclasses import replace
from functools import _lru_cache_wrapper
from pathlib import Path

import pytest

from catalog import read_catalog, read_job
from planner import plan_job

EXAMPLE = Path(__file__).parent.parent / "catalog"
LIBRARIES = "import typer, pydantic, yaml, networkx, numpy, shapely"
ALL_IT_NEEDS = "; ".join(
    (
        "from ui.terminal import app",
        "import ui.commands.plan, catalog",
        "import planner.plan.plan_builder, planner.documents.records.plan_record",
    )
)
COLD_RUNS = 9


@pytest.fixture(scope="module")
def example():
    catalog = read_catalog([EXAMPLE / "example_frame.yaml"])
    return read_job(EXAMPLE / "example_job.yaml", catalog), catalog.workshop


def empty_memories() -> None:
    """Forget every answer the planner remembers from earlier plans."""
    for thing in gc.get_objects():
        if isinstance(thing, _lru_cache_wrapper) and thing.__module__.startswith("planner"):
            thing.cache_clear()


def test_warm_plan(benchmark, example) -> None:
    job, workshop = example
    benchmark(lambda: plan_job(job=job, workshop=workshop))


def test_plan_with_memories_emptied(benchmark, example) -> None:
    job, workshop = example
    benchmark.pedantic(lambda: plan_job(job=job, workshop=workshop), setup=empty_memories, rounds=20)


@pytest.fixture(scope="module")
def example_at_rest(example):
    job, workshop = example
    return replace(job, frame=replace(job.frame, bar=None, rear=None)), workshop


def test_warm_plan_at_rest(benchmark, example_at_rest) -> None:
    job, workshop = example_at_rest
    benchmark(lambda: plan_job(job=job, workshop=workshop))


def test_plan_at_rest_with_memories_emptied(benchmark, example_at_rest) -> None:
    job, workshop = example_at_rest
    benchmark.pedantic(lambda: plan_job(job=job, workshop=workshop), setup=empty_memories, rounds=20)


def seconds_of(*command: object) -> float:
    begin = time.perf_counter()
    subprocess.run([str(word) for word in command], check=True, capture_output=True)
    return time.perf_counter() - begin


def test_cold_plan_against_bare_imports(benchmark) -> None:
    """In turns, so that a busy machine slows all alike; the medians of the ratios are the answer.

    Against a Python that imports all that the plan needs, our own modules too, and against one that imports the
    libraries alone.
    """
    plan = ("plan", EXAMPLE / "example_job.yaml", "--catalog", EXAMPLE / "example_frame.yaml", "--json")
    against_all, against_libraries = [], []
    for _ in range(COLD_RUNS):
        all_s = seconds_of(sys.executable, "-c", ALL_IT_NEEDS)
        libraries_s = seconds_of(sys.executable, "-c", LIBRARIES)
        plan_s = seconds_of(sys.executable, "-c", "from ui.terminal import main; main()", *plan)
        against_all.append(plan_s / all_s)
        against_libraries.append(plan_s / libraries_s)
    told = {"all imports": statistics.median(against_all), "libraries alone": statistics.median(against_libraries)}
    print(f"\ncold plan against {told}")
    benchmark.extra_info.update(told)
    benchmark.pedantic(lambda: None, rounds=1)
