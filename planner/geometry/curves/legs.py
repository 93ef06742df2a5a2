"""How the length of a leg changes while bar and rear move."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from planner.geometry.curves.pose_pairs import Array, Mask
from planner.geometry.curves.space_curves import shortest_bend_limited_curves
from planner.geometry.motion.frame_axes import Pose3
from planner.geometry.motion.rear_motion import LinkageLocked, RearPlacement, find_rear_placement, move_with_rear
from planner.geometry.motion.steering import turn_with_bar
from planner.parts import Bar, FourBar, Frame, MovesWith, SinglePivot

_BAR_STEPS = 12
_REAR_STEPS = 6
_FINER = 8

Ends = Sequence[tuple[Pose3, Pose3]]


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


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredLegs:
    """A leg in several postures.

    lengths_mm : of its curves [mm]
    is_plain : whether the curve is plain, see `ShortestCurves`
    largest_turns_deg : of any one of its arcs [deg]
    """

    lengths_mm: Array
    is_plain: Mask
    largest_turns_deg: Array


@dataclass(frozen=True, slots=True, kw_only=True)
class LegRange:
    """What a leg needs over everything its ends can do.

    postures : all that were looked at, rest first
    measured : the leg in each of them
    """

    postures: tuple[Posture, ...]
    measured: MeasuredLegs

    @property
    def rest_mm(self) -> float:
        """At rest. [mm]"""
        return float(self.measured.lengths_mm[0])

    @property
    def longest_mm(self) -> float:
        """Where it needs the most line. [mm]"""
        return float(self.measured.lengths_mm.max())

    @property
    def longest_at(self) -> Posture:
        """Where bar and rear stand then."""
        return self.postures[int(self.measured.lengths_mm.argmax())]

    @property
    def shortest_mm(self) -> float:
        """Where it needs the least. [mm]"""
        return float(self.measured.lengths_mm.min())

    @property
    def shortest_at(self) -> Posture:
        """Where bar and rear stand then."""
        return self.postures[int(self.measured.lengths_mm.argmin())]


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


def find_leg_range(*, motion: LegMotion, measure: Callable[[Ends], MeasuredLegs]) -> LegRange:
    """The leg over the postures of bar and rear, closest together where it needs the most line and the least.

    Thirteen bar angles and seven swings are looked at, every pair of them where the leg has an end on each, and the
    neighbourhoods of the worst and of the slackest again in eighths of those steps.

    measure : what is asked in several postures at once, such as the shortest bend-limited curve
    """
    bars = _steps(-motion.lock_deg, motion.lock_deg, _BAR_STEPS)
    rears = _steps(0.0, motion.swing_deg, _REAR_STEPS)
    postures = _with_rest(Posture(bar_deg=bar, rear_deg=rear) for bar in bars for rear in rears)
    measured = measure(ends_in_postures(motion, postures))
    if len(postures) == 1:
        return LegRange(postures=postures, measured=measured)
    extremes = (int(measured.lengths_mm.argmax()), int(measured.lengths_mm.argmin()))
    around = [near for row in extremes for near in _neighbourhood(postures[row], motion)]
    more = tuple(posture for posture in dict.fromkeys(around) if posture not in set(postures))
    again = measure(ends_in_postures(motion, more))
    return LegRange(
        postures=(*postures, *more),
        measured=MeasuredLegs(
            lengths_mm=np.concatenate([measured.lengths_mm, again.lengths_mm]),
            is_plain=np.concatenate([measured.is_plain, again.is_plain]),
            largest_turns_deg=np.concatenate([measured.largest_turns_deg, again.largest_turns_deg]),
        ),
    )


def measure_shortest(ends: Ends, *, centreline_radius_mm: float) -> MeasuredLegs:
    """A leg as the shortest curve that its line can be bent to.

    centreline_radius_mm : the tightest bend allowed, to the centre line

    Raises ImpossibleDimensionError when the radius is not above zero or a heading has no length.
    """
    found = shortest_bend_limited_curves(ends=ends, centreline_radius_mm=centreline_radius_mm)
    return MeasuredLegs(
        lengths_mm=found.chains.lengths * centreline_radius_mm,
        is_plain=found.is_only_plain,
        largest_turns_deg=np.degrees(found.chains.largest_turns),
    )


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


def _with_rest(postures: Iterable[Posture]) -> tuple[Posture, ...]:
    return tuple(dict.fromkeys((Posture(), *postures)))


def _neighbourhood(centre: Posture, motion: LegMotion) -> list[Posture]:
    """In eighths of a step to both sides; nothing beyond the stops is asked."""
    shares = [i / _FINER for i in range(1 - _FINER, _FINER)]
    bar_step, rear_step = 2 * motion.lock_deg / _BAR_STEPS, motion.swing_deg / _REAR_STEPS
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
