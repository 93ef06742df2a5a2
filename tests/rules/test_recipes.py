"""What the contributors' guide names is there: files, folders and the names of the glossary's fields."""

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
GUIDE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
NAMED = sorted(set(re.findall(r"`((?:planner|catalog|ui|tests|demo_frames)/[\w./-]*)`", GUIDE)))


def test_the_recipes_name_their_files() -> None:
    recipes = GUIDE.split("## Recipes")[1].split("\n## ")[0]
    for recipe in re.split(r"\n- \*\*", recipes)[1:]:
        assert re.search(r"`(planner|catalog|ui)/[\w/]+\.py`", recipe), recipe


@pytest.mark.parametrize("path", NAMED)
def test_a_file_named_in_the_guide_is_there(path: str) -> None:
    assert (ROOT / path).exists()
