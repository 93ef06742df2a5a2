"""Grip of a sleeve: an independent integration, and its limits: hoop tension, Lame's tube with published figures."""

import csv
from math import pi, sqrt
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from planner.errors import ImpossibleDimensionError
from planner.mechanics.press_fit import sleeve_hold_n, sleeve_pressure_mpa
from tests.planner.mechanics.lame_oracle import lame_pressure_mpa

ROWS = list(csv.DictReader((Path(__file__).parents[2] / "published_values/press_fit.csv").open(encoding="utf-8")))


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["case"])
def test_lame_s_tube_is_the_worked_example(row: dict[str, str]) -> None:
    core_modulus_mpa = float(row["core_modulus_mpa"]) if row["core_modulus_mpa"] else None
    pressure_mpa = lame_pressure_mpa(
        interference_mm=float(row["interference_mm"]),
        interface_diameter_mm=float(row["interface_diameter_mm"]),
        hub_outer_diameter_mm=float(row["hub_outer_diameter_mm"]),
        hub_modulus_mpa=float(row["hub_modulus_mpa"]),
        hub_poisson_ratio=float(row["hub_poisson_ratio"]),
        core_modulus_mpa=core_modulus_mpa,
        core_poisson_ratio=float(row["core_poisson_ratio"] or 0),
    )
    assert pressure_mpa == pytest.approx(float(row["expected_mpa"]), abs=float(row["tolerance_mpa"]))


def test_lame_s_hub_on_a_shaft_holds_the_published_force() -> None:
    pressure_mpa = lame_pressure_mpa(
        interference_mm=0.04,
        interface_diameter_mm=50,
        hub_outer_diameter_mm=80,
        hub_modulus_mpa=210e3,
        hub_poisson_ratio=0.3,
        core_modulus_mpa=210e3,
        core_poisson_ratio=0.3,
    )
    assert 0.12 * pressure_mpa * pi * 50 * 40 == pytest.approx(38594.4657, abs=1e-3)


def test_lame_s_hollow_core_gives_way_and_presses_less() -> None:
    sizes = {"interference_mm": 0.02, "interface_diameter_mm": 25, "hub_outer_diameter_mm": 50}
    steel = {
        "hub_modulus_mpa": 210e3,
        "hub_poisson_ratio": 0.3,
        "core_modulus_mpa": 210e3,
        "core_poisson_ratio": 0.3,
    }
    hollow_mpa = lame_pressure_mpa(**sizes, **steel, core_bore_diameter_mm=12.5)
    by_hand = 0.02 / 25 / ((5 / 3 + 0.3) / 210e3 + (5 / 3 - 0.3) / 210e3)
    assert hollow_mpa == pytest.approx(by_hand, rel=1e-12)
    assert hollow_mpa < 63.0


@given(bore_mm=st.floats(2, 5), wall_mm=st.floats(0.3, 3), stretch_ratio=st.floats(1.0, 2.0))
def test_sleeve_pressure_is_that_of_an_independent_integration(
    bore_mm: float, wall_mm: float, stretch_ratio: float
) -> None:
    outer_mm, line_mm = bore_mm + 2 * wall_mm, bore_mm * stretch_ratio
    grown_mm2 = line_mm**2 - bore_mm**2

    def hoop_minus_radial_over_diameter(now_mm: float) -> float:
        stretch = now_mm / sqrt(now_mm**2 - grown_mm2)
        return 3.0 / 3 * (stretch**2 - stretch**-2) / now_mm

    integrated_mpa, _ = quad(hoop_minus_radial_over_diameter, line_mm, sqrt(outer_mm**2 + grown_mm2))
    found_mpa = sleeve_pressure_mpa(
        sleeve_bore_diameter_mm=bore_mm,
        sleeve_outer_diameter_mm=outer_mm,
        line_outer_diameter_mm=line_mm,
        modulus_mpa=3.0,
    )
    assert found_mpa == pytest.approx(integrated_mpa, rel=1e-7, abs=1e-10)


