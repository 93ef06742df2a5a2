"""A table as a picture: frames down, brakes across, each outcome by its shape as well as its colour."""

from collections.abc import Sequence

from planner.documents.drawings.drawing_marks import outcome_mark
from planner.documents.drawings.label_places import text_width_mm, wrapped
from planner.documents.drawings.svg import FAINT, INK, SOFT_INK, PaperPoint, Picture, group, polyline, sheet, text
from planner.documents.words.outcome_words import outcome_word
from planner.verdicts import Outcome

MARGIN_MM = 3.0
TYPE_MM = 3.0
ROW_MM = 4.0
CELL_MM, MARK_MM = 6.6, 4.2
NAMES_RATIO = 0.42
"""How much of the width the names of frames may take."""

GAP_MM = 5.0


def draw_table(
    *, frames: Sequence[str], brakes: Sequence[str], outcomes: Sequence[Sequence[Outcome]], width_mm: float = 180.0
) -> Picture:
    """A row for each frame and a column for each brake; where they do not go side by side, columns go on below.

    Brakes are numbered above the columns, and told by name below the marks.

    frames, brakes : what people call them
    outcomes : for each frame, that of each brake
    width_mm : of the paper; the height follows
    """
    most = max(1, int((width_mm * (1 - NAMES_RATIO) - 2 * MARGIN_MM) // CELL_MM))
    blocks_n = -(-len(brakes) // most) or 1
    across = -(-len(brakes) // blocks_n) or 1
    names_mm = width_mm - 2 * MARGIN_MM - across * CELL_MM - 2
    parts: list[str] = []
    y_mm = MARGIN_MM
    for first in range(0, len(brakes), across):
        some = range(first, min(first + across, len(brakes)))
        y_mm = _block(parts, frames, brakes, outcomes, some, names_mm=names_mm, top_mm=y_mm) + GAP_MM
    y_mm = _marks_key(parts, top_mm=y_mm, width_mm=width_mm)
    y_mm = _names_key(parts, brakes, top_mm=y_mm, width_mm=width_mm)
    return sheet(parts, width_mm=width_mm, height_mm=y_mm + MARGIN_MM, title="Which brake goes on which frame")


def _block(
    parts: list[str],
    frames: Sequence[str],
    brakes: Sequence[str],
    outcomes: Sequence[Sequence[Outcome]],
    some: range,
    *,
    names_mm: float,
    top_mm: float,
) -> float:
    """Some of the columns; where their paper ends."""
    left_mm = MARGIN_MM + names_mm + 2
    middle = [left_mm + (place + 0.5) * CELL_MM for place in range(len(some))]
    for x_mm, number in zip(middle, some, strict=True):
        parts.append(text((x_mm, top_mm + TYPE_MM), f"{number + 1}", height_mm=TYPE_MM, anchor="middle", is_bold=True))
    y_mm = top_mm + TYPE_MM + 1.5
    right_mm = left_mm + len(some) * CELL_MM
    for name, row in zip(frames, outcomes, strict=True):
        rows = wrapped(name, height_mm=TYPE_MM, room_mm=names_mm)
        tall_mm = max(CELL_MM, len(rows) * ROW_MM + 1.6)
        parts.append(polyline([(MARGIN_MM, y_mm), (right_mm, y_mm)], stroke=FAINT, width_mm=0.2))
        first_mm = y_mm + (tall_mm - len(rows) * ROW_MM) / 2 + TYPE_MM
        parts += [text((MARGIN_MM, first_mm + n * ROW_MM), words, height_mm=TYPE_MM) for n, words in enumerate(rows)]
        for x_mm, number in zip(middle, some, strict=True):
            parts.append(_cell((x_mm, y_mm + tall_mm / 2), row[number], f"{name}, {brakes[number]}"))
        y_mm += tall_mm
    parts.append(polyline([(MARGIN_MM, y_mm), (right_mm, y_mm)], stroke=FAINT, width_mm=0.2))
    return y_mm


def _cell(at: PaperPoint, outcome: Outcome, about: str) -> str:
    return group([outcome_mark(at, outcome, size_mm=MARK_MM)], role="pair", title=f"{about}: {outcome_word(outcome)}")


def _marks_key(parts: list[str], *, top_mm: float, width_mm: float) -> float:
    """What each mark says, side by side as far as there is room; where that ends."""
    x_mm, y_mm = MARGIN_MM, top_mm
    for outcome in Outcome:
        words = outcome_word(outcome)
        wide_mm = MARK_MM + 2 + text_width_mm(words, height_mm=TYPE_MM) + 5
        if x_mm > MARGIN_MM and x_mm + wide_mm > width_mm - MARGIN_MM:
            x_mm, y_mm = MARGIN_MM, y_mm + CELL_MM
        parts.append(outcome_mark((x_mm + MARK_MM / 2, y_mm), outcome, size_mm=MARK_MM))
        parts.append(text((x_mm + MARK_MM + 1.5, y_mm + 1.1), words, height_mm=TYPE_MM, fill=INK))
        x_mm += wide_mm
    return y_mm + CELL_MM


def _names_key(parts: list[str], brakes: Sequence[str], *, top_mm: float, width_mm: float) -> float:
    """Which brake each number stands for, in two columns where there is room; where that ends."""
    columns_n = 2 if width_mm >= 150 and len(brakes) > 4 else 1
    room_mm = (width_mm - 2 * MARGIN_MM - (columns_n - 1) * GAP_MM) / columns_n
    rows_n = -(-len(brakes) // columns_n)
    lowest_mm = top_mm
    for column in range(columns_n):
        x_mm, y_mm = MARGIN_MM + column * (room_mm + GAP_MM), top_mm
        for number, name in enumerate(brakes[column * rows_n : (column + 1) * rows_n], start=column * rows_n + 1):
            parts.append(text((x_mm + 5.5, y_mm + TYPE_MM), f"{number}", height_mm=TYPE_MM, anchor="end", is_bold=True))
            for words in wrapped(name, height_mm=TYPE_MM, room_mm=room_mm - 7.5):
                parts.append(text((x_mm + 7.5, y_mm + TYPE_MM), words, height_mm=TYPE_MM, fill=SOFT_INK))
                y_mm += ROW_MM
        lowest_mm = max(lowest_mm, y_mm)
    return lowest_mm
