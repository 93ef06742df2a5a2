"""What keeps people from using the page who see, hear or move otherwise: asked of axe, which comes inside Chromium."""

import re
from typing import Any

from tests.ui.browser.contrasts import FADED_IN_MS

INSIDE = "devtools://devtools/bundled/third_party/lighthouse/lighthouse-dt-bundle.js"
"""Where the browser keeps the audits of its own developer tools."""

_AXE = re.compile(r"`(/\*! axe v(?:[^`\\]|\\.)*)`", re.DOTALL)

HEAVY = ("serious", "critical")
"""What axe calls its two heavier grades; a lighter one is a matter of taste as often as not."""

_ASK = """async ([heavy, rules]) => (await axe.run(document, {
    resultTypes: ['violations'], ...(rules.length ? { runOnly: rules } : {}) })).violations
  .filter((one) => heavy.includes(one.impact))
  .flatMap((one) => one.nodes.map((node) => `${one.impact} ${one.id}: ${node.target} ${node.html.slice(0, 160)}`))"""


def axe_of(browser: Any) -> str:
    """The script of axe, taken from the browser's developer tools; "" where they have none."""
    tab = browser.new_page()
    try:
        tab.goto(INSIDE)
        found = _AXE.search(tab.locator("pre").text_content() or "")
        return "" if found is None else str(tab.evaluate(f"`{found[1]}`"))
    finally:
        tab.close()


def heavy_faults(tab: Any, axe: str, *, rules: tuple[str, ...] = ()) -> list[str]:
    """Everything serious or above that axe finds in the tab as it is now.

    What is just fading in is looked at again when it has: only what stays pale cannot be read.

    rules : only these are asked; empty for all
    """
    if not tab.evaluate("() => 'axe' in window"):
        tab.evaluate(axe)
    found: list[str] = tab.evaluate(_ASK, [list(HEAVY), list(rules)])
    if found:
        tab.wait_for_timeout(FADED_IN_MS)
        found = tab.evaluate(_ASK, [list(HEAVY), list(rules)])
    return found
