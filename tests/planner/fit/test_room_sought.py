"""The smallest hole and the thickest thing: by hand, against the plain check, and what of it is proven."""

import csv
from math import hypot, sqrt
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.errors import ImpossibleDimensionError
from planner.fit.hole_fit import check_things_in_room
from planner.fit.room_sought import LargestItem, SmallestOpening, find_largest_item, find_smallest_opening
from planner.fit.wedging import find_wedge
from planner.parts import BoxOpening, Opening, OvalOpening, RoundOpening, SlotOpening
from planner.rules import PlaceRule
from planner.verdicts import Outcome, Room, Thing, ThingKind

ROUND = RoundOpening(diameter_mm=1, tolerance_mm=0.1)
RUNNING_MM = 0.3
JAMMING = list(csv.DictReader((Path(__file__).parents[2] / "published_values/jamming.csv").open(encoding="utf-8")))


def thing(diameter_mm: float, tolerance_mm: float = 0.05) -> Thing:
    return Thing(id="line", kind=ThingKind.LINE, diameter_mm=diameter_mm, tolerance_mm=tolerance_mm)


def smallest(
    like: RoundOpening | SlotOpening | BoxOpening, *diameters_mm: float, tilt_deg: float = 0.0
) -> SmallestOpening | None:
    return find_smallest_opening(
        like=like,
        tilt_deg=tilt_deg,
        wall_thickness_mm=1.5,
        things=[thing(size) for size in diameters_mm],
        running_clearance_mm=RUNNING_MM,
    )


def largest(opening: Opening, *beside_mm: float) -> LargestItem | None:
    return find_largest_item(
        opening=opening,
        tilt_deg=0,
        wall_thickness_mm=1.5,
        beside=[thing(size) for size in beside_mm],
        item_tolerance_mm=0.05,
        running_clearance_mm=RUNNING_MM,
    )


def outcome(opening: Opening, *diameters_mm: float, tilt_deg: float = 0.0) -> Outcome:
    return check_things_in_room(
        rule=PlaceRule.PORT_CLEARANCE,
        room=Room(opening=opening, tilt_deg=tilt_deg, wall_thickness_mm=1.5),
        things=[thing(size) for size in diameters_mm],
        running_clearance_mm=RUNNING_MM,
    ).outcome


def slot(width_mm: float) -> SlotOpening:
    return SlotOpening(length_mm=width_mm, width_mm=width_mm, tolerance_mm=0.1)


def box(width_mm: float, corner_mm: float = 0.0) -> BoxOpening:
    return BoxOpening(length_mm=width_mm, width_mm=width_mm, corner_radius_mm=corner_mm, tolerance_mm=0.1)


@pytest.mark.parametrize(
    ("like", "sizes", "expected_mm"),
    [
        (ROUND, (5.5,), 5.85 + 0.1),
        (ROUND, (5.5, 4.0), 5.85 + 4.35 + 0.1),
        (ROUND, (5.0, 5.0, 5.0), 5.35 * (1 + 2 / sqrt(3)) + 0.1),
        (slot(7.0), (5.5, 4.0), 5.85 + 4.35 + 0.1),
        (slot(7.0), (5.5,), 7.0),  # a round hole of the slot's width does
        (box(7.0), (5.5, 4.0), 5.1 + sqrt(5.1**2 - (6.9 - 5.1) ** 2) + 0.1),
    ],
    ids=["one", "two", "three alike", "a row in a slot", "one in a slot", "aslant in a box"],
)
def test_the_smallest_hole_worked_by_hand(
    like: RoundOpening | SlotOpening | BoxOpening, sizes: tuple[float, ...], expected_mm: float
) -> None:
    """Things are thicker by 0.05 and want 0.3, holes are smaller by 0.1."""
    found = smallest(like, *sizes)
    assert found is not None
    assert expected_mm - 1e-9 <= found.size_mm <= expected_mm + 1.01e-4
    assert found.none_below_mm == pytest.approx(found.size_mm, abs=1.01e-4 if len(sizes) < 3 else 0.02)
    assert found.none_below_mm <= found.size_mm


@pytest.mark.parametrize("like", [slot(5.9), box(5.9, 1.0)], ids=["slot", "box"])
def test_no_length_is_enough_where_the_width_is_not(like: SlotOpening | BoxOpening) -> None:
    assert smallest(like, 5.5, 4.0) is None


