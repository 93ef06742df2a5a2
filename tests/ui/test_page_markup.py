"""Names from files are words on the page: none becomes a picture from elsewhere, a link or a heading."""

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from streamlit.testing.v1 import AppTest

from catalog import STARTER_FOLDER
from catalog.yaml_text import read_yaml
from tests.ui.page_builders import DEMO_FOLDER, markup_of, open_page
from ui.shared.page_start import JOB_VARIABLE

IMAGE = "![x](http://evil.invalid/a.png) <img src=http://evil.invalid/b.png>"
TOLD_TO_PEOPLE = ("name", "label", "title", "note", "text", "why", "source")


def with_images(value: Any) -> Any:
    """The same with an image behind every text that people read."""
    if isinstance(value, dict):
        return {
            key: f"{inner} {IMAGE}" if key in TOLD_TO_PEOPLE and isinstance(inner, str) else with_images(inner)
            for key, inner in value.items()
        }
    return [with_images(inner) for inner in value] if isinstance(value, list) else value


def hostile_copy(path: Path, folder: Path) -> Path:
    copy = folder / path.name
    copy.write_text(json.dumps(with_images(read_yaml(path.read_bytes()).value)), encoding="utf-8")
    return copy


def rendered(block: Any) -> Iterator[str]:
    """Every text on the page that is read as markup: paragraphs, labels, helps."""
    for child in block.children.values():
        proto = getattr(child, "proto", None)
        yield from (str(getattr(proto, field, "") or "") for field in ("body", "label", "help"))
        if hasattr(child, "children"):
            yield from rendered(child)


@pytest.mark.parametrize("job", ["trail-rear-brake.job", "city-cable-stops.job", "cockpit-swap.visit"])
def test_no_name_of_a_file_becomes_markup(job: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    files = [*sorted(STARTER_FOLDER.glob("*.yaml")), *sorted(DEMO_FOLDER.glob("*.frame.yaml"))]
    catalog = tuple(hostile_copy(path, tmp_path) for path in files)
    monkeypatch.setenv(JOB_VARIABLE, str(hostile_copy(DEMO_FOLDER / f"{job}.yaml", tmp_path)))
    page = open_page(monkeypatch, catalog=catalog)
    assert_words(page)


@pytest.mark.parametrize("section", ["frame", "brake", "line", "fitting", "method", "part"])
def test_no_name_in_the_catalog_becomes_markup(section: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    files = [*sorted(STARTER_FOLDER.glob("*.yaml")), *sorted(DEMO_FOLDER.glob("*.frame.yaml"))]
    page = open_page(monkeypatch, catalog=tuple(hostile_copy(path, tmp_path) for path in files))
    page = page.switch_page("screens/catalog.py").run()
    page.segmented_control[0].set_value(section).run()
    assert not page.exception
    assert_words(page)


def assert_words(page: AppTest) -> None:
    texts = [text for text in rendered(page._tree) if "evil.invalid" in text.replace("\\", "")]
    assert texts, "the names are shown"
    own = markup_of(page)
    for text in texts:
        assert not re.search(r"(?<!\\)<img", text), text
        assert text in own or not re.search(r"(?<!\\)\[x|http:(?!\u2060)", text), text
