"""How much line a leg takes as a real hose lies, in the postures of bar and rear that matter."""

from dataclasses import dataclass

from planner.geometry.curves.legs import LegMotion, LegRange, Posture, ends_in_postures
from planner.geometry.curves.relaxed_shape import find_relaxed_shapes
from planner.geometry.motion.frame_axes import Curve


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


def find_relaxed_range(*, motion: LegMotion, centreline_radius_mm: float, shortest: LegRange) -> RelaxedRange | None:
    """How much line an open leg takes as a relaxed hose: the upper estimate beside the shortest curve's lower one.

    Asked at rest, where the shortest curve is longest and shortest, at the stops and half-way to them. The search for
    the exact worst posture is left to the shortest curve, which is a hundred times quicker.

    None where no relaxed shape was found at rest, or in none of the postures looked at.

    centreline_radius_mm : the tightest bend allowed, to the centre line
    shortest : what the shortest bend-limited curve needs over all postures of the same leg

    Raises ImpossibleDimensionError when the radius is not above zero or a heading has no length.
    """
    postures = _postures(motion, shortest)
    ends = ends_in_postures(motion, postures)
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


def _postures(motion: LegMotion, shortest: LegRange) -> tuple[Posture, ...]:
    """Rest first, then the shortest curve's worst and slackest, then the stops of what moves the leg and half-way."""
    few = [
        Posture(bar_deg=motion.lock_deg * side, rear_deg=motion.swing_deg * lift)
        for side in (0.0, -0.5, 0.5, -1.0, 1.0)
        for lift in (0.0, 0.5, 1.0)
    ]
    return tuple(dict.fromkeys((Posture(), shortest.longest_at, shortest.shortest_at, *few)))
