"""Every curve made of an arc, a straight and an arc between two poses in space.

In units of the radius, seen from one end's heading h: an arc that turns by `turn` towards a unit normal n leaves along
u = cos(turn) h + sin(turn) n, and carries its traveller by sin(turn) u - (1 - cos(turn)) u', with u' = du/dturn.
The other arc, between u and the other heading g, carries him by tan(its turn / 2) (u + g), the tangent being negative
where it goes the long way round. What is left of the way must lie along u, so its parts along u' and along the
binormal h x n are zero: two equations for the turn and for the place of n around h, smooth also where the arc passes
half a circle. They lose their grip where the other arc turns by half a circle, so they are set up from both ends.
"""

from collections.abc import Iterator
from math import atan2, cos, hypot, inf, pi, sin
from typing import NamedTuple

from planner.geometry.motion.frame_axes import opposite, unit_vector
from planner.geometry.vectors import across, cross, dot, moved
from planner.parts import Point

_STEPS = 14
_LONGEST_STEP_RAD = 0.8
_CONVERGED = 1e-12
_ACCEPTED = 1e-9
_FULL_TURN = 2 * pi
_NEARLY_ALONG = 0.7


class ArcStraightArc(NamedTuple):
    """One such curve, in units of the radius.

    length : of the whole
    first_turn, last_turn : of the arcs [rad]
    straight : between them
    first_towards, last_towards : unit vectors the arcs turn towards where they begin, seen in the direction of travel
    """

    length: float
    first_turn: float
    straight: float
    last_turn: float
    first_towards: Point
    last_towards: Point


class _View(NamedTuple):
    """Goal and other heading in the axes of one end: along its heading, and along two axes square to it."""

    goal: Point
    other: Point


class _Root(NamedTuple):
    """A solution of the two equations: this end's turn, its normal's place, the straight and the other arc's turn."""

    turn: float
    place: float
    straight: float
    other_turn: float


def find_arc_straight_arcs(*, goal: Point, start_heading: Point, end_heading: Point) -> list[ArcStraightArc]:
    """The arc-straight-arc curves that a dozen first guesses lead to, from either end.

    Where a curve whose arcs both go the short way round is found at once, it alone is returned: in thousands of random
    pairs of poses no other was ever shorter.

    Returns in the order found; the same curve may come more than once.

    goal : from start to end, in units of the radius
    start_heading, end_heading : unit directions of travel

    Source: H. J. Sussmann, "Shortest 3-dimensional paths with a prescribed curvature bound", Proc. 34th IEEE Conf.
    Decision and Control (1995) 3306-3312: a shortest curve is a helicoidal arc, or arcs and straights (CSC, CCC);
    from memory of the paper. The equations above are plane geometry.
    """
    guesses = tuple(_guess_leavings(goal, start_heading, end_heading))
    direct = next(_roots(goal, start_heading, end_heading, guesses[:1]), None)
    if direct is not None and max(direct[0].turn, direct[0].other_turn) <= pi:
        return [_forward(direct[0], start_heading, direct[1], end_heading)]
    curves = [
        _forward(root, start_heading, axes, end_heading)
        for root, axes in _roots(goal, start_heading, end_heading, guesses)
    ]
    # walked from the other end, the way to go and both headings are reversed, and so is the straight's direction
    back = tuple(opposite(guess) for guess in guesses)
    away, home = opposite(end_heading), opposite(start_heading)
    for root, axes in _roots(opposite(goal), away, home, back):
        curves.append(_backward(_forward(root, away, axes, home), away))
    return curves


def _guess_leavings(goal: Point, start: Point, end: Point) -> Iterator[Point]:
    """First guesses for the straight's direction: towards the goal, and just beside straight back from each end."""
    side = across(start) if hypot(*cross(start, end)) < 1e-9 else cross(start, end)
    yield goal if hypot(*goal) > 0 else side
    yield moved(opposite(start), side, 1e-3)
    yield moved(opposite(end), side, -1e-3)
    yield opposite(goal) if hypot(*goal) > 0 else opposite(side)
    if hypot(*goal) < 2:
        yield from (side, opposite(side), cross(side, start), cross(start, side), start, end)
    if dot(start, end) > _NEARLY_ALONG:
        # both arcs are near half a circle, where the equations have the narrowest valleys: look all around
        back = unit_vector(moved(opposite(start), end, -1.0))
        first = across(back)
        second = cross(back, first)
        for i in range(8):
            yield moved(moved(back, first, 0.25 * cos(i * pi / 4)), second, 0.25 * sin(i * pi / 4))


def _roots(
    goal: Point, heading: Point, other: Point, guesses: tuple[Point, ...]
) -> Iterator[tuple[_Root, tuple[Point, Point]]]:
    first = across(heading)
    second = cross(heading, first)
    view = _View(
        goal=(dot(goal, heading), dot(goal, first), dot(goal, second)),
        other=(dot(other, heading), dot(other, first), dot(other, second)),
    )
    for guess in guesses:
        y, z = dot(guess, first), dot(guess, second)
        turn, place = atan2(hypot(y, z), dot(guess, heading)), atan2(z, y)
        for begin in ((turn, place), (_FULL_TURN - turn, place + pi)):
            for way_round in (1.0, -1.0):
                root = _solve(view, *begin, way_round)
                if root is not None:
                    yield root, (first, second)


