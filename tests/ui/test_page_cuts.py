"""Cut lists on the page: saved jobs, own pieces, stock from a file or typed, and what is taken away of it."""

from pathlib import Path
from typing import Any

import pytest
from streamlit.testing.v1 import AppTest

from catalog import read_catalog, read_stock, stock_text_after, taken_before, taken_entry
from planner import Piece, cuts_csv, find_job_cuts
from tests.ui.page_builders import open_page, pictures_of, verdicts_of, words_of
from tests.ui.shop_samples import CATALOG, DEMO, done
from ui.page.forms.cuts_form import PIECES, PREFIX, STOCK
from ui.shared.days import today_in


def _keyed(found: Any, key: str) -> Any:
    (one,) = [one for one in found if one.key == key]
    return one


def _fill(page: AppTest, prefix: str, n: int, line_id: str, length: str, count: str = "") -> None:
    _keyed(page.selectbox, f"{prefix}line{n}").set_value(line_id).run()
    _keyed(page.text_input, f"{prefix}length{n}_mm").set_value(length)
    _keyed(page.text_input, f"{prefix}count{n}").set_value(count).run()
    assert not page.exception


def _cuts(monkeypatch: pytest.MonkeyPatch, store: Path, **address: str) -> AppTest:
    return open_page(monkeypatch, store=store, screen="cuts", **address)


def test_own_pieces_are_cut_from_typed_stock(store: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = _cuts(monkeypatch, store)
    assert "Choose jobs or pieces, and stock to cut them from." in words_of(page)
    _fill(page, PIECES, 0, "hose-50x21", "800,5", "2")
    _fill(page, f"{PREFIX}{STOCK}", 0, "hose-50x21", "1700")
    ((outcome, sentence),) = verdicts_of(page)
    assert outcome == "fits"
    assert "1 roll" in sentence
    told = words_of(page)
    assert "801" in told or "800.5" in told
    assert "cut_list" in pictures_of(page)
    assert {"Cut sheet (PDF)", "Cuts (CSV)", "Stock that is left (YAML)"} <= {
        one.label for one in page.get("download_button")
    }


def test_a_saved_job_and_a_piece_too_long_are_told_apart(store: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = _cuts(monkeypatch, store)
    _keyed(page.multiselect, f"{PREFIX}jobs").set_value(["trail-rear-brake"])
    _keyed(page.checkbox, f"{PREFIX}all_from_stock").check().run()
    _fill(page, PIECES, 0, "hose-50x21", "9000")
    _fill(page, f"{PREFIX}{STOCK}", 0, "hose-50x21", "3000", "1")
    ((outcome, sentence),) = verdicts_of(page)
    assert outcome == "no_fit"
    assert "Without a line: 1 of 2" in sentence
    assert "piece-1: 9000 mm of" in words_of(page).replace("*", "")


def test_the_lines_of_a_saved_visit_are_cut_with_the_others(store: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    done("save", DEMO / "cockpit-swap.visit.yaml", *CATALOG, "-c", DEMO / "hardtail-wide.frame.yaml", "--store", store)
    page = _cuts(monkeypatch, store)
    _keyed(page.multiselect, f"{PREFIX}jobs").set_value(["cockpit-swap"]).run()
    _fill(page, f"{PREFIX}{STOCK}", 0, "hose-55x25", "3000", "1")
    assert [one.value for one in page.error] == []
    told = words_of(page)
    assert "Without a line: 2 of 4" in told, "two come with their brake or set"
    title = "Cockpit swap: thicker brake hose, thinner gear housing, two wires"
    assert f"cockpit-swap-rear-brake: {title}: rear-brake" in told, "people know a job by its title"


def test_what_is_not_right_is_said_at_its_field_and_nothing_is_cut(
    store: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = _cuts(monkeypatch, store)
    _fill(page, PIECES, 0, "hose-50x21", "800", "1.5")
    _fill(page, f"{PREFIX}{STOCK}", 0, "hose-50x21", "-3")
    assert {one.value for one in page.error} == {"A whole number, 1 or more.", "A length above zero."}
    assert verdicts_of(page) == []


def test_a_cut_list_that_is_typed_comes_back_after_a_reload(store: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = _cuts(monkeypatch, store)
    _fill(page, PIECES, 0, "hose-50x21", "800")
    found = page.query_params["draft"]
    again = _cuts(monkeypatch, store, draft=found if isinstance(found, str) else found[0])
    assert _keyed(again.text_input, f"{PIECES}length0_mm").value == "800"


def test_own_pieces_count_when_a_list_was_cut_before(tmp_path: Path) -> None:
    catalog = read_catalog()
    own = (Piece(id="piece-1", line_id="hose-50x21", length_mm=800.0, quantity=2),)
    path = tmp_path / "stock.yaml"
    path.write_text((DEMO / "workshop.stock.yaml").read_text(encoding="utf-8"), encoding="utf-8")

    def found(own: tuple[Piece, ...]) -> Any:
        stock = read_stock(path, catalog)
        cuts = find_job_cuts(jobs=(), workshop=catalog.workshop, stock=stock.lengths, own=own)
        return stock, cuts

    stock, cuts = found(own)
    assert taken_before(stock, cuts) is None
    text = stock_text_after(stock, cuts.cut_list, taken=taken_entry(cuts, on=today_in("")))
    path.write_text(text, encoding="utf-8")
    assert taken_before(*found(own)) is not None
    other = (Piece(id="piece-1", line_id="hose-50x21", length_mm=800.0, quantity=1),)
    assert taken_before(*found(other)) is None


def test_a_cut_list_for_a_spreadsheet_has_a_row_for_each_cut_and_what_is_left() -> None:
    catalog = read_catalog()
    stock = read_stock(DEMO / "workshop.stock.yaml", catalog)
    own = (Piece(id="piece-1", line_id="hose-50x21", length_mm=800.5, quantity=1),)
    cuts = find_job_cuts(jobs=(), workshop=catalog.workshop, stock=stock.lengths, own=own, keep_offcut_from_mm=300)
    head, cut, rest = cuts_csv(cuts, line_names={"hose-50x21": "=A hose"}).splitlines()
    assert head.endswith('"from","line","line_name","for","start_mm","end_mm","length_mm"')
    assert cut == '"1. short-50x21","hose-50x21","\'=A hose","piece-1","0","800.5","800.5"'
    assert rest == '"1. short-50x21","hose-50x21","\'=A hose","offcut","800.5","1480","679.5"'
