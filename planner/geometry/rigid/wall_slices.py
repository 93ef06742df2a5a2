"""What room a hole in a tube wall leaves a rigid piece at one tilt: the free space of the motion, slice by slice.

The piece is a rectangle, the wall two half-strips, the far side of the tube a half-plane. At one tilt the middle of the
piece may be anywhere but in the Minkowski sums of these with the rectangle, all of them convex. The sum of each
half-strip ends towards the hole in three faces, so the width left between the two sums is the greatest of a few
straight lines: convex in the depth, and least half-way through the wall. A slice therefore has two pockets, one outside
and one inside, which are one where the piece can slide through the hole at that tilt. Each pocket is connected and
changes steadily with the tilt, and the outside one is never empty. So the whole search over tilt and position comes
down to this: the piece gets in at a tilt at which it can slide, and lies down from there exactly if no tilt on the way
leaves the inside pocket empty. What lies on both sides of a wall may be asked side by side for the same reason: a piece
that lies down on either side can be led from the one to the other.
"""

from math import asin, atan2, cos, degrees, hypot, radians, sin
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from planner.quick_dataclass import dataclass
from planner.verdicts import Pose

Array = NDArray[np.float64]
_UPRIGHT = 1e-12
_Numbers = TypeVar("_Numbers", float, Array)


@dataclass(frozen=True, slots=True, kw_only=True)
class WallScene:
    """A rigid piece and the hole it is to pass.

    piece_length_mm, piece_diameter_mm : of the piece [mm]
    opening_length_mm : of the hole, along the tube [mm]
    wall_thickness_mm : of the tube wall [mm]
    corridor_mm : clear width of the tube behind the wall [mm]
    """

    piece_length_mm: float
    piece_diameter_mm: float
    opening_length_mm: float
    wall_thickness_mm: float
    corridor_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PoseRoom:
    """A pose and how far the piece is from what is around it.

    room_mm : that distance; negative where the piece does not fit there [mm]
    """

    pose: Pose
    room_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """How far a leaning piece reaches from its middle.

    across_mm, along_mm : across the tube and along it [mm]
    """

    across_mm: float
    along_mm: float


def steepest_lean_deg(*, piece_diameter_mm: float, opening_length_mm: float, wall_thickness_mm: float) -> float:
    """The tilt nearest to lying at which a long piece still slides through the hole.

    Returns tilt against the tube; from there up to 90 the piece slides.

    piece_diameter_mm : of the piece, at most the opening's length
    opening_length_mm : of the hole, along the tube

    Source: plane geometry, derived.
    """
    diagonal_mm = hypot(opening_length_mm, wall_thickness_mm)
    lean = asin(min(1.0, piece_diameter_mm / diagonal_mm)) + atan2(wall_thickness_mm, opening_length_mm)
    return min(90.0, degrees(lean))


def longest_at_tilts_mm(
    *, tilts_deg: Array, piece_diameter_mm: float, opening_length_mm: float, corridor_mm: float
) -> Array:
    """The longest piece that finds room on the inner side of the wall at tilts at which it cannot slide.

    Its nose touches the far side and its flank the hole's inner rim; its tail is still in the hole, against the other
    side of it, or has just come out and touches the other rim, whichever allows more.

    Returns that length, one for each tilt.

    tilts_deg : tilts against the tube, above 0
    opening_length_mm : of the hole, along the tube
    corridor_mm : clear width of the tube behind the wall

    Source: The tail in the hole: the thick ladder of C. Moretti, "Moving a couch around a corner", The College
    Mathematics Journal 33(3), 2002, 196-200; from memory. The tail out of it: plane geometry, derived.
    """
    tilts = np.radians(tilts_deg)
    s, c = np.sin(tilts), np.cos(tilts)
    beyond_rim_mm = (corridor_mm - piece_diameter_mm * c) / s + opening_length_mm * c
    leaning = np.maximum(c, _UPRIGHT)
    in_hole_mm = corridor_mm / s + opening_length_mm / leaning - piece_diameter_mm / (s * leaning)
    # upright the ladder's form has no value, and the tail cannot lie aslant in the hole
    return np.where(c < _UPRIGHT, beyond_rim_mm, np.maximum(beyond_rim_mm, in_hole_mm))


