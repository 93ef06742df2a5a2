"""The closed edges in an SVG file; its shapes, transforms and units are read by svgelements.

Nothing outside the file is looked at: declared entities, references by `use` and style sheets are refused or left out.
"""

import re
from collections import Counter
from collections.abc import Iterator
from io import StringIO
from typing import Any
from xml.etree.ElementTree import ParseError

from catalog.traced_edges import JOINED_SHARE, Drawn, Pieces, Point, TraceRefused, apart, size_of
from planner import ArcPiece, BezierPiece, EdgePiece

_MM_PER_PX = 25.4 / 96
"""Source: W3C, "CSS Values and Units Module Level 3", section 6.2 (absolute lengths); from memory."""

_TRUE_UNITS = ("mm", "cm", "in", "pt", "pc")
_MOST_SHAPES = 200


def read_svg(text: str) -> Drawn:
    """The edges in the text of an SVG file.

    Raises TraceRefused with one sentence where it is none.
    """
    import svgelements

    if re.search(r"<!ENTITY", text, re.IGNORECASE):
        raise TraceRefused("It declares entities of its own, which are not read: save it as plain SVG.")
    if re.search(r"<(?:\w+:)?use\b", text):
        raise TraceRefused("It draws copies of other shapes (use): save it with plain paths.")
    try:
        svg = svgelements.SVG.parse(StringIO(text), reify=True)
    except (ParseError, ValueError, KeyError, TypeError, AttributeError, IndexError, ZeroDivisionError) as error:
        raise TraceRefused("It is not an SVG file that can be read.") from error
    except RecursionError as error:
        raise TraceRefused("Its groups lie too deep in each other.") from error
    loops, gaps, left_out = list[Pieces](), list[float](), Counter[str]()
    shapes = [one for one in svg.elements() if isinstance(one, svgelements.Shape)]
    if len(shapes) > _MOST_SHAPES:
        raise TraceRefused(f"There are {len(shapes)} shapes in it: keep the edge of one hole alone in the file.")
    for shape in shapes:
        for pieces, is_closed in _edges(shape):
            gap = apart(pieces[0].at(0.0), pieces[-1].at(1.0))
            if is_closed or gap <= JOINED_SHARE * size_of(pieces):
                loops.append(_closed(pieces))
            else:
                gaps.append(gap)
    left_out.update(type(one).__name__.lower() for one in svg.elements() if _is_left_out(one))
    told = tuple(f"{count} {name}" for name, count in sorted(left_out.items()))
    return Drawn(loops=tuple(loops), gaps=tuple(gaps), unit_mm=_unit_mm(text), left_out=told)


def _unit_mm(text: str) -> float | None:
    """Millimetres in a pixel of the style sheets, where the file tells its size in a true unit."""
    head = re.search(r"<(?:\w+:)?svg\b([^>]*)>", text, re.DOTALL)
    sizes = dict(
        re.findall(r"""\b(width|height)\s*=\s*["']\s*[0-9.eE+-]+\s*([a-z%A-Z]*)\s*["']""", head[1] if head else "")
    )
    told = {unit.lower() for unit in sizes.values()}
    return _MM_PER_PX if told and told <= set(_TRUE_UNITS) else None


def _is_left_out(element: Any) -> bool:
    import svgelements

    return isinstance(element, svgelements.Text | svgelements.Image)


def _edges(shape: Any) -> Iterator[tuple[Pieces, bool]]:
    """The subpaths of a shape, each with whether it says that it is closed."""
    import svgelements

    path = svgelements.Path(shape)
    path.reify()
    for part in path.as_subpaths():
        segments = list(part)
        pieces = tuple(piece for segment in segments for piece in _pieces(segment))
        if pieces:
            yield pieces, any(isinstance(segment, svgelements.Close) for segment in segments)


def _pieces(segment: Any) -> Iterator[EdgePiece]:
    import svgelements

    match segment:
        case svgelements.Line() | svgelements.Close():
            if segment.start is not None and segment.end is not None and segment.start != segment.end:
                yield BezierPiece(points_mm=(_up(segment.start), _up(segment.end)))
        case svgelements.QuadraticBezier():
            yield BezierPiece(points_mm=(_up(segment.start), _up(segment.control), _up(segment.end)))
        case svgelements.CubicBezier():
            points = (segment.start, segment.control1, segment.control2, segment.end)
            yield BezierPiece(points_mm=tuple(map(_up, points)))
        case svgelements.Arc():
            yield _arc(segment)
        case _:
            return


def _arc(segment: Any) -> EdgePiece:
    centre = _up(segment.center)
    first, second = _up(segment.prx), _up(segment.pry)
    return ArcPiece(
        centre_mm=centre,
        first_axis_mm=(first[0] - centre[0], first[1] - centre[1]),
        second_axis_mm=(second[0] - centre[0], second[1] - centre[1]),
        start_rad=float(segment.get_start_t()),
        sweep_rad=float(segment.sweep),
    )


def _up(point: Any) -> Point:
    """A point of the file, whose y points down."""
    return float(point.x), -float(point.y)


def _closed(pieces: Pieces) -> Pieces:
    start, end = pieces[0].at(0.0), pieces[-1].at(1.0)
    return pieces if start == end else (*pieces, BezierPiece(points_mm=(end, start)))
