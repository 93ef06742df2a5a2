"""A photograph of a frame's side with points set on it: what its figures are in millimetres, and how well."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import atan2, cos, degrees, hypot, sin

from catalog import usual_frame

KNOWN = ("known-1", "known-2")
FRAME_POINTS = {
    "known-1": "First point of the known distance",
    "known-2": "Second point of the known distance",
    "bb": "Middle of the bottom bracket",
    "rear-axle": "Middle of the rear axle",
    "front-axle": "Middle of the front axle (tells what is level)",
    "head-top": "Upper end of the head tube",
    "head-bottom": "Lower end of the head tube",
    "seat-top": "Upper end of the seat tube",
}
"""The points of every frame, in the order in which they are asked for."""

_HAND_PX = 3.0
"""How well a point is set by hand, in pixels of the picture: measured on a made picture, the worst of eight."""

Pixel = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotoHole:
    """A hole that is seen on the photograph.

    n : which hole, from 1
    zone : the tube it is in
    side : of the tube
    """

    n: int
    zone: str
    side: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotoFigures:
    """What the points say.

    pixel_mm : millimetres in a pixel; None until the known distance is told and marked
    told : figures by the questions they answer: of the geometry table, or of a hole's place [mm, degrees]
    places : places of holes in words
    is_level : whether what is level was told by the two axles and not by the picture's edge
    """

    pixel_mm: float | None
    told: Mapping[str, float]
    places: Mapping[str, str]
    is_level: bool

    @property
    def hand_mm(self) -> float:
        """How well a point set by hand is told. [mm]"""
        return _HAND_PX * (self.pixel_mm or 0.0)


def points_of(holes: Sequence[PhotoHole]) -> dict[str, str]:
    """Every point that may be set, with what to call it: of the frame, of the tubes the holes are in, of the holes."""
    found = dict(FRAME_POINTS)
    for hole in holes:
        tube = usual_frame().tubes[hole.zone]
        for key, end in zip(("start", "end"), tube.ends, strict=True):
            found[f"{hole.zone} {key}"] = f"{tube.name}: {end} end"
        found[f"hole-{hole.n}"] = f"Hole {hole.n}: its middle"
    return found


def figures_of(marks: Mapping[str, Pixel], *, known_mm: float | None, holes: Sequence[PhotoHole]) -> PhotoFigures:
    """The figures that the points set so far tell.

    marks : where each point is on the picture, y down [pixels]
    known_mm : how far the two known points are apart
    """
    pixel_mm = _pixel_mm(marks, known_mm)
    if pixel_mm is None:
        return PhotoFigures(pixel_mm=None, told={}, places={}, is_level=False)
    points, is_level = _in_frame(marks, pixel_mm)
    places = {f"hole {hole.n} place": words for hole in holes if (words := _place(points, hole))}
    return PhotoFigures(pixel_mm=pixel_mm, told=_table(points), places=places, is_level=is_level)


def _pixel_mm(marks: Mapping[str, Pixel], known_mm: float | None) -> float | None:
    if known_mm is None or any(name not in marks for name in KNOWN):
        return None
    apart = _apart(*(marks[name] for name in KNOWN))
    return known_mm / apart if apart > 0 else None


def _in_frame(marks: Mapping[str, Pixel], pixel_mm: float) -> tuple[dict[str, Pixel], bool]:
    """The points as x forward and z up, in mm, level by both axles where they are set; and whether they are."""
    points = {name: (x * pixel_mm, -y * pixel_mm) for name, (x, y) in marks.items()}
    ahead, behind = points.get("front-axle"), points.get("rear-axle")
    reference = ahead or points.get("head-top") or points.get("bb")
    is_mirrored = behind is not None and reference is not None and reference[0] < behind[0]
    if is_mirrored:
        points = {name: (-x, z) for name, (x, z) in points.items()}
        ahead, behind = points.get("front-axle"), points.get("rear-axle")
    if ahead is None or behind is None:
        return points, False
    lean = -atan2(ahead[1] - behind[1], ahead[0] - behind[0])
    return {
        name: (x * cos(lean) - z * sin(lean), x * sin(lean) + z * cos(lean)) for name, (x, z) in points.items()
    }, True


def _table(points: Mapping[str, Pixel]) -> dict[str, float]:
    """The figures of the geometry table whose points are set.

    Source: the usual definitions of reach, stack, drop and angles in geometry tables; common practice, no source.
    """
    bb, axle, seat = points.get("bb"), points.get("rear-axle"), points.get("seat-top")
    top, bottom = points.get("head-top"), points.get("head-bottom")
    found: dict[str, float] = {}
    if bb and top:
        found |= {"reach": top[0] - bb[0], "stack": top[1] - bb[1]}
    if top and bottom:
        found |= {
            "head_angle": degrees(atan2(top[1] - bottom[1], bottom[0] - top[0])),
            "head_tube": _apart(top, bottom),
        }
    if bb and seat:
        found |= {"seat_angle": degrees(atan2(seat[1] - bb[1], bb[0] - seat[0])), "seat_tube": _apart(bb, seat)}
    if bb and axle:
        found |= {"chainstay": _apart(bb, axle), "bb_drop": axle[1] - bb[1]}
    return found


def _place(points: Mapping[str, Pixel], hole: PhotoHole) -> str:
    """Where a hole is along its tube, as it is said at the bench; "" until all its points are set."""
    start, end, seen = (points.get(name) for name in (f"{hole.zone} start", f"{hole.zone} end", f"hole-{hole.n}"))
    if start is None or end is None or seen is None or _apart(start, end) == 0:
        return ""
    way = ((end[0] - start[0]) / _apart(start, end), (end[1] - start[1]) / _apart(start, end))
    along = (seen[0] - start[0]) * way[0] + (seen[1] - start[1]) * way[1]
    tube = usual_frame().tubes[hole.zone]
    word = f"{tube.words[0]} {tube.stay}" if tube.stay else tube.words[0]
    return f"{word} {along:.0f} {hole.side}" if along >= 0 else ""


def _apart(a: Pixel, b: Pixel) -> float:
    return hypot(b[0] - a[0], b[1] - a[1])