def _solve(view: _View, turn: float, place: float, way_round: float) -> _Root | None:
    """Newton's method on the two equations; None where it finds no curve."""
    dx, dy, dz = view.goal
    hx, hy, hz = view.other
    miss = inf
    for _ in range(_STEPS):
        c, s, cp, sp = cos(turn), sin(turn), cos(place), sin(place)
        d_n, d_m = dy * cp + dz * sp, dz * cp - dy * sp
        h_n, h_m = hy * cp + hz * sp, hz * cp - hy * sp
        c_other, h_u = c * hx + s * h_n, c * h_n - s * hx
        s_other, room = hypot(h_u, h_m), 1 + c_other
        if room < _CONVERGED:
            return None
        tangent = way_round * s_other / room
        off_plane, off_line = d_m - tangent * h_m, c * d_n - s * dx + 1 - c - tangent * h_u
        miss = abs(off_plane) + abs(off_line)
        if miss < _CONVERGED:
            break
        slope = -way_round / (room * s_other) if s_other > _ACCEPTED else 0.0
        t_turn, t_place = slope * h_u, slope * s * h_m
        plane_turn, plane_place = -t_turn * h_m, tangent * h_n - d_n - t_place * h_m
        line_turn = s - c * dx - s * d_n - t_turn * h_u + tangent * c_other
        line_place = c * d_m - t_place * h_u - tangent * c * h_m
        by_turn, by_place = _step(plane_turn, plane_place, line_turn, line_place, off_plane, off_line)
        shorten = max(1.0, abs(by_turn) / _LONGEST_STEP_RAD, abs(by_place) / _LONGEST_STEP_RAD)
        turn -= by_turn / shorten
        place -= by_place / shorten
    straight = dx * c + d_n * s - s - tangent * room
    if miss > _ACCEPTED or straight < -_ACCEPTED:
        return None
    other = atan2(s_other, c_other)
    return _Root(
        turn=_within_full_turn(turn),
        place=place,
        straight=max(straight, 0.0),
        other_turn=_within_full_turn(other if way_round > 0 else _FULL_TURN - other),
    )


def _step(
    plane_turn: float, plane_place: float, line_turn: float, line_place: float, off_plane: float, off_line: float
) -> tuple[float, float]:
    """Newton's step in turn and place; the least-squares step where one of them, as by symmetry, changes nothing."""
    det = plane_turn * line_place - plane_place * line_turn
    size = plane_turn**2 + plane_place**2 + line_turn**2 + line_place**2
    if abs(det) > 1e-7 * size:
        return (
            (off_plane * line_place - plane_place * off_line) / det,
            (plane_turn * off_line - off_plane * line_turn) / det,
        )
    damping = 1e-9 * size + 1e-30
    turn_turn, place_place = plane_turn**2 + line_turn**2 + damping, plane_place**2 + line_place**2 + damping
    turn_place = plane_turn * plane_place + line_turn * line_place
    for_turn, for_place = plane_turn * off_plane + line_turn * off_line, plane_place * off_plane + line_place * off_line
    det = turn_turn * place_place - turn_place**2
    return (
        (for_turn * place_place - turn_place * for_place) / det,
        (turn_turn * for_place - for_turn * turn_place) / det,
    )


def _within_full_turn(turn: float) -> float:
    turn %= _FULL_TURN
    return 0.0 if turn > _FULL_TURN - _ACCEPTED else turn


def _forward(root: _Root, heading: Point, axes: tuple[Point, Point], other: Point) -> ArcStraightArc:
    c, s = cos(root.place), sin(root.place)
    towards = moved((c * axes[0][0], c * axes[0][1], c * axes[0][2]), axes[1], s)
    c, s = cos(root.turn), sin(root.turn)
    leaving = moved((c * heading[0], c * heading[1], c * heading[2]), towards, s)
    # the last arc turns towards the other heading, or away from it where it goes the long way round
    sideways = moved(other, leaving, -dot(other, leaving))
    size = hypot(*sideways)
    if size < _ACCEPTED:
        begins = across(leaving)
    else:
        size = size if root.other_turn < pi else -size
        begins = (sideways[0] / size, sideways[1] / size, sideways[2] / size)
    return ArcStraightArc(
        length=root.turn + root.straight + root.other_turn,
        first_turn=root.turn,
        straight=root.straight,
        last_turn=root.other_turn,
        first_towards=towards,
        last_towards=begins,
    )


def _backward(curve: ArcStraightArc, away: Point) -> ArcStraightArc:
    """The same curve walked the other way; `away` is its heading as found."""
    a, b = curve.first_turn, curve.last_turn
    leaving = moved((cos(a) * away[0], cos(a) * away[1], cos(a) * away[2]), curve.first_towards, sin(a))
    x, y, z = curve.first_towards
    last = moved((cos(a) * x, cos(a) * y, cos(a) * z), away, -sin(a))
    x, y, z = curve.last_towards
    first = moved((cos(b) * x, cos(b) * y, cos(b) * z), leaving, -sin(b))
    return ArcStraightArc(
        length=curve.length,
        first_turn=b,
        straight=curve.straight,
        last_turn=a,
        first_towards=first,
        last_towards=last,
    )
