"""Whether a rigid piece dips through a hole in a tube wall and lies down along the tube, and the motion that proves it.

The piece comes from outside, where there is nothing in its way, and ends lying along the tube. Both answers are proven:
yes by a motion that is free at every moment, no by a tilt that the piece cannot get past (see wall_slices). A piece of
just the limit's length touches all the way; that is left undecided.

The longest piece is told 0.1 % below its limit, where a motion exists. We gave up a general planner for other shapes.
"""

from dataclasses import replace
from functools import lru_cache
from math import isfinite

import numpy as np

from planner.errors import ImpossibleDimensionError
from planner.geometry.rigid.wall_dive import FINEST_TILT_STEP_DEG, find_flat_motion, find_sliding_motion
from planner.geometry.rigid.wall_slices import Array, WallScene, longest_at_tilts_mm, steepest_lean_deg
from planner.quick_dataclass import dataclass
from planner.verdicts import Pose

_TILTS_SCANNED = 240
_SCANNED = np.arange(1, _TILTS_SCANNED + 1, dtype=np.float64)
_NEARER = np.linspace(-1.0, 1.0, 21)
_NEARER_STEP_RATIO = 0.1
_FINEST_STEP_DEG = 1e-9
_SHORTFALL_RATIO = 0.001
"""How far below the limit a motion is looked for first: a piece of just the limit's length touches all the way."""


