"""Every way of every line, every method and end, every order: the single planner asked at each moment.

Nothing of the search is used here: ways are walked anew, a step is the single planner's question with the lines that
lie there as lines that stay, and orders are written out one by one.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import combinations, permutations, product

from planner.parts import (
    OUTSIDE,
    Frame,
    Job,
    JobEnd,
    Line,
    Method,
    OldLine,
    StayingLine,
    TiedOn,
    Visit,
    VisitLine,
    Workshop,
)
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
LineWay = tuple[Runs, tuple[str, ...]]


@dataclass(frozen=True)
class Move:
    """What is done in one step: the old line goes, or the new one comes, or both; or several come with one draw."""

    lines: tuple[VisitLine, ...]
    takes_out: bool
    puts_in: bool


@dataclass(frozen=True)
class Single:
    """One way of leading one line in, as the single planner has it."""

    outcome: Outcome
    handling: int
    leaves: bool
    minutes: int
    length: int
    method_id: str
    feed_from: JobEnd


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
        self.known: dict[object, list[Single]] = {}

    def best(self) -> tuple[Outcome, Value, int]:
        """Outcome and value of the best order, and how many lines are taken out first."""
        drawn = {line_id for ids in self.visit.together for line_id in ids}
        lines = [line for line in self.visit.lines if line.id not in drawn]
        swaps = [line.id for line in lines if line.old is not None and line.new is not None]
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
        moves = [move for lines in self._draws() for move in _moves(lines, lines[0].id in split)]
        choices = [self._ways(move) for move in moves]
        values = (
            self._value(level, moves, ways, order)
            for ways in product(*choices)
            for order in permutations(range(len(moves)))
            if _goes_out_first(moves, order)
        )
        return min((value for value in values if value is not None), default=None)

    def _draws(self) -> list[tuple[VisitLine, ...]]:
        lines = {line.id: line for line in self.visit.lines}
        tied = [tuple(lines.pop(line_id) for line_id in ids) for ids in self.visit.together]
        return [*((line,) for line in lines.values()), *tied]

    def _ways(self, move: Move) -> list[tuple[LineWay, ...]]:
        if not move.puts_in:
            return [()]
        found = product(*(self._ways_of(line, move.takes_out) for line in move.lines))
        if len(move.lines) == 1:
            return list(found)
        return [ways for ways in found if all(ways[0][1] and _share(ways[0], way) for way in ways)]

    def _ways_of(self, line: VisitLine, takes_out: bool) -> list[LineWay]:
        ways = ways_of(self.visit.frame, line.from_anchor_id, line.to_anchor_id)
        if takes_out and line.old is not None:
            return [way for way in ways if set(way[1]) in (set(line.old.through), set())]
        return ways

    def _value(
        self, level: Outcome, moves: list[Move], ways: tuple[tuple[LineWay, ...], ...], order: tuple[int, ...]
    ) -> Value | None:
        total = NOTHING
        done: set[int] = set()
        for n in order:
            move = moves[n]
            done.add(n)
            if move.puts_in:
                others = [each for each in range(len(moves)) if each != n]
                beside = [*self.visit.staying, *self._lying(moves, ways, done - {n}, others)]
                end = [*self.visit.staying, *self._lying(moves, ways, set(others), others)]
                reached = [value for outcome, value in self._draw(move, ways[n], beside, end) if outcome <= level]
                if not reached:
                    return None
                total = tuple(a + b for a, b in zip(total, min(reached), strict=True))
        return total

    def _lying(
        self, moves: list[Move], ways: tuple[tuple[LineWay, ...], ...], done: set[int], asked: list[int]
    ) -> Iterator[StayingLine]:
        for n in asked:
            move = moves[n]
            if n in done and move.puts_in:
                yield from (_stays(line, way) for line, way in zip(move.lines, ways[n], strict=True))
            if n not in done and move.takes_out:
                olds = (line.old for line in move.lines if line.old is not None)
                yield from (StayingLine(line=old.line, through=old.through) for old in olds)

    def _draw(
        self, move: Move, ways: tuple[LineWay, ...], beside: list[StayingLine], end: list[StayingLine]
    ) -> Iterator[tuple[Outcome, Value]]:
        """Every manner of one step; of several lines every order in which they follow each other."""
        if len(move.lines) == 1:
            yield from (_valued([one]) for one in self._ask(move, 0, ways[0], beside, end, self.workshop.methods))
            return
        for sequence in permutations(range(len(move.lines))):
            if all(move.lines[n].old is None for n in sequence[1:]):
                yield from (_valued(singles) for singles in self._follow(move, ways, sequence, beside, end))

    def _follow(
        self,
        move: Move,
        ways: tuple[LineWay, ...],
        sequence: tuple[int, ...],
        beside: list[StayingLine],
        end: list[StayingLine],
    ) -> Iterator[list[Single]]:
        first = sequence[0]
        new = [_stays(move.lines[n], ways[n]) for n in sequence]
        tied = tuple(each.line for each in new[1:])
        able = tuple(m for m in self.workshop.methods if getattr(m, "tie", None) and m.tie.most_n >= len(tied))
        for leads in self._ask(move, first, ways[first], beside, [*end, *new[1:]], able, tied):
            method = next(each for each in able if each.id == leads.method_id)
            wrapped = replace(new[0].line, outer_diameter_mm=new[0].line.outer_diameter_mm + method.tie.adds_mm)
            choices = []
            for place, n in enumerate(sequence[1:], start=1):
                there = [*beside, replace(new[0], line=wrapped), *new[1:place]]
                others = [*end, *new[:place], *new[place + 1 :]]
                bound = _bound(method, new[place].line)
                turned = ways[n][1][0] != ways[first][1][0]
                fed = leads.feed_from.other if turned else leads.feed_from
                asked = self._ask(move, n, ways[n], there, others, (bound,))
                choices.append([one for one in asked if one.feed_from is fed])
            yield from ([leads, *rest] for rest in product(*choices))

    def _ask(
        self,
        move: Move,
        n: int,
        way: LineWay,
        beside: list[StayingLine],
        end: list[StayingLine],
        methods: tuple[Method, ...],
        tied: tuple[Line, ...] = (),
    ) -> list[Single]:
        key = (move.lines[n].id, move.takes_out, way, _told(beside), _told(end), methods, tied)
        if key not in self.known:
            job = replace(
                self._job(move.lines[n], move.takes_out, way),
                staying=tuple(beside),
                staying_at_end=tuple(end),
                tied_on=tied,
            )
            self.known[key] = list(self._single_plans(job, methods))
        return self.known[key]

    def _job(self, line: VisitLine, takes_out: bool, way: LineWay) -> Job:
        visit, (runs, ports) = self.visit, way
        assert line.new is not None
        frame = replace(visit.frame, runs={run_id: visit.frame.runs[run_id] for run_id in runs})
        old: OldLine | None = line.old if takes_out else None
        return Job(
            id="one",
            title="One",
            frame=frame,
            from_anchor_id=line.from_anchor_id,
            to_anchor_id=line.to_anchor_id,
            old=old if ports or old is None else replace(old, through=()),
            new=line.new,
            may_remove_inserts=visit.may_remove_inserts,
            rotor_mm=line.rotor_mm,
            rotor_hub=line.rotor_hub,
        )

    def _single_plans(self, job: Job, methods: tuple[Method, ...]) -> Iterator[Single]:
        legs = find_legs(frame=job.frame, line=job.new.line)
        graph = graph_of_runs(
            frame=job.frame,
            from_anchor_id=job.from_anchor_id,
            to_anchor_id=job.to_anchor_id,
            leg_length_mm=ranking_lengths_mm(legs),
        )
        attempts = find_attempts(
            job=job,
            methods=methods,
            graph=graph,
            limits=self.workshop.limits,
            bend_checks={run_id: leg.bend_checks for run_id, leg in legs.items()},
        )
        for attempt in attempts:
            found = describe_attempt(workshop=self.workshop, attempt=attempt, legs=legs, adapter=None)
            if found is None or attempt.outcome is Outcome.NO_FIT:
                continue
            once = {step.id for step in self.workshop.steps if step.is_once}
            own = [step_id for step_id in found.option.step_ids if step_id not in once]
            minutes = expected_minutes(step_ids=own, method=attempt.method, workshop=self.workshop)
            yield Single(
                outcome=attempt.outcome,
                handling=HANDLING[found.option.joint.advice] if attempt.method.kind.can_part_inside else 0,
                leaves=job.old is not None and not job.old.through and any(line.old for line in self._swaps(job)),
                minutes=round(minutes * 1000),
                length=round((attempt.route.length_mm if attempt.route else 0.0) * 100),
                method_id=attempt.method.id,
                feed_from=attempt.feed_from,
            )

    def _swaps(self, job: Job) -> list[VisitLine]:
        """The line of a job whose old line is known to lie inside."""
        lines = self.visit.lines
        return [line for line in lines if line.new is job.new and line.old is not None and line.old.through]


def _valued(singles: list[Single]) -> tuple[Outcome, Value]:
    """Lines of one draw are handled as the most delicate must be, and rest together on what is not measured."""
    outcome, handling = max(one.outcome for one in singles), max(one.handling for one in singles)
    n = len(singles)
    value = (
        n * (outcome is Outcome.UNKNOWN),
        sum(one.leaves for one in singles),
        n * (handling == 2),
        n * (handling == 1),
        sum(one.minutes for one in singles),
        sum(one.length for one in singles),
    )
    return outcome, value


def _stays(line: VisitLine, way: LineWay) -> StayingLine:
    assert line.new is not None
    return StayingLine(line=line.new.line, through=(*way[1], *way[0]))


def _share(one: LineWay, other: LineWay) -> bool:
    """Whether two ways take the same holes and the same runs between them, be it backwards."""
    inside = (other[1], other[0][1:-1])
    return inside in ((one[1], one[0][1:-1]), (one[1][::-1], one[0][1:-1][::-1]))


def _bound(method: Method, line: Line) -> TiedOn:
    assert method.tie is not None  # type: ignore[union-attr]
    return TiedOn(
        id=method.id,
        name="bound",
        outer_diameter_mm=1.0,
        joint_diameter_mm=line.outer_diameter_mm + method.tie.adds_mm,  # type: ignore[union-attr]
        joint_length_mm=0.0,
        holds_n=method.tie.holds_n,  # type: ignore[union-attr]
        setup_min=method.tie.setup_min,  # type: ignore[union-attr]
        fail_chance=method.fail_chance,
        behind_id="first",
    )


def _moves(lines: tuple[VisitLine, ...], is_split: bool) -> list[Move]:
    has_old, has_new = any(line.old for line in lines), all(line.new for line in lines)
    if is_split:
        return [Move(lines, True, False), Move(lines, False, True)]
    return [Move(lines, has_old, has_new)]


def _goes_out_first(moves: list[Move], order: tuple[int, ...]) -> bool:
    at = {(moves[n].lines[0].id, moves[n].puts_in): place for place, n in enumerate(order)}
    return all(at[line_id, False] < at[line_id, True] for line_id, puts_in in at if puts_in and (line_id, False) in at)


def _told(lines: list[StayingLine]) -> tuple[tuple[Line, frozenset[str]], ...]:
    return tuple(sorted(((each.line, frozenset(each.through)) for each in lines), key=lambda told: told[0].id))


def is_outside(frame: Frame, runs: Runs) -> bool:
    """Whether a way goes through no port."""
    return len(runs) == 1 and frame.runs[runs[0]].zone_id == OUTSIDE
