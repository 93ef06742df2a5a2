"""How far a rigid piece stays from a tube wall between two moments of its motion, proven and not sampled."""

from dataclasses import dataclass
from math import cos, hypot, radians, sin

from planner.geometry.rigid.wall_slices import WallScene, find_reach
from planner.verdicts import Pose


def least_gap_between_mm(*, scene: WallScene, start: Pose, end: Pose) -> float:
    """A distance the piece is sure to keep while it goes straight from one pose to the next.

    Middle and tilt change evenly. For each obstacle one separating line, the same at both poses, is followed: what it
    leaves at both ends, less the most it can dip between them. Not the greatest such distance, but never too great.

    Returns the distance; zero or less where nothing is proven.

    scene : the piece and the hole
    start, end : the two poses, both with tilts of 0 to 90

    Source: Plane geometry, derived. Dip: a function whose second derivative is at most m lies at
    most m/8 below its chord over a unit interval.
    """
    turn = abs(radians(end.tilt_deg - start.tilt_deg))
    shift_mm = hypot(end.x_mm - start.x_mm, end.y_mm - start.y_mm)

    def kept_mm(at_start: _Gap, at_end: _Gap) -> float:
        arm_mm = max(at_start.arm_mm, at_end.arm_mm)
        return min(at_start.gap_mm, at_end.gap_mm) - (2 * shift_mm * turn + arm_mm * turn**2) / 8

    return min(
        max(map(kept_mm, gaps_at_start, gaps_at_end))
        for gaps_at_start, gaps_at_end in zip(_gaps(scene, start), _gaps(scene, end), strict=True)
    )


@dataclass(frozen=True, slots=True)
class _Gap:
    """What a separating line leaves, and how far from the piece's middle the point lies that it turns about. [mm]"""

    gap_mm: float
    arm_mm: float


def _gaps(scene: WallScene, pose: Pose) -> tuple[tuple[_Gap, ...], ...]:
    """For each obstacle, its separating lines: the wall ahead, the wall behind, the far side."""
    reach = find_reach(scene=scene, tilt_deg=pose.tilt_deg)
    behind = Pose(x_mm=-pose.x_mm, y_mm=-scene.wall_thickness_mm - pose.y_mm, tilt_deg=pose.tilt_deg)
    return (
        _gaps_to_wall_ahead(scene, pose),
        _gaps_to_wall_ahead(scene, behind),  # the wall is its own mirror image about the middle of the hole
        (_Gap(scene.corridor_mm - pose.y_mm - reach.across_mm, _half_diagonal_mm(scene)),),
    )


def _gaps_to_wall_ahead(scene: WallScene, pose: Pose) -> tuple[_Gap, _Gap, _Gap]:
    """Along the piece's flank, along the side of the hole, along the piece's end face."""
    s, c = sin(radians(pose.tilt_deg)), cos(radians(pose.tilt_deg))
    reach = find_reach(scene=scene, tilt_deg=pose.tilt_deg)
    ahead_mm = scene.opening_length_mm / 2 - pose.x_mm
    above_outer_rim_mm = pose.y_mm + scene.wall_thickness_mm
    return (
        _Gap(s * ahead_mm + c * pose.y_mm - scene.piece_diameter_mm / 2, hypot(ahead_mm, pose.y_mm)),
        _Gap(ahead_mm - reach.along_mm, _half_diagonal_mm(scene)),
        _Gap(c * ahead_mm - s * above_outer_rim_mm - scene.piece_length_mm / 2, hypot(ahead_mm, above_outer_rim_mm)),
    )


def _half_diagonal_mm(scene: WallScene) -> float:
    return hypot(scene.piece_length_mm, scene.piece_diameter_mm) / 2
