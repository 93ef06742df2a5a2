"""How long somebody at the page waits: a page served on this machine, watched in a real Chromium.

Each wait is told beside the same with a catalog of many frames more. Times are of the clock, as they are waited for:
they hold for a machine that does nothing else.
"""

import os
import statistics
import tempfile
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

from catalog import STARTER_FOLDER
from tests.benchmarks.beside.measured import Measured
from tests.ui.browser.conftest import CHROMIUM_FLAGS, chromium_path, served, wait_until_still
from tests.ui.many_frames import write_many_frames
from tests.ui.shop_samples import DEMO, TRAIL
from ui.shared.page_start import CATALOG_VARIABLE

FITS = "It fits: Dunmere 4 rear"

Change = Callable[[Any], None]
"""Something done in a window of the page."""

_WATCH = """() => {
  const app = document.querySelector('[data-testid=stApp]');
  window.settled = new Promise((done) => {
    let begun = null, last = null, quiet = null, hasRun = false;
    const look = () => {
      hasRun ||= app.dataset.testScriptState !== 'notRunning';
      last = performance.now();
      clearTimeout(quiet);
      quiet = setTimeout(() => {
        if (hasRun && app.dataset.testScriptState === 'notRunning') { watch.disconnect(); done(last - begun); }
      }, 500);
    };
    const watch = new MutationObserver(look);
    const begin = () => {
      if (begun !== null) return;
      begun = performance.now();
      watch.observe(app, { attributes: true, childList: true, characterData: true, subtree: true });
    };
    const once = { capture: true, once: true };
    for (const what of ['change', 'click', 'keydown']) window.addEventListener(what, begin, once);
  });
}"""
"""From the first thing done with the page to the last thing that changes in it; half a second of nothing ends it."""


@dataclass(slots=True)
class Waited:
    """What was waited for at one page.

    settled_s : from each input of the form to all that follows from it
    verdict_s : from opening the address to the verdict of a job that is dropped
    windows_s : as settled, of many windows that all do something at once
    first_bytes, first_requests : of a first load
    """

    settled_s: list[float] = field(default_factory=list)
    verdict_s: list[float] = field(default_factory=list)
    windows_s: list[float] = field(default_factory=list)
    first_bytes: int = 0
    first_requests: int = 0


def page_wait(*, wait: str, frames_n: int, rounds_n: int, windows_n: int, changes_n: int) -> Measured:
    """One wait, with a catalog of two frames beside one that holds many frames more.

    wait : settled, verdict or windows
    changes_n : so many of the form's changes are made
    """
    sizes = {"rounds_n": rounds_n, "windows_n": windows_n, "changes_n": changes_n}
    ours, beside = (_waited(more, **sizes) for more in (0, frames_n))
    load = f"{ours.first_bytes / 1000:.0f} kB in {ours.first_requests} requests"
    work, pick, aim = {
        "settled": (f"{len(ours.settled_s)} inputs of the form of an open job; median", _settled_s, "0.4 s"),
        "verdict": (f"a first load, {load}, to the verdict of a job that is dropped; median", _verdict_s, "2 s"),
        "windows": (f"an input in each of {windows_n} windows at once; nine in ten are quicker", _windows_s, "2 s"),
    }[wait]
    told = f"the same with {frames_n} frames more"
    return Measured(
        name="", work=work, ours_s=pick(ours), beside=told, beside_s=pick(beside), aim=f"{aim}, by the clock"
    )


def _settled_s(waited: Waited) -> float:
    return statistics.median(waited.settled_s)


def _verdict_s(waited: Waited) -> float:
    return statistics.median(waited.verdict_s)


def _windows_s(waited: Waited) -> float:
    return _p90(waited.windows_s)


def _p90(seconds: list[float]) -> float:
    return statistics.quantiles(seconds, n=10, method="inclusive")[-1]


@cache
def _waited(more_frames_n: int, *, rounds_n: int, windows_n: int, changes_n: int) -> Waited:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        frames = [DEMO / "trail.frame.yaml", DEMO / "hardtail-wide.frame.yaml"]
        if more_frames_n:
            frames += write_many_frames(folder, more_frames_n)
        environment = {CATALOG_VARIABLE: os.pathsep.join(map(str, (STARTER_FOLDER, *frames)))}
        waited = Waited()
        for address in served(folder, environment):
            with _browser() as browser:
                _open_and_change(browser, address, waited, rounds_n, CHANGES[:changes_n])
                _windows_at_once(browser, address, waited, windows_n, rounds_n)
        return waited


