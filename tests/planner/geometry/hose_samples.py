"""Hoses between two clamped ends, asked one at a time: what the planner asks of whole lines."""

import numpy as np

from planner.geometry.curves.elastica_chain import node_places
from planner.geometry.curves.hose_lengths import HoseRange, find_hose_ranges
from planner.geometry.curves.hose_shapes import shapes_of_lengths, sharpest_bends, slack_rods
from planner.geometry.curves.legs import LegEnd, LegMotion, find_leg_motion, find_leg_ranges
from planner.geometry.curves.pose_pairs import pairs_of
from planner.geometry.curves.space_curves import draw_curve, find_shortest_curves
from planner.geometry.motion.frame_axes import Curve, Pose3
from planner.parts import Bar, MovesWith

UPRIGHT = Bar(axis_point_mm=(405.0, 0.0, 612.0), axis=(-0.42, 0.0, 0.91), lock_deg=75.0)


def shortest_bend_limited_curve(*, start: Pose3, end: Pose3, centreline_radius_mm: float) -> Curve:
    """The shortest curve found between two poses, ready to be drawn."""
    found = find_shortest_curves(pairs_of(ends=((start, end),), centreline_radius_mm=centreline_radius_mm))
    return draw_curve(found, row=0, start=start, end=end, centreline_radius_mm=centreline_radius_mm)


def still_leg(start: Pose3, end: Pose3) -> LegMotion:
    return find_leg_motion(start=LegEnd(pose=start), end=LegEnd(pose=end), bar=None, rear=None)


def hose_between(start: Pose3, end: Pose3, *, radius_mm: float) -> HoseRange:
    ranges = find_leg_ranges(motions=[still_leg(start, end)], centreline_radius_mm=radius_mm)
    return find_hose_ranges(ranges)[0]


def relaxed_curve(start: Pose3, end: Pose3, *, radius_mm: float) -> Curve:
    shape = hose_between(start, end, radius_mm=radius_mm).rest
    assert shape is not None
    return shape


def hose_of_length(start: Pose3, end: Pose3, *, radius_mm: float, length_mm: float) -> tuple[np.ndarray, float]:
    """Places of a hose of a given length, and the radius of its tightest bend; the bend radius picks the way round."""
    pairs = pairs_of(ends=[(start, end)], centreline_radius_mm=radius_mm)
    lengths = np.array([length_mm / radius_mm])
    rods, at_rest = shapes_of_lengths(slack_rods(pairs, find_shortest_curves(pairs).chains, lengths), lengths)
    assert at_rest.all()
    return node_places(rods)[0] * radius_mm + np.array(start.position_mm), radius_mm / float(
        sharpest_bends(pairs, rods)[0]
    )


def random_bar_legs(count: int, *, seed: int, widest_deg: tuple[float, float] = (100, 70)) -> list[LegMotion]:
    """From somewhere on the bar into the frame, headings within so much of the way."""
    chance = np.random.default_rng(seed)
    return [_random_bar_leg(chance, widest_deg) for _ in range(count)]


def _random_bar_leg(chance: np.random.Generator, widest_deg: tuple[float, float]) -> LegMotion:
    bar = Bar(axis_point_mm=(405.0, 0.0, 612.0), axis=(-0.42, 0.0, 0.91), lock_deg=float(chance.uniform(50, 85)))
    lever = chance.uniform((380, -260, 620), (500, 260, 760))
    port = chance.uniform((300, -35, 380), (450, 35, 560))
    way = (port - lever) / np.linalg.norm(port - lever)
    first, last = (_heading_near(chance, way, degrees) for degrees in widest_deg)
    start = LegEnd(pose=_pose(lever, first), moves_with=MovesWith.BAR)
    return find_leg_motion(start=start, end=LegEnd(pose=_pose(port, last)), bar=bar, rear=None)


def _heading_near(chance: np.random.Generator, way: np.ndarray, widest_deg: float) -> np.ndarray:
    while True:
        heading = chance.normal(size=3)
        heading /= np.linalg.norm(heading)
        if heading @ way > np.cos(np.radians(widest_deg)):
            return heading


def _pose(place: np.ndarray, heading: np.ndarray) -> Pose3:
    x, y, z = (float(value) for value in place)
    a, b, c = (float(value) for value in heading)
    return Pose3(position_mm=(x, y, z), heading=(a, b, c))
