"""The chance of a fit: against 100,000 drawn sets of sizes, closed forms and its own laws."""

import csv
from math import cos, erf, pi, sin, sqrt
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.fit.clearance_model import find_clearance_model
from planner.fit.fit_chance import find_chance_of_fit
from planner.geometry.openings.opening_shape import opening_sizes, see_opening, vary_opening
from planner.geometry.packing.one import find_largest_disc
from planner.geometry.packing.search import find_placement
from planner.geometry.packing.work import Allowance
from planner.parts import BoxOpening, Opening, OutlineOpening, OvalOpening, RoundOpening, SlotOpening
from planner.verdicts import Thing, ThingKind

ROWS = list(csv.DictReader((Path(__file__).parents[2] / "published_values/chance_of_fit.csv").open(encoding="utf-8")))


def opening_of(row: dict[str, str]) -> Opening:
    sizes, tolerance = [float(size) for size in row["sizes_mm"].split()], float(row["opening_tolerance_mm"])
    if row["shape"] == "round":
        return RoundOpening(diameter_mm=sizes[0], tolerance_mm=tolerance)
    if row["shape"] == "slot":
        return SlotOpening(length_mm=sizes[0], width_mm=sizes[1], tolerance_mm=tolerance)
    return BoxOpening(length_mm=sizes[0], width_mm=sizes[1], corner_radius_mm=sizes[2], tolerance_mm=tolerance)


def item(diameter_mm: float, tolerance_mm: float) -> Thing:
    return Thing(id="thing", kind=ThingKind.LINE, diameter_mm=diameter_mm, tolerance_mm=tolerance_mm)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["case"])
def test_chance_is_that_of_sizes_drawn_at_random(row: dict[str, str]) -> None:
    sizes, tolerances = row["diameters_mm"].split(), row["tolerances_mm"].split()
    chance = find_chance_of_fit(
        opening=opening_of(row),
        tilt_deg=float(row["tilt_deg"]),
        wall_thickness_mm=float(row["wall_mm"]),
        items=[item(float(size), float(tolerance)) for size, tolerance in zip(sizes, tolerances, strict=True)],
    )
    assert chance == pytest.approx(float(row["expected_ratio"]), abs=float(row["tolerance_ratio"]))


@pytest.mark.parametrize("spare_mm", [-0.1, -0.05, 0.0, 0.05, 0.1])
def test_one_thing_in_a_hole_by_the_normal_law(spare_mm: float) -> None:
    """Hole plus or minus 0.1 and thing plus or minus 0.05, two deviations each: together sqrt(0.05^2 + 0.025^2)."""
    chance = find_chance_of_fit(
        opening=RoundOpening(diameter_mm=6, tolerance_mm=0.1),
        tilt_deg=0,
        wall_thickness_mm=1,
        items=[item(6 - spare_mm, 0.05)],
    )
    deviation = sqrt(0.05**2 + 0.025**2)
    assert chance == pytest.approx((1 + erf(spare_mm / deviation / sqrt(2))) / 2, abs=1e-6)


@pytest.mark.parametrize(("spare_mm", "expected"), [(0.5, 1.0), (-0.5, 0.0)])
def test_beyond_six_deviations_the_answer_is_certain(spare_mm: float, expected: float) -> None:
    chance = find_chance_of_fit(
        opening=RoundOpening(diameter_mm=6, tolerance_mm=0.1),
        tilt_deg=0,
        wall_thickness_mm=1,
        items=[item(6 - spare_mm, 0.05)],
    )
    assert chance == expected


@pytest.mark.parametrize(("size", "expected"), [(5.0, 1.0), (5.001, 0.0)])
def test_sizes_known_exactly_fit_or_do_not(size: float, expected: float) -> None:
    chance = find_chance_of_fit(
        opening=RoundOpening(diameter_mm=5, tolerance_mm=0), tilt_deg=0, wall_thickness_mm=1, items=[item(size, 0)]
    )
    assert chance == expected


@given(
    length_mm=st.floats(9, 12),
    width_mm=st.floats(5.5, 7),
    tilt_deg=st.floats(0, 40),
    size=st.floats(3, 5.5),
    larger=st.floats(0, 0.3),
)
@settings(max_examples=30, deadline=None)
def test_a_larger_hole_never_lowers_the_chance(
    length_mm: float, width_mm: float, tilt_deg: float, size: float, larger: float
) -> None:
    chances = [
        find_chance_of_fit(
            opening=SlotOpening(length_mm=length_mm + more, width_mm=width_mm + more, tolerance_mm=0.1),
            tilt_deg=tilt_deg,
            wall_thickness_mm=1.5,
            items=[item(size, 0.05), item(4.0, 0.05)],
        )
        for more in (0.0, larger)
    ]
    assert chances[1] >= chances[0] - 0.005


def test_slopes_of_a_row_in_a_slot_are_a_half_each() -> None:
    """Room in a row is (length - both things) / 2."""
    model = find_clearance_model(
        opening=SlotOpening(length_mm=12, width_mm=7, tolerance_mm=0.1),
        tilt_deg=0,
        wall_thickness_mm=1,
        items=[
            Thing(id="hose", kind=ThingKind.LINE, diameter_mm=5, tolerance_mm=0.1),
            Thing(id="wire", kind=ThingKind.LINE, diameter_mm=4, tolerance_mm=0.1),
        ],
    )
    assert model.names == ("opening length", "opening width", "hose", "wire")
    assert model.slopes[0].tolist() == pytest.approx([0.5, 0.0, -0.5, -0.5], abs=1e-6)


