"""How the length of a leg changes while bar and rear move."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from planner.geometry.curves.pose_pairs import Array, PosePairs, joined_pairs, pairs_of, rows_of
from planner.geometry.curves.space_curves import ShortestCurves, find_shortest_curves, joined_curves
from planner.geometry.motion.frame_axes import Pose3
from planner.geometry.motion.rear_motion import LinkageLocked, RearPlacement, find_rear_placement, move_with_rear
from planner.geometry.motion.steering import turn_with_bar
from planner.parts import Bar, FourBar, Frame, MovesWith, SinglePivot

BAR_STEPS = 12
REAR_STEPS = 6
_FINER = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Posture:
    """Where bar and rear stand.

    bar_deg : turn of the bar, right-handed about its axis; 0 straight ahead [deg]
    rear_deg : swing of the rear; 0 at rest [deg]
    """

    bar_deg: float = 0.0
    rear_deg: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class LegEnd:
    """One end of a leg.

    pose : at rest, pointing the way of travel
    moves_with : what carries it; None where it stands still
    """

    pose: Pose3
    moves_with: MovesWith | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LegMotion:
    """What a leg's ends can do against each other.

    start, end : at rest
    bar, rear : what carries them; None where not described
    lock_deg : how far the bar turns to either side; 0 where it does not change the leg [deg]
    swing_deg : how far the rear swings, no further than its links reach; 0 where it does not change the leg [deg]
    locked : where the rear's links lock before the swing stated; nothing beyond is looked at
    not_measured : motions that carry an end but are not described; the leg is taken as still in them
    """

    start: LegEnd
    end: LegEnd
    bar: Bar | None
    rear: SinglePivot | FourBar | None
    lock_deg: float = 0.0
    swing_deg: float = 0.0
    locked: LinkageLocked | None = None
    not_measured: tuple[MovesWith, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LegRange:
    """The shortest curves of a leg over everything its ends can do.

    motion : of its ends
    centreline_radius_mm : the tightest bend allowed
    postures : all that were looked at, rest first; then the others of the grid, then those around the extremes
    grid : how many of them are rest and grid
    pairs, curves : its ends and its shortest curve in each, in units of the radius
    """

    motion: LegMotion
    centreline_radius_mm: float
    postures: tuple[Posture, ...]
    grid: int
    pairs: PosePairs
    curves: ShortestCurves

    @property
    def lengths_mm(self) -> Array:
        """In each posture. [mm]"""
        lengths_mm: Array = self.curves.chains.lengths * self.centreline_radius_mm
        return lengths_mm

    @property
    def rest_mm(self) -> float:
        """At rest. [mm]"""
        return float(self.lengths_mm[0])

    @property
    def longest_mm(self) -> float:
        """Where it needs the most line. [mm]"""
        return float(self.lengths_mm.max())

    @property
    def longest_at(self) -> Posture:
        """Where bar and rear stand then."""
        return self.postures[int(self.lengths_mm.argmax())]

    @property
    def shortest_mm(self) -> float:
        """Where it needs the least. [mm]"""
        return float(self.lengths_mm.min())

    @property
    def shortest_at(self) -> Posture:
        """Where bar and rear stand then."""
        return self.postures[int(self.lengths_mm.argmin())]


def find_mover(*, frame: Frame, place: str) -> MovesWith | None:
    """What carries a port or anchor; None where it stands still.

    Returns the rear for what its list of moved places names, else what the port or anchor says.

    place : id of the port or anchor
    """
    if frame.rear is not None and place in frame.rear.moves:
        return MovesWith.REAR
    found = frame.anchors.get(place) or frame.ports.get(place)
    return None if found is None else found.moves_with


def find_leg_motion(*, start: LegEnd, end: LegEnd, bar: Bar | None, rear: SinglePivot | FourBar | None) -> LegMotion:
    """How far bar and rear move a leg's ends against each other; ends that move together keep their leg.

    start, end : its two ends at rest, both pointing the way of travel
    bar : steering axis and lock; None where it is not described
    rear : how the rear swings; None where it is not described
    """
    moving = {start.moves_with, end.moves_with} - {None} if start.moves_with is not end.moves_with else set()
    described = {MovesWith.BAR: bar is not None, MovesWith.REAR: rear is not None}
    swing_deg, locked = 0.0, None
    if rear is not None and MovesWith.REAR in moving:
        swing_deg, locked = _reachable_swing_deg(rear)
    return LegMotion(
        start=start,
        end=end,
        bar=bar,
        rear=rear,
        lock_deg=bar.lock_deg if bar is not None and MovesWith.BAR in moving else 0.0,
        swing_deg=swing_deg,
        locked=locked,
        not_measured=tuple(mover for mover in MovesWith if mover in moving and not described[mover]),
    )


def find_leg_ranges(*, motions: Sequence[LegMotion], centreline_radius_mm: float) -> tuple[LegRange, ...]:
    """Several legs over the postures of bar and rear, at little more than the cost of one.

    Thirteen bar angles and seven swings are looked at, every pair of them where a leg has an end on each, and the
    neighbourhoods of its worst and of its slackest again in eighths of those steps.

    centreline_radius_mm : the tightest bend allowed, to the centre line

    Raises ImpossibleDimensionError when the radius is not above zero or a heading has no length.
    """
    grids = [_grid(motion) for motion in motions]
    coarse = _measure(motions, grids, centreline_radius_mm)
    around = []
    for motion, grid, (_, curves) in zip(motions, grids, coarse, strict=True):
        lengths = curves.chains.lengths
        extremes = (grid[int(lengths.argmax())], grid[int(lengths.argmin())])
        near = dict.fromkeys(one for extreme in extremes for one in _neighbourhood(extreme, motion))
        around.append([one for one in near if one not in set(grid)])
    return tuple(
        LegRange(
            motion=motion,
            centreline_radius_mm=centreline_radius_mm,
            postures=(*grid, *near),
            grid=len(grid),
            pairs=joined_pairs((pairs, more_pairs)),
            curves=joined_curves((curves, more_curves)),
        )
        for motion, grid, near, (pairs, curves), (more_pairs, more_curves) in zip(
            motions, grids, around, coarse, _measure(motions, around, centreline_radius_mm), strict=True
        )
    )


def _measure(
    motions: Sequence[LegMotion], postures: Sequence[Sequence[Posture]], centreline_radius_mm: float
) -> list[tuple[PosePairs, ShortestCurves]]:
    """Ends and shortest curves of each leg in its postures, all found together."""
    ends = [both for motion, some in zip(motions, postures, strict=True) for both in ends_in_postures(motion, some)]
    pairs = pairs_of(ends=ends, centreline_radius_mm=centreline_radius_mm)
    curves = find_shortest_curves(pairs)
    last = np.cumsum([len(some) for some in postures])
    rows = [np.arange(end - len(some), end) for end, some in zip(last, postures, strict=True)]
    return [(rows_of(pairs, own), curves.rows(own)) for own in rows]


def ends_in_postures(motion: LegMotion, postures: Sequence[Posture]) -> list[tuple[Pose3, Pose3]]:
    """Both ends of a leg in each of several postures."""
    return [
        (
            pose_in_posture(motion.start, posture=posture, bar=motion.bar, rear=motion.rear),
            pose_in_posture(motion.end, posture=posture, bar=motion.bar, rear=motion.rear),
        )
        for posture in postures
    ]


def _reachable_swing_deg(rear: SinglePivot | FourBar) -> tuple[float, LinkageLocked | None]:
    placement = find_rear_placement(rear=rear, swing_deg=rear.swing_deg)
    if isinstance(placement, RearPlacement):
        return rear.swing_deg, None
    return placement.locks_at_deg, placement


def _steps(low: float, high: float, count: int) -> list[float]:
    return [low + (high - low) * i / count for i in range(count + 1)] if high != low else [0.0]


def _grid(motion: LegMotion) -> tuple[Posture, ...]:
    """Rest first, then every pair of bar angle and swing."""
    bars = _steps(-motion.lock_deg, motion.lock_deg, BAR_STEPS)
    rears = _steps(0.0, motion.swing_deg, REAR_STEPS)
    grid = (Posture(bar_deg=bar, rear_deg=rear) for bar in bars for rear in rears)
    return tuple(dict.fromkeys((Posture(), *grid)))


def _neighbourhood(centre: Posture, motion: LegMotion) -> list[Posture]:
    """In eighths of a step to both sides; nothing beyond the stops is asked."""
    shares = [i / _FINER for i in range(1 - _FINER, _FINER)]
    bar_step, rear_step = 2 * motion.lock_deg / BAR_STEPS, motion.swing_deg / REAR_STEPS
    bars = [centre.bar_deg + share * bar_step for share in shares] if bar_step else [0.0]
    rears = [centre.rear_deg + share * rear_step for share in shares] if rear_step else [0.0]
    low, high = min(0.0, motion.swing_deg), max(0.0, motion.swing_deg)
    return [
        Posture(bar_deg=bar_deg, rear_deg=rear_deg)
        for bar_deg in bars
        for rear_deg in rears
        if abs(bar_deg) <= motion.lock_deg and low <= rear_deg <= high
    ]


def pose_in_posture(end: LegEnd, *, posture: Posture, bar: Bar | None, rear: SinglePivot | FourBar | None) -> Pose3:
    """Where one end of a leg is when bar and rear stand in a posture.

    Returns its place and heading; as at rest where nothing carries it or its motion is not described. Beyond the swing
    at which the rear's links lock it stays where it is at the lock.

    posture : where bar and rear stand
    bar : steering axis and lock; None where it is not described
    rear : how the rear swings; None where it is not described
    """
    if end.moves_with is MovesWith.BAR and bar is not None and posture.bar_deg:
        return turn_with_bar(end.pose, bar=bar, angle_deg=posture.bar_deg)
    if end.moves_with is MovesWith.REAR and rear is not None and posture.rear_deg:
        placement = find_rear_placement(rear=rear, swing_deg=posture.rear_deg)
        stands = placement.placement if isinstance(placement, LinkageLocked) else placement
        return move_with_rear(end.pose, placement=stands)
    return end.pose
