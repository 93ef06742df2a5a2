"""Pairs of poses, many at once, in a frame made of the pair itself, so that no answer hangs on the axes of space.

A curve between two poses depends on four numbers that no turn of space changes: the way along either heading, the
cosine between the headings and the squared distance. Walked from the other end the first two change places, so the
pair is told from the end for which the way lies less along its heading. Lengths in units of the bend radius.
"""

from collections.abc import Sequence
from math import inf

import numpy as np
from numpy.typing import NDArray

from planner.errors import ImpossibleDimensionError
from planner.geometry.motion.frame_axes import Pose3, unit_vector
from planner.quick_dataclass import dataclass

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]

_SAME = 1e-12
_ALONG = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class PosePairs:
    """Two poses a row.

    ways : from start to end (rows, 3), in units of the bend radius
    starts, ends : unit directions of travel there (rows, 3)
    """

    ways: Array
    starts: Array
    ends: Array

    def __len__(self) -> int:
        return len(self.ways)


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnFrames:
    """Pairs told in frames made of themselves.

    pairs : from the end that comes first, its heading along x, the way or else the other heading in the x-y plane
    axes : of those frames in space (rows, 3, 3), one axis a row; a left-handed one where the pair was mirrored
    is_reversed : whether the row is told from the pair's end
    """

    pairs: PosePairs
    axes: Array
    is_reversed: Mask


def pairs_of(*, ends: Sequence[tuple[Pose3, Pose3]], centreline_radius_mm: float) -> PosePairs:
    """Poses of travel as rows of numbers, in units of the bend radius.

    Raises ImpossibleDimensionError when the radius is not above zero or a heading has no length.
    """
    if not 0 < centreline_radius_mm < inf:
        raise ImpossibleDimensionError(
            name="centreline_radius_mm", value=centreline_radius_mm, unit="mm", rule="must be above zero"
        )
    ways = np.array([np.subtract(end.position_mm, start.position_mm) for start, end in ends], dtype=np.float64)
    return PosePairs(
        ways=ways.reshape(-1, 3) / centreline_radius_mm,
        starts=np.array([unit_vector(start.heading) for start, _ in ends], dtype=np.float64).reshape(-1, 3),
        ends=np.array([unit_vector(end.heading) for _, end in ends], dtype=np.float64).reshape(-1, 3),
    )


def rows_of(pairs: PosePairs, rows: Sequence[int] | NDArray[np.intp] | Mask) -> PosePairs:
    """Some of the pairs."""
    return PosePairs(ways=pairs.ways[rows], starts=pairs.starts[rows], ends=pairs.ends[rows])


def joined_pairs(some: Sequence[PosePairs]) -> PosePairs:
    """All of them, one after the other."""
    return PosePairs(
        ways=np.concatenate([pairs.ways for pairs in some]),
        starts=np.concatenate([pairs.starts for pairs in some]),
        ends=np.concatenate([pairs.ends for pairs in some]),
    )


def in_own_frames(pairs: PosePairs) -> OwnFrames:
    """The same pairs, told alike whichever way space is turned and from whichever end they are walked."""
    backwards = dots(pairs.ways, pairs.starts) > dots(pairs.ways, pairs.ends) + _SAME
    turn = backwards[:, None]
    ways = np.where(turn, -pairs.ways, pairs.ways)
    starts = np.where(turn, -pairs.ends, pairs.starts)
    ends = np.where(turn, -pairs.starts, pairs.ends)
    beside, far = square_to(ways, starts)
    other, apart = square_to(ends, starts)
    second = np.where((far > _ALONG)[:, None], beside, np.where((apart > _ALONG)[:, None], other, across(starts)))
    third = crosses(starts, second)
    third *= np.where(dots(third, ends) < 0, -1.0, 1.0)[:, None]
    axes = np.stack([starts, second, third], axis=1)
    own = PosePairs(ways=_told_in(axes, ways), starts=_told_in(axes, starts), ends=_told_in(axes, ends))
    return OwnFrames(pairs=own, axes=axes, is_reversed=backwards)


def _told_in(axes: Array, vectors: Array) -> Array:
    told: Array = np.einsum("nij,nj->ni", axes, vectors)
    return told


def dots(a: Array, b: Array) -> Array:
    """Scalar products row by row."""
    product: Array = (a * b).sum(axis=-1)
    return product


def crosses(a: Array, b: Array) -> Array:
    """Vector products row by row; three times as fast as numpy's for few rows."""
    ax, ay, az = a[..., 0], a[..., 1], a[..., 2]
    bx, by, bz = b[..., 0], b[..., 1], b[..., 2]
    return np.stack([ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx], axis=-1)


def square_to(vectors: Array, headings: Array) -> tuple[Array, Array]:
    """What of each vector is square to a heading: its unit direction, and its length; no direction where it has none.

    headings : unit vectors
    """
    left = vectors - dots(vectors, headings)[..., None] * headings
    sizes = np.sqrt(dots(left, left))
    return left / np.maximum(sizes, 1e-300)[..., None], sizes


def across(headings: Array) -> Array:
    """Unit vectors square to headings, always the same one for the same heading.

    headings : unit vectors
    """
    axes = np.eye(3)[np.abs(headings).argmin(axis=-1)]
    return square_to(axes, headings)[0]
