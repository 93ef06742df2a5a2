"""The README's pictures, made from the real page with invented data: `python -m tests.readme_pictures`.

Each is written to `demo_frames/pictures`, over the one before. It needs Chromium and the extra `test`.
"""

import os
import sys
import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from typing import Any

from catalog import STARTER_FOLDER
from tests.ui.browser.conftest import CHROMIUM_FLAGS, PATIENCE_MS, chromium_path, served, wait_until_still
from tests.ui.shop_samples import DEMO, TRAIL, done
from ui.page.session import demo_frames
from ui.shared.page_start import CATALOG_VARIABLE

FOLDER = DEMO / "pictures"
COLOURS = 128
"""So few keep a picture small, and a page has no more."""

FADED_IN_MS = 800


def _open(job: Path, verdict: str) -> Callable[[Any], None]:
    def prepare(tab: Any) -> None:
        tab.locator("input[type=file]").first.set_input_files(job)
        tab.get_by_role("status").get_by_text(verdict).wait_for()

    return prepare


def _as_it_is(tab: Any) -> None:
    """A place that shows all by its address."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """A picture to make.

    name : of its file
    address : of the place
    size_px : of the window
    prepare : what is done there first
    scheme : light or dark
    """

    name: str
    address: str
    size_px: tuple[int, int]
    prepare: Callable[[Any], None] = _as_it_is
    scheme: str = "light"


PICTURES = (
    Shown(name="plan", address="/", size_px=(1280, 800), prepare=_open(TRAIL, "It fits: Dunmere 4 rear")),
    Shown(
        name="several-lines",
        address="/several_lines",
        size_px=(1280, 800),
        prepare=_open(DEMO / "cockpit-swap.visit.yaml", "all lines go in, in this order"),
        scheme="dark",
    ),
    Shown(name="bench", address="/bench?job=trail-rear-brake", size_px=(820, 900)),
    Shown(name="phone", address="/jobs?job=trail-rear-brake", size_px=(420, 900)),
)


def main() -> int:
    """Make them all; returns the exit status."""
    from playwright.sync_api import sync_playwright

    with tempfile.TemporaryDirectory() as name, sync_playwright() as player:
        browser = player.chromium.launch(executable_path=chromium_path(), args=list(CHROMIUM_FLAGS))
        for address in served(Path(name), {CATALOG_VARIABLE: _kept(Path(name))}):
            for shown in PICTURES:
                _keep(_seen(browser, address, shown), FOLDER / f"{shown.name}.png")
    return 0


def _kept(folder: Path) -> str:
    """The trail job saved in the store beside the page; returns the catalog to work with."""
    files = (STARTER_FOLDER, *demo_frames())
    named = [word for path in files for word in ("-c", path)]
    done("save", TRAIL, *named, "--store", folder / "kept.sqlite", "--by", "Mira", "--for", "Ana")
    return os.pathsep.join(map(str, files))


def _seen(browser: Any, address: str, shown: Shown) -> bytes:
    width_px, height_px = shown.size_px
    tab = browser.new_page(viewport={"width": width_px, "height": height_px}, color_scheme=shown.scheme)
    tab.set_default_timeout(PATIENCE_MS)
    tab.goto(f"{address}{shown.address}")
    wait_until_still(tab)
    shown.prepare(tab)
    wait_until_still(tab)
    tab.locator(".picture svg:visible").first.wait_for()
    tab.mouse.move(1, height_px - 1)
    tab.wait_for_timeout(FADED_IN_MS)
    picture: bytes = tab.screenshot()
    tab.close()
    return picture


def _keep(picture: bytes, path: Path) -> None:
    from PIL import Image

    path.parent.mkdir(exist_ok=True)
    with Image.open(BytesIO(picture)) as opened:
        few = opened.convert("RGB").quantize(COLOURS, dither=Image.Dither.NONE)
        few.save(path, optimize=True)
    print(f"{path.name}: {path.stat().st_size / 1000:.0f} kB", flush=True)


if __name__ == "__main__":
    sys.exit(main())
