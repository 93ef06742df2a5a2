"""`lineplan sheet` and `lineplan gauge` as a person calls them."""

from pathlib import Path

import pytest
from pypdf import PdfReader

from tests.ui.shop_samples import CATALOG, CITY, DAY, TRAIL, done, flat, lineplan, refused


def words_of(pdf: Path) -> str:
    return flat(" ".join(page.extract_text() for page in PdfReader(pdf).pages))


def test_a_sheet_of_a_frame_names_its_holes(tmp_path: Path) -> None:
    sheet = tmp_path / "sheet.pdf"
    assert done("sheet", "quillfern-130", *CATALOG, *DAY, "--pdf", sheet) == f"Measuring sheet: {sheet}\n"
    told = words_of(sheet)
    for words in ("Quillfern 130", "Down tube, upper left", "2031-03-14"):
        assert words in told


def test_a_blank_sheet_needs_no_frame(tmp_path: Path) -> None:
    sheet = tmp_path / "sheet.pdf"
    done("sheet", *DAY, "--holes", "2", "--pdf", sheet)
    assert words_of(sheet).count("thickness of the wall") == 2


def test_a_frame_that_is_not_there_is_refused_with_those_that_are(tmp_path: Path) -> None:
    told = refused("sheet", "nobody", *CATALOG, "--pdf", tmp_path / "sheet.pdf")
    assert "sheet > nobody: no frame of this id, allowed: " in told
    assert "quillfern-130" in told
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("command", [("sheet",), ("gauge", TRAIL, *CATALOG)])
def test_a_file_that_is_there_is_kept_unless_asked(command: tuple[object, ...], tmp_path: Path) -> None:
    mine = tmp_path / "mine.pdf"
    mine.write_text("mine", encoding="utf-8")
    refused(*command, "--pdf", mine)
    assert mine.read_text(encoding="utf-8") == "mine"
    done(*command, "--pdf", mine, "--replace")
    assert mine.read_bytes().startswith(b"%PDF")


def test_a_gauge_has_plugs_for_the_holes_and_the_ruler(tmp_path: Path) -> None:
    """The stay's hole 6.4 +-0.1 takes a joint of 5.23 +-0.05: from 5.28 on."""
    gauge = tmp_path / "gauge.pdf"
    told = done("gauge", TRAIL, *CATALOG, *DAY, "--pdf", gauge)
    assert told.startswith("It fits:")
    printed = words_of(gauge)
    for words in ("must go in: round 5.28 mm", "as told: round 6.4 mm", "lay a real ruler on it"):
        assert words in printed


def test_a_no_is_gauged_too_and_says_where_nothing_can_be(tmp_path: Path) -> None:
    gauge = tmp_path / "gauge.pdf"
    result = lineplan("gauge", CITY, *CATALOG, *DAY, "--pdf", gauge)
    assert result.exit_code == 3
    assert "The answer rests on no hole that could be gauged." in words_of(gauge)
