"""What hands do on the page, each thing counted: a press, a choice made, a field typed."""

import re
from typing import Any

from tests.ui.browser.conftest import wait_until_still

_LOOKS, _LOOKS_EVERY_MS = 600, 50


def expect(seen: Any) -> Any:
    """What of the page is waited for until it is so."""
    from playwright.sync_api import expect as wait

    return wait(seen)


class Hands:
    """Hands at one window.

    count : how often they did something so far; a choice from a list counts twice
    """

    def __init__(self, tab: Any) -> None:
        self.tab, self.count = tab, 0

    def press(self, label: str, *, role: str = "button") -> None:
        """Press what is labelled so, once the page stands still: a press into one that is drawn anew may be missed."""
        wait_until_still(self.tab)
        self.tab.get_by_role(role, name=label, exact=True).click()
        self.count += 1

    def choose(self, label: str, option: str) -> None:
        """Open a list and take what is called so; the form may fold at once, its last question answered."""
        found = self.tab.get_by_role("combobox", name=label, exact=True)
        found.scroll_into_view_if_needed()  # a list that is open while the page scrolls closes again
        found.click()
        self.tab.get_by_role("option", name=option).first.click()
        for _ in range(_LOOKS):
            if all(option in taken for taken in found.evaluate_all("lists => lists.map(list => list.value)")):
                break
            self.tab.wait_for_timeout(_LOOKS_EVERY_MS)
        else:
            expect(found).to_have_value(re.compile(re.escape(option)))
        self.count += 2

    def type(self, label: str, words: str) -> None:
        """Type into a field and leave it."""
        found = self.tab.get_by_role("textbox", name=label, exact=True)
        found.fill(words)
        found.press("Tab")
        self.count += 1


def verdict(tab: Any, words: str) -> Any:
    """The answer on the page that holds these words."""
    return tab.get_by_role("status").get_by_text(words)
