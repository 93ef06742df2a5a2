import csv
from itertools import pairwise
from math import asin, cos, dist, hypot, pi, sin
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.errors import ImpossibleDimensionError
from planner.geometry.curves.hose_lengths import find_hose_ranges
from planner.geometry.curves.legs import Posture, find_leg_ranges
from planner.geometry.motion.frame_axes import Curve, Pose3, unit_vector
from planner.parts import Point
from tests.planner.geometry.elastica_oracle import solve_elastica
from tests.planner.geometry.hose_samples import (
    hose_between,
    hose_of_length,
    relaxed_curve,
    shortest_bend_limited_curve,
    still_leg,
)

ROWS = list(csv.DictReader((Path(__file__).parents[2] / "published_values/elastica.csv").open(encoding="utf-8")))

CLAMPED: dict[str, tuple[Point, Point, Point, Point]] = {
    "S in the plane": ((0, 0, 0), (1, 0, 0), (200, 60, 0), (1, 0, 0)),
    "quarter bend in the plane": ((0, 0, 0), (1, 0, 0), (120, 120, 0), (0, 1, 0)),
    "U in the plane": ((0, 0, 0), (1, 0, 0), (0, 150, 0), (-1, 0, 0)),
    "long shallow bend in the plane": ((0, 0, 0), (1, 0.3, 0), (450, -40, 0), (1, 0.1, 0)),
    "sharp ends in the plane": ((0, 0, 0), (0, 1, 0), (300, 0, 0), (0, 1, 0)),
    "from the bar to the down tube": ((470, -210, 690), (0.5, 0.85, 0.1), (416, 24, 520), (-0.48, -0.643, -0.6)),
    "under the bottom bracket": ((58, 20, 96), (-0.62, 0.1, -0.78), (-26, 40, 27), (-0.998, 0.064, -0.048)),
    "down a tube": ((416, 24, 520), (-0.48, -0.643, -0.6), (58, 20, 96), (-0.62, 0.1, -0.78)),
    "loop to a caliper": ((-392, 64, 10), (-0.998, 0.064, -0.048), (-420, 78, 48), (-0.9, 0.1, 0.42)),
    "three ways square to each other": ((0, 0, 0), (1, 0, 0), (150, 100, 120), (0, 0, 1)),
}
RADIUS_MM = 37.5


def ends_of(case: str) -> tuple[Pose3, Pose3]:
    a, first, b, last = CLAMPED[case]
    return Pose3(position_mm=a, heading=first), Pose3(position_mm=b, heading=last)


def shortest_shape(case: str) -> Curve:
    return relaxed_curve(*ends_of(case), radius_mm=RADIUS_MM)


@pytest.mark.parametrize("case", CLAMPED)
def test_shape_and_length_agree_with_a_boundary_value_solver(case: str) -> None:
    shape, (start, end) = shortest_shape(case), ends_of(case)
    clamps = (start.position_mm, unit_vector(start.heading)), (end.position_mm, unit_vector(end.heading))
    drawn = np.array(shape.points_mm)
    exact = solve_elastica(*clamps, shape.length_mm, drawn)
    assert exact.sharpest_per_mm * RADIUS_MM == pytest.approx(1, rel=2e-3)
    assert shape.tightest_radius_mm == pytest.approx(1 / exact.sharpest_per_mm, rel=3e-3)
    longer = solve_elastica(*clamps, shape.length_mm * 1.001, exact.points_mm[::10])
    per_mm = (longer.sharpest_per_mm - exact.sharpest_per_mm) / (0.001 * shape.length_mm)
    off_mm = (1 / RADIUS_MM - exact.sharpest_per_mm) / per_mm
    assert abs(off_mm) < 2e-3 * shape.length_mm
    away_mm = np.linalg.norm(drawn[:, None] - exact.points_mm[None], axis=2).min(axis=1)
    assert away_mm.max() < 2e-3 * shape.length_mm


@pytest.mark.parametrize("case", CLAMPED)
def test_relaxed_hose_is_never_shorter_than_the_shortest_curve(case: str) -> None:
    start, end = ends_of(case)
    shortest = shortest_bend_limited_curve(start=start, end=end, centreline_radius_mm=RADIUS_MM)
    shape = shortest_shape(case)
    assert shape.length_mm >= shortest.length_mm
    assert shape.tightest_radius_mm is not None
    assert RADIUS_MM <= shape.tightest_radius_mm < RADIUS_MM * 1.001
    assert dist(shape.points_mm[-1], end.position_mm) == 0
    drawn_mm = sum(dist(a, b) for a, b in pairwise(shape.points_mm))
    assert drawn_mm == pytest.approx(shape.length_mm, rel=5e-3)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["case"])
def test_rectangular_elastica_has_its_ratio_and_its_curvature(row: dict[str, str]) -> None:
    """x from 0 to 1 under dy/dx = x^2 / sqrt(1 - x^4): no bend at its start, curvature 2 at its end."""
    arc_mm, height_mm = float(row["arc_mm"]), float(row["height_mm"])
    start = Pose3(position_mm=(0, 0, 0), heading=(1, 0, 0))
    end = Pose3(position_mm=(float(row["width_mm"]), height_mm, 0), heading=(0, 1, 0))
    bend_mm = float(row["expected_tightest_mm"])
    places_mm, tightest_mm = hose_of_length(start, end, radius_mm=bend_mm, length_mm=arc_mm)
    assert tightest_mm == pytest.approx(bend_mm, rel=2e-3)
    shortest = relaxed_curve(start, end, radius_mm=bend_mm).length_mm
    assert shortest / height_mm == pytest.approx(float(row["expected_ratio"]), rel=2e-3)
    for a, b in pairwise(places_mm):
        x = (a[0] + b[0]) / 2 / 100
        if 0.2 < x < 0.9:  # curvature is 2x, so sin(heading) = x^2
            assert (b[1] - a[1]) / hypot(b[0] - a[0], b[1] - a[1]) == pytest.approx(x * x, abs=4e-3)


