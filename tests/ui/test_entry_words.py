"""What an entry says, in the words and units of its form."""

from typing import Any

import pytest

from ui.shared.entry_words import said_in

HOLE = {"id": "neck", "label": "Under the head tube", "opening": {"shape": "slot", "length": 18, "width": 7}}


@pytest.mark.parametrize(
    ("kind", "content", "words", "told"),
    [
        ("line", {"outer": 5}, "outer diameter", "5 mm"),
        ("line", {"kind": "brake_housing"}, "kind", "brake housing"),
        ("line", {"outer": None}, "outer diameter", "not measured"),
        ("brake", {"lever": {"fitted": True}}, "lever › fitted", "yes"),
        ("method", {"kind": "sleeve_tube", "bore": 4.6}, "bore diameter", "4.6 mm"),
        ("frame", {"ports": [HOLE]}, "ports › Under the head tube (neck) › opening › length", "18 mm"),
        ("frame", {"ports": [{"tilt": 45}]}, "ports › no. 1 › tilt", "45 degrees"),
        (
            "frame",
            {"zones": [{"id": "stay", "path": [[1, 2, 3], [4, 5, 6.5]]}]},
            "zones › stay › path",
            "1 2 3; 4 5 6.5",
        ),
    ],
)
def test_values_are_told_with_label_and_unit(kind: str, content: dict[str, Any], words: str, told: str) -> None:
    assert (words, told) in said_in(kind, content)


def test_a_field_that_a_later_version_wrote_is_told_as_it_is() -> None:
    assert said_in("line", {"not_known_yet": 3}) == [("not known yet", "3")]
