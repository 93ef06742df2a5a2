"""One work order for all lines: what is shared stands once, what hangs on the order stands in it."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import groupby
from string import Formatter

from planner.fit.things import thing_of_line
from planner.parts import (
    Fact,
    Job,
    JobEnd,
    LaidOutside,
    NewLine,
    OldLine,
    Placeholder,
    Visit,
    VisitLine,
    WorkPart,
    Workshop,
    WorkStep,
)
from planner.plan.cut_length import find_lengths
from planner.plan.job_facts import JobWay, find_facts_of_going_out, inserts_taken_out
from planner.plan.job_words import find_job_words
from planner.plan.names import Names
from planner.plan.routing_plan import Joint, RoutingPlan, Step
from planner.plan.work_order import find_steps
from planner.whole_bike.changes import StepKind
from planner.whole_bike.moments import Moment
from planner.whole_bike.visit_plan import VisitStep

BEFORE_THE_LINES = (WorkPart.BEFORE, WorkPart.OPEN)
LINE_BY_LINE = (WorkPart.FREE, WorkPart.THROUGH)
OF_ALL = frozenset({Placeholder.INSERTS, Placeholder.ROUTE, Placeholder.FRAME})
"""Words that can be told of all lines together."""

OF_THE_OLD = frozenset({*OF_ALL, Placeholder.OLD_LINE, Placeholder.FROM_ANCHOR, Placeholder.TO_ANCHOR})
"""Words that a line has which only goes out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """One step of the order with its work.

    line_id : which line
    kind : what is done to it
    job : the line's job; of a line that goes out, with the old line in place of a new one
    plan : the line's own plan; None for one that goes out
    steps : its work
    ports : ids of the ports it goes through
    together : ids of the lines drawn in with the same draw, in turn; empty for a line by itself
    """

    line_id: str
    kind: StepKind
    job: Job
    plan: RoutingPlan | None
    steps: tuple[Step, ...]
    ports: tuple[str, ...]
    together: tuple[str, ...] = ()


def find_turn(*, visit: Visit, moment: Moment, plan: RoutingPlan | None, workshop: Workshop) -> Turn:
    """The work of one step of the order.

    plan : the line's own; None for one that goes out
    """
    if plan is not None and moment.job is not None:
        return Turn(
            line_id=moment.line.id,
            kind=moment.kind,
            job=moment.job,
            plan=plan,
            steps=plan.steps,
            ports=plan.route,
            together=() if moment.leader is None else moment.chosen.change.line_ids,
        )
    return _going_out(visit, moment, workshop)


def _going_out(visit: Visit, moment: Moment, workshop: Workshop) -> Turn:
    line = moment.line
    assert line.old is not None
    ports = tuple(place for place in moment.chosen.change.old_through if place in visit.frame.ports)
    job = Job(
        id=f"{visit.id}-{line.id}",
        title=f"{visit.title}: {line.id}",
        frame=visit.frame,
        from_anchor_id=line.from_anchor_id,
        to_anchor_id=line.to_anchor_id,
        old=replace(line.old, through=ports),
        new=_as_new(line.old),
        may_remove_inserts=visit.may_remove_inserts,
        keeps_old_brake=visit.keeps_old_brake,
    )
    way = JobWay(
        job=job,
        method=LaidOutside(),
        feed_from=JobEnd.FROM,
        joint=Joint(thing=thing_of_line(line.old.line), holds_n=None),
        route=ports,
        leaves_old_way=True,
    )
    facts = find_facts_of_going_out(way)
    words = find_job_words(way, lengths=find_lengths(job=job, legs=(), limits=workshop.limits))
    tellable = {step.id for step in workshop.steps if not _words_in(step) - OF_THE_OLD}
    steps = find_steps(workshop=workshop, facts=facts, words=words)
    known = {step.id: step for step in workshop.steps}
    steps = tuple(step for step in steps if step.id in tellable and _goes_with_out(line, known[step.id], step.part))
    return Turn(
        line_id=line.id,
        kind=moment.kind,
        job=job,
        plan=None,
        steps=steps,
        ports=ports,
    )


def _goes_with_out(line: VisitLine, step: WorkStep, part: WorkPart | None) -> bool:
    """Freeing the line; and, where nothing goes in afterwards, putting back what was opened, but no ride."""
    if part in (*BEFORE_THE_LINES, WorkPart.FREE, None):
        return True
    if line.new is not None or part is WorkPart.THROUGH:
        return False
    asks_of_brake = Fact.BRAKE in (*step.when, *step.when_any, *step.unless)
    return not asks_of_brake and (step.is_once or Fact.OLD_HYDRAULIC in (*step.when, *step.when_any))


def _as_new(old: OldLine) -> NewLine:
    return NewLine(line=old.line, from_end=old.from_end, to_end=old.to_end, brake=old.brake)


