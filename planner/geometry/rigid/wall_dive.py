"""How a rigid piece goes through the hole in a tube wall and lies down: the motion itself, proven free all the way."""

import numpy as np

from planner.geometry.rigid.wall_contacts import least_gap_between_mm
from planner.geometry.rigid.wall_slices import (
    WallScene,
    find_reach,
    find_roomiest_pose,
    find_sliding_pose,
    least_room_mm,
    steepest_lean_deg,
)
from planner.quick_dataclass import dataclass
from planner.verdicts import Pose

FINEST_TILT_STEP_DEG = 0.01
"""Where the search for a proof stops: nearer to the limit than this shows, it is left undecided."""

_COARSEST_TILT_STEP_DEG = 7.5
_TILTS_SCANNED = 120
_SCANNED = np.arange(_TILTS_SCANNED + 1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Motion:
    """A motion, going evenly from each pose to the next.

    poses : from outside to lying along the tube
    clearance_mm : distance from wall and far side that it is sure to keep throughout [mm]
    """

    poses: tuple[Pose, ...]
    clearance_mm: float


def find_flat_motion(*, scene: WallScene) -> Motion | None:
    """A piece shorter than the hole drops in without turning.

    None where the hole is too short for it, or it touches.

    scene : the piece and the hole
    """
    outside_mm = -scene.wall_thickness_mm - scene.piece_diameter_mm
    start = Pose(x_mm=0.0, y_mm=outside_mm, tilt_deg=0.0)
    end = Pose(x_mm=0.0, y_mm=scene.corridor_mm / 2, tilt_deg=0.0)
    kept_mm = least_gap_between_mm(scene=scene, start=start, end=end)
    return Motion(poses=(start, end), clearance_mm=kept_mm) if kept_mm > 0 else None


def find_sliding_motion(*, scene: WallScene) -> Motion | None:
    """In along its own axis, a step aside, and down, at every tilt as far from everything as it can be.

    None where no such motion was proven free at the finest step of tilt.

    scene : the piece and the hole
    """
    tilt_deg = _find_diving_tilt_deg(scene)
    if tilt_deg is None:
        return None
    down = find_roomiest_pose(scene=scene, tilt_deg=tilt_deg).pose
    reach = find_reach(scene=scene, tilt_deg=tilt_deg)
    outside_mm = -scene.wall_thickness_mm - reach.across_mm - scene.piece_diameter_mm
    start = find_sliding_pose(scene=scene, tilt_deg=tilt_deg, y_mm=outside_mm).pose
    inside = find_sliding_pose(scene=scene, tilt_deg=tilt_deg, y_mm=down.y_mm).pose
    poses = [start, inside, down]
    kept_mm = min(
        least_gap_between_mm(scene=scene, start=start, end=inside),
        least_gap_between_mm(scene=scene, start=inside, end=down),
    )
    while kept_mm > 0 and poses[-1].tilt_deg > 0:
        pose, step_kept_mm = _find_next_pose(scene, poses[-1])
        poses.append(pose)
        kept_mm = min(kept_mm, step_kept_mm)
    return Motion(poses=tuple(poses), clearance_mm=kept_mm) if kept_mm > 0 else None


def _find_diving_tilt_deg(scene: WallScene) -> float | None:
    """The tilt to dive at: as much room in the hole as there will be while lying down, or upright."""
    if scene.piece_diameter_mm >= scene.opening_length_mm:
        return None
    low_deg = steepest_lean_deg(
        piece_diameter_mm=scene.piece_diameter_mm,
        opening_length_mm=scene.opening_length_mm,
        wall_thickness_mm=scene.wall_thickness_mm,
    )
    room_mm = least_room_mm(scene=scene, tilts_deg=low_deg * _SCANNED / _TILTS_SCANNED)

    def slides_no_roomier(tilt_deg: float) -> bool:
        sliding = find_sliding_pose(scene=scene, tilt_deg=tilt_deg, y_mm=0.0)
        return sliding.room_mm <= min(room_mm, find_roomiest_pose(scene=scene, tilt_deg=tilt_deg).room_mm)

    if slides_no_roomier(90.0):
        return 90.0
    high_deg = 90.0
    while high_deg - low_deg > 1e-9:
        middle_deg = (low_deg + high_deg) / 2
        low_deg, high_deg = (middle_deg, high_deg) if slides_no_roomier(middle_deg) else (low_deg, middle_deg)
    return high_deg


def _find_next_pose(scene: WallScene, pose: Pose) -> tuple[Pose, float]:
    """The next pose on the way down, as far as the straight way to it keeps half of the room there is at its ends."""
    room_mm = find_roomiest_pose(scene=scene, tilt_deg=pose.tilt_deg).room_mm
    step_deg = _COARSEST_TILT_STEP_DEG
    while True:
        following = find_roomiest_pose(scene=scene, tilt_deg=max(0.0, pose.tilt_deg - step_deg))
        kept_mm = least_gap_between_mm(scene=scene, start=pose, end=following.pose)
        if kept_mm >= min(room_mm, following.room_mm) / 2 or step_deg / 2 < FINEST_TILT_STEP_DEG:
            return following.pose, kept_mm
        step_deg /= 2
