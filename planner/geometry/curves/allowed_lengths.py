"""How much line several clamped hoses need so that none of them bends too tightly, their lengths being unknowns.

Newton's method on tangents, force and length together: one system of equations, solved for what brings a shape to rest
and for what a change of its length asks; the sharpest bend after the one, and its change by the other, give the length.
Lengths in units of the bend radius.
"""

from dataclasses import replace

import numpy as np

from planner.geometry.curves.elastica_chain import (
    Rods,
    are_valleys,
    choose_rods,
    curvatures,
    newton_system,
    put_rods,
    shortened,
    solved,
    stepped,
)
from planner.geometry.curves.pose_pairs import Array, Mask

_MOST_STEPS = 30
_STEPS_TO_SEE = 5
_LOST = 2.0
"""A sharpest bend, per bend radius, from which no hose came back after some steps: it went another way."""

_CONVERGED = 1e-5
_ALLOWED = 1e-3
_SLIGHTLY = 1e-4
_STEEP = -0.01
_LONGER, _SHORTER = 0.12, -0.08
_BLIND_LONGER, _BLIND_SHORTER = 0.05, -0.02


def shorten_to_allowed(rods: Rods, *, least: Array) -> tuple[Rods, Mask]:
    """The hoses at the least lengths whose sharpest bends are the bend radius, or at the least length there is.

    Returns them, and which of them settled in a valley.

    rods : first guesses
    least : lengths that nothing can be below, such as those of the shortest curves

    Source: M. Moll, L. E. Kavraki, "Path planning for deformable linear objects", IEEE Trans. Robotics 22(4) (2006)
    625-636, for the shape; the search for the length: derived.
    """
    open_ = np.arange(len(least))
    settled = np.zeros(len(least), dtype=np.bool_)
    for step in range(_MOST_STEPS):
        if not len(open_):
            break
        these, sharpest, done = _step(choose_rods(rods, open_), least[open_], is_early=step < _STEPS_TO_SEE)
        rods = put_rods(rods, open_, these)
        settled[open_[done]] = True
        is_lost = (sharpest > _LOST) & (step >= _STEPS_TO_SEE)
        open_ = open_[~done & ~is_lost]
    rows = np.flatnonzero(settled)
    settled[rows] = are_valleys(choose_rods(rods, rows)) if len(rows) else False
    return rods, settled


def _step(rods: Rods, least: Array, *, is_early: bool) -> tuple[Rods, Array, Mask]:
    """The rods after one step, their sharpest bends before its change of length, and which of them are done."""
    system = newton_system(rods, guarded=False)
    both = np.stack([system.wanted, system.by_length], axis=2)
    steps = solved(system.matrix, both)
    to_rest, by_length = steps[:, :, 0], steps[:, :, 1]
    share = shortened(to_rest)
    to_rest = np.asarray(share[:, None] * to_rest, dtype=np.float64)
    stretch = np.full(len(least), 1 + _SLIGHTLY)
    sharpest = curvatures(stepped(rods, system.axes, to_rest)).max(axis=1)
    longer = curvatures(stepped(rods, system.axes, to_rest + _SLIGHTLY * by_length, stretch=stretch)).max(axis=1)
    slope = (longer - sharpest) / _SLIGHTLY
    lengths = rods.steps.sum(axis=1)
    # close to its least length a hose may buckle: there it is bent less when shortened
    buckled = (slope > -_STEEP) & (sharpest > 1) & is_early
    known = (share == 1) & ((slope < _STEEP) | buckled)
    change = np.clip((1 - sharpest) / np.where(known, slope, -1.0), _SHORTER, _LONGER)
    blind = np.where(sharpest > 1, _BLIND_LONGER, _BLIND_SHORTER)
    change = np.where(known, change, np.where(np.abs(sharpest - 1) < _ALLOWED, 0.0, blind))
    change = np.maximum(change, np.log(least / lengths))
    at_least = lengths * np.exp(change) <= least * (1 + 1e-9)
    allowed = (np.abs(sharpest - 1) < _ALLOWED) | (at_least & (sharpest < 1 + _ALLOWED))
    done = (system.errors < _CONVERGED) & allowed & (np.abs(change) < _ALLOWED)
    limit = np.minimum(1.0, 0.4 / np.maximum(np.abs(by_length[:, :-3] * change[:, None]).max(axis=1), 1e-30))
    change = change * limit
    changed = stepped(rods, system.axes, to_rest + change[:, None] * by_length, stretch=np.exp(change))
    return changed, sharpest, done


def stretched(rods: Rods, lengths: Array) -> Rods:
    """The same tangents over other lengths."""
    return replace(rods, steps=rods.steps * (lengths / rods.steps.sum(axis=1))[:, None])
