from math import cos, dist, hypot, pi, sin

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.geometry.curves.arc_straight_arc import find_plain_curves
from planner.geometry.curves.hinge_chains import chains_of_hinges
from planner.geometry.curves.piece_chains import PieceChains
from planner.geometry.curves.planar_dubins import find_dubins_paths
from planner.geometry.curves.pose_pairs import PosePairs
from planner.geometry.curves.three_arcs import find_three_arcs
from planner.geometry.motion.frame_axes import unit_vector
from planner.parts import Point

headings = st.tuples(*[st.floats(-1, 1)] * 3).filter(lambda v: hypot(*v) > 0.1).map(unit_vector)
places = st.tuples(*[st.floats(-1.5, 1.5)] * 3)


def three_arcs(goal: Point, first: Point, last: Point) -> PieceChains | None:
    """The shortest of them between two poses; None where none was found."""
    pairs = PosePairs(ways=np.array([goal], dtype=float), starts=np.array([first]), ends=np.array([last]))
    hinges, _ = find_three_arcs(pairs, plain=find_plain_curves(pairs))
    return chains_of_hinges(hinges[:1], pairs) if len(hinges) else None


def walk(heading: Point, arcs: PieceChains) -> tuple[np.ndarray, np.ndarray]:
    """Follow the arcs in small steps of the turn: the outside check on where they lead."""
    place, way = np.zeros(3), np.array(heading)
    for turn, towards in zip(arcs.sizes[0], arcs.towards[0], strict=True):
        normal = np.array(towards)
        assert abs(normal @ way) < 1e-9
        assert np.linalg.norm(normal) == pytest.approx(1)
        place = place + sin(turn) * way + (1 - cos(turn)) * normal
        way = cos(turn) * way + sin(turn) * normal
    return place, way


@settings(max_examples=30, deadline=None)
@given(places, headings, headings)
def test_three_arcs_arrive_with_their_heading(goal: Point, first: Point, last: Point) -> None:
    arcs = three_arcs(goal, first, last)
    if arcs is None:
        return
    place, way = walk(first, arcs)
    assert dist(place, goal) < 1e-6
    assert dist(way, last) < 1e-6
    assert arcs.lengths[0] >= dist((0, 0, 0), goal) - 1e-6


def test_three_arcs_in_space_are_no_longer_than_three_in_the_plane() -> None:
    """Turning back on the spot: 7 pi / 3 in the plane."""
    arcs = three_arcs((0, 0, 0), (1, 0, 0), (-1, 0, 0))
    assert arcs is not None
    assert arcs.lengths[0] <= 7 * pi / 3 + 1e-9


@pytest.mark.parametrize(("x", "y", "turned_deg"), [(0.3, 0.2, 170), (-0.5, 0.4, 120), (0.2, -0.6, 200)])
def test_close_flat_poses_find_three_arcs_at_least_as_short_as_the_flat_ones(
    x: float, y: float, turned_deg: float
) -> None:
    flat = min(
        path.length_mm
        for path in find_dubins_paths(
            start_mm=(0, 0), start_heading_deg=0, end_mm=(x, y), end_heading_deg=turned_deg, radius_mm=1
        )
        if path.word in ("LRL", "RLR")
    )
    last = (cos(turned_deg * pi / 180), sin(turned_deg * pi / 180), 0.0)
    arcs = three_arcs((x, y, 0), (1, 0, 0), last)
    assert arcs is not None
    assert arcs.lengths[0] <= flat + 1e-6


def test_loop_to_a_caliper_is_shorter_with_three_arcs_than_with_a_straight() -> None:
    goal = tuple(x / 37.5 for x in (-28.0, 14.0, 38.0))
    arcs = three_arcs((goal[0], goal[1], goal[2]), unit_vector((-0.998, 0.064, -0.048)), unit_vector((-0.9, 0.1, 0.42)))
    assert arcs is not None
    assert arcs.lengths[0] * 37.5 == pytest.approx(251.6948, abs=1e-3)  # 281.1058 with a straight between two arcs
