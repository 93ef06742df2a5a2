"""Measures told as ranges and gauges in catalog files: what they become, and what is refused beside them."""

import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import TypeAdapter

from catalog.fields import Tilt
from catalog.spreads import Spread, read_range, spread_of
from planner.parts import Frame, RoundOpening, SlotOpening
from tests.catalog.samples import catalog_of, problems_in
from tests.catalog.test_frame_without_places import FRAME

ROUND = "opening: {shape: round, diameter: 7}, wall: 1.5, tilt: 40"


def with_port(told: str) -> str:
    """The frame with its first hole told otherwise."""
    assert ROUND in FRAME
    return FRAME.replace(ROUND, told, 1)


def frame_of(text: str) -> Frame:
    return catalog_of(text).frames["bench"]


def told_of(text: str) -> list[str]:
    """Field and words of everything wrong."""
    return [f"{problem.field}: {problem.given}, {problem.allowed}" for problem in problems_in(text)]


def test_a_range_counts_as_its_middle_give_or_take_half() -> None:
    port = frame_of(with_port("opening: {shape: round, diameter: 6.5..7}, wall: 1..2, tilt: 20..45")).ports["in"]
    assert port.opening == RoundOpening(diameter_mm=6.75, tolerance_mm=0.25)
    assert (port.tilt_deg, port.tilt_tolerance_deg) == (32.5, 12.5)
    assert (port.wall_thickness_mm, port.wall_tolerance_mm) == (1.5, 0.5)


def test_the_widest_range_of_a_hole_stands_for_all_its_sizes() -> None:
    port = frame_of(with_port("opening: {shape: slot, length: 17..18, width: 7..7.4}, wall: 1.5")).ports["in"]
    assert port.opening == SlotOpening(length_mm=17.5, width_mm=7.2, tolerance_mm=0.5)


def test_cavities_guides_and_lengths_take_ranges() -> None:
    guided = "between: [out, caliper], guide: {bore: 6..6.4, length: 320..330}"
    text = FRAME.replace("bore: 40", "bore: 38..42").replace("length: 420", "length: 410..430")
    frame = frame_of(text.replace("between: [out, caliper]", guided))
    assert (frame.zones["tube"].bore_diameter_mm, frame.zones["tube"].bore_tolerance_mm) == (40, 2)
    assert (frame.runs["a"].length_mm, frame.runs["a"].length_tolerance_mm) == (420, 10)
    guide = frame.runs["c"].guide
    assert guide is not None
    assert (guide.bore_diameter_mm, guide.tolerance_mm) == (pytest.approx(6.2), pytest.approx(0.2))
    assert (guide.length_mm, guide.length_tolerance_mm) == (325, 5)


@pytest.mark.parametrize("told", ["{at_least: 6.4}", "{shape: round, at_least: 6.4}", "{shape: gauge, at_least: 6.4}"])
def test_what_went_in_is_sure_and_no_more(told: str) -> None:
    port = frame_of(with_port(f"opening: {told}, wall: 1.5")).ports["in"]
    assert port.opening == RoundOpening(diameter_mm=6.4, tolerance_mm=0.0, is_at_least=True)


def test_an_opening_that_was_seen_and_not_measured_is_none() -> None:
    assert frame_of(with_port("opening: unknown, wall: 1.5")).ports["in"].opening is None


@pytest.mark.parametrize(
    ("told", "problem"),
    [
        (
            "opening: {shape: round, diameter: 7..6.5}, wall: 1.5",
            "opening diameter: '7..6.5' was given, one number is allowed, or a range from the smaller to the larger "
            "such as 6.5..7",
        ),
        (
            "opening: {shape: round, diameter: 0.5..7}, wall: 1.5",
            "opening diameter: 0.5 mm was given, 1 to 100 mm is allowed; if that was inches, it is 12.7 mm",
        ),
        (
            "opening: {shape: round, diameter: 6.5..7, tolerance: 0.1}, wall: 1.5",
            "opening tolerance: 0.1 mm was given beside a range of ±0.25 mm, the range alone, or one number with its "
            "tolerance",
        ),
        (
            "opening: {shape: round, diameter: 2..12}, wall: 1.5",
            "opening: a range of ±5 mm was given, less than half of the hole, 3.5 mm, is allowed",
        ),
        (
            "opening: {shape: round, diameter: 7}, wall: 1.5, tilt: 40..90",
            "tilt: 90 degrees was given, 0 to less than 90 degrees is allowed",
        ),
        (
            "opening: {at_least: 0.25}, wall: 1.5",
            "opening at_least: 0.25 mm was given, 1 to 100 mm is allowed; if that was inches, it is 6.3 mm",
        ),
        (
            "opening: {at_least: 6.4, tolerance: 0.1}, wall: 1.5",
            "opening tolerance: tolerance is not a field here, known here: at_least, shape",
        ),
    ],
)
def test_what_is_refused(told: str, problem: str) -> None:
    assert told_of(with_port(told)) == [problem]


@pytest.mark.parametrize(
    ("before", "after", "field"),
    [
        ("length: 610, length_tolerance: 2", "length: 600..620, length_tolerance: 2", "length_tolerance"),
        ("length: 610, length_tolerance: 2", "length_tolerance: 2", "length_tolerance"),
        ("length: 420, reached: true", "reached: true", "reached"),
        ("between: [out, caliper]", "between: [out, caliper], guide: {bore: 6..7, tolerance: 0.1}", "guide tolerance"),
    ],
)
def test_a_length_or_bore_is_not_told_twice_nor_by_halves(before: str, after: str, field: str) -> None:
    assert before in FRAME
    (problem,) = problems_in(FRAME.replace(before, after, 1))
    assert problem.field == field


ADAPTER: TypeAdapter[Any] = TypeAdapter(Tilt)


@given(st.floats(0, 89, allow_subnormal=False), st.floats(0, 89, allow_subnormal=False))
def test_a_range_survives_being_written_and_read(a: float, b: float) -> None:
    low, high = sorted((round(a, 3), round(b, 3)))
    text = f"{low:.3f}..{high:.3f}"
    assert read_range(text) == (low, high)
    if low == high:
        return
    told = ADAPTER.validate_python(text)
    assert isinstance(told, Spread)
    assert (told.low, told.high, spread_of(told)) == (low, high, (high - low) / 2)
    again = ADAPTER.validate_python(json.loads(ADAPTER.dump_json(told)))
    assert (again.low, again.high) == pytest.approx((low, high), rel=1e-5)
