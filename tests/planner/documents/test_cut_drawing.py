"""The picture of a cut list: every piece in its place, to scale."""

from itertools import combinations
from xml.etree import ElementTree

import pytest

from planner.documents.drawings.cut_drawing import MARGIN_MM, draw_cut_list, draw_cut_pages
from planner.plan.cut_list import Piece, StockLength, find_cut_list
from tests.planner.documents.drawing_samples import boxes_of_words

SVG = "{http://www.w3.org/2000/svg}"
ROLL = StockLength(id="roll <A>", line_id="hose", length_mm=3000)


def _pieces(*lengths_mm: float) -> list[Piece]:
    return [Piece(id=f"job {length_mm:g}", line_id="hose", length_mm=length_mm) for length_mm in lengths_mm]


def test_pieces_are_drawn_to_scale_one_behind_the_other() -> None:
    drawn = draw_cut_list(find_cut_list(pieces=_pieces(1500, 900), stock=[ROLL]), width_mm=160).svg
    boxes = [
        (float(box.attrib["x"]), float(box.attrib["width"]))
        for box in ElementTree.fromstring(drawn).iter(f"{SVG}rect")
        if box.attrib.get("stroke") == "#fcfbf8"
    ]
    assert boxes == [pytest.approx((MARGIN_MM, 75)), pytest.approx((MARGIN_MM + 75, 45))]


@pytest.mark.parametrize(
    ("keep_from_mm", "words"),
    [(500, "1 × roll <A>, 3000 mm; keep 600 mm"), (700, "1 × roll <A>, 3000 mm; scrap 600 mm")],
    ids=["kept", "scrap"],
)
def test_end_piece_is_told(keep_from_mm: float, words: str) -> None:
    found = find_cut_list(pieces=_pieces(1500, 900), stock=[ROLL], keep_offcut_from_mm=keep_from_mm)
    assert words in _words(draw_cut_list(found).svg)


def test_lengths_cut_alike_share_a_bar() -> None:
    pieces = [Piece(id="rear", line_id="hose", length_mm=1500, quantity=6)]
    words = _words(draw_cut_list(find_cut_list(pieces=pieces, stock=[ROLL])).svg)
    assert [each for each in words if "×" in each] == ["3 × roll <A>, 3000 mm"]
    assert "3 rolls opened (fewer is not possible); scrap 0 mm" in words


def test_pieces_that_cannot_be_cut_are_told_where_nothing_is_drawn() -> None:
    words = _words(draw_cut_list(find_cut_list(pieces=_pieces(4000), stock=[ROLL])).svg)
    assert words == ["0 rolls opened (fewer is not possible); scrap 0 mm; pieces that cannot be cut: 1"]


def test_same_list_gives_the_same_picture() -> None:
    found = find_cut_list(pieces=_pieces(1500, 900, 700), stock=[ROLL])
    assert draw_cut_list(found).svg == draw_cut_list(found).svg


def _words(drawn: str) -> list[str]:
    return [each.text or "" for each in ElementTree.fromstring(drawn).iter(f"{SVG}text")]


def test_names_without_room_in_the_bar_stand_below_it_in_order() -> None:
    pieces = [
        Piece(id="a-long-name-for-a-job", line_id="hose", length_mm=500),
        Piece(id="an-even-longer-name-for-a-job", line_id="hose", length_mm=400),
    ]
    words = _words(draw_cut_list(find_cut_list(pieces=pieces, stock=[ROLL]), width_mm=160).svg)
    assert "a-long-name-for-a-job 500 mm, an-even-longer-name-for-a-job 400 mm" in words
    short = _words(draw_cut_list(find_cut_list(pieces=_pieces(1500, 900), stock=[ROLL]), width_mm=160).svg)
    assert not any("," in each and "×" not in each for each in short)


def test_a_long_list_takes_several_pictures_to_one_scale_with_every_piece_once() -> None:
    found = find_cut_list(pieces=_pieces(*range(1600, 2800, 100)), stock=[ROLL])
    pages = [page.svg for page in draw_cut_pages(found, width_mm=160, height_mm=100)]
    assert len(pages) == 3
    heights = [float(ElementTree.fromstring(page).attrib["height"].removesuffix("mm")) for page in pages]
    assert max(heights) <= 100
    words = [word for page in pages for word in _words(page)]
    assert sorted(word for word in words if word.startswith("job")) == sorted(
        f"job {mm}" for mm in range(1600, 2800, 100)
    )
    assert [word for word in words if "opened" in word] == [_words(pages[-1])[-1]]


@pytest.mark.parametrize(("height_mm", "count"), [(46.9, 2), (47.0, 1)], ids=["a hair too low", "just high enough"])
def test_a_picture_is_begun_anew_only_where_there_is_no_room(height_mm: float, count: int) -> None:
    found = find_cut_list(pieces=_pieces(2000, 2100), stock=[ROLL])
    assert len(draw_cut_pages(found, width_mm=160, height_mm=height_mm)) == count


def test_on_narrow_paper_no_words_leave_it_and_the_rows_keep_apart() -> None:
    stock = StockLength(id="a-roll-with-a-long-name-behind-the-door", line_id="hose", length_mm=3000)
    found = find_cut_list(pieces=_pieces(1500, 900), stock=[stock])
    picture = draw_cut_list(found, width_mm=90)
    boxes = boxes_of_words(picture.svg)
    assert all(area.right_mm <= 90 and area.bottom_mm <= picture.height_mm for _, area in boxes)
    assert all(one.shared_with(other) == 0 for (_, one), (_, other) in combinations(boxes, 2))
