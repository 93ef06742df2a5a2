"""The closed edges in a DXF file; its entities and its unit are read by ezdxf."""

import logging
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from io import BytesIO
from math import radians, tau
from typing import Any

from catalog.traced_edges import Drawn, Point, TraceRefused, joined
from planner import ArcPiece, BezierPiece, EdgePiece

_UNITS_MM = {1: 25.4, 2: 304.8, 4: 1.0, 5: 10.0, 6: 1000.0, 8: 25.4e-6, 9: 0.0254, 13: 0.001, 14: 100.0}
"""Millimetres in the unit that `$INSUNITS` names; 0, and what no bicycle is drawn in, is not told.

Source: ezdxf documentation, "DXF Units", table of drawing units; from memory.
"""

_MOST_ENTITIES = 2000


def read_dxf(content: bytes) -> Drawn:
    """The edges in a DXF file: polylines, or lines, arcs, circles, ellipses and splines put end to end.

    Raises TraceRefused with one sentence where it is none.
    """
    from ezdxf import recover
    from ezdxf.lldxf.const import DXFError

    logging.getLogger("ezdxf").setLevel(logging.CRITICAL)
    if content.startswith(b"AutoCAD Binary DXF"):
        raise TraceRefused("It is a binary DXF file: save it as text (ASCII).")
    try:
        document, _ = recover.read(BytesIO(content))
    except (
        DXFError,
        OSError,
        ValueError,
        KeyError,
        TypeError,
        AttributeError,
        IndexError,
        RecursionError,
    ) as error:
        raise TraceRefused("It is not a DXF file that can be read.") from error
    seen = [one for one in document.modelspace() if _is_seen(one, document)]
    if len(seen) > _MOST_ENTITIES:
        raise TraceRefused(f"There are {len(seen)} things in it: keep the edge of one hole alone in the file.")
    pieces, left_out = list[EdgePiece](), Counter[str]()
    try:
        for entity in seen:
            found = tuple(_pieces(entity))
            pieces += found
            if not found:
                left_out[entity.dxftype().lower()] += 1
    except (DXFError, ValueError, TypeError, AttributeError, ZeroDivisionError) as error:
        raise TraceRefused("Something in it is told wrongly: draw the edge as one closed polyline.") from error
    told = tuple(f"{count} {name}" for name, count in sorted(left_out.items()))
    return replace(joined(pieces), unit_mm=_UNITS_MM.get(int(document.units)), left_out=told)


def _is_seen(entity: Any, document: Any) -> bool:
    """Whether it lies on a layer that is shown."""
    if entity.dxf.get("invisible", 0):
        return False
    name = entity.dxf.get("layer", "0")
    if name not in document.layers:
        return True
    layer = document.layers.get(name)
    return not (layer.is_off() or layer.is_frozen())


def _pieces(entity: Any) -> Iterator[EdgePiece]:
    kind = entity.dxftype()
    if kind in ("LWPOLYLINE", "POLYLINE"):
        if kind == "POLYLINE" and not (entity.is_2d_polyline or entity.is_3d_polyline):
            return
        for part in entity.virtual_entities():
            yield from _pieces(part)
        return
    if kind in ("CIRCLE", "ARC", "ELLIPSE") and tuple(entity.dxf.get("extrusion", (0, 0, 1)))[2] <= 0:
        raise TraceRefused("It is drawn on the back of the sheet (extrusion below zero): mirror it to the front.")
    match kind:
        case "LINE":
            start, end = _flat(entity.dxf.start), _flat(entity.dxf.end)
            if start != end:
                yield BezierPiece(points_mm=(start, end))
        case "CIRCLE":
            yield _circle(entity, start_rad=0.0, sweep_rad=tau)
        case "ARC":
            first, last = radians(entity.dxf.start_angle), radians(entity.dxf.end_angle)
            yield _circle(entity, start_rad=first, sweep_rad=_onwards(last - first))
        case "ELLIPSE":
            yield _ellipse(entity)
        case "SPLINE":
            yield from _spline(entity)
        case _:
            return


def _circle(entity: Any, *, start_rad: float, sweep_rad: float) -> EdgePiece:
    radius = float(entity.dxf.radius)
    return ArcPiece(
        centre_mm=_flat(entity.dxf.center),
        first_axis_mm=(radius, 0.0),
        second_axis_mm=(0.0, radius),
        start_rad=start_rad,
        sweep_rad=sweep_rad,
    )


def _ellipse(entity: Any) -> EdgePiece:
    start = float(entity.dxf.start_param)
    return ArcPiece(
        centre_mm=_flat(entity.dxf.center),
        first_axis_mm=_flat(entity.dxf.major_axis),
        second_axis_mm=_flat(entity.minor_axis),
        start_rad=start,
        sweep_rad=_onwards(float(entity.dxf.end_param) - start),
    )


def _spline(entity: Any) -> Iterator[EdgePiece]:
    """A spline as the cubic curves it consists of; a rational one is approached by such."""
    from ezdxf.path import make_path

    path = make_path(entity, level=6)
    start = path.start
    for command in path.commands():
        controls = [getattr(command, name) for name in ("ctrl", "ctrl1", "ctrl2") if hasattr(command, name)]
        yield BezierPiece(points_mm=tuple(map(_flat, (start, *controls, command.end))))
        start = command.end


def _onwards(turn_rad: float) -> float:
    """A turn counter-clockwise; a whole one where both ends are the same."""
    turn = turn_rad % tau
    return turn if turn > 1e-9 else tau


def _flat(point: Any) -> Point:
    return float(point[0]), float(point[1])
