"""Holes known by a range or by a gauge: the worst case, and what is proven of them and what is not."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.fit.hole_fit import check_things_in_room
from planner.fit.measure_first import Place, rank_measurements
from planner.fit.wall_fit import check_rigid_through_wall
from planner.fit.zone_fit import check_things_in_zone
from planner.parts import Opening, OvalOpening, PortLooks, RoundOpening, SlotOpening
from planner.plan.measurements import find_fit_chance
from planner.rules import GAUGED, LOOKS_NOT_TOLD, SPREAD, PlaceRule
from planner.verdicts import Check, Outcome, Room, State, Thing, ThingKind
from tests.builders import make_port

RUNNING_MM = 0.2
SLOT = SlotOpening(length_mm=18, width_mm=7, tolerance_mm=0.1)


def gauge(diameter_mm: float) -> RoundOpening:
    """What is sure of a hole that a shank of that size went into."""
    return RoundOpening(diameter_mm=diameter_mm, tolerance_mm=0.0, is_at_least=True)


def thing(diameter_mm: float, tolerance_mm: float = 0.0, *, rigid_mm: float = 0.0) -> Thing:
    """Something round."""
    return Thing(
        id="x", kind=ThingKind.OTHER, diameter_mm=diameter_mm, tolerance_mm=tolerance_mm, rigid_length_mm=rigid_mm
    )


def asked(room: Room, *things: Thing) -> Check:
    """Whether the things pass."""
    return check_things_in_room(
        rule=PlaceRule.PORT_CLEARANCE, room=room, things=things, running_clearance_mm=RUNNING_MM
    )


def in_slot(tilt_deg: float, off_deg: float, wall_off_mm: float = 0.0) -> Room:
    return Room(
        opening=SLOT,
        tilt_deg=tilt_deg,
        tilt_tolerance_deg=off_deg,
        wall_thickness_mm=1.6,
        wall_tolerance_mm=wall_off_mm,
    )


def test_the_worst_case_takes_the_larger_tilt_and_the_thicker_wall() -> None:
    things = (thing(5.2, 0.05), thing(4.0, 0.05))
    middle, spread = asked(in_slot(32.5, 0.0), *things), asked(in_slot(32.5, 12.5, 0.4), *things)
    at_end = asked(replace(in_slot(45, 0.0), wall_thickness_mm=2.0), *things)
    assert spread.clearance_mm == middle.clearance_mm
    assert spread.worst_clearance_mm == at_end.worst_clearance_mm
    assert (spread.worst_clearance_mm or 0) < (middle.worst_clearance_mm or 0)


@pytest.mark.parametrize(
    ("size_mm", "off_deg", "outcome"),
    [
        # 18 cos 45 - 1.6 sin 45 = 11.60 long, at worst 11.53: two things of 5.5 want 11, of 5.9 11.8; at 50 deg 10.28
        (5.5, 0.0, Outcome.FITS),
        (5.5, 5.0, Outcome.TIGHT),
        (5.9, 0.0, Outcome.NO_FIT),
        (5.9, 0.5, Outcome.NO_FIT),
        (5.9, 5.0, Outcome.UNKNOWN),
    ],
)
def test_a_range_of_tilt_decides_between_fits_tight_and_not_proven(
    size_mm: float, off_deg: float, outcome: Outcome
) -> None:
    told = asked(in_slot(45, off_deg), thing(size_mm), thing(size_mm))
    assert told.outcome is outcome
    assert (told.note == SPREAD) is (outcome is Outcome.UNKNOWN)


@pytest.mark.parametrize(
    ("size_mm", "outcome"),
    [
        (6.19, Outcome.FITS),
        (6.2, Outcome.FITS),
        (6.21, Outcome.TIGHT),
        (6.4, Outcome.TIGHT),
        (6.41, Outcome.UNKNOWN),
        (12, Outcome.UNKNOWN),
    ],
)
def test_what_went_in_proves_that_as_much_passes_and_never_that_more_does_not(size_mm: float, outcome: Outcome) -> None:
    told = asked(Room(opening=gauge(6.4)), thing(size_mm))
    assert told.outcome is outcome
    assert told.fit_class is None
    assert (told.note == GAUGED) is (outcome is Outcome.UNKNOWN)


holes = st.one_of(
    st.builds(RoundOpening, diameter_mm=st.floats(6.4, 12), tolerance_mm=st.just(0.0)),
    st.builds(SlotOpening, length_mm=st.floats(7.0, 20), width_mm=st.floats(6.4, 7.0), tolerance_mm=st.just(0.0)),
    st.builds(OvalOpening, length_mm=st.floats(6.4, 20), width_mm=st.floats(6.4, 20), tolerance_mm=st.just(0.0)),
)


@settings(max_examples=60, deadline=None)
@given(holes, st.floats(0, 40), st.floats(0.5, 2), st.floats(2, 6.5))
def test_what_is_proven_by_a_gauge_holds_for_every_hole_that_takes_it(
    hole: Opening, tilt_deg: float, wall_mm: float, size_mm: float
) -> None:
    room = Room(opening=gauge(6.4), tilt_deg=tilt_deg, wall_thickness_mm=wall_mm)
    proven, real = asked(room, thing(size_mm)), asked(replace(room, opening=hole), thing(size_mm))
    if proven.outcome is not Outcome.UNKNOWN:
        assert real.outcome <= proven.outcome
        assert real.clearance_mm is not None
        assert proven.clearance_mm is not None
        assert real.clearance_mm >= proven.clearance_mm - 1e-6


def through_wall(port_changes: dict[str, object], rigid_mm: float, corridor_off_mm: float = 0.0) -> Check:
    """A stiff piece of 5 mm through a hole of 8 in a wall of 1, into a cavity of 20."""
    return check_rigid_through_wall(
        port=make_port("p", **port_changes),
        run_id="r",
        corridor_mm=20.0,
        corridor_tolerance_mm=corridor_off_mm,
        item=thing(5.0, rigid_mm=rigid_mm),
        is_entry=True,
        is_insert_out=True,
    )


def test_a_stiff_piece_is_never_refused_by_a_gauge() -> None:
    jams_mm = through_wall({"opening": gauge(8.0)}, 10).available_mm
    assert jams_mm is not None
    assert through_wall({"opening": gauge(8.0)}, jams_mm - 1).outcome is Outcome.FITS
    longer = through_wall({"opening": gauge(8.0)}, jams_mm + 1)
    assert (longer.outcome, longer.note) == (Outcome.UNKNOWN, GAUGED)
    measured = RoundOpening(diameter_mm=8.0, tolerance_mm=0.0)
    assert through_wall({"opening": measured}, jams_mm + 1).outcome is Outcome.NO_FIT


def test_a_wall_and_a_cavity_told_as_ranges_decide_only_where_both_ends_agree() -> None:
    measured = RoundOpening(diameter_mm=8.0, tolerance_mm=0.0)
    jams_mm = through_wall({"opening": measured}, 10).available_mm or 0
    assert through_wall({"opening": measured, "wall_tolerance_mm": 0.3}, jams_mm - 0.2).outcome is Outcome.TIGHT
    assert through_wall({"opening": measured, "wall_tolerance_mm": 0.3}, jams_mm + 0.2).outcome is Outcome.UNKNOWN
    assert through_wall({"opening": measured}, jams_mm + 0.2, 3.0).note == SPREAD
    assert through_wall({"opening": measured}, 3 * jams_mm, 3.0).outcome is Outcome.NO_FIT


@pytest.mark.parametrize(
    ("changes", "outcome"),
    [
        ({}, Outcome.NO_FIT),
        ({"position_mm": None, "heading": None}, Outcome.UNKNOWN),
        ({"position_mm": None, "heading": None, "looks": PortLooks.SIDE}, Outcome.NO_FIT),
    ],
)
def test_a_hole_that_may_look_along_its_tube_refuses_nothing(changes: dict[str, object], outcome: Outcome) -> None:
    told = through_wall({"opening": RoundOpening(diameter_mm=8.0, tolerance_mm=0.0), **changes}, 400)
    assert told.outcome is outcome
    assert (told.note == LOOKS_NOT_TOLD) is (outcome is Outcome.UNKNOWN)


@pytest.mark.parametrize(("off_mm", "outcome"), [(0.0, Outcome.FITS), (0.79, Outcome.FITS), (0.81, Outcome.TIGHT)])
def test_a_cavity_told_as_a_range_is_taken_at_its_smaller_end(off_mm: float, outcome: Outcome) -> None:
    told = check_things_in_zone(
        zone_bore_mm=10.0,
        bore_tolerance_mm=off_mm,
        run_id="r",
        state=State.DRAWING,
        things=(thing(9.0),),
        running_clearance_mm=RUNNING_MM,
    )
    assert told.outcome is outcome


def test_a_tilt_that_decides_is_to_be_measured_first() -> None:
    place = Place(id="neck", label="Neck", room=in_slot(45, 5.0), things=(thing(5.9), thing(5.9)))
    first, *_ = rank_measurements(places=[place], running_clearance_mm=RUNNING_MM)
    assert (first.what, first.outcome) == ("tilt", Outcome.UNKNOWN)
    assert first.reason.startswith("The tilt at Neck is known to 40 to 50°")
    sure = replace(place, things=(thing(3.0), thing(3.0)))
    assert "tilt" not in [one.what for one in rank_measurements(places=[sure], running_clearance_mm=RUNNING_MM)]


def test_a_gauged_hole_is_to_be_measured_and_has_no_chance() -> None:
    place = Place(id="neck", label="Neck", room=Room(opening=gauge(6.4)), things=(thing(7.0),))
    (first,) = rank_measurements(places=[place], running_clearance_mm=RUNNING_MM)
    assert first.reason == "Of the opening of Neck only at least 6.4 mm is sure, by what went in: measure it."
    assert find_fit_chance(places=[place]) is None
    sure = replace(place, things=(thing(6.0),))
    assert rank_measurements(places=[sure], running_clearance_mm=RUNNING_MM) == ()  # what is proven wants no measuring
