"""Small sketches of the ways to join or lead lines, and of what sits on their ends, each about its own middle.

The old line lies at the left, the new one at the right; what joins them lies between. They are no scale drawings.
"""

from collections.abc import Callable, Sequence
from math import pi, sin

from planner.documents.drawings.drawing_marks import arrow_head
from planner.documents.drawings.svg import (
    INK,
    METAL,
    NEW_LINE,
    OTHER_LINE,
    PAPER,
    SOFT_INK,
    TUBE,
    PaperPoint,
    box,
    circle,
    polyline,
)
from planner.parts import FittingStyle, MethodKind

Sketch = Callable[[PaperPoint], list[str]]
HALF_MM = 11.0
"""How far a sketch reaches to either side of its middle."""

_HOSE_MM = 4.6
_PEN_MM = 0.3


def _hose(at: PaperPoint, start: float, end: float, *, colour: str, thick_mm: float = _HOSE_MM) -> list[str]:
    """A piece of line with its bore, from start to end beside the middle."""
    x, y = at
    corner = (x + start, y - thick_mm / 2)
    body = box(corner, width_mm=end - start, height_mm=thick_mm, fill=colour, opacity=0.22)
    edges = [_stroke(at, [(start, side), (end, side)], colour=colour) for side in (-thick_mm / 2, thick_mm / 2)]
    return [body, *edges]


def _stroke(
    at: PaperPoint,
    points: Sequence[PaperPoint],
    *,
    colour: str = INK,
    pen_mm: float = _PEN_MM,
    dash_mm: Sequence[float] = (),
    fill: str = "none",
    is_closed: bool = False,
) -> str:
    moved = [(at[0] + x, at[1] + y) for x, y in points]
    return polyline(moved, stroke=colour, width_mm=pen_mm, dash_mm=dash_mm, fill=fill, is_closed=is_closed)


def _plate(at: PaperPoint, start: float, end: float, thick_mm: float, *, fill: str = METAL) -> str:
    corners = [(start, -thick_mm / 2), (end, -thick_mm / 2), (end, thick_mm / 2), (start, thick_mm / 2)]
    return _stroke(at, corners, fill=fill, is_closed=True)


def _ticks(at: PaperPoint, places: Sequence[float], thick_mm: float, *, slant: float = 0.4) -> list[str]:
    return [_stroke(at, [(x - slant, -thick_mm / 2), (x + slant, thick_mm / 2)], pen_mm=0.2) for x in places]


def _both_lines(at: PaperPoint, gap_mm: float) -> list[str]:
    old = _hose(at, -HALF_MM, -gap_mm, colour=OTHER_LINE)
    return [*old, *_hose(at, gap_mm, HALF_MM, colour=NEW_LINE)]


def _coupler(at: PaperPoint) -> list[str]:
    threads = [side * (1.8 + 1.1 * n) for side in (-1, 1) for n in range(4)]
    return [*_both_lines(at, 1.2), _plate(at, -6, 6, 2.2), *_ticks(at, threads, 2.2), _plate(at, -1.2, 1.2, 4.4)]


def _sleeve(at: PaperPoint) -> list[str]:
    edge = [(-5.5, 2.3), (-5, 3.3), (5, 3.3), (5.5, 2.3)]
    below = _stroke(at, edge, fill=METAL)
    above = _stroke(at, [(x, -y) for x, y in edge], fill=METAL)
    return [*_both_lines(at, 0.3), above, below]


def _spoke(at: PaperPoint) -> list[str]:
    return [*_both_lines(at, 0.6), _stroke(at, [(-6, 0), (6, 0)], pen_mm=1.0)]


def _leader(at: PaperPoint) -> list[str]:
    rod = _stroke(at, [(-HALF_MM, 0), (-1, 0)], pen_mm=0.7)
    return [
        *_hose(at, 2.5, HALF_MM, colour=NEW_LINE),
        rod,
        _plate(at, -1.5, 2.5, 3.2),
        *_ticks(at, (0, 1), 3.2, slant=0),
    ]


