"""The order of a visit: first whether there is one and at what outcome, by levels; then the best at that level.

The worst of two outcomes forgets the better one, so outcome and cost are never minimised together step by step: at
each level, FITS first, all that is worse is left out and what remains are sums.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import combinations

from planner.parts import Visit, VisitLine, Workshop
from planner.verdicts import Outcome
from planner.whole_bike.changes import MINUTES, Change, ChangeId, StepKind
from planner.whole_bike.find_changes import find_changes
from planner.whole_bike.line_ways import has_too_many_ways
from planner.whole_bike.lyings import Lying, find_lying
from planner.whole_bike.order_search import Wishes
from planner.whole_bike.place_book import MOST_PACKINGS, STRICT, Lenience, PlaceBook
from planner.whole_bike.step_book import StepBook
from planner.whole_bike.visit_memory import VisitMemory
from planner.whole_bike.way_search import Found, find_best_ways

Pairs = frozenset[tuple[ChangeId, ChangeId]]
"""Of each pair the first goes before the second."""

WORKS = (Outcome.FITS, Outcome.TIGHT)


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What the search found.

    outcome : of steps and end; NO_FIT where there is no order
    found : the order with its ways; none where there is none
    split : ids of the lines taken out before their new one goes in
    is_proven : False where not everything was looked at, so that a better order may be there
    """

    outcome: Outcome
    found: Found
    split: tuple[str, ...] = ()
    is_proven: bool = True


