"""A traced hole on the terminal, in "Will it pass?", in New frame and in the catalog's form."""

import json
from pathlib import Path
from typing import Any

import pytest
import yaml
from streamlit.testing.v1 import AppTest

from tests.catalog.test_traced_outline import CIRCLE, svg
from tests.ui.dialogue.told import TWO_HOLES
from tests.ui.page_builders import box, button, open_page, pictures_of, words_of
from tests.ui.shop_samples import done, refused
from ui.shared import extras

ROUND_10 = svg(CIRCLE)


@pytest.fixture
def drawing(tmp_path: Path) -> Path:
    """A round hole of 10 mm as a drawing."""
    path = tmp_path / "hole.svg"
    path.write_bytes(ROUND_10)
    return path


def test_the_terminal_tells_the_figures_and_the_opening_as_it_is_typed(drawing: Path, tmp_path: Path) -> None:
    told = done("trace", drawing, "--to", tmp_path / "hole.yaml", "--picture", tmp_path / "seen.svg")
    assert "10.00 × 10.00 mm over everything, area 78.4 mm²" in told
    (typed,) = [line for line in told.splitlines() if line.startswith("outline ")]
    answer = json.loads(done("fit", "--opening", typed, "--item", "5", "--json"))
    assert answer["clearance_mm"] == pytest.approx(5, abs=0.03)
    written = yaml.safe_load((tmp_path / "hole.yaml").read_text(encoding="utf-8"))
    record = json.loads(done("trace", drawing, "--json"))
    assert written["opening"] == record["opening"]
    assert "10.00 mm" in (tmp_path / "seen.svg").read_text(encoding="utf-8")


def test_what_cannot_be_traced_is_refused_with_its_file(drawing: Path, tmp_path: Path) -> None:
    drawing.write_bytes(svg(CIRCLE, 'viewBox="0 0 100 50"'))
    assert "hole.svg: It does not say in which unit" in refused("trace", drawing)
    assert "trace > length: 900 mm was given" in refused("trace", drawing, "--length", "900")
    assert "there is no such file" in refused("trace", tmp_path / "none.svg")
    assert "ordinary file" in refused("trace", "/dev/zero")
    assert "a name that ends in .yaml" in refused("trace", drawing, "--to", tmp_path / "hole.txt")


def test_without_the_libraries_the_extra_is_named(drawing: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(extras, "_is_there", lambda library: library != "svgelements")
    told = refused("trace", drawing)
    assert told == (
        "tracing a hole from an SVG or DXF file needs svgelements, which is not installed; install with the extra "
        "'trace': pip install -e '.[trace]'\n"
    )


def _trace(page: AppTest, key: str, **typed: str) -> AppTest:
    uploader = next(one for one in page.file_uploader if str(one.key) == f"trace {key} file")
    uploader.upload("hole.svg", typed.pop("file", ROUND_10), "image/svg+xml").run()
    assert not page.exception
    return page


def test_a_traced_hole_is_asked_about(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_page(monkeypatch, screen="will_it_pass")
    page.get("button_group")[0].set_value("outline").run()
    _trace(page, "choice_fit_corners")
    assert "area 78.4 mm²" in words_of(page)
    button(page, "Take this outline").click().run()
    next(one for one in page.text_input if one.key == "choice_fit_item1_mm").set_value("5").run()
    assert next(one.value for one in page.metric) in ("4.99 mm", "5.00 mm")


def test_a_drawing_without_a_unit_asks_for_a_length_at_its_field(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_page(monkeypatch, screen="will_it_pass")
    page.get("button_group")[0].set_value("outline").run()
    _trace(page, "choice_fit_corners", file=svg(CIRCLE, 'viewBox="0 0 100 50"'))
    assert any("does not say in which unit" in one.value for one in page.warning)
    next(one for one in page.text_input if one.key == "choice_fit_corners trace length").set_value("12").run()
    assert "12.00 × 12.00 mm" in words_of(page)


def test_a_hole_of_a_new_frame_may_be_traced(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_page(monkeypatch, catalog=(), screen="new_frame")
    for key, words in list(TWO_HOLES.items())[:3]:
        next(one for one in page.text_input if one.key == f"choice_new_{key}").set_value(words).run()
    _trace(page, "choice_new_hole 1 opening")
    button(page, "Take this outline").click().run()
    field: Any = next(one for one in page.text_input if one.key == "choice_new_hole 1 opening")
    assert field.value.startswith("outline 5,0 ")
    assert not page.error
    assert "outline of 64 points" in "".join(pictures_of(page).values())


def test_the_corners_of_a_port_in_the_catalog_may_be_traced(store: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_page(monkeypatch, store=store, catalog=(), screen="catalog", kind="frame", id="quillfern-130")
    button(page, "Change it").click().run()
    box(page, "Part of it").set_value("ports/3").run()
    box(page, "Shape").set_value("outline").run()
    key = next(str(one.key) for one in page.file_uploader if "opening" in str(one.key))
    _trace(page, key.removeprefix("trace ").removesuffix(" file"))
    button(page, "Take this outline").click().run()
    assert not page.exception
    points = next(one for one in page.text_input if one.label.startswith("Points"))
    assert points.value.startswith("5 0; 4.9759 0.4901; ")
