"""Room for one, two and more round things: published packings, closed forms, placements checked with shapely, laws."""

import csv
from itertools import permutations
from math import inf, pi, sqrt
from pathlib import Path

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from planner.errors import ImpossibleDimensionError
from planner.geometry.openings.opening_shape import see_opening, vary_opening
from planner.geometry.packing.bounds import growth_bound_by_area, growth_of_three_in_ring
from planner.geometry.packing.set_clearance import SetClearance, Variant, find_set_clearance, find_varied_clearances
from planner.parts import BoxOpening, Opening, OutlineOpening, OvalOpening, RoundOpening, SlotOpening
from tests.planner.geometry.drawn_openings import draw_opening, overlap_of

VALUES = Path(__file__).parents[2] / "published_values"


def rows_of(name: str) -> list[dict[str, str]]:
    return list(csv.DictReader((VALUES / name).open(encoding="utf-8")))


def clearance_in(opening: Opening, *diameters_mm: float, tilt_deg: float = 0.0, wall_mm: float = 1.6) -> SetClearance:
    return find_set_clearance(opening=opening, tilt_deg=tilt_deg, wall_thickness_mm=wall_mm, diameters_mm=diameters_mm)


def ring(diameter_mm: float) -> RoundOpening:
    return RoundOpening(diameter_mm=diameter_mm, tolerance_mm=0.1)


def overlap(opening: Opening, found: SetClearance, *, tilt_deg: float = 0.0, wall_mm: float = 1.6) -> float:
    assert found.placement is not None
    assert found.clearance_mm is not None
    drawn = draw_opening(opening, tilt_deg=tilt_deg, wall_mm=wall_mm, points_per_arc=400)
    return overlap_of(found.placement, found.clearance_mm, drawn)


# --- published and closed forms ------------------------------------------------------------------------------------


@pytest.mark.parametrize("row", rows_of("packing_ratios.csv"), ids=lambda row: row["case"])
def test_equal_circles_need_the_published_hole(row: dict[str, str]) -> None:
    """In a hole of the published size, things of 5 mm have no more and no less than nothing to spare."""
    count, ratio = int(row["thing_count"]), float(row["expected_ratio"])
    found = clearance_in(ring(5 * ratio), *[5.0] * count)
    assert found.clearance_mm is not None
    # a hole of ratio k for things of d + g takes k (d + g): so g is off by as much as k is, times d / k
    assert abs(found.clearance_mm) <= float(row["tolerance_ratio"]) * 5 / ratio
    assert overlap(ring(5 * ratio), found) < 1e-3


@pytest.mark.parametrize("row", rows_of("packing_ratios.csv"), ids=lambda row: row["case"])
def test_a_hole_a_thousandth_smaller_never_fits(row: dict[str, str]) -> None:
    count = int(row["thing_count"])
    found = clearance_in(ring(5 * float(row["expected_ratio"]) * 0.999), *[5.0] * count)
    assert found.clearance_mm is not None
    assert found.clearance_mm < 0
    assert found.clearance_mm <= found.upper_bound_mm


@pytest.mark.parametrize("row", rows_of("enclosing_three.csv"), ids=lambda row: row["case"])
def test_three_unequal_things_need_the_ring_worked_by_hand(row: dict[str, str]) -> None:
    sizes = tuple(float(row[f"{which}_diameter_mm"]) for which in ("first", "second", "third"))
    found = clearance_in(ring(float(row["expected_mm"])), *sizes)
    assert found.clearance_mm == pytest.approx(0, abs=float(row["tolerance_mm"]))
    assert found.is_exact
    assert growth_of_three_in_ring(
        ring_mm=float(row["expected_mm"]), diameters_mm=(sizes[0], sizes[1], sizes[2])
    ) == pytest.approx(0, abs=1e-6)


@pytest.mark.parametrize("row", rows_of("unequal_things_in_a_ring.csv"), ids=lambda row: row["case"])
def test_five_to_seven_unequal_things_need_the_published_ring(row: dict[str, str]) -> None:
    sizes = [float(size) for size in row["diameters_mm"].split()]
    found = clearance_in(ring(float(row["expected_mm"])), *sizes, wall_mm=0.0)
    assert found.clearance_mm == pytest.approx(0, abs=float(row["tolerance_mm"]))


