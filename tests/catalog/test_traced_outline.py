"""A hole traced from points, an SVG or a DXF file: known figures, never outside what was drawn, else a sentence."""

import io
import re
from collections.abc import Callable
from math import cos, pi, sin, sqrt
from typing import Any

import ezdxf
import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon

from catalog import LengthWanted, TracedOutline, TraceRefused, trace_file, trace_points
from planner import BezierPiece, trace_inside

SHEET = 'width="100mm" height="50mm" viewBox="0 0 100 50"'
CIRCLE = '<circle cx="20" cy="20" r="5"/>'


def svg(body: str, head: str = SHEET) -> bytes:
    """An SVG file; without another head a unit of it is a millimetre."""
    return f'<svg xmlns="http://www.w3.org/2000/svg" {head}>{body}</svg>'.encode()


def dxf(draw: Callable[[Any], object], *, units: int = 4) -> bytes:
    """A DXF file written by ezdxf; 4 are millimetres, 1 inches, 0 is not said."""
    document = ezdxf.new()
    document.units = units
    draw(document.modelspace())
    written = io.StringIO()
    document.write(written)
    return written.getvalue().encode()


def traced(name: str, content: bytes, *, length: float | None = None, turn: float = 0.0) -> TracedOutline:
    return trace_file(name, content, known_length_mm=length, turn_deg=turn)


def slot_of_loose_pieces(space: Any) -> None:
    """Two lines and two half circles in no order, one line drawn backwards."""
    space.add_line((0, 0), (11, 0))
    space.add_arc((0, 3.5), 3.5, 90, 270)
    space.add_line((0, 7), (11, 7))
    space.add_arc((11, 3.5), 3.5, -90, 90)


SLOT_AREA = 11 * 7 + pi * 3.5**2
DRAWINGS: dict[str, tuple[str, bytes, float, float, float]] = {
    "svg circle": ("a.svg", svg(CIRCLE), 10, 10, pi * 25),
    "svg in inches": ("a.svg", svg(CIRCLE, 'width="2in" height="2in" viewBox="0 0 40 40"'), 12.7, 12.7, pi * 6.35**2),
    "svg ellipse moved and scaled": (
        "a.svg",
        svg('<g transform="translate(4 7) scale(2)"><ellipse cx="9" cy="9" rx="4.5" ry="1.75"/></g>'),
        18,
        7,
        pi * 9 * 3.5,
    ),
    "svg ellipse turned": (
        "a.svg",
        svg('<ellipse cx="0" cy="0" rx="9" ry="3.5" transform="translate(30 25) rotate(30)"/>'),
        2 * sqrt(9**2 * 0.75 + 3.5**2 * 0.25),
        2 * sqrt(9**2 * 0.25 + 3.5**2 * 0.75),
        pi * 9 * 3.5,
    ),
    "svg slot as a rectangle": ("a.svg", svg('<rect width="18" height="7" rx="3.5"/>'), 18, 7, SLOT_AREA),
    "svg half ring": (
        "a.svg",
        svg('<path d="M 10 20 A 10 10 0 0 1 30 20 H 25 A 5 5 0 0 0 15 20 Z"/>'),
        20,
        10,
        pi * (10**2 - 5**2) / 2,
    ),
    "dxf circle": ("a.dxf", dxf(lambda space: space.add_circle((3, 4), 5)), 10, 10, pi * 25),
    "dxf in inches": ("a.dxf", dxf(lambda space: space.add_circle((3, 4), 0.2), units=1), 10.16, 10.16, pi * 5.08**2),
    "dxf ellipse": ("a.dxf", dxf(lambda space: space.add_ellipse((0, 0), (9, 0), 3.5 / 9)), 18, 7, pi * 9 * 3.5),
    "dxf polyline with bulges": (
        "a.DXF",
        dxf(
            lambda space: space.add_lwpolyline(
                [(0, 0, 0, 0, 0), (11, 0, 0, 0, 1), (11, 7, 0, 0, 0), (0, 7, 0, 0, 1)], close=True
            )
        ),
        18,
        7,
        SLOT_AREA,
    ),
    "dxf loose pieces": ("a.dxf", dxf(slot_of_loose_pieces), 18, 7, SLOT_AREA),
    "points": ("a.csv", b"0,0\n12,0\n6,9\n", 12, 9, 54),
}
"""Name, file, and what its hole measures by the closed formulas of its shape: length, width, area."""


