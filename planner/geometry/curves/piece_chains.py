"""Curves as chains of pieces, arcs of one radius and straights, many curves at once. In units of the radius.

Three pieces each; where one of many curves has more, as a helicoidal arc told in short arcs, the others get pieces of
no size at their ends.
"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from planner.geometry.curves.arc_straight_arc import ArcStraightArcs
from planner.geometry.curves.pose_pairs import Array, Mask, PosePairs
from planner.quick_dataclass import dataclass

THREE = 3
"""Pieces of an ordinary curve."""

_STROKE_RAD = np.radians(5)
"""How far an arc turns between two drawn points."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceChains:
    """Three pieces a row, or more; one that is not needed has no size.

    sizes : of the pieces: turns of arcs [rad], lengths of straights (rows, pieces)
    bends : 1 for an arc, 0 for a straight (rows, pieces)
    headings : unit directions of travel where each piece begins (rows, pieces, 3)
    towards : unit vectors each arc turns towards where it begins; of no meaning for a straight (rows, pieces, 3)
    """

    sizes: Array
    bends: Array
    headings: Array
    towards: Array

    @property
    def lengths(self) -> Array:
        """Of whole chains."""
        whole: Array = self.sizes.sum(axis=1)
        return whole

    @property
    def whole_turns(self) -> Array:
        """Of all arcs of a chain together. [rad]"""
        whole: Array = (self.sizes * self.bends).sum(axis=1)
        return whole

    @property
    def is_helicoidal(self) -> Mask:
        """Whether a curve is a helicoidal arc, told in short ones."""
        many: Mask = (self.sizes > 0).sum(axis=1) > THREE
        return many

    @property
    def largest_turns(self) -> Array:
        """Of any one arc; of a helicoidal arc as a whole. [rad]"""
        turns = self.sizes * self.bends
        largest: Array = np.where(self.is_helicoidal, self.whole_turns, turns.max(axis=1))
        return largest


def chains_of(pairs: PosePairs, curves: ArcStraightArcs) -> PieceChains:
    """Arc, straight, arc, as walked from each pair's start."""
    turns = curves.turns
    c, s = np.cos(turns)[..., None], np.sin(turns)[..., None]
    first, last = curves.towards[:, 0], curves.towards[:, 1]
    leaving = c[:, 0] * pairs.starts + s[:, 0] * first
    arriving = c[:, 1] * pairs.ends - s[:, 1] * last
    return PieceChains(
        sizes=np.stack([turns[:, 0], np.maximum(curves.straights, 0.0), turns[:, 1]], axis=1),
        bends=np.tile([1.0, 0.0, 1.0], (len(pairs), 1)),
        headings=np.stack([pairs.starts, leaving, arriving], axis=1),
        towards=np.stack([first, first, s[:, 1] * pairs.ends + c[:, 1] * last], axis=1),
    )


def put_in_space(chains: PieceChains, *, axes: Array, is_reversed: Mask) -> PieceChains:
    """Chains told in frames of their own, as they lie in space, from the end their pair begins at."""
    ends = _turned(chains.headings, chains.towards, chains.sizes * chains.bends)
    turn = is_reversed[:, None]
    pieces = np.arange(chains.sizes.shape[1])
    last = np.where(chains.is_helicoidal, len(pieces), THREE)[:, None]
    back = np.where(turn & (pieces < last), last - 1 - pieces, pieces)
    row = np.arange(len(back))[:, None]
    headings = np.where(turn[..., None], -ends[0][row, back], chains.headings)
    towards = np.where(turn[..., None], ends[1][row, back], chains.towards)
    return PieceChains(
        sizes=chains.sizes[row, back],
        bends=chains.bends[row, back],
        headings=headings @ axes,
        towards=towards @ axes,
    )


def chain_rows(chains: PieceChains, which: Sequence[int] | NDArray[np.intp] | Mask) -> PieceChains:
    """Some of the chains."""
    return PieceChains(
        sizes=chains.sizes[which],
        bends=chains.bends[which],
        headings=chains.headings[which],
        towards=chains.towards[which],
    )


def _widened(chains: PieceChains, pieces: int) -> PieceChains:
    """The same with pieces of no size at the end."""
    more = pieces - chains.sizes.shape[1]
    if not more:
        return chains
    return PieceChains(
        sizes=np.pad(chains.sizes, ((0, 0), (0, more))),
        bends=np.pad(chains.bends, ((0, 0), (0, more)), constant_values=1.0),
        headings=np.pad(chains.headings, ((0, 0), (0, more), (0, 0)), mode="edge"),
        towards=np.pad(chains.towards, ((0, 0), (0, more), (0, 0)), mode="edge"),
    )


def joined_chains(some: Sequence[PieceChains]) -> PieceChains:
    """All of them, one after the other."""
    pieces = max((chains.sizes.shape[1] for chains in some), default=THREE)
    some = [_widened(chains, pieces) for chains in some]
    return PieceChains(
        sizes=np.concatenate([chains.sizes for chains in some]),
        bends=np.concatenate([chains.bends for chains in some]),
        headings=np.concatenate([chains.headings for chains in some]),
        towards=np.concatenate([chains.towards for chains in some]),
    )


def put_rows(chains: PieceChains, rows: NDArray[np.intp], these: PieceChains) -> PieceChains:
    """The chains with some rows replaced."""
    pieces = max(chains.sizes.shape[1], these.sizes.shape[1])
    chains, these = _widened(chains, pieces), _widened(these, pieces)
    new = {}
    for name in ("sizes", "bends", "headings", "towards"):
        kept = getattr(chains, name).copy()
        kept[rows] = getattr(these, name)
        new[name] = kept
    return replace(chains, **new)


def headings_along(chains: PieceChains, shares: Array) -> Array:
    """Unit directions of travel at shares of the length, 0 to 1 (rows, shares): (rows, shares, 3)."""
    ends = np.cumsum(chains.sizes, axis=1)
    at = shares * ends[:, -1:]
    piece = (at[:, :, None] > ends[:, None, :-1]).sum(axis=2)
    row = np.arange(len(at))[:, None]
    into = (at - (ends - chains.sizes)[row, piece]) * chains.bends[row, piece]
    return _turned(chains.headings[row, piece], chains.towards[row, piece], into)[0]


def points_along(chains: PieceChains, row: int) -> Array:
    """Places from the start of one chain, close enough to be drawn with straight strokes (points, 3)."""
    places = [np.zeros((1, 3))]
    for size, bend, heading, towards in zip(
        chains.sizes[row], chains.bends[row], chains.headings[row], chains.towards[row], strict=True
    ):
        if size <= 0:
            continue
        if not bend:
            places.append(places[-1][-1:] + size * heading)
            continue
        turns = (size * np.arange(1, int(np.ceil(size / _STROKE_RAD)) + 1) / np.ceil(size / _STROKE_RAD))[:, None]
        places.append(places[-1][-1:] + np.sin(turns) * heading + (1 - np.cos(turns)) * towards)
    return np.concatenate(places)


def letters_of(chains: PieceChains, row: int) -> str:
    """Its pieces' letters: C for an arc, S for a straight; S alone for a straight line, H for a helicoidal arc."""
    if chains.is_helicoidal[row]:
        return "H"
    if chains.sizes[row, 1] == chains.sizes[row].sum() and not chains.bends[row, 1]:
        return "S"
    return "".join("C" if bend else "S" for bend in chains.bends[row, :THREE])


def _turned(headings: Array, towards: Array, turns: Array) -> tuple[Array, Array]:
    c, s = np.cos(turns)[..., None], np.sin(turns)[..., None]
    return c * headings + s * towards, c * towards - s * headings
