"""`lineplan fit` beyond the plain question: smallest hole, thickest thing, a joint in place of a size, wedging."""

import json
from math import sqrt
from typing import Any

import pytest

from tests.ui.test_terminal import lineplan


def told(*words: str, status: int = 0) -> dict[str, Any]:
    run = lineplan("fit", *words, "--json")
    assert run.returncode == status, run.stderr
    answer: dict[str, Any] = json.loads(run.stdout)
    return answer


@pytest.mark.parametrize(
    ("kind", "items", "expected_mm"),
    [
        ("round", ("5.5", "4"), 9.5 + 2 * 0.2 + 0.1),
        ("round", ("5", "5", "5"), 5.2 * (1 + 2 / sqrt(3)) + 0.1),
        ("slot 7", ("5.5", "4"), 9.5 + 2 * 0.2 + 0.1),
        ("box 10 r1", ("5.5",), 5.5 + 0.2 + 0.1),
    ],
)
def test_the_smallest_hole_with_the_shop_s_margins(kind: str, items: tuple[str, ...], expected_mm: float) -> None:
    """The starter shop wants 0.2 to run and takes holes as 0.1 less."""
    words = [word for item in items for word in ("--item", item)]
    answer = told("--smallest", kind, *words)
    assert answer["outcome"] == "fits"
    assert answer["smallest_mm"] == pytest.approx(expected_mm, abs=2e-4)
    assert answer["none_below_mm"] == pytest.approx(expected_mm, abs=0.01)
    assert [thing["diameter_mm"] for thing in answer["placement"]] == [float(item) for item in items]


def test_no_length_of_a_slot_too_narrow_is_enough() -> None:
    assert told("--smallest", "slot 5", "--item", "5.5", status=3)["smallest_mm"] is None
    run = lineplan("fit", "--smallest", "slot 5", "--item", "5.5")
    assert "No length is enough: 5.5 mm will not go through a slot 5 mm wide" in run.stdout
    assert "drilled" not in run.stdout


def test_the_thickest_thing_beside_another() -> None:
    answer = told("--largest-item", "--opening", "round 12", "--item", "4")
    assert answer["largest_item_mm"] == pytest.approx(12 - 0.1 - 4 - 2 * 0.2, abs=2e-4)
    assert told("--largest-item", "--opening", "round 12", "--item", "12", status=3)["largest_item_mm"] is None


def test_a_size_for_people_is_on_the_safe_side_and_says_what_is_proven() -> None:
    run = lineplan("fit", "--smallest", "round", "--item", "5", "--item", "5", "--item", "5")
    assert run.returncode == 0, run.stderr
    words = " ".join(run.stdout.split())
    assert "The smallest round hole for 5 + 5 + 5 mm is 11.31 mm across." in words  # 11.3044...
    assert "proven: nothing smaller by a hundredth does" in words
    assert "a finished one is never drilled, filed or widened" in words
    run = lineplan("fit", "--largest-item", "--opening", "slot 19x9", "--item", "5.001", "--item-tolerance", "0.001")
    assert "is 8.69 mm" in " ".join(run.stdout.split())  # 9 - 0.1 - 0.2 - 0.001 = 8.699


def test_a_joint_stands_in_for_its_size() -> None:
    """Stud 2.6 in a bore of 2.1 swells a hose of 5: sqrt(25 + 2.6^2 - 2.1^2)."""
    answer = told("--opening", "slot 19x7", "--joint", "coupler-26", "--line", "hose-50x21")
    assert answer["joint"]["diameter_mm"] == pytest.approx(sqrt(25 + 2.6**2 - 2.1**2), abs=1e-4)
    assert answer["joint"]["rigid_length_mm"] == pytest.approx(2 * 9 + 3)
    assert answer["clearance_mm"] == pytest.approx(7 - sqrt(25 + 2.6**2 - 2.1**2), abs=1e-4)


def test_old_and_new_line_are_told_by_naming_two() -> None:
    words = ("--opening", "slot 19x7", "--joint", "coupler-26", "--line", "hose-50x21")
    both = told(*words, "--line", "hose-55x23")
    assert both["joint"]["diameter_mm"] == pytest.approx(sqrt(5.5**2 + 2.6**2 - 2.3**2), abs=1e-4)


def test_behind_a_bore_a_joint_is_asked_with_its_own_stiff_length() -> None:
    words = ("--opening", "round 9", "--wall", "2", "--joint", "coupler-26", "--line", "hose-50x21", "--bore", "35")
    answer = told(*words)
    assert answer["longest_rigid_mm"] > 21
    assert answer["rigid_outcome"] == "fits"


def test_a_joint_goes_beside_typed_things_and_into_the_smallest_hole() -> None:
    answer = told("--smallest", "round", "--joint", "spoke-20x20", "--line", "hose-50x21", "--item", "4")
    tolerance_mm = 0.05  # of the hose, as the starter catalog tells it
    assert answer["smallest_mm"] == pytest.approx(5 + tolerance_mm + 4 + 2 * 0.2 + 0.1, abs=0.06)


def test_a_joint_that_cannot_be_made_is_a_no_with_its_reason() -> None:
    words = ("--opening", "slot 19x7", "--joint", "coupler-30", "--line", "hose-50x21")
    assert told(*words, status=3)["joint"] is None
    run = lineplan("fit", *words)
    assert run.returncode == 3
    assert "This joint cannot be made between these lines." in run.stdout


def test_three_lines_alike_that_can_wedge_are_told() -> None:
    words = ("--item", "5", "--item", "5", "--item", "5")
    assert told("--opening", "round 15", *words)["can_wedge_at_ratio"] == pytest.approx(3.0)
    assert "can_wedge_at_ratio" not in told("--opening", "round 17", *words)
    assert "wedge side by side" in lineplan("fit", "--opening", "round 15", *words).stdout


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--item", "5"), ("opening: none was given",)),
        (("--opening", "round 9"), ("item: none was given",)),
        (("--smallest", "tri", "--item", "5"), ("smallest: 'tri' was given",)),
        (("--smallest", "box 4 r3", "--item", "5"), ("smallest: 'box 4 r3' was given",)),
        (("--smallest", "round", "--opening", "round 9", "--item", "5"), ("one question at a time",)),
        (("--largest-item", "--opening", "round 9", "--rigid", "5", "--bore", "40"), ("only when asking whether",)),
        (
            ("--opening", "roun 9", "--joint", "glue", "--line", "rope", "--item", "-1"),
            ("opening: 'roun 9'", "joint: 'glue'", "line: 'rope'", "item: -1 mm"),
        ),
        (("--opening", "round 9", "--joint", "coupler-26"), ("line: 0 were given",)),
        (("--opening", "round 9", "--line", "hose-50x21"), ("joint: ''",)),
    ],
)
def test_every_problem_is_told_at_once(words: tuple[str, ...], said: tuple[str, ...]) -> None:
    run = lineplan("fit", *words)
    assert run.returncode == 2
    assert run.stdout == ""
    for sentence in said:
        assert sentence in run.stderr
        assert "allowed" in run.stderr


def test_a_miss_of_less_than_a_hundredth_is_never_told_as_none() -> None:
    run = lineplan("fit", "--opening", "round 5", "--item", "5.0004")
    assert run.returncode == 3
    assert "clearance -0.0004 mm" in run.stdout
    assert "-0.00 mm" not in run.stdout
