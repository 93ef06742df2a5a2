"""A walk through the shop's place: a copy of the store taken away and put back, on a telephone too."""

from pathlib import Path
from typing import Any

import pytest

from tests.ui.browser.conftest import go, overflowing, read_download, wait_until_still

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("browser")]


def test_a_copy_of_the_store_is_taken_away_and_put_back(shop: Any, tmp_path: Path) -> None:
    from playwright.sync_api import expect

    go(shop, "/shop")
    expect(shop.get_by_text("Coupler stud 2.6")).to_be_visible()
    shop.get_by_role("tab", name="The store").click()
    copy = tmp_path / "copy.sqlite"
    copy.write_bytes(read_download(shop, shop.get_by_role("button", name="Back up the store").click))
    shop.get_by_text("Put a copy back").click()
    shop.locator("input[type=file][accept*='.sqlite']").set_input_files(copy)
    shop.get_by_role("button", name="Put it back in place of the store").click()
    expect(shop.get_by_text("What was there before lies in")).to_have_count(1)
    shop.set_viewport_size({"width": 420, "height": 900})
    for name in ("Shopping list", "Settings", "The store"):
        shop.get_by_role("tab", name=name).click()
        wait_until_still(shop)
        assert overflowing(shop) == []
    shop.set_viewport_size({"width": 1280, "height": 900})
