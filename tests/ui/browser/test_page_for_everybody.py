"""Every place of the page for everybody: nothing heavy for axe, light and dark, and nothing sticks out sideways."""

import ast
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.ui.browser.conftest import (
    SHOP_CUTS,
    SHOP_FRAME,
    columns_astray,
    cut_off,
    go,
    overflowing,
    skip_or_fail,
    small_targets,
    wait_until_still,
)
from tests.ui.browser.faults_for_everybody import axe_of, heavy_faults
from tests.ui.browser.hands import Hands, expect, verdict
from tests.ui.shop_samples import ROOT, TRAIL

pytestmark = pytest.mark.browser

WIDTHS_PX = (1280, 820, 420)
SETTLING_LOOKS = 30

FILLED = (
    "/catalog?kind=frame&id=quillfern-130",
    f"/cuts?draft={SHOP_CUTS}",
    "/jobs?job=trail-rear-brake",
    "/jobs?job=cockpit-swap",
    "/jobs?quote=1",
    "/bench?job=trail-rear-brake",
    "/frames_and_brakes?table=1",
)
"""Places with something on them, by their address."""


def places() -> list[str]:
    """The address of every place that the page leads to, read from where they are listed: a new one is walked too."""
    tree = ast.parse((ROOT / "ui" / "page" / "app.py").read_text(encoding="utf-8"))
    pages = [one for one in ast.walk(tree) if isinstance(one, ast.Call) and ast.unparse(one.func) == "st.Page"]
    is_first = [any(word.arg == "default" for word in one.keywords) for one in pages]
    names = [Path(ast.literal_eval(one.args[0])).stem for one in pages]
    return ["/" if first else f"/{name}" for first, name in zip(is_first, names, strict=True)]


@pytest.fixture(scope="module")
def axe(browser: Any) -> str:
    """The script of axe."""
    found = axe_of(browser)
    if not found:
        skip_or_fail("this Chromium has no axe among its developer tools")
    return found


def _hold_for_everybody(tab: Any, axe: str, place: str) -> None:
    """What is shown now, at every width, light and dark."""
    for width_px in WIDTHS_PX:
        tab.set_viewport_size({"width": width_px, "height": 900})
        assert _still_found(overflowing, tab) == [], (place, width_px)
        assert _still_found(small_targets, tab) == [], (place, width_px)
        assert _still_found(columns_astray, tab) == [], (place, width_px)
    tab.set_viewport_size({"width": WIDTHS_PX[0], "height": 900})
    _ask_axe(tab, axe, place)


def _still_found(look: Callable[[Any], list[str]], tab: Any) -> list[str]:
    """What is wrong once the page lies still: a fold grows to its size over some frames, on a slow machine for long."""
    for _ in range(SETTLING_LOOKS):
        if not look(tab):
            return []
        tab.wait_for_timeout(100)
    return look(tab)


def _ask_axe(tab: Any, axe: str, place: str) -> None:
    assert heavy_faults(tab, axe) == [], place
    tab.emulate_media(color_scheme="dark")
    try:
        assert heavy_faults(tab, axe, rules=("color-contrast",)) == [], (place, "dark")
    finally:
        tab.emulate_media(color_scheme="light")


def test_axe_finds_what_is_wrong(browser: Any, axe: str) -> None:
    tab = browser.new_page()
    tab.set_content("<html lang=en><title>Faults</title><button></button><p style='color: #aaa'>pale</p></html>")
    assert [fault.split(":")[0] for fault in heavy_faults(tab, axe)] == [
        "critical button-name",
        "serious color-contrast",
    ]
    tab.close()


@pytest.mark.parametrize("place", [*places(), *FILLED])
def test_a_place_is_for_everybody(shop: Any, axe: str, place: str) -> None:
    go(shop, place)
    _hold_for_everybody(shop, axe, place)


def test_an_open_job_its_form_and_a_hole_are_for_everybody(shop: Any, axe: str) -> None:
    go(shop, "/")
    shop.locator("input[type=file]").set_input_files(TRAIL)
    expect(verdict(shop, "It fits: Dunmere 4 rear")).to_be_visible()
    wait_until_still(shop)
    _hold_for_everybody(shop, axe, "an open job")
    shop.get_by_role("button", name="Change the job").click()
    expect(shop.get_by_text("Told beside:").first).to_be_visible()
    assert cut_off(shop) == []
    _ask_axe(shop, axe, "the form of an open job")
    shop.keyboard.press("Escape")
    go(shop, "/jobs?job=trail-rear-brake&port=stay-rear")
    expect(shop.get_by_role("dialog")).to_be_visible()
    _ask_axe(shop, axe, "a hole in its drawer")


def test_a_frame_and_the_shape_of_a_hole_are_changed_by_everybody(shop: Any, axe: str) -> None:
    _change(shop, "kind=frame&id=dorrimel-120")
    _hold_for_everybody(shop, axe, "a frame that is changed")
    Hands(shop).choose("Part of it", "port shared-neck")
    shop.get_by_text("Opening: Slot").click()
    _see_drawn(shop, "Shape")
    _ask_axe(shop, axe, "a hole that is changed, with its shapes drawn")


@pytest.mark.parametrize(
    ("entry", "drawn"), [("kind=method&id=coupler-26", "Kind"), ("kind=fitting&id=banjo-50x21", "Style, needed")]
)
def test_an_entry_whose_choices_are_drawn_is_changed_by_everybody(shop: Any, axe: str, entry: str, drawn: str) -> None:
    _change(shop, entry)
    _see_drawn(shop, drawn)
    _hold_for_everybody(shop, axe, entry)


def _change(tab: Any, entry: str) -> None:
    go(tab, f"/catalog?{entry}")
    tab.get_by_role("button", name="Change it").click()
    expect(tab.get_by_role("button", name="Leave without saving")).to_be_visible()
    wait_until_still(tab)


def _see_drawn(tab: Any, field: str) -> None:
    """The field is there, and its choices are drawn under it."""
    expect(tab.get_by_role("combobox", name=field, exact=True)).to_be_visible()
    expect(tab.locator("[class*=_drawn] svg:visible").first).to_be_visible()
    wait_until_still(tab)


def test_a_photograph_and_a_traced_hole_are_for_everybody(shop: Any, axe: str) -> None:
    go(shop, f"/new_frame?draft={SHOP_FRAME}")
    shop.get_by_text("Measure on a photograph of the side").click()
    expect(shop.get_by_role("application").locator("text").first).to_be_visible()
    expect(shop.get_by_role("button", name="Take these figures into the form")).to_be_visible()
    wait_until_still(shop)
    _hold_for_everybody(shop, axe, "a photograph with its points")
    shop.get_by_role("button", name="Trace the hole").first.click()
    corners = shop.get_by_role("textbox", name="Or its corners in mm")
    corners.fill("0,0 12,0 6,9")
    corners.press("Control+Enter")
    expect(shop.get_by_role("button", name="Take this outline")).to_be_visible()
    wait_until_still(shop)
    _hold_for_everybody(shop, axe, "a hole that is traced")


def test_the_pairs_of_a_table_are_for_everybody(shop: Any, axe: str) -> None:
    go(shop, "/frames_and_brakes?table=1")
    shop.get_by_role("tab", name="Pairs").click()
    expect(shop.get_by_role("cell", name="Quillfern 130 trail frame (invented)").first).to_be_visible()
    _hold_for_everybody(shop, axe, "the pairs of a table")
