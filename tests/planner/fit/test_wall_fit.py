"""Rigid pieces through ports: outcomes at the limits, worst cases, the way out, what was not measured."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.fit import wall_fit
from planner.fit.wall_fit import check_rigid_through_wall, find_longest_through_port
from planner.geometry.rigid.wall_motion import find_longest_through_wall_mm
from planner.geometry.rigid.wall_motion import find_motion_through_wall as sought
from planner.parts import OUTSIDE, Insert, OutlineOpening, Port, RoundOpening, SlotOpening
from planner.verdicts import Outcome, State, Thing, ThingKind

PORT = Port(
    id="belly-left",
    label="Down tube, lower left",
    joins=(OUTSIDE, "down_tube"),
    position_mm=(58.0, 20.0, 96.0),
    heading=(0.6, 0.0, 0.8),
    opening=SlotOpening(length_mm=12.0, width_mm=7.0, tolerance_mm=0.1),
    wall_thickness_mm=2.0,
)
JOINT = Thing(id="joint", kind=ThingKind.JOINT, diameter_mm=5.0, tolerance_mm=0.05)
LIMIT_MM = 66.633347


def check(length, port=PORT, corridor=35.0, item=JOINT, is_entry=True, is_insert_out=True):
    return check_rigid_through_wall(
        port=port,
        run_id="down-run",
        corridor_mm=corridor,
        item=replace(item, rigid_length_mm=length),
        is_entry=is_entry,
        is_insert_out=is_insert_out,
    )


def longest(item, port=PORT, corridor=35.0, is_worst_case=True):
    return find_longest_through_port(port=port, corridor_mm=corridor, item=item, is_worst_case=is_worst_case)


def test_the_numbers_of_a_wall():
    found = check(21.0)
    worst = find_longest_through_wall_mm(
        piece_diameter_mm=5.05, opening_length_mm=11.9, wall_thickness_mm=2.0, corridor_mm=35.0
    )
    assert (found.rule, found.port_id, found.run_id) == ("wall_entry", "belly-left", "down-run")
    assert found.state is State.DRAWING
    assert found.size_mm == 21.0
    assert found.available_mm == pytest.approx(LIMIT_MM)
    assert found.clearance_mm == pytest.approx(LIMIT_MM - 21.0)
    assert found.worst_clearance_mm == pytest.approx(worst.upper_mm - 21.0)
    assert found.fit_class is None
    assert found.outcome is Outcome.FITS


@pytest.mark.parametrize(
    ("length", "outcome"),
    [(65.0, Outcome.FITS), (66.5, Outcome.TIGHT), (LIMIT_MM, Outcome.UNKNOWN), (66.65, Outcome.NO_FIT)],
)
def test_outcomes_around_the_limit(length, outcome):
    """Worst case: a hole of 11.9 and a piece of 5.05 let 65.8 through."""
    found = check(length)
    assert found.outcome is outcome
    assert (found.motion is None) == (outcome in (Outcome.UNKNOWN, Outcome.NO_FIT))


def test_the_worst_case_limit_parts_fits_from_tight():
    worst_mm = 66.633347 + check(LIMIT_MM).worst_clearance_mm
    assert check(worst_mm * 0.9999).outcome is Outcome.FITS
    assert check(worst_mm * 1.0001).outcome is Outcome.TIGHT


@settings(max_examples=30, deadline=None)
@given(st.floats(5, 80), st.floats(1, 6), st.floats(0, 0.3), st.floats(0, 0.3))
def test_tolerances_never_help(length, diameter, piece_tolerance, hole_tolerance):
    item = Thing(id="joint", kind=ThingKind.JOINT, diameter_mm=diameter, tolerance_mm=piece_tolerance)
    opening = SlotOpening(length_mm=12.0, width_mm=7.0, tolerance_mm=hole_tolerance)
    loose = check(length, port=replace(PORT, opening=opening), item=item)
    exact = check(
        length, port=replace(PORT, opening=replace(opening, tolerance_mm=0.0)), item=replace(item, tolerance_mm=0)
    )
    assert loose.worst_clearance_mm <= loose.clearance_mm + 1e-9
    assert loose.clearance_mm == exact.clearance_mm == exact.worst_clearance_mm
    assert loose.outcome >= exact.outcome


def test_out_is_in_told_backwards():
    entry, leaving = check(40.0), check(40.0, is_entry=False)
    assert (entry.rule, leaving.rule) == ("wall_entry", "wall_exit")
    assert leaving.motion == entry.motion[::-1]
    assert leaving.motion[0].tilt_deg == 0
    assert leaving.motion[-1].y_mm < -PORT.wall_thickness_mm
    assert replace(leaving, rule=entry.rule, motion=entry.motion) == entry


def test_not_measured_is_unknown():
    no_hole = check(21.0, port=replace(PORT, opening=None))
    no_bore = check(21.0, corridor=None)
    assert no_hole.outcome is no_bore.outcome is Outcome.UNKNOWN
    assert (no_hole.note, no_bore.note) == ("opening not measured", "cavity not measured")
    assert no_hole.clearance_mm is no_bore.clearance_mm is None


def test_an_insert_left_in_is_told():
    port = replace(PORT, insert=Insert(opening=RoundOpening(diameter_mm=5.4, tolerance_mm=0.1), is_removable=False))
    assert check(21.0, port=port, is_insert_out=False).note == "insert"
    assert check(21.0, port=port, is_insert_out=True).note == ""
    assert check(21.0, port=port, is_insert_out=False).available_mm == pytest.approx(LIMIT_MM)


def test_a_piece_thicker_than_the_cavity_never_lies_down():
    found = check(21.0, corridor=4.9)
    assert found.outcome is Outcome.NO_FIT
    assert (found.available_mm, found.clearance_mm) == (0.0, -21.0)


def test_an_outline_counts_by_its_longest_way_along_the_tube():
    corners = ((-6.0, -3.5), (6.0, -3.5), (6.0, 3.5), (-6.0, 3.5))
    found = check(21.0, port=replace(PORT, opening=OutlineOpening(points_mm=corners, tolerance_mm=0.1)))
    assert found.available_mm == pytest.approx(LIMIT_MM)
    assert found.worst_clearance_mm < found.clearance_mm


def test_the_longest_through_a_port_passes_its_own_check():
    length = longest(JOINT).length_mm
    assert check(length).outcome is Outcome.FITS
    assert longest(JOINT, is_worst_case=False).upper_mm == pytest.approx(LIMIT_MM)
    assert longest(JOINT, corridor=None) is None
    assert longest(JOINT, port=replace(PORT, opening=None)) is None


def test_a_wall_is_asked_once_for_both_senses_whatever_its_run_and_side_are_called(monkeypatch):
    asked = []
    monkeypatch.setattr(wall_fit, "find_motion_through_wall", lambda **sizes: asked.append(sizes) or sought(**sizes))
    there, back = check(31.234), check(31.234, is_entry=False, port=replace(PORT, id="other"))
    assert len(asked) == 2  # at nominal sizes and at the worst
    assert (back.port_id, back.available_mm, back.motion) == ("other", there.available_mm, there.motion[::-1])
