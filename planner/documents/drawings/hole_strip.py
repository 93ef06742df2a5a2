"""A strip for a shared hole: who lies in it before the work and after every step, told apart by letter and by edge."""

from collections.abc import Mapping, Sequence

from planner.documents.drawings.drawing_marks import badge
from planner.documents.drawings.hole_outline import SeenRims, find_rims
from planner.documents.drawings.label_places import wrapped
from planner.documents.drawings.svg import (
    FAINT,
    INK,
    NEW_LINE,
    OTHER_LINE,
    PAPER,
    SOFT_INK,
    PaperView,
    Picture,
    circle,
    group,
    polyline,
    sheet,
    text,
)
from planner.documents.words.sizes_in_words import millimetres
from planner.whole_bike.hole_stories import HoleMoment, HoleStory, InHole, LiesAs

MARGIN_MM = 5.0
TYPE_MM = 2.9
ROW_MM = 4.0
LARGEST_SCALE = 2.5
COLUMNS = 6
NARROWEST_COLUMN_MM = 27.0
LARGEST_BADGE_MM, LEAST_BADGE_MM = 4.0, 3.2
BADGE_RATIO = 0.7
"""How much of a line its letter takes."""

LOOKS = {LiesAs.OLD: (SOFT_INK, "none"), LiesAs.NEW: (NEW_LINE, NEW_LINE), LiesAs.STAYS: (OTHER_LINE, OTHER_LINE)}
"""Edge and area of a disc: an old line is hollow."""
WORDS = {LiesAs.OLD: "old line, hollow", LiesAs.NEW: "new line, filled", LiesAs.STAYS: "stays, thick edge"}
NO_PLACES = "no places found side by side"


