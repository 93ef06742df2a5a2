"""The placements of several round things that are nearly as good as the best, followed to slightly other sizes."""

from collections.abc import Hashable, Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import combinations, permutations

import numpy as np

from planner.geometry.openings.opening_depth import Array, depths_mm
from planner.geometry.openings.opening_shape import SeenArcs, SeenOpening, SeenOutline
from planner.geometry.packing.contacts import Held
from planner.geometry.packing.polish import polish
from planner.geometry.packing.search import (
    FINE_WALLS,
    ROUGH_WALLS,
    FoundPlacement,
    best_of_search,
    find_placement,
    grow_placements,
    measured_placement,
    polished_placement,
    search_placements,
    worth_a_look,
)
from planner.geometry.packing.starts import BESIDE_MM, even_points
from planner.geometry.packing.step import State
from planner.geometry.packing.work import MOST_WORK, Work

_MOST_FOLLOWED = 12
_MOST_REORDERED = 3
_INSIDE_MM = 1e-6


@lru_cache(maxsize=512)
def find_placements(
    seen: SeenOpening, diameters_mm: tuple[float, ...], *, within_mm: float, most_work: int = MOST_WORK
) -> tuple[FoundPlacement, ...]:
    """The best placement and the few next best that differ, nearly as good as it: with other sizes one may be better.

    Returns at most twelve, the best first.

    seen : the opening as the line sees it; something is left of it
    within_mm : how much less growth still counts as nearly as good
    most_work : rows that may be looked at
    """
    sizes = np.array(diameters_mm, dtype=np.float64)
    work = Work(most_work)
    state = search_placements(seen, sizes, within_mm, work)
    chosen = worth_a_look(state, most=_MOST_FOLLOWED, within_mm=within_mm)
    others = [measured_placement(seen, diameters_mm, state.centres_mm[index]) for index in chosen]
    if isinstance(seen, SeenArcs):
        others = _held_placements(seen, sizes, state.only(np.array(chosen)), others, work)
    best = find_placement(seen, diameters_mm, most_work=most_work)
    swapped = _swapped_placements(seen, diameters_mm, [best, *others], within_mm)
    near = [one for one in (*others, *swapped) if one.growth_mm > best.growth_mm - within_mm]
    return _unlike(best, sorted(near, key=_settled_and_roomy, reverse=True))[:_MOST_FOLLOWED]


def _swapped_placements(
    seen: SeenOpening, diameters: tuple[float, ...], found: Sequence[FoundPlacement], within_mm: float
) -> list[FoundPlacement]:
    """The same with things of nearly one size in each other's places: alike now, not when one of them is off."""
    swapped = []
    for order in _orders_of_alike(diameters, within_mm):
        for one in found:
            centres = np.array(one.centres_mm)[order]
            if isinstance(seen, SeenArcs) and one.held is not None and one.held.is_settled:
                held = polish(seen=seen, diameters_mm=diameters, held=_reordered(one.held, order))
                swapped.append(replace(measured_placement(seen, diameters, np.array(held.centres_mm)), held=held))
            else:
                swapped.append(measured_placement(seen, diameters, centres))
    return swapped


def _orders_of_alike(diameters: tuple[float, ...], within_mm: float) -> list[list[int]]:
    """Every other order of few things, of more any two swapped, in which none differs much from what lay there."""
    count = len(diameters)
    as_given = list(range(count))
    orders = [list(order) for order in permutations(as_given)] if count <= _MOST_REORDERED else []
    for i, j in () if orders else combinations(as_given, 2):
        orders.append([{i: j, j: i}.get(k, k) for k in as_given])
    return [
        order
        for order in orders
        if order != as_given and all(abs(diameters[k] - diameters[order[k]]) < within_mm for k in as_given)
    ]


def _reordered(held: Held, order: list[int]) -> Held:
    """What held the thing in each place holds the one that lies there now."""
    now = {before: after for after, before in enumerate(order)}
    return replace(
        held,
        centres_mm=tuple(held.centres_mm[before] for before in order),
        pairs=tuple(
            replace(pair, first=min(now[pair.first], now[pair.second]), second=max(now[pair.first], now[pair.second]))
            for pair in held.pairs
        ),
        edges=tuple(replace(edge, thing=now[edge.thing]) for edge in held.edges),
    )


def _held_placements(
    seen: SeenArcs, sizes: Array, state: State, rough: list[FoundPlacement], work: Work
) -> list[FoundPlacement]:
    """Each brought to where contacts hold it, for then it is followed quickly; between finer walls where need be."""
    diameters = tuple(sizes.tolist())
    held = [
        polished_placement(seen, diameters, state, index=place, walls_per_quarter=ROUGH_WALLS)
        for place in range(len(rough))
    ]
    loose = [place for place, one in enumerate(held) if one.held is None or not one.held.is_settled]
    if loose:
        fine = grow_placements(seen, sizes, state.centres_mm[loose], work, is_fine=True, hopeless_mm=np.inf)
        for row, place in enumerate(loose):
            held[place] = max(
                held[place],
                polished_placement(seen, diameters, fine, index=row, walls_per_quarter=FINE_WALLS),
                key=_settled_and_roomy,
            )
    return [max(pair, key=_settled_and_roomy) for pair in zip(held, rough, strict=True)]


