"""Gauges at true size, to cut out of a print: plugs for holes, jaws for what goes through, a ruler for the printer."""

from math import ceil

from planner.documents.drawings.drawing_marks import dimension_line
from planner.documents.drawings.hole_outline import find_outline
from planner.documents.drawings.label_places import wrapped
from planner.documents.drawings.svg import INK, METAL, SOFT_INK, Picture, polyline, sheet, text
from planner.geometry.openings.opening_shape import opening_at_limit, opening_sizes, vary_opening
from planner.parts import Opening
from planner.verdicts import Check, Thing

MARGIN_MM = 4.0
TYPE_MM = 2.7
ROW_MM = 3.9
RULER_MM = 100
_CUT_MM = 0.15
_STEP_MM = 0.01
_JAW_MM = 30.0


def least_opening(check: Check) -> Opening | None:
    """The hole that still takes all that passes here, at the worse limit of each size: smaller on every size alike.

    Proven by the check: what is to spare all round may be taken off the hole. For one thing that goes square
    through a round hole it is also the smallest; where things lean or lie side by side a smaller one may do.

    None where the hole was not measured, and where several things share one that is too small at worst: widening it by
    what is missing need not be enough.

    check : of a hole
    """
    opening = None if check.room is None else check.room.opening
    spare_mm = check.worst_clearance_mm
    if opening is None or spare_mm is None or (spare_mm < 0 and check.with_ids):
        return None
    limit = opening_at_limit(opening=opening, is_larger=False)
    radii = {"corner_radius": -spare_mm / 2, "edge": -spare_mm / 2}
    changes_mm = {
        name: radii[name] if name in radii else _rounded_up_mm(size_mm - spare_mm) - size_mm
        for name, size_mm in opening_sizes(limit).items()
    }
    return vary_opening(opening=limit, changes_mm=changes_mm)


def _rounded_up_mm(size_mm: float) -> float:
    """To what calipers tell, on the side that still passes."""
    return ceil(size_mm / _STEP_MM - 1e-6) * _STEP_MM


def draw_hole_gauge(check: Check, *, label: str, width_mm: float, paper_error_mm: float | None) -> Picture:
    """Two plugs for a hole: the one that must go in, and the hole as told, which must not be smaller.

    check : of a hole, measured
    label : its name for people
    width_mm : of the paper; the height follows
    paper_error_mm : how far a cut-out is off; None where nobody said

    Raises ValueError where the hole was not measured.
    """
    told = None if check.room is None else check.room.opening
    least = least_opening(check)
    if told is None or least is None:
        raise ValueError(f"{label}: there is no size to draw")
    parts = [text((MARGIN_MM, 5), label, height_mm=3.1, is_bold=True)]
    y_mm = 8.0
    for opening, words in ((least, f"must go in: {least.words}"), (told, f"as told: {told.words}")):
        edge = find_outline(opening)
        half_mm = max(y for _, y in edge)
        middle_mm = y_mm + half_mm + 1
        points = [(width_mm / 2 + x, middle_mm - y) for x, y in edge]
        parts += [polyline(points, fill=METAL, width_mm=_CUT_MM, is_closed=True)]
        y_mm = middle_mm + half_mm + 4
        parts.append(text((width_mm / 2, y_mm), words, height_mm=TYPE_MM, anchor="middle"))
        y_mm += 2.5
    for row in _remarks(check, paper_error_mm, width_mm):
        y_mm += ROW_MM
        parts.append(text((MARGIN_MM, y_mm), row, height_mm=TYPE_MM, fill=SOFT_INK))
    return sheet(parts, width_mm=width_mm, height_mm=y_mm + 4, title=f"Gauge: {label}")


def _remarks(check: Check, paper_error_mm: float | None, width_mm: float) -> list[str]:
    spare_mm = check.worst_clearance_mm
    if spare_mm is None or paper_error_mm is None or abs(spare_mm) > paper_error_mm:
        return []
    words = f"{spare_mm:.2f} mm to spare at worst: too close for paper (±{paper_error_mm:g} mm); take drill shanks."
    return wrapped(words, height_mm=TYPE_MM, room_mm=width_mm - 2 * MARGIN_MM)


def draw_jaws(thing: Thing, *, label: str, width_mm: float) -> Picture:
    """Two lines as far apart as a thing may be thick, and a bar as long as its stiff part may be.

    label : its name for people
    width_mm : of the paper; the height follows
    """
    thick_mm = thing.diameter_mm + thing.tolerance_mm
    left, right, top = MARGIN_MM, MARGIN_MM + _JAW_MM, 9.0
    parts = [
        text((MARGIN_MM, 5), label, height_mm=3.1, is_bold=True),
        polyline([(left, top), (right, top)], width_mm=_CUT_MM),
        polyline([(left, top + thick_mm), (right, top + thick_mm)], width_mm=_CUT_MM),
        dimension_line((left + _JAW_MM / 2, top), (left + _JAW_MM / 2, top + thick_mm)),
        text((right + 3, top + thick_mm / 2 + 1), f"at most {thick_mm:.2f} mm across", height_mm=TYPE_MM),
    ]
    y_mm = top + thick_mm + 6
    if thing.rigid_length_mm:
        parts += [
            polyline([(left, y_mm), (left + thing.rigid_length_mm, y_mm)], stroke=INK, width_mm=0.8),
            text((left, y_mm + 4), f"stiff over {thing.rigid_length_mm:g} mm at most", height_mm=TYPE_MM),
        ]
        y_mm += 6
    return sheet(parts, width_mm=width_mm, height_mm=y_mm + 3, title=f"Gauge: {label}")


def draw_ruler(*, width_mm: float) -> Picture:
    """A ruler of 100 mm to hold a real one against: a printer that scales makes every gauge on the sheet wrong.

    width_mm : of the paper
    """
    left, top = MARGIN_MM, 8.0
    parts = [polyline([(left, top), (left + RULER_MM, top)], width_mm=_CUT_MM)]
    for at_mm in range(RULER_MM + 1):
        long_mm = 5.0 if at_mm % 10 == 0 else 3.5 if at_mm % 5 == 0 else 2.0
        parts.append(polyline([(left + at_mm, top), (left + at_mm, top + long_mm)], width_mm=_CUT_MM))
        if at_mm % 10 == 0:
            parts.append(text((left + at_mm, top + 8), f"{at_mm}", height_mm=2.4, anchor="middle"))
    parts.append(text((left, 5), f"{RULER_MM} mm: lay a real ruler on it.", height_mm=TYPE_MM, is_bold=True))
    return sheet(parts, width_mm=width_mm, height_mm=20, title="Ruler of 100 mm")