def test_straight_leg_relaxes_to_the_straight_line() -> None:
    ends = (Pose3(position_mm=(0, 0, 0), heading=(1, 0, 0)), Pose3(position_mm=(300, 0, 0), heading=(2, 0, 0)))
    shape = relaxed_curve(*ends, radius_mm=40)
    assert (shape.length_mm, shape.tightest_radius_mm) == (300, None)


def test_one_arc_of_the_bend_radius_is_relaxed_already() -> None:
    half = asin(0.5)
    start = Pose3(position_mm=(0, 0, 0), heading=(cos(half), sin(half), 0))
    end = Pose3(position_mm=(40, 0, 0), heading=(cos(half), -sin(half), 0))
    assert relaxed_curve(start, end, radius_mm=40).length_mm == pytest.approx(80 * half, rel=1e-3)


def test_hose_with_slack_between_straight_clamps_buckles() -> None:
    start, end = Pose3(position_mm=(0, 0, 0), heading=(1, 0, 0)), Pose3(position_mm=(300, 0, 0), heading=(1, 0, 0))
    places_mm, _ = hose_of_length(start, end, radius_mm=40, length_mm=306)
    # a clamped strut's first buckle: w = a/2 (1 - cos 2 pi x / L), slack = (pi a)^2 / 4 L, to the second order
    rise_mm = max(hypot(y, z) for _, y, z in places_mm)
    assert rise_mm == pytest.approx(2 * (6 * 300) ** 0.5 / pi, rel=0.03)


def test_longer_hose_bends_more_gently() -> None:
    start, end = ends_of("from the bar to the down tube")
    _, tightest_mm = hose_of_length(start, end, radius_mm=37.5, length_mm=420)
    assert tightest_mm > 37.5


def test_many_at_once_are_as_each_alone() -> None:
    motions = [still_leg(*ends_of(case)) for case in CLAMPED]
    together = find_hose_ranges(find_leg_ranges(motions=motions, centreline_radius_mm=RADIUS_MM))
    for case, hose in zip(CLAMPED, together, strict=True):
        assert hose.longest_mm == pytest.approx(shortest_shape(case).length_mm, rel=3e-4)
        assert hose.one_length is None
    assert find_hose_ranges(()) == ()


headings = st.tuples(*[st.floats(-1, 1)] * 3).filter(lambda v: hypot(*v) > 0.1)
places = st.tuples(*[st.floats(-400, 400)] * 3).filter(lambda p: hypot(*p) > 200)


@settings(max_examples=25, deadline=None)
@given(headings, places, headings)
def test_any_leg_of_some_length_relaxes_within_its_bend_radius(first: Point, goal: Point, last: Point) -> None:
    start, end = Pose3(position_mm=(0, 0, 0), heading=first), Pose3(position_mm=goal, heading=last)
    hose = hose_between(start, end, radius_mm=40)
    least_mm = shortest_bend_limited_curve(start=start, end=end, centreline_radius_mm=40).length_mm
    assert hose.longest_mm >= least_mm * (1 - 1e-12)
    if hose.rest is None:
        assert hose.estimated == (Posture(),)
        assert hose.longest_mm >= least_mm + 5 * 40
    else:
        assert hose.rest.tightest_radius_mm is None or hose.rest.tightest_radius_mm >= 40


def test_no_random_leg_with_a_plain_curve_is_left_without_a_shape() -> None:
    chance = np.random.default_rng(4)
    ends = []
    for _ in range(200):
        goal, first, last = (tuple(float(x) for x in v / np.linalg.norm(v)) for v in chance.normal(size=(3, 3)))
        far_mm = chance.uniform(80, 500)
        goal = tuple(far_mm * x for x in goal)
        ends.append((Pose3(position_mm=(0, 0, 0), heading=first), Pose3(position_mm=goal, heading=last)))
    ranges = find_leg_ranges(motions=[still_leg(*both) for both in ends], centreline_radius_mm=40)
    plain = [one for one in ranges if one.curves.is_only_plain[0]]
    assert len(plain) > 120
    assert [hose for hose in find_hose_ranges(plain) if hose.estimated] == []


def test_bend_radius_of_nothing_is_refused() -> None:
    with pytest.raises(ImpossibleDimensionError, match="centreline_radius_mm: 0 mm was given; it must be above zero"):
        hose_between(*ends_of("S in the plane"), radius_mm=0)


@pytest.mark.parametrize("aside_mm", [0.05, 0.2, 0.5, 1.0, 1.5, 2.1, 2.6, 5.0, 30.0])
def test_a_full_loop_springs_out_of_its_plane_however_little_its_clamps_lie_aside(aside_mm: float) -> None:
    """A flat full loop between clamps in line is not at rest in space; stood up it asks for little over its circle."""
    start = Pose3(position_mm=(0, 0, 0), heading=(1, 0, 0))
    end = Pose3(position_mm=(0, aside_mm, 0), heading=(1, 0, 0))
    hose = hose_between(start, end, radius_mm=40)
    assert hose.estimated == ()
    assert hose.rest is not None
    assert 2 * pi * 40 <= hose.longest_mm < 2 * pi * 40 + aside_mm + 0.1
    assert max(abs(z) for _, _, z in hose.rest.points_mm) > 20
