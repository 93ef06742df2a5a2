"""Which way each size of a hole and of the things in it works on the room that is left."""

from dataclasses import replace

import numpy as np
import pytest

from planner.fit.clearance_model import SharedHole, _probes, find_clearance_model, model_of_hole
from planner.geometry.openings.opening_shape import see_opening, vary_opening
from planner.geometry.packing.one import find_largest_disc
from planner.geometry.packing.set_clearance import find_set_clearance
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
    assert set(np.abs(hole.helps).tolist()) == {1.0}
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


def hole_of_one(diameter_mm: float, tolerance_mm: float = 0.2) -> SharedHole:
    """A thing of 5.0 +- 0.05 in a round hole."""
    opening = RoundOpening(diameter_mm=diameter_mm, tolerance_mm=tolerance_mm)
    return SharedHole(opening=opening, tilt_deg=0.0, wall_thickness_mm=1.0, items=things(5.0))


@pytest.mark.parametrize(
    ("diameter_mm", "left_mm"),
    [
        (5.1, 0.0),  # one deviation of both together, sqrt(0.1^2 + 0.025^2) = 0.103: it is brought to nothing
        (4.9, 0.0),
        (5.5, 0.5 - 0.2062),  # further off than two deviations: two of them
        (4.5, -0.5 + 0.2062),
    ],
)
def test_the_likeliest_sizes_that_leave_nothing_are_looked_at_and_each_size_at_its_worse_side(
    diameter_mm: float, left_mm: float
) -> None:
    hole = hole_of_one(diameter_mm)
    base, slope = hole.line_through(np.zeros(2))
    likeliest, larger_hole, thicker_thing = _probes(hole, (base, slope))
    assert base + float(slope @ likeliest) == pytest.approx(left_mm, abs=1e-4)
    assert likeliest[0] / likeliest[1] == pytest.approx(-((0.1 / 0.025) ** 2))  # by the square of their deviations
    assert (larger_hole.tolist(), thicker_thing.tolist()) == ([-0.2, 0.0], [0.0, 0.05])


def test_what_is_far_from_nothing_is_not_looked_at_again_and_what_is_exact_not_on_its_own() -> None:
    """Twelve deviations of 0.1 are 1.2."""
    nothing = np.zeros(2)
    for diameter_mm, looked_at in ((6.21, 0), (6.19, 3), (3.79, 0), (3.81, 3)):
        hole = hole_of_one(diameter_mm)
        assert len(_probes(hole, hole.line_through(nothing))) == looked_at
    exact = hole_of_one(5.1, tolerance_mm=0.0)
    assert [probe.tolist() for probe in _probes(exact, exact.line_through(nothing))[1:]] == [[0.0, 0.05]]


def test_an_exact_hole_with_exact_things_has_one_line_of_no_slope_to_speak_of() -> None:
    square = OutlineOpening(points_mm=SQUARE, tolerance_mm=0.0)
    model = find_clearance_model(
        opening=square,
        tilt_deg=0.0,
        wall_thickness_mm=1.0,
        items=[replace(one, tolerance_mm=0.0) for one in things(4.0)],
    )
    assert model.at_nominal_mm.tolist() == pytest.approx([5.0])
    assert model.deviations_mm.tolist() == [0.0, 0.0]


def test_a_second_limit_beside_the_first_has_a_line_of_its_own() -> None:
    """A thing of 5.0 in a slot 20 x 5.2 is held by its width; two of them in one of 10.4 x 5.2 by both ways."""

    def lines(length_mm: float, *sizes_mm: float) -> list[list[float]]:
        slot = SlotOpening(length_mm=length_mm, width_mm=5.2, tolerance_mm=0.2)
        hole = SharedHole(opening=slot, tilt_deg=0.0, wall_thickness_mm=1.0, items=things(*sizes_mm))
        return [[round(value, 3) for value in row] for row in model_of_hole(hole).slopes.tolist()]

    assert lines(20.0, 5.0) == [[0.0, 1.0, -1.0]]
    both = lines(10.4, 5.0, 5.0)
    assert [0.5, 0.0, -0.5, -0.5] in both
    assert any(row[:2] == [0.0, 1.0] for row in both)


def test_finding_a_model_asks_for_no_proof() -> None:
    """Three things that do not go in: a proof of that costs more than all of the model."""
    box = BoxOpening(length_mm=10.4, width_mm=7.6, corner_radius_mm=1.0, tolerance_mm=0.1)
    place = {"opening": box, "tilt_deg": 0.0, "wall_thickness_mm": 1.0}
    hole = SharedHole(items=things(5.0, 4.6, 4.0), **place)  # type: ignore[arg-type]
    seen = hole.clearance_at(np.zeros(len(hole.helps)))
    proven = find_set_clearance(diameters_mm=(5.0, 4.6, 4.0), **place)  # type: ignore[arg-type]
    assert seen.clearance_mm == proven.clearance_mm
    assert seen.work_rows < proven.work_rows
    assert model_of_hole(hole).work_rows >= 2 * seen.work_rows