def test_edge_of_an_outline_counts_as_one_size() -> None:
    square = OutlineOpening(points_mm=((-3, -3), (3, -3), (3, 3), (-3, 3)), tolerance_mm=0.1)
    model = find_clearance_model(opening=square, tilt_deg=0, wall_thickness_mm=1, items=[item(5.9, 0.05)])
    assert model.names == ("opening edge", "thing")
    assert model.slopes[0].tolist() == pytest.approx([2.0, -1.0], abs=1e-6)


DRAWS = 100_000


@pytest.mark.parametrize("seed", range(40))
def test_pairs_held_by_two_limits_at_once_against_draws(seed: int) -> None:
    """Slots and sharp boxes all but as wide as the thicker thing: their clearances are written down in a line."""
    draw = np.random.default_rng(seed)
    first, second = sorted(draw.uniform(3, 6, 2), reverse=True)
    tolerances = draw.choice([0.05, 0.1, 0.2], 3)
    length, width = first + second + draw.normal() * 0.1, first + draw.normal() * 0.06
    sizes = np.array([length, width, first, second])
    deviations = np.array([tolerances[0], *tolerances]) / 2
    lengths, widths, ones, twos = (sizes + draw.normal(size=(DRAWS, 4)) * deviations).T
    is_box = bool(seed % 2)
    sideways = np.maximum(widths - (ones + twos) / 2, 0) if is_box else 0.0
    apart = np.hypot(np.maximum(lengths - (ones + twos) / 2, 0), sideways)
    expected = np.mean((np.maximum(ones, twos) <= widths) & (apart >= (ones + twos) / 2))
    opening: Opening = SlotOpening(length_mm=length, width_mm=width, tolerance_mm=tolerances[0])
    if is_box:
        opening = BoxOpening(length_mm=length, width_mm=width, corner_radius_mm=0, tolerance_mm=tolerances[0])
    chance = find_chance_of_fit(
        opening=opening,
        tilt_deg=0,
        wall_thickness_mm=1.5,
        items=[item(first, tolerances[1]), item(second, tolerances[2])],
    )
    assert chance == pytest.approx(expected, abs=0.015)


@pytest.mark.parametrize("seed", range(4))
def test_three_things_against_draws_that_are_each_searched_anew(seed: int) -> None:
    draw = np.random.default_rng(seed)
    sizes = np.array([5.2, 4.6, 4.0]) * draw.uniform(0.95, 1.05, 3)
    opening: Opening = BoxOpening(length_mm=11, width_mm=8.5, corner_radius_mm=0.5, tolerance_mm=0.1)
    if seed % 2:
        opening = OvalOpening(length_mm=14, width_mm=8.5, tolerance_mm=0.1)
    place = {"tilt_deg": 20.0, "wall_thickness_mm": 1.5}
    sizes += find_placement(see_opening(opening=opening, **place), tuple(sizes)).growth_mm + draw.uniform(-0.05, 0.05)
    fits = 0
    for off in draw.normal(size=(400, 6)) * 0.05:
        names = opening_sizes(opening)
        changes = dict(zip(names, off.tolist(), strict=False))
        varied = vary_opening(opening=opening, changes_mm=changes)
        fits += find_placement(see_opening(opening=varied, **place), tuple(sizes + off[-3:])).growth_mm >= 0
    chance = find_chance_of_fit(opening=opening, items=[item(size, 0.1) for size in sizes.tolist()], **place)
    spread = sqrt(max(chance * (1 - chance), 0.01) / 400)
    assert abs(chance - fits / 400) < 0.02 + 2.5 * spread


def test_a_traced_outline_of_many_corners_costs_a_chance_no_more_than_a_hole_may() -> None:
    """Ragged all round, so that straight lines miss: the truth is sought at many places, each time near the last."""
    draw = np.random.default_rng(3)
    angles = [2 * pi * k / 200 for k in range(200)]
    radii = draw.uniform(4.5, 6.5, 200).tolist()
    points = tuple((radius * cos(angle), radius * sin(angle)) for radius, angle in zip(radii, angles, strict=True))
    opening = OutlineOpening(points_mm=points, tolerance_mm=0.1)
    place = {"tilt_deg": 0.0, "wall_thickness_mm": 1.0}
    disc = find_largest_disc(see_opening(opening=opening, **place))
    allowance = Allowance()
    chance = find_chance_of_fit(opening=opening, items=[item(disc.diameter_mm, 0.05)], allowance=allowance, **place)
    assert chance is not None
    assert 0.2 < chance < 0.8
    assert allowance.spent_rows < 20_000_000
    allowance_of_none = Allowance(whole_rows=1, spent_rows=1)
    assert find_chance_of_fit(opening=opening, items=[item(5, 0.05)], allowance=allowance_of_none, **place) is None
    assert allowance_of_none.refused_n == 1
