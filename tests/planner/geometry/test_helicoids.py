"""Helicoidal arcs: real curves, hardly longer than bends of any kind found by brute force, no posture lost."""

import csv
from math import dist
from pathlib import Path

import numpy as np
import pytest

from planner.geometry.curves.piece_chains import PieceChains, letters_of
from planner.geometry.curves.pose_pairs import PosePairs, rows_of
from planner.geometry.curves.space_curves import find_shortest_curves
from tests.planner.geometry.brute_force_bends import near_pairs, shortest_length
from tests.planner.geometry.brute_force_curves import unit

VALUES = Path(__file__).parents[2] / "published_values"
BRUTE = list(csv.DictReader((VALUES / "bounded_bends_brute_force.csv").open(encoding="utf-8")))
"""The best of bends of any kind between near poses; no row where none of the random starts arrived."""


def turning_ends(seed: int, *, degrees: np.ndarray) -> PosePairs:
    """A near pair whose end turns about an axis square to it, as a bar's does."""
    chance = np.random.default_rng(seed)
    way = unit(chance.normal(size=(1, 3))) * chance.uniform(0.5, 3.5)
    start, end, aside = unit(chance.normal(size=(3, 3)))
    axis, angles = unit(np.cross(end, aside)[None])[0], np.radians(degrees)[:, None]
    count = len(degrees)
    return PosePairs(
        ways=np.repeat(way, count, axis=0),
        starts=np.tile(start, (count, 1)),
        ends=np.cos(angles) * end + np.sin(angles) * np.cross(axis, end),
    )


def walked(chains: PieceChains, row: int, heading: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Follow the pieces by their turns: the outside check on where they lead."""
    place, way = np.zeros(3), heading
    for turn, bend, begins, towards in zip(
        chains.sizes[row], chains.bends[row], chains.headings[row], chains.towards[row], strict=True
    ):
        if turn <= 0:
            continue
        assert dist(begins, way) < 1e-7
        assert bend
        assert abs(towards @ way) < 1e-7
        place = place + np.sin(turn) * way + (1 - np.cos(turn)) * towards
        way = np.cos(turn) * way + np.sin(turn) * towards
    return place, way


def test_near_poses_are_never_longer_apart_than_bends_of_any_kind_found_by_brute_force() -> None:
    rows = [int(row["case"].removeprefix("near poses ")) for row in BRUTE]
    assert len(rows) > 180
    found = find_shortest_curves(rows_of(near_pairs(), rows))
    expected = np.array([float(row["expected_ratio"]) for row in BRUTE])
    tolerance = np.array([float(row["tolerance_ratio"]) for row in BRUTE])
    assert (found.chains.lengths <= expected * (1 + tolerance)).all()
    assert found.chains.is_helicoidal.mean() > 0.3
    assert (found.is_only_plain <= ~found.chains.is_helicoidal).all()


def test_brute_force_still_arrives_and_is_a_real_curve() -> None:
    pairs = near_pairs()
    lengths = [shortest_length(pairs.ways[k], pairs.starts[k], pairs.ends[k], seed=k) for k in (1, 10)]
    assert (np.array(lengths) >= np.linalg.norm(pairs.ways[[1, 10]], axis=1)).all()
    assert (find_shortest_curves(rows_of(pairs, [1, 10])).chains.lengths <= np.array(lengths) * 1.005).all()


def test_helicoidal_arcs_lead_from_pose_to_pose_also_walked_from_the_other_end() -> None:
    pairs = near_pairs(60, seed=4)
    back = PosePairs(ways=-pairs.ways, starts=-pairs.ends, ends=-pairs.starts)
    for these in (pairs, back):
        found = find_shortest_curves(these)
        many = np.flatnonzero(found.chains.is_helicoidal)
        assert len(many) > 15
        for row in many.tolist():
            place, way = walked(found.chains, row, these.starts[row])
            assert dist(place, these.ways[row]) < 1e-6
            assert dist(way, these.ends[row]) < 1e-6
            assert letters_of(found.chains, row) == "H"
            assert not found.is_only_plain[row]


def test_turning_space_or_walking_back_changes_no_near_length() -> None:
    pairs = near_pairs(60, seed=8)
    turn = np.linalg.qr(np.random.default_rng(3).normal(size=(3, 3)))[0]
    told = find_shortest_curves(pairs).chains
    turned = PosePairs(ways=pairs.ways @ turn, starts=pairs.starts @ turn, ends=pairs.ends @ turn)
    back = PosePairs(ways=-pairs.ways, starts=-pairs.ends, ends=-pairs.starts)
    assert told.is_helicoidal.mean() > 0.3
    for other in (turned, back):
        assert np.abs(find_shortest_curves(other).chains.lengths - told.lengths).max() < 1e-6


@pytest.mark.parametrize("seed", [3, 16, 17, 22, 25, 32, 34])
def test_beyond_its_edge_a_plain_curve_goes_on_as_a_helicoidal_arc_and_no_posture_is_lost(seed: int) -> None:
    """An end that turns by a degree moves a curve of one kind by no more than 2 R times that."""
    found = find_shortest_curves(turning_ends(seed, degrees=np.arange(0.0, 121.0, 1.0)))
    lengths, plain = found.chains.lengths, found.is_only_plain
    steps, allowed = np.abs(np.diff(lengths)), 2 * np.radians(1.0)
    assert (steps[plain[1:] & plain[:-1]] <= allowed + 1e-9).all()
    at_edge = plain[1:] != plain[:-1]
    assert at_edge.any()
    assert (steps[at_edge] <= allowed + 0.01).all()
    assert (lengths[1:-1] <= np.maximum(lengths[:-2], lengths[2:]) + 0.2).all()


def test_a_helicoidal_arc_turns_as_a_whole_so_that_a_loop_is_told_as_one() -> None:
    found = find_shortest_curves(near_pairs(60, seed=4))
    many = np.flatnonzero(found.chains.is_helicoidal)
    assert found.chains.largest_turns[many] == pytest.approx(found.chains.lengths[many])


@pytest.mark.parametrize("end", [(1, 0, 0), (-1, 0, 0), (0, 1, 0), (np.cos(2), np.sin(2), 0)])
@pytest.mark.parametrize("way", [(0, 0, 0), (1e-9, 0, 0), (-1e-4, 0, 0), (0, 2, 0), (0, 0, 1.0)])
def test_ends_on_one_spot_or_in_line_have_a_curve(
    way: tuple[float, float, float], end: tuple[float, float, float]
) -> None:
    pairs = PosePairs(
        ways=np.array([way], dtype=float), starts=np.array([[1.0, 0, 0]]), ends=np.array([end], dtype=float)
    )
    found = find_shortest_curves(pairs)
    assert np.isfinite(found.chains.lengths[0])
    assert np.linalg.norm(way) - 1e-9 <= found.chains.lengths[0] <= 7 * np.pi / 3 + 1e-9


def test_one_pair_is_answered_alike_alone_and_among_others() -> None:
    pairs = near_pairs(40, seed=5)
    together = find_shortest_curves(pairs)
    for row in range(0, 40, 5):
        alone = find_shortest_curves(rows_of(pairs, [row]))
        assert abs(alone.chains.lengths[0] - together.chains.lengths[row]) < 1e-9
