"""One hose has one length: whether it lies nowhere too tight in any posture while both its ends hold it."""

from collections.abc import Sequence

import numpy as np

from planner.geometry.curves.elastica_chain import Rods, choose_rods, put_rods
from planner.geometry.curves.hose_postures import LegRows, Lyings, Rows
from planner.geometry.curves.hose_shapes import shapes_of_lengths, sharpest_bends, slack_rods
from planner.geometry.curves.legs import Posture
from planner.geometry.curves.pose_pairs import Array, rows_of
from planner.quick_dataclass import dataclass

_TOO_TIGHT = 1.005
_FIRST_TRY = 0.1
_MOST_TRIES = 8
_MOST_ADDED = 1.0
"""In units of the radius: how much longer than any posture asks a hose is made so that one length serves them all."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OneLength:
    """Whether one hose of one length lies nowhere too tight over all postures while both its ends hold it.

    length_mm : the least such length; where there is none, the longest that any posture asks [mm]
    serves : whether it does
    tightest_radius_mm : of its tightest bend over all postures [mm]
    tightest_at : where bar and rear stand then
    slack_mm : how much more that is than the shortest curve of that posture [mm]
    """

    length_mm: float
    serves: bool
    tightest_radius_mm: float
    tightest_at: Posture
    slack_mm: float


def find_one_lengths(rows: LegRows, lyings: Lyings, *, longest: Sequence[float | None]) -> tuple[OneLength | None, ...]:
    """For each leg the least length that serves all its postures, on the branch followed at that length.

    The sharpest bend does not fall steadily with the length: what one posture needs may be too long for another, where
    the ends come close.

    longest : the most that any posture of a leg asks; None where it is not to be asked [bend radii]
    """
    asked = np.array([np.nan if one is None else one for one in longest])[rows.legs]
    which = np.flatnonzero(np.isfinite(asked))
    rods, bends = _at_length(rows, which, _first_rods(rows, lyings, which, asked), asked[which])
    told: list[OneLength | None] = [None] * len(longest)
    for leg in np.unique(rows.legs[which]):
        own = np.flatnonzero(rows.legs[which] == leg)
        told[int(leg)] = _search(rows, which[own], choose_rods(rods, own), bends[own], float(asked[which[own[0]]]))
    return tuple(told)


def _first_rods(rows: LegRows, lyings: Lyings, which: Rows, asked: Array) -> Rods:
    """As followed from rest; where that found nothing or there was nothing to relax, the shortest curve made slack."""
    rods = slack_rods(rows_of(rows.pairs, which), rows.curves.rows(which).chains, asked[which])
    followed = np.flatnonzero(lyings.shapes.found & ~lyings.is_other)
    place = np.full(len(rows.legs), -1)
    place[lyings.rows[followed]] = followed
    has_one = place[which] >= 0
    return put_rods(rods, has_one, choose_rods(lyings.shapes.rods, place[which][has_one]))


def _at_length(rows: LegRows, which: Rows, rods: Rods, lengths: Array) -> tuple[Rods, Array]:
    """The hoses at these lengths, and how sharply each bends; infinitely where it did not come to rest."""
    rods, at_rest = shapes_of_lengths(rods, lengths)
    return rods, np.where(at_rest, sharpest_bends(rows_of(rows.pairs, which), rods), np.inf)


def _search(rows: LegRows, which: Rows, rods: Rods, bends: Array, longest: float) -> OneLength:
    """Longer and longer, as fast as the sharpest bend falls; given up where it does not, or not soon enough."""
    first, length, worst, by = bends, longest, float(bends.max()), _FIRST_TRY
    for _ in range(_MOST_TRIES):
        if worst <= _TOO_TIGHT or length + by > longest + _MOST_ADDED:
            break
        rods, bends = _at_length(rows, which, rods, np.full(len(which), length + by))
        length, was, worst = length + by, worst, float(bends.max())
        fall = (was - worst) / by
        by = (worst - 1) / fall if fall > 0 else np.inf
    serves = worst <= _TOO_TIGHT
    told = bends if serves else first
    row = int(told.argmax())
    radius_mm, at = rows.centreline_radius_mm, int(which[row])
    return OneLength(
        length_mm=(length if serves else longest) * radius_mm,
        serves=serves,
        tightest_radius_mm=radius_mm / float(told[row]),
        tightest_at=rows.postures[at],
        slack_mm=((length if serves else longest) - float(rows.curves.chains.lengths[at])) * radius_mm,
    )
