"""What there is to choose from in one picture, each drawn small with its word, the chosen one framed."""

from collections.abc import Sequence
from math import ceil

from planner.documents.drawings.joint_sketches import FITTING_SKETCHES, HALF_MM, JOINT_SKETCHES, Sketch
from planner.documents.drawings.label_places import wrapped
from planner.documents.drawings.shape_key import SHAPE_SKETCHES
from planner.documents.drawings.svg import FAINT, INK, NEW_LINE, PAPER, PaperPoint, Picture, box, group, sheet, text
from planner.documents.words.choice_words import CHOICE_WORDS, choice_word

SKETCHES: dict[str, Sketch] = {
    **SHAPE_SKETCHES,
    **{kind.value: sketch for kind, sketch in JOINT_SKETCHES.items()},
    **{style.value: sketch for style, sketch in FITTING_SKETCHES.items()},
}
"""Every choice that is drawn, by its word in the files."""

CELL_MM, GAP_MM = 2 * HALF_MM + 5.0, 2.0
_DRAWN_MM, _BELOW_MM = 17.0, 1.6
_TYPE_MM, _ROW_MM = 3.5, 4.1


def can_draw_choices(words: Sequence[str]) -> bool:
    """Whether there is a drawing of every one of these choices, and a choice at all."""
    return len(words) > 1 and all(word in SKETCHES for word in words)


def draw_choices(words: Sequence[str], *, picked: str = "", width_mm: float = 180.0) -> Picture:
    """A small drawing of each choice with its word, in as many rows as it takes.

    words : of opening shapes, kinds of methods or styles of fittings, as files have them
    picked : the one that is framed; "" for none
    width_mm : of the paper; the height follows

    Raises KeyError for a choice of which there is no drawing.
    """
    columns = max(1, min(len(words), int((width_mm + GAP_MM) / (CELL_MM + GAP_MM))))
    named = {word: wrapped(choice_word(word), height_mm=_TYPE_MM, room_mm=CELL_MM - 1) for word in words}
    high_mm = _DRAWN_MM + max(map(len, named.values())) * _ROW_MM + _BELOW_MM
    cells = []
    for place, word in enumerate(words):
        row, column = divmod(place, columns)
        corner = (column * (CELL_MM + GAP_MM), row * (high_mm + GAP_MM))
        cells.append(_cell(word, named[word], corner, high_mm=high_mm, is_picked=word == picked))
    height_mm = ceil(len(words) / columns) * (high_mm + GAP_MM) - GAP_MM
    told = "; ".join(CHOICE_WORDS[word] for word in words)
    return sheet(cells, width_mm=width_mm, height_mm=height_mm, title=f"To choose from: {told}")


def _cell(word: str, name: Sequence[str], corner: PaperPoint, *, high_mm: float, is_picked: bool) -> str:
    x, y = corner
    pen_mm = 0.9 if is_picked else 0.25
    frame = box(
        (x + pen_mm / 2, y + pen_mm / 2),
        width_mm=CELL_MM - pen_mm,
        height_mm=high_mm - pen_mm,
        fill=PAPER,
        stroke=NEW_LINE if is_picked else FAINT,
        pen_mm=pen_mm,
        corner_radius_mm=1.2,
    )
    middle = x + CELL_MM / 2
    drawn = SKETCHES[word]((middle, y + _DRAWN_MM / 2))
    for n, row in enumerate(name):
        at = (middle, y + _DRAWN_MM + _TYPE_MM + n * _ROW_MM)
        drawn.append(text(at, row, height_mm=_TYPE_MM, anchor="middle", fill=INK))
    return group([frame, group(drawn, role="drawn")], role="port", name=word, title=CHOICE_WORDS[word])
