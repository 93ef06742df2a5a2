"""Each line's own plan, at its moment in the order and for the ride at the end."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from planner.parts import Job, StayingLine, Visit, VisitLine, Workshop
from planner.plan.options import Pin
from planner.plan.plan_builder import plan_job
from planner.plan.routing_plan import RoutingPlan
from planner.whole_bike.changes import Led, Manner, StepKind
from planner.whole_bike.drawn_together import bound_round
from planner.whole_bike.order_search import Chosen
from planner.whole_bike.step_book import StepBook
from planner.whole_bike.way_search import Found


@dataclass(frozen=True, eq=False, slots=True, kw_only=True)
class Moment:
    """One line at its step of the order chosen, with all that lies beside it.

    line : what the visit says of the line
    chosen : the change on its way
    job : the line's job at this moment; None for a line that only goes out
    led : how it is led in; None likewise
    leader : how the first of the lines drawn in together is led in; None for a line by itself
    """

    line: VisitLine
    chosen: Chosen
    job: Job | None = None
    led: Led | None = None
    leader: Led | None = None

    @property
    def kind(self) -> StepKind:
        """What is done to the line."""
        return self.chosen.change.kind


def find_moments(*, visit: Visit, found: Found, steps: StepBook) -> tuple[Moment, ...]:
    """The lines in the order of its steps, each with its job as it stands then.

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
        if not chosen.way.lines:
            yield Moment(line=lines[chosen.change.line_ids[0]], chosen=chosen)
        else:
            others = [other for other in range(len(found.chosen)) if other != place]
            lying = [each for other in others for each in found.chosen[other].lyings(is_done=other in done)]
            answer = steps.step(chosen.way, lying, is_unmeasured=chosen.rides_unmeasured)
            assert answer is not None, "every step of an order reaches its level"
            assert answer.manner is not None, "what goes in is led in"
            now = _lines_of(visit, found, others, done)
            at_end = _lines_of(visit, found, others, set(others))
            yield from _of_draw(chosen, answer.manner, lines, now, at_end)
        done.add(place)


def _of_draw(
    chosen: Chosen,
    manner: Manner,
    lines: dict[str, VisitLine],
    now: tuple[StayingLine, ...],
    at_end: tuple[StayingLine, ...],
) -> Iterator[Moment]:
    """The lines of one draw as they follow each other: each is drawn in beside those before it, ridden beside all."""
    ways = {way.line_id: way for way in chosen.way.lines}
    in_turn = [ways[led.line_id] for led in manner.led]
    lie = [StayingLine(line=way.job.new.line, through=way.through) for way in in_turn]
    for place, (led, way) in enumerate(zip(manner.led, in_turn, strict=True)):
        method = manner.led[0].candidate.attempt.method
        bound = [replace(lie[0], line=bound_round(method=method, first=lie[0].line)), *lie[1:place]] if place else []
        job = replace(
            way.job,
            staying=(*now, *bound),
            staying_at_end=(*at_end, *lie[:place], *lie[place + 1 :]),
            tied_on=tuple(each.line for each in lie[1:]) if place == 0 else (),
        )
        leader = manner.led[0] if len(in_turn) > 1 else None
        yield Moment(line=lines[led.line_id], chosen=chosen, job=job, led=led, leader=leader)


def _lines_of(visit: Visit, found: Found, others: list[int], done: set[int]) -> tuple[StayingLine, ...]:
    """What lies beside: the lines that stay, and the others as they are."""
    lines = {line.id: line for line in visit.lines}
    beside = list(visit.staying)
    for other in others:
        chosen = found.chosen[other]
        line = lines[chosen.change.line_ids[0]]
        if other in done:
            beside += [StayingLine(line=way.job.new.line, through=way.through) for way in chosen.way.lines]
        elif chosen.change.old is not None and line.old is not None:
            beside.append(StayingLine(line=line.old.line, through=chosen.change.old_through))
    return tuple(beside)


def plan_moment(
    *, moment: Moment, workshop: Workshop, known: dict[tuple[object, ...], RoutingPlan] | None = None
) -> RoutingPlan | None:
    """The line's own plan, led in as the order has it.

    Of a line drawn in with others nothing else is told than that draw, and of each that the hands do what the most
    delicate of them stands.

    None for a line that only goes out.

    known : plans of the same lines beside the same others, added to
    """
    if moment.job is None or moment.led is None:
        return None
    job, known = moment.job, {} if known is None else known
    key = (moment.led, moment.leader, job.staying, job.staying_at_end, job.tied_on)
    if key not in known:
        known[key] = _plan_led(job, moment.led, moment.leader, workshop)
    return known[key]


def _plan_led(job: Job, led: Led, leader: Led | None, workshop: Workshop) -> RoutingPlan:
    attempt = led.candidate.attempt
    pin = Pin(method_id=attempt.method.id, feed_from=attempt.feed_from, undoes_leading=attempt.undoes_leading)
    methods = workshop.methods if led.methods is None else led.methods
    plan = plan_job(job=job, workshop=replace(workshop, methods=methods), pin=pin)
    return plan if leader is None else _as_drawn_together(plan, leader)


def _as_drawn_together(plan: RoutingPlan, leader: Led) -> RoutingPlan:
    leading = leader.candidate.joint
    joint = plan.joint
    if joint is not None:
        joint = replace(joint, advice=leading.advice, ease_up_to_n=leading.ease_up_to_n)
    options = tuple(replace(option, joint=option.joint if joint is None else joint) for option in plan.options[:1])
    return replace(plan, joint=joint, options=options)
