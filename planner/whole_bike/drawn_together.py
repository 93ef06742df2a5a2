"""Several new lines drawn in with one draw: the first joined to what draws it, the others tied on behind its joint.

They take the same holes and part only outside the frame. The thick places follow each other, a hand's breadth apart, so
that a hole meets them one at a time: first the joint; then each tied end beside the lines before it; at last all of
them. A line with an old one goes first, on its own old line; where none has one, every order among them is tried.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from enum import StrEnum
from itertools import permutations, product

from planner.fit.things import thing_of_line
from planner.parts import JobEnd, Line, LineTie, Method, TiedOn, Visit, VisitLine, Workshop
from planner.whole_bike.changes import Asked, Led, LineWay, Manner, Way
from planner.whole_bike.line_ways import (
    LineQuestion,
    States,
    ask_line,
    find_line_way,
    job_of_line,
    ports_of,
    rank_of_manner,
    states_wanted,
    value_of,
)
from planner.whole_bike.place_book import Size

Found = tuple[LineWay, tuple[Manner, ...]]


class NeverTogether(StrEnum):
    """Why lines can never go in with one draw."""

    NO_METHOD = "no_method"
    NO_SHARED_WAY = "no_shared_way"


def methods_that_tie(methods: Iterable[Method], *, lines_n: int) -> tuple[Method, ...]:
    """Methods behind whose joint so many lines less one can be tied on."""
    return tuple(method for method in methods if (tie := tie_of(method)) is not None and tie.most_n >= lines_n - 1)


def tie_of(method: Method) -> LineTie | None:
    """How further lines are tied on behind a method's joint; None where none can be."""
    return getattr(method, "tie", None)


def tied_on(*, method: Method, first: Line, line: Line) -> TiedOn:
    """A line tied on behind a joint, as a way of drawing that line; drawn again as often as the joint comes apart.

    Its tied end is as much thicker than it as the method's tie says; soft, so that it bends with the lines.

    method : with a tie
    first : the line that the joint leads
    """
    tie = tie_of(method)
    assert tie is not None, "asked only of methods that tie"
    return TiedOn(
        id=f"{method.id}-tie",
        name=f"Tie behind {first.name}",
        outer_diameter_mm=line.outer_diameter_mm,
        joint_diameter_mm=line.outer_diameter_mm + tie.adds_mm,
        joint_length_mm=0.0,
        holds_n=tie.holds_n,
        setup_min=tie.setup_min,
        uses=tie.uses,
        fail_chance=method.fail_chance,
        behind_id=first.id,
    )


def bound_round(*, method: Method, first: Line) -> Line:
    """The first line where another is bound onto it: as much thicker as the tied end, for the wrap goes round both.

    method : with a tie
    """
    tie = tie_of(method)
    assert tie is not None, "asked only of methods that tie"
    thicker_mm = first.outer_diameter_mm + tie.adds_mm
    name = f"{first.name}, bound round to {thicker_mm:.2f}"
    return replace(first, id=f"{first.id}-bound", name=name, outer_diameter_mm=thicker_mm)


def find_ways_together(
    *, visit: Visit, lines: tuple[VisitLine, ...], ports: tuple[str, ...], workshop: Workshop
) -> tuple[Way, ...]:
    """Every way that all of these lines can take through the same holes, with the manners that lead them in.

    lines : the one with an old line first
    ports : ids of the ports its old line lies in; empty where there is none
    """
    finder = _Finder(visit=visit, lines=lines, ports=ports, workshop=workshop)
    ways = [finder.way(ways) for ways in finder.shared_ways()]
    found = (way for way in ways if way.manners)
    return tuple(sorted(found, key=lambda way: (way.manners[0].value, tuple(line.through for line in way.lines))))


def find_never_together(
    *, visit: Visit, lines: tuple[VisitLine, ...], ports: tuple[str, ...], workshop: Workshop
) -> NeverTogether | None:
    """Why these lines can never go in with one draw, whatever room there is; None where room decides.

    ports : ids of the ports the old line of the first lies in; empty where there is none
    """
    finder = _Finder(visit=visit, lines=lines, ports=ports, workshop=workshop)
    if not finder.methods:
        return NeverTogether.NO_METHOD
    return NeverTogether.NO_SHARED_WAY if next(finder.shared_ways(), None) is None else None


