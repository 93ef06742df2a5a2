"""Every curve of an arc, a straight and an arc between two poses: none is missed for want of a first guess.

With h, g the headings, p the way, P = p.h, Q = p.g, c = h.g, D = p.p, and a, b the tangents of the half turns, the
corners of the tangents are joined by p - a h - b g = m u, where m is what both tangents and the straight are together.
Square and products of this with h and g give, for a given first turn, a quadratic and a cubic in b; that both hold at
once is one condition on the first turn. Divided by its cosine squared it is a trigonometric polynomial of degree 7, so
sixteen values of it give, by Fourier's transform and the eigenvalues of a matrix, all of its at most fourteen roots.
"""

import numpy as np
from numpy.typing import NDArray

from planner.geometry.curves.arc_straight_arc import FULL_TURN, ArcStraightArcs, meet_halves, misses_of
from planner.geometry.curves.pose_pairs import Array, PosePairs, across, dots, rows_of, square_to

_DEGREE = 7
_SAMPLES = (np.arange(16) + 0.5) * FULL_TURN / 16
"""First turns at which the condition is evaluated; its cosine and that of its half are zero at none of them. [rad]"""

_REAL = 0.02
"""How far from the unit circle a root may lie by rounding, as the logarithm of its size."""

_NEAR = 0.7
"""How far from meeting the halves of a first guess may be."""

_SPREAD = np.exp(-1j * np.fft.fftfreq(16, 1 / 16) * _SAMPLES[0]) / 16


def find_arc_straight_arcs(pairs: PosePairs) -> tuple[ArcStraightArcs, NDArray[np.intp]]:
    """All such curves of every pair, plain or not.

    Asked from both ends, since a root is badly known where the other end's turn is near a quarter or a half circle.
    Spurious roots are left to the polishing, which they do not survive.

    Returns the curves, and which pair each belongs to.

    Source: the resultant of two polynomials, any text on algebra; the rest: derived.
    """
    back = PosePairs(ways=-pairs.ways, starts=-pairs.ends, ends=-pairs.starts)
    from_start, from_end = _guesses(pairs), _guesses(back)
    rows = np.concatenate([from_start[0], from_end[0]])
    turns = np.concatenate([from_start[1], from_end[1][:, ::-1]])
    towards = np.concatenate([from_start[2], from_end[2][:, ::-1]])
    these = rows_of(pairs, rows)
    misses, straights = misses_of(these, turns=turns, towards=towards)
    near = (misses < _NEAR) & (straights > -_NEAR)
    curves = meet_halves(rows_of(these, near), turns=turns[near], towards=towards[near])
    return curves.rows(curves.is_found), rows[near][curves.is_found]


def _guesses(pairs: PosePairs) -> tuple[NDArray[np.intp], Array, Array]:
    """Pair, both turns and both leanings of every guess: two last turns and two senses for each first turn."""
    numbers = np.stack(
        [
            dots(pairs.ways, pairs.starts),
            dots(pairs.ways, pairs.ends),
            dots(pairs.starts, pairs.ends),
            dots(pairs.ways, pairs.ways),
        ]
    )
    roots = _roots(numbers[:, :, None])
    rows, columns = np.nonzero(np.abs(np.log(np.maximum(np.abs(roots), 1e-300))) < _REAL)
    first = np.angle(roots[rows, columns]) % FULL_TURN
    (a, b, c), _ = _polynomials(first, numbers[:, rows])
    far = -b - np.where(b < 0, -1.0, 1.0) * np.sqrt(np.maximum(b * b - 4 * a * c, 0.0))
    last = 2 * np.stack([np.arctan2(far, 2 * a), np.arctan2(2 * c, far)], axis=1) % FULL_TURN
    rows, turns = np.repeat(rows, 4), np.stack([np.repeat(first, 4), np.repeat(last.ravel(), 2)], axis=1)
    sense = np.tile([1.0, -1.0], len(rows) // 2)[:, None]
    ways, starts, ends = pairs.ways[rows], pairs.starts[rows], pairs.ends[rows]
    c, s = np.cos(turns / 2), np.sin(turns / 2)
    first_towards, first_size = square_to(c[:, 1:] * ways - s[:, 1:] * ends, starts)
    last_towards, last_size = square_to(c[:, :1] * ways - s[:, :1] * starts, ends)
    first_towards = np.where((first_size > 1e-12)[:, None], first_towards, across(starts))
    last_towards = np.where((last_size > 1e-12)[:, None], last_towards, across(ends))
    return rows, turns, np.stack([sense * first_towards, -sense * last_towards], axis=1)


def _roots(numbers: Array) -> NDArray[np.complex128]:
    """The condition's roots as complex numbers exp(i first turn), one row a pair."""
    (a, b, c), (d, e, f, g) = _polynomials(_SAMPLES, numbers)
    zero = np.zeros_like(a)
    rows = ((a, b, c, zero, zero), (zero, a, b, c, zero), (zero, zero, a, b, c), (d, e, f, g, zero), (zero, d, e, f, g))
    sylvester = np.stack([np.stack(row, axis=-1) for row in rows], axis=-2)
    values = np.linalg.det(sylvester) / np.cos(_SAMPLES) ** 2
    waves = np.fft.fft(values, axis=1) * _SPREAD
    coefficients = np.concatenate([waves[:, -_DEGREE:], waves[:, : _DEGREE + 1]], axis=1)
    largest = np.abs(coefficients).max(axis=1)
    leading = coefficients[:, -1]
    leading = np.where(np.abs(leading) > 1e-14 * largest, leading, 1e-14 * np.maximum(largest, 1e-300))
    matrix = np.zeros((len(values), 2 * _DEGREE, 2 * _DEGREE), dtype=np.complex128)
    matrix[:, np.arange(1, 2 * _DEGREE), np.arange(2 * _DEGREE - 1)] = 1
    matrix[:, :, -1] = -coefficients[:, :-1] / leading[:, None]
    return np.asarray(np.linalg.eigvals(matrix), dtype=np.complex128)


def _polynomials(turns: Array, numbers: Array) -> tuple[tuple[Array, ...], tuple[Array, ...]]:
    """Coefficients of the quadratic and of the cubic in the last half turn's tangent, highest first."""
    along, across_, cosine, far = numbers
    k, z, x = np.cos(turns / 2), np.sin(turns / 2), np.cos(turns)
    y, w = along * k - z, across_ * k - cosine * z
    quadratic = (
        cosine**2 - x**2,
        2 * (x**2 * across_ - cosine * along + 4 * cosine * z**3 * k),
        along**2 - x**2 * far + 4 * z**3 * (z - 2 * along * k),
    )
    cubic = (k * (cosine + x), -y - x * w, k * (x - cosine), y - x * w)
    return quadratic, cubic