@pytest.mark.parametrize(
    ("opening", "beside", "expected_mm"),
    [
        (RoundOpening(diameter_mm=12, tolerance_mm=0.1), (), 11.9 - 0.35),
        (RoundOpening(diameter_mm=12, tolerance_mm=0.1), (5.0,), 11.9 - 5.35 - 0.35),
        (SlotOpening(length_mm=12, width_mm=7, tolerance_mm=0.1), (5.0,), 11.9 - 5.35 - 0.35),
        (SlotOpening(length_mm=19, width_mm=7, tolerance_mm=0.1), (5.0,), 6.9 - 0.35),
    ],
    ids=["alone", "beside one", "rest of a row", "as thick as the slot is wide"],
)
def test_the_thickest_thing_worked_by_hand(opening: Opening, beside: tuple[float, ...], expected_mm: float) -> None:
    found = largest(opening, *beside)
    assert found is not None
    assert expected_mm - 1.01e-4 <= found.diameter_mm <= expected_mm + 1e-9
    assert found.none_above_mm == pytest.approx(found.diameter_mm, abs=1.01e-4)


def exact(diameter_mm: float) -> Thing:
    return thing(diameter_mm, tolerance_mm=0.0)


@pytest.mark.parametrize(("length_mm", "width_mm", "beside"), [(14.0, 8.0, (4.0, 3.5))])
def test_between_what_is_found_and_what_is_ruled_out_nothing_is_claimed(
    length_mm: float, width_mm: float, beside: tuple[float, ...]
) -> None:
    """With exact sizes and nothing wanted beside them the plain check knows as much: yes up to the one, no beyond the
    other."""
    oval = OvalOpening(length_mm=length_mm, width_mm=width_mm, tolerance_mm=0.0)
    place = {"opening": oval, "tilt_deg": 0.0, "wall_thickness_mm": 1.5}
    others = [exact(size) for size in beside]
    found = find_largest_item(beside=others, item_tolerance_mm=0.0, running_clearance_mm=0.0, **place)  # type: ignore[arg-type]
    assert found is not None
    assert found.placement.diameters_mm == (found.diameter_mm, *beside)

    def answer(diameter_mm: float) -> Outcome:
        room = Room(opening=oval, tilt_deg=0.0, wall_thickness_mm=1.5)
        things = [exact(diameter_mm), *others]
        return check_things_in_room(
            rule=PlaceRule.PORT_CLEARANCE, room=room, things=things, running_clearance_mm=0.0
        ).outcome

    assert answer(found.diameter_mm) is Outcome.FITS
    assert answer(found.none_above_mm) is Outcome.NO_FIT
    assert answer(found.none_above_mm + 1.0) is Outcome.NO_FIT
    if found.none_above_mm > found.diameter_mm + 3e-4:
        assert answer((found.none_above_mm + found.diameter_mm) / 2 - 1e-4) is not Outcome.FITS


def test_a_hole_is_ruled_out_below_what_its_things_need_only() -> None:
    """One of 5.85 in a hole smaller by 0.1: below 5.95 none, and no more is ruled out than that. Its placement names
    the things as they are."""
    found = smallest(ROUND, 5.5)
    assert found is not None
    assert 0 <= found.size_mm - found.none_below_mm <= 1.01e-4
    assert found.placement.diameters_mm == (5.5,)
    three = smallest(ROUND, 5.0, 4.0, 3.0)
    assert three is not None
    assert three.none_below_mm < three.size_mm
    assert outcome(RoundOpening(diameter_mm=three.none_below_mm - 1e-3, tolerance_mm=0.1), 5.0, 4.0, 3.0) is not (
        Outcome.FITS
    )


def test_a_slot_as_short_as_wide_is_the_shortest_there_is() -> None:
    found = smallest(slot(7.0), 5.5)
    assert found is not None
    assert (found.size_mm, found.none_below_mm) == (7.0, 7.0)


def test_nothing_goes_beside_what_fills_the_hole() -> None:
    assert largest(RoundOpening(diameter_mm=12, tolerance_mm=0.1), 6.0, 5.3) is None


