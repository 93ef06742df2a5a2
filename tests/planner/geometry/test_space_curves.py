import csv
from itertools import pairwise
from math import asin, cos, dist, hypot, pi, radians, sin, sqrt
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.errors import ImpossibleDimensionError
from planner.geometry.curves.all_arc_straight_arcs import find_arc_straight_arcs
from planner.geometry.curves.arc_straight_arc import find_plain_curves
from planner.geometry.curves.bends import turn_between_deg
from planner.geometry.curves.planar_dubins import find_dubins_paths
from planner.geometry.curves.pose_pairs import PosePairs, rows_of
from planner.geometry.curves.space_curves import find_shortest_curves
from planner.geometry.motion.frame_axes import Curve, Pose3, opposite
from planner.parts import Point
from tests.planner.geometry.brute_force_curves import brute_force_lengths, random_poses
from tests.planner.geometry.hose_samples import shortest_bend_limited_curve

PUBLISHED = Path(__file__).parents[2] / "published_values"
DUBINS = list(csv.DictReader((PUBLISHED / "dubins.csv").open(encoding="utf-8")))
ARCS = list(csv.DictReader((PUBLISHED / "arc_chord.csv").open(encoding="utf-8")))
BRUTE = list(csv.DictReader((PUBLISHED / "arc_straight_arc_brute_force.csv").open(encoding="utf-8")))


def curve_between(start: tuple[Point, Point], end: tuple[Point, Point], radius_mm: float) -> Curve:
    return shortest_bend_limited_curve(
        start=Pose3(position_mm=start[0], heading=start[1]),
        end=Pose3(position_mm=end[0], heading=end[1]),
        centreline_radius_mm=radius_mm,
    )


def flat(x: float, y: float, heading_rad: float) -> tuple[Point, Point]:
    return (x, y, 0.0), (cos(heading_rad), sin(heading_rad), 0.0)


def numbers(row: dict[str, str], what: str) -> Point:
    x, y, z = (float(value) for key, value in row.items() if key.startswith(what))
    return x, y, z


def random_pairs(count: int, *, seed: int, farthest: float = 8.0) -> PosePairs:
    goals, starts, ends = random_poses(count, seed=seed)
    return PosePairs(ways=goals * farthest / 8, starts=starts, ends=ends)


def test_a_thousand_random_pairs_are_never_longer_than_brute_force_found_them() -> None:
    rows = [[numbers(row, what) for what in ("goal", "start_heading", "end_heading")] for row in BRUTE]
    goals, starts, ends = np.array(rows).transpose(1, 0, 2)
    radii_mm = np.array([float(row["radius_mm"]) for row in BRUTE])
    expected = np.array([float(row["expected_mm"]) for row in BRUTE]) / radii_mm
    pairs = PosePairs(ways=goals / radii_mm[:, None], starts=starts, ends=ends)
    best = np.full(len(BRUTE), np.inf)
    curves, of = find_arc_straight_arcs(pairs)
    np.minimum.at(best, of, curves.lengths)
    assert np.abs(best - expected).max() < 1e-7
    found = find_shortest_curves(rows_of(pairs, range(200)))
    over = found.chains.lengths - expected[:200]
    assert over.max() < 1e-7
    assert 0 < (over < -1e-7).sum() < 60  # those where arcs alone beat every curve with a straight
    assert not (found.is_only_plain & (over < -1e-7)).any()


def test_turning_space_or_walking_back_changes_no_length() -> None:
    pairs = random_pairs(60, seed=8, farthest=5.0)
    turn = np.linalg.qr(np.random.default_rng(3).normal(size=(3, 3)))[0]
    told = find_shortest_curves(pairs)
    turned = find_shortest_curves(PosePairs(ways=pairs.ways @ turn, starts=pairs.starts @ turn, ends=pairs.ends @ turn))
    back = find_shortest_curves(PosePairs(ways=-pairs.ways, starts=-pairs.ends, ends=-pairs.starts))
    assert 0.2 < told.is_only_plain.mean() < 0.8
    for other in (turned, back):
        assert np.abs(other.chains.lengths - told.chains.lengths).max() < 1e-6
        assert (other.is_only_plain == told.is_only_plain).all()


def test_a_plain_curve_is_the_only_one_and_nothing_found_is_shorter() -> None:
    pairs = random_pairs(3000, seed=21)
    curves, of = find_arc_straight_arcs(pairs)
    best = np.full(len(pairs), np.inf)
    np.minimum.at(best, of, curves.lengths)
    plain, plain_of = curves.lengths[curves.is_plain], of[curves.is_plain]
    assert np.abs(plain - best[plain_of]).max() < 1e-9
    quick = find_plain_curves(pairs)
    assert (quick.is_plain <= np.isin(np.arange(len(pairs)), plain_of)).all()


