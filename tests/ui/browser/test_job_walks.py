"""Walks of one job through the page in a real Chromium: typed in, taken back, in two windows, by keys alone."""

import re
from functools import partial
from typing import Any

import pytest

from tests.ui.browser.conftest import go, opened_window, read_download, wait_until_still
from tests.ui.browser.hands import Hands, expect, verdict

pytestmark = pytest.mark.browser

MOST_TO_A_CARD = 40
"""So often may hands do something from an empty form to the printed card."""

FRAME, BRAKE, FITS = "Quillfern 130 trail frame (invented)", "Dunmere 4 rear (invented)", "It fits: Dunmere 4 rear"


def _choose_trail_job(hands: Hands) -> None:
    hands.choose("Frame", FRAME)
    hands.choose("Comes off", "Pellow M rear")
    hands.choose("Goes on", BRAKE)
    hands.choose("Line starts at", "Right lever")
    expect(verdict(hands.tab, FITS)).to_be_visible()
    wait_until_still(hands.tab)


@pytest.mark.parametrize("width_px", [1280, 420], ids=["desktop", "phone"])
def test_a_job_is_typed_in_by_hand_to_its_printed_card(shop: Any, width_px: int) -> None:
    shop.set_viewport_size({"width": width_px, "height": 900})
    go(shop, "/")
    hands = Hands(shop)
    _choose_trail_job(hands)
    assert read_download(shop, lambda: hands.press("Job card (PDF)")).startswith(b"%PDF")
    assert hands.count < MOST_TO_A_CARD
    shop.set_viewport_size({"width": 1280, "height": 900})


def test_a_step_of_the_form_is_taken_back_and_made_again(shop: Any) -> None:
    go(shop, "/")
    hands = Hands(shop)
    _choose_trail_job(hands)
    other = verdict(shop, "Pellow M rear")
    hands.press("Change the job")
    hands.choose("Goes on", "Pellow M rear")
    expect(other).to_be_visible()
    shop.keyboard.press("Escape")
    hands.press("Undo")
    expect(verdict(shop, FITS)).to_be_visible()
    hands.press("Redo")
    expect(other).to_be_visible()


def test_two_windows_at_one_form_are_told_and_neither_is_lost(shop: Any) -> None:
    go(shop, "/")
    hands = Hands(shop)
    _choose_trail_job(hands)
    other = shop.context.new_page()
    other.goto(shop.url)
    expect(verdict(other, FITS)).to_be_visible()
    wait_until_still(other)
    hands.press("Change the job")
    hands.choose("Goes on", "Pellow M rear")
    expect(verdict(shop, "Pellow M rear")).to_be_visible()
    late = Hands(other)
    late.press("Change the job")
    late.choose("Goes on", "Brake hose 5.0 with bore 2.1")
    expect(other.get_by_text("goes on as a draft of its own")).to_be_visible()
    expect(verdict(other, "Brake hose 5.0 with bore 2.1")).to_be_visible()
    other.keyboard.press("Escape")
    late.press("Show the other one")
    expect(verdict(other, "Pellow M rear")).to_be_visible()
    other.close()


def test_an_address_leads_to_a_job_with_its_hole_and_to_a_quote(shop: Any) -> None:
    go(shop, "/jobs?job=trail-rear-brake&port=stay-rear")
    drawer = shop.get_by_role("dialog")
    expect(drawer.get_by_role("heading", name="Chainstay, rear left")).to_be_visible()
    drawer.press("Escape")
    expect(drawer).to_be_hidden()
    expect(verdict(shop, FITS)).to_be_visible()
    go(shop, "/jobs?quote=1")
    expect(shop.get_by_role("heading", name="Quote 1:")).to_be_visible()
    go(shop, "/catalog?kind=frame&id=quillfern-130")
    expect(shop.get_by_role("heading", name=FRAME)).to_be_visible()


def test_a_link_leads_to_an_address_that_is_kept_and_gone_back_from(shop: Any) -> None:
    """Within one place links left the address as it was: a reload lost the job, and going back left the place."""
    go(shop, "/jobs")
    show, back = (shop.get_by_role("link", name=name, exact=True).first for name in ("Show", "All jobs"))
    show.click()
    expect(shop).to_have_url(re.compile(r"/jobs\?job="))
    there = shop.url
    back.click()
    expect(shop).to_have_url(f"{shop.base_url}/jobs")
    shop.go_back()
    expect(shop).to_have_url(there)
    expect(back).to_be_visible()
    shop.go_back()
    expect(show).to_be_visible()
    expect(shop).to_have_url(f"{shop.base_url}/jobs")


class _Keys:
    """A window worked by its keys alone."""

    def __init__(self, tab: Any) -> None:
        self.tab = tab

    def to(self, name: str) -> None:
        """Tab on until what is called so has the focus."""
        for _ in range(80):
            self.tab.keyboard.press("Tab")
            if self.tab.evaluate(_FOCUSED) == name:
                return
        pytest.fail(f"{name} is not reached by the Tab key")

    def choose(self, label: str, words: str) -> None:
        self.to(label)
        self.tab.keyboard.press("ArrowDown")
        self.tab.keyboard.type(words)
        expect(self.tab.get_by_role("option", name=words).first).to_be_visible()
        self.tab.keyboard.press("Enter")


_FOCUSED = """() => {
  const one = document.activeElement, icons = one.querySelectorAll('[data-testid=stIconMaterial]');
  const words = [...icons].reduce((left, icon) => left.replace(icon.textContent, ''), one.textContent);
  const label = one.labels && one.labels.length ? one.labels[0].textContent : '';
  return (one.getAttribute('aria-label') || label || words).trim();
}"""


def test_a_job_is_planned_by_keys_alone(browser: Any, shop_address: str) -> None:
    for tab in opened_window(browser, shop_address, width_px=1280):
        keys = _Keys(tab)
        for label, words in (("Frame", FRAME), ("Comes off", "Pellow M rear"), ("Goes on", BRAKE)):
            keys.choose(label, words)
            expect(tab.get_by_role("combobox", name=label)).to_have_value(re.compile(re.escape(words)))
            wait_until_still(tab)
        keys.choose("Line starts at", "Right lever")
        expect(verdict(tab, FITS)).to_be_visible()
        wait_until_still(tab)
        keys.to("Job card (PDF)")
        assert read_download(tab, partial(tab.keyboard.press, "Enter")).startswith(b"%PDF")
