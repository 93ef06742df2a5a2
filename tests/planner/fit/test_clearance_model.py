"""Which way each size of a hole and of the things in it works on the room that is left."""

from dataclasses import replace

import numpy as np
import pytest

from planner.fit.clearance_model import SharedHole, model_of_hole
from planner.parts import BoxOpening, Opening, OutlineOpening, OvalOpening, RoundOpening, SlotOpening
from planner.verdicts import Thing, ThingKind

SQUARE = ((0.0, 0.0), (9.0, 0.0), (9.0, 9.0), (0.0, 9.0))
OPENINGS: tuple[Opening, ...] = (
    RoundOpening(diameter_mm=9.0, tolerance_mm=0.1),
    SlotOpening(length_mm=12.0, width_mm=5.2, tolerance_mm=0.1),
    OvalOpening(length_mm=11.0, width_mm=6.0, tolerance_mm=0.1),
    BoxOpening(length_mm=9.0, width_mm=6.0, corner_radius_mm=2.0, tolerance_mm=0.1),
    OutlineOpening(points_mm=SQUARE, tolerance_mm=0.1),
)


def things(*diameters_mm: float) -> tuple[Thing, ...]:
    return tuple(
        Thing(id=f"t{n}", kind=ThingKind.LINE, diameter_mm=size, tolerance_mm=0.05)
        for n, size in enumerate(diameters_mm)
    )


@pytest.mark.parametrize("opening", OPENINGS, ids=lambda one: type(one).__name__)
@pytest.mark.parametrize("sizes", [(4.0,), (4.0, 3.0)], ids=["one", "two"])
def test_a_size_is_told_to_give_room_where_growing_it_does_and_to_take_it_where_that_does(
    opening: Opening, sizes: tuple[float, ...]
) -> None:
    hole = SharedHole(opening=opening, tilt_deg=0.0, wall_thickness_mm=1.0, items=things(*sizes))
    assert len(hole.names) == len(hole.helps) == len(hole.deviations_mm)
    for index, sign in enumerate(hole.helps):
        step = np.zeros(len(hole.helps))
        step[index] = 0.05
        more, less = (hole.clearance_at(way * step).clearance_mm for way in (1.0, -1.0))
        assert more is not None
        assert less is not None
        assert sign * (more - less) >= -1e-6, hole.names[index]


def test_a_rounder_corner_takes_room_from_things_in_corners() -> None:
    """Two of 3 in a box 6 x 6 lie in opposite corners, whose radius is larger than theirs."""
    box = BoxOpening(length_mm=6.0, width_mm=6.0, corner_radius_mm=2.5, tolerance_mm=0.1)
    hole = SharedHole(opening=box, tilt_deg=0.0, wall_thickness_mm=1.0, items=things(3.0, 3.0))
    rounder = replace(hole, opening=replace(box, corner_radius_mm=2.9))
    nothing = np.zeros(len(hole.helps))
    sharp_mm, round_mm = hole.clearance_at(nothing).clearance_mm, rounder.clearance_at(nothing).clearance_mm
    assert sharp_mm is not None
    assert round_mm is not None
    assert round_mm < sharp_mm
    model = model_of_hole(hole)
    assert model.slopes[0][hole.names.index("opening corner radius")] < 0