def _words_in(step: WorkStep) -> frozenset[str]:
    found = (
        field for text in (step.text, step.why, step.short, step.tightens) for _, field, _, _ in Formatter().parse(text)
    )
    return frozenset(field for field in found if field)


def find_visit_steps(*, turns: Sequence[Turn], workshop: Workshop, names: Names) -> tuple[VisitStep, ...]:
    """The one work order.

    First what is done before the lines, then what frees them once for all; then line by line in the order; then what
    is checked once; at last the parts on, filled, closed and proven.

    turns : in the order's order
    names : what people call the places
    """
    once = _OnceForAll(turns=turns, workshop=workshop, names=names)
    rows = list(_in_hand_order(turns, once))
    return tuple(VisitStep(n=n, line_ids=line_ids, step=step) for n, (line_ids, step) in enumerate(rows, start=1))


Row = tuple[tuple[str, ...], Step]


def _in_hand_order(turns: Sequence[Turn], once: "_OnceForAll") -> Iterator[Row]:
    yield from _by_step(turns, once, BEFORE_THE_LINES)
    yield from once.rows((WorkPart.FREE,))
    for draw in _draws(turns):
        yield from _by_step(draw, once, LINE_BY_LINE, with_once=False)
    yield from once.rows((WorkPart.THROUGH,))
    yield from _by_step(turns, once, (WorkPart.ON, WorkPart.CLOSE, WorkPart.PROVE, None))


def _draws(turns: Sequence[Turn]) -> Iterator[tuple[Turn, ...]]:
    """The turns one by one, but those of one draw together."""
    for _, draw in groupby(enumerate(turns), key=lambda each: each[1].together or each[0]):
        yield tuple(turn for _, turn in draw)


def _by_step(
    turns: Sequence[Turn], once: "_OnceForAll", parts: Sequence[WorkPart | None], *, with_once: bool = True
) -> Iterator[Row]:
    """Step by step in the workshop's order; at each the lines one after the other, or all of them at once.

    with_once : whether steps that stand once for all lines are told here
    """
    for step_id in once.step_ids:
        found = [(turn, step) for turn in turns for step in turn.steps if step.id == step_id and step.part in parts]
        if found and once.stands_once(step_id):
            if with_once:
                yield once.row(step_id)
        else:
            yield from (((turn.line_id,), step) for turn, step in found)


@dataclass(frozen=True, slots=True, kw_only=True)
class _OnceForAll:
    turns: Sequence[Turn]
    workshop: Workshop
    names: Names

    @property
    def step_ids(self) -> tuple[str, ...]:
        """All steps in the workshop's order."""
        return tuple(step.id for step in self.workshop.steps)

    def stands_once(self, step_id: str) -> bool:
        """Whether a step is told once for all lines: the workshop says so, and it can be said of all together."""
        known = {step.id: step for step in self.workshop.steps}
        return known[step_id].is_once and not _words_in(known[step_id]) - OF_ALL

    def rows(self, parts: Sequence[WorkPart]) -> Iterator[Row]:
        """The steps told once that belong to some stretches of the work."""
        for step_id in self.step_ids:
            found = [step for turn in self.turns for step in turn.steps if step.id == step_id]
            if found and found[0].part in parts and self.stands_once(step_id):
                yield self.row(step_id)

    def row(self, step_id: str) -> Row:
        """One step for all lines that have it, with the inserts and ways of all of them, and every caution."""
        having = [turn for turn in self.turns if any(step.id == step_id for step in turn.steps)]
        steps = [step for turn in having for step in turn.steps if step.id == step_id]
        known = next(step for step in self.workshop.steps if step.id == step_id)
        words = self._words(having)
        together = replace(
            steps[0],
            text=known.text.format_map(words),
            why=known.why.format_map(words),
            short=known.short.format_map(words),
            tightens=known.tightens.format_map(words),
            cautions=tuple(dict.fromkeys(caution for step in steps for caution in step.cautions)),
        )
        return tuple(dict.fromkeys(turn.line_id for turn in having)), together

    def _words(self, turns: Sequence[Turn]) -> Mapping[str, str]:
        inserts = dict.fromkeys(port for turn in turns for port in inserts_taken_out(job=turn.job, route=turn.ports))
        ways = dict.fromkeys(self.names.way(turn.ports) or "outside, through no hole" for turn in turns)
        return {
            Placeholder.INSERTS.value: " · ".join(self.names.place(port_id) for port_id in inserts) or "none",
            Placeholder.ROUTE.value: "; ".join(ways),
            Placeholder.FRAME.value: self.turns[0].job.frame.name,
        }


def line_blocks(steps: Iterable[VisitStep]) -> Iterator[tuple[tuple[str, ...], tuple[VisitStep, ...]]]:
    """Steps that follow each other and are done for the same lines."""
    for line_ids, found in groupby(steps, key=lambda step: step.line_ids):
        yield line_ids, tuple(found)
