"""Each line's own plan, at its moment in the order and for the ride at the end."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from planner.parts import Job, StayingLine, Visit, VisitLine, Workshop
from planner.plan.options import Pin
from planner.plan.plan_builder import plan_job
from planner.plan.routing_plan import RoutingPlan
from planner.whole_bike.changes import Manner, StepKind
from planner.whole_bike.order_search import Chosen
from planner.whole_bike.step_book import StepBook
from planner.whole_bike.way_search import Found


@dataclass(frozen=True, eq=False, slots=True, kw_only=True)
class Moment:
    """One step of the order chosen, with all that lies beside it.

    line : what the visit says of the line
    chosen : the change on its way
    job : the line's job at this moment; None for a line that only goes out
    manner : how it is led in; None likewise
    """

    line: VisitLine
    chosen: Chosen
    job: Job | None = None
    manner: Manner | None = None

    @property
    def kind(self) -> StepKind:
        """What is done to the line."""
        return self.chosen.change.kind


def find_moments(*, visit: Visit, found: Found, steps: StepBook) -> tuple[Moment, ...]:
    """The steps of the order, each with its job as it stands then.

    found : an order
    steps : the memory at the level of the order
    """
    return tuple(_moments(visit, found, steps))


def _moments(visit: Visit, found: Found, steps: StepBook) -> Iterator[Moment]:
    assert found.order is not None
    lines = {line.id: line for line in visit.lines}
    done: set[int] = set()
    for place in found.order.places:
        chosen = found.chosen[place]
        line = lines[chosen.change.line_id]
        if chosen.way.job is None or line.new is None:
            yield Moment(line=line, chosen=chosen)
        else:
            others = [other for other in range(len(found.chosen)) if other != place]
            lying = [found.chosen[other].lying(is_done=other in done) for other in others]
            answer = steps.step(
                chosen.way, [each for each in lying if each is not None], is_unmeasured=chosen.rides_unmeasured
            )
            now = _lines_of(visit, found, others, done)
            at_end = _lines_of(visit, found, others, set(others))
            job = replace(chosen.way.job, staying=now, staying_at_end=at_end)
            yield Moment(line=line, chosen=chosen, job=job, manner=None if answer is None else answer.manner)
        done.add(place)


def _lines_of(visit: Visit, found: Found, others: list[int], done: set[int]) -> tuple[StayingLine, ...]:
    """What lies beside: the lines that stay, and the others as they are."""
    lines = {line.id: line for line in visit.lines}
    beside = list(visit.staying)
    for other in others:
        chosen = found.chosen[other]
        line = lines[chosen.change.line_id]
        if other in done and chosen.way.new is not None and line.new is not None:
            beside.append(StayingLine(line=line.new.line, through=chosen.way.through))
        if other not in done and chosen.change.old is not None and line.old is not None:
            beside.append(StayingLine(line=line.old.line, through=chosen.change.old_through))
    return tuple(beside)


def plan_moment(*, moment: Moment, workshop: Workshop) -> RoutingPlan | None:
    """The line's own plan, led in as the order has it.

    None for a line that only goes out.
    """
    if moment.job is None or moment.manner is None:
        return None
    attempt = moment.manner.candidate.attempt
    pin = Pin(method_id=attempt.method.id, feed_from=attempt.feed_from, undoes_leading=attempt.undoes_leading)
    return plan_job(job=moment.job, workshop=workshop, pin=pin)