@dataclass(slots=True)
class VisitSearch:
    """One visit with everything that is remembered of it.

    visit : what is asked
    workshop : methods, limits and steps
    places : the memory of the shared places, with the allowance
    memory : what is known of the lines from before; of this frame and workshop
    """

    visit: Visit
    workshop: Workshop
    places: PlaceBook
    memory: VisitMemory = field(default_factory=VisitMemory)
    steps: StepBook = field(init=False)
    changes: dict[tuple[tuple[str, ...], bool], tuple[Change, ...]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.steps = StepBook(places=self.places, staying=self._staying(), known=self.memory.steps)

    def _staying(self) -> tuple[Lying, ...]:
        frame = self.visit.frame
        return tuple(find_lying(frame=frame, line=each.line, through=each.through) for each in self.visit.staying)

    def changes_of(self, lines: Iterable[VisitLine], *, split: frozenset[str]) -> tuple[Change, ...]:
        """What is done to some of the lines, those drawn in together in one change; each found once.

        split : ids of the lines taken out before their new one goes in
        """
        return tuple(change for unit in self.visit.units(lines) for change in self._changes_of(unit, split))

    def _changes_of(self, unit: tuple[VisitLine, ...], split: frozenset[str]) -> tuple[Change, ...]:
        is_split = len(unit) == 1 and unit[0].id in split
        key = (tuple(line.id for line in unit), is_split)
        if key not in self.changes:
            self.changes[key] = self._remembered(unit, is_split)
        return self.changes[key]

    def _remembered(self, unit: tuple[VisitLine, ...], is_split: bool) -> tuple[Change, ...]:
        known = self.memory.changes
        if (unit, is_split) not in known:
            known[unit, is_split] = find_changes(
                visit=self.visit, lines=unit, workshop=self.workshop, is_split=is_split
            )
        return known[unit, is_split]

    def find(
        self,
        *,
        lines: Iterable[VisitLine],
        levels: Iterable[Outcome],
        split: frozenset[str] = frozenset(),
        first_before: Pairs = frozenset(),
        lenience: Lenience = STRICT,
        any_will_do: bool = False,
    ) -> tuple[Outcome, Found]:
        """The best order of some of the lines at the first level that has one; NO_FIT where none has.

        split : ids of the lines taken out before their new one goes in
        first_before : wishes for the order
        lenience : what is overlooked
        any_will_do : whether the first order that is found is enough
        """
        changes = sorted(self.changes_of(lines, split=split), key=_rank)
        wishes = wishes_of([change.id for change in changes], first_before)
        is_whole = True
        for level in levels:
            steps = self.steps.asking(level=level, lenience=lenience)
            found = find_best_ways(changes=tuple(changes), steps=steps, wishes=wishes, any_will_do=any_will_do)
            is_whole &= found.is_whole
            if found.order is not None:
                whole = Found(chosen=found.chosen, order=found.order, value=found.value, is_whole=is_whole)
                return level, whole
            if not found.is_whole:
                break
        return Outcome.NO_FIT, Found(is_whole=is_whole)

    def wished(self, split: frozenset[str]) -> Pairs:
        """The visit's own wishes as pairs: of each line named first before the next and before all that are not named.

        Of lines drawn in together what is wished for one holds for all.

        split : ids of the lines taken out before their new one goes in
        """
        first = self.visit.first
        others = [line.id for line in self.visit.lines if line.id not in first]
        named = {(a, b) for place, a in enumerate(first) for b in first[place + 1 :]}
        wishes = named | {(a, b) for a in first for b in others} | set(self.visit.before)
        changes = self.changes_of(self.visit.lines, split=split)
        done = {line.id: [change.id for change in changes if line.id in change.line_ids] for line in self.visit.lines}
        pairs = ((one, other) for a, b in wishes for one in done[a] for other in done[b])
        return frozenset(pair for pair in pairs if pair[0] != pair[1])

    def splits(self, *, lines: Iterable[VisitLine]) -> Iterator[frozenset[str]]:
        """Sets of lines that may be taken out first, fewest first; none where the job does not allow it.

        An old line that others are drawn in with stays until it draws them.
        """
        if not self.visit.may_take_out_first:
            return
        alone = [unit[0] for unit in self.visit.units(lines) if len(unit) == 1]
        swaps = [line.id for line in alone if line.old is not None and line.new is not None]
        for size in range(1, len(swaps) + 1):
            yield from (frozenset(ids) for ids in combinations(sorted(swaps), size))


def find_visit_order(
    *, visit: Visit, workshop: Workshop, most_packings: int = MOST_PACKINGS, memory: VisitMemory | None = None
) -> tuple[Answer, VisitSearch]:
    """The order in which all lines of a visit are changed, and the memory of the search.

    Whole swaps are tried first; where none of their orders works, old lines are taken out before their new ones go in,
    the fewest that help.

    most_packings : how many questions about several things in one hole may be asked
    memory : of the visit as it was asked before; None for none

    Raises OldWayNotToldError where an old line may lie on several ways and the job does not say.
    """
    memory = VisitMemory() if memory is None else memory
    memory.turn_to(visit, workshop)
    places = PlaceBook(limits=workshop.limits, left=most_packings, known=memory.places, unproven=memory.unproven)
    search = VisitSearch(visit=visit, workshop=workshop, places=places, memory=memory)
    too_many = any(has_too_many_ways(frame=visit.frame, line=line) for line in visit.lines)
    is_proven = not too_many
    for split, levels in _questions(search):
        outcome, found = search.find(lines=visit.lines, levels=levels, split=split, first_before=search.wished(split))
        is_proven &= found.is_whole
        if found.order is not None:
            answer = Answer(outcome=outcome, found=found, split=tuple(sorted(split)), is_proven=is_proven)
            return answer, search
        if not found.is_whole:
            return Answer(outcome=Outcome.UNKNOWN, found=found, is_proven=False), search
    return Answer(outcome=Outcome.NO_FIT, found=Found(), is_proven=is_proven), search


def _questions(search: VisitSearch) -> Iterator[tuple[frozenset[str], tuple[Outcome, ...]]]:
    """What is tried one after the other: an order that works, with ever more taken out first, before one unproven."""
    lines = search.visit.lines
    none: frozenset[str] = frozenset()
    yield none, WORKS
    yield from ((split, WORKS) for split in search.splits(lines=lines))
    yield none, (Outcome.UNKNOWN,)
    yield from ((split, (Outcome.UNKNOWN,)) for split in search.splits(lines=lines))


def _rank(change: Change) -> tuple[bool, float, tuple[str, ...], StepKind]:
    """The order told where others are as good: what goes out first, then what grows least, then by name."""
    before_mm = 0.0 if change.old is None else change.old.thickest_mm
    after_mm = max((lying.thickest_mm for way in change.ways for lying in way.new), default=0.0)
    return change.kind is not StepKind.OUT, round(after_mm - before_mm, 6), change.line_ids, change.kind


def wishes_of(ids: Sequence[ChangeId], pairs: Pairs) -> Wishes:
    """Wishes by place in a list of changes; a line taken out first goes out before it goes in in any case."""
    wishes = {(ids.index(a), ids.index(b)) for a, b in pairs if a in ids and b in ids}
    if not wishes:
        return frozenset()
    both = {
        (ids.index((line_id, StepKind.OUT)), place)
        for place, (line_id, kind) in enumerate(ids)
        if kind is StepKind.IN and (line_id, StepKind.OUT) in ids
    }
    return frozenset(wishes | both)


def least_minutes(*, search: VisitSearch) -> float:
    """What all lines take at the least, each in its quickest manner: no order takes less of their own work.

    Returns minutes without the steps that stand once in a visit [min]
    """
    quickest = (
        min(_quickest(search.changes_of(unit, split=split)) for split in (frozenset[str](), frozenset({unit[0].id})))
        for unit in search.visit.units(search.visit.lines)
    )
    return sum(quickest) / 1000


def _quickest(changes: tuple[Change, ...]) -> int:
    """The least minutes of some changes, each in its quickest manner, in thousandths."""
    return sum(
        min((manner.value[MINUTES] for way in change.ways for manner in way.manners), default=0) for change in changes
    )
