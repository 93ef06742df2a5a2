"""Fit classes by the limits of fits that other people's tables give."""

import csv
from pathlib import Path

import pytest

from planner.fit.hole_fit import check_things_in_room
from planner.outcomes import FitClass
from planner.parts import RoundOpening
from planner.rules import PlaceRule
from planner.verdicts import Outcome, Room, Thing, ThingKind, fit_class_of, fit_outcome_of

ROWS = list(csv.DictReader((Path(__file__).parents[2] / "published_values/iso286_fits.csv").open(encoding="utf-8")))


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["case"])
def test_a_fit_has_the_class_its_limits_give_it(row: dict[str, str]) -> None:
    least_mm, most_mm = float(row["least_clearance_um"]) / 1000, float(row["most_clearance_um"]) / 1000
    assert fit_class_of(worst_clearance_mm=least_mm, best_clearance_mm=most_mm) == row["expected_class"]


@pytest.mark.parametrize(
    ("hole", "line", "expected"),
    [
        ((5.2, 0.1), (5.5, 0.2), FitClass.INTERFERENCE),  # the largest hole is as large as the smallest line: 5.3
        ((5.2, 0.1), (5.4, 0.2), FitClass.TRANSITION),
        ((5.2, 0.1), (5.1, 0.0), FitClass.CLEARANCE),  # the smallest hole is as large as the largest line: 5.1
        ((5.2, 0.1), (5.0, 0.1), FitClass.CLEARANCE),
        ((5.2, 0.1), (5.1, 0.1), FitClass.TRANSITION),
        ((5.2, 0.0), (5.2, 0.0), FitClass.CLEARANCE),  # both at once: told as the one that slides
    ],
)
def test_exactly_no_room_is_the_extreme_of_the_class_beside_transition(
    hole: tuple[float, float], line: tuple[float, float], expected: FitClass
) -> None:
    """ISO 286-1:2010, 3.3: "or, in the extreme case, equal", both of clearance and of interference; from memory."""
    check = check_things_in_room(
        rule=PlaceRule.PORT_CLEARANCE,
        room=Room(opening=RoundOpening(diameter_mm=hole[0], tolerance_mm=hole[1])),
        things=[Thing(id="line", kind=ThingKind.LINE, diameter_mm=line[0], tolerance_mm=line[1])],
        running_clearance_mm=0.2,
    )
    assert check.fit_class is expected


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["case"])
def test_only_a_clearance_fit_slides_without_care(row: dict[str, str]) -> None:
    """With no running clearance asked: sure to slide where even the least is not below nothing."""
    least_mm, most_mm = float(row["least_clearance_um"]) / 1000, float(row["most_clearance_um"]) / 1000
    outcome = fit_outcome_of(nominal_mm=most_mm, worst_mm=least_mm, running_clearance_mm=0.0)
    expected = {"clearance": Outcome.FITS, "transition": Outcome.TIGHT, "interference": Outcome.NO_FIT}
    assert outcome is expected[row["expected_class"]]
