"""Honest errors of measuring ask nothing, and slips are caught as often as was found when the limits were chosen.

Shares are of the frames with a left and a right of their own, over every hole or anchor of each.
"""

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from catalog import read_catalog
from planner.parts import Frame, Point, Port
from planner.plan.slips.frame_slips import find_slips
from planner.rules import SlipRule
from tests.planner.plan.shaken_frames import places_as, shaken
from tests.planner.plan.slip_samples import asked, limits, with_anchor, with_port, with_run

FOLDER = Path(__file__).parents[3] / "demo_frames"
DRAWS = 25
Told = Callable[[Point], Point]


COUNTED = (
    "ambelry-3",
    "braunstow-64",
    "corrowen-31",
    "dorrimel-100",
    "fennimor-27",
    "jessamund-700",
    "ottamin-5",
    "quillfern-130",
    "torvellin-115",
    "vessaline-28",
)
"""The frames that the shares below were counted on."""


@cache
def every_frame() -> dict[str, Frame]:
    return read_catalog([FOLDER], over_starter=True).frames


def frames() -> tuple[Frame, ...]:
    return tuple(every_frame()[id_] for id_ in COUNTED)


def is_asked(frame: Frame) -> bool:
    return bool(find_slips(frame=frame, limits=limits(), with_loops=True))


def test_frames_as_filed_ask_nothing() -> None:
    wrong = {id_: asked(frame, with_loops=True) for id_, frame in every_frame().items()}
    assert {id_: rules for id_, rules in wrong.items() if rules} == {}


@pytest.mark.parametrize("id_", COUNTED)
def test_everything_five_millimetres_off_asks_nothing(id_: str) -> None:
    frame = every_frame()[id_]
    for draw in range(DRAWS):
        off = shaken(frame, by_mm=5, by_deg=0, seed=f"{frame.id} {draw}")
        assert asked(off, with_loops=True) == set(), draw


def share_asked(*, by_mm: float, by_deg: float) -> float:
    drawn = [
        shaken(frame, by_mm=by_mm, by_deg=by_deg, seed=f"{frame.id} {draw}", with_tubes=False)
        for frame in frames()
        for draw in range(DRAWS // 4)
    ]
    return sum(map(is_asked, drawn)) / len(drawn)


@pytest.mark.parametrize(
    ("by_mm", "by_deg", "most"), [(10, 0, 0.06), (0, 10, 0.04), (10, 15, 0.15), (20, 0, 0.40), (0, 30, 0.45)]
)
def test_larger_honest_errors_seldom_ask(by_mm: float, by_deg: float, most: float) -> None:
    assert share_asked(by_mm=by_mm, by_deg=by_deg) <= most


def holes() -> Iterator[tuple[Frame, Port, Point]]:
    for frame in frames():
        for port in frame.ports.values():
            assert port.position_mm is not None
            yield frame, port, port.position_mm


PLACES: dict[str, tuple[Told, float]] = {
    "in centimetres": (lambda at: (at[0] / 10, at[1] / 10, at[2] / 10), 0.80),
    "on the other side": (lambda at: (at[0], -at[1], at[2]), 0.75),
    "behind instead of ahead": (lambda at: (-at[0], at[1], at[2]), 0.80),
    "y and z changed about": (lambda at: (at[0], at[2], at[1]), 0.80),
    "100 higher": (lambda at: (at[0], at[1], at[2] + 100), 0.95),
    "50 higher": (lambda at: (at[0], at[1], at[2] + 50), 0.60),
}


@pytest.mark.parametrize("slip", PLACES)
def test_a_hole_told_in_the_wrong_place_is_mostly_asked_about(slip: str) -> None:
    told, least = PLACES[slip]
    caught = [is_asked(with_port(frame, port.id, position_mm=told(at))) for frame, port, at in holes()]
    assert sum(caught) / len(caught) >= least


def test_a_hole_told_the_wrong_way_round_is_asked_about() -> None:
    for frame, port, _ in holes():
        assert port.heading is not None
        x, y, z = port.heading
        is_told_of = any(port.id in run.between and set(run.between) <= set(frame.ports) for run in frame.runs.values())
        if is_told_of:
            assert is_asked(with_port(frame, port.id, heading=(-x, -y, -z))), port.id
            assert is_asked(with_port(frame, port.id, joins=port.joins[::-1])), port.id


ANCHORS: dict[str, tuple[Told, Told, float]] = {
    "in centimetres": (lambda at: (at[0] / 10, at[1] / 10, at[2] / 10), lambda way: way, 0.99),
    "on the other side": (lambda at: (at[0], -at[1], at[2]), lambda way: way, 0.85),
    "the wrong way round": (lambda at: at, lambda way: (-way[0], -way[1], -way[2]), 0.80),
}


@pytest.mark.parametrize("slip", ANCHORS)
def test_an_anchor_told_wrongly_is_mostly_asked_about(slip: str) -> None:
    place, way, least = ANCHORS[slip]
    caught = []
    for frame in frames():
        for anchor in frame.anchors.values():
            assert anchor.position_mm is not None
            assert anchor.heading is not None
            told = with_anchor(frame, anchor.id, position_mm=place(anchor.position_mm), heading=way(anchor.heading))
            caught.append(is_asked(told))
    assert sum(caught) / len(caught) >= least


@pytest.mark.parametrize("times", [0.1, 1 / 25.4])
def test_a_whole_frame_in_another_unit_is_always_asked_about(times: float) -> None:
    for frame in frames():
        told = places_as(frame, lambda at: (at[0] * times, at[1] * times, at[2] * times))
        assert SlipRule.FRAME_UNITS in asked(told)


@pytest.mark.parametrize("times", [0.1, 10.0, 1 / 25.4, 1.5])
def test_a_guides_length_in_another_unit_is_always_asked_about(times: float) -> None:
    for frame in frames():
        for run in frame.runs.values():
            if run.guide is not None and run.guide.length_mm is not None:
                told = with_run(frame, run.id, guide=replace(run.guide, length_mm=run.guide.length_mm * times))
                assert asked(told) & {SlipRule.SHORT_LENGTH, SlipRule.LONG_LENGTH}


def test_a_steering_axis_behind_the_bottom_bracket_is_asked_about_where_there_is_a_head_tube() -> None:
    for frame in frames():
        if frame.bar is not None and "head_tube" in frame.zones:
            x, y, z = frame.bar.axis_point_mm
            assert SlipRule.STEERING_AXIS in asked(replace(frame, bar=replace(frame.bar, axis_point_mm=(-x, y, z))))


def test_a_hole_of_the_rear_that_is_forgotten_is_asked_about() -> None:
    for frame in frames():
        for id_ in () if frame.rear is None else frame.rear.moves:
            if id_ in frame.ports and frame.rear is not None:
                left = tuple(other for other in frame.rear.moves if other != id_)
                told = replace(frame, rear=replace(frame.rear, moves=left))
                assert {check.port_id for check in find_slips(frame=told, limits=limits(), with_loops=False)} == {id_}
