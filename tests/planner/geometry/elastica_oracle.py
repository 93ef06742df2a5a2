"""The elastica in space as a boundary value problem, solved by collocation: an independent check on relaxed shapes."""

from itertools import pairwise
from typing import NamedTuple

import numpy as np
from scipy.integrate import cumulative_trapezoid, solve_bvp
from scipy.interpolate import CubicSpline


class Elastica(NamedTuple):
    """A solution: its sharpest curvature, and points along it."""

    sharpest_per_mm: float
    points_mm: np.ndarray


def solve_elastica(start: tuple, end: tuple, length_mm: float, guess_mm: np.ndarray) -> Elastica:
    """r' = t, t' = w, w' = -|w|^2 t + f - (f t) t with a constant force f, clamped at both ends.

    `start` and `end` are places and unit headings; `guess_mm` are points along a first guess, which picks the branch.
    """
    scale = length_mm
    place, heading = (np.array(start[0]) / scale, np.array(start[1])), (np.array(end[0]) / scale, np.array(end[1]))

    def slopes(_s: np.ndarray, y: np.ndarray) -> np.ndarray:
        t, w, f = y[3:6], y[6:9], y[9:12]
        return np.vstack([t, w, -(w * w).sum(axis=0) * t + f - (f * t).sum(axis=0) * t, np.zeros_like(f)])

    def ends(a: np.ndarray, b: np.ndarray) -> np.ndarray:
        return np.concatenate([a[:3] - place[0], a[3:6] - place[1], b[:3] - heading[0], b[3:6] - heading[1]])

    s, y = _first_guess(guess_mm / scale, place[1], heading[1])
    answer = solve_bvp(slopes, ends, s, y, tol=1e-5, max_nodes=4000)
    assert answer.success, answer.message
    fine = answer.sol(np.linspace(0, 1, 2001))
    return Elastica(float(np.sqrt((fine[6:9] ** 2).sum(axis=0)).max() / scale), fine[:3].T * scale)


def _first_guess(points: np.ndarray, first: np.ndarray, last: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """A clamped spline through the guess; curvatures from its second derivative, the force by least squares."""
    along = np.concatenate([[0], np.cumsum(np.linalg.norm(np.diff(points, axis=0), axis=1))])
    along /= along[-1]
    spline = CubicSpline(along, points, bc_type=((1, first), (1, last)))
    s = np.append(np.concatenate([a + (b - a) * np.array([0, 0.25, 0.5, 0.75]) for a, b in pairwise(along)]), 1.0)
    r, t = spline(s), spline(s, 1)
    t /= np.linalg.norm(t, axis=1, keepdims=True)
    w = spline(s, 2)
    w -= (w * t).sum(axis=1, keepdims=True) * t
    # w(s) + int |w|^2 t = w(0) + int (1 - t t) f: linear in w(0) and f
    left = w + cumulative_trapezoid((w * w).sum(axis=1, keepdims=True) * t, s, axis=0, initial=0)
    right = cumulative_trapezoid(np.eye(3) - t[:, :, None] * t[:, None, :], s, axis=0, initial=0)
    unknowns = np.concatenate([np.tile(np.eye(3), (len(s), 1, 1)), right], axis=2)
    force = np.linalg.lstsq(unknowns.reshape(-1, 6), left.reshape(-1), rcond=None)[0][3:]
    return s, np.vstack([r.T, t.T, w.T, np.tile(force[:, None], len(s))])