@pytest.mark.parametrize("row", rows_of("conduit_fill.csv"), ids=lambda row: row["case"])
def test_what_a_code_lets_into_a_conduit_fits_with_room_to_spare(row: dict[str, str]) -> None:
    """Things of 5 in the smallest conduit the fill allows; the code means them to be drawn in without force."""
    count = int(row["thing_count"])
    found = clearance_in(ring(5 * sqrt(count / float(row["fill_ratio"]))), *[5.0] * count, wall_mm=0.0)
    assert found.clearance_mm is not None
    assert found.clearance_mm > 1.3


@pytest.mark.parametrize("row", rows_of("pairs_in_closed_form.csv"), ids=lambda row: row["case"])
def test_two_things_have_the_room_worked_by_hand(row: dict[str, str]) -> None:
    length, width = float(row["length_mm"]), float(row["width_mm"])
    opening: Opening = SlotOpening(length_mm=length, width_mm=width, tolerance_mm=0.1)
    if row["shape"] == "box":
        opening = BoxOpening(length_mm=length, width_mm=width, corner_radius_mm=0, tolerance_mm=0.1)
    found = clearance_in(opening, *(float(size) for size in row["diameters_mm"].split()))
    assert found.clearance_mm == pytest.approx(float(row["expected_mm"]), abs=float(row["tolerance_mm"]))
    assert found.upper_bound_mm == pytest.approx(float(row["expected_mm"]), abs=float(row["tolerance_mm"]))
    assert overlap(opening, found) < 1e-3


@pytest.mark.parametrize("row", rows_of("zigzag_in_a_box.csv"), ids=lambda row: row["case"])
def test_staggered_things_need_the_length_worked_by_hand(row: dict[str, str]) -> None:
    box = BoxOpening(
        length_mm=float(row["expected_length_mm"]),
        width_mm=float(row["width_mm"]),
        corner_radius_mm=0,
        tolerance_mm=0.1,
    )
    found = clearance_in(box, *[float(row["diameter_mm"])] * int(row["thing_count"]))
    assert found.clearance_mm == pytest.approx(0, abs=float(row["tolerance_mm"]))


def test_slot_leant_through_has_the_room_worked_by_hand() -> None:
    """Length 19 cos 50 - 1.6 sin 50 = 10.987, less the two things, shared by both."""
    slot = SlotOpening(length_mm=19, width_mm=7, tolerance_mm=0.1)
    found = clearance_in(slot, 5.2297, 4.0, tilt_deg=50)
    assert found.clearance_mm == pytest.approx(0.879, abs=0.0005)
    assert found.is_exact


def test_two_things_in_a_ring_lie_on_a_diameter() -> None:
    assert clearance_in(ring(10), 6, 3).clearance_mm == pytest.approx(0.5, abs=1e-9)


@pytest.mark.parametrize(("size", "expected_mm"), [(4.9, 0.1), (5.0, 0.0), (5.1, -0.1)], ids=["below", "at", "above"])
def test_one_thing_at_the_limit(size: float, expected_mm: float) -> None:
    assert clearance_in(ring(5), size).clearance_mm == pytest.approx(expected_mm, abs=1e-12)


# --- laws ----------------------------------------------------------------------------------------------------------

sizes_mm = st.floats(2, 6)
tilts_deg = st.floats(0, 55)
openings = st.one_of(
    st.builds(RoundOpening, diameter_mm=st.floats(7, 16), tolerance_mm=st.just(0.1)),
    st.builds(SlotOpening, length_mm=st.floats(10, 20), width_mm=st.floats(5, 9), tolerance_mm=st.just(0.1)),
    st.builds(OvalOpening, length_mm=st.floats(10, 18), width_mm=st.floats(6, 12), tolerance_mm=st.just(0.1)),
    st.builds(
        BoxOpening,
        length_mm=st.floats(8, 18),
        width_mm=st.floats(6, 12),
        corner_radius_mm=st.floats(0, 3),
        tolerance_mm=st.just(0.1),
    ),
)


@given(opening=openings, tilt_deg=tilts_deg, sizes=st.lists(sizes_mm, min_size=1, max_size=5))
@settings(max_examples=60, deadline=None)
def test_a_placement_holds_what_it_proves(opening: Opening, tilt_deg: float, sizes: list[float]) -> None:
    found = clearance_in(opening, *sizes, tilt_deg=tilt_deg)
    assert found.clearance_mm is not None
    assert found.clearance_mm <= found.upper_bound_mm + 1e-9
    assume(found.clearance_mm > -min(sizes))  # nothing to draw of things grown to less than nothing
    drawn = draw_opening(opening, tilt_deg=tilt_deg, wall_mm=1.6, points_per_arc=150)
    assume(not drawn.is_empty)
    assert found.placement is not None
    assert found.placement.diameters_mm == tuple(sizes)
    assert overlap_of(found.placement, found.clearance_mm, drawn) < 2e-3


