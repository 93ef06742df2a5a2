"""A photograph of a frame's side with points set on it: what its figures are in millimetres, and how well."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import atan2, cos, degrees, hypot, sin, sqrt

from catalog import usual_frame
from ui.shared.photo_view import HAND_PX, KNOWN, RIM_POINTS, SECOND, PhotoView, Pixel, Place, view_of

KNOWN_POINTS = {
    "known-1": "First point of the known distance",
    "known-2": "Second point of the known distance",
}
SECOND_POINTS = {
    "known-3": "First point of the second known distance",
    "known-4": "Second point of the second known distance",
}
FRAME_POINTS = {
    "bb": "Middle of the bottom bracket",
    "rear-axle": "Middle of the rear axle",
    "front-axle": "Middle of the front axle (tells what is level)",
    "head-top": "Upper end of the head tube",
    "head-bottom": "Lower end of the head tube",
    "seat-top": "Upper end of the seat tube",
}
"""The points of every frame, in the order in which they are asked for, after those of known distances."""

_SURE_PX = 3 * HAND_PX / sqrt(3)
"""Three standard deviations of what a hand is off, each place within its reach being as likely as the other."""


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

    view : how the picture sees the frame; None until the known distance is told and marked
    told : figures by the questions they answer: of the geometry table, or of a hole's place [mm, degrees]
    places : places of holes in words
    errors : how far each of them may be off, three standard deviations; not what a slant does that is not put right
    is_level : whether what is level was told by the two axles and not by the picture's edge
    """

    view: PhotoView | None
    told: Mapping[str, float]
    places: Mapping[str, str]
    errors: Mapping[str, float]
    is_level: bool

    @property
    def hand_mm(self) -> float:
        """How well a point set by hand is told. [mm]"""
        return HAND_PX * (self.view.pixel_mm if self.view else 0.0)

    @property
    def worst_mm(self) -> float:
        """How far the least sure of the lengths may be off, three standard deviations. [mm]"""
        return max((error for name, error in self.errors.items() if "angle" not in name), default=0.0)


def points_of(holes: Sequence[PhotoHole], *, with_rims: bool = False, with_second: bool = False) -> dict[str, str]:
    """Every point that may be set, with what to call it: of frame, wheels, tubes that the holes are in, and holes.

    with_rims : whether the wheels are to tell how slanted the view is
    with_second : whether a second distance is known
    """
    found = KNOWN_POINTS | (SECOND_POINTS if with_second else {}) | FRAME_POINTS | (RIM_POINTS if with_rims else {})
    for hole in holes:
        tube = usual_frame().tubes[hole.zone]
        for key, end in zip(("start", "end"), tube.ends, strict=True):
            found[f"{hole.zone} {key}"] = f"{tube.name}: {end} end"
        found[f"hole-{hole.n}"] = f"Hole {hole.n}: its middle"
    return found


def figures_of(
    marks: Mapping[str, Pixel],
    *,
    known_mm: float | None,
    holes: Sequence[PhotoHole],
    with_rims: bool = False,
    second_mm: float | None = None,
) -> PhotoFigures:
    """The figures that the points set so far tell.

    marks : where each point is on the picture, y down [pixels]
    known_mm : how far the two known points are apart
    with_rims : whether the wheels tell how slanted the view is
    second_mm : how far the two points of the second known distance are apart; None where none is told
    """
    view = view_of(marks, known_mm=known_mm, with_rims=with_rims, second_mm=second_mm)
    if view is None:
        return PhotoFigures(view=None, told={}, places={}, errors={}, is_level=False)
    wanted = {name: seen for name, seen in marks.items() if name not in {*KNOWN, *SECOND, *RIM_POINTS}}
    points, is_level = _in_frame(wanted, view.place)
    along = {f"hole {hole.n} place": mm for hole in holes if (mm := _along(points, hole)) is not None}
    words = {hole.n: hole for hole in holes}
    return PhotoFigures(
        view=view,
        told=_table(points),
        places={name: _place_words(mm, words[int(name.split()[1])]) for name, mm in along.items() if mm >= 0},
        errors=_errors(wanted, view, holes),
        is_level=is_level,
    )


def _errors(wanted: Mapping[str, Pixel], view: PhotoView, holes: Sequence[PhotoHole]) -> dict[str, float]:
    """How far each figure may be off: every point set a little beside, and the view itself, each by itself."""
    truly = _all_told(wanted, view.place, holes)
    squared = dict.fromkeys(truly, 0.0)
    shifted = [({**wanted, name: (x + _SURE_PX, y)}, view.place) for name, (x, y) in wanted.items()]
    shifted += [({**wanted, name: (x, y + _SURE_PX)}, view.place) for name, (x, y) in wanted.items()]
    for marks, place in (*shifted, *((wanted, doubt) for doubt in view.doubts)):
        told = _all_told(marks, place, holes)
        for name in squared:
            squared[name] += (told.get(name, truly[name]) - truly[name]) ** 2
    return {name: sqrt(value) for name, value in squared.items()}


def _all_told(marks: Mapping[str, Pixel], place: Place, holes: Sequence[PhotoHole]) -> dict[str, float]:
    points, _ = _in_frame(marks, place)
    along = {f"hole {hole.n} place": _along(points, hole) for hole in holes}
    return _table(points) | {name: mm for name, mm in along.items() if mm is not None}


def _in_frame(marks: Mapping[str, Pixel], place: Place) -> tuple[dict[str, Pixel], bool]:
    """The points as x forward and z up, in mm, level by both axles where they are set; and whether they are."""
    placed = {name: place(seen) for name, seen in marks.items()}
    points = {name: (x, -y) for name, (x, y) in placed.items()}
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


def _along(points: Mapping[str, Pixel], hole: PhotoHole) -> float | None:
    """How far a hole is along its tube; None until all its points are set. [mm]"""
    start, end, seen = (points.get(name) for name in (f"{hole.zone} start", f"{hole.zone} end", f"hole-{hole.n}"))
    if start is None or end is None or seen is None or _apart(start, end) == 0:
        return None
    way = ((end[0] - start[0]) / _apart(start, end), (end[1] - start[1]) / _apart(start, end))
    return (seen[0] - start[0]) * way[0] + (seen[1] - start[1]) * way[1]


def _place_words(along_mm: float, hole: PhotoHole) -> str:
    """Where a hole is, as it is said at the bench."""
    tube = usual_frame().tubes[hole.zone]
    word = f"{tube.words[0]} {tube.stay}" if tube.stay else tube.words[0]
    return f"{word} {along_mm:.0f} {hole.side}"


def _apart(a: Pixel, b: Pixel) -> float:
    return hypot(b[0] - a[0], b[1] - a[1])
