"""How the length of a leg changes while bar and rear move."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from planner.geometry.motion.frame_axes import Curve, Pose3
from planner.geometry.motion.rear_motion import LinkageLocked, RearPlacement, find_rear_placement, move_with_rear
from planner.geometry.motion.steering import turn_with_bar
from planner.parts import Bar, FourBar, Frame, MovesWith, SinglePivot

_BAR_STEPS = 12
_REAR_STEPS = 6
_REFINEMENTS = 4


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
class LegRange:
    """What a leg needs over everything its ends can do.

    rest, longest, shortest : its curve at rest, where it needs the most line, and where it needs the least
    longest_at, shortest_at : where bar and rear stand then
    postures : how many were looked at
    reached_swing_deg : how far the rear was swung; 0 where it does not move the leg [deg]
    locked : where the rear's links lock before the swing stated; nothing beyond was looked at
    not_measured : motions that carry an end but are not described; the leg was taken as still in them
    """

    rest: Curve
    longest: Curve
    longest_at: Posture
    shortest: Curve
    shortest_at: Posture
    postures: int
    reached_swing_deg: float = 0.0
    locked: LinkageLocked | None = None
    not_measured: tuple[MovesWith, ...] = ()


def find_mover(*, frame: Frame, place: str) -> MovesWith | None:
    """What carries a port or anchor; None where it stands still.

    Returns the rear for what its list of moved places names, else what the port or anchor says.

    place : id of the port or anchor
    """
    if frame.rear is not None and place in frame.rear.moves:
        return MovesWith.REAR
    found = frame.anchors.get(place) or frame.ports.get(place)
    return None if found is None else found.moves_with


def find_leg_range(
    *,
    start: LegEnd,
    end: LegEnd,
    bar: Bar | None,
    rear: SinglePivot | FourBar | None,
    measure: Callable[[Pose3, Pose3], Curve],
) -> LegRange:
    """The postures of bar and rear in which a leg needs the most line and the least.

    Thirteen bar angles and seven swings are looked at, every pair of them where the leg has an end on each, and the
    neighbourhood of the worst and of the slackest is then halved four times. A leg whose ends move together keeps its
    shape and is looked at once.

    Returns longest and shortest curve with their postures.

    start, end : its two ends at rest, both pointing the way of travel
    bar : steering axis and lock; None where it is not described
    rear : how the rear swings; None where it is not described
    measure : what is asked in each posture, such as the shortest bend-limited curve
    """
    moving = {start.moves_with, end.moves_with} - {None} if start.moves_with is not end.moves_with else set()
    described = {MovesWith.BAR: bar is not None, MovesWith.REAR: rear is not None}
    not_measured = tuple(mover for mover in MovesWith if mover in moving and not described[mover])
    lock_deg = bar.lock_deg if bar is not None and MovesWith.BAR in moving else 0.0
    swing_deg, locked = 0.0, None
    if rear is not None and MovesWith.REAR in moving:
        swing_deg, locked = _reachable_swing_deg(rear)
    curves: dict[Posture, Curve] = {}

    def length_mm(posture: Posture) -> float:
        if posture not in curves:
            curves[posture] = measure(
                pose_in_posture(start, posture=posture, bar=bar, rear=rear),
                pose_in_posture(end, posture=posture, bar=bar, rear=rear),
            )
        return curves[posture].length_mm

    at_rest = Posture()
    grid = _grid(lock_deg, swing_deg)
    step = Posture(bar_deg=lock_deg * 2 / _BAR_STEPS, rear_deg=swing_deg / _REAR_STEPS)
    longest_at = _refine(max((at_rest, *grid), key=length_mm), step, lock_deg, swing_deg, length_mm)
    shortest_at = _refine(
        min((at_rest, *grid), key=length_mm), step, lock_deg, swing_deg, lambda posture: -length_mm(posture)
    )
    return LegRange(
        rest=curves[at_rest],
        longest=curves[longest_at],
        longest_at=longest_at,
        shortest=curves[shortest_at],
        shortest_at=shortest_at,
        postures=len(curves),
        reached_swing_deg=swing_deg,
        locked=locked,
        not_measured=not_measured,
    )


def _reachable_swing_deg(rear: SinglePivot | FourBar) -> tuple[float, LinkageLocked | None]:
    placement = find_rear_placement(rear=rear, swing_deg=rear.swing_deg)
    if isinstance(placement, RearPlacement):
        return rear.swing_deg, None
    return placement.locks_at_deg, placement


def _grid(lock_deg: float, swing_deg: float) -> tuple[Posture, ...]:
    bars = [lock_deg * (2 * i / _BAR_STEPS - 1) for i in range(_BAR_STEPS + 1)] if lock_deg else [0.0]
    rears = [swing_deg * i / _REAR_STEPS for i in range(_REAR_STEPS + 1)] if swing_deg else [0.0]
    return tuple(Posture(bar_deg=bar_deg, rear_deg=rear_deg) for bar_deg in bars for rear_deg in rears)


def _refine(
    best: Posture, step: Posture, lock_deg: float, swing_deg: float, worth: Callable[[Posture], float]
) -> Posture:
    """The best of the neighbours at half the step, and again; nothing beyond the stops is asked."""
    for _ in range(_REFINEMENTS):
        step = Posture(bar_deg=step.bar_deg / 2, rear_deg=step.rear_deg / 2)
        best = max((best, *_neighbours(best, step, lock_deg, swing_deg)), key=worth)
    return best


def _neighbours(centre: Posture, step: Posture, lock_deg: float, swing_deg: float) -> Iterator[Posture]:
    low, high = min(0.0, swing_deg), max(0.0, swing_deg)
    for by_bar in (-step.bar_deg, 0.0, step.bar_deg) if step.bar_deg else (0.0,):
        for by_rear in (-step.rear_deg, 0.0, step.rear_deg) if step.rear_deg else (0.0,):
            bar_deg, rear_deg = centre.bar_deg + by_bar, centre.rear_deg + by_rear
            if (by_bar or by_rear) and abs(bar_deg) <= lock_deg and low <= rear_deg <= high:
                yield Posture(bar_deg=bar_deg, rear_deg=rear_deg)


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