def least_room_mm(*, scene: WallScene, tilts_deg: Array) -> float:
    """How far the piece is from what is around it where that is least, of some tilts it is led through.

    Returns the least of what `find_roomiest_pose` tells for each; its formula, derived there.

    scene : the piece and the hole
    tilts_deg : tilts against the tube, 0 to 90
    """
    tilts = np.radians(tilts_deg)
    s, c = np.sin(tilts), np.cos(tilts)
    return float((np.maximum(*_tails_mm(scene, s, c)) / (1 + s + c)).min())


def find_roomiest_pose(*, scene: WallScene, tilt_deg: float) -> PoseRoom:
    """Where a piece inside the tube is farthest from everything at one tilt, and how far that is.

    The pose keeps the same distance from the far side, from the rim under its flank and from what its tail is against.

    Returns the pose and that distance; negative where the piece finds no room at this tilt.

    scene : the piece and the hole
    tilt_deg : tilt against the tube, 0 to 90
    """
    s, c = sin(radians(tilt_deg)), cos(radians(tilt_deg))
    length_mm, thick_mm, gap_mm = scene.piece_length_mm, scene.piece_diameter_mm, scene.opening_length_mm
    reach = find_reach(scene=scene, tilt_deg=tilt_deg)
    tail_in_mm, tail_out_mm = _tails_mm(scene, s, c)
    room_mm = max(tail_in_mm, tail_out_mm) / (1 + s + c)
    y_mm = scene.corridor_mm - reach.across_mm - room_mm
    if tail_in_mm >= tail_out_mm:
        x_mm = reach.along_mm + room_mm - gap_mm / 2
    elif s < c:
        x_mm = (length_mm / 2 + room_mm - s * y_mm) / c - gap_mm / 2
    else:
        x_mm = gap_mm / 2 + (c * y_mm - thick_mm / 2 - room_mm) / s
    return PoseRoom(pose=Pose(x_mm=x_mm, y_mm=y_mm, tilt_deg=tilt_deg), room_mm=room_mm)


def _tails_mm(scene: WallScene, s: _Numbers, c: _Numbers) -> tuple[_Numbers, _Numbers]:
    """What is left at a tilt with the tail still in the hole, and with the tail out of it, before it is shared out."""
    length_mm, thick_mm, gap_mm = scene.piece_length_mm, scene.piece_diameter_mm, scene.opening_length_mm
    tail_in_mm = s * gap_mm + c * scene.corridor_mm - thick_mm - length_mm * s * c
    return tail_in_mm, s * c * gap_mm + scene.corridor_mm - length_mm * s - thick_mm * c


def find_sliding_pose(*, scene: WallScene, tilt_deg: float, y_mm: float) -> PoseRoom:
    """The pose half-way between the two rims the piece slides along, and its distance from them.

    Returns the pose and the distance; negative where it cannot slide at this tilt.

    scene : the piece and the hole
    tilt_deg : tilt against the tube, above 0
    y_mm : depth of the piece's middle, from the wall's inner face
    """
    s, c = sin(radians(tilt_deg)), cos(radians(tilt_deg))
    x_mm = (y_mm + scene.wall_thickness_mm / 2) * c / s
    room_mm = (scene.opening_length_mm * s - scene.wall_thickness_mm * c - scene.piece_diameter_mm) / 2
    return PoseRoom(pose=Pose(x_mm=x_mm, y_mm=y_mm, tilt_deg=tilt_deg), room_mm=room_mm)


def find_reach(*, scene: WallScene, tilt_deg: float) -> Reach:
    """How far a leaning piece reaches from its middle, across the tube and along it.

    scene : the piece and the hole
    tilt_deg : tilt against the tube, 0 to 90
    """
    s, c = sin(radians(tilt_deg)), cos(radians(tilt_deg))
    half_mm, thick_mm = scene.piece_length_mm / 2, scene.piece_diameter_mm / 2
    return Reach(across_mm=half_mm * s + thick_mm * c, along_mm=half_mm * c + thick_mm * s)
