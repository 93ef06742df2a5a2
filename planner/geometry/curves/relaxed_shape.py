"""The shape a real hose takes between two clamped ends, and the shortest one that nowhere bends too tightly.

The curve of least bending energy whose ends are held in place and heading. Left out: torsion (the ends turn freely
about their own axes), weight, pressure, contact with anything along the way, and what a hose remembers of its coil.
"""

from collections.abc import Sequence
from dataclasses import replace
from math import dist, inf

import numpy as np
from numpy.typing import NDArray

from planner.errors import ImpossibleDimensionError
from planner.geometry.curves.elastica_chain import Array, Rods, curvatures, node_places, place_nodes, relax
from planner.geometry.curves.piece_chains import PieceChains, chain_rows, headings_along
from planner.geometry.curves.space_curves import draw_curve, shortest_bend_limited_curves
from planner.geometry.motion.frame_axes import Curve, Pose3, unit_vector

_PIECES = 32
_TRIES = 14
_ROOM = 1e-4
"""How much above the bend radius the tightest bend is aimed at, and how far it may miss: it never ends up below."""
_FINE = 2e-3
"""How exactly the tightest bend is known: at the least length there is, a bend this near the bend radius is that."""

_STRAIGHT = 1e-5
"""In units of the bend radius: a shortest curve this little longer than its chord is as good as relaxed."""

_LONGEST_STRETCH = 1.15
_NUDGES = 0.01 * np.array([[0.36, 0.48, 0.80], [0.80, -0.60, 0.0]])
"""Little pushes out of any symmetry, of one half wave and of two, so that a shape that would spring out of it does."""


def find_relaxed_shape(
    *, start: Pose3, end: Pose3, centreline_radius_mm: float, length_mm: float | None = None
) -> Curve | None:
    """The shape a hose takes between two clamped ends; without a length, the shortest whose bends are all allowed.

    Reached from the shortest bend-limited curve by lengthening it, so that the hose keeps the way round that it took.
    Length and tightest bend are known to two thousandths. Left out: torsion, weight, pressure and contact.

    Returns the shape, with the radius of its tightest bend; None where none was found, in particular for a length
    that does not reach.

    start, end : the clamped ends, heading in the direction of travel
    centreline_radius_mm : the tightest bend allowed, to the centre line; with a length given, it only chooses the way
        round
    length_mm : of the hose between its clamps; None asks for the shortest whose tightest bend is allowed

    Raises ImpossibleDimensionError when the radius or the length is not above zero, or a heading has no length.

    Source: M. Moll, L. E. Kavraki, "Path planning for deformable linear objects", IEEE Trans. Robotics 22(4) (2006)
    625-636. R. Levien, "The elastica: a mathematical history", UC Berkeley UCB/EECS-2008-103 (2008).
    """
    if length_mm is None:
        return find_relaxed_shapes(ends=((start, end),), centreline_radius_mm=centreline_radius_mm)[0]
    if not 0 < length_mm < inf:
        raise ImpossibleDimensionError(name="length_mm", value=length_mm, unit="mm", rule="must be above zero")
    if length_mm < dist(start.position_mm, end.position_mm):
        return None
    shortest = shortest_bend_limited_curves(ends=((start, end),), centreline_radius_mm=centreline_radius_mm)
    rods, _ = _first_guess([(start, end)], shortest.chains, centreline_radius_mm)
    asked = length_mm / centreline_radius_mm
    length = float(rods.steps.sum())
    settled = False
    while not settled:
        settled = length >= asked / _LONGEST_STRETCH
        length = asked if settled else length * _LONGEST_STRETCH
        rods, found = relax(_stretched(rods, np.array([length])), guarded=True)
        if not found[0]:
            return None
    return _curve(rods, 0, start, end, centreline_radius_mm)


def find_shortest_relaxed_length(*, start: Pose3, end: Pose3, centreline_radius_mm: float) -> float | None:
    """How much line a hose needs to lie relaxed between two clamped ends without bending too tightly.

    Returns the length [mm], never below that of the shortest bend-limited curve; None where no shape was found.

    start, end : the clamped ends, heading in the direction of travel
    centreline_radius_mm : the tightest bend allowed, to the centre line

    Raises ImpossibleDimensionError when the radius is not above zero or a heading has no length.

    Source: M. Moll, L. E. Kavraki, IEEE Trans. Robotics 22(4) (2006) 625-636.
    """
    shape = find_relaxed_shapes(ends=((start, end),), centreline_radius_mm=centreline_radius_mm)[0]
    return None if shape is None else shape.length_mm


def find_relaxed_shapes(
    *, ends: Sequence[tuple[Pose3, Pose3]], centreline_radius_mm: float
) -> tuple[Curve | None, ...]:
    """The shortest allowed relaxed shapes between several pairs of clamped ends, at little more than the cost of one.

    Returns in the order given; None where no shape was found.

    ends : start and end of each hose, heading in the direction of travel
    centreline_radius_mm : the tightest bend allowed, to the centre line

    Raises ImpossibleDimensionError when the radius is not above zero or a heading has no length.

    Source: M. Moll, L. E. Kavraki, IEEE Trans. Robotics 22(4) (2006) 625-636.
    """
    radius_mm = centreline_radius_mm
    shortest = shortest_bend_limited_curves(ends=ends, centreline_radius_mm=radius_mm)
    shapes: list[Curve | None] = [
        replace(
            draw_curve(shortest, row=i, start=start, end=end, centreline_radius_mm=radius_mm),
            is_proven_shortest=False,
            is_only_plain_curve=False,
        )
        for i, (start, end) in enumerate(ends)
    ]
    apart = np.array([dist(start.position_mm, end.position_mm) for start, end in ends]) / radius_mm
    bent = [int(i) for i in np.flatnonzero(shortest.chains.lengths - apart > _STRAIGHT)]
    if not len(bent):
        return tuple(shapes)
    guess, between = _first_guess([ends[i] for i in bent], chain_rows(shortest.chains, bent), radius_mm)
    rods, found = _shortest_allowed(guess, between)
    for row, i in enumerate(bent):
        start, end = ends[i]
        shapes[i] = _curve(rods, row, start, end, radius_mm) if found[row] else None
    return tuple(shapes)