def test_hardly_stretched_sleeve_is_lame_s_thick_tube_held_at_its_length() -> None:
    found_mpa = sleeve_pressure_mpa(
        sleeve_bore_diameter_mm=4.8, sleeve_outer_diameter_mm=7, line_outer_diameter_mm=4.8 + 1e-4, modulus_mpa=3.0
    )
    lame_mpa = lame_pressure_mpa(
        interference_mm=1e-4,
        interface_diameter_mm=4.8,
        hub_outer_diameter_mm=7,
        hub_modulus_mpa=3.0 / (1 - 0.5**2),  # plane strain: a tube that keeps its length is stiffer across
        hub_poisson_ratio=0.5 / (1 - 0.5),
    )
    assert found_mpa == pytest.approx(lame_mpa, rel=1e-3)


def test_thin_sleeve_is_hoop_tension_over_radius() -> None:
    wall_mm, stretch = 0.01, 1.2
    found_mpa = sleeve_pressure_mpa(
        sleeve_bore_diameter_mm=5, sleeve_outer_diameter_mm=5 + 2 * wall_mm, line_outer_diameter_mm=6, modulus_mpa=3.0
    )
    hoop_mpa = 1.0 * (stretch**2 - stretch**-2)
    assert found_mpa == pytest.approx(hoop_mpa * (wall_mm / stretch) / 3.0, rel=5e-3)


@pytest.mark.parametrize(("line_mm", "grips"), [(3.9, False), (4.0, False), (4.001, True)])
def test_sleeve_grips_only_what_is_thicker_than_its_bore(line_mm: float, grips: bool) -> None:
    hold_n = _hold_n(line_mm=line_mm)
    assert (hold_n > 0) is grips


@given(line_mm=st.floats(4.01, 6), thicker_by_mm=st.floats(0.01, 1))
def test_thicker_line_is_held_harder(line_mm: float, thicker_by_mm: float) -> None:
    assert _hold_n(line_mm=line_mm + thicker_by_mm) > _hold_n(line_mm=line_mm)


def test_hold_is_friction_times_pressure_times_area() -> None:
    pressure_mpa = sleeve_pressure_mpa(
        sleeve_bore_diameter_mm=4, sleeve_outer_diameter_mm=6, line_outer_diameter_mm=5, modulus_mpa=3
    )
    assert _hold_n(line_mm=5) == pytest.approx(0.5 * pressure_mpa * pi * 5 * 25, rel=1e-12)


def test_a_sleeve_for_a_cable_grips_as_one_for_a_hose_of_the_same_shape() -> None:
    """Pressure hangs on proportions and modulus alone: a fifth of every size, the same pressure."""
    large, small = (
        sleeve_pressure_mpa(
            sleeve_bore_diameter_mm=4 * scale,
            sleeve_outer_diameter_mm=6 * scale,
            line_outer_diameter_mm=5 * scale,
            modulus_mpa=0.6,
        )
        for scale in (1, 0.2)
    )
    assert small == pytest.approx(large, rel=1e-12)
    assert large > 0


def test_sleeve_without_a_wall_is_refused() -> None:
    with pytest.raises(ImpossibleDimensionError, match=r"sleeve_outer_diameter_mm: 4 mm .* above the bore, 4 mm"):
        sleeve_pressure_mpa(
            sleeve_bore_diameter_mm=4, sleeve_outer_diameter_mm=4, line_outer_diameter_mm=5, modulus_mpa=3
        )


def _hold_n(*, line_mm: float) -> float:
    return sleeve_hold_n(
        sleeve_bore_diameter_mm=4,
        sleeve_outer_diameter_mm=6,
        line_outer_diameter_mm=line_mm,
        grip_length_mm=25,
        modulus_mpa=3,
        friction_ratio=0.5,
    )
