"""What is added to a cut for errors in what was told; the sums worked by hand.

Careful, four holes and two ends: 2 x 5^2 + 0.64 x 4 x 3^2 + (1.1^2 + 0.45^2) x 5^2 = 50 + 23.04 + 35.31 = 108.35; its
root is 10.41, times 1.65 is 17.18, and 0.064 x 5^2 = 1.6 on top: 18.78. Ordinary: 200 + 92.16 + 141.25 = 433.41, 20.82,
34.35 and 6.4: 40.75. Tape: five legs of 5 mm are 1.65 x sqrt(125) = 18.45.
"""

from dataclasses import replace

import pytest

from planner.parts import Frame, GeometryError, LengthBy, PlaceErrors, Port, ShopLimits
from planner.plan.length_allowance import find_allowance
from planner.plan.lengths import LegLength
from tests.builders import make_frame, make_limits, make_port

ERRORS = {
    GeometryError.CAREFUL: PlaceErrors(port_mm=3, anchor_mm=5, heading_deg=5),
    GeometryError.ORDINARY: PlaceErrors(port_mm=6, anchor_mm=10, heading_deg=10),
}
PLACES = ("start", "p0", "p1", "p2", "p3", "end")
PORTS: list[Port] = [make_port(place) for place in PLACES[1:-1]]
FRAME: Frame = make_frame(*PORTS, runs=())


def leg(number: int, basis: str = "relaxed shape", tolerance_mm: float | None = None) -> LegLength:
    """One of the five legs."""
    return LegLength(
        run_id=f"r{number}",
        from_place=PLACES[number],
        to_place=PLACES[number + 1],
        way_mm=300.0,
        nominal_mm=300.0,
        low_mm=300.0,
        high_mm=300.0,
        least_mm=300.0,
        basis=basis,
        tolerance_mm=tolerance_mm,
        told_by=None if tolerance_mm is None else LengthBy.TAPE,
    )


def told(number: int, tolerance_mm: float = 5.0) -> LegLength:
    """The same, measured along the line."""
    return leg(number, "told", tolerance_mm)


def limits_of(error: GeometryError | None) -> ShopLimits:
    """A shop whose frames are told that well."""
    return make_limits(geometry_error=error, place_errors=ERRORS)


def allow_mm(*legs: LegLength, error: GeometryError | None = None, frame: Frame = FRAME) -> float | None:
    """What is added."""
    return find_allowance(frame=frame, legs=legs, limits=limits_of(error)).allow_mm


FIVE = [leg(number) for number in range(5)]


@pytest.mark.parametrize(("error", "expected_mm"), [(GeometryError.CAREFUL, 18.78), (GeometryError.ORDINARY, 40.75)])
def test_places_of_four_holes_and_two_ends(error: GeometryError, expected_mm: float) -> None:
    found = find_allowance(frame=FRAME, legs=FIVE, limits=limits_of(error))
    assert found.allow_mm == pytest.approx(expected_mm, abs=0.01)
    assert found.error is error


def test_the_frame_goes_before_the_shop() -> None:
    careful = replace(FRAME, geometry_error=GeometryError.CAREFUL)
    assert allow_mm(*FIVE, error=GeometryError.ORDINARY, frame=careful) == pytest.approx(18.78, abs=0.01)


def test_where_nobody_said_how_well_nothing_is_told_of_it() -> None:
    assert allow_mm(*FIVE) is None


def test_told_lengths_bring_their_tolerances_and_nothing_of_the_places() -> None:
    five = [told(number) for number in range(5)]
    assert allow_mm(*five) == pytest.approx(18.45, abs=0.01)
    assert allow_mm(*five, error=GeometryError.ORDINARY) == pytest.approx(18.45, abs=0.01)
    assert find_allowance(frame=FRAME, legs=five, limits=limits_of(GeometryError.ORDINARY)).error is None


def test_exact_lengths_and_measured_guides_bring_nothing() -> None:
    assert allow_mm(*(told(number, 0.0) for number in range(5))) == 0
    assert allow_mm(*(leg(number, "measured") for number in range(5)), error=GeometryError.ORDINARY) == 0


def test_each_leg_that_is_told_takes_the_error_of_its_ends_out() -> None:
    # the first three told: p3 and the end are left, 0.64 x 9 + 25 + 35.31 + 3 x 25 = 141.07; the fourth leg adds p2
    mixed = [told(0), told(1), told(2), leg(3, "measured"), leg(4)]
    assert allow_mm(*mixed, error=GeometryError.CAREFUL) == pytest.approx(1.65 * 141.07**0.5 + 1.6, abs=0.01)
    mixed = [told(0), told(1), told(2), leg(3), leg(4)]
    assert allow_mm(*mixed, error=GeometryError.CAREFUL) == pytest.approx(1.65 * 146.83**0.5 + 1.6, abs=0.01)


def test_a_leg_with_slack_kept_on_purpose_counts_as_what_it_is() -> None:
    slack = [replace(one, basis=f"{one.basis}, with 150 mm of slack") for one in FIVE]
    assert allow_mm(*slack, error=GeometryError.CAREFUL) == pytest.approx(18.78, abs=0.01)