def _first_guess(ends: Sequence[tuple[Pose3, Pose3]], chains: PieceChains, radius_mm: float) -> tuple[Rods, Array]:
    """Rods laid along the shortest curves, nudged; and the distances between their ends."""
    first = np.array([unit_vector(start.heading) for start, _ in ends])
    last = np.array([unit_vector(end.heading) for _, end in ends])
    goals = np.array([np.subtract(end.position_mm, start.position_mm) for start, end in ends]) / radius_mm
    lengths = chains.lengths
    apart = np.linalg.norm(goals, axis=1)
    bearing = goals / np.maximum(apart, 1e-9)[:, None]
    turns = [np.arccos(np.clip((heading * bearing).sum(axis=1), -1, 1)) for heading in (first, last)]
    shares = place_nodes(
        count=_PIECES,
        lengths=lengths,
        first_turns=np.clip(turns[0] / 2, 0.02, 1.0),
        last_turns=np.clip(turns[1] / 2, 0.02, 1.0),
    )
    tangents = headings_along(chains, shares)
    for waves, nudge in enumerate(_NUDGES, start=1):
        tangents += np.sin(waves * np.pi * shares)[:, :, None] * nudge
    tangents /= np.linalg.norm(tangents, axis=2, keepdims=True)
    tangents[:, 0], tangents[:, -1] = first, last
    steps = np.diff(shares, axis=1) * lengths[:, None]
    return Rods(tangents=tangents, forces=np.zeros_like(goals), steps=steps, goals=goals), apart


def _shortest_allowed(rods: Rods, apart: Array) -> tuple[Rods, NDArray[np.bool_]]:
    """Lengthen each rod until its tightest bend is the bend radius; the radius grows about as the slack does."""
    low = rods.steps.sum(axis=1)
    rods, found = relax(rods, guarded=True)
    length, radius, aim = low, _tightest(rods), 1 + _ROOM
    trial = apart + (low - apart) * np.maximum(aim / radius, 1.0)
    for _ in range(_TRIES):
        open_ = found & ~_is_done(length, radius, low)
        if not open_.any():
            break
        trial = np.where(open_, trial, length)
        tried, settled = relax(_stretched(rods, trial), guarded=False)
        tried_radius = _tightest(tried)
        slope = (tried_radius - radius) / np.where(trial == length, 1.0, trial - length)
        onward = trial + (aim - tried_radius) / np.where(slope > 1e-3, slope, np.inf)
        onward = np.where(slope > 1e-3, onward, apart + (trial - apart) * _LONGEST_STRETCH)
        onward = np.clip(onward, low, apart + (trial - apart) * 1.5)
        taken = settled & open_
        onward = np.where(taken, onward, (length + trial) / 2)
        rods = _chosen(taken, tried, rods)
        length, radius = np.where(taken, trial, length), np.where(taken, tried_radius, radius)
        trial = onward
    return rods, found & _is_done(length, radius, low)


def _is_done(length: Array, radius: Array, low: Array) -> NDArray[np.bool_]:
    """Whether the tightest bend is just allowed, or more than allowed at the least length there is."""
    allowed: NDArray[np.bool_] = ((radius >= 1) & (radius <= 1 + 2 * _ROOM)) | ((length <= low) & (radius > 1 - _FINE))
    return allowed


def _chosen(which: NDArray[np.bool_], these: Rods, those: Rods) -> Rods:
    rows = which[:, None]
    return Rods(
        tangents=np.where(rows[:, :, None], these.tangents, those.tangents),
        forces=np.where(rows, these.forces, those.forces),
        steps=np.where(rows, these.steps, those.steps),
        goals=those.goals,
    )


def _stretched(rods: Rods, lengths: Array) -> Rods:
    return replace(rods, steps=rods.steps * (lengths / rods.steps.sum(axis=1))[:, None])


def _tightest(rods: Rods) -> Array:
    """Radius of each rod's tightest bend, in units of the bend radius.

    The error falls with the square of the pieces' length, so twice as long pieces tell how large it is: Richardson's
    extrapolation.
    """
    fine = curvatures(rods).max(axis=1)
    coarse, found = relax(_every_other_node(rods), guarded=False)
    sharpest = np.where(found, fine + (fine - curvatures(coarse).max(axis=1)) / 3, fine)
    radius: Array = 1 / np.maximum(sharpest, 1e-12)
    return radius


def _every_other_node(rods: Rods) -> Rods:
    return replace(rods, tangents=rods.tangents[:, ::2], steps=rods.steps[:, ::2] + rods.steps[:, 1::2])


def _curve(rods: Rods, row: int, start: Pose3, end: Pose3, radius_mm: float) -> Curve:
    one = Rods(
        tangents=rods.tangents[row : row + 1],
        forces=rods.forces[row : row + 1],
        steps=rods.steps[row : row + 1],
        goals=rods.goals[row : row + 1],
    )
    places = node_places(one)[0, 1:-1] * radius_mm + np.array(start.position_mm)
    inner = tuple((float(x), float(y), float(z)) for x, y, z in places)
    return Curve(
        points_mm=(start.position_mm, *inner, end.position_mm),
        length_mm=float(one.steps.sum()) * radius_mm,
        tightest_radius_mm=float(_tightest(one)[0]) * radius_mm,
        shape="relaxed",
    )
