"""What is told of a leg: points that no bend of the line gets past, and how a hose lies; by hand."""

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest

from planner.geometry.curves.hose_lengths import HoseRange
from planner.geometry.curves.led_runs import widest_radius_past_points_mm
from planner.geometry.curves.legs import Posture
from planner.geometry.curves.one_length import OneLength
from planner.geometry.motion.frame_axes import Pose3
from planner.outcomes import Outcome
from planner.parts import OUTSIDE, Run
from planner.plan import leg_checks
from planner.rules import LengthRule
from tests.builders import make_line

AHEAD = (1.0, 0.0, 0.0)


def test_two_half_turns_stacked_are_bent_no_wider_than_half_their_height() -> None:
    """Ahead, back past a point 40 beside, ahead again 80 beside: half circles of 20 and nothing wider, by hand.

    An arc, a straight and an arc, neither above half a circle, that turn a line back put it two radii aside or more;
    with the point passed at a slant of d instead it is 1 + 1/cos(d) radii.
    """
    widest_mm = widest_radius_past_points_mm(
        start=Pose3(position_mm=(0.0, 0.0, 0.0), heading=AHEAD),
        points_mm=((0.0, 40.0, 0.0),),
        end=Pose3(position_mm=(0.0, 80.0, 0.0), heading=AHEAD),
        centreline_radius_mm=37.5,
    )
    assert 20 - 37.5 / 64 <= widest_mm <= 20 + 1e-6


def told(widest_mm: list[float], monkeypatch: pytest.MonkeyPatch, *, by_how_much: bool = True) -> list[Any]:
    """The checks of a run with one point, whose postures leave these radii in turn."""
    left, asked_mm = iter(widest_mm), []

    def widest(**asked: Any) -> float:
        asked_mm.append(asked["centreline_radius_mm"])
        return min(next(left), asked["centreline_radius_mm"])

    monkeypatch.setattr(leg_checks, "widest_radius_past_points_mm", widest)
    monkeypatch.setattr(leg_checks, "gets_past_points", lambda **asked: next(left) >= asked["centreline_radius_mm"])
    monkeypatch.setattr(leg_checks, "ends_in_postures", lambda *_: [(None, None)])
    run = Run(id="run", zone_id=OUTSIDE, between=("start", "end"), via_mm=((0.0, 0.0, 0.0),))
    stretch = SimpleNamespace(
        motion=None,
        centreline_radius_mm=37.5,
        postures=(Posture(), Posture(bar_deg=40), Posture(bar_deg=-40)),
        curves=SimpleNamespace(is_only_plain=(True, False, False)),
    )
    still = SimpleNamespace(**{**vars(stretch), "curves": SimpleNamespace(is_only_plain=(True, True, True))})
    line = make_line(outer_diameter_mm=5.0, minimum_bend_radius_mm=35.0)
    return list(leg_checks.led_point_checks(run, line, [stretch, still], tells_by_how_much=by_how_much))  # type: ignore[list-item]


@pytest.mark.parametrize(
    ("widest_mm", "inside_mm", "note"),
    [
        ([20.0, 30.0], 17.5, "from start to point 1 (bar +40°)"),
        ([30.0, 20.0], 17.5, "from start to point 1 (bar -40°)"),
        ([30.0, 1.0], 0.0, "from start to point 1 (bar -40°)"),  # half the line's own thickness is more than that
        ([0.0, 20.0], 0.0, "from start to point 1 (bar +40°)"),
    ],
)
def test_the_tightest_posture_is_told_with_the_radius_to_the_inside_of_the_bend(
    widest_mm: list[float], inside_mm: float, note: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    (check,) = told(widest_mm, monkeypatch)
    assert check.outcome is Outcome.NO_FIT
    assert check.size_mm == 35.0
    assert check.available_mm == pytest.approx(inside_mm)
    assert check.clearance_mm == pytest.approx(min(widest_mm) - 37.5)
    assert check.note == note


def test_points_that_are_got_past_with_other_directions_are_not_told(monkeypatch: pytest.MonkeyPatch) -> None:
    assert told([37.5, 37.5], monkeypatch) == []


@pytest.mark.parametrize(("widest_mm", "posture"), [([30.0, 20.0], "bar +40°"), ([37.5, 20.0], "bar -40°")])
def test_at_a_glance_the_first_posture_that_stops_is_told_without_a_figure(
    widest_mm: list[float], posture: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    (check,) = told(widest_mm, monkeypatch, by_how_much=False)
    assert (check.outcome, check.size_mm, check.note) == (Outcome.NO_FIT, 35.0, f"from start to point 1 ({posture})")
    assert check.available_mm is None
    assert check.clearance_mm is None
    assert told([37.5, 37.5], monkeypatch, by_how_much=False) == []


def hose(*, estimated: tuple[Posture, ...] = (), one_length: OneLength | None = None) -> HoseRange:
    return HoseRange(
        rest=None,
        longest_mm=300.0,
        longest_at=Posture(),
        over_shortest_mm=20.0,
        most_over_mm=280.0,
        most_over_at=Posture(),
        two_ways=((Posture(bar_deg=30), 250.0, 290.0), (Posture(bar_deg=60), 240.0, 310.0)),
        estimated=estimated,
        one_length=one_length,
    )


def test_how_a_hose_lies_is_told_as_far_as_it_is_known() -> None:
    run = Run(id="run", zone_id=OUTSIDE, between=("start", "end"))
    line = make_line(outer_diameter_mm=5.0, minimum_bend_radius_mm=35.0)
    tight = OneLength(
        length_mm=300.0, serves=False, tightest_radius_mm=22.5, tightest_at=Posture(rear_deg=15), slack_mm=42.4
    )
    checks = list(leg_checks.lying_checks(run, line, [hose(estimated=(Posture(bar_deg=-75),), one_length=tight)]))
    assert [(check.rule, check.outcome, check.size_mm, check.available_mm, check.note) for check in checks] == [
        (LengthRule.TWO_WAYS_TO_LIE, Outcome.TIGHT, 250.0, 290.0, "bar +30°"),
        (LengthRule.RELAXED_SHAPE, Outcome.UNKNOWN, None, None, "bar -75°"),
        (LengthRule.ONE_LENGTH, Outcome.UNKNOWN, 35.0, 20.0, "rear 15°: 42 mm too much there"),
    ]
    serves = replace(tight, serves=True)
    assert [check.rule for check in leg_checks.lying_checks(run, line, [hose(one_length=serves)])] == [
        LengthRule.TWO_WAYS_TO_LIE
    ]
