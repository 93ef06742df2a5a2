"""The flat words of two poses that lie in one plane, or nearly, as arcs and straights in space."""

from math import atan2, degrees

import numpy as np
from numpy.typing import NDArray

from planner.geometry.curves.arc_straight_arc import ArcStraightArcs, meet_halves
from planner.geometry.curves.piece_chains import PieceChains
from planner.geometry.curves.planar_dubins import DubinsPath, find_dubins_paths
from planner.geometry.curves.pose_pairs import Array, PosePairs, rows_of, square_to

_FLAT = 1e-9
"""In units of the radius: poses this little out of one plane lie in it."""

_NEARLY_FLAT = 1e-2
_SLIGHT_RAD = 1e-3
_SIDES = {"L": 1.0, "S": 0.0, "R": -1.0}


def find_nearly_flat_curves(pairs: PosePairs) -> tuple[ArcStraightArcs, NDArray[np.intp]]:
    """Arc-straight-arc curves near those in the plane of both poses, where the poses are nearly in one.

    There headings are often against each other, where the general solution loses its grip.

    Returns the curves, and which pair each belongs to.

    pairs : in their own frames
    """
    rows, turns, towards = [], [], []
    for row in np.flatnonzero(_off_plane(pairs) < _NEARLY_FLAT):
        end = pairs.ends[row]
        for path in _paths(pairs, int(row)):
            if path.word[1] != "S":
                continue
            first, last = _SIDES[path.word[0]], _SIDES[path.word[2]]
            rows.append(row)
            turns.append((path.pieces_mm[0], path.pieces_mm[2]))
            towards.append(((0.0, first, 0.0), (-last * end[1], last * end[0], 0.0)))
    which = np.array(rows, dtype=np.intp)
    these = rows_of(pairs, which)
    guesses = _with_slight_turns(these, np.array(turns).reshape(-1, 2), np.array(towards).reshape(-1, 2, 3))
    curves = meet_halves(these, turns=guesses[0], towards=guesses[1])
    return curves.rows(curves.is_found), which[curves.is_found]


def find_flat_arcs(pairs: PosePairs, row: int) -> PieceChains | None:
    """The shorter of the two words of three arcs, where both poses lie in one plane.

    None where they do not, or their circles are too far apart.

    pairs : in their own frames

    Source: L. E. Dubins, Amer. J. Math. 79 (1957) 497-516.
    """
    if _off_plane(pairs)[row] > _FLAT:
        return None
    for path in _paths(pairs, row):
        if "S" not in path.word:
            sides, turns = np.array([_SIDES[letter] for letter in path.word]), np.array(path.pieces_mm)
            angles = np.concatenate([[0.0], np.cumsum(sides * turns)[:-1]])
            headings = np.stack([np.cos(angles), np.sin(angles), 0 * angles], axis=1)
            square = np.stack([-np.sin(angles), np.cos(angles), 0 * angles], axis=1)
            return PieceChains(
                sizes=turns[None],
                bends=np.ones((1, 3)),
                headings=headings[None],
                towards=(sides[:, None] * square)[None],
            )
    return None


def _off_plane(pairs: PosePairs) -> Array:
    off: Array = np.abs(pairs.ways[:, 2]) + np.abs(pairs.ends[:, 2])
    return off


def _paths(pairs: PosePairs, row: int) -> tuple[DubinsPath, ...]:
    way, end = pairs.ways[row], pairs.ends[row]
    return find_dubins_paths(
        start_mm=(0.0, 0.0),
        start_heading_deg=0.0,
        end_mm=(float(way[0]), float(way[1])),
        end_heading_deg=degrees(atan2(end[1], end[0])),
        radius_mm=1.0,
    )


def _with_slight_turns(pairs: PosePairs, turns: Array, towards: Array) -> tuple[Array, Array]:
    """The guesses square to their headings; an arc that hardly turns looks where the other one leaves to."""
    headings = np.stack([pairs.starts, -pairs.ends], axis=1)
    towards = square_to(towards, headings)[0]
    leavings = np.cos(turns)[..., None] * headings + np.sin(turns)[..., None] * towards
    wanted, sines = square_to(-leavings[:, ::-1], headings)
    slight = (turns < _SLIGHT_RAD) & (sines > 0)
    return np.where(slight, np.arcsin(np.minimum(sines, 1.0)), turns), np.where(slight[..., None], wanted, towards)