REMEMBERED = 4096
"""How many answers are kept: a plan asks the same of every method and from both ends."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WallPassage:
    """Whether a piece gets through a wall.

    passes : None where neither a motion nor an obstacle was proven: the piece touches, or nearly
    motion : the motion, going evenly from each pose to the next; empty where none was found
    clearance_mm : distance from wall and far side that it keeps throughout; None without a motion [mm]
    longest_mm : length at which a piece of this diameter jams [mm]
    tightest_tilt_deg : tilt at which it jams; None where no length passes [deg]
    tilt_step_deg : finest step of tilt at which the motion was looked for [deg]
    """

    passes: bool | None
    motion: tuple[Pose, ...]
    clearance_mm: float | None
    longest_mm: float
    tightest_tilt_deg: float | None
    tilt_step_deg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class LongestThroughWall:
    """The longest piece of one diameter that gets through a wall.

    length_mm : a length proven to pass, within 0.1 % of the limit where there is room to turn; 0 where none was [mm]
    upper_mm : the limit; whatever is longer jams [mm]
    tightest_tilt_deg : tilt at which it jams; None where no length passes [deg]
    motion : the motion of the piece of `length_mm`
    """

    length_mm: float
    upper_mm: float
    tightest_tilt_deg: float | None
    motion: tuple[Pose, ...]


@lru_cache(maxsize=REMEMBERED)
def find_motion_through_wall(
    *,
    piece_length_mm: float,
    piece_diameter_mm: float,
    opening_length_mm: float,
    wall_thickness_mm: float,
    corridor_mm: float,
) -> WallPassage:
    """Whether a rigid piece gets through the hole and lies down in the tube, with the motion.

    Taken in the plane of the hole's length and the tube's axis: piece, wall and far side are flat there, stiff and
    straight, and outside nothing is in the way.

    Returns the answer with its proof.

    piece_diameter_mm : its largest outer diameter
    opening_length_mm : of the hole, along the tube
    wall_thickness_mm : of the tube wall; 0 is a thin sheet
    corridor_mm : clear width of the tube behind the wall

    Raises ImpossibleDimensionError when a size is not above zero or the wall's thickness is negative.

    Source: Free space as the plane less Minkowski sums: T. Lozano-Perez, "Spatial planning: a configuration space
    approach", IEEE Transactions on Computers C-32(2), 1983, 108-120; from memory. The rest: plane geometry, see
    wall_slices.
    """
    scene = WallScene(
        piece_length_mm=piece_length_mm,
        piece_diameter_mm=piece_diameter_mm,
        opening_length_mm=opening_length_mm,
        wall_thickness_mm=wall_thickness_mm,
        corridor_mm=corridor_mm,
    )
    _refuse_impossible(scene)
    return _find_passage(scene, *_find_limit(scene))


@lru_cache(maxsize=REMEMBERED)
def find_longest_through_wall_mm(
    *, piece_diameter_mm: float, opening_length_mm: float, wall_thickness_mm: float, corridor_mm: float
) -> LongestThroughWall:
    """The longest rigid piece of one diameter that gets through the hole and lies down in the tube.

    Idealised as in `find_motion_through_wall`.

    Returns the limit, and a length below it with its motion.

    piece_diameter_mm : largest outer diameter of the piece
    opening_length_mm : of the hole, along the tube
    wall_thickness_mm : of the tube wall; 0 is a thin sheet
    corridor_mm : clear width of the tube behind the wall

    >>> found = find_longest_through_wall_mm(
    ...     piece_diameter_mm=5, opening_length_mm=12, wall_thickness_mm=2, corridor_mm=35)
    >>> round(found.length_mm, 1), round(found.upper_mm, 1), round(found.tightest_tilt_deg)
    (66.6, 66.6, 34)

    Raises ImpossibleDimensionError when a size is not above zero or the wall's thickness is negative.

    Source: As `find_motion_through_wall`. In a very thick wall the limit is the thick ladder of C. Moretti (2002).
    """
    scene = WallScene(
        piece_length_mm=opening_length_mm,
        piece_diameter_mm=piece_diameter_mm,
        opening_length_mm=opening_length_mm,
        wall_thickness_mm=wall_thickness_mm,
        corridor_mm=corridor_mm,
    )
    _refuse_impossible(scene)
    limit_mm, tilt_deg = _find_limit(scene)
    tried_mm = (limit_mm * (1 - k * _SHORTFALL_RATIO) for k in (1, 10, 100))
    for length_mm in (*tried_mm, opening_length_mm * (1 - _SHORTFALL_RATIO)) if tilt_deg is not None else ():
        passage = _find_passage(replace(scene, piece_length_mm=length_mm), limit_mm, tilt_deg)
        if passage.passes:
            return LongestThroughWall(
                length_mm=length_mm, upper_mm=limit_mm, tightest_tilt_deg=tilt_deg, motion=passage.motion
            )
    return LongestThroughWall(length_mm=0.0, upper_mm=limit_mm, tightest_tilt_deg=tilt_deg, motion=())


def _find_limit(scene: WallScene) -> tuple[float, float | None]:
    """The length at which a piece jams, and the tilt at which it does; no tilt where no length passes."""
    thick_mm, gap_mm = scene.piece_diameter_mm, scene.opening_length_mm
    if thick_mm > scene.corridor_mm:
        return 0.0, None
    if thick_mm > gap_mm:
        return gap_mm, 0.0  # too thick to slide: it drops in flat, or not at all

    def longest_mm(tilts_deg: Array) -> Array:
        return longest_at_tilts_mm(
            tilts_deg=tilts_deg,
            piece_diameter_mm=thick_mm,
            opening_length_mm=gap_mm,
            corridor_mm=scene.corridor_mm,
        )

    lean_deg = steepest_lean_deg(
        piece_diameter_mm=thick_mm, opening_length_mm=gap_mm, wall_thickness_mm=scene.wall_thickness_mm
    )
    step_deg = lean_deg / _TILTS_SCANNED
    tilts_deg = step_deg * _SCANNED
    while True:  # closes in on the least of the lengths, never beyond the lean
        lengths_mm = longest_mm(tilts_deg)
        least = int(lengths_mm.argmin())
        if step_deg <= _FINEST_STEP_DEG:
            return float(lengths_mm[least]), float(tilts_deg[least])
        near_deg = float(tilts_deg[least]) + step_deg * _NEARER
        step_deg *= _NEARER_STEP_RATIO
        tilts_deg = np.asarray(np.minimum(near_deg[near_deg > 0], lean_deg))


def _find_passage(scene: WallScene, limit_mm: float, tilt_deg: float | None) -> WallPassage:
    jams = scene.piece_length_mm > limit_mm
    motion = None if jams else find_sliding_motion(scene=scene) or find_flat_motion(scene=scene)
    return WallPassage(
        passes=False if jams else (True if motion else None),
        motion=motion.poses if motion else (),
        clearance_mm=motion.clearance_mm if motion else None,
        longest_mm=limit_mm,
        tightest_tilt_deg=tilt_deg,
        tilt_step_deg=FINEST_TILT_STEP_DEG,
    )


def _refuse_impossible(scene: WallScene) -> None:
    for name in ("piece_length_mm", "piece_diameter_mm", "opening_length_mm", "corridor_mm"):
        value_mm = getattr(scene, name)
        if not (isfinite(value_mm) and value_mm > 0):
            raise ImpossibleDimensionError(name=name, value=value_mm, unit="mm", rule="must be above zero")
    if not (isfinite(scene.wall_thickness_mm) and scene.wall_thickness_mm >= 0):
        raise ImpossibleDimensionError(
            name="wall_thickness_mm", value=scene.wall_thickness_mm, unit="mm", rule="must not be negative"
        )
