# ruff: noqa: E501  (a message is easier to compare in one piece)
"""Holes told by the words of the bench: where they land, and what is refused with its line."""

import pytest

from planner.parts import MovesWith
from tests.catalog.samples import catalog_of, problems_in

FRAME = """format: 1
frames:
  - id: bench
    zones:
      - {id: down_tube, path: [[425, 0, 540], [40, 0, 55]], bore: 46, outer: 49.2}
      - {id: stay_left, path: [[-26, 42, 25], [-405, 66, 12]], bore: 18, moves_with: rear}
      - {id: stay_right, path: [[0, -20, 35], [-405, -66, 12]], bore: 18}
    ports:
      - {id: neck-left, joins: [outside, down_tube], wall: 1.6, tilt: 45, opening: {shape: round, diameter: 8},
         on: {from_start: 35, side: left}}
      - {id: belly-left, joins: [down_tube, outside], wall: 1.6, on: {from_end: 35, side: 9, lean: 85}}
      - {id: stay-front, joins: [outside, stay_left], wall: 1.2, on: {end: start}}
      - {id: stay-rear, joins: [stay_left, outside], wall: 1.2, on: {zone: stay_left, from_end: 55, side: top, lean: 65}}
      - {id: window, joins: [down_tube, stay_right], wall: 1.5, on: window}
    runs:
      - {id: down-run, zone: down_tube, between: [neck-left, belly-left]}
      - {id: through, zone: down_tube, between: [neck-left, window]}
      - {id: stay-run, zone: stay_left, between: [stay-front, stay-rear]}
    rear: {kind: single_pivot, pivot: [14, 60], swing: 17}
"""
FRONT, REAR = 12, 13


def with_line(number: int, before: str, after: str) -> str:
    lines = FRAME.split("\n")
    assert before in lines[number - 1]
    lines[number - 1] = lines[number - 1].replace(before, after)
    return "\n".join(lines)


def told(text: str) -> list[str]:
    return [str(problem) for problem in problems_in(text)]


def test_each_hole_lands_where_its_words_put_it() -> None:
    ports = catalog_of(FRAME).frames["bench"].ports
    assert ports["neck-left"].position_mm == pytest.approx((403.2, 24.6, 512.6), abs=0.1)
    assert ports["neck-left"].heading == pytest.approx((-0.440, -0.707, -0.554), abs=0.001)
    assert ports["stay-rear"].position_mm == pytest.approx((-350.5, 62.5, 24.1), abs=0.1)
    assert ports["stay-rear"].heading == pytest.approx((-0.918, 0.057, 0.391), abs=0.001)
    assert ports["stay-front"].position_mm == (-26, 42, 25)
    assert ports["stay-front"].heading == pytest.approx((-0.997, 0.063, -0.034), abs=0.001)


def test_a_line_leaves_along_the_way_it_came() -> None:
    """Both holes lie on the left; the line goes down the tube from the neck and leaves further down, still going down."""
    ports = catalog_of(FRAME).frames["bench"].ports
    for id_ in ("neck-left", "belly-left"):
        heading = ports[id_].heading
        assert heading is not None
        assert heading[2] < 0
        assert (heading[1] < 0) is (id_ == "neck-left")


def test_a_window_lies_between_the_two_tubes_and_points_between_them() -> None:
    window = catalog_of(FRAME).frames["bench"].ports["window"]
    assert window.position_mm == ((40 + 0) / 2, -20 / 2, (55 + 35) / 2)
    assert window.heading is not None
    assert window.heading[0] < -0.8


def test_holes_of_a_cavity_that_rides_need_no_list() -> None:
    frame = catalog_of(FRAME).frames["bench"]
    assert frame.rear is not None
    assert frame.rear.moves == ("stay-front", "stay-rear")
    assert frame.zones["stay_left"].moves_with is MovesWith.REAR


def test_a_hole_of_a_cavity_that_steers_turns_with_the_bar() -> None:
    text = FRAME.replace("bore: 46, outer: 49.2}", "bore: 46, outer: 49.2, moves_with: bar}")
    ports = catalog_of(text).frames["bench"].ports
    assert (ports["neck-left"].moves_with, ports["window"].moves_with) == (MovesWith.BAR, None)


def test_numbers_go_before_words() -> None:
    both = FRAME.replace("on: {end: start}", "on: {end: start}, at: [-28, 42, 25], heading: [-1, 0, 0]")
    frame = catalog_of(both).frames["bench"]
    assert frame.ports["stay-front"].position_mm == (-28, 42, 25)
    assert frame.retold["stay-front"][0] == (-26, 42, 25)


def test_without_outer_the_wall_is_that_of_the_bore() -> None:
    ports = catalog_of(FRAME.replace(", outer: 49.2", "")).frames["bench"].ports
    assert ports["neck-left"].position_mm == pytest.approx((403.2, 23 + 1.6, 512.6), abs=0.1)


