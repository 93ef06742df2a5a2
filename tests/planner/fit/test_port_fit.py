"""What a check of a port says of its insert, which holes look along their tube, which lines a stop takes."""

from math import cos, radians, sin
from typing import Any

import pytest

from planner.fit.port_fit import check_port_admits, check_things_through_port, is_in_line_with_tube
from planner.geometry.vectors import moved
from planner.parts import Insert, LineKind, Point, PortLooks, RoundOpening, Zone
from planner.verdicts import Outcome, State, Thing, ThingKind
from tests.builders import make_port

RUBBER = Insert(opening=RoundOpening(diameter_mm=5.5, tolerance_mm=0.1), is_removable=True)


@pytest.mark.parametrize(
    ("insert", "is_out", "note"), [(RUBBER, False, "insert"), (RUBBER, True, ""), (None, True, ""), (None, False, "")]
)
def test_a_check_names_the_insert_only_where_that_was_asked(insert: Insert | None, is_out: bool, note: str) -> None:
    check = check_things_through_port(
        port=make_port("hole", diameter_mm=8.0, insert=insert),
        state=State.DRAWING,
        things=[Thing(id="line", kind=ThingKind.LINE, diameter_mm=5.0, tolerance_mm=0.1)],
        is_insert_out=is_out,
        running_clearance_mm=0.5,
    )
    assert check.note == note
    assert check.available_mm == pytest.approx(5.5 if note else 8.0)


BACKWARDS = Zone(id="tube", path_mm=((0.0, 0.0, 0.0), (-500.0, 0.0, 0.0)), bore_diameter_mm=40.0)
KNEE = Zone(id="tube", path_mm=((0.0, 0.0, 0.0), (-500.0, 0.0, 0.0), (-500.0, 0.0, 400.0)), bore_diameter_mm=40.0)
"""Straight back, then straight up."""


def looking(angle_deg: float) -> Point:
    """A heading that far from straight back, upwards."""
    return (-cos(radians(angle_deg)), 0.0, sin(radians(angle_deg)))


def is_along(zone: Zone = BACKWARDS, **port: Any) -> bool:
    return is_in_line_with_tube(port=make_port("hole", **port), zone=zone)


@pytest.mark.parametrize(
    ("angle_deg", "tilt_deg", "along"),
    [
        (0.0, 0.0, True),
        (44.9, 0.0, True),
        (45.1, 0.0, False),
        (30.0, 14.9, True),
        (30.0, 15.1, False),
        (90.0, 0.0, False),
        (134.9, 0.0, False),
        (135.1, 0.0, True),  # looking out instead of in is looking along all the same
        (180.0, 0.0, True),
        (180.0, 45.1, False),
    ],
)
def test_a_hole_looks_along_its_tube_below_half_a_right_angle(angle_deg: float, tilt_deg: float, along: bool) -> None:
    assert is_along(heading=looking(angle_deg), tilt_deg=tilt_deg) is along


@pytest.mark.parametrize(
    ("at_mm", "along_back", "along_up"),
    [
        ((-100.0, 20.0, 30.0), True, False),
        ((60.0, 0.0, 20.0), True, False),  # beyond the front end
        ((-505.0, 0.0, 120.0), False, True),
        ((-480.0, 0.0, 300.0), False, True),
        ((-470.0, 0.0, 600.0), False, True),  # beyond the upper end
        ((-480.0, 0.0, 10.0), True, False),
        ((-490.0, 0.0, 20.0), False, True),
    ],
)
def test_the_piece_of_tube_that_counts_is_the_nearest_one(at_mm: Point, along_back: bool, along_up: bool) -> None:
    assert is_along(KNEE, position_mm=at_mm, heading=(-1.0, 0.0, 0.0)) is along_back
    assert is_along(KNEE, position_mm=at_mm, heading=(0.0, 0.0, 1.0)) is along_up


@pytest.mark.parametrize("way", [(3.0, 0.0, 4.0), (0.0, -3.0, 4.0), (-2.0, 1.0, 2.0)])
def test_a_tube_may_lie_anywhere_and_run_any_way(way: Point) -> None:
    start = (70.0, 90.0, -110.0)
    tube = Zone(id="tube", path_mm=(start, moved(start, way, 100.0)), bore_diameter_mm=40.0)
    across = {(3.0, 0.0, 4.0): (4.0, 0.0, -3.0), (0.0, -3.0, 4.0): (0.0, 4.0, 3.0), (-2.0, 1.0, 2.0): (1.0, 2.0, 0.0)}
    at_mm = moved(start, way, 50.0)
    assert is_along(tube, position_mm=at_mm, heading=way)
    assert not is_along(tube, position_mm=at_mm, heading=across[way])


def test_what_is_told_of_a_hole_goes_before_how_it_lies() -> None:
    assert is_along(heading=looking(90), looks=PortLooks.ALONG)
    assert not is_along(heading=looking(0), looks=PortLooks.SIDE)
    assert not is_along(position_mm=None)
    assert not is_along(heading=None)


@pytest.mark.parametrize("path_mm", [(), ((0.0, 0.0, 0.0),), ((0.0, 0.0, 0.0), (0.0, 0.0, 0.0))])
def test_a_hole_into_a_cavity_whose_path_has_no_length_counts_as_one_in_the_side(path_mm: tuple[Point, ...]) -> None:
    assert not is_along(Zone(id="tube", path_mm=path_mm, bore_diameter_mm=40.0))


def test_a_piece_of_path_without_length_is_as_far_away_as_its_place() -> None:
    stutter = Zone(id="tube", path_mm=((900.0, 0.0, 0.0), (900.0, 0.0, 0.0), (-500.0, 0.0, 0.0)), bore_diameter_mm=40.0)
    assert is_along(stutter)


def test_a_stop_takes_the_kinds_it_is_told_to_take() -> None:
    stop = make_port("stop", admits=(LineKind.INNER_CABLE, LineKind.ELECTRIC_WIRE))
    for kind in LineKind:
        check = check_port_admits(port=stop, kind=kind)
        assert check is not None
        assert check.outcome is (Outcome.FITS if kind in stop.admits else Outcome.NO_FIT)
        assert (check.port_id, check.note) == ("stop", "inner_cable, electric_wire")
    assert check_port_admits(port=make_port("hole"), kind=LineKind.HYDRAULIC_HOSE) is None
