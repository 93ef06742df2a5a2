"""Tilt and wall told as ranges: how many of seven even readings change the outcome, counted by hand.

Two things of 5.9 lie in a row in a slot of 18, whose length at a tilt t is 18 cos t - wall sin t: 11.8 lets them
through, 12.2 leaves 0.2 between them. With a wall of 1.6 that is 44.15 and 42.46 degrees.
"""

import pytest

from planner.fit.hole_fit import check_things_in_room
from planner.fit.measure_lean import LeanReading, find_lean_readings
from planner.parts import SlotOpening
from planner.rules import PlaceRule
from planner.verdicts import Outcome, Room, Thing, ThingKind

THINGS = tuple(Thing(id=name, kind=ThingKind.LINE, diameter_mm=5.9, tolerance_mm=0.0) for name in ("hose", "wire"))


def room(*, tilt_deg: float = 41.0, off_deg: float = 0.0, wall_off_mm: float = 0.0) -> Room:
    return Room(
        opening=SlotOpening(length_mm=18, width_mm=7, tolerance_mm=0.0),
        tilt_deg=tilt_deg,
        tilt_tolerance_deg=off_deg,
        wall_thickness_mm=1.6,
        wall_tolerance_mm=wall_off_mm,
    )


def readings(seen: Room) -> tuple[Outcome, list[LeanReading]]:
    """The outcome as it stands, and what measuring would tell."""
    asked = {"things": THINGS, "running_clearance_mm": 0.2}
    outcome = check_things_in_room(rule=PlaceRule.PORT_CLEARANCE, room=seen, **asked).outcome  # type: ignore[arg-type]
    return outcome, list(find_lean_readings(room=seen, outcome=outcome, **asked))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("tilt_deg", "off_deg", "outcome", "changes"),
    [
        (40.0, 3.0, Outcome.TIGHT, 6),  # read 37.43 ... 42.57: all but the last leave 0.2
        (41.0, 3.0, Outcome.TIGHT, 5),  # read 38.43 ... 43.57: the last two do not
        (43.0, 5.0, Outcome.TIGHT, 6),  # three leave 0.2, one is tight, three do not pass
        (45.0, 5.0, Outcome.UNKNOWN, 7),  # whatever is read, it is known then
        (20.0, 5.0, Outcome.FITS, 0),
    ],
)
def test_a_range_of_tilt_is_read_evenly_over_it(
    tilt_deg: float, off_deg: float, outcome: Outcome, changes: int
) -> None:
    stands, (one,) = readings(room(tilt_deg=tilt_deg, off_deg=off_deg))
    assert stands is outcome
    assert (one.what, one.unit) == ("tilt", "°")
    assert (one.low, one.high) == pytest.approx((tilt_deg - off_deg, tilt_deg + off_deg))
    assert one.changes_ratio == pytest.approx(changes / 7)


def test_a_range_of_wall_is_read_evenly_over_it() -> None:
    """At 41 degrees 18 cos t is 13.585 and a wall of 2.11 leaves 0.2, one of 2.72 none: of 0.4, 0.8 ... 2.8 five are
    fine, the next is tight and the last a no."""
    stands, (one,) = readings(room(wall_off_mm=1.4))
    assert stands is Outcome.TIGHT
    assert (one.what, one.unit) == ("wall", " mm")
    assert (one.low, one.high) == pytest.approx((0.2, 3.0))
    assert one.changes_ratio == pytest.approx(6 / 7)


def test_what_was_told_as_one_figure_is_not_read_again() -> None:
    assert readings(room())[1] == []
    assert [one.what for one in readings(room(off_deg=1.0, wall_off_mm=0.1))[1]] == ["tilt", "wall"]
