"""Chains of arcs of bend radius 1 in space as hinges: where they lead and how that changes, many chains at once.

Each arc is a turn about an axis through its centre and each change of plane a turn about the tangent, so a chain is two
hinges an arc: which way around its heading the arc leans against the one before, and how far it turns. First and second
derivatives are vector products of the hinge axes.
"""

import numpy as np

from planner.geometry.curves.piece_chains import PieceChains
from planner.geometry.curves.pose_pairs import Array, PosePairs, across, crosses
from planner.quick_dataclass import dataclass

CONDITIONS = 5
"""What the end of a chain must meet: three of place, two of heading."""

_LONGEST_STEP_RAD = 0.5
_HOLD = 100.0
_STEADY = 1.5
_TINY = 1e-9
_MEETING_STEPS = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Walk:
    """Where chains lead, one a row.

    axes : of the hinges, as unit vectors (rows, hinges, 3)
    moves, swings : how the place and the heading at the end change as each hinge turns (rows, hinges, 3)
    place, heading : at the end (rows, 3)
    """

    axes: Array
    moves: Array
    swings: Array
    place: Array
    heading: Array


def walk(hinges: Array, starts: Array) -> Walk:
    """Follow chains from headings at the origin.

    hinges : lean and turn of each arc in turn (rows, 2 x arcs) [rad]
    starts : unit vectors (rows, 3); the first arc leans against what is `across` them

    Source: products of turns, as for a robot's arm; any text on kinematics; from memory.
    """
    rows, arcs = len(hinges), hinges.shape[1] // 2
    cosines, sines = np.cos(hinges), np.sin(hinges)
    c, s, lean_c, lean_s = cosines[:, 1::2], sines[:, 1::2], cosines[:, ::2], sines[:, ::2]
    change = np.empty((rows, arcs, 3, 3))
    change[..., 0, 0], change[..., 0, 1], change[..., 0, 2] = c, -s, 0.0
    change[..., 1, 0], change[..., 1, 1], change[..., 1, 2] = lean_c * s, lean_c * c, -lean_s
    change[..., 2, 0], change[..., 2, 1], change[..., 2, 2] = lean_s * s, lean_s * c, lean_c
    frames = np.empty((rows, arcs + 1, 3, 3))  # columns: along, towards the centre, axis
    normals = across(starts)
    frames[:, 0] = np.stack([starts, normals, crosses(starts, normals)], axis=2)
    for i in range(arcs):
        np.matmul(frames[:, i], change[:, i], out=frames[:, i + 1])
    along, inward, axis = frames[:, :-1, :, 0], frames[:, 1:, :, 1], frames[:, 1:, :, 2]
    outward = lean_c[..., None] * frames[:, :-1, :, 1] + lean_s[..., None] * frames[:, :-1, :, 2]
    ends = np.cumsum(outward - inward, axis=1)
    axes, points = np.empty((rows, 2 * arcs, 3)), np.empty((rows, 2 * arcs, 3))
    axes[:, ::2], axes[:, 1::2] = along, axis
    points[:, 1::2] = ends + inward
    points[:, ::2] = points[:, 1::2] - outward
    place, heading = ends[:, -1], frames[:, -1, :, 0]
    return Walk(
        axes=axes,
        moves=crosses(axes, place[:, None] - points),
        swings=crosses(axes, heading[:, None]),
        place=place,
        heading=heading,
    )


def misses_and_slopes(found: Walk, pairs: PosePairs) -> tuple[Array, Array, Array]:
    """What chains miss of their pairs' ends (rows, 5), its slopes (rows, hinges, 5), and the axes square to the ends.

    pairs : one for each chain
    """
    side = across(pairs.ends)
    square = np.stack([side, crosses(pairs.ends, side)], axis=2)
    aside = (found.heading[:, None] @ square)[:, 0]
    return (
        np.concatenate([found.place - pairs.ways, aside], axis=1),
        np.concatenate([found.moves, found.swings @ square], axis=2),
        square,
    )


