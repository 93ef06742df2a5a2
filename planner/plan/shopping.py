"""What to buy: small parts, adapters and lines that open jobs take, against what lies on the shelf."""

from collections import Counter
from collections.abc import Sequence

from planner.parts import Workshop
from planner.plan.line_orders import LineOrder, LineToCut, Shelf, find_line_orders
from planner.plan.routing_plan import PartNeeded, RoutingPlan
from planner.quick_dataclass import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenJob:
    """A job that is not finished, by the plan kept last.

    id : of the job
    plans : of each new line; none where nothing may be begun by it
    parts : small parts it takes
    """

    id: str
    plans: tuple[RoutingPlan, ...] = ()
    parts: tuple[PartNeeded, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class PartToBuy:
    """A small part or an adapter that open jobs take.

    id, name : as in the catalog
    need : pieces for all of them together
    have : pieces on the shelf; None where nobody counted
    job_ids : which jobs take it, in order
    """

    id: str
    name: str
    need: int
    have: int | None
    job_ids: tuple[str, ...]

    @property
    def to_buy(self) -> int:
        """Pieces to buy; all of them where nobody counted what is there."""
        return max(self.need - (self.have or 0), 0)


@dataclass(frozen=True, slots=True, kw_only=True)
class ShoppingList:
    """What open jobs take.

    parts : by name
    lines : by name, each with all jobs that take it
    without_plan : jobs that have no plan to take parts from
    """

    parts: tuple[PartToBuy, ...] = ()
    lines: tuple[LineOrder, ...] = ()
    without_plan: tuple[str, ...] = ()


def find_shopping_list(jobs: Sequence[OpenJob], *, workshop: Workshop, shelf: Shelf | None = None) -> ShoppingList:
    """Everything that jobs take, together.

    workshop : its small parts and adapters, with how many are on the shelf; one it has not was not counted
    shelf : what lines are cut from; None where nobody told
    """
    counted = {id: part.on_shelf for id, part in workshop.small_parts.items()}
    counted |= {adapter.id: adapter.on_shelf for adapter in workshop.adapters}
    need: Counter[str] = Counter()
    names: dict[str, str] = {}
    takers: dict[str, dict[str, None]] = {}
    for job in jobs:
        for part in job.parts:
            need[part.id] += part.quantity
            names[part.id] = part.name
            takers.setdefault(part.id, {})[job.id] = None
    parts = (
        PartToBuy(id=id, name=names[id], need=count, have=counted.get(id), job_ids=tuple(takers[id]))
        for id, count in need.items()
    )
    lines = (
        LineToCut(
            line_id=plan.stock_line_id if plan.lengths.is_cut else "",
            line_name=_line_name(plan, workshop),
            length_mm=plan.lengths.cut_mm,
            job_id=job.id,
        )
        for job in jobs
        for plan in job.plans
        if plan.lengths is not None and plan.lengths.supplied_mm is None
    )
    return ShoppingList(
        parts=tuple(sorted(parts, key=lambda part: (part.name, part.id))),
        lines=find_line_orders(lines, shelf=shelf),
        without_plan=tuple(job.id for job in jobs if not job.plans),
    )


def _line_name(plan: RoutingPlan, workshop: Workshop) -> str:
    """The line's own name; that of what it comes with where the catalog has no such line."""
    line = workshop.lines.get(plan.stock_line_id)
    return plan.new_line_name if line is None else line.name
