"""The shapes real hoses take between clamped ends at the shortest lengths that nowhere bend too tightly, many at once.

The curve of least bending energy whose ends are held in place and heading. Left out: torsion (the ends turn freely
about their own axes), weight, pressure, contact with anything along the way, and what a hose remembers of its coil.
Lengths in units of the bend radius.
"""

from dataclasses import dataclass, replace

import numpy as np

from planner.geometry.curves.allowed_lengths import shorten_to_allowed, stretched
from planner.geometry.curves.elastica_chain import Rods, choose_rods, curvatures, place_nodes, put_rods, relax
from planner.geometry.curves.piece_chains import PieceChains, headings_along
from planner.geometry.curves.pose_pairs import Array, Mask, PosePairs, crosses, dots, rows_of
from planner.geometry.curves.space_curves import ShortestCurves, find_curves_with_straight

COARSE, FINE = 16, 32
_GUESSED_SLACK = 1.3
_LONGEST_STRETCH = 1.15
_NEAR_LIMIT = 0.9
_NO_MEAN = 1e-6
_NUDGES = 0.01 * np.array([[0.36, 0.48, 0.80], [0.80, -0.60, 0.0]])
"""Little pushes out of any symmetry, of one half wave and of two, so that a shape that would spring out of it does."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HoseShapes:
    """Shapes at their shortest allowed lengths, one a row.

    rods : the shapes, in few pieces
    found : whether one was found that lies in a valley
    """

    rods: Rods
    found: Mask

    @property
    def lengths(self) -> Array:
        """As few pieces tell them."""
        lengths: Array = self.rods.steps.sum(axis=1)
        return lengths


def shapes_from_curves(pairs: PosePairs, curves: ShortestCurves) -> HoseShapes:
    """Reached from the shortest bend-limited curves by slackening them, so that each hose keeps its way round.

    Where that leads to none, a loop lies flat where it would spring out of its plane: then reached from the shortest
    curve of an arc, a straight and an arc, stood up about its ends' headings.
    """
    least = curves.chains.lengths
    shapes = _relaxed(_with_guessed_slack(pairs, curves.chains), least)
    flat = np.flatnonzero(~shapes.found & ~curves.is_only_plain)
    if not len(flat):
        return shapes
    chains, which = find_curves_with_straight(rows_of(pairs, flat))
    again = flat[which]
    these = rows_of(pairs, again)
    others = _relaxed(_stood_up(these, _with_guessed_slack(these, chains)), least[again])
    found = shapes.found.copy()
    found[again] = others.found
    return HoseShapes(rods=put_rods(shapes.rods, again, others.rods), found=found)


def _with_guessed_slack(pairs: PosePairs, chains: PieceChains) -> Rods:
    apart = np.sqrt(dots(pairs.ways, pairs.ways))
    return slack_rods(pairs, chains, apart + _GUESSED_SLACK * (chains.lengths - apart))


def _relaxed(guess: Rods, least: Array) -> HoseShapes:
    rods, at_rest = relax(guess, guarded=True)
    rods, settled = shorten_to_allowed(rods, least=least)
    return HoseShapes(rods=rods, found=settled & at_rest)


def _stood_up(pairs: PosePairs, rods: Rods) -> Rods:
    """Everything between the clamps turned by a right angle about the mean of both headings."""
    mean = pairs.starts + pairs.ends
    size = np.sqrt(dots(mean, mean))[:, None]
    axis = np.where(size > _NO_MEAN, mean / np.maximum(size, _NO_MEAN), pairs.starts)[:, None]
    t = rods.tangents
    turned = crosses(np.broadcast_to(axis, t.shape), t) + axis * dots(axis, t)[..., None]
    turned[:, 0], turned[:, -1] = pairs.starts, pairs.ends
    return replace(rods, tangents=turned)


def shapes_from_neighbours(pairs: PosePairs, neighbours: Rods, *, least: Array, neighbours_least: Array) -> HoseShapes:
    """Reached from shapes in nearby postures and begun with their slack, so that each stays on its branch.

    least, neighbours_least : lengths of the shortest curves in the new postures, and in the nearby ones
    """
    lengths = least + np.maximum(neighbours.steps.sum(axis=1) - neighbours_least, 0.0)
    shares = _shares(pairs, lengths, COARSE)
    guess = _rods(pairs, _resampled(neighbours, shares), shares, lengths, neighbours.forces)
    rods, settled = shorten_to_allowed(guess, least=least)
    return HoseShapes(rods=rods, found=settled)


def refined(pairs: PosePairs, rods: Rods, *, least: Array) -> tuple[Rods, Array, Mask]:
    """The shapes in twice as many pieces, and the lengths that both together tell: the error falls with their square.

    Returns the finer shapes, the lengths, and for which rows they were found.

    rods : shapes that were found, in few pieces
    """
    lengths = rods.steps.sum(axis=1)
    shares = _shares(pairs, lengths, FINE)
    guess = _rods(pairs, _resampled(rods, shares), shares, lengths, rods.forces)
    fine, settled = shorten_to_allowed(guess, least=least)
    told = fine.steps.sum(axis=1)
    return fine, np.maximum(told + (told - lengths) / 3, least), settled


def shapes_of_lengths(rods: Rods, lengths: Array) -> tuple[Rods, Mask]:
    """The same hoses at other lengths, at rest; stretched step by step, so that they stay on their branch.

    Returns them, and which came to rest.
    """
    found = np.ones(len(lengths), dtype=np.bool_)
    while True:
        now = rods.steps.sum(axis=1)
        onward = np.clip(lengths, now / _LONGEST_STRETCH, now * _LONGEST_STRETCH)
        tried, at_rest = relax(stretched(rods, onward), guarded=False)
        again = np.flatnonzero(~at_rest)
        calmer, at_rest[again] = relax(stretched(choose_rods(rods, again), onward[again]), guarded=True)
        rods = put_rods(tried, again, calmer)
        found &= at_rest
        if (onward == lengths).all():
            return rods, found


def sharpest_bends(pairs: PosePairs, rods: Rods) -> Array:
    """Of hoses at rest, per bend radius; where they are near the limit, from twice as many pieces as well.

    Source: Richardson's extrapolation; the error falls with the square of the pieces' length.
    """
    coarse: Array = curvatures(rods).max(axis=1)
    near = np.flatnonzero(coarse > _NEAR_LIMIT)
    these, lengths = rows_of(pairs, near), rods.steps.sum(axis=1)[near]
    shares = _shares(these, lengths, FINE)
    few = choose_rods(rods, near)
    fine, at_rest = relax(_rods(these, _resampled(few, shares), shares, lengths, few.forces), guarded=False)
    sharper = curvatures(fine).max(axis=1)
    told = coarse.copy()
    told[near] = np.where(at_rest, sharper + (sharper - coarse[near]) / 3, coarse[near])
    return told


def slack_rods(pairs: PosePairs, chains: PieceChains, lengths: Array) -> Rods:
    """First guesses of hoses longer than their shortest curves, pushed out of any symmetry."""
    shares = _shares(pairs, lengths, COARSE)
    return _rods(pairs, _nudged(chains, shares), shares, lengths, np.zeros_like(pairs.ways))


def _nudged(chains: PieceChains, shares: Array) -> Array:
    tangents = headings_along(chains, shares)
    for waves, nudge in enumerate(_NUDGES, start=1):
        tangents += np.sin(waves * np.pi * shares)[:, :, None] * nudge
    return tangents


def blank_rods(pairs: PosePairs) -> Rods:
    """Rods of no shape yet, to be filled in row by row."""
    count = len(pairs)
    return Rods(
        tangents=np.zeros((count, COARSE + 1, 3)),
        forces=np.zeros((count, 3)),
        steps=np.zeros((count, COARSE)),
        goals=pairs.ways,
    )


def _shares(pairs: PosePairs, lengths: Array, pieces: int) -> Array:
    """Where the nodes lie: closer together where the hose turns out of its headings."""
    apart = np.sqrt(dots(pairs.ways, pairs.ways))
    bearing = pairs.ways / np.maximum(apart, 1e-9)[:, None]
    turns = [np.arccos(np.clip(dots(heading, bearing), -1, 1)) for heading in (pairs.starts, pairs.ends)]
    return place_nodes(
        count=pieces,
        lengths=lengths,
        first_turns=np.clip(turns[0] / 2, 0.02, 1.0),
        last_turns=np.clip(turns[1] / 2, 0.02, 1.0),
    )


def _rods(pairs: PosePairs, tangents: Array, shares: Array, lengths: Array, forces: Array) -> Rods:
    tangents = tangents / np.sqrt(dots(tangents, tangents))[..., None]
    tangents[:, 0], tangents[:, -1] = pairs.starts, pairs.ends
    steps = np.diff(shares, axis=1) * lengths[:, None]
    return Rods(tangents=tangents, forces=forces.copy(), steps=steps, goals=pairs.ways)


def _resampled(rods: Rods, shares: Array) -> Array:
    """Tangents at other shares of the length, by cubics through those at the nodes."""
    lengths = rods.steps.sum(axis=1)
    at = np.concatenate([np.zeros((len(lengths), 1)), np.cumsum(rods.steps, axis=1)], axis=1) / lengths[:, None]
    at[:, -1] = 1.0
    slopes = _slopes(rods.tangents, np.diff(at, axis=1)[..., None])
    piece = np.minimum((shares[:, :, None] >= at[:, None, :]).sum(axis=2) - 1, at.shape[1] - 2)
    row = np.arange(len(at))[:, None]
    width = at[row, piece + 1] - at[row, piece]
    u = ((shares - at[row, piece]) / width)[..., None]
    before, after = rods.tangents[row, piece], rods.tangents[row, piece + 1]
    rise, fall = slopes[row, piece] * width[..., None], slopes[row, piece + 1] * width[..., None]
    return _cubic(u, before, after, rise, fall)


def _slopes(values: Array, widths: Array) -> Array:
    """Of curves through unevenly spaced values: of parabolas through three of them, at the ends of chords."""
    chords = np.diff(values, axis=1) / widths
    slopes = np.empty_like(values)
    slopes[:, 0], slopes[:, -1] = chords[:, 0], chords[:, -1]
    before, after = widths[:, :-1], widths[:, 1:]
    slopes[:, 1:-1] = (after * chords[:, :-1] + before * chords[:, 1:]) / (before + after)
    return slopes


def _cubic(u: Array, before: Array, after: Array, rise: Array, fall: Array) -> Array:
    """Between two values with their slopes over the piece, at a share of it."""
    cubic: Array = (
        (1 + 2 * u) * (1 - u) ** 2 * before
        + u * (1 - u) ** 2 * rise
        + u * u * (3 - 2 * u) * after
        - u * u * (1 - u) * fall
    )
    return cubic
