"""What rides with the bar: a leg inside bar or fork keeps its length, one from bar to frame does not."""

from dataclasses import replace
from math import dist

import pytest

from planner.documents.drawings.posed_frame import frame_in_posture
from planner.parts import OUTSIDE, Anchor, Bar, Frame, MovesWith, Port, Run, Zone, is_lever_at_from
from planner.plan.leg_lengths import find_legs
from tests.builders import make_line, make_port

AXIS = Bar(axis_point_mm=(405.0, 0.0, 612.0), axis=(-0.42, 0.0, 0.91), lock_deg=75.0)


def steered_frame(*, marks_ports: bool) -> Frame:
    """A line that runs through the bar and stem, then through a fork leg to a front caliper, all ahead of the frame."""
    mover = MovesWith.BAR if marks_ports else None

    def port(
        id: str, joins: tuple[str, str], at: tuple[float, float, float], heading: tuple[float, float, float]
    ) -> Port:
        made = make_port(id, diameter_mm=7.0, joins=joins, position_mm=at)
        return replace(made, heading=heading, moves_with=mover)

    down = (0.35, 0.0, -0.94)
    ports = (
        port("bar-in", (OUTSIDE, "bar"), (455.0, -150.0, 690.0), (-0.1, 1.0, 0.0)),
        port("stem-out", ("bar", OUTSIDE), (430.0, -20.0, 690.0), (-0.3, 0.95, 0.0)),
        port("crown", (OUTSIDE, "leg"), (450.0, 50.0, 420.0), down),
        port("dropout", ("leg", OUTSIDE), (560.0, 60.0, 125.0), down),
        replace(
            make_port("neck", diameter_mm=7.0, joins=(OUTSIDE, "leg"), position_mm=(400.0, 25.0, 510.0)), heading=down
        ),
    )
    anchors = (
        Anchor(id="lever", position_mm=(470.0, -210.0, 690.0), heading=(-0.3, 0.95, 0.0), moves_with=MovesWith.BAR),
        Anchor(id="caliper", position_mm=(575.0, 62.0, 75.0), heading=(-0.3, 0.0, 0.95), moves_with=MovesWith.BAR),
    )
    runs = (
        Run(id="at-lever", zone_id=OUTSIDE, between=("lever", "bar-in")),
        Run(id="in-bar", zone_id="bar", between=("bar-in", "stem-out"), via_mm=((445.0, -80.0, 690.0),)),
        Run(id="to-frame", zone_id=OUTSIDE, between=("stem-out", "neck")),
        Run(id="in-leg", zone_id="leg", between=("crown", "dropout")),
        Run(id="at-caliper", zone_id=OUTSIDE, between=("dropout", "caliper")),
    )
    zones = (
        Zone(id="bar", path_mm=((455.0, -150.0, 690.0), (430.0, -20.0, 690.0)), bore_diameter_mm=20.0),
        Zone(id="leg", path_mm=((450.0, 50.0, 420.0), (560.0, 60.0, 125.0)), bore_diameter_mm=20.0),
    )
    return Frame(
        id="steered",
        name="Steered (invented)",
        zones={zone.id: zone for zone in zones},
        ports={one.id: one for one in ports},
        anchors={anchor.id: anchor for anchor in anchors},
        runs={run.id: run for run in runs},
        bar=AXIS,
    )


STEERED_RUNS = ("at-lever", "in-bar", "in-leg", "at-caliper")


@pytest.mark.parametrize("run_id", STEERED_RUNS)
def test_a_leg_with_both_ends_on_the_bar_is_measured_at_rest(run_id: str) -> None:
    leg = find_legs(frame=steered_frame(marks_ports=True), line=make_line())[run_id]
    assert leg.low_mm == leg.nominal_mm == leg.least_mm
    assert (leg.slack_variation_mm, leg.worst_posture) == (0.0, "at rest")
    assert leg.high_mm <= 1.1 * leg.nominal_mm


def test_the_same_leg_between_bar_and_frame_takes_more_at_the_lock() -> None:
    leg = find_legs(frame=steered_frame(marks_ports=True), line=make_line())["to-frame"]
    assert leg.slack_variation_mm > 10
    assert leg.worst_posture.startswith("bar ")


def test_a_port_that_is_not_marked_stands_still_and_its_leg_is_pulled_long() -> None:
    legs = find_legs(frame=steered_frame(marks_ports=False), line=make_line())
    assert legs["at-lever"].slack_variation_mm > 50
    assert legs["at-caliper"].slack_variation_mm > 50


@pytest.mark.parametrize("bar_deg", [-75.0, 30.0, 75.0])
def test_a_picture_turns_the_cavities_and_the_points_that_ride_with_the_bar(bar_deg: float) -> None:
    frame = steered_frame(marks_ports=True)
    posed = frame_in_posture(frame, bar_deg=bar_deg, swing_deg=0.0)
    assert isinstance(posed, Frame)
    bar_in = posed.ports["bar-in"].position_mm
    assert dist(bar_in, frame.ports["bar-in"].position_mm) > 50
    assert posed.zones["bar"].path_mm[0] == pytest.approx(bar_in), "the cavity begins at its port and stays there"
    assert dist(posed.runs["in-bar"].via_mm[0], bar_in) == pytest.approx(
        dist(frame.runs["in-bar"].via_mm[0], frame.ports["bar-in"].position_mm)
    )
    assert posed.ports["neck"] == frame.ports["neck"]
    assert posed.zones["leg"] == frame.zones["leg"], "one of its ports stands still, so it does too"


@pytest.mark.parametrize(("first", "second", "expected"), [("lever", "caliper", True), ("caliper", "lever", False)])
def test_of_two_ends_on_the_bar_the_higher_one_is_the_lever(first: str, second: str, expected: bool) -> None:
    frame = steered_frame(marks_ports=True)
    assert is_lever_at_from(frame=frame, from_anchor_id=first, to_anchor_id=second) is expected


def test_of_two_ends_that_stand_still_the_higher_one_is_the_lever() -> None:
    frame = steered_frame(marks_ports=True)
    still = {id: replace(anchor, moves_with=None) for id, anchor in frame.anchors.items()}
    frame = replace(frame, anchors=still)
    assert not is_lever_at_from(frame=frame, from_anchor_id="caliper", to_anchor_id="lever")
    level = {id: replace(anchor, position_mm=(0.0, 0.0, 0.0)) for id, anchor in still.items()}
    assert is_lever_at_from(frame=replace(frame, anchors=level), from_anchor_id="caliper", to_anchor_id="lever")
