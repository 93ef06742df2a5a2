"""The quick question with sizes as they are said at the bench: ranges, and what went in."""

import json
from typing import Any

import pytest

from catalog import Spread
from planner.parts import BoxOpening, OvalOpening, RoundOpening, SlotOpening
from tests.ui.test_terminal import lineplan
from ui.shared.number_text import as_typed, read_measure_typed
from ui.shared.opening_text import OpeningNotUnderstood, read_opening


def answer_to(*words: str) -> dict[str, Any]:
    """The answer of the terminal, as data."""
    return dict(json.loads(lineplan("fit", *words, "--json").stdout))


@pytest.mark.parametrize(
    ("text", "opening"),
    [
        ("round 6.5..7", RoundOpening(diameter_mm=6.75, tolerance_mm=0.25)),
        ("slot 17..18x7", SlotOpening(length_mm=17.5, width_mm=7, tolerance_mm=0.5)),
        ("oval 9x5..6", OvalOpening(length_mm=9, width_mm=5.5, tolerance_mm=0.5)),
        ("box 9..10x5 r1", BoxOpening(length_mm=9.5, width_mm=5, corner_radius_mm=1, tolerance_mm=0.5)),
        ("goes 6.4", RoundOpening(diameter_mm=6.4, tolerance_mm=0.0, is_at_least=True)),
        ("At least 6.4", RoundOpening(diameter_mm=6.4, tolerance_mm=0.0, is_at_least=True)),
    ],
)
def test_sizes_as_they_are_said(text: str, opening: Any) -> None:
    assert read_opening(text, tolerance_mm=0.1) == opening


@pytest.mark.parametrize("text", ["round 7..6.5", "round 7..7", "round 0..7", "goes 6..7", "slot 18x", "round 6...7"])
def test_what_is_no_size(text: str) -> None:
    with pytest.raises(OpeningNotUnderstood, match="does not give sizes above zero"):
        read_opening(text, tolerance_mm=0.1)


def test_the_worst_case_is_the_worse_end_of_each_range() -> None:
    told = answer_to("--opening", "slot 18x7", "--tilt", "20..45", "--wall", "1.2..1.6", "--item", "5.2", "--item", "4")
    worst = answer_to("--opening", "slot 18x7", "--tilt", "45", "--wall", "1.6", "--item", "5.2", "--item", "4")
    middle = answer_to("--opening", "slot 18x7", "--tilt", "32.5", "--wall", "1.4", "--item", "5.2", "--item", "4")
    assert told["worst_clearance_mm"] == worst["worst_clearance_mm"]
    assert told["clearance_mm"] == middle["clearance_mm"]


def test_what_went_in_is_told_as_at_least() -> None:
    words = ("fit", "--opening", "goes 6.4", "--item", "6.5")
    told = lineplan(*words)
    assert told.returncode == 3
    assert "6.5 mm through at least 6.4 mm" in told.stdout
    assert "only what went in is sure of this hole: measure it" in told.stdout
    assert answer_to("--opening", "goes 6.4", "--item", "6.2")["outcome"] == "fits"


def test_a_tilt_that_decides_is_to_be_measured() -> None:
    words = ("--opening", "slot 18x7", "--tilt", "40..50", "--wall", "1.6", "--item", "5.9", "--item", "5.9")
    assert answer_to(*words)["outcome"] == "unknown"
    told = lineplan("fit", *words).stdout
    assert "only where the line leans little and the wall is thin: measure both" in told


@pytest.mark.parametrize(
    ("words", "problem"),
    [
        (("--opening", "round 6..7", "--tolerance", "0.1"), "fit > tolerance: given beside a range"),
        (("--opening", "round 7", "--tilt", "20..95"), "fit > tilt: 95 degrees was given, allowed: 0 or more"),
        (("--opening", "round 7", "--tilt", "9..3"), "does not go from a smaller to a larger number"),
        (("--opening", "round 7", "--wall", "thin"), "'thin' is not a number, nor a range such as 20..45"),
    ],
)
def test_what_is_refused(words: tuple[str, ...], problem: str) -> None:
    told = lineplan("fit", *words, "--item", "5")
    assert told.returncode == 2
    assert problem in " ".join(told.stderr.split())


@pytest.mark.parametrize(("typed", "value"), [("6.5..7", Spread(6.5, 7)), ("6,5..7 mm", Spread(6.5, 7)), ("4,5", 4.5)])
def test_a_field_takes_ranges_with_points_and_commas(typed: str, value: float) -> None:
    told = read_measure_typed(typed, unit="mm").value
    assert told is not None
    assert (told, as_typed(told)) == (value, as_typed(value))


@pytest.mark.parametrize("typed", ["7..6", "..7", "6..", "6..7..8", "a..b"])
def test_a_field_says_what_is_no_range(typed: str) -> None:
    assert "is not a range from a smaller to a larger number" in read_measure_typed(typed, unit="mm").problem
