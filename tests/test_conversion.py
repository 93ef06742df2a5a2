"""From a cable-pulled brake to a hydraulic one: the city frame says no, the trail frame says yes."""

from pathlib import Path

import pytest

from catalog import STARTER_FOLDER, Catalog, job_from_fields, read_catalog
from planner import RoutingPlan, plan_job
from planner.verdicts import Outcome

DEMO = Path(__file__).parent.parent / "demo_frames"


@pytest.fixture(scope="module")
def catalog() -> Catalog:
    return read_catalog([STARTER_FOLDER, *sorted(DEMO.glob("*.frame.yaml"))])


def conversion(catalog: Catalog, *, frame: str, old: dict[str, str]) -> RoutingPlan:
    start, end = "bar-right", "caliper-rear"
    fields = {
        "id": "conversion",
        "frame": frame,
        "from": start,
        "to": end,
        "old": old,
        "new": {"brake": "dunmere-4-rear"},
    }
    return plan_job(job=job_from_fields(fields, catalog), workshop=catalog.workshop)


def test_closed_cable_stops_take_no_hose_and_nobody_is_told_to_drill(catalog: Catalog) -> None:
    plan = conversion(catalog, frame="ambelry-3", old={"line": "brake-cable-16"})
    assert plan.outcome is Outcome.NO_FIT
    assert plan.no_route is not None
    assert {"stop-left", "stop-right"} <= set(plan.no_route.ports)
    assert "line_kind" in {rejection.check.rule for rejection in plan.rejected}
    said = " ".join((*plan.cautions, *(f"{step.text} {' '.join(step.cautions)}" for step in plan.steps)))
    assert "drill" not in said.lower().replace("never drill", "")


def test_a_frame_for_full_housing_takes_the_hose_that_replaces_it(catalog: Catalog) -> None:
    plan = conversion(catalog, frame="quillfern-130", old={"brake": "ranscombe-c-rear"})
    assert plan.outcome is Outcome.FITS
    assert plan.method_id == "coupler-26"
    assert any(need.startswith("fluid:") for need in plan.needs)
    assert any(need.startswith("bleed_kit:") for need in plan.needs)
