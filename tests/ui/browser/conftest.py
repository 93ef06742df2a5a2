"""A page served on this machine and a real Chromium to walk through it.

Skipped, with its reason, where either is missing; with LINEPLAN_BROWSER_REQUIRED=1 that is a failure instead.
"""

import os
import shutil
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest

from catalog import STARTER_FOLDER, open_store
from tests.pinhole import Camera
from tests.ui.shop_samples import DEMO, TRAIL, done
from tests.ui.test_photo import made_photo
from tests.ui.test_slanted_photo import marked
from ui.page.photo_kept import read_photo
from ui.page.session import demo_frames
from ui.shared.page_start import CATALOG_VARIABLE
from ui.shared.store_place import STORE_VARIABLE

TOP = Path(__file__).parents[3]
REQUIRED = "LINEPLAN_BROWSER_REQUIRED"
CHROMIUM_FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)


def skip_or_fail(reason: str) -> None:
    """Go no further: a failure where the browser is asked for, else skipped with the reason."""
    if os.environ.get(REQUIRED) == "1":
        pytest.fail(f"{reason}, and {REQUIRED}=1 asks for it")
    pytest.skip(reason)


@pytest.fixture(scope="session")
def page_address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Address of the page, served with the invented frames for as long as the walks take."""
    catalog = os.pathsep.join(map(str, (STARTER_FOLDER, *demo_frames())))
    yield from served(tmp_path_factory.mktemp("page"), {CATALOG_VARIABLE: catalog})


SHOP_CUTS = "cut-list-of-a-walk"
"""The draft of a cut list that the shop's store holds."""

SHOP_FRAME, SHOP_PHOTO = "frame-of-a-walk", "photograph-of-a-walk"
"""The draft of a frame that is measured on a photograph, and the photograph."""


@pytest.fixture(scope="session")
def shop_address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Address of a page that works from its store: a catalog, a job with a quote, a visit, a cut list, a table."""
    folder = tmp_path_factory.mktemp("shop")
    store = folder / "kept.sqlite"
    frames = [word for name in ("trail", "hardtail-wide") for word in ("-c", DEMO / f"{name}.frame.yaml")]
    catalog = ("-c", STARTER_FOLDER, *frames)
    for job in (TRAIL, DEMO / "cockpit-swap.visit.yaml"):
        done("save", job, *catalog, "--store", store, "--by", "Mira", "--for", "Ana")
    done("quote", "trail-rear-brake", "--store", store, "--save", "--by", "Mira")
    asked = ["--frames" if word == "-c" else word for word in frames]
    done("table", *asked, "--to", "store", "--store", store, "--by", "Mira")
    typed = {"piece_line0": "hose-50x21", "piece_length0_mm": "800", "stock_line0": "hose-50x21"}
    choices = {f"choice_place_cuts_{name}": words for name, words in {**typed, "stock_length0_mm": "1700"}.items()}
    with open_store(str(store)) as opened:
        opened.drafts.save(SHOP_CUTS, {"choices": choices}, form="cuts", title="A cut list")
        opened.drafts.save(SHOP_PHOTO, read_photo(made_photo()), form="photo", title="A photograph of a frame")
        opened.drafts.save(SHOP_FRAME, {"choices": _photographed()}, form="new_frame", title="A frame that is told")
    yield from served(folder, {})


def _photographed() -> dict[str, Any]:
    """A frame that is told, with a photograph on which both wheels are marked."""
    marks = [[name, *at] for name, at in marked(Camera(yaw_deg=12), seed=1).items()]
    told = {"name": "Photographed", "holes": "2", "hole 1 place": "down 35 left"}
    photo = {"photo_id": SHOP_PHOTO, "photo_known": "1152.8", "photo_rims": True, "photo_tube 1": "down_tube"}
    return {f"choice_new_{name}": value for name, value in {**told, **photo, "photo_marks": marks}.items()}


@pytest.fixture(scope="module")
def shop(browser: Any, shop_address: str) -> Iterator[Any]:
    """One window at the shop's page for all walks of a module, each of which goes to its own place by its address."""
    for tab in opened_window(browser, shop_address, width_px=1280, bypass_csp=True):
        tab.base_url = shop_address
        yield tab


def go(tab: Any, address: str) -> None:
    """A place of the page as by its address, seen to the end."""
    tab.goto(f"{tab.base_url}{address}")
    wait_until_still(tab)


