"""The best order of the changes on chosen ways: what is done is remembered, not in which order it was done.

More or thicker lines beside one never help it. So some best order has no line that only grows directly before one that
only shrinks; a line that shrinks and is as well off now as ever goes now; one that grows and is as well off at the last
as ever goes last. Where the search of a packing proved nothing, a smaller set may be told worse than a larger one:
then, and with wishes for the order, every order is looked at.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from planner.whole_bike.changes import NO_COST, Change, Value, Way, grows, least_met, shrinks
from planner.whole_bike.lyings import Lying
from planner.whole_bike.step_book import StepAnswer, StepBook

Wishes = frozenset[tuple[int, int]]
"""Places in the list of changes: of each pair the first goes before the second."""


@dataclass(frozen=True, eq=False, slots=True, kw_only=True)
class Chosen:
    """One change on its chosen way.

    rides_unmeasured : whether something it rides in at the end is not measured or not proven
    """

    change: Change
    way: Way
    rides_unmeasured: bool = False

    def lyings(self, *, is_done: bool) -> tuple[Lying, ...]:
        """How the line lies before or after, or the lines drawn in together."""
        if is_done:
            return self.way.new
        return () if self.change.old is None else (self.change.old,)

    @property
    def shrinks(self) -> bool:
        """Whether the others never meet more of it afterwards than before."""
        return shrinks(self.change.old, self.way.new)

    @property
    def grows(self) -> bool:
        """Whether the others never meet less of it afterwards, and it does not shrink."""
        return grows(self.change.old, self.way.new)


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """One order of all changes.

    value : what it costs
    places : places in the list of changes, in order
    """

    value: Value
    places: tuple[int, ...]


def find_order(
    *,
    chosen: tuple[Chosen, ...],
    steps: StepBook,
    wishes: Wishes = frozenset(),
    prunes: bool = True,
    any_will_do: bool = False,
) -> Order | None:
    """The cheapest order in which every step reaches the level; where nothing is left out, of equals the first listed.

    None where there is none.

    steps : the memory, with level and lenience
    wishes : what must go before what
    prunes : whether orders are left out that cannot be better; not with wishes, nor where a packing was not proven
    any_will_do : whether the first order that is found is enough

    Raises WorkRanOutError where the allowance is used up.

    Source: M. Held, R. Karp, "A dynamic programming approach to sequencing problems", J. SIAM 10 (1962) 196-210, from
    memory; what is left out: derived, in this module's head.
    """
    search = _Search(chosen=chosen, steps=steps, wishes=wishes, prunes=prunes, any_will_do=any_will_do)
    if prunes and any(answer is None for answer in search.best_ever):
        return None
    last = search.peel_last() if prunes else ()
    everything = (1 << len(chosen)) - 1
    stop = everything & ~sum(1 << place for place in last)
    before = search.go(0, stop, after_grower=False)
    if before is None:
        return None
    value, places = before.value, before.places
    for place in last:
        answer = search.step(place, sum(1 << each for each in places))
        if answer is None:
            return None
        value, places = _sum(value, answer.value), (*places, place)
    return Order(value=value, places=places)


def _sum(first: Value, second: Value) -> Value:
    return tuple(a + b for a, b in zip(first, second, strict=True))


@dataclass(slots=True)
class _Search:
    chosen: tuple[Chosen, ...]
    steps: StepBook
    wishes: Wishes
    prunes: bool
    any_will_do: bool = False
    best_ever: tuple[StepAnswer | None, ...] = ()
    known: dict[tuple[int, bool], Order | None] = field(default_factory=dict)

    def __post_init__(self) -> None:
        if self.prunes:
            self.best_ever = tuple(self._beside_least(place) for place in range(len(self.chosen)))

    def step(self, place: int, done: int) -> StepAnswer | None:
        """This change now, with the changes done that are."""
        return self._step_beside(place, self._beside(place, done))

    def _step_beside(self, place: int, beside: Iterable[Lying]) -> StepAnswer | None:
        each = self.chosen[place]
        return self.steps.step(each.way, beside, is_unmeasured=each.rides_unmeasured)

    def _beside(self, place: int, done: int) -> Iterator[Lying]:
        for other, each in enumerate(self.chosen):
            if other != place:
                yield from each.lyings(is_done=bool(done >> other & 1))

    def _beside_least(self, place: int) -> StepAnswer | None:
        """The change beside what is met of the others at every moment."""
        others = (each for other, each in enumerate(self.chosen) if other != place)
        least = (least_met(each.change.old, each.way.new) for each in others)
        return self._step_beside(place, (lying for lying in least if lying is not None))

    def _is_at_best(self, place: int, done: int) -> bool:
        now, ever = self.step(place, done), self.best_ever[place]
        return now is not None and ever is not None and now.value == ever.value

    def peel_last(self) -> tuple[int, ...]:
        """Changes that only grow and are as well off at the last as ever, in order."""
        left = (1 << len(self.chosen)) - 1
        last: tuple[int, ...] = ()
        while True:
            growing = (place for place, each in enumerate(self.chosen) if left >> place & 1 and each.grows)
            found = next((place for place in growing if self._is_at_best(place, left & ~(1 << place))), None)
            if found is None:
                return last
            left &= ~(1 << found)
            last = (found, *last)

    def go(self, done: int, stop: int, *, after_grower: bool) -> Order | None:
        """The cheapest order of what is left before the stop."""
        if done == stop:
            return Order(value=NO_COST, places=())
        key = (done, after_grower)
        if key not in self.known:
            self.known[key] = self._best(self._next(done, stop, after_grower), done, stop)
        return self.known[key]

    def _best(self, places: Iterable[int], done: int, stop: int) -> Order | None:
        best: Order | None = None
        for place in places:
            answer = self.step(place, done)
            if answer is None:
                continue
            rest = self.go(done | 1 << place, stop, after_grower=self.prunes and self.chosen[place].grows)
            if rest is None:
                continue
            value = _sum(answer.value, rest.value)
            if best is None or value < best.value:
                best = Order(value=value, places=(place, *rest.places))
            if self.any_will_do:
                break
        return best

    def _next(self, done: int, stop: int, after_grower: bool) -> list[int]:
        """What may come next."""
        left = [place for place in range(len(self.chosen)) if stop >> place & 1 and not done >> place & 1]
        if not self.prunes:
            return [place for place in left if not any(a in left and b == place for a, b in self.wishes)]
        shrinking = [place for place in left if self.chosen[place].shrinks]
        if after_grower:
            return [place for place in left if place not in shrinking]
        now = next((place for place in shrinking if self._is_at_best(place, done)), None)
        return left if now is None else [now]
