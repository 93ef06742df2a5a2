"""Marks that several pictures share: arrow heads, cut walls, dimension lines, numbered badges, outcomes by shape."""

from math import atan2, cos, degrees, hypot, radians, sin

from planner.documents.drawings.svg import (
    GOOD,
    INK,
    METAL,
    PAPER,
    SOFT_INK,
    STOP,
    WARN,
    PaperPoint,
    box,
    circle,
    polyline,
    text,
)
from planner.verdicts import Outcome

OUTCOME_COLOUR = {Outcome.FITS: GOOD, Outcome.TIGHT: WARN, Outcome.UNKNOWN: SOFT_INK, Outcome.NO_FIT: STOP}


def arrow_head(tip: PaperPoint, *, towards_deg: float, length_mm: float = 2.0, fill: str = INK) -> str:
    """A solid arrow head.

    towards_deg : 0 points right, 90 down the paper
    length_mm : from the tip back
    """
    backs = [radians(towards_deg + turn) for turn in (160, 200)]
    corners = [(tip[0] + length_mm * cos(angle), tip[1] + length_mm * sin(angle)) for angle in backs]
    return polyline([tip, *corners], fill=fill, stroke="none", is_closed=True)


def cut_wall(corner: PaperPoint, *, width_mm: float, height_mm: float, step_mm: float = 1.2) -> str:
    """A wall seen in section: an upright rectangle with slanting lines over it.

    corner : its upper left corner
    step_mm : between two slanting lines
    """
    parts = [box(corner, width_mm=width_mm, height_mm=height_mm, fill=METAL, stroke=INK)]
    left, bottom = corner[0], corner[1] + height_mm
    count = int((width_mm + height_mm) / step_mm)
    for start in (k * step_mm - height_mm for k in range(1, count + 1)):
        low, high = max(start, 0.0), min(start + height_mm, width_mm)
        if high > low:
            ends = [(left + low, bottom - (low - start)), (left + high, bottom - (high - start))]
            parts.append(polyline(ends, stroke=SOFT_INK, width_mm=0.12))
    return "".join(parts)


def dimension_line(start: PaperPoint, end: PaperPoint, *, stroke: str = INK) -> str:
    """A dimension line with a head at both ends; the heads stand outside where the distance is short.

    start, end : the two points measured between
    """
    length_mm = hypot(end[0] - start[0], end[1] - start[1])
    if length_mm == 0:
        return ""
    along = ((end[0] - start[0]) / length_mm, (end[1] - start[1]) / length_mm)
    is_short = length_mm < 4.5
    reach_mm = 3.0 if is_short else 0.0
    first = (start[0] - along[0] * reach_mm, start[1] - along[1] * reach_mm)
    last = (end[0] + along[0] * reach_mm, end[1] + along[1] * reach_mm)
    angle_deg = degrees(atan2(along[1], along[0]))
    back_deg = angle_deg if is_short else angle_deg + 180
    heads = arrow_head(start, towards_deg=back_deg, length_mm=1.5, fill=stroke)
    heads += arrow_head(end, towards_deg=back_deg + 180, length_mm=1.5, fill=stroke)
    return polyline([first, last], stroke=stroke, width_mm=0.2) + heads


def badge(centre: PaperPoint, words: str, *, diameter_mm: float, fill: str = INK, stroke: str = PAPER) -> str:
    """A filled round with a number in it.

    words : one or two characters
    fill, stroke : colours of the round and of its edge
    """
    height_mm = diameter_mm * 0.66
    base = (centre[0], centre[1] + height_mm * 0.36)
    words_in_it = text(base, words, height_mm=height_mm, anchor="middle", fill=PAPER, is_bold=True)
    return circle(centre, diameter_mm=diameter_mm, fill=fill, stroke=stroke, width_mm=0.4) + words_in_it


def outcome_mark(centre: PaperPoint, outcome: Outcome, *, size_mm: float = 4.0) -> str:
    """An outcome by its shape as well as its colour: tick in a round, triangle, question in a diamond, cross in a box.

    size_mm : over the whole mark

    Common practice, no source: never by colour alone.
    """
    x, y, h = centre[0], centre[1], size_mm / 2
    colour, pen_mm = OUTCOME_COLOUR[outcome], size_mm / 9
    if outcome is Outcome.FITS:
        tick = [(x - h * 0.5, y), (x - h * 0.1, y + h * 0.42), (x + h * 0.55, y - h * 0.42)]
        return circle(centre, diameter_mm=size_mm, fill=colour, stroke="none") + polyline(
            tick, stroke=PAPER, width_mm=pen_mm
        )
    if outcome is Outcome.TIGHT:
        area = polyline([(x, y - h), (x + h, y + h), (x - h, y + h)], fill=colour, stroke="none", is_closed=True)
        bar = polyline([(x, y - h * 0.3), (x, y + h * 0.3)], stroke=PAPER, width_mm=pen_mm)
        return area + bar + circle((x, y + h * 0.68), diameter_mm=pen_mm * 1.2, fill=PAPER, stroke="none")
    if outcome is Outcome.UNKNOWN:
        corners = [(x, y - h * 1.1), (x + h * 1.1, y), (x, y + h * 1.1), (x - h * 1.1, y)]
        asks = text((x, y + size_mm * 0.26), "?", height_mm=size_mm * 0.72, anchor="middle", fill=PAPER, is_bold=True)
        return polyline(corners, fill=colour, stroke="none", is_closed=True) + asks
    arms = [
        [(x - h * 0.5, y - h * 0.5), (x + h * 0.5, y + h * 0.5)],
        [(x + h * 0.5, y - h * 0.5), (x - h * 0.5, y + h * 0.5)],
    ]
    cross = "".join(polyline(arm, stroke=PAPER, width_mm=pen_mm) for arm in arms)
    return box((x - h, y - h), width_mm=size_mm, height_mm=size_mm, fill=colour) + cross
