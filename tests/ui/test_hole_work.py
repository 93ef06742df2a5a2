"""The work that a shop lets a hole cost: from its file to the check, and what is said where it runs out."""

from dataclasses import replace
from math import cos, pi, sin
from pathlib import Path

import pytest

from catalog import STARTER_FOLDER, Catalog, check_files, read_catalog
from planner import sentence_for
from planner.parts import JobEnd, OutlineOpening, StayingLine
from planner.routing.passage import Mover, check_step
from planner.routing.run_graph import RunState
from planner.rules import WORK_RAN_OUT
from planner.verdicts import Outcome, State, Thing, ThingKind
from tests.builders import make_job, make_lane_frame, make_limits, make_line
from ui.shared.fit_question import FitQuestion, find_answer

STAR = [
    ((6 + cos(5 * angle)) * cos(angle), (6 + cos(5 * angle)) * sin(angle))
    for angle in (2 * pi * k / 60 for k in range(60))
]
"""A hole like a star with five blunt points, which three things of 5 mm just pass."""


def catalog_with(tmp_path: Path, work: str) -> Catalog:
    own = tmp_path / "own.yaml"
    own.write_text(f"format: 1\nshop: {{{work}}}\n", encoding="utf-8")
    return read_catalog([STARTER_FOLDER, own])


def three_in_a_star(catalog: Catalog) -> Outcome:
    question = FitQuestion(
        opening_text=f"outline {' '.join(f'{x:.6f},{y:.6f}' for x, y in STAR)}",
        item_diameters_mm=(5.0, 5.0, 5.0),
        tilt_deg=0.0,
        wall_thickness_mm=1.0,
        tolerance_mm=0.1,
        item_tolerance_mm=0.05,
        rigid_length_mm=None,
        bore_mm=None,
    )
    answer = find_answer(question, catalog).side_by_side
    assert (answer.outcome is Outcome.UNKNOWN) == (answer.proof == WORK_RAN_OUT)
    return answer.outcome


def test_a_shop_that_allows_little_work_is_told_that_it_ran_out(tmp_path: Path) -> None:
    assert three_in_a_star(catalog_with(tmp_path, "hole_work: 0.00015")) is Outcome.UNKNOWN
    assert three_in_a_star(catalog_with(tmp_path, "hole_work: 20")) is Outcome.TIGHT
    assert three_in_a_star(catalog_with(tmp_path, "trim: 10")) is Outcome.TIGHT


@pytest.mark.parametrize("given", ["0", "1000000.0"])
def test_work_out_of_range_is_refused_with_its_unit(tmp_path: Path, given: str) -> None:
    own = tmp_path / "own.yaml"
    own.write_text(f"format: 1\nshop: {{hole_work: {given}}}\n", encoding="utf-8")
    (problem,) = check_files([own])
    assert f"hole_work: {given} million rows was given, 0.0001 to 10000 million rows is allowed" in str(problem)


@pytest.mark.parametrize(("rows", "outcome"), [(150, Outcome.UNKNOWN), (None, Outcome.TIGHT)])
def test_a_port_on_the_way_is_asked_with_the_shop_s_work(rows: int | None, outcome: Outcome) -> None:
    frame = make_lane_frame((12.0, 12.0))
    star = replace(frame.ports["in-0"], opening=OutlineOpening(points_mm=tuple(STAR), tolerance_mm=0.1))
    frame = replace(frame, ports={**frame.ports, "in-0": star})
    stays = tuple(StayingLine(line=make_line(id=f"stays-{k}"), through=("in-0",)) for k in range(2))
    checks = check_step(
        job=replace(make_job(frame), staying=stays),
        mover=Mover(
            joint=Thing(id="joint", kind=ThingKind.JOINT, diameter_mm=5.0, tolerance_mm=0.05),
            leading_fitting=None,
            feed_from=JobEnd.FROM,
        ),
        state=RunState(place="in-0", run_id="through-0"),
        limits=make_limits(hole_work_rows=rows),
    )
    (drawing,) = (one for one in checks if (one.port_id, one.state) == ("in-0", State.DRAWING))
    assert drawing.outcome is outcome
    told = "in in-0 the work that the shop allows a hole ran out before anything was proven"
    assert (sentence_for(drawing) == told) == (rows is not None)
