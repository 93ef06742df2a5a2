"""The page under test without a browser, started with the invented frames."""

import json
import os
import re
from html import unescape
from pathlib import Path
from typing import Any

import pytest
from streamlit.testing.v1 import AppTest

from catalog import STARTER_FOLDER
from planner.documents.words.printable import WORD_JOINER
from ui.page.session import CHANGE_KEY, demo_frames
from ui.shared.page_start import CATALOG_VARIABLE
from ui.shared.store_place import STORE_FILE, STORE_VARIABLE, user_data_folder

APP = Path(__file__).parents[2] / "ui" / "page" / "app.py"
DEMO_FOLDER = Path(__file__).parents[2] / "demo_frames"


def open_page(
    monkeypatch: pytest.MonkeyPatch,
    *,
    catalog: tuple[Path, ...] | None = None,
    store: Path | None = None,
    screen: str = "",
    **address: str,
) -> AppTest:
    """A screen, the first one unless another is named, started with the invented frames unless other files are named.

    store : where the page keeps what is typed; None for one that holds drafts only
    address : what stands behind the question mark of the address
    """
    files = (STARTER_FOLDER, *demo_frames()) if catalog is None else catalog
    monkeypatch.setenv(CATALOG_VARIABLE, os.pathsep.join(map(str, files)))
    monkeypatch.setenv(STORE_VARIABLE, str(store or user_data_folder() / "lineplan" / STORE_FILE))
    page = AppTest.from_file(str(APP), default_timeout=60)
    page.session_state[CHANGE_KEY] = True  # the form lies open once it is folded, so that a test can go on choosing
    for name, value in address.items():
        page.query_params[name] = value
    if screen:
        page.switch_page(f"screens/{screen}.py")
    page.run()
    assert not page.exception
    return page


def open_job(page: AppTest, name: str) -> AppTest:
    """Open an invented job by the list on the page."""
    box(page, "Or an invented job").select(name).run()
    assert not page.exception
    return page


def choose_tab(page: AppTest, name: str) -> AppTest:
    """Look behind the tab of this name: only what is looked at is drawn."""
    (key,) = [
        tabs.proto.id.split("-", 2)[2]
        for tabs in page.get("tab_container")
        if name in [tab.label for tab in tabs.children.values()]
    ]
    page.session_state[key] = name
    page.run()
    assert not page.exception
    return page


def box(page: AppTest, label: str) -> Any:
    """The list to choose from with this label."""
    (found,) = [one for one in page.selectbox if one.label == label]
    return found


def button(page: AppTest, label: str) -> Any:
    """The button with this label."""
    (found,) = [one for one in page.button if one.label == label]
    return found


def popovers_of(page: AppTest) -> list[str]:
    """What the buttons say that something is folded behind."""
    return [one.proto.popover.label for one in page.get("popover")]


def words_of(page: AppTest) -> str:
    """Everything the page says, without the signs that keep file words from being markup."""
    told = [*page.title, *page.success, *page.warning, *page.error, *page.info, *page.markdown, *page.caption]
    kept = "\n".join(str(one.value) for one in told).replace("\\", "").replace(WORD_JOINER, "")
    return "\n".join([*(without_tags(body) for body in markup_of(page)), kept])


def markup_of(page: AppTest) -> list[str]:
    """The page's own markup, the stylesheet left out."""
    return [one.proto.body for one in page.get("html") if not one.proto.body.startswith("<style>")]


def verdicts_of(page: AppTest) -> list[tuple[str, str]]:
    """Every verdict on the page: its outcome and its sentence."""
    found = []
    for body in markup_of(page):
        if outcome := re.match(r'<section class="lp-verdict lp-(\w+)"', body):
            found.append((outcome[1], without_tags(body)))
    return found


def without_tags(markup: str) -> str:
    """The words of some markup as they are seen, without signs that are not read out."""
    spoken = re.sub(r'<span aria-hidden="true">[^<]*</span>', "", markup)
    return unescape(re.sub(r"<[^>]*>", " ", spoken)).strip()


def pictures_of(page: AppTest) -> dict[str, str]:
    """The SVG of every picture on the page for a wide window, by the key of its place."""
    found = {}
    for one in page.get("bidi_component"):
        found[one.proto.id.split("-", 2)[2]] = json.loads(one.proto.json)["wide"]
    return found