@pytest.mark.parametrize("name", DRAWINGS)
def test_a_traced_hole_has_the_figures_of_its_shape_and_is_never_larger(name: str) -> None:
    file, content, length_mm, width_mm, area_mm2 = DRAWINGS[name]
    found = traced(file, content)
    around_mm = 2 * (length_mm + width_mm)
    assert length_mm - 0.04 <= found.length_mm <= length_mm + 2e-4
    assert width_mm - 0.04 <= found.width_mm <= width_mm + 2e-4
    assert area_mm2 - 0.02 * around_mm <= found.area_mm2 <= area_mm2 + 2e-4 * around_mm
    assert len(found.points_mm) <= 130


@settings(max_examples=30, phases=(Phase.explicit, Phase.generate))
@given(
    st.lists(
        st.tuples(st.floats(3, 9), st.floats(-1.5, 1.5), st.floats(-1.5, 1.5), st.floats(-1.5, 1.5)),
        min_size=5,
        max_size=5,
    )
)
def test_a_traced_curve_lies_inside_what_was_drawn(rays: list[tuple[float, float, float, float]]) -> None:
    """Of any curves, also such as wind in and out; held against each curve as five hundred points."""
    corners = [(reach * cos(2 * pi * n / 5), reach * sin(2 * pi * n / 5)) for n, (reach, *_) in enumerate(rays)]
    pieces = []
    for n, (_, a, b, c) in enumerate(rays):
        (x1, y1), (x2, y2) = corners[n], corners[(n + 1) % 5]
        first = (x1 + (x2 - x1) / 3 + a, y1 + (y2 - y1) / 3 + b)
        second = (x1 + (x2 - x1) * 2 / 3 + c, y1 + (y2 - y1) * 2 / 3 - a)
        pieces.append(BezierPiece(points_mm=((x1, y1), first, second, (x2, y2))))
    drawn = Polygon([piece.at(n / 500) for piece in pieces for n in range(500)])
    if not drawn.is_valid or drawn.area < 1:
        return
    outline = Polygon(trace_inside(pieces, within_mm=0.015))
    assert outline.difference(drawn.buffer(1e-3)).area == 0
    assert drawn.difference(outline.buffer(0.03)).area < 1e-6


def test_turning_puts_the_length_along_the_tube() -> None:
    standing = svg('<ellipse cx="20" cy="20" rx="3.5" ry="9"/>')
    assert traced("a.svg", standing, turn=90).length_mm == pytest.approx(18, abs=0.04)


@pytest.mark.parametrize(
    ("name", "content"),
    [
        ("a.svg", svg(CIRCLE, 'width="100" height="50"')),
        ("a.svg", svg(CIRCLE, 'viewBox="0 0 100 50"')),
        ("a.svg", svg(CIRCLE, 'width="100%" height="50px" viewBox="0 0 100 50"')),
        ("a.dxf", dxf(lambda space: space.add_circle((3, 4), 5), units=0)),
    ],
)
def test_an_unknown_unit_is_asked_for_and_a_known_length_settles_it(name: str, content: bytes) -> None:
    with pytest.raises(LengthWanted, match="does not say in which unit"):
        traced(name, content)
    found = traced(name, content, length=12)
    assert (found.length_mm, found.width_mm) == pytest.approx((12, 12), abs=0.04)
    assert not found.remarks


