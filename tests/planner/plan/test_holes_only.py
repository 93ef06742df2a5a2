"""A frame told by its holes alone is answered like the same frame with every place told, but for lengths."""

from dataclasses import replace
from typing import Any

import pytest

from planner.parts import Point
from planner.routing.leg_poses import told_length_mm
from tests.planner.plan.level_samples import (
    JOBS,
    demo_job,
    holes_only,
    planned,
    planned_in_full,
    with_nonsense,
    with_words,
)

LENGTH_RULES = ("supplied_length", "measured_length", "led_point")
SAME = (
    "route",
    "runs",
    "method",
    "feed_from",
    "cut_old_at",
    "parts",
    "measure_first",
    "fit_chance",
    "needs",
    "rejected",
    "no_route",
)


@pytest.fixture(params=JOBS)
def name(request: pytest.FixtureRequest) -> str:
    return str(request.param)


def what_holes_decide(record: dict[str, Any]) -> dict[str, Any]:
    """All of a record that no length goes into; what would change a no asks whether the supplied line reaches, too."""
    kept = {key: record[key] for key in SAME}
    kept["no_route"] = record["no_route"] and {
        key: record["no_route"][key] for key in sorted({*record["no_route"]} - {"ways_out"})
    }
    kept["joint"] = record["joint"] and {key: record["joint"][key] for key in record["joint"] if "drag" not in key}
    kept["steps"] = [step["id"] for step in record["steps"]]
    kept["checks"] = [check for check in record["checks"] if check["rule"] not in LENGTH_RULES]
    return kept


def test_without_any_place_all_but_the_lengths_is_the_same(name: str) -> None:
    job, workshop = demo_job(name)
    full, bare = planned_in_full(name), planned(holes_only(job), workshop)
    assert what_holes_decide(bare) == what_holes_decide(full)
    assert full["joint"] is None or bare["joint"]["drag_n"] <= full["joint"]["drag_n"]


def test_places_without_sense_change_lengths_alone(name: str) -> None:
    """And the drag, which turns in a loop of nonsense and with it the choice among joints: both slide freely here."""
    job, workshop = demo_job(name)
    free = replace(job, new=replace(job.new, line=replace(job.new.line, friction_ratio=0.0, mass_g_per_m=0.0)))
    limits = replace(workshop.limits, friction_ratio=0.0)
    jobs = (with_words(free), with_nonsense(free, seed=JOBS.index(name)))
    full, nonsense = (what_holes_decide(planned(one, replace(workshop, limits=limits))) for one in jobs)
    for record in (full, nonsense):
        record["steps"] = []  # a plan whose supplied line is too short has none
    assert nonsense == full


def test_lengths_that_nobody_told_are_not_known(name: str) -> None:
    job, workshop = demo_job(name)
    bare, full = planned(holes_only(job), workshop), planned_in_full(name)
    assert bare["outcome"] == full["outcome"]  # a length that is not known is no part of it
    if bare["lengths"] is None:
        return
    measured = {run.id for run in job.frame.runs.values() if told_length_mm(run) is not None}
    told = {leg["run"]: leg["nominal_mm"] for leg in bare["lengths"]["legs"]}
    assert {run_id for run_id, nominal_mm in told.items() if nominal_mm is not None} == measured & set(told)
    if name == "taped-lengths":  # told leg by leg, it needs no place
        assert bare["lengths"] == full["lengths"]
        return
    assert not bare["lengths"]["known"]
    assert [bare["lengths"][key] for key in ("need_mm", "cut_mm", "spare_mm", "pressure_mm")] == [None] * 4


def test_a_measured_run_goes_before_its_guide_and_its_places() -> None:
    job, workshop = demo_job("trail-rear-brake")
    stay = replace(job.frame.runs["stay-run"], length_mm=341.0)
    run_ids = ("cockpit", "down-run", "bb-loop", "tail")
    told = {key: replace(job.frame.runs[key], length_mm=100.0 + i) for i, key in enumerate(run_ids)}
    frame = replace(job.frame, runs={**job.frame.runs, **told, "stay-run": stay})
    legs = planned(replace(job, frame=frame), workshop)["lengths"]["legs"]
    assert [(leg["run"], leg["nominal_mm"], leg["basis"]) for leg in legs] == [
        ("cockpit", 100.0, "told"),
        ("down-run", 101.0, "told"),
        ("bb-loop", 102.0, "told"),
        ("stay-run", 341.0, "told"),
        ("tail", 103.0, "told"),
    ]


def test_one_end_without_a_place_takes_the_length_of_its_runs_alone() -> None:
    job, workshop = demo_job("trail-rear-brake")
    belly = replace(job.frame.ports["belly-left"], position_mm=None, heading=None)
    frame = replace(job.frame, ports={**job.frame.ports, "belly-left": belly})
    legs = planned(replace(job, frame=frame), workshop)["lengths"]["legs"]
    full = planned_in_full("trail-rear-brake")["lengths"]["legs"]
    assert [leg["basis"] for leg in legs].count("not measured") == 2
    assert [leg for leg in legs if leg["run"] in ("cockpit", "stay-run", "tail")] == [
        leg for leg in full if leg["run"] in ("cockpit", "stay-run", "tail")
    ]


def test_places_that_a_measured_length_denies_stop_no_plan() -> None:
    job, workshop = demo_job("trail-rear-brake")
    high: Point = (404.0, 25.0, 2000.0)
    neck = replace(job.frame.ports["neck-left"], position_mm=high)
    run = replace(job.frame.runs["down-run"], length_mm=620.0)
    frame = replace(
        job.frame,
        ports={**job.frame.ports, "neck-left": neck},
        runs={**job.frame.runs, "down-run": run},
    )
    assert planned(replace(job, frame=frame), workshop)["lengths"]["legs"][1]["nominal_mm"] == 620