def bends_of(found: Walk, prices: Array, square: Array) -> Array:
    """Second derivatives of what is missed, weighed by prices (rows, hinges, hinges).

    prices : of the five conditions (rows, 5)
    """
    by_place = crosses(prices[:, None, :3], found.axes)
    by_heading = crosses((square @ prices[:, 3:, None])[:, None, :, 0], found.axes)
    bends = by_place @ found.moves.transpose(0, 2, 1) + by_heading @ found.swings.transpose(0, 2, 1)
    upper = np.triu(bends)
    both: Array = upper + np.triu(bends, 1).transpose(0, 2, 1)
    return both


def prices_of(slope: Array, rise: Array) -> Array:
    """What each condition costs in length, as near as the slopes tell (rows, 5).

    slope : of the conditions (rows, unknowns, 5)
    rise : of the length (rows, unknowns)
    """
    flipped = slope.transpose(0, 2, 1)
    return np.asarray(-np.linalg.solve(_normal(slope), flipped @ rise[:, :, None])[:, :, 0], dtype=np.float64)


def nearest_step(*, slope: Array, miss: Array) -> Array:
    """The least change that meets the conditions, as near as the slopes tell (rows, unknowns).

    slope : of the conditions (rows, unknowns, 5)
    """
    change: Array = -(slope @ np.linalg.solve(_normal(slope), miss[:, :, None]))[:, :, 0]
    change /= np.maximum(1.0, np.abs(change).max(axis=1, keepdims=True) / _LONGEST_STEP_RAD)
    return change


def _normal(slope: Array) -> Array:
    """The slopes' products with each other, kept from vanishing where conditions hang together."""
    normal = slope.transpose(0, 2, 1) @ slope
    sizes = np.maximum(1.0, np.trace(normal, axis1=1, axis2=2))
    return np.asarray(normal + _TINY * sizes[:, None, None] * np.eye(CONDITIONS), dtype=np.float64)


def meet_ends(hinges: Array, pairs: PosePairs) -> Array:
    """The hinges of chains that all but meet their pairs' ends, changed by as little as makes them meet."""
    for _ in range(_MEETING_STEPS):
        miss, slope, _ = misses_and_slopes(walk(hinges, pairs.starts), pairs)
        hinges = hinges + nearest_step(slope=slope, miss=miss)
    return hinges


def chains_of_hinges(hinges: Array, pairs: PosePairs) -> PieceChains:
    """Chains of arcs as pieces, as walked from their pairs' starts to the very ends.

    hinges : lean and turn of each arc (rows, 2 x arcs)
    """
    hinges = meet_ends(hinges, pairs)
    axes = walk(hinges, pairs.starts).axes
    headings = axes[:, ::2]
    return PieceChains(
        sizes=hinges[:, 1::2],
        bends=np.ones_like(hinges[:, 1::2]),
        headings=headings,
        towards=crosses(axes[:, 1::2], headings),
    )


def shortening_step(*, bends: Array, slope: Array, rise: Array, miss: Array, damping: float) -> Array:
    """Newton's step towards a least length under the conditions, held back where the length curves down.

    bends : second derivatives of the Lagrangian (rows, unknowns, unknowns)
    damping : added to them [R]

    Source: Newton's method on the Lagrangian, any text on optimisation; from memory.
    """
    rows, unknowns = rise.shape
    flipped = slope.transpose(0, 2, 1)
    lowest = np.linalg.eigvalsh(bends + _HOLD * slope @ flipped)[:, 0]
    raised = np.maximum(0.0, -_STEADY * lowest) + damping
    system = np.zeros((rows, unknowns + CONDITIONS, unknowns + CONDITIONS))
    system[:, :unknowns, :unknowns] = bends + raised[:, None, None] * np.eye(unknowns)
    system[:, :unknowns, unknowns:], system[:, unknowns:, :unknowns] = slope, flipped
    system[:, unknowns:, unknowns:] = -_TINY * np.eye(CONDITIONS)
    right = -np.concatenate([rise, miss], axis=1)
    change: Array = np.linalg.solve(system, right[:, :, None])[:, :unknowns, 0]
    change /= np.maximum(1.0, np.abs(change).max(axis=1, keepdims=True) / _LONGEST_STEP_RAD)
    return change
