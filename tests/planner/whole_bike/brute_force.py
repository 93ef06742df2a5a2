"""Every way of every line, every method and end, every order: the single planner asked at each moment.

Nothing of the search is used here: ways are walked anew, a step is the single planner's question with the lines that
lie there as lines that stay, and orders are written out one by one.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import combinations, permutations, product

from planner.parts import OUTSIDE, Frame, Job, Line, OldLine, StayingLine, Visit, VisitLine, Workshop
from planner.plan.job_time import expected_minutes
from planner.plan.leg_lengths import find_legs
from planner.plan.leg_views import ranking_lengths_mm
from planner.plan.options import HANDLING, describe_attempt
from planner.routing.attempts import find_attempts
from planner.routing.run_graph import graph_of_runs
from planner.verdicts import Outcome

Value = tuple[int, ...]
NOTHING: Value = (0, 0, 0, 0, 0, 0)
Runs = tuple[str, ...]


@dataclass(frozen=True)
class Move:
    """What is done to one line in one step: the old line goes, or the new one comes, or both."""

    line: VisitLine
    takes_out: bool
    puts_in: bool


def ways_of(frame: Frame, start: str, end: str) -> list[tuple[Runs, tuple[str, ...]]]:
    """Every way of an empty frame, as its runs and its ports, walked from run to run."""
    found: list[tuple[Runs, tuple[str, ...]]] = []

    def walk(at: str, runs: Runs, ports: tuple[str, ...]) -> None:
        for run in frame.runs.values():
            if at not in run.between or run.id in runs:
                continue
            far = run.between[1] if run.between[0] == at else run.between[0]
            if ports and set(frame.ports[at].joins) != {frame.runs[runs[-1]].zone_id, run.zone_id}:
                continue
            if far == end:
                found.append(((*runs, run.id), ports))
            elif far in frame.ports and far not in ports:
                walk(far, (*runs, run.id), (*ports, far))

    walk(start, (), ())
    return found


class BruteForce:
    """One visit; what the single planner has been asked is remembered."""

    def __init__(self, visit: Visit, workshop: Workshop) -> None:
        self.visit, self.workshop = visit, workshop
        self.known: dict[object, list[tuple[Outcome, Value]]] = {}

    def best(self) -> tuple[Outcome, Value, int]:
        """Outcome and value of the best order, and how many lines are taken out first."""
        swaps = [line.id for line in self.visit.lines if line.old is not None and line.new is not None]
        for levels in ((Outcome.FITS, Outcome.TIGHT), (Outcome.UNKNOWN,)):
            for size in range(len(swaps) + 1 if self.visit.may_take_out_first else 1):
                for ids in combinations(swaps, size):
                    for level in levels:
                        value = self.best_at(level, frozenset(ids))
                        if value is not None:
                            return level, value, size
        return Outcome.NO_FIT, NOTHING, 0

    def best_at(self, level: Outcome, split: frozenset[str] = frozenset()) -> Value | None:
        """The least value of all orders that reach a level."""
        moves = [move for line in self.visit.lines for move in _moves(line, line.id in split)]
        choices = [self._ways(move) for move in moves]
        values = (
            self._value(level, moves, ways, order)
            for ways in product(*choices)
            for order in permutations(range(len(moves)))
            if _goes_out_first(moves, order)
        )
        return min((value for value in values if value is not None), default=None)

    def _ways(self, move: Move) -> list[tuple[Runs, tuple[str, ...]]]:
        line, frame = move.line, self.visit.frame
        if not move.puts_in:
            return [((), ())]
        ways = ways_of(frame, line.from_anchor_id, line.to_anchor_id)
        if move.takes_out and line.old is not None:
            return [way for way in ways if set(way[1]) in (set(line.old.through), set())]
        return ways

    def _value(
        self, level: Outcome, moves: list[Move], ways: tuple[tuple[Runs, tuple[str, ...]], ...], order: tuple[int, ...]
    ) -> Value | None:
        total = NOTHING
        done: set[int] = set()
        at_end = [*self.visit.staying, *self._lying(moves, ways, set(range(len(moves))))]
        for n in order:
            move = moves[n]
            done.add(n)
            if move.puts_in:
                others = [each for each in range(len(moves)) if each != n]
                beside = [*self.visit.staying, *self._lying(moves, ways, done - {n}, others)]
                end = [each for each in at_end if each.line is not move.line.new.line]  # type: ignore[union-attr]
                reached = [value for outcome, value in self._ask(move, ways[n], beside, end) if outcome <= level]
                if not reached:
                    return None
                total = tuple(a + b for a, b in zip(total, min(reached), strict=True))
        return total

    def _lying(
        self,
        moves: list[Move],
        ways: tuple[tuple[Runs, tuple[str, ...]], ...],
        done: set[int],
        asked: list[int] | None = None,
    ) -> Iterator[StayingLine]:
        for n in range(len(moves)) if asked is None else asked:
            move, (runs, ports) = moves[n], ways[n]
            if n in done and move.puts_in and move.line.new is not None:
                yield StayingLine(line=move.line.new.line, through=(*ports, *runs))
            if n not in done and move.takes_out and move.line.old is not None:
                yield StayingLine(line=move.line.old.line, through=move.line.old.through)

    def _ask(
        self, move: Move, way: tuple[Runs, tuple[str, ...]], beside: list[StayingLine], at_end: list[StayingLine]
    ) -> list[tuple[Outcome, Value]]:
        key = (move.line.id, move.takes_out, way, _told(beside), _told(at_end))
        if key not in self.known:
            self.known[key] = list(self._single_plans(move, way, beside, at_end))
        return self.known[key]

    def _single_plans(
        self, move: Move, way: tuple[Runs, tuple[str, ...]], beside: list[StayingLine], at_end: list[StayingLine]
    ) -> Iterator[tuple[Outcome, Value]]:
        line, visit, (runs, ports) = move.line, self.visit, way
        assert line.new is not None
        frame = replace(visit.frame, runs={run_id: visit.frame.runs[run_id] for run_id in runs})
        old: OldLine | None = line.old if move.takes_out else None
        job = Job(
            id="one",
            title="One",
            frame=frame,
            from_anchor_id=line.from_anchor_id,
            to_anchor_id=line.to_anchor_id,
            old=old if ports or old is None else replace(old, through=()),
            new=line.new,
            staying=tuple(beside),
            staying_at_end=tuple(at_end),
            may_remove_inserts=visit.may_remove_inserts,
        )
        legs = find_legs(frame=frame, line=line.new.line)
        graph = graph_of_runs(
            frame=frame,
            from_anchor_id=line.from_anchor_id,
            to_anchor_id=line.to_anchor_id,
            leg_length_mm=ranking_lengths_mm(legs),
        )
        attempts = find_attempts(
            job=job,
            methods=self.workshop.methods,
            graph=graph,
            limits=self.workshop.limits,
            bend_checks={run_id: leg.bend_checks for run_id, leg in legs.items()},
        )
        for attempt in attempts:
            found = describe_attempt(workshop=self.workshop, attempt=attempt, legs=legs, adapter=None)
            if found is None or attempt.outcome is Outcome.NO_FIT:
                continue
            kind = attempt.method.kind
            handling = HANDLING[found.option.joint.advice] if kind.can_part_inside else 0
            once = {step.id for step in self.workshop.steps if step.is_once}
            own = [step_id for step_id in found.option.step_ids if step_id not in once]
            minutes = expected_minutes(step_ids=own, method=attempt.method, workshop=self.workshop)
            yield (
                attempt.outcome,
                (
                    int(attempt.outcome is Outcome.UNKNOWN),
                    int(bool(old is not None and old.through) and not ports),
                    int(handling == 2),
                    int(handling == 1),
                    round(minutes * 1000),
                    round((attempt.route.length_mm if attempt.route else 0.0) * 100),
                ),
            )


def _moves(line: VisitLine, is_split: bool) -> list[Move]:
    has_old, has_new = line.old is not None, line.new is not None
    if is_split:
        return [Move(line, True, False), Move(line, False, True)]
    return [Move(line, has_old, has_new)]


def _goes_out_first(moves: list[Move], order: tuple[int, ...]) -> bool:
    at = {(moves[n].line.id, moves[n].puts_in): place for place, n in enumerate(order)}
    return all(at[line_id, False] < at[line_id, True] for line_id, puts_in in at if puts_in and (line_id, False) in at)


def _told(lines: list[StayingLine]) -> tuple[tuple[Line, frozenset[str]], ...]:
    return tuple(sorted(((each.line, frozenset(each.through)) for each in lines), key=lambda told: told[0].id))


def is_outside(frame: Frame, runs: Runs) -> bool:
    """Whether a way goes through no port."""
    return len(runs) == 1 and frame.runs[runs[0]].zone_id == OUTSIDE
