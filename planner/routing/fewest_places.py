"""The cheapest choice that takes at least one of every set."""

from collections.abc import Collection, Mapping, Sequence

from planner.quick_dataclass import dataclass

Place = tuple[str, str]
"""("port", id) or ("run", id)."""

STEPS_AT_LEAST = 500
"""How many choices are looked at in any case, so that a good one is found."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fewest:
    """The cheapest choice found.

    places : one of every set at least
    is_proven : whether no choice is cheaper
    steps_n : how many choices were looked at
    """

    places: frozenset[Place]
    is_proven: bool
    steps_n: int


def find_fewest(
    *, sets: Collection[frozenset[Place]], costs: Mapping[Place, int], at_least: int, steps_allowed_n: int
) -> Fewest:
    """The cheapest places of which every set holds one.

    sets : none of them empty
    costs : of each place, above zero
    at_least : no choice is cheaper, as is known already
    steps_allowed_n : how many choices may be looked at

    Source: branch and bound on the smallest set left, bounded below by sets that share no place; derived.
    """
    order = sorted({place for members in sets for place in members}, key=lambda place: (costs[place], place))
    bits = {place: 1 << n for n, place in enumerate(order)}
    masks = _without_supersets([sum(bits[place] for place in members) for members in sets])
    search = _Search([costs[place] for place in order], at_least, max(steps_allowed_n, STEPS_AT_LEAST))
    search.go_on(masks, chosen=0, cost=0)
    return Fewest(
        places=frozenset(place for place in order if search.best & bits[place]),
        is_proven=search.is_proven,
        steps_n=search.steps_n,
    )


def _without_supersets(masks: Sequence[int]) -> list[int]:
    kept: list[int] = []
    for mask in sorted(set(masks), key=lambda mask: (mask.bit_count(), mask)):
        if not any(mask & smaller == smaller for smaller in kept):
            kept.append(mask)
    return kept


class _Search:
    """Places are bits, cheapest first, so that the lowest bit of a set is its cheapest place."""

    def __init__(self, costs: Sequence[int], at_least: int, steps_allowed_n: int) -> None:
        self._costs = costs
        self._at_least = at_least
        self._steps_allowed_n = steps_allowed_n
        self.best = (1 << len(costs)) - 1
        self._best_cost = sum(costs)
        self.steps_n = 0

    @property
    def is_proven(self) -> bool:
        """Whether the best choice is known to be the cheapest."""
        return self._best_cost <= self._at_least or self.steps_n <= self._steps_allowed_n

    def go_on(self, masks: Sequence[int], *, chosen: int, cost: int) -> None:
        """Look at every choice that goes on from here and could be cheaper than the best one."""
        self.steps_n += 1
        if self.steps_n > self._steps_allowed_n or self._best_cost <= self._at_least:
            return
        if not masks:
            self.best, self._best_cost = chosen, cost
            return
        refused = 0
        smallest = _bits_of(min(masks, key=int.bit_count))
        for bit in sorted(smallest, key=lambda bit: -sum(1 for mask in masks if mask & bit)):
            dearer = cost + self._costs[bit.bit_length() - 1]
            left = [mask & ~refused for mask in masks if not mask & bit]
            if all(left) and dearer + self._bound(left) < self._best_cost:
                self.go_on(left, chosen=chosen | bit, cost=dearer)
            refused |= bit

    def _bound(self, masks: Sequence[int]) -> int:
        taken = least = 0
        for mask in sorted(masks, key=int.bit_count):
            if not mask & taken:
                taken |= mask
                least += self._costs[(mask & -mask).bit_length() - 1]
        return least


def _bits_of(mask: int) -> list[int]:
    found = []
    while mask:
        lowest = mask & -mask
        found.append(lowest)
        mask ^= lowest
    return found
