"""Helicoidal arcs: curves of bend radius 1 whose plane turns as they go, between poses with no plain curve.

Told as chains of many short arcs, each in its own plane: such a chain bends nowhere tighter than allowed and leads from
pose to pose, so its length is that of a real curve and errs long, by a thousandth where the true one was worked out.
Sought near three-arc curves and near a plain curve whose straight is used up; what is found is the best of these.
"""

import numpy as np
from numpy.typing import NDArray

from planner.geometry.curves.arc_straight_arc import find_plain_curves
from planner.geometry.curves.hinge_chains import (
    Walk,
    bends_of,
    chains_of_hinges,
    misses_and_slopes,
    nearest_step,
    prices_of,
    shortening_step,
    walk,
)
from planner.geometry.curves.piece_chains import PieceChains
from planner.geometry.curves.pose_pairs import Array, Mask, PosePairs, dots, rows_of
from planner.geometry.curves.three_arcs import edge_hinges, find_three_arcs

ARCS = 24
_ROUGH_ARCS = 12
_ROUGH_STEPS, _FINE_STEPS = 30, 12
_MEETING_STEPS = 3
_SETTLED = 1e-7
_DECIMALS = 9
_SHORTEST = 1e-3
_ROUGH_DAMPING, _FINE_DAMPING, _LAST_DAMPING, _DAMPING_FALLS = 0.3, 1e-3, 1e-5, 0.5
_ACCEPTED = 1e-8


def find_helicoids(pairs: PosePairs, rough: Array) -> tuple[Array, Array]:
    """The curves that chains lead to when every one of their arcs may change its plane as it goes.

    Returns their hinges (rows, 2 x 24), and their lengths, infinite where none was found.

    pairs : one for each chain
    rough : lean and turn of each arc of the chains to begin with, `in_rough_arcs`

    Source: H. J. Sussmann, "Shortest 3-dimensional paths with a prescribed curvature bound", Proc. 34th IEEE Conf.
    Decision and Control (1995) 3306-3312, for helicoidal arcs; from memory of the paper.
    """
    fine, lengths = np.zeros((len(rough), 4 * _ROUGH_ARCS)), np.full(len(rough), np.inf)
    which = np.flatnonzero(_goes_forward(rough))
    chains, _ = _shortened(rows_of(pairs, which), rough[which], most_steps=_ROUGH_STEPS, damping=_ROUGH_DAMPING)
    forward = _goes_forward(chains)
    which, chains = which[forward], _halved(chains[forward])
    chains, is_found = _shortened(rows_of(pairs, which), chains, most_steps=_FINE_STEPS, damping=_FINE_DAMPING)
    fine[which] = chains
    lengths[which[is_found]] = chains[is_found, 1::2].sum(axis=1)
    return fine, lengths


def _goes_forward(hinges: Array) -> Mask:
    turns = hinges[:, 1::2]
    forward: Mask = (turns >= 0).all(axis=1) & (turns.sum(axis=1) > _SHORTEST)
    return forward


def in_rough_arcs(hinges: Array) -> Array:
    """Chains of two or three arcs cut into the twelve that the search begins with, all about as long.

    hinges : lean and turn of each arc (rows, 2 x arcs)
    """
    turns = hinges[:, 1::2]
    rough = np.zeros((len(hinges), _ROUGH_ARCS, 2))
    for row, parts in enumerate(_parts_of(turns)):
        begins = np.cumsum(parts) - parts
        rough[row, begins, 0] = hinges[row, ::2]
        rough[row, :, 1] = np.repeat(turns[row] / parts, parts)
    return rough.reshape(len(hinges), 2 * _ROUGH_ARCS)


def _parts_of(turns: Array) -> NDArray[np.intp]:
    """How many of the twelve each arc becomes: one, and then always the one whose parts are longest gets one more."""
    parts = np.ones(turns.shape, dtype=np.intp)
    every = np.arange(len(turns))
    for _ in range(_ROUGH_ARCS - turns.shape[1]):
        parts[every, (turns / parts).argmax(axis=1)] += 1
    return parts