class _Finder:
    """One set of lines; the question of each line, behind each method, is put once."""

    def __init__(
        self, *, visit: Visit, lines: tuple[VisitLine, ...], ports: tuple[str, ...], workshop: Workshop
    ) -> None:
        self.visit, self.lines, self.workshop = visit, lines, workshop
        self.methods = methods_that_tie(workshop.methods, lines_n=len(lines))
        self.ports = ports
        self.states = [self._states(line) for line in lines]
        self.questions: dict[tuple[int, tuple[Method, ...]], LineQuestion] = {}
        self.found: dict[tuple[int, tuple[Method, ...], tuple[int, ...], States], Found] = {}

    def _states(self, line: VisitLine) -> list[States]:
        ports = line.through if line.old is None else self.ports
        ways = states_wanted(frame=self.visit.frame, line=line, ports=ports)
        return [states for states in ways if ports_of(states)]

    def shared_ways(self) -> Iterator[tuple[States, ...]]:
        """One way of each line, all through the same holes and cavities, be it from the other end."""
        for ways in product(*self.states):
            inside = self._inside(ways[0])
            if all(self._inside(states) in (inside, inside[::-1]) for states in ways[1:]):
                yield ways

    def way(self, ways: tuple[States, ...]) -> Way:
        """The lines on one way they share."""
        places = range(len(self.lines))
        free = [n for n in places if self.lines[n].old is None]
        fixed = [n for n in places if self.lines[n].old is not None]
        manners = [
            manner
            for sequence in ((*fixed, *rest) for rest in permutations(free))
            for manner in self._manners(sequence, ways)
        ]
        lines = [self._line_way(n, ways[n]) for n in places]
        return Way(lines=tuple(lines), manners=tuple(sorted(manners, key=rank_of_manner)))

    def _line_way(self, n: int, states: States) -> LineWay:
        if not self.methods:
            return self._find(n, (), (), states)[0]
        return self._find(n, (self._behind(self.methods[0], 0, n),), (), states)[0]

    def _manners(self, sequence: tuple[int, ...], ways: tuple[States, ...]) -> Iterator[Manner]:
        first, behind = sequence[0], sequence[1:]
        for leads in self._find(first, self.methods, behind, ways[first])[1]:
            attempt = leads.led[0].candidate.attempt
            follow = [self._follow(attempt.method, first, n, attempt.feed_from, ways) for n in behind]
            for manners in product(*follow):
                yield self._together((leads, *manners), sequence, ways)

    def _follow(self, method: Method, first: int, n: int, feed_from: JobEnd, ways: tuple[States, ...]) -> list[Manner]:
        """A line tied on behind, fed from where the first one is."""
        is_turned = self._inside(ways[n]) != self._inside(ways[first])
        fed_from = feed_from.other if is_turned else feed_from
        _, manners = self._find(n, (self._behind(method, first, n),), (), ways[n])
        return [manner for manner in manners if manner.led[0].candidate.attempt.feed_from is fed_from]

    def _behind(self, method: Method, first: int, n: int) -> TiedOn:
        return tied_on(method=method, first=self._line(first), line=self._line(n))

    def _line(self, n: int) -> Line:
        new = self.lines[n].new
        assert new is not None, "only lines that go in are drawn in together"
        return new.line

    def _find(self, n: int, methods: tuple[Method, ...], behind: tuple[int, ...], states: States) -> Found:
        key = (n, methods, tuple(sorted(behind)), states)
        if key not in self.found:
            question = self._question(n, methods)
            tied = tuple(self._line(each) for each in sorted(behind))
            self.found[key] = find_line_way(replace(question, job=replace(question.job, tied_on=tied)), states)
        return self.found[key]

    def _question(self, n: int, methods: tuple[Method, ...]) -> LineQuestion:
        if (n, methods) not in self.questions:
            line = self.lines[n]
            old = None if line.old is None else replace(line.old, through=self.ports)
            job = job_of_line(visit=self.visit, line=replace(line, old=old))
            workshop = replace(self.workshop, methods=methods)
            self.questions[n, methods] = ask_line(line_id=line.id, job=job, ways=self.states[n], workshop=workshop)
        return self.questions[n, methods]

    def _together(self, manners: Sequence[Manner], sequence: tuple[int, ...], ways: tuple[States, ...]) -> Manner:
        """One draw of all of them; its value for each line as for the most delicate."""
        led = tuple(self._led(manner, place) for place, manner in enumerate(manners))
        lyings = [self._line_way(n, ways[n]).lying for n in sequence]
        first, *others = (self._line(n) for n in sequence)
        bound = [bound_round(method=led[0].candidate.attempt.method, first=first), *others]
        drawing: list[Asked] = []
        for place, manner in enumerate(manners):
            for asked in manner.drawing:
                before = zip(bound[:place], lyings[:place], strict=True)
                behind = (_size(line) for line, lying in before if asked.place_id in lying.places)
                drawing.append(replace(asked, behind=tuple(sorted(behind))))
        return Manner(
            led=led,
            value=value_of((each.candidate, self.workshop) for each in led),
            alone=max(manner.alone for manner in manners),
            drawing=tuple(dict.fromkeys(drawing)),
        )

    def _led(self, manner: Manner, place: int) -> Led:
        (led,) = manner.led
        return replace(led, methods=self.methods if place == 0 else (led.candidate.attempt.method,))

    def _inside(self, states: States) -> tuple[str, ...]:
        """What a way takes from before its first hole to behind its last: cavities, holes and the runs between."""
        runs, ports = self.visit.frame.runs, ports_of(states)
        found = [runs[states[0].run_id].zone_id, ports[0]]
        for state, port_id in zip(states[1:-1], ports[1:], strict=True):
            found += [state.run_id, port_id]
        return (*found, runs[states[-1].run_id].zone_id)


def _size(line: Line) -> Size:
    thing = thing_of_line(line)
    return thing.diameter_mm, thing.tolerance_mm