def test_length_goes_on_without_a_jump_while_a_plain_curve_exists_and_just_beyond_its_edge() -> None:
    """A step of the end by d and of its heading by e changes a plain curve by no more than d + 2 R e."""
    pairs = random_pairs(30, seed=5, farthest=6.0)
    sizes = np.linspace(1.2, 0.3, 91)
    jumps_at_edges = []
    for row in range(len(pairs)):
        sweep = PosePairs(
            ways=pairs.ways[row] * sizes[:, None],
            starts=np.repeat(pairs.starts[row : row + 1], len(sizes), axis=0),
            ends=np.repeat(pairs.ends[row : row + 1], len(sizes), axis=0),
        )
        quick = find_plain_curves(sweep)
        steps = np.abs(np.diff(np.where(quick.is_plain, quick.lengths, 0.0)))
        both = quick.is_plain[1:] & quick.is_plain[:-1]
        moved = np.linalg.norm(np.diff(sweep.ways, axis=0), axis=1)
        assert (steps[both] <= moved[both] + 1e-9).all()
        if quick.is_plain.all() or not quick.is_plain[0]:
            continue
        edge = int(np.flatnonzero(~quick.is_plain)[0])
        at_edge = rows_of(sweep, np.arange(edge - 1, edge + 1))
        jumps_at_edges.append(float(np.abs(np.diff(find_shortest_curves(at_edge).chains.lengths))[0]))
    assert len(jumps_at_edges) == 15
    assert sum(jump < 0.05 for jump in jumps_at_edges) >= 13


def test_brute_force_finds_again_what_is_written_down() -> None:
    goals, starts, ends = random_poses(1000)
    lengths_mm = brute_force_lengths(goals[:8], starts[:8], ends[:8], seed=99) * 40
    assert lengths_mm == pytest.approx([float(row["expected_mm"]) for row in BRUTE[:8]], abs=1e-6)


@pytest.mark.parametrize("row", DUBINS, ids=lambda row: row["case"])
def test_flat_poses_take_the_dubins_path_or_less(row: dict[str, str]) -> None:
    start, end = (
        flat(*(float(row[f"{where}_{what}"]) for what in ("x_mm", "y_mm", "heading_rad"))) for where in ("start", "end")
    )
    curve = curve_between(start, end, float(row["radius_mm"]))
    assert curve.length_mm <= float(row["expected_mm"]) + float(row["tolerance_mm"])


@settings(max_examples=100, deadline=None)
@given(st.floats(-6, 6), st.floats(-6, 6), st.floats(0, 2 * pi), st.floats(0, 2 * pi))
def test_flat_poses_equal_the_six_words_where_no_arc_passes_half_a_circle(
    x: float, y: float, first_rad: float, last_rad: float
) -> None:
    """Beyond half a circle, a curve that leaves the plane is often shorter: the flat path is then only a bound."""
    best = find_dubins_paths(
        start_mm=(0, 0),
        start_heading_deg=first_rad * 180 / pi,
        end_mm=(x, y),
        end_heading_deg=last_rad * 180 / pi,
        radius_mm=1.0,
    )[0]
    curve = curve_between(flat(0, 0, first_rad), flat(x, y, last_rad), 1.0)
    assert curve.length_mm <= best.length_mm + 1e-9
    arcs = [size for letter, size in zip(best.word, best.pieces_mm, strict=True) if letter != "S"]
    if max(arcs) < pi - 1e-6 and best.word[1] == "S":
        assert curve.length_mm == pytest.approx(best.length_mm, abs=1e-9)


def test_leaving_the_plane_can_be_shorter_than_the_best_flat_path() -> None:
    start, end = flat(0, 0, 0), flat(0.4, -2.0, 1.0)
    best = find_dubins_paths(
        start_mm=(0, 0), start_heading_deg=0, end_mm=(0.4, -2.0), end_heading_deg=180 / pi, radius_mm=1.0
    )[0]
    curve = curve_between(start, end, 1.0)
    assert curve.length_mm < best.length_mm - 0.1
    assert max(abs(point[2]) for point in curve.points_mm) > 0.1


@pytest.mark.parametrize("row", ARCS, ids=lambda row: row["case"])
def test_ends_of_one_arc_give_that_arc(row: dict[str, str]) -> None:
    radius_mm, chord_mm = float(row["radius_mm"]), float(row["chord_mm"])
    half = asin(chord_mm / 2 / radius_mm)
    curve = curve_between(flat(0, 0, half), flat(chord_mm, 0, -half), radius_mm)
    tolerance_mm = float(row["tolerance_mm"])
    assert curve.length_mm == pytest.approx(float(row["expected_arc_mm"]), abs=tolerance_mm)
    sagitta_mm = radius_mm - sqrt(radius_mm**2 - chord_mm**2 / 4)
    assert sagitta_mm == pytest.approx(float(row["expected_sagitta_mm"]), abs=tolerance_mm)
    assert max(point[1] for point in curve.points_mm) <= sagitta_mm + 1e-9


def test_straight_on_is_straight_and_proven() -> None:
    curve = curve_between(((1, 2, 3), (0, 0, 2)), ((1, 2, 103), (0, 0, 9)), 37.5)
    assert (curve.length_mm, curve.tightest_radius_mm, curve.shape, curve.is_proven_shortest) == (100, None, "S", True)
    bent = curve_between(((1, 2, 3), (0, 0, 2)), ((1, 2.001, 103), (0, 0, 9)), 37.5)
    assert bent.tightest_radius_mm == 37.5
    assert bent.is_proven_shortest is False
    assert bent.length_mm == pytest.approx(100, abs=1e-3)


