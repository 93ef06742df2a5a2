"""Editing a YAML text: what is changed is changed, all else stays as it was, comments included."""

import copy
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from catalog.edit_yaml import TextNotEditable, edit_yaml
from catalog.yaml_text import read_yaml

DEMO_FILES = sorted((Path(__file__).parents[2] / "demo_frames").glob("*.yaml"))
STARTER_FILES = sorted((Path(__file__).parents[2] / "catalog" / "starter").glob("*.yaml"))

TEXT = """\
# our own hoses
format: 1
lines:            # by the metre
  - {id: hose-50, name: Brake hose, thick, outer: 5.0}   # the usual one
  # the thicker one
  - id: hose-55
    outer: 5.5    # by calipers
    bore: 2.3     # not sure
  # for gears
  - {id: gear-40, outer: 4.0}
parts:
  - {id: olive, price: "1.20"}   # a bag of fifty
notes:
# the end
"""


def said(text: str) -> Any:
    return copy.deepcopy(read_yaml(text.encode()).value)


def edited(text: str, change: Any) -> str:
    value = said(text)
    change(value)
    return edit_yaml(text, value)


def test_the_same_value_leaves_the_text_alone() -> None:
    assert edit_yaml(TEXT, said(TEXT)) == TEXT


@pytest.mark.parametrize("path", [*DEMO_FILES, *STARTER_FILES], ids=lambda path: path.name)
def test_every_file_of_ours_is_left_alone_when_nothing_changes(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert edit_yaml(text, said(text)) == text


@pytest.mark.parametrize(
    ("change", "before", "after"),
    [
        (lambda v: v["lines"][0].update(outer=5.1), "outer: 5.0}   # the usual", "outer: 5.1}   # the usual"),
        (lambda v: v["lines"][1].update(outer=6), "outer: 5.5    # by calipers", "outer: 6    # by calipers"),
        (lambda v: v["lines"][0].update(name="Hose"), "Brake hose, thick,", "Hose,"),
        (lambda v: v["lines"][0].update(name="A: b, c"), "Brake hose, thick,", "'A: b, c',"),
        (lambda v: v["lines"][0].pop("name"), " name: Brake hose, thick,", ""),
        (lambda v: v["lines"][0].pop("outer"), ", outer: 5.0}", "}"),
        (lambda v: v["lines"][0].update(bore=2.1), "outer: 5.0}", "outer: 5.0, bore: 2.1}"),
        (lambda v: v["lines"][1].pop("outer"), "    outer: 5.5    # by calipers\n", ""),
        (lambda v: v["lines"][1].pop("bore"), "    bore: 2.3     # not sure\n", ""),
        (lambda v: v["lines"][1].update(friction=0.3), "# not sure\n", "# not sure\n    friction: 0.3\n"),
        (lambda v: v["lines"].pop(0), "  - {id: hose-50, name: Brake hose, thick, outer: 5.0}   # the usual one\n", ""),
        (lambda v: v["lines"].append({"id": "new"}), "outer: 4.0}\n", "outer: 4.0}\n  - {id: new}\n"),
        (lambda v: v["parts"][0].update(price="1.30"), '"1.20"', "'1.30'"),
        (lambda v: v.update(notes="1"), "notes:\n", "notes: '1'\n"),
        (lambda v: v.update(notes=None, more=[1]), "notes:\n", "notes:\nmore: [1]\n"),
        (
            lambda v: v.update(wires=[{"id": "w", "at": [1, [2, 3]]}]),
            "notes:\n",
            "notes:\nwires:\n  - id: w\n    at:\n      - 1\n      - [2, 3]\n",
        ),
        (lambda v: v.update(wires=[{"id": "w"}]), "notes:\n", "notes:\nwires:\n  - {id: w}\n"),
        (lambda v: v.update(wires={"id": "w"}), "notes:\n", "notes:\nwires: {id: w}\n"),
        (lambda v: v.update(wires=[]), "notes:\n", "notes:\nwires: []\n"),
        (lambda v: v["lines"][1].update(bore=None), "bore: 2.3 ", "bore: null "),
        (lambda v: v.pop("notes"), "notes:\n", ""),
    ],
)
def test_one_change_touches_one_place(change: Any, before: str, after: str) -> None:
    assert TEXT.count(before) == 1
    assert edited(TEXT, change) == TEXT.replace(before, after)


def test_an_entry_is_moved_to_its_new_words_by_its_id() -> None:
    def change(value: Any) -> None:
        del value["lines"][1]
        value["lines"][1]["outer"] = 4.1
        value["lines"].append({"id": "wire-2", "outer": 2.0, "through": [{"port": "a"}, {"port": "b"}]})

    text = edited(TEXT, change)
    assert "  # the thicker one\n  # for gears\n  - {id: gear-40, outer: 4.1}\n  - id: wire-2\n    outer: 2.0\n" in text
    assert "# the usual one" in text


def test_windows_line_ends_and_a_byte_order_mark_stay() -> None:
    text = "\ufeff" + TEXT.replace("\n", "\r\n")
    value = said(TEXT)
    value["lines"][0]["outer"] = 5.1
    value["lines"].append({"id": "new"})
    value["lines"][1]["friction"] = 0.3
    result = edit_yaml(text, value)
    assert result.startswith("\ufeff# our own hoses\r\n")
    assert result.count("\n") == result.count("\r\n") == TEXT.count("\n") + 2


def test_a_file_without_a_last_line_end_can_be_added_to() -> None:
    text = "format: 1\nlines:\n  - {id: a}"
    assert edited(text, lambda v: v["lines"].append({"id": "b"})) == "format: 1\nlines:\n  - {id: a}\n  - {id: b}\n"


@pytest.mark.parametrize("text", ["a: [", "a: &x 1\nb: *x\n", "a: 1\na: 2\n", "- 1\n", ""])
def test_a_text_that_cannot_be_read_is_refused(text: str) -> None:
    with pytest.raises(TextNotEditable, match="it cannot be read as it stands; change it by hand"):
        edit_yaml(text, {"a": 3})


def leaves(value: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from leaves(inner, (*path, key))
    elif isinstance(value, list):
        for place, inner in enumerate(value):
            yield from leaves(inner, (*path, place))
    elif path[-1] != "id":
        yield path


def comments_of(text: str) -> list[str]:
    return re.findall(r"(?:^|\s)(#[^\n]*)", text)


CASES = [(path.name, path.read_text(encoding="utf-8")) for path in [*DEMO_FILES, *STARTER_FILES]]
SCALARS = st.one_of(
    st.integers(-(10**6), 10**6),
    st.floats(allow_nan=False, allow_infinity=False),
    st.booleans(),
    st.none(),
    st.text(st.characters(exclude_categories=["Cs", "Cc"]), max_size=30),
)


@settings(deadline=None, max_examples=60)
@given(data=st.data(), case=st.sampled_from(CASES), new=SCALARS)
def test_any_single_value_can_become_any_other(data: st.DataObject, case: tuple[str, str], new: Any) -> None:
    _, text = case
    value = said(text)
    path = data.draw(st.sampled_from(list(leaves(value))))
    place = value
    for step in path[:-1]:
        place = place[step]
    place[path[-1]] = new
    try:
        result = edit_yaml(text, value)
    except TextNotEditable:
        pytest.fail(f"{path} = {new!r} in {case[0]}")
    assert said(result) == value
    kept = result.splitlines()
    changed = [line for line in text.splitlines() if line not in kept]
    assert len(changed) <= 8  # one value spans a few lines at most
    if not isinstance(new, str):
        assert comments_of(result) == comments_of(text)