def _settled_and_roomy(placement: FoundPlacement) -> tuple[bool, float]:
    return placement.held is not None and placement.held.is_settled, placement.growth_mm


def _unlike(best: FoundPlacement, others: list[FoundPlacement]) -> tuple[FoundPlacement, ...]:
    """Without those in which the same contacts hold everything, mirrored or not: at other sizes too they leave the same
    room. What nothing holds may lie elsewhere, and be what limits another size."""
    kept = [best]
    known: set[Hashable] = {best.centres_mm, *([_contacts_of(best)] if _is_all_held(best) else [])}
    for other in others:
        contacts = _contacts_of(other) if _is_all_held(other) else other.centres_mm
        if contacts not in known:
            kept.append(other)
            known.add(contacts)
    return tuple(kept)


def _is_all_held(placement: FoundPlacement) -> bool:
    held = placement.held
    if held is None or not held.is_settled:
        return False
    touching = {pair.first for pair in held.pairs} | {pair.second for pair in held.pairs}
    return len(touching | {edge.thing for edge in held.edges}) == len(placement.centres_mm)


def _contacts_of(placement: FoundPlacement) -> Hashable:
    """What holds a placement, the same for its mirror images; None where nothing is known to hold it."""
    held = placement.held
    if held is None or not held.is_settled:
        return None
    pairs = tuple(sorted((pair.first, pair.second) for pair in held.pairs))
    mirrored = (
        tuple(sorted((edge.thing, mx * edge.side[0], my * edge.side[1]) for edge in held.edges))
        for mx in (1, -1)
        for my in (1, -1)
    )
    return pairs, min(mirrored)


def follow_placements(
    *,
    seen: SeenOpening,
    diameters_mm: tuple[float, ...],
    found: Sequence[FoundPlacement],
    most_work: int = MOST_WORK,
) -> FoundPlacement:
    """The placement of nearly the same things in nearly the same opening, from those already found.

    Returns the best thereabouts; proven by itself.

    seen : the opening as the line sees it now
    diameters_mm : outer diameters now, in the same order
    found : where the things lay before; one or more
    most_work : rows that may be looked at
    """
    followed = [_followed_by_contacts(seen, diameters_mm, one) for one in found]
    placed = [one for one in followed if one is not None]
    left = [
        one
        for one, then in zip(found, followed, strict=True)
        if then is None or _contacts_of(then) != _contacts_of(one)  # held by others it may be a poorer place
    ]
    work = Work(most_work)
    if left:
        placed += _grown_further(seen, diameters_mm, left, work)
    return replace(max(placed, key=lambda placement: placement.growth_mm), work_rows=work.spent)


def _followed_by_contacts(
    seen: SeenOpening, diameters_mm: tuple[float, ...], found: FoundPlacement
) -> FoundPlacement | None:
    """Moved to where the same contacts hold it; None where that leads nowhere."""
    if not isinstance(seen, SeenArcs) or found.held is None or not found.held.is_settled:
        return None
    held = polish(seen=seen, diameters_mm=diameters_mm, held=found.held)
    return (
        replace(measured_placement(seen, diameters_mm, np.array(held.centres_mm)), held=held)
        if held.is_settled
        else None
    )


def _grown_further(
    seen: SeenOpening, diameters_mm: tuple[float, ...], found: Sequence[FoundPlacement], work: Work
) -> list[FoundPlacement]:
    """Grown from where the things lay, all at once; searched anew where a hole no longer holds them there."""
    sizes, starts = np.array(diameters_mm, dtype=np.float64), np.array([one.centres_mm for one in found])
    for start, one in zip(starts, found, strict=True):
        if len(set(one.centres_mm)) < len(start):
            start += even_points(count=len(start), dimensions=2) * BESIDE_MM
    placed = [measured_placement(seen, diameters_mm, start) for start in starts]
    inside = np.ones(len(starts), dtype=np.bool_)
    if isinstance(seen, SeenOutline):
        depth = depths_mm(seen=seen, points_mm=starts.reshape(-1, 2)).reshape(starts.shape[:2])
        inside = depth.min(axis=1) >= _INSIDE_MM
    if not inside.all():
        anew = find_placement(seen, diameters_mm, most_work=work.left)
        work.spend(anew.work_rows)
        placed.append(anew)
    if inside.any():
        is_near_end = isinstance(seen, SeenOutline)  # else it would be led from between two dents to between others
        grown = grow_placements(seen, sizes, starts[inside], work, is_fine=is_near_end)
        best = best_of_search(seen, sizes, grown, work)
        placed.append(replace(best, is_cut_short=work.is_out))
    return placed