@contextmanager
def _browser() -> Iterator[Any]:
    from playwright.sync_api import sync_playwright

    with sync_playwright() as player:
        running = player.chromium.launch(executable_path=chromium_path(), args=list(CHROMIUM_FLAGS))
        yield running
        running.close()


def _with_job(browser: Any, address: str) -> Any:
    tab = browser.new_context(viewport={"width": 1280, "height": 900}).new_page()
    tab.set_default_timeout(120_000)
    tab.goto(address)
    tab.locator("input[type=file]").set_input_files(TRAIL)
    tab.get_by_role("status").get_by_text(FITS).wait_for()
    wait_until_still(tab)
    return tab


def _open_and_change(browser: Any, address: str, waited: Waited, rounds_n: int, changes: Sequence[Change]) -> None:
    _with_job(browser, address).context.close()  # the first window of a page waits for what all others find ready
    for _ in range(rounds_n):
        tab = browser.new_context(viewport={"width": 1280, "height": 900}).new_page()
        tab.set_default_timeout(120_000)
        sent: list[int] = []
        tab.on("requestfinished", lambda request, sent=sent: sent.append(request.sizes()["responseBodySize"]))
        began = tab.evaluate("Date.now()")
        tab.goto(address)
        tab.locator("input[type=file]").set_input_files(TRAIL)
        tab.get_by_role("status").get_by_text(FITS).wait_for()
        waited.verdict_s.append((tab.evaluate("Date.now()") - began) / 1000)
        wait_until_still(tab)
        waited.first_bytes, waited.first_requests = sum(sent), len(sent)
        tab.get_by_role("button", name="Change the job").click()
        tab.get_by_text("Lines that stay, rotor, what is allowed").click()
        wait_until_still(tab)
        for change in changes:
            waited.settled_s.append(_timed(tab, change))
        tab.context.close()


def _windows_at_once(browser: Any, address: str, waited: Waited, windows_n: int, rounds_n: int) -> None:
    tabs = [_with_job(browser, address) for _ in range(windows_n)]
    for tab in tabs:
        tab.get_by_role("button", name="Change the job").click()
        tab.get_by_text("Lines that stay, rotor, what is allowed").click()
        wait_until_still(tab)
    for n in range(rounds_n):
        for tab in tabs:
            tab.evaluate(_WATCH)
            tab.get_by_role("textbox", name="Rotor wanted").fill(str(160 if n % 2 else 203))
        for tab in tabs:
            tab.get_by_role("textbox", name="Rotor wanted").press("Tab", no_wait_after=True)
        waited.windows_s += [tab.evaluate("window.settled") / 1000 for tab in tabs]


def _timed(tab: Any, change: Change) -> float:
    tab.evaluate(_WATCH)
    change(tab)
    return float(tab.evaluate("window.settled")) / 1000


def _choosing(label: str, option: str) -> Change:
    def choose(tab: Any) -> None:
        field = tab.get_by_role("combobox", name=label, exact=True)
        field.scroll_into_view_if_needed()
        tab.evaluate("() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))")
        field.click()  # an open list closes where the page is still being scrolled
        tab.get_by_role("option", name=option).first.wait_for()
        tab.evaluate(_WATCH)  # what opening the list took is not waited for
        tab.get_by_role("option", name=option).first.click()

    return choose


def _typing(label: str, words: str) -> Change:
    def type_(tab: Any) -> None:
        field = tab.get_by_role("textbox", name=label)
        field.fill(words)
        tab.evaluate(_WATCH)
        field.press("Tab")

    return type_


def _ticking(label: str) -> Change:
    return lambda tab: tab.get_by_text(label, exact=True).click()


CHANGES: tuple[Change, ...] = (
    _choosing("Goes on", "Pellow M rear"),
    _choosing("Goes on", "Dunmere 4 rear"),
    _choosing("Comes off", "Brake hose 5.0 with bore 2.1"),
    _choosing("Comes off", "Pellow M rear"),
    _choosing("Line starts at", "Left lever"),
    _choosing("Line starts at", "Right lever"),
    _typing("Rotor wanted", "160"),
    _typing("Rotor wanted", "180"),
    _ticking("Inserts may come out for the work"),
    _ticking("Inserts may come out for the work"),
    _ticking("The old brake is to be used again"),
    _ticking("The old brake is to be used again"),
)
"""Every field of the demo job, changed and changed back."""
