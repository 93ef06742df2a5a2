"""The SVG layer: true to its millimetres, stable, safe, and without what converters lose."""

import xml.etree.ElementTree as ET

import pytest

from planner.documents.drawings.svg import PAPER, WHITE, PaperView, box, circle, figure, group, polyline, sheet, text

SVG = "{http://www.w3.org/2000/svg}"


@pytest.mark.parametrize(
    ("value", "written"),
    [(0.0, "0"), (-0.001, "0"), (1.0, "1"), (1.005, "1"), (1.2345, "1.23"), (-2.5, "-2.5"), (10.0, "10")],
)
def test_numbers_are_written_shortly_and_never_as_minus_nought(value: float, written: str) -> None:
    assert figure(value) == written


def test_paper_size_is_given_in_millimetres_three_times() -> None:
    root = ET.fromstring(sheet([], width_mm=90, height_mm=40.5, title="a hole").svg)
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("90mm", "40.5mm", "0 0 90 40.5")


def test_the_paper_is_painted_so_that_a_dark_page_does_not_show_through() -> None:
    first = next(iter(ET.fromstring(sheet([], width_mm=90, height_mm=40, title="t").svg).iter(f"{SVG}rect")))
    assert (first.get("width"), first.get("height")) == ("90", "40")
    assert (first.get("fill") or "none") != "none"


def test_words_and_titles_are_escaped() -> None:
    hostile = "<script>alert('x')</script> & \"more\""
    svg = sheet(
        [group([text((1, 2), hostile)], role="port", name=hostile, title=hostile)],
        width_mm=9,
        height_mm=9,
        title=hostile,
    ).svg
    root = ET.fromstring(svg)
    assert root.find(f".//{SVG}text").text == hostile  # type: ignore[union-attr]
    assert root.find(f".//{SVG}g").get("data-name") == hostile  # type: ignore[union-attr]
    assert "<script" not in svg


def test_a_picture_knows_the_size_of_its_paper() -> None:
    picture = sheet([], width_mm=90, height_mm=42.123, title="empty")
    assert (picture.width_mm, picture.height_mm) == (90, 42.123)
    root = ET.fromstring(picture.svg)
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("90mm", "42.12mm", "0 0 90 42.12")


def test_on_white_paper_the_tint_of_the_screen_is_not_printed() -> None:
    picture = sheet([box((0, 0), width_mm=1, height_mm=1, fill=PAPER)], width_mm=9, height_mm=9, title="tinted")
    assert PAPER in picture.svg
    assert (picture.svg_on_white().count(WHITE), PAPER in picture.svg_on_white()) == (2, False)


def test_an_area_is_as_opaque_as_asked_and_says_nothing_where_it_is_solid() -> None:
    for drawn in (
        circle((0, 0), diameter_mm=2, opacity=0.22),
        box((0, 0), width_mm=1, height_mm=1, fill=PAPER, opacity=0.22),
    ):
        assert drawn.endswith(' fill-opacity="0.22"/>')
    assert "opacity" not in circle((0, 0), diameter_mm=2) + box((0, 0), width_mm=1, height_mm=1, fill=PAPER)


def test_a_view_turns_heights_upside_down_once() -> None:
    view = PaperView(left_mm=-100, top_mm=50, scale_ratio=0.5, origin_mm=(10, 20))
    assert view.at(-100, 50) == (10, 20)
    assert view.at(100, -50) == (110, 70)


def test_a_line_without_dashes_has_no_dash_attribute() -> None:
    assert "dasharray" not in polyline([(0, 0), (1, 1)])
    assert 'stroke-dasharray="2 1"' in polyline([(0, 0), (1, 1)], dash_mm=(2, 1))


def test_a_shape_without_stroke_names_none_of_it() -> None:
    assert "stroke" not in circle((0, 0), diameter_mm=2, stroke="none", fill="#000")
    assert "stroke" not in box((0, 0), width_mm=1, height_mm=1, fill="#000")
