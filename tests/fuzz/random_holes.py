"""Holes of any shape and things of any size in them, at any tilt, through any wall."""

from math import cos, pi, sin, sqrt

import numpy as np

from planner.fit.hole_fit import check_things_in_room
from planner.parts import BoxOpening, Opening, OutlineOpening, OvalOpening, RoundOpening, SlotOpening
from planner.rules import PlaceRule
from planner.verdicts import Check, Room, Thing, ThingKind


def star(draw: np.random.Generator, radius_mm: float) -> OutlineOpening:
    """An outline of up to 40 corners, smooth or ragged; with few of them it may cross itself."""
    angles = np.sort(draw.uniform(0, 2 * pi, int(draw.integers(3, 40))))
    radii = radius_mm * (1 - float(draw.choice([0, 0.1, 0.5, 0.9])) * draw.uniform(0, 1, len(angles)))
    points = tuple((radius * cos(angle), radius * sin(angle)) for radius, angle in zip(radii, angles, strict=True))
    return OutlineOpening(points_mm=points, tolerance_mm=float(draw.choice([0, 0.1])))


def random_opening(draw: np.random.Generator, area_mm2: float) -> Opening:
    """A hole of any shape and about that area."""
    longer = float(draw.uniform(1, 4))
    width, tolerance = sqrt(area_mm2 / longer), float(draw.choice([0, 0.05, 0.2]))
    match int(draw.integers(0, 6)):
        case 0:
            return RoundOpening(diameter_mm=sqrt(area_mm2 * 4 / pi), tolerance_mm=tolerance)
        case 1:
            return SlotOpening(length_mm=width * longer, width_mm=width, tolerance_mm=tolerance)
        case 2:
            return OvalOpening(length_mm=width * longer, width_mm=width, tolerance_mm=tolerance)
        case 3:
            corner = float(draw.choice([0, draw.uniform(0, width / 2)]))
            return BoxOpening(length_mm=width * longer, width_mm=width, corner_radius_mm=corner, tolerance_mm=tolerance)
        case _:
            return star(draw, sqrt(area_mm2 / pi) * 1.3)


def ask(draw: np.random.Generator) -> Check:
    """One to six things in a hole that has some two thirds to four times their area."""
    count = int(draw.integers(1, 7))
    sizes = draw.choice([1.2, 1.6, 1.9, 4.0, 5.0, 5.5, 8.0], count)
    if draw.random() < 0.4:
        sizes[1:] = sizes[-1]
    opening = random_opening(draw, float((pi * sizes**2 / 4).sum() * draw.uniform(0.7, 4)))
    return check_things_in_room(
        rule=PlaceRule.PORT_CLEARANCE,
        room=Room(
            opening=opening,
            tilt_deg=float(draw.choice([0, 0, 20, 45, 60, 80, 89])),
            wall_thickness_mm=float(draw.choice([0, 1, 1.6, 3])),
        ),
        things=[
            Thing(kind=ThingKind.OTHER, id=str(k), diameter_mm=size, tolerance_mm=0.05)
            for k, size in enumerate(sizes.tolist())
        ],
        running_clearance_mm=0.5,
    )
