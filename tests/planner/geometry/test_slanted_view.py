"""A bicycle before a camera whose place is known: what its wheels tell of the slant."""

from math import cos, hypot, pi, radians, sin

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner import PlaneView, RimSeen, find_plane_view
from tests.pinhole import Camera

REAR, FRONT, RIM_MM = (-430.8, 60.0), (722.0, 60.0), 311.0
BASE_MM = 1152.8


def rim_points(middle: tuple[float, float], *, turned: float = 0.3, count: int = 5) -> list[tuple[float, float]]:
    """Points spread all round a rim. [mm]"""
    turns = (turned + 2 * pi * n / count for n in range(count))
    return [(middle[0] + RIM_MM * cos(turn), middle[1] + RIM_MM * sin(turn)) for turn in turns]


def view_by(camera: Camera, *middles: tuple[float, float]) -> PlaneView:
    rims = [RimSeen(middle=camera.sees(one), rim=tuple(map(camera.sees, rim_points(one)))) for one in middles]
    found = find_plane_view(rims=rims, known=(camera.sees(REAR), camera.sees(FRONT)), known_mm=BASE_MM, hand_px=3)
    assert found is not None
    return found


@given(st.floats(-40, 40), st.floats(-15, 15), st.floats(-5, 5), st.floats(2000, 6000))
def test_what_is_seen_without_a_mistake_is_put_right_to_a_tenth_of_a_millimetre(
    yaw_deg: float, pitch_deg: float, roll_deg: float, away_mm: float
) -> None:
    camera = Camera(yaw_deg=yaw_deg, pitch_deg=pitch_deg, roll_deg=roll_deg, away_mm=away_mm)
    view = view_by(camera, REAR, FRONT)
    points = {point: view.place(camera.sees(point)) for point in ((0.0, 0.0), (430.0, 620.0), (-114.0, 425.0), FRONT)}
    for one, place in points.items():
        for other, beside in points.items():
            apart_mm = hypot(one[0] - other[0], one[1] - other[1])
            assert hypot(place[0] - beside[0], place[1] - beside[1]) == pytest.approx(apart_mm, abs=0.1)
    assert view.misfit_px < 0.01


@pytest.mark.parametrize("yaw_deg", [0, 10, 25, 40])
def test_the_slant_is_told_where_the_camera_looks(yaw_deg: float) -> None:
    """In the middle of the picture a flat thing that is turned away is narrowed by the cosine of that."""
    camera = Camera(yaw_deg=yaw_deg, away_mm=3000)
    view = view_by(camera, REAR, FRONT)
    assert view.slant_deg(camera.sees(camera.looks_at)) == pytest.approx(yaw_deg, abs=0.5)


def test_one_wheel_tells_the_slant_of_a_camera_far_away() -> None:
    camera = Camera(yaw_deg=20, away_mm=500_000, zoom=300_000)
    assert view_by(camera, REAR).slant_deg(camera.sees(REAR)) == pytest.approx(20, abs=0.5)


def test_what_cannot_be_told_is_none() -> None:
    known = ((0.0, 0.0), (100.0, 0.0))
    four = RimSeen(middle=(0, 0), rim=((1, 0), (0, 1), (-1, 0), (0, -1)))
    assert find_plane_view(rims=[four], known=known, known_mm=100, hand_px=3) is None
    line = RimSeen(middle=(0, 0), rim=tuple((float(n), 0.0) for n in range(5)))
    assert find_plane_view(rims=[line], known=known, known_mm=100, hand_px=3) is None
    assert find_plane_view(rims=[], known=known, known_mm=100, hand_px=3) is None


def test_points_beside_the_rim_are_told_by_their_misfit_and_by_larger_doubts() -> None:
    camera = Camera(yaw_deg=20, away_mm=3000)
    rims = []
    for middle in (REAR, FRONT):
        seen = [camera.sees(point) for point in rim_points(middle)]
        off = [(x + 25 * (-1) ** n, y) for n, (x, y) in enumerate(seen)]
        rims.append(RimSeen(middle=camera.sees(middle), rim=tuple(off)))
    known = (camera.sees(REAR), camera.sees(FRONT))
    view = find_plane_view(rims=rims, known=known, known_mm=BASE_MM, hand_px=3)
    assert view is not None
    assert view.misfit_px > 6

    def doubt_mm(of: PlaneView) -> float:
        seen = camera.sees((430.0, 620.0))
        return float(np.hypot(*np.subtract([one.place(seen) for one in of.in_doubt()], of.place(seen)).T).max())

    assert doubt_mm(view) > 2 * doubt_mm(view_by(camera, REAR, FRONT))


def test_the_camera_of_these_tests_is_a_camera() -> None:
    """By hand: 3000 away, zoom 2400, so 0.8 pixels a millimetre; at 60 degrees half of that along, none across."""
    square = Camera(yaw_deg=0, away_mm=3000, zoom=2400)
    x, y = square.looks_at
    assert np.subtract(square.sees((x + 100, y)), square.sees((x, y))) == pytest.approx([80, 0])
    turned = Camera(yaw_deg=60, away_mm=3000, zoom=2400)
    right = turned.sees((x + 100, y))[0] - turned.sees((x, y))[0]
    assert right == pytest.approx(2400 * 100 * cos(radians(60)) / (3000 - 100 * sin(radians(60))))
