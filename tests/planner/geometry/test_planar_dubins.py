import csv
from math import cos, degrees, dist, pi, radians, sin
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.errors import ImpossibleDimensionError
from planner.geometry.curves.planar_dubins import DubinsPath, find_dubins_paths

ROWS = list(csv.DictReader((Path(__file__).parents[2] / "published_values/dubins.csv").open(encoding="utf-8")))

poses = st.tuples(st.floats(-5, 5), st.floats(-5, 5), st.floats(-360, 360))


def paths_between(
    start: tuple[float, float, float], end: tuple[float, float, float], radius_mm: float = 1.0
) -> tuple[DubinsPath, ...]:
    return find_dubins_paths(
        start_mm=start[:2],
        start_heading_deg=start[2],
        end_mm=end[:2],
        end_heading_deg=end[2],
        radius_mm=radius_mm,
    )


def walk(pose: tuple[float, float, float], path: DubinsPath, radius_mm: float) -> tuple[float, float, float]:
    """Follow the letters step by step; the outside check on every word."""
    x, y, heading = pose[0], pose[1], radians(pose[2])
    for letter, length_mm in zip(path.word, path.pieces_mm, strict=True):
        if letter == "S":
            x, y = x + length_mm * cos(heading), y + length_mm * sin(heading)
            continue
        side = 1 if letter == "L" else -1
        turned = heading + side * length_mm / radius_mm
        x += side * radius_mm * (sin(turned) - sin(heading))
        y -= side * radius_mm * (cos(turned) - cos(heading))
        heading = turned
    return x, y, heading


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["case"])
def test_shortest_flat_path_has_its_published_length(row: dict[str, str]) -> None:
    start, end = (
        (float(row[f"{at}_x_mm"]), float(row[f"{at}_y_mm"]), degrees(float(row[f"{at}_heading_rad"])))
        for at in ("start", "end")
    )
    best = paths_between(start, end, float(row["radius_mm"]))[0]
    assert best.length_mm == pytest.approx(float(row["expected_mm"]), abs=float(row["tolerance_mm"]))
    if len(row["word"]) == 3:
        assert best.word == row["word"]


@given(poses, poses, st.floats(0.2, 3))
def test_every_word_arrives_with_its_heading(
    start: tuple[float, float, float], end: tuple[float, float, float], radius_mm: float
) -> None:
    for path in paths_between(start, end, radius_mm):
        x, y, heading = walk(start, path, radius_mm)
        assert dist((x, y), end[:2]) < 1e-6
        assert abs(sin((heading - radians(end[2])) / 2)) < 1e-6
        assert path.length_mm == pytest.approx(sum(path.pieces_mm))


@given(poses, poses)
def test_paths_come_shortest_first_and_never_beat_the_straight_line(
    start: tuple[float, float, float], end: tuple[float, float, float]
) -> None:
    lengths = [path.length_mm for path in paths_between(start, end)]
    assert lengths == sorted(lengths)
    assert lengths[0] >= dist(start[:2], end[:2]) - 1e-9


@given(poses, poses)
def test_the_way_back_is_as_long(start: tuple[float, float, float], end: tuple[float, float, float]) -> None:
    there = paths_between(start, end)[0].length_mm
    back = paths_between((*end[:2], end[2] + 180), (*start[:2], start[2] + 180))[0].length_mm
    assert there == pytest.approx(back, abs=1e-6)


def test_a_hair_of_rounding_is_not_a_full_circle() -> None:
    best = paths_between((0, 0, 1e-13), (10, 0, -1e-13))[0]
    assert best.length_mm == pytest.approx(10, abs=1e-9)


@pytest.mark.parametrize("heading_deg", [0, 30, 97, 211.5])
def test_staying_where_one_is_takes_nothing(heading_deg: float) -> None:
    assert paths_between((0, 0, heading_deg), (0, 0, heading_deg))[0].length_mm == 0


def test_turning_back_on_the_spot_takes_seven_thirds_of_a_half_circle() -> None:
    best = paths_between((0, 0, 0), (0, 0, 180))[0]
    assert best.length_mm == pytest.approx(7 * pi / 3, abs=1e-12)


def test_radius_must_be_above_zero() -> None:
    with pytest.raises(ImpossibleDimensionError, match="radius_mm: 0 mm was given; it must be above zero"):
        paths_between((0, 0, 0), (1, 0, 0), 0)
