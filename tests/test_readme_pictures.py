"""The pictures of the README: there, small, made by the command, and each of them shown."""

import re

import pytest

from tests.readme_pictures import FOLDER, PICTURES, Shown
from tests.ui.shop_samples import ROOT

MOST_KB = 100
README = (ROOT / "README.md").read_text(encoding="utf-8")


def test_the_readme_shows_what_the_command_makes_and_nothing_else() -> None:
    shown = set(re.findall(r"\(demo_frames/pictures/([\w-]+)\.png\)", README))
    assert shown == {each.name for each in PICTURES} == {path.stem for path in FOLDER.iterdir()}


@pytest.mark.parametrize("picture", PICTURES, ids=lambda each: each.name)
def test_a_picture_is_small_and_as_wide_as_its_window(picture: Shown) -> None:
    from PIL import Image

    path = FOLDER / f"{picture.name}.png"
    assert path.stat().st_size < MOST_KB * 1000
    with Image.open(path) as opened:
        assert opened.size == picture.size_px
