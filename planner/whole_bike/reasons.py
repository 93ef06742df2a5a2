"""Why the order is as it is: which line must go before which, and what forbids an order where there is none."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from planner.parts import VisitLine
from planner.verdicts import Outcome
from planner.whole_bike.changes import ChangeId, StepKind, Way
from planner.whole_bike.drawn_together import NeverTogether
from planner.whole_bike.find_changes import why_never_together
from planner.whole_bike.order_search import find_order
from planner.whole_bike.place_book import STRICT, Lenience, WorkRanOutError
from planner.whole_bike.visit_search import Answer, Pairs, VisitSearch, wishes_of

MOST_PLACES = 3
"""Places that are taken as endless together, to see which ones stand in the way."""

Works = Callable[[Lenience], bool]


@dataclass(frozen=True, slots=True, kw_only=True)
class Obstacle:
    """What stands in the way of an order.

    places : ids of the fewest ports and runs that, taken as endless, would let it through; empty where no three do
    missing_mm : how much each diameter lacks there, at the least; None where that is not about diameters [mm]
    """

    places: tuple[str, ...]
    missing_mm: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Forced:
    """One change that must come before another: no order the other way round works.

    before, after : the two changes
    obstacle : what would stand in the way
    with_ids : further lines without which it would not be forced
    follows : whether it follows from two others
    """

    before: ChangeId
    after: ChangeId
    obstacle: Obstacle
    with_ids: tuple[str, ...]
    follows: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Conflict:
    """The fewest lines that no order brings into the frame together.

    line_ids : they; every one of them is needed for the conflict
    obstacle : where, and by how much
    at_the_end : whether they do not even ride together; else they ride, but cannot be drawn in past each other
    is_one_draw : whether they are the lines of one draw, which does not work even with all other lines away
    never : why these can never be drawn in together; None where it is a matter of room, or of several draws
    """

    line_ids: tuple[str, ...]
    obstacle: Obstacle
    at_the_end: bool
    is_one_draw: bool = False
    never: NeverTogether | None = None


def find_forced(*, search: VisitSearch, answer: Answer) -> tuple[Forced, ...]:
    """Every pair of changes whose order is forced, in the order's own order.

    answer : an order
    """
    assert answer.found.order is not None
    changes = [answer.found.chosen[place].change for place in answer.found.order.places]
    ids = [change.id for change in changes]
    level = max(answer.outcome, Outcome.TIGHT)
    asker = _Asker(search=search, level=level, split=frozenset(answer.split))
    pairs = [(a, b) for a, b in combinations(ids, 2) if a[0] != b[0] and not _turns(search, answer, level, (b, a))]
    forced = [(a, b) for a, b in pairs if not asker.works(search.visit.lines, turned=frozenset({(b, a)}))]
    return tuple(
        Forced(
            before=a,
            after=b,
            obstacle=asker.obstacle(search.visit.lines, turned=frozenset({(b, a)})),
            with_ids=asker.needed_beside(a, b),
            follows=any((a, c) in forced and (c, b) in forced for c in ids),
        )
        for a, b in forced
    )


def _turns(search: VisitSearch, answer: Answer, level: Outcome, turned: tuple[ChangeId, ChangeId]) -> bool:
    """Whether two changes may be turned round on the ways that were chosen, or that was not looked at to the end."""
    chosen = answer.found.chosen
    ids = [each.change.id for each in chosen]
    try:
        order = find_order(
            chosen=chosen,
            steps=search.steps.asking(level=level),
            wishes=wishes_of(ids, frozenset({turned})),
            prunes=False,
            any_will_do=True,
        )
    except WorkRanOutError:
        return True
    return order is not None


def find_conflict(*, search: VisitSearch, level: Outcome, splits: bool) -> Conflict | None:
    """The fewest lines of a visit that no order brings in together, all other lines away.

    With fewer lines nothing gets worse, so that the first set found, tried from one line up, is a smallest one; lines
    that are drawn in together count as one.

    None where every set has an order, or the allowance ran out.

    level : the worst outcome that is taken
    splits : whether old lines may be taken out first
    """
    units = search.visit.units(sorted(search.visit.lines, key=lambda line: line.id))
    asker = _Asker(search=search, level=level, splits=splits)
    for size in range(1, len(units) + 1):
        for some in combinations(units, size):
            lines = tuple(line for unit in some for line in unit)
            if not asker.works(lines):
                return Conflict(
                    line_ids=tuple(sorted(line.id for line in lines)),
                    obstacle=asker.obstacle(lines),
                    at_the_end=not asker.rides(lines),
                    is_one_draw=size == 1 and len(lines) > 1,
                    never=why_never_together(visit=search.visit, lines=some[0], workshop=search.workshop)
                    if size == 1 and len(lines) > 1
                    else None,
                )
    return None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Asker:
    """Whether some of the lines have an order at all."""

    search: VisitSearch
    level: Outcome
    split: frozenset[str] = frozenset()
    splits: bool = False

    def works(self, lines: Sequence[VisitLine], *, turned: Pairs = frozenset(), lenience: Lenience = STRICT) -> bool:
        """Whether there is an order; what was not looked at to the end counts as one."""
        for split in self._split_sets(lines):
            _, found = self.search.find(
                lines=lines,
                levels=(self.level,),
                split=split,
                first_before=turned,
                lenience=lenience,
                any_will_do=True,
            )
            if found.order is not None or not found.is_whole:
                return True
        return False

    def _split_sets(self, lines: Sequence[VisitLine]) -> Iterator[frozenset[str]]:
        ids = {line.id for line in lines}
        yield self.split & ids
        if self.splits:
            yield from self.search.splits(lines=lines)

    def obstacle(self, lines: Sequence[VisitLine], *, turned: Pairs = frozenset()) -> Obstacle:
        """The fewest places in the way, and what lacks there."""

        def works(lenience: Lenience) -> bool:
            return self.works(lines, turned=turned, lenience=lenience)

        return Obstacle(places=_fewest_places(works, self._places(lines)), missing_mm=self._missing_mm(works))

    def _places(self, lines: Iterable[VisitLine]) -> list[str]:
        """Ports and runs that the new lines may take, in the frame's order."""
        taken = {
            asked.place_id
            for change in self.search.changes_of(lines, split=self.split)
            for way in change.ways
            for asked in way.riding
        }
        frame = self.search.visit.frame
        return [place_id for place_id in (*frame.ports, *frame.runs) if place_id in taken]

    def _missing_mm(self, works: Works) -> float | None:
        """The least by which every diameter would have to be less: one of the figures that were seen to lack."""
        known: list[float] = []
        while self.search.places.left > 0:
            seen = self.search.places.lacking_sizes_mm()
            if seen == known or not seen:
                break
            known = seen
            if not works(Lenience(lacking_mm=known[-1])):
                continue
            low, high = 0, len(known) - 1
            while low < high:
                middle = (low + high) // 2
                low, high = (low, middle) if works(Lenience(lacking_mm=known[middle])) else (middle + 1, high)
            if self.search.places.lacking_sizes_mm() == known:
                return known[low]
        return None

    def needed_beside(self, first: ChangeId, second: ChangeId) -> tuple[str, ...]:
        """The fewest other lines with which the first must still go before the second."""
        units = self.search.visit.units(self.search.visit.lines)
        both = {first[0], second[0]}
        pair = [line for unit in units if unit[0].id in both for line in unit]
        others = [unit for unit in units if unit[0].id not in both]
        for size in range(len(others)):
            for some in combinations(others, size):
                lines = [line for unit in some for line in unit]
                if not self.works((*pair, *lines), turned=frozenset({(second, first)})):
                    return tuple(line.id for line in lines)
        return tuple(line.id for unit in others for line in unit)

    def rides(self, lines: Sequence[VisitLine]) -> bool:
        """Whether the new lines ride together on some of their ways; what was not looked at to the end counts so."""
        steps = self.search.steps.asking(level=self.level)
        changes = self.search.changes_of(lines, split=self.split)
        choices = [change.ways for change in changes if change.kind is not StepKind.OUT]
        try:
            return _some_ride(steps.end, choices, self.level)
        except WorkRanOutError:
            return True


def _some_ride(end: Callable[[tuple[Way, ...]], Outcome], choices: list[tuple[Way, ...]], level: Outcome) -> bool:
    """Line by line: what does not ride alone rides with no more lines either."""

    def ride(chosen: tuple[Way, ...], left: list[tuple[Way, ...]]) -> bool:
        if chosen and end(chosen) > level:
            return False
        return not left or any(ride((*chosen, way), left[1:]) for way in left[0])

    return ride((), choices)


def _fewest_places(works: Works, places: Sequence[str]) -> tuple[str, ...]:
    for size in range(1, MOST_PLACES + 1):
        for some in combinations(places, size):
            if works(Lenience(endless=frozenset(some))):
                return some
    return ()
