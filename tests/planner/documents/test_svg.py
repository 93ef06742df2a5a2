"""The SVG layer: true to its millimetres, stable, safe, and without what converters lose."""

import xml.etree.ElementTree as ET

import pytest

from planner.documents.drawings.svg import PaperView, box, circle, figure, group, polyline, sheet, text

SVG = "{http://www.w3.org/2000/svg}"


@pytest.mark.parametrize(
    ("value", "written"),
    [(0.0, "0"), (-0.001, "0"), (1.0, "1"), (1.005, "1"), (1.2345, "1.23"), (-2.5, "-2.5"), (10.0, "10")],
)
def test_numbers_are_written_shortly_and_never_as_minus_nought(value: float, written: str) -> None:
    assert figure(value) == written


def test_paper_size_is_given_in_millimetres_three_times() -> None:
    root = ET.fromstring(sheet([], width_mm=90, height_mm=40.5, title="a hole"))
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("90mm", "40.5mm", "0 0 90 40.5")


def test_the_paper_is_painted_so_that_a_dark_page_does_not_show_through() -> None:
    first = next(iter(ET.fromstring(sheet([], width_mm=90, height_mm=40, title="t")).iter(f"{SVG}rect")))
    assert (first.get("width"), first.get("height")) == ("90", "40")
    assert (first.get("fill") or "none") != "none"


def test_words_and_titles_are_escaped() -> None:
    hostile = "<script>alert('x')</script> & \"more\""
    svg = sheet(
        [group([text((1, 2), hostile)], role="port", name=hostile, title=hostile)],
        width_mm=9,
        height_mm=9,
        title=hostile,
    )
    root = ET.fromstring(svg)
    assert root.find(f".//{SVG}text").text == hostile  # type: ignore[union-attr]
    assert root.find(f".//{SVG}g").get("data-name") == hostile  # type: ignore[union-attr]
    assert "<script" not in svg


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
