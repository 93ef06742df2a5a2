"""Drag along a route: bends, holes and the line's own weight."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.errors import ImpossibleDimensionError
from planner.mechanics.drag import DragEstimate, Leg, estimate_drag, estimate_drag_n
from planner.parts import LineKind
from tests.planner.mechanics.samples import HOSE_50, LIMITS

legs = st.builds(
    Leg,
    turn_deg=st.floats(0, 200),
    length_mm=st.floats(100, 1000),
    entry_drag_n=st.floats(0, 10),
    rise_mm=st.floats(-100, 100),
)


def test_a_metre_straight_up_weighs_its_mass() -> None:
    upright = [Leg(turn_deg=0, length_mm=1000, rise_mm=1000)]
    assert estimate_drag_n(legs=upright, friction_ratio=0.3, mass_g_per_m=30) == pytest.approx(0.2941995, abs=1e-9)


def test_a_metre_lying_level_drags_by_its_friction() -> None:
    level = [Leg(turn_deg=0, length_mm=1000)]
    assert estimate_drag_n(legs=level, friction_ratio=0.3, mass_g_per_m=30) == pytest.approx(0.3 * 0.2941995, abs=1e-9)


@pytest.mark.parametrize("mass_g_per_m", [0.0, 0.5])
def test_a_line_as_light_as_a_thread_drags_as_little(mass_g_per_m: float) -> None:
    up = [Leg(turn_deg=0, length_mm=1000, rise_mm=1000)]
    pull_n = estimate_drag_n(legs=up, friction_ratio=0.3, mass_g_per_m=mass_g_per_m)
    assert pull_n == pytest.approx(mass_g_per_m * 9.80665e-3)


def test_falling_weight_is_not_counted_as_help() -> None:
    down = [Leg(turn_deg=0, length_mm=1000, rise_mm=-1000)]
    assert estimate_drag_n(legs=down, friction_ratio=0.3, mass_g_per_m=30) == 0


def test_no_route_takes_no_pull() -> None:
    assert estimate_drag_n(legs=[], friction_ratio=0.3, mass_g_per_m=30) == 0


@given(route=st.lists(legs, min_size=1, max_size=6))
def test_more_friction_never_makes_it_lighter(route: list[Leg]) -> None:
    slippery = estimate_drag_n(legs=route, friction_ratio=0.1, mass_g_per_m=30)
    rough = estimate_drag_n(legs=route, friction_ratio=0.2, mass_g_per_m=30)
    assert rough >= slippery


@given(route=st.lists(legs, min_size=1, max_size=6))
def test_heavier_line_drags_more(route: list[Leg]) -> None:
    light = estimate_drag_n(legs=route, friction_ratio=0.1, mass_g_per_m=10)
    heavy = estimate_drag_n(legs=route, friction_ratio=0.1, mass_g_per_m=20)
    drops_straight = all(leg.rise_mm == -leg.length_mm for leg in route)  # it hangs free, and touches nothing
    assert heavy == light if drops_straight else heavy > light


def test_shop_figures_stand_in_for_what_was_not_measured_and_are_named() -> None:
    route = [Leg(turn_deg=90, length_mm=500, entry_drag_n=None), Leg(turn_deg=45, length_mm=300, entry_drag_n=2)]
    unknown_line = replace(HOSE_50, friction_ratio=None, mass_g_per_m=None)
    known_route = [replace(route[0], entry_drag_n=1.5), route[1]]
    assert estimate_drag(line=unknown_line, legs=route, limits=LIMITS) == DragEstimate(
        drag_n=estimate_drag_n(legs=known_route, friction_ratio=0.2, mass_g_per_m=30),
        friction_ratio=0.2,
        mass_g_per_m=30,
        entry_drag_n=1.5,
        assumed=("friction_ratio", "mass_g_per_m", "entry_drag_n"),
    )


def test_measured_figures_go_before_the_shop_s() -> None:
    route = [Leg(turn_deg=90, length_mm=500, entry_drag_n=2)]
    estimate = estimate_drag(line=HOSE_50, legs=route, limits=LIMITS)
    assert (estimate.friction_ratio, estimate.mass_g_per_m, estimate.assumed) == (0.15, 25, ())
    assert estimate.drag_n == estimate_drag_n(legs=route, friction_ratio=0.15, mass_g_per_m=25)


@pytest.mark.parametrize("kind", [LineKind.BRAKE_HOUSING, LineKind.SHIFT_HOUSING])
def test_housing_slides_over_the_frame_with_the_shop_s_friction_not_with_its_inner_cable_s(kind: LineKind) -> None:
    route = [Leg(turn_deg=90, length_mm=500, entry_drag_n=2)]
    estimate = estimate_drag(line=replace(HOSE_50, kind=kind, friction_ratio=0.06), legs=route, limits=LIMITS)
    assert (estimate.friction_ratio, estimate.assumed) == (0.2, ("friction_ratio",))
    assert estimate.drag_n == estimate_drag_n(legs=route, friction_ratio=0.2, mass_g_per_m=25)


@pytest.mark.parametrize("kind", [LineKind.HYDRAULIC_HOSE, LineKind.ELECTRIC_WIRE, LineKind.INNER_CABLE])
def test_other_lines_slide_with_their_own_friction(kind: LineKind) -> None:
    route = [Leg(turn_deg=90, length_mm=500, entry_drag_n=2)]
    estimate = estimate_drag(line=replace(HOSE_50, kind=kind, friction_ratio=0.06), legs=route, limits=LIMITS)
    assert (estimate.friction_ratio, estimate.assumed) == (0.06, ())


def test_port_nobody_measured_is_refused_where_no_figure_stands_in() -> None:
    with pytest.raises(ImpossibleDimensionError, match="entry_drag_n: nan N was given; it must be measured"):
        estimate_drag_n(legs=[Leg(turn_deg=0, length_mm=1, entry_drag_n=None)], friction_ratio=0.1, mass_g_per_m=1)


def test_leg_cannot_rise_more_than_it_is_long() -> None:
    with pytest.raises(ImpossibleDimensionError, match=r"rise_mm: 11 mm .* must not exceed the leg's length, 10 mm"):
        estimate_drag_n(legs=[Leg(turn_deg=0, length_mm=10, rise_mm=11)], friction_ratio=0.1, mass_g_per_m=1)


def test_negative_mass_is_refused() -> None:
    with pytest.raises(ImpossibleDimensionError, match="mass_g_per_m: -1 g/m was given; it must not be negative"):
        estimate_drag_n(legs=[Leg(turn_deg=0, length_mm=10)], friction_ratio=0.1, mass_g_per_m=-1)
