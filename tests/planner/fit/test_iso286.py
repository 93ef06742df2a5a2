"""Fit classes by the limits of fits that other people's tables give."""

import csv
from pathlib import Path

import pytest

from planner.verdicts import Outcome, fit_class_of, fit_outcome_of

ROWS = list(csv.DictReader((Path(__file__).parents[2] / "published_values/iso286_fits.csv").open(encoding="utf-8")))


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["case"])
def test_a_fit_has_the_class_its_limits_give_it(row: dict[str, str]) -> None:
    least_mm, most_mm = float(row["least_clearance_um"]) / 1000, float(row["most_clearance_um"]) / 1000
    assert fit_class_of(worst_clearance_mm=least_mm, best_clearance_mm=most_mm) == row["expected_class"]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["case"])
def test_only_a_clearance_fit_slides_without_care(row: dict[str, str]) -> None:
    """With no running clearance asked: sure to slide where even the least is not below nothing."""
    least_mm, most_mm = float(row["least_clearance_um"]) / 1000, float(row["most_clearance_um"]) / 1000
    outcome = fit_outcome_of(nominal_mm=most_mm, worst_mm=least_mm, running_clearance_mm=0.0)
    expected = {"clearance": Outcome.FITS, "transition": Outcome.TIGHT, "interference": Outcome.NO_FIT}
    assert outcome is expected[row["expected_class"]]
