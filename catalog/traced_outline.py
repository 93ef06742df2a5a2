"""A traced hole: from points as typed, or from a drawing file, to the corners of an outline and its figures."""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import cos, radians, sin
from pathlib import PurePath

from catalog.asked_fields import asked_field
from catalog.traced_edges import Drawn, Pieces, Point, TraceRefused, sketch
from planner import find_crossing, lies_inside, measure_outline, printable_line, trace_inside

BIGGEST_DRAWING_BYTES = 2_000_000
"""A drawing of one hole is far smaller."""

MOST_CORNERS = 500
"""As many as an outline of a catalog file may have."""

WITHIN_MM = 0.02
"""So far inside the drawn edge a side may lie, where the edge is curved."""

_CUT_WITHIN_MM = 0.015
_ROUGHLY = 1e-6
"""Share of a drawing's size that is close enough to tell how long it is."""

_DECIMALS = 4


class LengthWanted(TraceRefused):
    """The drawing does not say in which unit it is; a known length would tell."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TracedOutline:
    """A traced hole.

    points_mm : its corners in order, x along the tube [mm]
    length_mm, width_mm, area_mm2 : over everything, and of the hole [mm, mm2]
    remarks : how it was read, where that may surprise
    """

    points_mm: tuple[Point, ...]
    length_mm: float
    width_mm: float
    area_mm2: float
    remarks: tuple[str, ...] = ()

    @property
    def words(self) -> str:
        """The figures, for people."""
        sizes = f"{self.length_mm:.2f} × {self.width_mm:.2f} mm over everything"
        return f"Outline of {len(self.points_mm)} corners, {sizes}, area {self.area_mm2:.1f} mm²"

    @property
    def typed(self) -> str:
        """As an opening is typed."""
        return "outline " + " ".join(f"{_number(x)},{_number(y)}" for x, y in self.points_mm)


def trace_file(name: str, content: bytes, *, known_length_mm: float | None, turn_deg: float) -> TracedOutline:
    """The outline in an SVG or DXF file, or in a text file of points.

    name : of the file; its ending says what it is
    known_length_mm : how long the hole is along x once it is turned; it goes before the file's own unit
    turn_deg : by how much the drawing is turned so that x runs along the tube, counter-clockwise

    Raises TraceRefused with one sentence; LengthWanted where the unit is not known.
    """
    readers = {".svg": _read_svg, ".dxf": _read_dxf}
    ending = PurePath(name).suffix.lower()
    if ending not in (*readers, *TEXT_ENDINGS):
        raise TraceRefused(f"{printable_line(name)} is none of the files that can be traced: {FILE_ENDINGS}.")
    if len(content) > BIGGEST_DRAWING_BYTES:
        raise TraceRefused(f"It is larger than {BIGGEST_DRAWING_BYTES // 1_000_000} MB: keep the hole alone in it.")
    if ending in TEXT_ENDINGS:
        return trace_points(_as_text(content), turn_deg=turn_deg, known_length_mm=known_length_mm)
    drawn = readers[ending](content)
    remarks = [f"Left out: {', '.join(drawn.left_out)}."] if drawn.left_out else []
    loop = _turned(_only_loop(drawn), turn_deg)
    if drawn.unit_mm is None and known_length_mm is None:
        raise LengthWanted(
            "It does not say in which unit it is drawn: tell how long the hole is, left to right once it is turned."
        )
    drawn_length = _length_of(loop)
    length_mm = drawn_length * (drawn.unit_mm or 0.0) if known_length_mm is None else known_length_mm
    if known_length_mm is not None and drawn.unit_mm is not None:
        told_mm = drawn_length * drawn.unit_mm
        remarks.append(f"The file says {told_mm:.2f} mm long; taken as the {known_length_mm:g} mm that were told.")
    _refuse_size(length_mm)
    corners = trace_inside(_scaled(loop, length_mm / drawn_length), within_mm=_CUT_WITHIN_MM)
    return _outline(_middled(corners), remarks)


def trace_points(text: str, *, turn_deg: float = 0.0, known_length_mm: float | None = None) -> TracedOutline:
    """The outline of points as typed or pasted: `x,y x,y ...`, or a point a line, its numbers apart by blanks or tabs.

    known_length_mm : how long the hole is along x once it is turned, where the points are not in millimetres

    Raises TraceRefused with one sentence.
    """
    points = _read_points(text)
    corners = tuple(_turn(point, turn_deg) for point in points)
    if len(corners) > 1 and corners[0] == corners[-1]:
        corners = corners[:-1]
    if len(corners) < 3:
        raise TraceRefused(f"{len(corners)} points were given: at least 3 corners are wanted.")
    if known_length_mm is not None and (length := measure_outline(corners).length_mm) > 0:
        corners = tuple((x * known_length_mm / length, y * known_length_mm / length) for x, y in corners)
    return _outline(corners, [])


TEXT_ENDINGS = (".txt", ".csv")
FILE_ENDINGS = "SVG, DXF, or points in TXT or CSV"


def _read_svg(content: bytes) -> Drawn:
    from catalog.traced_svg import read_svg

    return read_svg(_as_text(content))


def _read_dxf(content: bytes) -> Drawn:
    from catalog.traced_dxf import read_dxf

    return read_dxf(content)


def _as_text(content: bytes) -> str:
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise TraceRefused("It is not written in UTF-8: save it anew as plain text.") from error
    if "\0" in text:
        raise TraceRefused("It is no text: it has signs that no text has.")
    return text


def _only_loop(drawn: Drawn) -> Pieces:
    if not drawn.loops and drawn.gaps:
        apart = f"{drawn.gaps[0] * (drawn.unit_mm or 1.0):.3g} {'mm' if drawn.unit_mm else 'units of the drawing'}"
        raise TraceRefused(f"The edge is open: its ends are {apart} apart. Close it.")
    if not drawn.loops:
        left = f" It has: {', '.join(drawn.left_out)}." if drawn.left_out else ""
        raise TraceRefused(f"There is no path, polyline, circle or ellipse in it.{left}")
    if drawn.gaps:
        raise TraceRefused("Beside a closed edge there is an open one: keep the edge of the hole alone in the file.")
    if len(drawn.loops) == 1:
        return drawn.loops[0]
    sketches = sorted((sketch(loop) for loop in drawn.loops), key=lambda one: -measure_outline(one).area_mm2)
    if any(lies_inside(inner, sketches[0]) for inner in sketches[1:]):
        raise TraceRefused(
            f"There is something inside the edge ({len(sketches)} closed edges): a hole has one, with nothing in it."
        )
    raise TraceRefused(f"There are {len(sketches)} closed edges: keep the edge of one hole alone in the file.")


def _outline(corners: Sequence[Point], remarks: Sequence[str]) -> TracedOutline:
    if len(corners) > MOST_CORNERS:
        raise TraceRefused(f"It takes {len(corners)} corners; at most {MOST_CORNERS} are allowed: draw it more simply.")
    points = tuple((round(x, _DECIMALS) + 0.0, round(y, _DECIMALS) + 0.0) for x, y in corners)
    found = measure_outline(points)
    _refuse_size(max(found.length_mm, found.width_mm))
    if crossing := find_crossing(points):
        x, y = crossing
        raise TraceRefused(f"The edge crosses or touches itself at {x:.2f}, {y:.2f} mm: it must go around once.")
    _refuse_size(min(found.length_mm, found.width_mm))
    return TracedOutline(
        points_mm=points,
        length_mm=found.length_mm,
        width_mm=found.width_mm,
        area_mm2=found.area_mm2,
        remarks=tuple(remarks),
    )


def _refuse_size(size_mm: float) -> None:
    allowed = asked_field("slot", "length")
    if not allowed.takes(size_mm):
        raise TraceRefused(f"It is {size_mm:.4g} mm across; {allowed.range} is allowed. Is the unit right?")


def _read_points(text: str) -> list[Point]:
    rows = [row.strip() for row in re.split(r"[\n;]", text) if row.strip()]
    words = rows[0].split() if len(rows) == 1 else []
    told = [word.split(",") for word in words] if words else [_numbers_in(row) for row in rows]
    wrong = [n for n, pair in enumerate(told, start=1) if len(pair) != 2 or not all(_is_number(one) for one in pair)]
    if wrong:
        named = ", ".join(map(str, wrong[:5]))
        shown = printable_line(" ".join(told[wrong[0] - 1]))[:30]
        raise TraceRefused(
            f"Point {named} of {len(told)} is not two numbers (“{shown}”): x,y x,y in one row, or a point a row."
        )
    return [(_as_float(x), _as_float(y)) for x, y in told]


def _numbers_in(row: str) -> list[str]:
    words = row.split()
    return words if len(words) > 1 else row.split(",")


def _is_number(word: str) -> bool:
    return re.fullmatch(r"[+−-]?(?:[0-9]{1,6}[.,]?[0-9]{0,18}|[.,][0-9]{1,18})", word.rstrip(",")) is not None


def _as_float(word: str) -> float:
    return float(word.rstrip(",").replace(",", ".").replace("−", "-"))


def _number(value: float) -> str:
    return f"{value:.{_DECIMALS}f}".rstrip("0").rstrip(".")


def _turn(point: Point, turn_deg: float) -> Point:
    if turn_deg == 0:
        return point
    x, y = point
    c, s = cos(radians(turn_deg)), sin(radians(turn_deg))
    return x * c - y * s, x * s + y * c


def _turned(pieces: Pieces, turn_deg: float) -> Pieces:
    return _moved(pieces, lambda point: _turn(point, turn_deg))


def _scaled(pieces: Pieces, scale: float) -> Pieces:
    return _moved(pieces, lambda point: (point[0] * scale, point[1] * scale))


def _moved(pieces: Pieces, move: Callable[[Point], Point]) -> Pieces:
    return tuple(piece.moved(move) for piece in pieces)


def _length_of(pieces: Pieces) -> float:
    """How long a drawn edge is from left to right, in its own unit."""
    figures = measure_outline(sketch(pieces))
    size = max(figures.length_mm, figures.width_mm)
    if not size > 0:
        raise TraceRefused("The edge has no size: all its points are one.")
    return measure_outline(trace_inside(pieces, within_mm=size * _ROUGHLY)).length_mm


def _middled(corners: Sequence[Point]) -> tuple[Point, ...]:
    xs, ys = zip(*corners, strict=True)
    x, y = (max(xs) + min(xs)) / 2, (max(ys) + min(ys)) / 2
    return tuple((one[0] - x, one[1] - y) for one in corners)
