"""Every kind of job by every method that makes a plan of it, with all that the starter says of the work: made once."""

from dataclasses import dataclass
from functools import cache

from catalog import STARTER_FOLDER, read_catalog
from planner import RoutingPlan, plan_job
from planner.parts import Job, MethodKind, Workshop
from tests.builders import make_workshop
from tests.work_orders.job_kinds import KINDS, METHODS


@dataclass(frozen=True, slots=True, kw_only=True)
class Worked:
    """A plan that has steps.

    kind : of the job, by its name
    """

    kind: str
    method: MethodKind
    job: Job
    plan: RoutingPlan

    @property
    def name(self) -> str:
        """Which it is."""
        return f"{self.kind}, {self.method}"


@cache
def starter() -> Workshop:
    return read_catalog([STARTER_FOLDER]).workshop


@cache
def worked_jobs() -> tuple[Worked, ...]:
    shop = starter()
    work = {"limits": shop.limits, "steps": shop.steps, "cautions": shop.cautions, "rescues": shop.rescues}
    planned = (
        Worked(kind=kind, method=method.kind, job=job, plan=plan_job(job=job, workshop=make_workshop(method, **work)))
        for kind, job in KINDS.items()
        for method in METHODS
    )
    return tuple(one for one in planned if one.plan.steps)
