"""The proof that things do not fit: it finds what is too large, and never rules out what fits."""

from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.geometry.openings.opening_shape import see_opening
from planner.geometry.packing.bounds import area_mm2, growth_bound_by_area
from planner.geometry.packing.proof import is_growth_ruled_out
from planner.geometry.packing.search import find_placement
from planner.geometry.packing.set_clearance import find_set_clearance
from planner.geometry.packing.work import Work
from planner.parts import BoxOpening, Opening, OutlineOpening, OvalOpening, RoundOpening, SlotOpening

SLOT = SlotOpening(length_mm=15, width_mm=7.5, tolerance_mm=0.1)
BOX = BoxOpening(length_mm=11, width_mm=8.5, corner_radius_mm=1, tolerance_mm=0.1)
OVAL = OvalOpening(length_mm=13, width_mm=10, tolerance_mm=0.1)
RING = RoundOpening(diameter_mm=11, tolerance_mm=0.1)
OUTLINE = OutlineOpening(points_mm=((-6, -3), (6, -4), (7, 1), (3, 4.5), (-5, 4)), tolerance_mm=0.1)
ZOO = {"slot": SLOT, "box": BOX, "oval": OVAL, "ring": RING, "outline": OUTLINE}


def too_large_by(opening: Opening, tilt_deg: float, sizes: tuple[float, ...], excess_mm: float) -> tuple[float, ...]:
    """The same things grown until they are too large by so much, as far as a search can tell."""
    seen = see_opening(opening=opening, tilt_deg=tilt_deg, wall_thickness_mm=1.5)
    growth = find_placement(seen, sizes).growth_mm + excess_mm
    return tuple(size + growth for size in sizes)


@pytest.mark.parametrize("name", ZOO)
@pytest.mark.parametrize("tilt_deg", [0, 30])
@pytest.mark.parametrize("sizes", [(5.0, 4.0, 3.5), (4.5, 4.0, 3.5, 3.0), (4.0, 4.0, 4.0)], ids=len)
def test_a_tenth_too_large_is_proven_not_to_fit(name: str, tilt_deg: float, sizes: tuple[float, ...]) -> None:
    grown = too_large_by(ZOO[name], tilt_deg, sizes, 0.1)
    found = find_set_clearance(opening=ZOO[name], tilt_deg=tilt_deg, wall_thickness_mm=1.5, diameters_mm=grown)
    assert found.clearance_mm == pytest.approx(-0.1, abs=2e-3)
    assert found.upper_bound_mm < 0


@pytest.mark.parametrize("name", ZOO)
@given(tilt_deg=st.floats(0, 50), sizes=st.lists(st.floats(2, 5), min_size=3, max_size=4), less=st.floats(1e-5, 0.2))
@settings(max_examples=8, deadline=None)
def test_what_a_placement_holds_is_never_ruled_out(name: str, tilt_deg: float, sizes: list[float], less: float) -> None:
    ordered = tuple(sorted(sizes, reverse=True))
    seen = see_opening(opening=ZOO[name], tilt_deg=tilt_deg, wall_thickness_mm=1.5)
    held = find_placement(seen, ordered).growth_mm - less
    assert not is_growth_ruled_out(
        seen=seen, diameters_mm=ordered, growth_mm=held, walls_per_quarter=12, work=Work(3_000_000)
    )


def test_what_stays_open_is_told_within_a_band() -> None:
    """Too large by a few thousandths: neither placed nor ruled out, but all beyond a hundredth more is."""
    grown = too_large_by(SLOT, 30, (5.0, 4.0, 3.5), 0.0005)
    found = find_set_clearance(opening=SLOT, tilt_deg=30, wall_thickness_mm=1.5, diameters_mm=grown)
    assert found.clearance_mm is not None
    assert found.clearance_mm < 0
    assert found.clearance_mm < found.upper_bound_mm < found.clearance_mm + 0.02


def test_five_and_more_are_ruled_out_by_their_largest_few() -> None:
    sizes = (*too_large_by(BOX, 0, (4.5, 4.0, 3.5), 0.3), 1.0, 0.9, 0.8)
    found = find_set_clearance(opening=BOX, tilt_deg=0, wall_thickness_mm=1.5, diameters_mm=sizes)
    assert found.upper_bound_mm < 0


def test_the_same_question_has_the_same_answer() -> None:
    sizes = too_large_by(OVAL, 20, (5.0, 4.0, 3.5), 0.05)
    asked = {
        find_set_clearance(opening=OVAL, tilt_deg=20, wall_thickness_mm=1.5, diameters_mm=sizes).upper_bound_mm
        for _ in range(3)
    }
    assert len(asked) == 1


@settings(max_examples=60, deadline=None)
@given(
    ring_mm=st.floats(4, 40),
    sizes=st.lists(st.floats(0.05, 12), min_size=1, max_size=6),
)
def test_things_grown_by_the_bound_of_areas_cover_no_more_than_the_hole(ring_mm: float, sizes: list[float]) -> None:
    seen = see_opening(opening=RoundOpening(diameter_mm=ring_mm, tolerance_mm=0.0), tilt_deg=0, wall_thickness_mm=1)
    largest_first = tuple(sorted(sizes, reverse=True))
    bound = growth_bound_by_area(seen=seen, diameters_mm=largest_first)
    covered = sum(max(0.0, size + bound) ** 2 for size in sizes) * pi / 4
    assert covered <= area_mm2(seen) + 1e-9
    if len(sizes) == 1:
        assert bound == pytest.approx(ring_mm - sizes[0], abs=1e-9)
