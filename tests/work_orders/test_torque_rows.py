"""The torques that the hand-over record asks for, against the bolts that the work order leaves tight."""

import json
from pathlib import Path

import pytest

from planner import hand_over_asked
from planner.parts import Fact, LineFamily
from planner.plan.work_order import find_steps
from tests.work_orders.bolts import TIGHTENS, hold_rows, left_loose
from tests.work_orders.worked_jobs import starter
from ui.shared.catalog_choice import CatalogChoice
from ui.shared.hand_over import asked_of
from ui.shared.planned_visit import PlannedVisit, find_planned_either

DEMO = Path(__file__).parents[2] / "demo_frames"
JOBS = [
    path
    for path in sorted(DEMO.glob("*.job.yaml"))
    if json.loads((DEMO / "expected" / path.name.replace(".job.yaml", ".json")).read_text(encoding="utf-8"))[
        "exit_status"
    ]
    == 0
]
"""The demo jobs that are worked at all: a no has no steps."""


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.name)
def test_every_demo_job_has_a_row_for_each_bolt_it_tightens_and_no_other(path: Path) -> None:
    planned = find_planned_either(str(path), choice=CatalogChoice(paths=(DEMO,)))
    assert not isinstance(planned, PlannedVisit)
    hold_rows(path.name, planned.plan.steps, asked_of(planned), [planned.job.new.line.kind.family])


def test_so_has_the_demo_visit_and_says_whose_they_are() -> None:
    planned = find_planned_either(str(DEMO / "cockpit-swap.visit.yaml"), choice=CatalogChoice(paths=(DEMO,)))
    assert isinstance(planned, PlannedVisit)
    record = asked_of(planned)
    wanted = [f"Step {one.n}" for one in planned.plan.steps if one.step.id in TIGHTENS]
    assert [row.bolts.partition(":")[0] for row in record.torques] == wanted
    assert record.torques[-1].bolts.endswith("cable's clamp (gear)")


@pytest.mark.parametrize(
    ("facts", "rows"),
    [
        ({Fact.BRAKE, Fact.MECHANICAL, Fact.HOUSING, Fact.NEW_LEVER, Fact.NEW_CALIPER}, "caliper lever cable's"),
        ({Fact.MECHANICAL, Fact.BARE_CABLE, Fact.LINE_ONLY}, "cable's"),
        ({Fact.LINE_ONLY, Fact.ELECTRIC}, ""),
    ],
    ids=["a rim brake, which is never centred on a rotor", "a bare cable", "a wire"],
)
def test_so_has_what_no_demo_job_does(facts: set[Fact], rows: str) -> None:
    steps = find_steps(workshop=starter(), facts=frozenset(facts), words={})
    record = hand_over_asked(plans=[], steps=steps, workshop=starter())
    hold_rows(rows, steps, record, [LineFamily.MECHANICAL])
    assert [row.bolts.split()[2].removesuffix("'s") for row in record.torques] == rows.replace("'s", "").split()


def test_a_bolt_that_is_left_loose_is_found() -> None:
    hydraulic = [LineFamily.HYDRAULIC]
    assert left_loose(["caliper-on", "torque"], hydraulic) == {"caliper"}
    assert left_loose(["cockpit-down", "cockpit-up"], hydraulic) == {"stem"}
    assert left_loose(["drain-old", "join-leading", "join-trailing"], hydraulic) == set()


def test_whatever_tightens_something_is_warned_to_use_the_wrench() -> None:
    assert {step.id for step in starter().steps if step.tightens} == set(TIGHTENS)
    torque = starter().cautions["torque"].text
    steps = find_steps(workshop=starter(), facts=frozenset({Fact.NEW_LEVER, Fact.NEW_CALIPER, Fact.DISC}), words={})
    assert [step.id for step in steps if torque in step.cautions] == ["lever-on", "wheel-in", "align"]
