"""Every other way told beside a quote is what the job would cost with only that way to do it: on every demo job."""

from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from catalog import STARTER_FOLDER, read_catalog, read_job
from planner import Quote, RoutingPlan, check_compatibility, make_quote, plan_job, whole_minutes
from planner.parts import Job, Workshop

FOLDER = Path(__file__).parent.parent / "demo_frames"
JOBS = sorted(FOLDER.glob("*.job.yaml"))


def quote_of(job: Job, plan: RoutingPlan, workshop: Workshop, *, charges_new_line: bool) -> Quote | None:
    parts = check_compatibility(job=job, adapters=workshop.adapters, route=plan.route, limits=workshop.limits)
    return make_quote(job=job, plan=plan, workshop=workshop, compatibility=parts, charges_new_line=charges_new_line)


@cache
def planned(path: Path, method_id: str | None = None) -> tuple[Job, RoutingPlan, Workshop]:
    """A demo job with its plan, by every method or by one alone."""
    catalog = read_catalog([STARTER_FOLDER, *sorted(FOLDER.glob("*.frame.yaml"))])
    workshop = catalog.workshop
    methods = tuple(method for method in workshop.methods if method_id in (None, method.id))
    workshop, job = replace(workshop, methods=methods), read_job(path, catalog)
    return job, plan_job(job=job, workshop=workshop), workshop


@pytest.mark.parametrize("charges_new_line", [True, False])
def test_every_other_way_costs_what_its_own_quote_says(charges_new_line: bool) -> None:
    held = 0
    for path in JOBS:
        job, plan, workshop = planned(path)
        quote = quote_of(job, plan, workshop, charges_new_line=charges_new_line)
        for other in () if quote is None else quote.alternatives:
            _, plan, alone = planned(path, other.method_id)
            if plan.feed_from != other.feed_from:
                continue  # of two directions the plan by this method alone takes the other
            own = quote_of(job, plan, alone, charges_new_line=charges_new_line)
            assert own is not None
            assert quote is not None
            more_min = whole_minutes(own.time.mean_min) - whole_minutes(quote.time.mean_min)
            assert (other.more_min, other.outcome) == (float(more_min), plan.outcome), (path.name, other.method_id)
            assert other.more_money in (own.total - quote.total, None), (path.name, other.method_id)
            assert (other.more_money is None) == (sorted(own.unpriced) != sorted(quote.unpriced))
            held += 1
    assert held >= 20
