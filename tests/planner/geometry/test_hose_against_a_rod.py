"""Relaxed shapes against a Cosserat rod let go in a simulation and damped until it lies still."""

from math import ceil

import numpy as np
import pytest

from planner.geometry.motion.frame_axes import Pose3, unit_vector
from planner.parts import Point
from tests.oracles import oracle
from tests.planner.geometry.hose_samples import relaxed_curve, shortest_bend_limited_curve

elastica = oracle("elastica")

ELEMENTS = 60
RADIUS_MM = 37.5
SECONDS = 5.0

CASES: dict[str, tuple[Point, Point, Point, Point]] = {
    "from the bar to the down tube": ((470, -210, 690), (0.5, 0.85, 0.1), (416, 24, 520), (-0.48, -0.643, -0.6)),
    "three ways square to each other": ((0, 0, 0), (1, 0, 0), (150, 100, 120), (0, 0, 1)),
}


def rod_at_rest_mm(start: Pose3, end: Pose3, laid_mm: np.ndarray, length_mm: float) -> np.ndarray:
    """Lay a straight-born rod along a curve, clamp both ends, let it lengthen and spring until it lies still.

    Units of the simulation: 100 mm; a rod of 1 mm, stiff along itself, free to twist.
    """
    points = resampled(laid_mm / 100, ELEMENTS + 1)
    directors = framed(points)

    class Simulation(elastica.BaseSystemCollection, elastica.Constraints, elastica.Damping):
        pass

    simulation = Simulation()
    rod = elastica.CosseratRod.straight_rod(
        ELEMENTS,
        points[0],
        directors[2, :, 0],
        directors[0, :, 0],
        length_mm / 100,
        0.05,
        1.0,
        youngs_modulus=1e4,
        shear_modulus=4e3,
        position=points.T.copy(),
        directors=directors,
    )
    rod.rest_lengths[:] = length_mm / 100 / ELEMENTS
    rod.rest_voronoi_lengths[:] = length_mm / 100 / ELEMENTS
    rod.bend_matrix[2, 2] *= 1e-3
    for element, heading in ((0, start.heading), (-1, end.heading)):
        rod.director_collection[:, :, element] = turned_to(directors[:, :, element], np.array(unit_vector(heading)))
    simulation.append(rod)
    simulation.constrain(rod).using(
        elastica.FixedConstraint, constrained_position_idx=(0, -1), constrained_director_idx=(0, -1)
    )
    step = 1e-4
    simulation.dampen(rod).using(elastica.AnalyticalLinearDamper, uniform_damping_constant=4.0, time_step=step)
    simulation.finalize()
    elastica.integrate(elastica.PositionVerlet(), simulation, SECONDS, n_steps=ceil(SECONDS / step), progress_bar=False)
    assert np.abs(rod.velocity_collection).max() < 1e-3
    return rod.position_collection.T * 100


def resampled(points: np.ndarray, count: int) -> np.ndarray:
    along = np.concatenate([[0], np.cumsum(np.linalg.norm(np.diff(points, axis=0), axis=1))])
    return np.stack([np.interp(np.linspace(0, along[-1], count), along, points[:, k]) for k in range(3)], axis=1)


def framed(points: np.ndarray) -> np.ndarray:
    """A frame for every element, carried along without twist."""
    tangents = np.diff(points, axis=0)
    tangents /= np.linalg.norm(tangents, axis=1, keepdims=True)
    frames = np.empty((3, 3, len(tangents)))
    normal = np.cross(tangents[0], np.eye(3)[np.abs(tangents[0]).argmin()])
    frame = np.array([normal, normal, tangents[0]])
    for i, tangent in enumerate(tangents):
        frame = turned_to(frame, tangent)
        frames[:, :, i] = frame
    return frames


def turned_to(frame: np.ndarray, tangent: np.ndarray) -> np.ndarray:
    normal = frame[0] - (frame[0] @ tangent) * tangent
    normal /= np.linalg.norm(normal)
    return np.array([normal, np.cross(tangent, normal), tangent])


@pytest.mark.parametrize("case", CASES)
def test_rod_let_go_comes_to_rest_in_the_relaxed_shape(case: str) -> None:
    a, first, b, last = CASES[case]
    start, end = Pose3(position_mm=a, heading=first), Pose3(position_mm=b, heading=last)
    shape = relaxed_curve(start, end, radius_mm=RADIUS_MM)
    laid = shortest_bend_limited_curve(start=start, end=end, centreline_radius_mm=RADIUS_MM)
    at_rest = rod_at_rest_mm(start, end, np.array(laid.points_mm), shape.length_mm)
    drawn = resampled(np.array(shape.points_mm), 600)
    away_mm = np.linalg.norm(at_rest[:, None] - drawn[None], axis=2).min(axis=1).max()
    laid_away_mm = np.linalg.norm(np.array(laid.points_mm)[:, None] - drawn[None], axis=2).min(axis=1).max()
    assert away_mm < 0.01 * shape.length_mm
    assert away_mm < laid_away_mm / 2  # it did move there, and was not laid there