@given(opening=openings, tilt_deg=tilts_deg, sizes=st.lists(sizes_mm, min_size=1, max_size=2))
@settings(max_examples=100, deadline=None)
def test_one_and_two_things_are_exact(opening: Opening, tilt_deg: float, sizes: list[float]) -> None:
    found = clearance_in(opening, *sizes, tilt_deg=tilt_deg)
    assert found.is_exact
    assert found.clearance_mm == pytest.approx(found.upper_bound_mm, abs=2e-5)


@given(opening=openings, tilt_deg=tilts_deg, first=sizes_mm, second=sizes_mm)
@settings(max_examples=80, deadline=None)
def test_a_pair_has_the_room_between_the_farthest_places_drawn(
    opening: Opening, tilt_deg: float, first: float, second: float
) -> None:
    """The drawn opening set in by either grown radius: its farthest corners lie just as far apart as the pair needs."""
    growth = clearance_in(opening, first, second, tilt_deg=tilt_deg).clearance_mm
    assert growth is not None
    assume(growth > -min(first, second))
    drawn = draw_opening(opening, tilt_deg=tilt_deg, wall_mm=1.6, points_per_arc=200).polygon
    assume(drawn.area > 0)
    for more, is_far_enough in ((-0.03, True), (0.03, False)):  # shapely sets in to some hundredths
        rooms = [drawn.buffer(-(size + growth + more) / 2, quad_segs=64) for size in (first, second)]
        if any(room.is_empty for room in rooms):
            assert not is_far_enough
            continue
        one, two = (np.array(room.convex_hull.boundary.coords) for room in rooms)
        apart = np.hypot(*(one[:, None] - two).reshape(-1, 2).T).max()
        assert bool(apart >= (first + second) / 2 + growth + more) is is_far_enough


@given(opening=openings, tilt_deg=tilts_deg, sizes=st.lists(sizes_mm, min_size=1, max_size=4), wider=st.floats(0, 2))
@settings(max_examples=40, deadline=None)
def test_a_larger_hole_is_never_worse(opening: Opening, tilt_deg: float, sizes: list[float], wider: float) -> None:
    changes = dict.fromkeys(("diameter", "length", "width"), wider)
    larger = vary_opening(opening=opening, changes_mm=changes)
    before = clearance_in(opening, *sizes, tilt_deg=tilt_deg)
    after = clearance_in(larger, *sizes, tilt_deg=tilt_deg)
    assert before.clearance_mm is not None
    assert after.clearance_mm is not None
    assert after.clearance_mm >= before.clearance_mm - (1e-6 if len(sizes) < 3 else 1e-3)


@given(opening=openings, tilt_deg=tilts_deg, sizes=st.lists(sizes_mm, min_size=1, max_size=2), more=st.floats(0, 20))
@settings(max_examples=100, deadline=None)
def test_more_tilt_is_never_better(opening: Opening, tilt_deg: float, sizes: list[float], more: float) -> None:
    before = clearance_in(opening, *sizes, tilt_deg=tilt_deg)
    after = clearance_in(opening, *sizes, tilt_deg=tilt_deg + more)
    assert before.clearance_mm is not None
    assert after.clearance_mm is not None
    assert after.clearance_mm <= before.clearance_mm + 1e-6


@pytest.mark.parametrize("tilt_deg", [0, 30])
def test_the_order_of_things_does_not_matter(tilt_deg: float) -> None:
    slot = SlotOpening(length_mm=16, width_mm=8, tolerance_mm=0.1)
    for sizes in permutations((5.2, 4.6, 3.0)):
        found = clearance_in(slot, *sizes, tilt_deg=tilt_deg)
        assert found.clearance_mm == clearance_in(slot, 5.2, 4.6, 3.0, tilt_deg=tilt_deg).clearance_mm
        assert found.placement is not None
        assert found.placement.diameters_mm == sizes
        assert overlap(slot, found, tilt_deg=tilt_deg) < 1e-3


