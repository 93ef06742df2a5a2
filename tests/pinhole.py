"""A camera without a lens: what it sees of points in the plane of a bicycle."""

from dataclasses import dataclass
from math import cos, radians, sin

import numpy as np


@dataclass(frozen=True, slots=True, kw_only=True)
class Camera:
    """Where a camera stands.

    yaw_deg, pitch_deg, roll_deg : the bicycle turned about the upright, the level across and the way of looking
    away_mm : from the point it looks at
    zoom : pixels to a millimetre at a millimetre's distance
    looks_at : in the plane of the bicycle, x forward and z up [mm]
    middle_px : where that point is on the picture
    """

    yaw_deg: float = 0.0
    pitch_deg: float = 0.0
    roll_deg: float = 0.0
    away_mm: float = 3000.0
    zoom: float = 2400.0
    looks_at: tuple[float, float] = (150.0, 200.0)
    middle_px: tuple[float, float] = (800.0, 500.0)

    def sees(self, point: tuple[float, float]) -> tuple[float, float]:
        """Where a point of the bicycle's plane is on the picture, y down. [mm to pixels]"""
        yaw, pitch, roll = map(radians, (self.yaw_deg, self.pitch_deg, self.roll_deg))
        about_up = np.array([[cos(yaw), 0, sin(yaw)], [0, 1, 0], [-sin(yaw), 0, cos(yaw)]])
        across = np.array([[1, 0, 0], [0, cos(pitch), -sin(pitch)], [0, sin(pitch), cos(pitch)]])
        about_look = np.array([[cos(roll), -sin(roll), 0], [sin(roll), cos(roll), 0], [0, 0, 1]])
        flat = np.array([point[0] - self.looks_at[0], self.looks_at[1] - point[1], 0.0])
        x, y, z = about_look @ across @ about_up @ flat + np.array([0, 0, self.away_mm])
        return float(self.middle_px[0] + self.zoom * x / z), float(self.middle_px[1] + self.zoom * y / z)
