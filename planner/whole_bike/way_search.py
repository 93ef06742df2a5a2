"""The best choice of ways and order together, at one level of outcome: branch and bound over the ways of all lines."""

from collections.abc import Iterator
from dataclasses import dataclass

from planner.whole_bike.changes import NO_COST, Change, Value, Way, least_met
from planner.whole_bike.order_search import Chosen, Order, Wishes, find_order
from planner.whole_bike.place_book import WorkRanOutError
from planner.whole_bike.step_book import StepBook


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """The best order at one level.

    chosen : the changes on their ways, in the order they were handed in
    order : None where no order reaches the level
    value : of the order
    is_whole : False where the allowance ran out before everything was looked at
    """

    chosen: tuple[Chosen, ...] = ()
    order: Order | None = None
    value: Value = NO_COST
    is_whole: bool = True


def find_best_ways(
    *, changes: tuple[Change, ...], steps: StepBook, wishes: Wishes = frozenset(), any_will_do: bool = False
) -> Found:
    """The cheapest choice of ways and order that reaches the level.

    What cannot be better is left out first; where the search of a packing then proved nothing, everything is looked at
    again with nothing left out, since a smaller set may have been told worse than a larger one.

    changes : with their ways, the likeliest first
    steps : the memory, with level and lenience
    wishes : what must go before what, by place in the changes
    any_will_do : whether the first order that is found is enough
    """
    unproven_n = steps.places.unproven_n
    found = _Branches(changes=changes, steps=steps, wishes=wishes, prunes=not wishes, any_will_do=any_will_do).best()
    is_enough = not found.is_whole or (any_will_do and found.order is not None)
    if wishes or is_enough or steps.places.unproven_n == unproven_n:
        return found
    again = _Branches(changes=changes, steps=steps, wishes=wishes, prunes=False, any_will_do=any_will_do).best()
    return again if again.order is not None or again.is_whole else found


@dataclass(slots=True)
class _Branches:
    changes: tuple[Change, ...]
    steps: StepBook
    wishes: Wishes
    prunes: bool
    any_will_do: bool
    found: Found = Found()

    def best(self) -> Found:
        """The best of all choices; where the allowance ran out, the best so far."""
        by_ways = sorted(range(len(self.changes)), key=lambda place: len(self.changes[place].ways))
        try:
            self._assign(tuple(by_ways), {})
        except WorkRanOutError:
            return Found(chosen=self.found.chosen, order=self.found.order, value=self.found.value, is_whole=False)
        return self.found

    def _assign(self, left: tuple[int, ...], ways: dict[int, Way]) -> None:
        if not left:
            self._try_order(ways)
            return
        place = left[0]
        for way in self.changes[place].ways:
            assigned = {**ways, place: way}
            if self.any_will_do and self.found.order is not None:
                return
            if not self.prunes or self._may_be_best(assigned):
                self._assign(left[1:], assigned)

    def _may_be_best(self, ways: dict[int, Way]) -> bool:
        """Whether these ways may stand in a better plan: they ride together, and each has a manner at some moment."""
        if self.steps.end(ways.values()) > self.steps.level:
            return False
        values = list(self._least_values(ways))
        if None in values:
            return False
        least = tuple(map(sum, zip(*(value for value in values if value is not None), strict=True)))
        return self.found.order is None or least < self.found.value

    def _least_values(self, ways: dict[int, Way]) -> Iterator[Value | None]:
        for place, way in ways.items():
            others = ((self.changes[other].old, each.new) for other, each in ways.items() if other != place)
            least = (least_met(old, new) for old, new in others)
            answer = self.steps.step(way, (lying for lying in least if lying is not None))
            yield None if answer is None else answer.value

    def _try_order(self, ways: dict[int, Way]) -> None:
        in_order = [ways[place] for place in range(len(self.changes))]
        if self.steps.end(in_order) > self.steps.level:
            return
        told = zip(self.changes, in_order, self.steps.rides_unmeasured(in_order), strict=True)
        chosen = tuple(Chosen(change=change, way=way, rides_unmeasured=rides) for change, way, rides in told)
        order = find_order(
            chosen=chosen, steps=self.steps, wishes=self.wishes, prunes=self.prunes, any_will_do=self.any_will_do
        )
        if order is None:
            return
        if self.found.order is None or order.value < self.found.value:
            self.found = Found(chosen=chosen, order=order, value=order.value)
