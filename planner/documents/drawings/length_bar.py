"""The line laid straight: what is supplied, what is needed leg by leg, what is left over or missing."""

from planner.documents.drawings.drawing_marks import badge, dimension_line
from planner.documents.drawings.label_places import text_width_mm, wrapped
from planner.documents.drawings.svg import (
    FAINT,
    GOOD,
    INK,
    NEW_LINE,
    PAPER,
    SOFT_INK,
    STOP,
    TUBE,
    Picture,
    box,
    group,
    polyline,
    sheet,
    text,
)
from planner.plan.cut_length import allowance_words
from planner.plan.lengths import LegLength, Lengths
from planner.plan.names import NO_NAMES, Names

MARGIN_MM = 5.0
TYPE_MM = 3.0
BAR_MM = 7.0
SHADES = (NEW_LINE, "#3f83bd")


def draw_length_bar(
    lengths: Lengths, *, names: Names = NO_NAMES, width_mm: float = 180.0, may_be_cut: bool = True
) -> Picture:
    """Supplied, needed and spare to one scale, the needed length made up of its legs at their longest.

    may_be_cut : whether work may begin, so that a length to cut to is told
    names : what people call the places it goes through
    width_mm : of the paper; the height follows
    """
    longest_mm = max(lengths.cut_mm or 0.0, lengths.supplied_mm or 0.0, sum(_stretches(lengths))) or 1.0
    scale = (width_mm - 2 * MARGIN_MM) / longest_mm
    parts, y = _supplied(lengths, scale, top_mm=4)
    needed, y = _needed(lengths, scale, top_mm=y, title=_needed_words(lengths, may_be_cut=may_be_cut))
    spare, y = _spare(lengths, scale, top_mm=y, width_mm=width_mm)
    key, y = _key(lengths, names, scale, top_mm=y + 2, width_mm=width_mm)
    return sheet([*parts, *needed, *spare, *key], width_mm=width_mm, height_mm=y, title="Length of the new line")


def _stretches(lengths: Lengths) -> list[float]:
    """The legs, those without a length as nothing; one stretch where the old line tells them together."""
    if lengths.is_from_old_line and lengths.need_mm is not None:
        return [lengths.need_mm]
    return [leg.high_mm or 0.0 for leg in lengths.legs]


def _rest_mm(lengths: Lengths) -> float:
    """What is cut beside the legs: for the fittings, trim and rounding up; nothing where the length is not known."""
    return 0.0 if lengths.cut_mm is None else lengths.cut_mm - sum(_stretches(lengths))


def _supplied(lengths: Lengths, scale: float, *, top_mm: float) -> tuple[list[str], float]:
    if lengths.supplied_mm is None:
        words = "Supplied length: not told"
        return [text((MARGIN_MM, top_mm + 3), words, height_mm=TYPE_MM, fill=SOFT_INK)], top_mm + 7
    words = f"Supplied {lengths.supplied_mm:.0f} mm"
    title = text((MARGIN_MM, top_mm + 3), words, height_mm=TYPE_MM)
    size_mm = lengths.supplied_mm * scale
    bar = box((MARGIN_MM, top_mm + 5), width_mm=size_mm, height_mm=BAR_MM, fill=TUBE, stroke=INK)
    return [group([title, bar], role="supplied")], top_mm + 5 + BAR_MM + 4


def _range_mm(lengths: Lengths, number: int) -> float:
    """How far a leg goes from its least to its most, postures counted; nothing where that is not known.

    number : of the leg, from 1
    """
    if lengths.is_from_old_line:
        return 0.0
    leg = lengths.legs[number - 1]
    return 0.0 if leg.high_mm is None or leg.low_mm is None else leg.high_mm - leg.low_mm


def _leg_words(leg: LegLength) -> str:
    """How long at most, how long at least, and in which posture it is longest."""
    if leg.high_mm is None:
        return "length not known"
    told = f"up to {leg.high_mm:.0f} mm"
    if leg.low_mm is not None and round(leg.low_mm) < round(leg.high_mm):
        told += f", {leg.low_mm:.0f} at least"
    return told if leg.worst_posture in ("at rest", "not known") else f"{told}; longest at {leg.worst_posture}"


def _needed_words(lengths: Lengths, *, may_be_cut: bool) -> str:
    if lengths.cut_mm is None:
        return "Length not known: lay it in, then mark" if may_be_cut else "Length not known"
    return f"{'Cut to' if may_be_cut else 'It would take'} {lengths.cut_mm:.0f} mm"