@given(
    kind=st.sampled_from(["round", "slot", "box"]),
    sizes=st.lists(st.floats(2, 6), min_size=1, max_size=3),
    tilt_deg=st.floats(0, 45),
    width_mm=st.floats(7, 10),
)
@settings(max_examples=10)
def test_the_plain_check_says_yes_to_the_hole_told_and_no_below_what_is_ruled_out(
    kind: str, sizes: list[float], tilt_deg: float, width_mm: float
) -> None:
    like = {"round": ROUND, "slot": slot(width_mm), "box": box(width_mm, 1.0)}[kind]
    found = smallest(like, *sizes, tilt_deg=tilt_deg)
    assert found is not None
    name = "diameter_mm" if kind == "round" else "length_mm"
    assert getattr(found.opening, name) == found.size_mm
    larger = type(like)(tolerance_mm=0.1, **sized(found.opening, 1e-3))
    assert outcome(larger, *sizes, tilt_deg=tilt_deg) is Outcome.FITS
    least = {"round": 0.2, "slot": width_mm, "box": 2.0}[kind]
    if found.none_below_mm > least + 2e-3:
        smaller = type(like)(tolerance_mm=0.1, **sized(found.opening, found.none_below_mm - found.size_mm - 1e-3))
        assert outcome(smaller, *sizes, tilt_deg=tilt_deg) is not Outcome.FITS


def sized(opening: Opening, more_mm: float) -> dict[str, float]:
    """The sizes of a hole, its diameter or length changed."""
    match opening:
        case RoundOpening():
            return {"diameter_mm": opening.diameter_mm + more_mm}
        case SlotOpening():
            return {"length_mm": opening.length_mm + more_mm, "width_mm": opening.width_mm}
        case BoxOpening():
            return {
                "length_mm": opening.length_mm + more_mm,
                "width_mm": opening.width_mm,
                "corner_radius_mm": opening.corner_radius_mm,
            }
    raise AssertionError


@pytest.mark.parametrize("seed", range(6))
def test_the_thickest_thing_passes_and_a_thicker_one_than_ruled_out_does_not(seed: int) -> None:
    draw = np.random.default_rng(seed)
    opening: Opening = OvalOpening(length_mm=draw.uniform(14, 18), width_mm=draw.uniform(8, 10), tolerance_mm=0.1)
    beside = draw.uniform(2, 5, seed % 3).tolist()
    found = largest(opening, *beside)
    assert found is not None
    assert outcome(opening, found.diameter_mm - 1e-3, *beside) is Outcome.FITS
    assert outcome(opening, found.none_above_mm + 1e-3, *beside) is not Outcome.FITS


def test_impossible_sizes_are_refused() -> None:
    with pytest.raises(ImpossibleDimensionError, match="-1 mm was given; it must be above zero"):
        smallest(slot(-1.0), 5.0)
    with pytest.raises(ImpossibleDimensionError, match="must name at least one thing"):
        smallest(ROUND)


@pytest.mark.parametrize(
    ("hole_mm", "diameters_mm", "can_wedge"),
    [
        (13.99, (5.0, 5.0, 5.0), False),
        (14.0, (5.0, 5.0, 5.0), True),
        (16.0, (5.0, 5.0, 5.0), True),
        (16.01, (5.0, 5.0, 5.0), False),
        (15.0, (5.0, 5.0, 5.2), True),
        (15.0, (5.0, 5.0, 5.3), False),
        (15.0, (5.0, 5.0), False),
        (15.0, (5.0, 5.0, 5.0, 5.0), False),
    ],
)
def test_three_lines_alike_can_wedge_between_2_8_and_3_2_times_their_size(
    hole_mm: float, diameters_mm: tuple[float, ...], can_wedge: bool
) -> None:
    wedge = find_wedge(hole_mm=hole_mm, diameters_mm=diameters_mm)
    assert (wedge is not None) is can_wedge
    if wedge is not None:
        assert 2.8 <= wedge.ratio <= 3.2


@pytest.mark.parametrize("row", JAMMING, ids=lambda row: row["case"])
def test_lines_can_wedge_where_the_published_band_says_so(row: dict[str, str]) -> None:
    lines = [float(row["line_mm"])] * int(row["line_count"])
    wedge = find_wedge(hole_mm=float(row["hole_mm"]), diameters_mm=lines)
    assert (wedge is not None) is (row["can_jam"] == "yes")


def test_a_box_s_length_is_that_of_a_pair_aslant() -> None:
    """As far apart as half both sizes: hypot(length - 5.1, width - 5.1) = 5.1."""
    found = smallest(box(8.0), 5.5, 4.0)
    assert found is not None
    assert hypot(found.size_mm - 0.1 - 5.1, 7.9 - 5.1) == pytest.approx(5.1, abs=2e-4)