def served(folder: Path, environment: dict[str, str]) -> Iterator[str]:
    """Address of a page that is served until this is gone on with; its log and its store lie in the folder."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    own = {"PYTHONPATH": str(TOP), STORE_VARIABLE: str(folder / "kept.sqlite")}
    log = (folder / "server.log").open("w")
    command = [sys.executable, "-P", str(TOP / "ui" / "page" / "server.py"), str(port)]
    server = subprocess.Popen(
        command, cwd=TOP, env={**os.environ, **own, **environment}, stdout=log, stderr=subprocess.STDOUT
    )
    address = f"http://127.0.0.1:{port}"
    try:
        _wait_until_served(address, server)
        yield address
    finally:
        server.terminate()
        server.wait(timeout=60)
        log.close()


def _wait_until_served(address: str, server: "subprocess.Popen[bytes]") -> None:
    for _ in range(600):
        if server.poll() is not None:
            break
        try:
            with urllib.request.urlopen(f"{address}/_stcore/health", timeout=2):
                return
        except OSError:
            time.sleep(0.2)
    pytest.fail("the page was not served within 2 min")


def chromium_path() -> str:
    """The Chromium of this machine; "" where there is none."""
    return shutil.which("chromium") or shutil.which("chromium-browser") or ""


PATIENCE_MS = 120_000
"""How long anything may take to be seen: a slow machine is no fault of the page; nothing waits longer than it must."""


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    """One Chromium for all walks."""
    try:
        from playwright.sync_api import expect, sync_playwright
    except ImportError:
        skip_or_fail("playwright is not installed")
    expect.set_options(timeout=PATIENCE_MS)
    chromium = chromium_path()
    if not chromium:
        skip_or_fail("no Chromium is installed")
    with sync_playwright() as player:
        running = player.chromium.launch(executable_path=chromium, args=list(CHROMIUM_FLAGS))
        yield running
        running.close()


@pytest.fixture(params=[1280, 420], ids=["desktop", "narrow"])
def window(browser: Any, page_address: str, request: pytest.FixtureRequest) -> Iterator[Any]:
    """A fresh window with the page in it, once wide and once narrow."""
    yield from opened_window(browser, page_address, width_px=request.param)


def opened_window(browser: Any, page_address: str, *, width_px: int, **looks: Any) -> Iterator[Any]:
    """A fresh window with the page in it, and nothing fetched from elsewhere as long as it is open.

    width_px : of the window
    looks : what else the browser is told, such as a colour scheme
    """
    context = browser.new_context(viewport={"width": width_px, "height": 900}, **looks)
    tab = context.new_page()
    tab.set_default_timeout(PATIENCE_MS)
    asked: list[str] = []
    tab.on("request", lambda request: asked.append(request.url))
    tab.goto(page_address)
    wait_until_still(tab)
    yield tab
    context.close()
    own = (page_address, page_address.replace("http", "ws"), "data:", "blob:")
    assert [url for url in asked if not url.startswith(own)] == []


def wait_until_still(tab: Any) -> None:
    """Until the page is connected and has run its script to the end."""
    tab.wait_for_timeout(150)
    tab.wait_for_selector("[data-testid=stApp][data-test-connection-state=CONNECTED]")
    tab.wait_for_selector("[data-testid=stApp][data-test-script-state=notRunning]")


def read_download(tab: Any, press: Callable[[], object]) -> bytes:
    """What the page hands over when something is pressed; a press into a page that is drawn anew is made again."""
    from playwright.sync_api import TimeoutError as TooLate

    def pressed(patience_ms: int) -> bytes:
        wait_until_still(tab)
        with tab.expect_download(timeout=patience_ms) as given:
            press()
        return Path(given.value.path()).read_bytes()

    for _ in range(2):
        with suppress(TooLate):
            return pressed(20_000)
    return pressed(PATIENCE_MS)


LEAST_TARGET_PX = 44
"""What a finger in a glove still hits."""

_TARGETS = ", ".join(
    f"[data-testid=stMain] {one}"
    for one in (
        ".stButton button",
        ".stDownloadButton button",
        ".stPopover button",
        ".stPageLink a",
        "[data-testid=stTab]",
        ".stExpander summary",
        ".react-aria-ComboBox",
        "[data-testid=stTextInputRootElement]",
        "[data-testid=stFileUploaderDropzone] button",
        ".stCheckbox label",
    )
)


def small_targets(tab: Any) -> list[str]:
    """What is to be pressed and smaller than a target may be, with its size."""
    found: list[str] = tab.evaluate(
        """([targets, least]) => [...document.querySelectorAll(targets)]
            .map((one) => [one, one.getBoundingClientRect()])
            .filter(([one, at]) => at.width > 0 && Math.min(at.width, at.height) < least - 0.5)
            .map(([one, at]) => `${one.textContent.slice(0, 40)}: ${at.width} x ${at.height}`)""",
        [_TARGETS, LEAST_TARGET_PX],
    )
    return found


def columns_astray(tab: Any) -> list[str]:
    """What stands in a column that has left its row, where it would lie on what is beside or below."""
    found: list[str] = tab.evaluate(
        """() => [...document.querySelectorAll('[data-testid=stMain] [data-testid=stColumn]')]
            .map((one) => [one, one.getBoundingClientRect(), one.parentElement.getBoundingClientRect()])
            .filter(([, at, row]) => at.width > 0 && (at.right > row.right + 1 || at.bottom > row.bottom + 1))
            .map(([one]) => one.textContent.slice(0, 40))"""
    )
    return found


def cut_off(tab: Any) -> list[str]:
    """What is chosen in a list and too long for its field."""
    found: list[str] = tab.evaluate(
        """() => [...document.querySelectorAll('input[role=combobox]')]
            .filter((one) => one.clientWidth > 0 && one.scrollWidth > one.clientWidth + 1)
            .map((one) => one.value)"""
    )
    return found


def overflowing(tab: Any) -> list[str]:
    """What sticks out of the window sideways, apart from what can be scrolled on purpose."""
    found: list[str] = tab.evaluate(
        """() => [...document.querySelectorAll('[data-testid=stMain] *')]
            .filter((one) => !one.closest('[role=tablist]') && one.getBoundingClientRect().width > 0)
            .filter((one) => one.getBoundingClientRect().right > window.innerWidth + 1)
            .map((one) => one.tagName + ' ' + (one.textContent || '').slice(0, 40))"""
    )
    return found