def _suction(at: PaperPoint) -> list[str]:
    nozzle = _stroke(at, [(-HALF_MM, -3.2), (-7.5, -1.6), (-7.5, 1.6), (-HALF_MM, 3.2)], fill=METAL)
    thread = [(-7 + 0.5 * n, 0.7 * sin(pi * n / 4)) for n in range(21)]
    foam = circle((at[0] - 5.6, at[1]), diameter_mm=2.4, fill=TUBE, width_mm=_PEN_MM)
    return [
        nozzle,
        _stroke(at, thread),
        foam,
        *_hose(at, 4, HALF_MM, colour=NEW_LINE),
        _stroke(at, [(3, 0), (4, 0)], pen_mm=0.7),
    ]


def _magnet(at: PaperPoint) -> list[str]:
    wall = _stroke(at, [(-HALF_MM, -2.6), (HALF_MM, -2.6)], colour=SOFT_INK, pen_mm=0.8)
    shoe = [
        (-8.5, -3.4),
        (-8.5, -6.4),
        (-4.5, -6.4),
        (-4.5, -3.4),
        (-5.8, -3.4),
        (-5.8, -5.2),
        (-7.2, -5.2),
        (-7.2, -3.4),
    ]
    tip, line = _plate(at, -8.5, -4.5, 2.4), _stroke(at, [(-4.5, 0), (3, 0)], pen_mm=0.7)
    return [wall, _stroke(at, shoe, fill=METAL, is_closed=True), tip, line, *_hose(at, 3, HALF_MM, colour=NEW_LINE)]


def _over_cable(at: PaperPoint) -> list[str]:
    cable = _stroke(at, [(-HALF_MM, 0), (HALF_MM, 0)], colour=OTHER_LINE, pen_mm=0.9)
    onto = arrow_head((at[0] - 3.5, at[1] - 3.6), towards_deg=180, length_mm=2.2, fill=NEW_LINE)
    shaft = _stroke(at, [(-1.6, -3.6), (4, -3.6)], colour=NEW_LINE)
    return [*_hose(at, -1, HALF_MM, colour=NEW_LINE), cable, shaft, onto]


def _liner(at: PaperPoint) -> list[str]:
    tube = [_stroke(at, [(-HALF_MM, y), (6, y)], colour=SOFT_INK, pen_mm=0.4) for y in (-2.9, 2.9)]
    cable = _stroke(at, [(-HALF_MM, 0), (-3, 0)], colour=OTHER_LINE, pen_mm=0.9)
    return [*tube, cable, *_hose(at, -1, HALF_MM, colour=NEW_LINE, thick_mm=3.6)]


def _outside(at: PaperPoint) -> list[str]:
    tube = box((at[0] - HALF_MM, at[1] - 0.6), width_mm=2 * HALF_MM, height_mm=5.6, fill=TUBE)
    edges = [_stroke(at, [(-HALF_MM, y), (HALF_MM, y)], colour=SOFT_INK) for y in (-0.6, 5.0)]
    clips = [_stroke(at, [(x, -0.6), (x, -4), (x + 1.6, -4), (x + 1.6, -0.6)], pen_mm=0.5) for x in (-7, 5.4)]
    line = _hose((at[0], at[1] - 2.3), -HALF_MM, HALF_MM, colour=NEW_LINE, thick_mm=2.6)
    return [tube, *edges, *line, *clips]


def _tied(at: PaperPoint) -> list[str]:
    above, below = (at[0], at[1] - 1.7), (at[0], at[1] + 2.3)
    first = [*_hose(above, -4, HALF_MM, colour=OTHER_LINE, thick_mm=3.6), _plate(above, -7, -4, 2.6)]
    lead = _stroke(above, [(-HALF_MM, 0), (-7, 0)], pen_mm=0.7)
    second = _hose(below, 1, HALF_MM, colour=NEW_LINE, thick_mm=2.6)
    tie = [_stroke(at, [(x, -3.8), (x + 0.6, 3.8)], pen_mm=0.4) for x in (2.4, 3.4, 4.4)]
    return [*first, lead, *second, _stroke(below, [(-1.5, -2.2), (1, 0)], pen_mm=0.5), *tie]


