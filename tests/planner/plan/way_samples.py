"""Plans of demo jobs with their tables of all ways, each made once for all tests."""

from functools import cache

from planner import RoutingPlan, WayTable, find_way_table, plan_job
from tests.ui.noes_of_every_sort import demo_catalog, demo_job


@cache
def plan_and_table(name: str) -> tuple[RoutingPlan, WayTable]:
    job, workshop = demo_job(name), demo_catalog().workshop
    plan = plan_job(job=job, workshop=workshop)
    return plan, find_way_table(job=job, workshop=workshop, plan=plan)
