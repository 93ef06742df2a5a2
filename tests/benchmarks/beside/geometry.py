"""Packings beside a plain search from many starts; stiff pieces through walls beside all poses of a grid."""

from functools import partial

import numpy as np

from planner.geometry.openings.opening_shape import SeenArcs, see_opening
from planner.geometry.packing.search import find_placement
from planner.geometry.rigid.wall_motion import find_longest_through_wall_mm, find_motion_through_wall
from tests.benchmarks.beside.measured import Measured, Stopwatch
from tests.benchmarks.beside.plain_packing import PLAIN_STARTS, plain_search, random_case
from tests.planner.geometry.test_wall_on_a_grid import passes

GRID_STEP_MM = 0.5
CLEAR_OF_THE_LIMIT = 0.75
ABOVE_THE_LIMIT = 1.02


def packings(*, cases_n: int) -> Measured:
    """By turns, so that both meet the machine alike; where the plain search places everything, so does ours."""
    mine, theirs = Stopwatch(), Stopwatch()
    find_placement.cache_clear()
    better = worse = 0
    for seed in range(cases_n):
        opening, tilt_deg, wall_mm, sizes = random_case(seed)
        seen = see_opening(opening=opening, tilt_deg=tilt_deg, wall_thickness_mm=wall_mm)
        assert isinstance(seen, SeenArcs)
        plain_mm = theirs.time(partial(plain_search, seen, sizes, seed=seed))
        ours_mm = mine.time(partial(find_placement, seen, sizes)).growth_mm
        assert not plain_mm >= 0 > ours_mm, seed
        better += ours_mm > plain_mm + 1e-4
        worse += ours_mm < plain_mm - 1e-4
    return Measured(
        name="packing",
        work=f"{cases_n} openings all but full with 3 to 6 things; ours roomier in {better}, tighter in {worse}",
        ours_s=mine.seconds,
        beside=f"SLSQP from {PLAIN_STARTS} starts",
        beside_s=theirs.seconds,
        aim="20",
    )


def walls(*, cases_n: int) -> Measured:
    """A piece clear of the limit passes by both, one above it by neither."""
    mine, theirs = Stopwatch(), Stopwatch()
    draw = np.random.default_rng(3)
    for seed in range(cases_n):
        diameter, wall = float(draw.uniform(3, 6)), float(draw.uniform(0.8, 3))
        gap, corridor = diameter * float(draw.uniform(1.4, 2.4)), diameter * float(draw.uniform(1.5, 3))
        limit = find_longest_through_wall_mm(
            piece_diameter_mm=diameter, opening_length_mm=gap, wall_thickness_mm=wall, corridor_mm=corridor
        ).upper_mm
        for share, is_through in ((CLEAR_OF_THE_LIMIT, True), (ABOVE_THE_LIMIT, False)):
            length = share * limit
            ask = partial(
                find_motion_through_wall,
                piece_length_mm=length,
                piece_diameter_mm=diameter,
                opening_length_mm=gap,
                wall_thickness_mm=wall,
                corridor_mm=corridor,
            )
            find_motion_through_wall.cache_clear()
            told = mine.time(ask).passes
            by_grid = theirs.time(partial(passes, length, diameter, gap, wall, corridor, step=GRID_STEP_MM))
            assert told is by_grid is is_through, (seed, share)
    work = f"{2 * cases_n} pieces at a hole in a tube's wall, {cases_n} pass"
    beside = f"all poses at {GRID_STEP_MM} mm and {2 * GRID_STEP_MM:g} deg"
    return Measured(name="walls", work=work, ours_s=mine.seconds, beside=beside, beside_s=theirs.seconds)
