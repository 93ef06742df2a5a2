"""A frame measured on a photograph in a real Chromium: points set by pointer and keyboard, to figures of the form."""

import re
from typing import Any

import pytest

from tests.ui.browser.conftest import opened_window, overflowing, wait_until_still
from tests.ui.test_photo import REAR, TABLE, made_photo, seen

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("browser")]

CLICKED = ("bb", "rear-axle", "front-axle", "head-top", "head-bottom", "seat-top")


def _expect(locator: Any) -> Any:
    from playwright.sync_api import expect

    return expect(locator)


def _field(window: Any, label: str) -> Any:
    return window.get_by_role("textbox", name=label)


def _value(window: Any, label: str) -> float:
    return float(_field(window, label).input_value().split()[0])


def test_a_frame_from_a_photograph(browser: Any, page_address: str) -> None:
    for window in opened_window(browser, page_address, width_px=1280):
        window.goto(f"{page_address}/new_frame")
        _field(window, "Name of the frame?").fill("Photographed")
        _field(window, "Name of the frame?").press("Tab")
        _field(window, "How many holes").fill("2")
        _field(window, "How many holes").press("Tab")
        window.get_by_text("Measure on a photograph of the side").click()
        chosen = {"name": "side.jpg", "mimeType": "image/jpeg", "buffer": made_photo()}
        window.get_by_test_id("stExpander").locator("input[type=file]").set_input_files(chosen)
        photo = window.get_by_role("application")
        _expect(photo.locator("img")).to_be_visible()
        _field(window, "Known distance, mm").fill("1152.8")
        _field(window, "Known distance, mm").press("Tab")
        wait_until_still(window)
        marks = seen()
        photo.scroll_into_view_if_needed()
        for n, name in enumerate(("known-1", "known-2", *CLICKED), start=1):
            box = photo.bounding_box()
            x, y = marks[name]
            at = {"x": x / 1800 * box["width"], "y": y / 1100 * box["height"]}
            photo.click(position=at)
            _expect(photo.locator("text")).to_have_count(n)
        photo.press("Backspace")
        _expect(photo.locator("text")).to_have_count(7)
        wait_until_still(window)
        photo.press("ArrowLeft")
        photo.press("ArrowRight")
        photo.press("Enter")
        _expect(photo.locator("text")).to_have_count(8)
        _expect(window.get_by_text("One pixel is")).to_be_visible()
        assert overflowing(window) == []
        window.get_by_text("It was taken squarely").click()
        window.get_by_role("button", name="Take these figures into the form").click()
        for n, place in ((1, "down 35 left"), (2, "down 600 left")):
            _field(window, f"Hole {n} of 2: where?").fill(place)
            _field(window, f"Hole {n} of 2: where?").press("Tab")
        asked = {"Reach?": "reach", "Stack?": "stack", "Head angle?": "head_angle", "Seat tube length?": "seat_tube"}
        for label, name in {**asked, "Chainstay length?": "chainstay"}.items():
            _expect(_field(window, label)).to_have_value(re.compile(r"^[0-9.]+ \(square photo\)$"))
            assert _value(window, label) == pytest.approx((TABLE | REAR)[name], rel=0.01), label
