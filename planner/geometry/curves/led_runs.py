"""Runs led past points or through clips, cut into stretches that are ordinary legs."""

from functools import lru_cache
from itertools import pairwise
from typing import TypedDict

import numpy as np

from planner.geometry.curves.hose_postures import STRAIGHT
from planner.geometry.curves.hose_shapes import shapes_from_curves
from planner.geometry.curves.led_curves import LedWays, is_seen_led_past
from planner.geometry.curves.legs import LegEnd
from planner.geometry.curves.pose_pairs import Array, dots, pairs_of, rows_of
from planner.geometry.curves.space_curves import find_shortest_curves
from planner.geometry.motion.frame_axes import Pose3, unit_vector
from planner.parts import Point

_TRIES = 7
_SHARES = (0.4, 0.7, 1.0)


def find_stretches(
    *, start: LegEnd, points_mm: tuple[Point, ...], end: LegEnd, centreline_radius_mm: float
) -> tuple[tuple[LegEnd, LegEnd], ...]:
    """The pieces between start, points and end, each with the directions in which the shortest curve at rest passes.

    A point holds place and direction of the line as they are at rest, as a clip does, and rides with the ends where
    both ride with the same thing.

    Raises ImpossibleDimensionError when the radius is not above zero or a heading has no length.
    """
    if not points_mm:
        return ((start, end),)
    return _cut_at(
        start, points_mm, end, _led_ways(start.pose, points_mm, end.pose, centreline_radius_mm).shortest.headings
    )


@lru_cache(maxsize=256)
def find_hanging_stretches(
    *, start: LegEnd, points_mm: tuple[Point, ...], end: LegEnd, centreline_radius_mm: float
) -> tuple[tuple[LegEnd, LegEnd], ...]:
    """The same pieces, the points holding the line in those directions in which a real hose lies shortest at rest.

    The shortest curve bends at a point as sharply as it may; a real hose hangs better led straight on. Tried are the
    direction of the shortest curve, that from the point before to the point behind, and two between.

    Raises ImpossibleDimensionError when the radius is not above zero or a heading has no length.
    """
    shortest = _led_ways(start.pose, points_mm, end.pose, centreline_radius_mm).shortest.headings
    tried = [
        _cut_at(start, points_mm, end, headings)
        for headings in _directions_to_try(
            shortest, np.array([start.pose.position_mm, *points_mm, end.pose.position_mm])
        )
    ]
    ends = [(a.pose, b.pose) for stretches in tried for a, b in stretches]
    pairs = pairs_of(ends=ends, centreline_radius_mm=centreline_radius_mm)
    curves = find_shortest_curves(pairs)
    lengths = np.where(curves.is_only_plain, curves.chains.lengths, np.inf)
    bent = np.flatnonzero(curves.is_only_plain & (lengths - np.sqrt(dots(pairs.ways, pairs.ways)) > STRAIGHT))
    if len(bent):
        shapes = shapes_from_curves(rows_of(pairs, bent), curves.rows(bent))
        lengths[bent] = np.where(shapes.found, shapes.lengths, np.inf)
    return tried[int(lengths.reshape(len(tried), -1).sum(axis=1).argmin())]


def _directions_to_try(shortest: Array, places: Array) -> list[Array]:
    onward = places[2:] - places[:-2]
    far = np.linalg.norm(onward, axis=1, keepdims=True)
    onward = np.where(far > 0, onward / np.maximum(far, 1e-300), shortest)
    found = [shortest]
    for share in _SHARES:
        mixed = (1 - share) * shortest + share * onward
        size = np.linalg.norm(mixed, axis=1, keepdims=True)
        found.append(np.where(size > 1e-6, mixed / np.maximum(size, 1e-6), shortest))
    return found


def _cut_at(
    start: LegEnd, points_mm: tuple[Point, ...], end: LegEnd, headings: Array
) -> tuple[tuple[LegEnd, LegEnd], ...]:
    mover = start.moves_with if start.moves_with is end.moves_with else None
    inner = [
        LegEnd(pose=Pose3(position_mm=place, heading=(float(x), float(y), float(z))), moves_with=mover)
        for place, (x, y, z) in zip(points_mm, headings, strict=True)
    ]
    return tuple(pairwise((start, *inner, end)))


@lru_cache(maxsize=256)
def widest_radius_past_points_mm(
    *, start: Pose3, points_mm: tuple[Point, ...], end: Pose3, centreline_radius_mm: float
) -> float:
    """The widest bend, up to the one asked, with which a line gets past points and loops nowhere.

    Returns to the centre line, found by halving to a hundredth of what was asked; 0 where there is none. Below what
    was asked, a bend counts where a quick search finds a way: the figure may be low, never high. [mm]

    Raises ImpossibleDimensionError when the radius is not above zero or a heading has no length.

    Source: derived; a wider bend never gets past more points than a tighter one.
    """
    low_mm, high_mm = 0.0, centreline_radius_mm
    if gets_past_points(start=start, points_mm=points_mm, end=end, centreline_radius_mm=high_mm):
        return high_mm
    for _ in range(_TRIES):
        middle_mm = (low_mm + high_mm) / 2
        if is_seen_led_past(**_in_radii(start, points_mm, end, middle_mm)):
            low_mm = middle_mm
        else:
            high_mm = middle_mm
    return low_mm


def gets_past_points(*, start: Pose3, points_mm: tuple[Point, ...], end: Pose3, centreline_radius_mm: float) -> bool:
    """Whether a line gets past points with this bend and loops nowhere, its direction at the points free.

    Raises ImpossibleDimensionError when the radius is not above zero or a heading has no length.
    """
    return _led_ways(start, points_mm, end, centreline_radius_mm).is_led_past


@lru_cache(maxsize=256)
def _led_ways(start: Pose3, points_mm: tuple[Point, ...], end: Pose3, radius_mm: float) -> LedWays:
    return LedWays(**_in_radii(start, points_mm, end, radius_mm))


class _Led(TypedDict):
    start: tuple[Array, Array]
    points: Array
    end: tuple[Array, Array]


def _in_radii(start: Pose3, points_mm: tuple[Point, ...], end: Pose3, radius_mm: float) -> _Led:
    origin = np.array(start.position_mm)
    return {
        "start": (np.zeros(3), np.array(unit_vector(start.heading))),
        "points": (np.array(points_mm) - origin) / radius_mm,
        "end": ((np.array(end.position_mm) - origin) / radius_mm, np.array(unit_vector(end.heading))),
    }