@given(opening=openings, tilt_deg=tilts_deg, sizes=st.lists(sizes_mm, min_size=2, max_size=4), less=st.floats(0, 1))
@settings(max_examples=40, deadline=None)
def test_bounds_hold_for_the_placement_found(
    opening: Opening, tilt_deg: float, sizes: list[float], less: float
) -> None:
    """No short bound is below what a placement proves, for these things and for any smaller ones."""
    ordered = tuple(sorted((size - less for size in sizes), reverse=True))
    assume(ordered[-1] > 0.2)
    seen = see_opening(opening=opening, tilt_deg=tilt_deg, wall_thickness_mm=1.6)
    found = clearance_in(opening, *ordered, tilt_deg=tilt_deg)
    assert found.clearance_mm is not None
    assume(found.clearance_mm > -ordered[-1])
    assert growth_bound_by_area(seen=seen, diameters_mm=ordered) >= found.clearance_mm


def test_area_alone_rules_out_what_would_cover_more_than_the_hole() -> None:
    sizes = (4.0,) * 8
    bound = growth_bound_by_area(
        seen=see_opening(opening=ring(10), tilt_deg=0, wall_thickness_mm=1), diameters_mm=sizes
    )
    covered = 8 * pi * (4.0 + bound) ** 2 / 4
    assert covered <= 25 * pi
    assert clearance_in(ring(10), *sizes).upper_bound_mm < 0


# --- outlines ------------------------------------------------------------------------------------------------------

RECTANGLE = OutlineOpening(points_mm=((-6, -3), (6, -3), (6, 3), (-6, 3)), tolerance_mm=0.1)
DENTED = OutlineOpening(points_mm=((-6, -3), (6, -3), (6, 3), (0, 1.5), (-6, 3)), tolerance_mm=0.1)


@pytest.mark.parametrize("sizes", [(5.0,), (5.0, 4.0), (4.0, 3.5, 3.0)], ids=["one", "two", "three"])
@pytest.mark.parametrize("tilt_deg", [0, 25])
def test_rectangle_as_outline_is_the_sharp_box(sizes: tuple[float, ...], tilt_deg: float) -> None:
    box = BoxOpening(length_mm=12, width_mm=6, corner_radius_mm=0, tolerance_mm=0.1)
    outline, exact = clearance_in(RECTANGLE, *sizes, tilt_deg=tilt_deg), clearance_in(box, *sizes, tilt_deg=tilt_deg)
    assert outline.clearance_mm == pytest.approx(exact.clearance_mm, abs=1e-4)


@pytest.mark.parametrize("sizes", [(4.0,), (4.0, 4.0), (4.6, 3.0), (4.0, 4.0, 2.0)])
@pytest.mark.parametrize("tilt_deg", [0, 20])
def test_things_keep_clear_of_a_dent(sizes: tuple[float, ...], tilt_deg: float) -> None:
    found = clearance_in(DENTED, *sizes, tilt_deg=tilt_deg)
    assert overlap(DENTED, found, tilt_deg=tilt_deg) < 1e-6
    if len(sizes) < 3:
        assert found.is_exact


# --- what is not placed, and what is refused -----------------------------------------------------------------------


def test_varied_sizes_follow_the_nominal_placement() -> None:
    slot = SlotOpening(length_mm=16, width_mm=8, tolerance_mm=0.1)
    nominal = Variant(opening=slot, diameters_mm=(4.0, 5.2, 4.6))
    smaller = SlotOpening(length_mm=15.9, width_mm=7.9, tolerance_mm=0)
    variant = Variant(opening=smaller, diameters_mm=(4.1, 5.25, 4.7))
    (followed,) = find_varied_clearances(nominal=nominal, tilt_deg=20, wall_thickness_mm=1.6, variants=(variant,))
    searched = clearance_in(smaller, 4.1, 5.25, 4.7, tilt_deg=20)
    assert followed.clearance_mm == pytest.approx(searched.clearance_mm, abs=1e-6)
    assert overlap(smaller, followed, tilt_deg=20) < 1e-3


def test_nothing_to_place_is_refused() -> None:
    with pytest.raises(ImpossibleDimensionError, match="must name at least one thing"):
        clearance_in(ring(5))


@pytest.mark.parametrize("size", [0.0, -1.0, inf])
def test_things_without_a_size_are_refused(size: float) -> None:
    with pytest.raises(ImpossibleDimensionError, match="diameters_mm"):
        clearance_in(ring(5), 3.0, size)
