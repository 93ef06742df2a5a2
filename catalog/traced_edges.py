"""What drawing files give of an edge, before it is an outline: closed edges, open ones, loose pieces put end to end."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from catalog.errors import CatalogError
from planner import BezierPiece, EdgePiece, measure_outline

JOINED_SHARE = 1e-3
"""Share of a drawing's size by which ends may miss each other and still count as joined."""

Point = tuple[float, float]
Pieces = tuple[EdgePiece, ...]


class TraceRefused(CatalogError):  # noqa: N818  (named for what happened)
    """What was traced is no outline of one hole; the message is one sentence that says why."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """What a drawing file holds, y up, in its own unit.

    loops : closed edges, piece by piece
    gaps : of edges that do not close, how far their ends are apart
    unit_mm : millimetres in one unit of the drawing; None where it does not say
    left_out : what in it was not looked at, in words
    """

    loops: tuple[Pieces, ...]
    gaps: tuple[float, ...]
    unit_mm: float | None
    left_out: tuple[str, ...] = ()


def sketch(pieces: Sequence[EdgePiece]) -> tuple[Point, ...]:
    """An edge by sixteen points of each piece: close enough to tell edges apart."""
    return tuple(piece.at(n / 16) for piece in pieces for n in range(16))


def joined(pieces: Sequence[EdgePiece]) -> Drawn:
    """Loose pieces put end to end: the edges that close, and how far those that do not are open."""
    left, loops, gaps = list(pieces), list[Pieces](), list[float]()
    size = size_of(left)
    while left:
        chain = [left.pop(0)]
        while (gap := _gap(chain)) > size * JOINED_SHARE and (
            found := _next(left, chain[-1].at(1.0), size)
        ) is not None:
            chain.append(found)
        if gap > size * JOINED_SHARE:
            gaps.append(gap)
        else:
            loops.append(tuple(chain) + ((_straight(chain),) if gap > 0 else ()))
    return Drawn(loops=tuple(loops), gaps=tuple(gaps), unit_mm=None)


def _straight(chain: Sequence[EdgePiece]) -> EdgePiece:
    return BezierPiece(points_mm=(chain[-1].at(1.0), chain[0].at(0.0)))


def _next(left: list[EdgePiece], end: Point, size: float) -> EdgePiece | None:
    """The loose piece that begins or ends nearest, taken out of the others and turned to begin there."""
    offered = [(apart(end, piece.at(at)), n, at) for n, piece in enumerate(left) for at in (0.0, 1.0)]
    nearest = min(offered, default=None)
    if nearest is None or nearest[0] > size * JOINED_SHARE:
        return None
    piece = left.pop(nearest[1])
    return piece if nearest[2] == 0.0 else _backwards(piece)


def _backwards(piece: EdgePiece) -> EdgePiece:
    """The same piece from its other end."""
    if isinstance(piece, BezierPiece):
        return BezierPiece(points_mm=piece.points_mm[::-1])
    return replace(piece, start_rad=piece.start_rad + piece.sweep_rad, sweep_rad=-piece.sweep_rad)


def _gap(chain: Sequence[EdgePiece]) -> float:
    return apart(chain[0].at(0.0), chain[-1].at(1.0))


def apart(a: Point, b: Point) -> float:
    """How far two points are apart, in the drawing's unit."""
    return float(((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5)


def size_of(pieces: Sequence[EdgePiece]) -> float:
    """The longer side of what some pieces take up, in the drawing's unit."""
    points = [point for piece in pieces for point in sketch((piece,))]
    if not points:
        return 0.0
    figures = measure_outline(points)
    return max(figures.length_mm, figures.width_mm)