def draw_hole_strip(
    story: HoleStory,
    *,
    label: str,
    captions: Sequence[str],
    letters: Mapping[str, str],
    width_mm: float = 180.0,
    has_key: bool = True,
    most_scale_ratio: float = LARGEST_SCALE,
) -> Picture:
    """One shared hole, moment by moment, all to one scale.

    story : the hole's moments
    label : the hole's name for people
    captions : what has just been done at each moment
    letters : of each line, by its id
    width_mm : of the paper; the height follows
    has_key : whether it tells below which letter is which line
    most_scale_ratio : how many times its size the hole is drawn at the most
    """
    rims = [None if each.room.opening is None else find_rims(each.room, each.room.opening) for each in story.moments]
    wide_mm, tall_mm = _extent([each for each in rims if each is not None])
    columns, scale = _columns(story, wide_mm, width_mm - 2 * MARGIN_MM, most_scale_ratio)
    column_mm = (width_mm - 2 * MARGIN_MM) / columns
    rows = [_caption_rows(words, column_mm) for words in captions]
    above_mm = max(map(len, rows)) * ROW_MM
    below_mm = ROW_MM if any(_is_unplaced(moment) for moment in story.moments) else 0.0
    row_mm = above_mm + tall_mm * scale + below_mm + 4
    parts = [text((MARGIN_MM, 8), label, height_mm=3.8, is_bold=True)]
    for n, (moment, seen) in enumerate(zip(story.moments, rims, strict=True)):
        left_mm = MARGIN_MM + n % columns * column_mm
        top_mm = 13 + n // columns * row_mm
        parts += _caption(rows[n], left_mm, top_mm)
        if seen is not None:
            middle = (left_mm + column_mm / 2, top_mm + above_mm - ROW_MM / 2 + tall_mm * scale / 2)
            view = PaperView(left_mm=0, top_mm=0, scale_ratio=scale, origin_mm=middle)
            parts += [*_hole(seen, view), *_discs(moment, view, letters)]
        if _is_unplaced(moment):
            at = (left_mm + 1, top_mm + above_mm + tall_mm * scale + ROW_MM / 2)
            parts.append(text(at, NO_PLACES, height_mm=TYPE_MM, fill=SOFT_INK))
    rows_n = -(-len(story.moments) // columns)
    bottom_mm = 13 + rows_n * row_mm + 2
    key, bottom_mm = _key(story, letters, top_mm=bottom_mm, width_mm=width_mm) if has_key else ([], bottom_mm - ROW_MM)
    return sheet([*parts, *key], width_mm=width_mm, height_mm=bottom_mm, title=f"{label}: who lies in it, step by step")


def _columns(story: HoleStory, wide_mm: float, room_mm: float, most_scale_ratio: float) -> tuple[int, float]:
    """So many moments beside each other that letters can be read in the thinnest line, and the scale of the hole."""
    most = min(COLUMNS, max(1, int(room_mm / NARROWEST_COLUMN_MM)), len(story.moments))
    if not wide_mm:
        return most, most_scale_ratio
    thinnest_mm = min((thing.diameter_mm for moment in story.moments for thing in moment.things), default=wide_mm)
    readable = min(most_scale_ratio, LEAST_BADGE_MM / BADGE_RATIO / thinnest_mm)
    scales = {columns: min(most_scale_ratio, (room_mm / columns - 6) / wide_mm) for columns in range(most, 0, -1)}
    columns = next((columns for columns, scale in scales.items() if scale >= readable), 1)
    return columns, scales[columns] if columns == most else min(scales[columns], readable)


def _extent(rims: Sequence[SeenRims]) -> tuple[float, float]:
    points = [point for each in rims for point in (*each.near, *each.far)]
    if not points:
        return 0.0, 0.0
    return 2 * max(abs(x) for x, _ in points), 2 * max(abs(y) for _, y in points)


def _is_unplaced(moment: HoleMoment) -> bool:
    return bool(moment.things) and moment.placement is None


def _caption_rows(words: str, room_mm: float) -> list[str]:
    return wrapped(words, height_mm=TYPE_MM, room_mm=room_mm - 2)[:2]


def _caption(rows: list[str], left_mm: float, top_mm: float) -> list[str]:
    return [text((left_mm + 1, top_mm + n * ROW_MM), row, height_mm=TYPE_MM) for n, row in enumerate(rows)]


def _hole(rims: SeenRims, view: PaperView) -> list[str]:
    near, far = ([view.at(*point) for point in rim] for rim in (rims.near, rims.far))
    parts = [polyline(rim, fill=FAINT, stroke="none", is_closed=True) for rim in (near, far)]
    parts.append(polyline([view.at(*point) for point in rims.seen], fill=PAPER, stroke="none", is_closed=True))
    return [*parts, polyline(near, width_mm=0.25, stroke=INK, is_closed=True)]


def _discs(moment: HoleMoment, view: PaperView, letters: Mapping[str, str]) -> list[str]:
    if moment.placement is None:
        return []
    parts = []
    for thing, centre in zip(moment.things, moment.placement.centres_mm, strict=True):
        edge, area = LOOKS[thing.lies_as]
        at, diameter_mm = view.at(*centre), thing.diameter_mm * view.scale_ratio
        pen_mm = 0.9 if thing.lies_as is LiesAs.STAYS else 0.35
        disc = circle(at, diameter_mm=diameter_mm, fill=area, stroke=edge, width_mm=pen_mm, opacity=0.3)
        mark = badge(at, letters[thing.line_id], diameter_mm=max(min(LARGEST_BADGE_MM, BADGE_RATIO * diameter_mm), 2.0))
        parts.append(group([disc, mark], role="thing", name=thing.line_id, title=_told(thing)))
    return parts


def _told(thing: InHole) -> str:
    return f"{thing.line_id}, {WORDS[thing.lies_as]}, {millimetres(thing.diameter_mm)}"


def _key(story: HoleStory, letters: Mapping[str, str], *, top_mm: float, width_mm: float) -> tuple[list[str], float]:
    """Every line with its letter, old and new; and what tells them apart."""
    seen = dict.fromkeys(thing for moment in story.moments for thing in moment.things)
    in_order = sorted(seen, key=lambda thing: (letters[thing.line_id], thing.lies_as != LiesAs.OLD))
    told = "; ".join(f"{letters[thing.line_id]} {_told(thing)}" for thing in in_order)
    rows = wrapped(told, height_mm=TYPE_MM, room_mm=width_mm - 2 * MARGIN_MM)
    parts = [
        text((MARGIN_MM, top_mm + n * ROW_MM), row, height_mm=TYPE_MM, fill=SOFT_INK) for n, row in enumerate(rows)
    ]
    return parts, top_mm + len(rows) * ROW_MM + 2
