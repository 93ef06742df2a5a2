"""Which way each size of a hole and of the things in it works on the room that is left."""

from dataclasses import replace

import numpy as np
import pytest

from planner.fit.clearance_model import SharedHole, model_of_hole
from planner.geometry.openings.opening_shape import see_opening, vary_opening
from planner.geometry.packing.one import find_largest_disc
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


@pytest.mark.parametrize(
    "sizes",
    [(5.5, 5.5, 5.3, 5.0, 5.0, 5.0, 1.2), (5.5, 5.5, 5.5, 5.5, 0.2), (8.0, 1.0)],
    ids=["thin one left outside", "five", "two"],
)
def test_things_that_lack_so_much_that_thin_ones_are_less_than_nothing_have_slopes_all_the_same(
    sizes: tuple[float, ...],
) -> None:
    """What misses more than a thin thing's whole diameter may leave it behind the edge, or in a heap with others."""
    triangle = OutlineOpening(points_mm=((2.96, 0.0), (-1.82, 3.15), (-2.98, -5.16)), tolerance_mm=0.1)
    hole = SharedHole(opening=triangle, tilt_deg=0.0, wall_thickness_mm=1.0, items=things(*sizes))
    nothing = np.zeros(len(hole.helps))
    found, (_, slope) = hole.clearance_at(nothing).clearance_mm, hole.line_through(nothing)
    assert found is not None
    assert found < -min(sizes)
    assert (slope * hole.helps >= 0).all()
    assert np.abs(slope).max() > 0.1


def test_the_tip_of_a_dent_takes_more_room_than_the_edge_moves() -> None:
    """A spike of 30 degrees reaches into a square: its tip moves by 1 / sin 15 deg = 3.86 of what its sides move."""
    spike = ((-5.0, -5.0), (5.0, -5.0), (5.0, 5.0), (1.072, 5.0), (0.0, 1.0), (-1.072, 5.0), (-5.0, 5.0))
    opening = OutlineOpening(points_mm=spike, tolerance_mm=0.1)
    hole = SharedHole(opening=opening, tilt_deg=0.0, wall_thickness_mm=1.0, items=things(6.0))
    discs_mm = [
        find_largest_disc(
            see_opening(
                opening=vary_opening(opening=opening, changes_mm={"edge": -edge_mm}), tilt_deg=0, wall_thickness_mm=1
            )
        ).diameter_mm
        for edge_mm in (0.0, 0.025)
    ]
    per_mm = (discs_mm[0] - discs_mm[1]) / 0.025
    assert per_mm > 3
    assert model_of_hole(hole).slopes[0].tolist() == pytest.approx([per_mm, -1.0], rel=0.01)