def test_an_oval_tube_and_a_boss_that_stands_proud() -> None:
    oval = catalog_of(FRAME.replace("outer: 49.2", "outer: [60, 70]")).frames["bench"].ports["neck-left"]
    proud = catalog_of(FRAME.replace("35, side: left", "35, side: left, off: 40")).frames["bench"].ports["neck-left"]
    assert (oval.position_mm, proud.position_mm) == (
        pytest.approx((403.2, 30, 512.6), abs=0.1),
        pytest.approx((403.2, 40, 512.6), abs=0.1),
    )


WRONG = {
    "no tube at all": (
        12, "[outside, stay_left]", "[outside, outside]",
        "f.yaml:12: frame bench port stay-front > on: a place on a tube was given, and the port joins outside only, a cavity in joins",
    ),
    "no side": (
        10, ", side: left", "",
        "f.yaml:10: frame bench port neck-left > on side: nothing was given, left, right, top, bottom, front, back or an hour of the clock from 0 to 12 by halves is allowed",
    ),
    "no such side": (
        10, "side: left", "side: inside",
        "f.yaml:10: frame bench port neck-left > on side: 'inside' was given, left, right, top, bottom, front, back or an hour of the clock from 0 to 12 by halves is allowed",
    ),
    "a quarter of an hour": (
        11, "side: 9", "side: 9.25",
        "f.yaml:11: frame bench port belly-left > on side: 9.25 was given, left, right, top, bottom, front, back or an hour of the clock from 0 to 12 by halves is allowed",
    ),
    "two places": (
        10, "from_start: 35", "from_start: 35, from_end: 50",
        "f.yaml:10: frame bench port neck-left > on: from_start and from_end were given, one of from_start, from_end and end, or window",
    ),
    "no place": (
        10, "from_start: 35, ", "",
        "f.yaml:10: frame bench port neck-left > on: no place along the tube was given, one of from_start, from_end and end, or window",
    ),
    "a lean at an open end": (
        12, "end: start", "end: start, lean: 20",
        "f.yaml:12: frame bench port stay-front > on lean: 20 degrees was given, none at an open end: the line lies along the tube",
    ),
    "another zone": (
        13, "zone: stay_left", "zone: down_tube",
        "f.yaml:13: frame bench port stay-rear > on zone: down_tube was given, a zone that the port joins: stay_left",
    ),
    "a window to the outside": (
        12, "{end: start}", "window",
        "f.yaml:12: frame bench port stay-front > on: a window was given, and the port joins outside and stay_left, two cavities in joins",
    ),
    "a hole between two tubes without its tube": (
        14, "on: window", "on: {from_end: 3, side: left}",
        "f.yaml:14: frame bench port window > on zone: nothing was given, down_tube or stay_right: the tube that it is told on",
    ),
    "a word that is no place": (
        14, "on: window", "on: windw",
        "f.yaml:14: frame bench port window > on: 'windw' was given, window, or a place such as {from_start: 35, side: left} is allowed",
    ),
    "a tube thinner than its bore": (
        5, "outer: 49.2", "outer: 45",
        "f.yaml:5: frame bench zone down_tube > outer: 45 mm was given, more than the bore, 46 mm, is allowed",
    ),
    "a tube in inches": (
        5, "outer: 49.2", "outer: 1.9",
        "f.yaml:5: frame bench zone down_tube > outer: 1.9 was given, 4 to 300 mm is allowed, or [across, up] for a tube that is not round",
    ),
    "the top of a tube across the bicycle": (
        5, "[40, 0, 55]", "[424, 400, 540]",
        "f.yaml:10: frame bench port neck-left > on side: 1: it runs across the bicycle by more than 0.9, `at` and `heading` by numbers",
    ),
}  # fmt: skip


@pytest.mark.parametrize("slip", WRONG.values(), ids=WRONG.keys())
def test_what_is_wrong_is_told_with_its_line(slip: tuple[int, str, str, str]) -> None:
    number, before, after, message = slip
    assert message in told(with_line(number, before, after))


def test_every_problem_is_told_at_once() -> None:
    text = (
        FRAME.replace("side: left", "side: inside").replace("end: start", "end: middle").replace("side: 9", "side: 13")
    )
    assert len(told(text)) == 3


def test_a_zone_without_a_path_places_no_hole() -> None:
    text = with_line(6, "path: [[-26, 42, 25], [-405, 66, 12]], ", "").replace(", on: window", "")
    assert told(text) == [
        f"f.yaml:{line}: frame bench port {port} > on zone: zone stay_left has no path, a path, or `geometry`"
        for line, port in ((FRONT, "stay-front"), (REAR, "stay-rear"))
    ]


def test_a_zone_cannot_ride_on_a_rear_that_is_not_there() -> None:
    assert told(FRAME.replace("    rear: {kind: single_pivot, pivot: [14, 60], swing: 17}\n", "")) == [
        "f.yaml:6: frame bench zone stay_left > moves_with: rear was given on a frame without one, rear: how it moves, or moves_with left out"
    ]
