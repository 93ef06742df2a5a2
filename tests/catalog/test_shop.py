"""A shop's own figures: each reaches the planner under its name with a unit, and slips in them are told."""

import csv
import json
from pathlib import Path

import pytest

from catalog import Catalog, questions_of_shop, read_catalog
from catalog.field_help import fields_of
from catalog.lines import LineEntry
from catalog.shop import ShopEntry
from planner.parts import ShopLimits
from planner.plan.cut_length import hose_cut_tolerance_mm
from tests.catalog.samples import catalog_of, problems_in

PUBLISHED = Path(__file__).parents[1] / "published_values" / "hose_cut_tolerance.csv"
ROWS = list(csv.DictReader(PUBLISHED.open(encoding="utf-8")))


@pytest.fixture(scope="module")
def starter() -> Catalog:
    return read_catalog()


def _limits_of(**shop: object) -> ShopLimits:
    return catalog_of(json.dumps({"format": 1, "shop": shop})).workshop.limits


def _told(shop: str) -> list[str]:
    return [str(problem) for problem in problems_in(f"format: 1\nshop:\n  {shop}\n")]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["case"])
def test_starter_has_the_published_tolerances_of_cut_hoses(row: dict[str, str], starter: Catalog) -> None:
    tolerance_mm = hose_cut_tolerance_mm(length_mm=float(row["length_mm"]), limits=starter.workshop.limits)
    assert tolerance_mm == pytest.approx(float(row["expected_mm"]), abs=float(row["tolerance_mm"]))


def test_starter_s_figures_for_matching_sizes_and_for_rubber(starter: Catalog) -> None:
    limits = starter.workshop.limits
    assert (limits.match_clamp_mm, limits.match_bore_mm, limits.match_lift_mm) == (0.3, 0.1, 0.5)
    assert (limits.sleeve_modulus_mpa, limits.sleeve_friction_ratio) == (3.0, 0.1)


@pytest.mark.parametrize(
    ("field", "value", "name"),
    [
        ("match_clamp", 0.4, "match_clamp_mm"),
        ("match_bore", 0.2, "match_bore_mm"),
        ("match_lift", 0.6, "match_lift_mm"),
        ("sleeve_modulus", 5, "sleeve_modulus_mpa"),
        ("sleeve_friction", 0.3, "sleeve_friction_ratio"),
        ("hose_cut_tolerance_over", 0.02, "hose_cut_tolerance_over_ratio"),
    ],
)
def test_a_shop_s_own_figure_replaces_the_starter_s_and_no_other(
    field: str, value: float, name: str, starter: Catalog
) -> None:
    limits = _limits_of(**{field: value})
    differing = [one for one in ShopLimits.__slots__ if getattr(limits, one) != getattr(starter.workshop.limits, one)]
    assert differing == [name]
    assert getattr(limits, name) == value


def test_a_shop_may_bring_its_own_table_or_say_that_it_has_none() -> None:
    assert _limits_of(hose_cut_tolerances=[[500, 2], [1000, 4.5]]).hose_cut_tolerances == ((500.0, 2.0), (1000.0, 4.5))
    assert _limits_of(hose_cut_tolerances=[]).hose_cut_tolerances == ()


@pytest.mark.parametrize(
    ("shop", "told"),
    [
        (
            "hose_cut_tolerances: [[610, 4.8], [305, 3.18]]",
            "hose_cut_tolerances no. 2 no. 1: 305 mm was given, more than the row before, 610 mm, is allowed",
        ),
        (
            "hose_cut_tolerances: [[305, 3.18], [305, 4.8]]",
            "hose_cut_tolerances no. 2 no. 1: 305 mm was given, more than the row before, 305 mm, is allowed",
        ),
        (
            "hose_cut_tolerances: [[305]]",
            "hose_cut_tolerances no. 1: only 1 in the list, [up to this length, plus or minus on the cut]",
        ),
        (
            "hose_cut_tolerances: [[0, 3.18]]",
            "hose_cut_tolerances no. 1 no. 1: 0 mm was given, more than 0, at most 100000 mm is allowed",
        ),
        ("hose_cut_tolerances: 5", "hose_cut_tolerances: 5 was given, a list in brackets is allowed"),
        ("sleeve_modulus: 0", "sleeve_modulus: 0 MPa was given, more than 0, at most 1000 MPa is allowed"),
        ("match_clamp: -0.1", "match_clamp: -0.1 mm was given, 0 to 50 mm is allowed"),
        ("hose_cut_tolerance_over: 1", "hose_cut_tolerance_over: 1 was given, 0 to less than 1 is allowed"),
        (
            "match_clam: 0.3",
            "match_clam: match_clam is not a field here, did you mean match_clamp or match_lift or match_bore?",
        ),
        ('tax: "1.5"', 'tax: \'1.5\' was given, a part of the price up to "1" is allowed, such as "0.20" for 20 %'),
        ('money_step: "0.00"', 'money_step: \'0.00\' was given, more than "0" is allowed, such as "0.05"'),
        (
            "time_zone: Europe/Nowhere",
            "time_zone: 'Europe/Nowhere' was given, a name of the IANA list is allowed, such as Europe/Lisbon",
        ),
        (
            "time_zone: ../../etc",
            "time_zone: '../../etc' was given, a name of the IANA list is allowed, such as Europe/Lisbon",
        ),
        ("tax: 0.2", 'tax: the number 0.2 was given, money is decimal text in quotes such as "0.20"'),
    ],
)
def test_slip_in_a_shop_is_told(shop: str, told: str) -> None:
    assert _told(shop) == [f"f.yaml:3: shop > {told}"]


@pytest.mark.parametrize(("tax", "is_asked"), [("0.30", False), ("0.301", True), ("1", True)])
def test_a_tax_that_looks_like_a_slip_is_asked_about(tax: str, is_asked: bool) -> None:
    questions = questions_of_shop(_limits_of(tax=tax))
    assert [question.startswith("shop > tax: ") for question in questions] == [True] * is_asked


def test_a_table_that_grows_is_taken() -> None:
    assert _told("hose_cut_tolerances: [[305, 3.18], [305.1, 3.18]]") == []


def test_every_figure_of_a_shop_has_a_label_and_help_of_its_own() -> None:
    fields = [field for name, field in fields_of(ShopEntry).items() if name not in ("note", "source")]
    assert all(field.help for field in fields)
    assert len({field.label for field in fields}) == len(fields)


def test_help_says_which_friction_of_a_housing_is_meant() -> None:
    assert "of a housing, the inner cable in it" in fields_of(LineEntry)["friction"].help
    assert "inner cable" not in fields_of(ShopEntry)["friction"].help