def _crimped(at: PaperPoint) -> list[str]:
    grooves = _ticks(at, (-1.4, 0.2, 1.8), 6.2, slant=0)
    return [*_hose(at, -HALF_MM, -3, colour=NEW_LINE), _plate(at, -3, 3.4, 6.2), *grooves, _plate(at, 3.4, 9, 2.4)]


def _compression(at: PaperPoint) -> list[str]:
    flats = [_stroke(at, [(-2.5, y), (3, y)], pen_mm=0.2) for y in (-1.8, 1.8)]
    olive = _stroke(
        at, [(4, -2.3), (5.2, -3.1), (6.4, -2.3), (6.4, 2.3), (5.2, 3.1), (4, 2.3)], fill=METAL, is_closed=True
    )
    return [
        *_hose(at, -HALF_MM, 8.5, colour=NEW_LINE),
        olive,
        _plate(at, -2.5, 3, 7.6),
        *flats,
        _plate(at, 8.5, 9.6, 3.6),
    ]


def _banjo(at: PaperPoint) -> list[str]:
    eye = (at[0] + 6.2, at[1])
    ring = circle(eye, diameter_mm=8.4, fill=METAL, width_mm=_PEN_MM)
    hole = circle(eye, diameter_mm=4.4, fill=PAPER, width_mm=_PEN_MM)
    return [*_hose(at, -HALF_MM, -1.5, colour=NEW_LINE), _plate(at, -2.5, 2.4, 5.4), ring, hole]


def _barbed(at: PaperPoint) -> list[str]:
    teeth = [point for n in range(3) for point in ((-4 + 2.4 * n, -0.9), (-1.6 + 2.4 * n, -2.0))]
    barb = [*teeth, *[(x, -y) for x, y in reversed(teeth)]]
    flange, nose = _plate(at, 3.2, 4.4, 6.4), _plate(at, 4.4, 9.5, 2.8)
    return [
        *_hose(at, -HALF_MM, 2.6, colour=NEW_LINE, thick_mm=5.4),
        _stroke(at, barb, fill=METAL, is_closed=True),
        flange,
        nose,
    ]


def _plug(at: PaperPoint) -> list[str]:
    pins = [_stroke(at, [(5, y), (8.6, y)], pen_mm=0.6) for y in (-1.6, 0, 1.6)]
    boot = _stroke(at, [(-4.5, -1.4), (-1.5, -3), (5, -3), (5, 3), (-1.5, 3), (-4.5, 1.4)], fill=METAL, is_closed=True)
    return [*_hose(at, -HALF_MM, -4.5, colour=NEW_LINE, thick_mm=2.8), boot, *pins]


JOINT_SKETCHES: dict[MethodKind, Sketch] = {
    MethodKind.THREADED_COUPLER: _coupler,
    MethodKind.SLEEVE_TUBE: _sleeve,
    MethodKind.SPOKE_LINK: _spoke,
    MethodKind.LEADER_LINE: _leader,
    MethodKind.SUCTION_CORD: _suction,
    MethodKind.MAGNET_TIP: _magnet,
    MethodKind.OVER_CABLE: _over_cable,
    MethodKind.LINER_TUBE: _liner,
    MethodKind.LAID_OUTSIDE: _outside,
    MethodKind.TIED_ON: _tied,
}
FITTING_SKETCHES: dict[FittingStyle, Sketch] = {
    FittingStyle.CRIMPED: _crimped,
    FittingStyle.COMPRESSION: _compression,
    FittingStyle.BANJO: _banjo,
    FittingStyle.BARBED: _barbed,
    FittingStyle.PLUG: _plug,
}
