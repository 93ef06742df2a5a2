"""Every row of a table says what the plan of that pair by itself says."""

from dataclasses import replace
from pathlib import Path

import pytest

from catalog import read_catalog, read_job
from planner import book_of, decide_case, look_of
from planner.parts import case_of_job
from tests.planner.table.one_by_one import told_by_plan, told_by_table
from tests.planner.table.random_pairs import pairs_told

DEMO = Path(__file__).parents[3] / "demo_frames"
CATALOG = read_catalog(sorted(DEMO.glob("*.frame.yaml")), over_starter=True)
BRAKE_JOBS = ("trail-rear-brake", "four-bar-rear-brake", "front-through-fork", "touring-unmeasured", "spoke-only")


@pytest.mark.parametrize("name", BRAKE_JOBS)
def test_a_demo_frame_against_every_brake(name: str) -> None:
    case = case_of_job(read_job(DEMO / f"{name}.job.yaml", CATALOG))
    brakes = tuple(CATALOG.brakes.values())
    answers = decide_case(case=case, book=book_of(tuple(map(look_of, brakes)), CATALOG.workshop))
    for look, brake in enumerate(brakes):
        assert told_by_table(answers, look, brake) == told_by_plan(case, brake, CATALOG.workshop), brake.id


def test_a_supplied_line_that_is_too_short_is_a_no_beside_a_way_that_fits() -> None:
    case = case_of_job(read_job(DEMO / "trail-rear-brake.job.yaml", CATALOG))
    brake = CATALOG.brakes["dunmere-4-rear"]
    short = replace(brake, supplied_length_mm=600.0)
    answers = decide_case(case=case, book=book_of((look_of(brake), look_of(short)), CATALOG.workshop))
    rows = [told_by_table(answers, look, one) for look, one in enumerate((brake, short))]
    assert [row["outcome"].word for row in rows] == ["fits", "no_fit"]
    assert (rows[1]["rule"], rows[1]["spare_mm"]) == ("supplied_length", 600.0 - rows[1]["cut_mm"])


def test_pairs_drawn_at_random() -> None:
    told = list(pairs_told(6, seed=3, shake=False))
    assert [name for name, plan, row in told if plan != row] == []
    assert len({plan["outcome"] for _, plan, _ in told}) > 1


def test_pairs_on_a_frame_measured_by_itself() -> None:
    assert [name for name, plan, row in pairs_told(1, seed=3, shake=True) if plan != row] == []


def test_pairs_whose_plans_run_out_of_work() -> None:
    told = list(pairs_told(3, seed=3, shake=False, plan_work_rows=300_000))
    assert [name for name, plan, row in told if plan != row] == []
    free = [plan for _, plan, _ in pairs_told(3, seed=3, shake=False)]
    assert [plan for _, plan, _ in told] != free
