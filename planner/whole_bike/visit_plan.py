"""A finished plan of a visit, as data: the order, each line's own plan, one work order, one list of parts."""

from dataclasses import dataclass
from decimal import Decimal

from planner.parts import Job
from planner.plan.job_time import JobTime
from planner.plan.names import Names
from planner.plan.quote_lines import QuoteLine
from planner.plan.routing_plan import PartNeeded, RoutingPlan, Step
from planner.verdicts import Outcome
from planner.whole_bike.changes import StepKind
from planner.whole_bike.hole_stories import HoleStory
from planner.whole_bike.reasons import Conflict, Forced
from planner.whole_bike.visit_ways_out import VisitWayOut


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderStep:
    """One step of the order.

    line_id : which line; of lines drawn in together the first
    kind : what is done to it
    together : ids of the lines drawn in together, in the order in which they follow each other; empty for one line
    """

    line_id: str
    kind: StepKind
    together: tuple[str, ...] = ()

    @property
    def line_ids(self) -> tuple[str, ...]:
        """The line, or all lines that are drawn in together."""
        return self.together or (self.line_id,)


@dataclass(frozen=True, slots=True, kw_only=True)
class LinePlan:
    """The plan of one line at its moment in the order.

    line_id : which line
    plan : None for a line that is only taken out
    job : what the plan answers, with the lines that lie beside it then; None likewise
    leaves_no_brake : whether the line of a brake is taken out and none goes in
    """

    line_id: str
    plan: RoutingPlan | None
    job: Job | None = None
    leaves_no_brake: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class VisitStep:
    """One step of the one work order.

    n : number, from 1
    line_ids : the lines it is done for
    step : with its sentences; its own number is that in the line's plan
    """

    n: int
    line_ids: tuple[str, ...]
    step: Step


@dataclass(frozen=True, slots=True, kw_only=True)
class Totals:
    """What the visit takes, all lines together.

    time : shared steps counted once
    length_mm : of all new lines on their ways, at rest; None where that of a leg is not known [mm]
    parts : small parts of all lines
    charged : what is charged, labour last
    tax, total : on what is charged; both together
    currency : of every amount
    unpriced : names of what is not priced and so missing from the total
    """

    time: JobTime
    length_mm: float | None
    parts: tuple[PartNeeded, ...]
    charged: tuple[QuoteLine, ...]
    tax: Decimal
    total: Decimal
    currency: str
    unpriced: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class VisitPlan:
    """The answer to a visit.

    visit_id, visit_title, frame_id, frame_name : what was asked
    outcome : worst of the order and of every line's plan
    is_proven : False where not everything was looked at, so that a better order may be there
    order : empty where there is none
    forced : changes whose order is forced
    lines : in the order's order; where there is none, those that cannot be planned even alone
    holes : who lies in each shared hole, step by step
    steps : the one work order
    totals : None where there is no order to work in
    conflict : what forbids an order; with one, what forbids it without taking old lines out first; else None
    ways_out : what would make an order where there is none
    has_all_reasons : False where the allowance ran out before every reason and way out was looked at
    least_min : no plan takes fewer minutes of its lines' own work; None where the order is proven to be the best [min]
    cautions : sentences that belong to no step
    names : what people call places and things
    """

    visit_id: str
    visit_title: str
    frame_id: str
    frame_name: str
    outcome: Outcome
    is_proven: bool
    order: tuple[OrderStep, ...] = ()
    lines: tuple[LinePlan, ...] = ()
    holes: tuple[HoleStory, ...] = ()
    steps: tuple[VisitStep, ...] = ()
    totals: Totals | None = None
    forced: tuple[Forced, ...] = ()
    conflict: Conflict | None = None
    ways_out: tuple[VisitWayOut, ...] = ()
    has_all_reasons: bool = True
    least_min: float | None = None
    cautions: tuple[str, ...] = ()
    names: Names
