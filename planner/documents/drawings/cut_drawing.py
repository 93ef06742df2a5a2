"""The cut list as a picture: every way of cutting a length, to one scale, with what is kept and what is lost."""

from collections import Counter
from collections.abc import Sequence

from planner.documents.drawings.drawing_marks import cut_wall
from planner.documents.drawings.label_places import BOLD_RATIO, text_width_mm, wrapped
from planner.documents.drawings.svg import INK, NEW_LINE, PAPER, SOFT_INK, TUBE, Picture, box, group, sheet, text
from planner.plan.cut_list import Cut, CutList, OpenedLength

MARGIN_MM = 5.0
TYPE_MM = 3.0
BAR_MM = 8.0
ROW_MM = 18.0
TOP_MM = 4.0
TOTALS_MM = 7.0
NAME_ROW_MM = 4.2
SHADES = (NEW_LINE, "#3f83bd")


def draw_cut_list(cut_list: CutList, *, width_mm: float = 180.0) -> Picture:
    """One bar for each way of cutting, pieces from the free end, to the scale of the longest stock.

    Lengths cut alike share a bar. A kept end piece is drawn plain, scrap is hatched. Where a piece is too short for its
    name, the names stand below the bar, in the order of the pieces.

    width_mm : of the paper; the height follows
    """
    (picture,) = draw_cut_pages(cut_list, width_mm=width_mm, height_mm=float("inf"))
    return picture


def draw_cut_pages(cut_list: CutList, *, width_mm: float, height_mm: float) -> tuple[Picture, ...]:
    """The same, on as many pictures as it takes, all to one scale; the totals stand below the last bar.

    At least one.

    height_mm : none is higher than this, unless a single bar with its names is
    """
    alike = Counter(cut_list.opened)
    scale = (width_mm - 2 * MARGIN_MM) / max((opened.length_mm for opened in alike), default=1.0)
    pages: list[Picture] = []
    rows: list[str] = []
    y = TOP_MM
    room_mm = width_mm - 2 * MARGIN_MM
    for opened, count in alike.items():
        head, below = _head(opened, count, room_mm=room_mm), _names_below(opened, scale, room_mm=room_mm)
        row_mm = ROW_MM + (len(head) - 1 + len(below)) * NAME_ROW_MM
        if rows and y + row_mm + TOTALS_MM > height_mm:
            pages.append(sheet(rows, width_mm=width_mm, height_mm=y, title="Cut list"))
            rows, y = [], TOP_MM
        rows.append(_row(opened, scale, top_mm=y, head=head, below=below))
        y += row_mm
    totals = wrapped(_summary(cut_list), height_mm=TYPE_MM, room_mm=room_mm)
    rows += _written(totals, y + 3, fill=SOFT_INK)
    height = y + TOTALS_MM + (len(totals) - 1) * NAME_ROW_MM
    return (*pages, sheet(rows, width_mm=width_mm, height_mm=height, title="Cut list"))


def _head(opened: OpenedLength, count: int, *, room_mm: float) -> list[str]:
    """What a length is and what is left of it, in bold rows."""
    words = f"{count} × {opened.stock_id}, {_whole(opened.length_mm)} mm{_rest_in_words(opened)}"
    return wrapped(words, height_mm=TYPE_MM, room_mm=room_mm / BOLD_RATIO)


def _written(rows: Sequence[str], base_mm: float, *, fill: str = INK, is_bold: bool = False) -> list[str]:
    places = [(MARGIN_MM, base_mm + n * NAME_ROW_MM) for n in range(len(rows))]
    return [text(at, row, height_mm=TYPE_MM, fill=fill, is_bold=is_bold) for at, row in zip(places, rows, strict=True)]


def _row(opened: OpenedLength, scale: float, *, top_mm: float, head: Sequence[str], below: Sequence[str]) -> str:
    parts = _written(head, top_mm + 3, is_bold=True)
    bar_top_mm = top_mm + 5 + (len(head) - 1) * NAME_ROW_MM
    width_mm = opened.length_mm * scale
    parts.append(box((MARGIN_MM, bar_top_mm), width_mm=width_mm, height_mm=BAR_MM, fill=TUBE, stroke=INK))
    parts += [_piece(cut, number, scale, top_mm=bar_top_mm) for number, cut in enumerate(opened.cuts)]
    parts += _end_piece(opened, scale, top_mm=bar_top_mm)
    parts += _written(below, bar_top_mm + BAR_MM + NAME_ROW_MM)
    return group(parts, role="opened", name=opened.stock_id, title=_in_words(opened.cuts))


def _piece(cut: Cut, number: int, scale: float, *, top_mm: float) -> str:
    width_mm = cut.length_mm * scale
    left_mm = MARGIN_MM + cut.start_mm * scale
    parts = [box((left_mm, top_mm), width_mm=width_mm, height_mm=BAR_MM, fill=SHADES[number % 2], stroke=PAPER)]
    for row, words in enumerate((cut.piece_id, _whole(cut.length_mm))):
        if _has_room(words, width_mm):
            at = (left_mm + width_mm / 2, top_mm + 3.4 + row * 3.4)
            parts.append(text(at, words, height_mm=TYPE_MM, fill=PAPER, anchor="middle"))
    return group(parts)


def _names_below(opened: OpenedLength, scale: float, *, room_mm: float) -> list[str]:
    """Rows that name the pieces in order; none where every piece has room for its own name."""
    if all(_has_room(cut.piece_id, cut.length_mm * scale) for cut in opened.cuts):
        return []
    return wrapped(_in_words(opened.cuts), height_mm=TYPE_MM, room_mm=room_mm)


def _has_room(words: str, width_mm: float) -> bool:
    return text_width_mm(words, height_mm=TYPE_MM) < width_mm - 1


def _end_piece(opened: OpenedLength, scale: float, *, top_mm: float) -> list[str]:
    width_mm = opened.scrap_mm * scale
    if width_mm < 1:
        return []
    left_mm = MARGIN_MM + (opened.length_mm - opened.scrap_mm) * scale
    return [cut_wall((left_mm, top_mm), width_mm=width_mm, height_mm=BAR_MM)]


def _rest_in_words(opened: OpenedLength) -> str:
    if opened.offcut_mm:
        return f"; keep {_whole(opened.offcut_mm)} mm"
    return f"; scrap {_whole(opened.scrap_mm)} mm" if opened.scrap_mm else ""


def _in_words(cuts: Sequence[Cut]) -> str:
    return ", ".join(f"{cut.piece_id} {_whole(cut.length_mm)} mm" for cut in cuts)


def _summary(cut_list: CutList) -> str:
    proof = "fewer is not possible" if cut_list.is_proven else f"at most {cut_list.rolls_above_n} more than needed"
    uncut = sum(piece.quantity for piece in cut_list.uncut)
    missing = f"; pieces that cannot be cut: {uncut}" if uncut else ""
    rolls = "1 roll" if cut_list.rolls_used == 1 else f"{cut_list.rolls_used} rolls"
    return f"{rolls} opened ({proof}); scrap {_whole(cut_list.waste_mm)} mm{missing}"


def _whole(length_mm: float) -> str:
    return f"{length_mm:.2f}".rstrip("0").rstrip(".")