def test_turning_back_on_the_spot_in_space() -> None:
    curve = curve_between(((0, 0, 0), (1, 0, 0)), ((0, 0, 0), (-1, 0, 0)), 10)
    assert curve.length_mm <= 70 * pi / 3 + 1e-9
    assert curve.shape == "CCC"


def test_straight_back_by_four_radii_takes_two_half_circles() -> None:
    curve = curve_between(((0, 0, 0), (1, 0, 0)), ((-40, 0, 0), (1, 0, 0)), 10)
    assert curve.length_mm <= 20 * pi + 40 + 1e-9


headings = st.tuples(*[st.floats(-1, 1)] * 3).filter(lambda v: hypot(*v) > 0.1)
places = st.tuples(*[st.floats(-300, 300)] * 3)


@settings(max_examples=60, deadline=None)
@given(headings, places, headings)
def test_the_drawn_curve_leaves_arrives_and_bends_as_told(first: Point, goal: Point, last: Point) -> None:
    curve = curve_between(((0, 0, 0), first), (goal, last), 40)
    assert dist(curve.points_mm[0], (0, 0, 0)) == 0
    assert dist(curve.points_mm[-1], goal) < 1e-4
    strokes = [
        tuple(b - a for a, b in zip(p, q, strict=True)) for p, q in pairwise(curve.points_mm) if dist(p, q) > 1e-6
    ]
    drawn_mm = sum(hypot(*stroke) for stroke in strokes)
    assert drawn_mm <= curve.length_mm + 1e-6
    assert drawn_mm == pytest.approx(curve.length_mm, rel=2e-3, abs=1e-6)
    if strokes:
        assert turn_between_deg(first=first, second=strokes[0]) < 2.6
        assert turn_between_deg(first=strokes[-1], second=last) < 2.6
        assert all(turn_between_deg(first=a, second=b) < 5.1 for a, b in pairwise(strokes))
    assert curve.length_mm >= dist((0, 0, 0), goal) - 1e-9


@settings(max_examples=60, deadline=None)
@given(headings, places.filter(lambda p: hypot(*p) > 160), headings)
def test_the_way_back_is_as_long_and_a_turned_frame_changes_nothing(first: Point, goal: Point, last: Point) -> None:
    there = curve_between(((0, 0, 0), first), (goal, last), 40).length_mm
    back = curve_between((goal, opposite(last)), ((0, 0, 0), opposite(first)), 40).length_mm
    assert back == pytest.approx(there, abs=1e-6)
    turned = [(v[2], v[0], v[1]) for v in (first, goal, last)]
    moved = curve_between(((0, 0, 0), turned[0]), (turned[1], turned[2]), 40).length_mm
    assert moved == pytest.approx(there, abs=1e-6)


@settings(max_examples=60, deadline=None)
@given(headings, places.filter(lambda p: hypot(*p) > 160), headings, st.floats(20, 39))
def test_a_tighter_bend_allowed_never_makes_a_leg_longer(first: Point, goal: Point, last: Point, radius: float) -> None:
    wide = curve_between(((0, 0, 0), first), (goal, last), 40).length_mm
    tight = curve_between(((0, 0, 0), first), (goal, last), radius).length_mm
    assert tight <= wide + 1e-6


@pytest.mark.parametrize("step_deg", [0.0, 1e-7, 1e-3, 1.0])
def test_curves_near_a_half_turn_are_found(step_deg: float) -> None:
    """Where the straight runs back against the first heading, the plane of the arc is about to be any plane."""
    aside = radians(step_deg)
    curve = curve_between(((0, 0, 0), (1, 0, 0)), ((-400, 80, 0), (-cos(aside), 0, sin(aside))), 40)
    goals = np.array([[-10.0, 2.0, 0.0]])
    brute = brute_force_lengths(goals, np.array([[1.0, 0, 0]]), np.array([[-cos(aside), 0, sin(aside)]]))[0]
    assert curve.length_mm <= brute * 40 + 1e-6


@pytest.mark.parametrize(
    ("heading", "radius_mm", "complaint"),
    [
        ((1, 0, 0), 0, "centreline_radius_mm: 0 mm was given; it must be above zero"),
        ((0, 0, 0), 40, "heading: 0 long was given; it must have a length above zero"),
    ],
)
def test_impossible_ends_are_refused(heading: Point, radius_mm: float, complaint: str) -> None:
    with pytest.raises(ImpossibleDimensionError, match=complaint):
        curve_between(((0, 0, 0), heading), ((100, 0, 0), (1, 0, 0)), radius_mm)


def test_same_ends_give_the_same_curve() -> None:
    ends = ((0, 0, 0), (1, 0.2, 0)), ((60, 10, 40), (-1, 0.3, 0.2))
    assert curve_between(*ends, 40) == curve_between(*ends, 40)
