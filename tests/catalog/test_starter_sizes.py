"""Sizes in the starter catalog against published tables."""

import csv
from pathlib import Path

import pytest

from catalog import read_catalog
from planner.amounts import MILLIMETRES_PER_INCH
from planner.parts import Line, LineKind, SpokeLink

GAUGES = Path(__file__).parent.parent / "published_values" / "wire_gauge.csv"
ROWS = list(csv.DictReader(GAUGES.open(encoding="utf-8")))
TRADE_ROUNDING_MM = 0.04
"""The trade calls a spoke of 2.032 mm "2.0"; common practice, no source."""

BEND_OVER_DIAMETER = {
    LineKind.HYDRAULIC_HOSE: (5.0, 15.0),
    LineKind.BRAKE_HOUSING: (8.0, 15.0),
    LineKind.SHIFT_HOUSING: (8.0, 15.0),
    LineKind.INNER_CABLE: (8.0, 15.0),
    LineKind.ELECTRIC_WIRE: (2.0, 15.0),
}
"""How tight a line of a kind may be bent, in its own diameters; common practice, no source."""


@pytest.mark.parametrize("line", read_catalog().workshop.lines.values(), ids=lambda line: line.id)
def test_no_line_of_the_starter_is_said_to_bend_like_a_string(line: Line) -> None:
    assert line.minimum_bend_radius_mm is not None
    least, most = BEND_OVER_DIAMETER[line.kind]
    assert least <= line.minimum_bend_radius_mm / line.outer_diameter_mm <= most


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["gauge"])
def test_wire_gauges_are_defined_in_inches(row: dict[str, str]) -> None:
    assert float(row["diameter_in"]) * MILLIMETRES_PER_INCH == pytest.approx(float(row["diameter_mm"]), abs=1e-9)


def test_spoke_links_of_the_starter_are_cut_from_real_wire() -> None:
    gauges_mm = [float(row["diameter_mm"]) for row in ROWS]
    spokes = [method for method in read_catalog().workshop.methods if isinstance(method, SpokeLink)]
    assert len(spokes) >= 4
    for spoke in spokes:
        nearest_mm = min(gauges_mm, key=lambda gauge_mm: abs(gauge_mm - spoke.rod_diameter_mm))
        assert 0 <= nearest_mm - spoke.rod_diameter_mm <= TRADE_ROUNDING_MM, spoke.id


def test_american_gauges_and_a_wrong_table_would_be_noticed() -> None:
    """12 AWG is 0.0808 in, and a table on the web prints SWG 12 as 4.0 mm: neither is the standard's 2.6416."""
    twelve_mm = next(float(row["diameter_mm"]) for row in ROWS if row["gauge"] == "12")
    assert twelve_mm != pytest.approx(0.0808 * MILLIMETRES_PER_INCH, abs=0.1)
    assert twelve_mm != pytest.approx(4.0, abs=0.1)
