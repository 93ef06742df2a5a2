"""How a photograph of a frame's side sees the frame: squarely, unless its wheels say otherwise."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from math import cos, hypot, radians, sin, sqrt

from planner import PlaneView, RimSeen, find_plane_view

Pixel = tuple[float, float]
Place = Callable[[Pixel], Pixel]

KNOWN, SECOND = ("known-1", "known-2"), ("known-3", "known-4")
"""The ends of the known distance, and of a second one that it is held against."""

ON_RIM = 5
RIM_POINTS = {
    f"{wheel}-rim-{n}": f"{wheel.capitalize()} wheel: point {n} of {ON_RIM} on the edge of its rim"
    for wheel in ("rear", "front")
    for n in range(1, ON_RIM + 1)
}
"""Points that tell whether the view is slanted, anywhere on one edge of the rim, spread all round."""

HAND_PX = 3.0
"""How well a point is set by hand, in pixels of the picture: measured on a made picture, the worst of eight."""

_FRAME_MM, _CAMERA_MM = 700.0, 3000.0
"""From the middle of a bicycle to either end, and how near the camera may stand at the least."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotoView:
    """How pixels become millimetres.

    place : where a point of the picture lies, x to the right, y down [pixels to mm]
    doubts : the same as it may be instead, three standard deviations off
    pixel_mm : a pixel in the middle
    slant_deg : how far from square it was seen; None where nothing tells
    misfit_px : how far the rims are from round once it is put right
    is_corrected : whether both wheels put it right
    apart_ratio : how much longer the second known distance is read by the first than it was told, as a part of it,
        minus where shorter; None where no second one is known
    """

    place: Place
    doubts: tuple[Place, ...]
    pixel_mm: float
    slant_deg: float | None = None
    misfit_px: float = 0.0
    is_corrected: bool = False
    apart_ratio: float | None = None

    @property
    def off_ratio(self) -> float:
        """How far lengths may be off for a slant that is seen and not put right, 0 to 1; 0 where none is seen."""
        return 0.0 if self.is_corrected or self.slant_deg is None else slant_off_ratio(self.slant_deg)


def slant_off_ratio(slant_deg: float) -> float:
    """How far lengths may be off in a view that far from square, from three metres, 0 to 1.

    Derived: the known distance may lie along the slant, where it is foreshortened, and what is read across it, or the
    other way about; and an end of the bicycle that is farther away is smaller.
    """
    return 1 / cos(radians(slant_deg)) - 1 + _FRAME_MM * sin(radians(slant_deg)) / _CAMERA_MM


def view_of(
    marks: Mapping[str, Pixel], *, known_mm: float | None, with_rims: bool, second_mm: float | None = None
) -> PhotoView | None:
    """How the picture sees the frame; None until both ends of the known distance are marked and it is told.

    with_rims : whether points on the rims count
    second_mm : a second known distance; None where none is told
    """
    view = _view_by_first(marks, known_mm=known_mm, with_rims=with_rims)
    if view is None or second_mm is None or second_mm <= 0 or any(name not in marks for name in SECOND):
        return view
    return _held_against(view, marks, second_mm)


def _held_against(view: PhotoView, marks: Mapping[str, Pixel], second_mm: float) -> PhotoView:
    """The view, as doubtful as a second known distance makes it: its scale may be that of the second."""
    (x, y), (x2, y2) = (view.place(marks[name]) for name in SECOND)
    read_mm = hypot(x2 - x, y2 - y)
    if read_mm <= 0:
        return view

    def by_second(seen: Pixel) -> Pixel:
        x_mm, y_mm = view.place(seen)
        return x_mm * second_mm / read_mm, y_mm * second_mm / read_mm

    return replace(view, apart_ratio=read_mm / second_mm - 1, doubts=(*view.doubts, by_second))


def _view_by_first(marks: Mapping[str, Pixel], *, known_mm: float | None, with_rims: bool) -> PhotoView | None:
    if known_mm is None or known_mm <= 0 or any(name not in marks for name in KNOWN):
        return None
    known = (marks[KNOWN[0]], marks[KNOWN[1]])
    apart = hypot(known[1][0] - known[0][0], known[1][1] - known[0][1])
    if apart <= 0:
        return None
    rims = _rims(marks) if with_rims else []
    seen = find_plane_view(rims=rims, known=known, known_mm=known_mm, hand_px=HAND_PX) if rims else None
    square = _square(known_mm / apart, apart)
    if seen is None:
        return square
    slant_deg, is_whole = seen.slant_deg(seen.middle), len(rims) > 1
    if not is_whole:
        return PhotoView(
            place=square.place,
            doubts=square.doubts,
            pixel_mm=square.pixel_mm,
            slant_deg=slant_deg,
            misfit_px=seen.misfit_px,
        )
    return _corrected(seen, slant_deg)


def _corrected(seen: PlaneView, slant_deg: float) -> PhotoView:
    return PhotoView(
        place=seen.place,
        doubts=tuple(view.place for view in seen.in_doubt()),
        pixel_mm=seen.pixel_mm(seen.middle),
        slant_deg=slant_deg,
        misfit_px=seen.misfit_px,
        is_corrected=True,
    )


def _square(pixel_mm: float, known_px: float) -> PhotoView:
    """A view taken to be square; how well its scale is known hangs on how long the known distance is."""
    off = 3 * HAND_PX / sqrt(3) * sqrt(2) / known_px
    return PhotoView(place=_scaled(pixel_mm), doubts=(_scaled(pixel_mm * (1 + off)),), pixel_mm=pixel_mm)


def _scaled(pixel_mm: float) -> Place:
    return lambda seen: (seen[0] * pixel_mm, seen[1] * pixel_mm)


def _rims(marks: Mapping[str, Pixel]) -> list[RimSeen]:
    """The wheels of which the middle and every point of the rim are marked."""
    found = []
    for wheel in ("rear", "front"):
        names = [name for name in RIM_POINTS if name.startswith(wheel)]
        if f"{wheel}-axle" in marks and all(name in marks for name in names):
            found.append(RimSeen(middle=marks[f"{wheel}-axle"], rim=tuple(marks[name] for name in names)))
    return found
