"""Numbers as people type them: read for certain, or refused; never guessed."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ui.shared.number_text import read_number


@pytest.mark.parametrize(
    ("typed", "value"),
    [
        ("4,5", 4.5),
        ("4.5 mm", 4.5),
        ("4,5mm", 4.5),
        (".5", 0.5),
        ("12.", 12.0),
        ("−3,2", -3.2),
        (" 7\u202fmm ", 7.0),
        ("1,234", 1.234),
        ("0", 0.0),
    ],
)
def test_a_number_is_read_with_either_decimal_sign(typed: str, value: float) -> None:
    assert read_number(typed, unit="mm").value == value
    assert not read_number(typed, unit="mm").problem


def test_a_comma_is_told_how_it_was_read() -> None:
    assert read_number("1,234", unit="mm").remark == "Read as 1.234 mm"
    assert read_number("1.234", unit="mm").remark == ""


def test_an_empty_field_is_no_number_and_no_mistake() -> None:
    assert read_number("  ", unit="mm").value is None
    assert not read_number("", unit="mm").problem


@pytest.mark.parametrize(
    "typed", ["1,234.5", "1 234", "1'234,5", "nan", "inf", "4e1", "4,,5", "4 5", "mm", "٤", "1_0", "-", ".", "9" * 400]
)
def test_what_could_be_read_in_two_ways_or_none_is_refused(typed: str) -> None:
    read = read_number(typed, unit="mm")
    assert read.value is None
    assert read.problem
    assert len(read.problem) < 100


@given(st.decimals(min_value=-9999, max_value=9999, places=3), st.sampled_from([".", ","]))
def test_every_measure_is_read_as_it_stands(number: object, sign: str) -> None:
    assert read_number(str(number).replace(".", sign), unit="mm").value == float(str(number))


@given(st.text())
def test_nothing_typed_breaks_a_field(typed: str) -> None:
    read = read_number(typed, unit="mm")
    assert read.value is None or not read.problem
