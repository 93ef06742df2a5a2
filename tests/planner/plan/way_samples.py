"""Plans of demo jobs with their tables of all ways, each made once for all tests."""

from dataclasses import replace
from functools import cache

from planner import RoutingPlan, WayTable, find_way_table, plan_job
from tests.ui.noes_of_every_sort import demo_catalog, demo_job


@cache
def plan_and_table(name: str) -> tuple[RoutingPlan, WayTable]:
    job, workshop = demo_job(name), demo_catalog().workshop
    plan = plan_job(job=job, workshop=workshop)
    return plan, find_way_table(job=job, workshop=workshop, plan=plan)


def stopped_by_size_alone() -> RoutingPlan:
    """The no of the city frame as if its stops took any kind of line, so that only their size is the matter."""
    job, workshop = demo_job("city-cable-stops"), demo_catalog().workshop
    ports = {port_id: replace(port, admits=()) for port_id, port in job.frame.ports.items()}
    return plan_job(job=replace(job, frame=replace(job.frame, ports=ports)), workshop=workshop)
