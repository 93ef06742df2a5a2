"""The key of a visit's pictures: which letter is which line, which number which hole, and what the places say."""

from collections.abc import Mapping, Sequence

from planner.documents.drawings.drawing_marks import badge
from planner.documents.drawings.label_places import text_width_mm, wrapped
from planner.documents.drawings.side_view import MARGIN_MM
from planner.documents.drawings.svg import INK, PAPER, SOFT_INK, PaperPoint, box, polyline, text
from planner.documents.drawings.visit_lines import DrawnLine, visit_letters
from planner.documents.words.sizes_in_words import millimetres
from planner.documents.words.visit_words import place_name
from planner.parts import Frame, NewLine, OldLine, Visit
from planner.whole_bike.hole_stories import LiesAs
from planner.whole_bike.visit_plan import VisitPlan

TYPE_MM = 3.0
ROW_MM = 4.4
SIDE_FROM_MM = 5.0
"""A hole further out than this from the middle plane of the bicycle has a side."""


def hole_tags(lines: Sequence[DrawnLine], frame: Frame) -> dict[str, str]:
    """The number of each hole that a line takes, in the frame's order, with L or R for its side where it has one."""
    used = {place for line in lines for place in line.places if place in frame.ports}
    ids = [port_id for port_id in frame.ports if port_id in used]
    return {port_id: f"{n}{_side(frame, port_id)}" for n, port_id in enumerate(ids, start=1)}


def _side(frame: Frame, port_id: str) -> str:
    place = frame.ports[port_id].position_mm
    if place is None or abs(place[1]) < SIDE_FROM_MM:
        return ""
    return "L" if place[1] > 0 else "R"


def tag_width_mm(words: str) -> float:
    """How wide the tag of a hole is on the paper."""
    return text_width_mm(words, height_mm=2.7) + 1.6


def hole_tag(at: PaperPoint, words: str) -> str:
    """The tag of a hole: square, so that it is not taken for the round letter of a line.

    at : its middle
    words : its number and side
    """
    wide_mm = tag_width_mm(words)
    corner = (at[0] - wide_mm / 2, at[1] - 2.1)
    area = box(corner, width_mm=wide_mm, height_mm=4.2, fill=INK, stroke=PAPER, corner_radius_mm=0.6)
    return area + text((at[0], at[1] + 1.0), words, height_mm=2.7, anchor="middle", fill=PAPER, is_bold=True)


def reasons_at(plan: VisitPlan, visit: Visit) -> dict[str, str]:
    """What each place says about the order, by letters: which line goes before which, or which do not go together.

    visit : that was planned
    """
    letters = visit_letters(plan, (line.id for line in visit.lines))
    found: dict[str, list[str]] = {}
    for forced in plan.forced:
        if not forced.follows:
            words = f"{letters[forced.before[0]]} before {letters[forced.after[0]]}"
            for place_id in forced.obstacle.places:
                found.setdefault(place_id, []).append(words + _missing(forced.obstacle.missing_mm, joined=", else"))
    if plan.conflict is not None and not plan.order:
        words = f"{' + '.join(sorted(letters[line_id] for line_id in plan.conflict.line_ids))} do not pass"
        for place_id in plan.conflict.obstacle.places:
            found.setdefault(place_id, []).append(words + _missing(plan.conflict.obstacle.missing_mm, joined=","))
    return {place_id: "; ".join(dict.fromkeys(said)) for place_id, said in found.items()}


def _missing(missing_mm: float | None, *, joined: str) -> str:
    return "" if missing_mm is None else f"{joined} {millimetres(missing_mm)} missing"


