"""A flat thing on a photograph taken at a slant, put square again by circles that are known to lie in it.

A square view keeps circles round. A slanted one makes them ovals, narrower across the slant, and the farther one
smaller. What undoes that is a map with five figures: two scales and a shear for the slant, two for what is farther
being smaller. They are found so that the points set on each rim are equally far from its middle.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import acos, degrees, hypot, sqrt

import numpy as np
import numpy.typing as npt

Pixel = tuple[float, float]
Array = npt.NDArray[np.float64]

_FIGURES = 5
_FEWEST_ON_RIM = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class RimSeen:
    """A wheel as it was marked.

    middle : of the wheel [pixels]
    rim : four points or more anywhere on one edge of its rim [pixels]
    """

    middle: Pixel
    rim: tuple[Pixel, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaneView:
    """How a flat thing lies before the camera.

    middle, size : where pixels are counted from, and in what [pixels]
    figures : two scales and a shear, two of what is farther being smaller [mm, mm, mm, none, none]
    doubts : the same shifted each way in which points may be set wrong, three standard deviations [mm, none]
    misfit_px : how far the points set on the rims are from the rims found, in the mean [pixels]
    """

    middle: Pixel
    size: float
    figures: tuple[float, ...]
    doubts: tuple[tuple[float, ...], ...]
    misfit_px: float

    def place(self, seen: Pixel) -> tuple[float, float]:
        """Where a point of the picture lies on the thing, as the picture has it: x to the right, y down. [mm]"""
        return _placed(np.array(self.figures), *_told(self, seen))

    def pixel_mm(self, seen: Pixel) -> float:
        """How far two points lie apart that are a pixel apart there, in the mean of both ways. [mm]"""
        return sqrt(abs(float(np.linalg.det(self._slope(seen)))))

    def slant_deg(self, seen: Pixel) -> float:
        """How far the view of that point is from square: 0 is square. [degrees]"""
        large, small = np.linalg.svd(self._slope(seen), compute_uv=False)
        return degrees(acos(min(1.0, float(small / large))))

    def in_doubt(self) -> tuple["PlaneView", ...]:
        """The same view, as it may be instead."""
        return tuple(replace(self, figures=figures, doubts=()) for figures in self.doubts)

    def _slope(self, seen: Pixel) -> Array:
        x, y = seen
        ways = [(self.place((x + dx, y + dy)), self.place((x - dx, y - dy))) for dx, dy in ((0.5, 0), (0, 0.5))]
        return np.array([[a[0] - b[0], a[1] - b[1]] for a, b in ways])


def find_plane_view(
    *, rims: Sequence[RimSeen], known: tuple[Pixel, Pixel], known_mm: float, hand_px: float
) -> PlaneView | None:
    """The view in which the marked rims are round, and the known distance what it is.

    With one rim what is farther does not count as smaller: a camera at infinity. Two rims are taken to be of one size.

    Returns None where fewer than four points lie on a rim, or no view makes the rims round.

    known, known_mm : both ends of the known distance, and how far they are apart [pixels, mm]
    hand_px : by how much a point is set wrong at most [pixels]

    Derived: least squares over the map's figures, the size of the rims and their middles, which are not set truly
    either; how far the figures may be off is the curvature of that sum.
    """
    apart_px = hypot(known[1][0] - known[0][0], known[1][1] - known[0][1])
    if not rims or apart_px <= 0 or any(len(wheel.rim) < _FEWEST_ON_RIM for wheel in rims):
        return None
    from scipy.optimize import least_squares

    points = np.array([point for wheel in rims for point in (wheel.middle, *wheel.rim)])
    middle, size = points.mean(axis=0), float(np.abs(points - points.mean(axis=0)).max())
    if size <= 0:
        return None
    asked = _Asked(rims, known, known_mm, middle, size, known_mm / apart_px)
    found = least_squares(asked.residuals, asked.start(), x_scale="jac", max_nfev=200)
    slope = found.jac
    if not found.success or np.linalg.matrix_rank(slope) < slope.shape[1]:
        return None
    free = max(len(found.fun) - slope.shape[1], 1)
    misfit_px = sqrt(2 * found.cost / free)
    spread_px = max(hand_px / sqrt(3), misfit_px)
    doubt = np.linalg.inv(slope.T @ slope)[: asked.count, : asked.count] * spread_px**2
    values, ways = np.linalg.eigh(doubt)
    figures = asked.full(found.x)
    shifts = [3 * sqrt(max(value, 0.0)) * asked.full(way) for value, way in zip(values, ways.T, strict=True)]
    return PlaneView(
        middle=(float(middle[0]), float(middle[1])),
        size=size,
        figures=tuple(map(float, figures)),
        doubts=tuple(tuple(map(float, figures + shift)) for shift in shifts),
        misfit_px=misfit_px,
    )


class _Asked:
    """What is to hold, in pixels: rims round, middles in the middle, the known distance as told."""

    def __init__(
        self,
        rims: Sequence[RimSeen],
        known: tuple[Pixel, Pixel],
        known_mm: float,
        middle: Array,
        size: float,
        pixel_mm: float,
    ) -> None:
        self._known, self._known_mm, self._pixel_mm = self._seen(known, middle, size), known_mm, pixel_mm
        self._middles = self._seen([wheel.middle for wheel in rims], middle, size)
        self._rims = [self._seen(wheel.rim, middle, size) for wheel in rims]
        self._size = size
        self.count = _FIGURES if len(rims) > 1 else _FIGURES - 2

    @staticmethod
    def _seen(points: Sequence[Pixel], middle: Array, size: float) -> Array:
        return (np.array(points, dtype=np.float64) - middle) / size

    def start(self) -> Array:
        """A square view."""
        scale = self._size * self._pixel_mm
        across = np.linalg.norm(self._rims[0] - self._middles[0], axis=1).mean() * scale
        figures = [scale, 0.0, scale, 0.0, 0.0][: self.count]
        return np.array([*figures, across, *self._middles.ravel()])

    def full(self, values: Array) -> Array:
        """All figures of the map; of one rim the last two are none."""
        return np.concatenate([values[: self.count], np.zeros(_FIGURES - self.count)])

    def residuals(self, values: Array) -> Array:
        figures, radius_mm = self.full(values), values[self.count]
        middles = values[self.count + 1 :].reshape(-1, 2)
        off = []
        for middle, rim in zip(middles, self._rims, strict=True):
            away = _plane(figures, rim) - _plane(figures, middle[None, :])
            off.append((np.linalg.norm(away, axis=1) - radius_mm) / self._pixel_mm)
        ends = _plane(figures, self._known)
        apart_mm = float(np.linalg.norm(ends[1] - ends[0]))
        off.append(np.array([(apart_mm - self._known_mm) / self._pixel_mm / sqrt(2)]))
        off.append(((middles - self._middles) * self._size).ravel())
        return np.concatenate(off)


def _plane(figures: Array, points: Array) -> Array:
    along, shear, across, far_x, far_y = figures
    x, y = points[:, 0], points[:, 1]
    far = 1 + far_x * x + far_y * y
    return np.stack([(along * x + shear * y) / far, across * y / far], axis=1)


def _told(view: PlaneView, seen: Pixel) -> tuple[float, float]:
    return (seen[0] - view.middle[0]) / view.size, (seen[1] - view.middle[1]) / view.size


def _placed(figures: Array, x: float, y: float) -> tuple[float, float]:
    place = _plane(figures, np.array([[x, y]]))[0]
    return float(place[0]), float(place[1])
