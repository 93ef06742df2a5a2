"""The lines of a visit and their holes as a table drawn: for a frame whose places nobody told."""

from collections.abc import Mapping, Sequence

from planner.documents.drawings.drawing_marks import badge
from planner.documents.drawings.svg import INK, PAPER, SOFT_INK, circle, polyline, text
from planner.documents.drawings.visit_key import TYPE_MM, hole_tag, tag_width_mm
from planner.documents.drawings.visit_lines import DrawnLine

LEFT_MM, ROW_MM = 12.0, 8.0
NO_PLACES = "Nobody told where the holes lie, so this is no picture of the frame"


def visit_map(lines: Sequence[DrawnLine], tags: Mapping[str, str], *, top_mm: float) -> tuple[list[str], float]:
    """A row for each line, a column for each hole, a ring where the line takes it.

    Returns the parts and where they end. [mm]

    tags : of the holes, in the frame's order
    """
    wide_mm = max([tag_width_mm(tag) for tag in tags.values()], default=0.0) + 5
    columns = {port_id: LEFT_MM + 8 + n * wide_mm for n, port_id in enumerate(tags)}
    right_mm = LEFT_MM + 8 + len(tags) * wide_mm
    parts = [text((7, top_mm), NO_PLACES, height_mm=2.8, fill=SOFT_INK)]
    y = top_mm + 6
    parts += [hole_tag((x, y), tags[port_id]) for port_id, x in columns.items()]
    for line in lines:
        y += ROW_MM
        way = [(LEFT_MM, y), (right_mm, y)]
        look = line.strokes
        row = [polyline(way, stroke=look.colour, width_mm=1.3 if look.is_double else 0.9, dash_mm=look.dash_mm)]
        if look.is_double:
            row.append(polyline(way, stroke=PAPER, width_mm=0.5, dash_mm=look.dash_mm))
        row += [badge((x, y), line.letter, diameter_mm=4.2, fill=look.colour) for x in (LEFT_MM, right_mm)]
        row += [
            circle((x, y), diameter_mm=3.4, fill=PAPER, stroke=INK, width_mm=0.6)
            for port_id, x in columns.items()
            if port_id in line.places
        ]
        parts += row
    return parts, y + TYPE_MM + 2
