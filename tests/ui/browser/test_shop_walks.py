"""Walks through what a shop keeps in a real Chromium: a quote agreed, lines cut, the catalog changed and read in."""

from typing import Any

import pytest

from tests.ui.browser.conftest import go, read_download, wait_until_still
from tests.ui.browser.hands import Hands, expect, verdict

pytestmark = pytest.mark.browser


def test_a_quote_is_made_handed_over_and_agreed(shop: Any) -> None:
    go(shop, "/jobs?job=cockpit-swap")
    hands = Hands(shop)
    shop.get_by_text("Make a quote").click()
    wait_until_still(shop)
    hands.type("Workshop, to print (empty: the shop's own name)", "Workshop of nobody")
    expect(shop.get_by_role("button", name="Undo")).to_be_visible()
    wait_until_still(shop)
    shop.reload()
    printed = shop.get_by_role("textbox", name="Workshop, to print (empty: the shop's own name)")
    expect(printed).to_have_value("Workshop of nobody")
    wait_until_still(shop)
    shop.get_by_role("button", name="Make the quote").press("Enter")  # a click would miss it while its fold opens
    expect(shop.get_by_text("A draft: its days are counted from the day it is handed over.")).to_be_visible()
    for label, state in (("Handed over", "handed over"), ("Agreed", "agreed")):
        hands.press(label)
        expect(shop.locator(".lp-job p").get_by_text(f"· {state} ·")).to_be_visible()
    assert read_download(shop, lambda: hands.press("Quote (PDF)")).startswith(b"%PDF")


def test_a_cut_list_is_told_from_typed_pieces_and_stock(shop: Any) -> None:
    go(shop, "/cuts")
    piece, stock = (shop.get_by_role("combobox", name="Line 1").nth(n) for n in (0, 1))
    for field, length, nth in ((piece, "800,5", 0), (stock, "1700", 1)):
        field.click()
        shop.get_by_role("option", name="Brake hose 5.0 with bore 2.1").click()
        lengths = shop.get_by_role("textbox", name="Length, mm")
        expect(lengths).to_have_count(nth + 1)
        lengths.nth(nth).fill(length)
        lengths.nth(nth).press("Tab")
    expect(verdict(shop, "1 roll")).to_be_visible()
    expect(shop.get_by_text("Read as 800.5 mm")).to_be_visible()
    expect(shop.locator(".picture svg:visible").first).to_be_visible()
    wait_until_still(shop)
    shop.reload()
    expect(verdict(shop, "1 roll")).to_be_visible()


def test_an_entry_is_changed_taken_back_saved_and_gone_back_to(shop: Any) -> None:
    go(shop, "/catalog?kind=line&id=hose-55x23")
    hands = Hands(shop)
    hands.press("Change it")
    outer = shop.get_by_role("textbox", name="Outer diameter, mm, needed")
    for words, told in (("99", "to put right before it can be saved"), ("5,6", "outer: 5.5")):
        outer.fill(words)
        outer.press("Tab")
        expect(shop.get_by_text(told)).to_be_visible()
    wait_until_still(shop)
    for label, value in (("Undo", "99"), ("Undo", "5.5"), ("Redo", "99"), ("Redo", "5.6")):
        hands.press(label)
        expect(outer).to_have_value(value)
    hands.press("Save as a new revision")
    expect(shop.get_by_text("revision 2, in use")).to_be_visible()
    hands.press("History", role="tab")
    hands.choose("Look at revision", "1")
    expect(shop.get_by_text("Going back would change")).to_be_visible()
    hands.press("Go back to revision 1")
    expect(shop.get_by_text("revision 3, in use")).to_be_visible()


def test_what_files_would_change_is_seen_before_they_are_read_in(shop: Any) -> None:
    go(shop, "/catalog")
    shop.get_by_text("Files in and out").click()
    hose = "{id: walk-hose, name: Hose of a walk, kind: hydraulic_hose, outer: 5, bore: 2.1, bend_radius: 35}"
    text = f"format: 1\nlines:\n  - {hose}\n"
    shop.locator("input[type=file]").set_input_files(
        {"name": "walk.yaml", "mimeType": "application/yaml", "buffer": text.encode()}
    )
    expect(shop.get_by_text("What this would change")).to_be_visible()
    expect(shop.get_by_text("walk-hose").first).to_be_visible()
    wait_until_still(shop)
    shop.get_by_role("button", name="Read in", exact=True).click()
    expect(shop.get_by_role("button", name="Read in", exact=True)).to_be_hidden()
    go(shop, "/catalog?kind=line&id=walk-hose")
    expect(shop.get_by_role("heading", name="Hose of a walk")).to_be_visible()