def test_a_told_length_goes_before_the_unit_of_the_file_and_that_is_said() -> None:
    found = traced("a.svg", svg(CIRCLE), length=10.2)
    assert found.length_mm == pytest.approx(10.2, abs=0.001)
    assert found.remarks == ("The file says 10.00 mm long; taken as the 10.2 mm that were told.",)


REFUSED: dict[str, tuple[str, bytes]] = {
    "its ends are 10 mm apart": ("a.svg", svg('<path d="M0 0 H10 V10 H 0"/>')),
    "crosses or touches itself at ": ("a.svg", svg('<path d="M0 0 L10 10 L10 0 L0 10 Z"/>')),
    "something inside the edge (2 closed edges)": ("a.svg", svg('<path d="M0 0 H10 V10 H0 Z M2 2 H4 V4 Z"/>')),
    "There are 2 closed edges: keep": ("a.svg", svg('<path d="M0 0 H10 V10 H0 Z M12 2 H14 V4 Z"/>')),
    "Beside a closed edge there is an open one": ("a.svg", svg(f'{CIRCLE}<path d="M30 30 H40 V45"/>')),
    "It has: 1 text": ("a.svg", svg("<text>neck</text>")),
    "is not an SVG file": ("a.svg", b"<svg"),
    "not written in UTF-8": ("a.svg", b"\xff\xfe<"),
    "declares entities": ("a.svg", b'<!DOCTYPE svg [<!ENTITY a SYSTEM "file:///etc/hostname">]>' + svg("&a;")),
    "draws copies of other shapes": ("a.svg", svg(f'<g id="a">{CIRCLE}</g><use href="#a"/>')),
    "allowed. Is the unit right?": ("a.svg", svg(CIRCLE, 'width="10in" height="5in" viewBox="0 0 6 3"')),
    "It takes 600 corners; at most 500": (
        "a.txt",
        "\n".join(
            f"{20 * n / 300} {n % 2}" if n < 300 else f"{40 - 20 * n / 300} {9 + n % 2}" for n in range(600)
        ).encode(),
    ),
    "its ends are 13 mm apart": ("a.dxf", dxf(lambda space: space.add_lwpolyline([(0, 0), (11, 0), (11, 7)]))),
    "is not a DXF file": ("a.dxf", b"hello"),
    "binary DXF": ("a.dxf", b"AutoCAD Binary DXF\r\n\x1a\x00"),
    "There is no path": ("a.dxf", dxf(lambda space: space.add_text("neck"))),
    "on the back of the sheet": (
        "a.dxf",
        dxf(lambda space: space.add_circle((3, 4), 5, dxfattribs={"extrusion": (0, 0, -1)})),
    ),
    "none of the files that can be traced": ("a.pdf", b""),
    "larger than 2 MB": ("a.svg", b" " * 2_000_001),
}


@pytest.mark.parametrize("words", REFUSED)
def test_what_is_no_edge_of_one_hole_is_refused_in_a_sentence(words: str) -> None:
    with pytest.raises(TraceRefused, match=re.escape(words)):
        traced(*REFUSED[words])


@pytest.mark.parametrize("text", ["0,0 12.5,0 6,9", "0 0\n12,5 0\n6\t9", "0,0\n12.5,0\n6,9\n0,0", "0 0; 12,5 0; 6 9"])
def test_points_may_be_pasted_as_they_come(text: str) -> None:
    assert trace_points(text).points_mm == ((0.0, 0.0), (12.5, 0.0), (6.0, 9.0))


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("a,b c 5,5", "Point 1, 2 of 3 is not two numbers (“a b”)"),
        ("0,0 1,1", "2 points were given: at least 3 corners are wanted."),
        ("0,0 1,1 2,2", "crosses or touches itself"),
        ("1,5,2,5\n3,4", "Point 1 of 2"),
    ],
)
def test_points_that_are_none_are_told(text: str, words: str) -> None:
    with pytest.raises(TraceRefused, match=re.escape(words)):
        trace_points(text)