def _halved(hinges: Array) -> Array:
    """The same chains with every arc in two halves in its plane."""
    halves = np.zeros((len(hinges), hinges.shape[1] // 2, 2, 2))
    halves[:, :, 0, 0] = hinges[:, ::2]
    halves[:, :, :, 1] = hinges[:, 1::2, None] / 2
    return halves.reshape(len(hinges), 2 * hinges.shape[1])


def _shortened(pairs: PosePairs, hinges: Array, *, most_steps: int, damping: float) -> tuple[Array, Mask]:
    """Chains of locally least length in which every arc keeps its share of the whole.

    Free to share anew, arcs would shrink to nothing and beyond. At last the ends are met, whatever that costs.
    """
    whole = hinges[:, 1::2].sum(axis=1)
    unknowns = np.concatenate([hinges[:, ::2], whole[:, None]], axis=1)
    shares = hinges[:, 1::2] / whole[:, None]
    open_ = np.arange(len(hinges))
    for step in range(most_steps):
        these, parts = rows_of(pairs, open_), shares[open_]
        found, miss, slope, square = _looked_at(these, unknowns[open_], parts)
        rise = np.zeros((len(open_), unknowns.shape[1]))
        rise[:, -1] = 1.0
        change = shortening_step(
            bends=_with_shared_turns(bends_of(found, prices_of(slope, rise), square), parts),
            slope=slope,
            rise=rise,
            miss=miss,
            damping=max(_LAST_DAMPING, damping * _DAMPING_FALLS**step),
        )
        unknowns[open_] += change
        open_ = open_[np.abs(change).max(axis=1) > _SETTLED]
        if not len(open_):
            break
    for _ in range(_MEETING_STEPS):
        _, miss, slope, _ = _looked_at(pairs, unknowns, shares)
        unknowns += nearest_step(slope=slope, miss=miss)
    found, miss, _, _ = _looked_at(pairs, unknowns, shares)
    is_found = (np.abs(miss).max(axis=1) < _ACCEPTED) & (dots(found.heading, pairs.ends) > 0)
    return _hinges_of(unknowns, shares), is_found & (unknowns[:, -1] > 0)


def _hinges_of(unknowns: Array, shares: Array) -> Array:
    hinges = np.empty((len(shares), 2 * shares.shape[1]))
    hinges[:, ::2], hinges[:, 1::2] = unknowns[:, :-1], shares * unknowns[:, -1:]
    return hinges


def _looked_at(pairs: PosePairs, unknowns: Array, shares: Array) -> tuple[Walk, Array, Array, Array]:
    """Where chains lead, what they miss, how that changes with all leans and the one length, and the axes aside."""
    found = walk(_hinges_of(unknowns, shares), pairs.starts)
    miss, slope, square = misses_and_slopes(found, pairs)
    return found, miss, np.concatenate([slope[:, ::2], shares[:, None] @ slope[:, 1::2]], axis=1), square


def _with_shared_turns(bends: Array, shares: Array) -> Array:
    """Second derivatives in all leans and the one length, from those in all leans and turns."""
    by_length = bends[:, :, 1::2] @ shares[:, :, None]
    leans = np.concatenate([bends[:, ::2, ::2], by_length[:, ::2]], axis=2)
    last = np.concatenate([by_length[:, ::2], shares[:, None] @ by_length[:, 1::2]], axis=1)
    return np.concatenate([leans, last.transpose(0, 2, 1)], axis=1)


def find_arcs_in_space(pairs: PosePairs) -> list[tuple[PieceChains, NDArray[np.intp]]]:
    """Curves of arcs alone between poses: of three in planes of their own, and helicoidal ones that they lead to.

    Searched between poses rounded a little, for a long search makes much of the last digit of where it begins, and so
    would end elsewhere when space is turned; then led to the true ends.

    Returns chains, and which pair each belongs to.

    pairs : in their own frames
    """
    rounded = _rounded(pairs)
    plain = find_plain_curves(rounded)
    three, of_three = find_three_arcs(rounded, plain=plain)
    rows = np.concatenate([of_three, np.arange(len(pairs))])
    rough = np.concatenate([in_rough_arcs(three), in_rough_arcs(edge_hinges(rounded, plain))])
    many, lengths = find_helicoids(rows_of(rounded, rows), rough)
    is_found = np.isfinite(lengths)
    return [
        (chains_of_hinges(hinges, PosePairs(ways=pairs.ways[of], starts=rounded.starts[of], ends=pairs.ends[of])), of)
        for hinges, of in ((three, of_three), (many[is_found], rows[is_found]))
    ]


def _rounded(pairs: PosePairs) -> PosePairs:
    ways, starts, ends = (np.round(vectors, _DECIMALS) + 0.0 for vectors in (pairs.ways, pairs.starts, pairs.ends))
    return PosePairs(
        ways=ways,
        starts=starts / np.linalg.norm(starts, axis=1, keepdims=True),
        ends=ends / np.linalg.norm(ends, axis=1, keepdims=True),
    )


def shortest_of_each(lengths: Array, rows: NDArray[np.intp]) -> NDArray[np.intp]:
    """The shortest of all that belong to one row, for each row that has any."""
    order = np.lexsort((lengths, rows))
    order = order[np.isfinite(lengths[order])]
    return order[np.unique(rows[order], return_index=True)[1]]