def visit_key(
    plan: VisitPlan,
    visit: Visit,
    lines: Sequence[DrawnLine],
    tags: Mapping[str, str],
    *,
    top_mm: float,
    width_mm: float,
) -> tuple[list[str], float]:
    """Every line with its stroke and holes, every hole with its name, and what thick and thin mean.

    Returns the parts and where they end. [mm]

    tags : of the holes
    """
    parts, y = [], top_mm
    for line in lines:
        parts += [_sample((MARGIN_MM, y), line), _letter((MARGIN_MM + 16, y), line)]
        for row in wrapped(_line_words(line, visit, tags), height_mm=TYPE_MM, room_mm=width_mm - MARGIN_MM - 24):
            parts.append(text((MARGIN_MM + 20, y + 1.1), row, height_mm=TYPE_MM))
            y += ROW_MM
        y += 0.8
    columns = 2 if width_mm > 120 else 1
    column_mm = (width_mm - 2 * MARGIN_MM) / columns
    bottom_mm = y
    for n, (port_id, tag) in enumerate(tags.items()):
        if n % columns == 0:
            y = bottom_mm
        left_mm = MARGIN_MM + n % columns * column_mm
        parts.append(hole_tag((left_mm + 3, y), tag))
        row_y = y
        for row in wrapped(place_name(port_id, plan), height_mm=TYPE_MM, room_mm=column_mm - 9):
            parts.append(text((left_mm + 7.5, row_y + 1.1), row, height_mm=TYPE_MM))
            row_y += ROW_MM
        bottom_mm = max(bottom_mm, row_y + 0.6)
    said = [*_what_marks_mean(plan, lines, visit.frame)]
    for row in wrapped(" · ".join(said), height_mm=2.8, room_mm=width_mm - 2 * MARGIN_MM):
        parts.append(text((MARGIN_MM, bottom_mm + 1.1), row, height_mm=2.8, fill=SOFT_INK))
        bottom_mm += 4.0
    return parts, bottom_mm + 1


def _letter(at: PaperPoint, line: DrawnLine) -> str:
    return badge(at, line.letter, diameter_mm=4.2, fill=line.strokes.colour)


def _sample(at: PaperPoint, line: DrawnLine) -> str:
    way = [at, (at[0] + 13, at[1])]
    look = line.strokes
    if not look.is_double:
        return polyline(way, stroke=look.colour, width_mm=0.95, dash_mm=look.dash_mm)
    thick = polyline(way, stroke=look.colour, width_mm=1.35, dash_mm=look.dash_mm)
    return thick + polyline(way, stroke=PAPER, width_mm=0.5, dash_mm=look.dash_mm)


def _line_words(line: DrawnLine, visit: Visit, tags: Mapping[str, str]) -> str:
    """What the line is, what is done to it, and the holes it takes in their order."""
    known = next((each for each in visit.lines if each.id == line.line_id), None)
    if known is None:
        stays = next(each.line.name for each in visit.staying if each.line.id == line.line_id)
        said = f"{stays} stays"
    elif line.lies_as is LiesAs.OLD and known.new is None:
        said = f"{line.line_id}: {_name(known.old)} comes out"
    elif known.new is not None and known.old is not None:
        said = f"{line.line_id}: {known.new.line.name} for {known.old.line.name}"
    else:
        said = f"{line.line_id}: {_name(known.new)} goes in"
    return f"{said}{_way_words(line, tags)}"


def _way_words(line: DrawnLine, tags: Mapping[str, str]) -> str:
    """The holes a line takes, or why none is named."""
    holes = " ".join(tags[place] for place in line.places if place in tags)
    if holes or line.places:
        return f" ({holes or 'through no hole'})"
    return "" if line.legs else " (not drawn: its way is not told)"


def _name(part: OldLine | NewLine | None) -> str:
    return "" if part is None else part.line.name


def _what_marks_mean(plan: VisitPlan, lines: Sequence[DrawnLine], frame: Frame) -> list[str]:
    said = [] if plan.order else ["lines are drawn where the job says that they lie or are to go"]
    if any(line.legs for line in lines):
        said.append("thick inside the frame, thin outside")
    if any(line.fed_from for line in lines):
        said.append("arrow: the way it is fed")
    if any(_side(frame, port_id) for port_id in frame.ports):
        said.append("L and R: left and right side of the bicycle, as its rider sits")
    return said
