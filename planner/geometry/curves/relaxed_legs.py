"""How much line a leg takes as a real hose lies, in the postures of bar and rear that matter."""

from dataclasses import dataclass

from planner.geometry.curves.legs import LegEnd, LegRange, Posture, pose_in_posture
from planner.geometry.curves.relaxed_shape import find_relaxed_shapes
from planner.geometry.motion.frame_axes import Curve
from planner.parts import Bar, FourBar, MovesWith, SinglePivot


@dataclass(frozen=True, slots=True, kw_only=True)
class RelaxedRange:
    """The shortest allowed relaxed shapes of a leg over several postures.

    rest, longest : its shape at rest, and where it takes the most line
    longest_at : where bar and rear stand then
    postures : how many were looked at
    without_shape : those among them for which no shape was found; the leg may take more there
    """

    rest: Curve
    longest: Curve
    longest_at: Posture
    postures: int
    without_shape: tuple[Posture, ...] = ()


def find_relaxed_range(
    *,
    start: LegEnd,
    end: LegEnd,
    bar: Bar | None,
    rear: SinglePivot | FourBar | None,
    centreline_radius_mm: float,
    shortest: LegRange,
) -> RelaxedRange | None:
    """How much line an open leg takes as a relaxed hose: the upper estimate beside the shortest curve's lower one.

    Asked at rest, where the shortest curve is longest and shortest, at the stops and half-way to them. The search for
    the exact worst posture is left to the shortest curve, which is a hundred times quicker.

    None where no relaxed shape was found at rest, or in none of the postures looked at.

    start, end : its two ends at rest, both pointing the way of travel
    bar : steering axis and lock; None where it is not described
    rear : how the rear swings; None where it is not described
    centreline_radius_mm : the tightest bend allowed, to the centre line
    shortest : what the shortest bend-limited curve needs over all postures of the same leg

    Raises ImpossibleDimensionError when the radius is not above zero or a heading has no length.
    """
    postures = _postures(start, end, bar, shortest)
    ends = [
        (
            pose_in_posture(start, posture=posture, bar=bar, rear=rear),
            pose_in_posture(end, posture=posture, bar=bar, rear=rear),
        )
        for posture in postures
    ]
    shapes = find_relaxed_shapes(ends=ends, centreline_radius_mm=centreline_radius_mm)
    found = {posture: shape for posture, shape in zip(postures, shapes, strict=True) if shape is not None}
    if Posture() not in found:
        return None
    longest_at = max(found, key=lambda posture: found[posture].length_mm)
    return RelaxedRange(
        rest=found[Posture()],
        longest=found[longest_at],
        longest_at=longest_at,
        postures=len(postures),
        without_shape=tuple(posture for posture in postures if posture not in found),
    )


def _postures(start: LegEnd, end: LegEnd, bar: Bar | None, shortest: LegRange) -> tuple[Posture, ...]:
    """Rest first, then the shortest curve's worst and slackest, then the stops of what moves the leg and half-way."""
    movers = {start.moves_with, end.moves_with} - {None} if start.moves_with is not end.moves_with else set()
    lock_deg = bar.lock_deg if bar is not None and MovesWith.BAR in movers else 0.0
    swing_deg = shortest.reached_swing_deg
    few = [
        Posture(bar_deg=lock_deg * side, rear_deg=swing_deg * lift)
        for side in (0.0, -0.5, 0.5, -1.0, 1.0)
        for lift in (0.0, 0.5, 1.0)
    ]
    return tuple(dict.fromkeys((Posture(), shortest.longest_at, shortest.shortest_at, *few)))
