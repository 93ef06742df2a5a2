"""The shortest flat path of limited bend between two places with given headings: the six Dubins words."""

from collections.abc import Callable
from math import asin, atan2, cos, hypot, inf, pi, radians, sin, sqrt

from planner.errors import ImpossibleDimensionError
from planner.quick_dataclass import dataclass

_FULL_TURN = 2 * pi
_ROUNDING = 1e-10
"""An angle this little short of a full turn is no turn: it came from rounding."""

_Pieces = tuple[float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class DubinsPath:
    """One way from start to end: three pieces, each an arc to the left or right or a straight.

    word : three letters of L, R and S
    pieces_mm : length of each piece [mm]
    length_mm : of all three [mm]
    """

    word: str
    pieces_mm: tuple[float, float, float]
    length_mm: float


def find_dubins_paths(
    *,
    start_mm: tuple[float, float],
    start_heading_deg: float,
    end_mm: tuple[float, float],
    end_heading_deg: float,
    radius_mm: float,
) -> tuple[DubinsPath, ...]:
    """Every word that joins two flat poses, shortest first; the first is the shortest path there is in the plane.

    Returns at least one: LSL and RSR always exist.

    start_heading_deg, end_heading_deg : direction of travel there, counter-clockwise from the x axis
    radius_mm : radius of the arcs, to the centre line

    Raises ImpossibleDimensionError when the radius is not above zero.

    Source: L. E. Dubins, "On curves of minimal length with a constraint on average curvature, and with prescribed
    initial and terminal positions and tangents", Amer. J. Math. 79 (1957) 497-516. A. M. Shkel, V. Lumelsky,
    "Classification of the Dubins set", Robotics and Autonomous Systems 34 (2001) 179-202.
    """
    if not 0 < radius_mm < inf:
        raise ImpossibleDimensionError(name="radius_mm", value=radius_mm, unit="mm", rule="must be above zero")
    across, up = end_mm[0] - start_mm[0], end_mm[1] - start_mm[1]
    bearing = atan2(up, across)
    distance = hypot(across, up) / radius_mm
    alpha, beta = radians(start_heading_deg) - bearing, radians(end_heading_deg) - bearing
    paths = []
    for word, pieces_of in _WORDS.items():
        pieces = pieces_of(alpha, beta, distance)
        if pieces is not None:
            first, middle, last = (radius_mm * piece for piece in pieces)
            paths.append(DubinsPath(word=word, pieces_mm=(first, middle, last), length_mm=first + middle + last))
    return tuple(sorted(paths, key=lambda path: (path.length_mm, path.word)))


def _turn(angle: float) -> float:
    turn = angle % _FULL_TURN
    return 0.0 if turn > _FULL_TURN - _ROUNDING else turn


def _straight(squared: float) -> float | None:
    """Length of the straight; a square below zero by rounding only is a straight of no length."""
    return None if squared < -_ROUNDING else sqrt(max(squared, 0.0))


def _lsl(alpha: float, beta: float, d: float) -> _Pieces | None:
    across, up = d + sin(alpha) - sin(beta), cos(beta) - cos(alpha)
    straight = hypot(across, up)
    if straight < _ROUNDING:  # both circles are the same one, and the way between them has no direction
        return _turn(beta - alpha), 0.0, 0.0
    bearing = atan2(up, across)
    return _turn(bearing - alpha), straight, _turn(beta - bearing)


def _rsr(alpha: float, beta: float, d: float) -> _Pieces | None:
    return _lsl(-alpha, -beta, d)


def _lsr(alpha: float, beta: float, d: float) -> _Pieces | None:
    across, up = d + sin(alpha) + sin(beta), -cos(alpha) - cos(beta)
    straight = _straight(across * across + up * up - 4)
    if straight is None:
        return None
    bearing = atan2(up, across) + atan2(2, straight)
    return _turn(bearing - alpha), straight, _turn(bearing - beta)


def _rsl(alpha: float, beta: float, d: float) -> _Pieces | None:
    return _lsr(-alpha, -beta, d)


def _lrl(alpha: float, beta: float, d: float) -> _Pieces | None:
    across, up = d + sin(alpha) - sin(beta), cos(beta) - cos(alpha)
    apart = hypot(across, up)
    if apart > 4:
        return None
    # the middle circle touches both left circles; the long way round it is the only one that can be shortest
    middle = _FULL_TURN - 2 * asin(apart / 4)
    first = _turn(atan2(up, across) - alpha + middle / 2)
    return first, middle, _turn(beta - alpha - first + middle)


def _rlr(alpha: float, beta: float, d: float) -> _Pieces | None:
    return _lrl(-alpha, -beta, d)


_WORDS: dict[str, Callable[[float, float, float], _Pieces | None]] = {
    "LSL": _lsl,
    "LSR": _lsr,
    "RSL": _rsl,
    "RSR": _rsr,
    "LRL": _lrl,
    "RLR": _rlr,
}
