"""Where the words of a picture go, so that none lies on another or on a mark.

Important words choose first, each the first free of 48 places, so that the same plan gives the same bytes.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.documents.drawings.svg import PaperPoint

Array = NDArray[np.float64]

MEAN_LETTER_WIDTH_RATIO = 0.62
"""Width of a letter against the height of the type; on the wide side, so that estimated boxes are never too small."""

BOLD_RATIO = 1.08
"""Width of a bold letter against a plain one."""

ROW_RATIO = 1.25
"""Height of a row against that of its type."""

TOUCHING_DIGITS = 9
"""Areas that share less than the last of these digits of a square millimetre only touch."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Area:
    """An upright rectangle of paper.

    left_mm, top_mm, right_mm, bottom_mm : its edges [mm]
    """

    left_mm: float
    top_mm: float
    right_mm: float
    bottom_mm: float

    def shared_with(self, other: "Area") -> float:
        """How much paper the two have in common, in square millimetres."""
        return float(_shared_mm2(_rows([self]), _rows([other])).sum())

    def holds(self, point: PaperPoint) -> bool:
        """Whether a point lies in it, off its edges."""
        return self.left_mm < point[0] < self.right_mm and self.top_mm < point[1] < self.bottom_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """Words that belong to a point.

    words : one row, or several with line ends between them
    point : what they belong to
    height_mm : of the type [mm]
    is_bold : whether they stand out
    """

    words: str
    point: PaperPoint
    height_mm: float
    is_bold: bool = False

    @property
    def rows(self) -> list[str]:
        """The words row by row."""
        return self.words.split("\n")


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedLabel:
    """Words with the paper they take.

    label : the words
    area : their rectangle
    """

    label: Label
    area: Area

    @property
    def base(self) -> PaperPoint:
        """Left end of the base line of the last row."""
        return (self.area.left_mm, self.area.bottom_mm - self.label.height_mm * 0.28)


def text_width_mm(words: str, *, height_mm: float) -> float:
    """About how wide a row of words comes out; rather too much than too little.

    Source: Widths of the letters of a common sans-serif type, averaged; measured on a rendered picture.
    """
    return len(words) * height_mm * MEAN_LETTER_WIDTH_RATIO


def wrapped(words: str, *, height_mm: float, room_mm: float) -> list[str]:
    """The words in rows that stay within the room; a single longer word keeps a row of its own.

    words : any text
    room_mm : width of a row
    """
    rows: list[str] = []
    for word in words.split():
        longer = f"{rows[-1]} {word}" if rows else word
        if rows and text_width_mm(longer, height_mm=height_mm) <= room_mm:
            rows[-1] = longer
        else:
            rows.append(word)
    return rows


def area_around(point: PaperPoint, *, size_mm: float) -> Area:
    """The square of paper around a mark.

    point : the middle of the mark
    size_mm : its width and height
    """
    half = size_mm / 2
    return Area(left_mm=point[0] - half, top_mm=point[1] - half, right_mm=point[0] + half, bottom_mm=point[1] + half)


def place_labels(
    labels: Sequence[Label], *, paper: Area, taken: Sequence[Area] = (), avoid: Sequence[PaperPoint] = ()
) -> tuple[PlacedLabel, ...]:
    """A place for every label beside its point: inside the paper, off the marks, off one another, off the lines.

    Each label in turn takes the cheapest of the places around its point, nearest first. Where the picture is so full
    that none is free, the one with the least overlap is taken.

    labels : most important first; they choose in this order
    paper : what the labels must stay within
    taken : marks no label may lie on
    avoid : points along lines that are better left free
    """
    placed: list[PlacedLabel] = []
    for label in labels:
        candidates = _candidates(label)
        around = _all_of(candidates)  # what lies off all of them weighs nothing, and most does
        near = [point for point in avoid if around.holds(point)]
        crowding = _crowding(_rows(candidates), _rows([paper]), _rows([*taken, *(other.area for other in placed)]))
        placed.append(PlacedLabel(label=label, area=_cheapest(candidates, crowding, near)))
    return tuple(placed)


def _all_of(areas: Sequence[Area]) -> Area:
    """The least area that covers all of these."""
    return Area(
        left_mm=min(area.left_mm for area in areas),
        top_mm=min(area.top_mm for area in areas),
        right_mm=max(area.right_mm for area in areas),
        bottom_mm=max(area.bottom_mm for area in areas),
    )


def _cheapest(candidates: Sequence[Area], crowding: Sequence[float], avoid: Sequence[PaperPoint]) -> Area:
    """The nearest free place, off the lines where there is a choice; where none is free, the least crowded one."""
    best, least = candidates[0], (float("inf"), float("inf"))
    for rank, (area, crowded) in enumerate(zip(candidates, crowding, strict=True)):
        if (crowded, float(rank)) < least:  # lines are only looked at where a place could still win
            on_lines = sum(map(area.holds, avoid))
            cost = (crowded, rank + 25.0 * on_lines)
            if cost < least:
                best, least = area, cost
    return best


def _candidates(label: Label) -> list[Area]:
    longest = max(label.rows, key=len)
    width_mm = text_width_mm(longest, height_mm=label.height_mm) * (BOLD_RATIO if label.is_bold else 1.0)
    height_mm = label.height_mm * ROW_RATIO * len(label.rows)
    x, y = label.point
    areas = []
    for gap_mm in (1.0, 1.4, 1.9, 2.6, 3.6, 5.0):
        gap = gap_mm * label.height_mm
        middles = [
            (x + gap + width_mm / 2, y),
            (x - gap - width_mm / 2, y),
            (x, y - gap - height_mm / 2),
            (x, y + gap + height_mm / 2),
            (x + gap * 0.7 + width_mm / 2, y - gap * 0.7 - height_mm / 2),
            (x + gap * 0.7 + width_mm / 2, y + gap * 0.7 + height_mm / 2),
            (x - gap * 0.7 - width_mm / 2, y - gap * 0.7 - height_mm / 2),
            (x - gap * 0.7 - width_mm / 2, y + gap * 0.7 + height_mm / 2),
        ]
        areas += [
            Area(
                left_mm=cx - width_mm / 2,
                top_mm=cy - height_mm / 2,
                right_mm=cx + width_mm / 2,
                bottom_mm=cy + height_mm / 2,
            )
            for cx, cy in middles
        ]
    return areas


def _crowding(areas: Array, paper: Array, occupied: Array) -> list[float]:
    """Square millimetres off the paper, which weigh most, and on others; 0 where an area is free or only touches."""
    whole = (areas[:, 2] - areas[:, 0]) * (areas[:, 3] - areas[:, 1])
    off_paper = whole - _shared_mm2(areas, paper).sum(axis=1)
    crowded = np.round(3 * off_paper + _shared_mm2(areas, occupied).sum(axis=1), TOUCHING_DIGITS)
    return [float(each) for each in crowded]


def _rows(areas: Sequence[Area]) -> Array:
    """Their edges, a row each: left, top, right, bottom. [mm]"""
    edges = [(area.left_mm, area.top_mm, area.right_mm, area.bottom_mm) for area in areas]
    return np.array(edges, dtype=np.float64).reshape(-1, 4)


def _shared_mm2(some: Array, others: Array) -> Array:
    """How much paper each of some has in common with each of others."""
    least = np.minimum(some[:, None, 2:], others[None, :, 2:]) - np.maximum(some[:, None, :2], others[None, :, :2])
    shared: Array = np.maximum(least, 0.0).prod(axis=2)
    return shared
