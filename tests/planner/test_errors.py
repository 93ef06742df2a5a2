"""What the planner's errors say."""

import pytest

from planner.errors import ImpossibleDimensionError, PlannerError, UnknownPortError


@pytest.mark.parametrize(
    ("value", "unit", "sentence"),
    [
        (-1, "mm", "step: -1 mm was given; it must be above zero"),
        (0, "", "step: 0 was given; it must be above zero"),
        (0.25, "", "step: 0.25 was given; it must be above zero"),
    ],
)
def test_impossible_number_is_told_with_its_unit_where_it_has_one(value: float, unit: str, sentence: str) -> None:
    error = ImpossibleDimensionError(name="step", value=value, unit=unit, rule="must be above zero")
    assert str(error) == sentence
    assert (error.name, error.value, error.unit, error.rule) == ("step", value, unit, "must be above zero")
    assert isinstance(error, PlannerError)
    assert isinstance(error, ValueError)


def test_unknown_port_is_told_with_those_there_are() -> None:
    error = UnknownPortError(frame_id="larkmoor", port_id="nek", known=("neck", "belly"))
    assert str(error) == "larkmoor has no port or anchor nek; it has neck, belly"