def _needed(lengths: Lengths, scale: float, *, top_mm: float, title: str) -> tuple[list[str], float]:
    parts = [text((MARGIN_MM, top_mm + 3), title, height_mm=TYPE_MM, is_bold=True)]
    ranges: list[str] = []
    top_mm += 5
    x = MARGIN_MM
    for number, stretch_mm in enumerate(_stretches(lengths), 1):
        size_mm = stretch_mm * scale
        parts.append(box((x, top_mm), width_mm=size_mm, height_mm=BAR_MM, fill=SHADES[number % 2], stroke=PAPER))
        if size_mm >= 3.5 and not lengths.is_from_old_line:
            middle = (x + size_mm / 2, top_mm + BAR_MM / 2 + 1.1)
            parts.append(text(middle, str(number), height_mm=TYPE_MM, fill=PAPER, anchor="middle", is_bold=True))
        swing_mm = _range_mm(lengths, number) * scale
        if swing_mm > 0.2:
            corner = (x + size_mm - swing_mm, top_mm + BAR_MM - 1.6)
            pale = box(corner, width_mm=swing_mm, height_mm=1.6, fill=PAPER, stroke=INK, opacity=0.85)
            ranges.append(group([pale], role="range"))
        x += size_mm
    rest_mm = _rest_mm(lengths) * scale
    if rest_mm > 0:
        parts.append(box((x, top_mm), width_mm=rest_mm, height_mm=BAR_MM, fill=FAINT, stroke=INK))
    return [group(parts, role="needed"), *ranges], top_mm + BAR_MM


def _spare(lengths: Lengths, scale: float, *, top_mm: float, width_mm: float) -> tuple[list[str], float]:
    if lengths.supplied_mm is None or lengths.spare_mm is None or lengths.cut_mm is None:
        return [], top_mm + 3
    is_short = lengths.spare_mm < 0
    colour = STOP if is_short else GOOD
    words = f"{abs(lengths.spare_mm):.0f} mm " + ("missing" if is_short else "to spare")
    ends = sorted((MARGIN_MM + lengths.cut_mm * scale, MARGIN_MM + lengths.supplied_mm * scale))
    y = top_mm + 4
    parts = [polyline([(x, top_mm - 1), (x, y + 1.5)], stroke=colour, width_mm=0.25) for x in ends]
    parts.append(dimension_line((ends[0], y), (ends[1], y), stroke=colour))
    room_mm = text_width_mm(words, height_mm=TYPE_MM * 1.25) / 2
    middle = min(max(sum(ends) / 2, MARGIN_MM + room_mm), width_mm - MARGIN_MM - room_mm)
    parts.append(text((middle, y + 5), words, height_mm=TYPE_MM * 1.1, fill=colour, anchor="middle", is_bold=True))
    return [group(parts, role="spare")], y + 7


def _key(lengths: Lengths, names: Names, scale: float, *, top_mm: float, width_mm: float) -> tuple[list[str], float]:
    parts, y = [], top_mm + 2
    if lengths.is_from_old_line:
        words = f"all legs together, as the old line lay: {lengths.need_mm:.0f} mm"
        parts.append(text((MARGIN_MM, y + 1.1), words, height_mm=TYPE_MM))
        y += 5
    for number, leg in enumerate(() if lengths.is_from_old_line else lengths.legs, 1):
        parts.append(badge((MARGIN_MM + 2, y), str(number), diameter_mm=4.0, fill=SHADES[number % 2]))
        words = f"{names.place(leg.from_place)} – {names.place(leg.to_place)}, {_leg_words(leg)}"
        for row in wrapped(words, height_mm=TYPE_MM, room_mm=width_mm - 2 * MARGIN_MM - 6):
            parts.append(text((MARGIN_MM + 6, y + 1.1), row, height_mm=TYPE_MM))
            y += 4.3
        y += 0.7
    if any(_range_mm(lengths, number) * scale > 0.2 for number in range(1, len(lengths.legs) + 1)):
        parts.append(box((MARGIN_MM, y - 0.8), width_mm=4, height_mm=1.6, fill=PAPER, stroke=INK))
        words = "at the foot of a leg: from its least to its most, bar and rear in every posture"
        for row in wrapped(words, height_mm=TYPE_MM, room_mm=width_mm - 2 * MARGIN_MM - 6):
            parts.append(text((MARGIN_MM + 6, y + 1.1), row, height_mm=TYPE_MM))
            y += 4.3
        y += 0.7
    rest_mm = _rest_mm(lengths)
    if rest_mm > 0:
        parts.append(box((MARGIN_MM, y - 2), width_mm=4, height_mm=4, fill=FAINT, stroke=INK))
        allowed = "" if allowance_words(lengths) is None else f" (of which {allowance_words(lengths)})"
        words = f"into the fittings, cut away, trim, rounding up: {rest_mm:.0f} mm{allowed}"
        for row in wrapped(words, height_mm=TYPE_MM, room_mm=width_mm - 2 * MARGIN_MM - 6):
            parts.append(text((MARGIN_MM + 6, y + 1.1), row, height_mm=TYPE_MM))
            y += 4.3
        y += 0.7
    return parts, y + 1
