"""What to buy: small parts that open jobs take, against what lies on the shelf; and the lines they take."""

from collections import Counter
from collections.abc import Mapping, Sequence

from planner.parts import SmallPart
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
    """A small part that open jobs take.

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
class LineToCut:
    """A length of line that an open job takes and that did not come with it.

    line_name : for people
    length_mm : to cut before it goes in; None where the plan has none [mm]
    job_id : which job
    """

    line_name: str
    length_mm: float | None
    job_id: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ShoppingList:
    """What open jobs take.

    parts : by name
    lines : by name and job
    without_plan : jobs that have no plan to take parts from
    """

    parts: tuple[PartToBuy, ...] = ()
    lines: tuple[LineToCut, ...] = ()
    without_plan: tuple[str, ...] = ()


def find_shopping_list(jobs: Sequence[OpenJob], *, small_parts: Mapping[str, SmallPart]) -> ShoppingList:
    """Everything that jobs take, together.

    small_parts : by id, with how many are on the shelf; a part that is not among them was not counted
    """
    need: Counter[str] = Counter()
    names: dict[str, str] = {}
    takers: dict[str, dict[str, None]] = {}
    for job in jobs:
        for part in job.parts:
            need[part.id] += part.quantity
            names[part.id] = part.name
            takers.setdefault(part.id, {})[job.id] = None
    parts = (
        PartToBuy(id=id, name=names[id], need=count, have=_on_shelf(small_parts, id), job_ids=tuple(takers[id]))
        for id, count in need.items()
    )
    lines = (
        LineToCut(line_name=plan.new_line_name, length_mm=plan.lengths.cut_mm, job_id=job.id)
        for job in jobs
        for plan in job.plans
        if plan.lengths is not None and plan.lengths.is_cut and plan.lengths.supplied_mm is None
    )
    return ShoppingList(
        parts=tuple(sorted(parts, key=lambda part: (part.name, part.id))),
        lines=tuple(sorted(lines, key=lambda line: (line.line_name, line.job_id))),
        without_plan=tuple(job.id for job in jobs if not job.plans),
    )


def _on_shelf(small_parts: Mapping[str, SmallPart], id: str) -> int | None:
    return small_parts[id].on_shelf if id in small_parts else None
