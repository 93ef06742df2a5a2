"""The marks on a visit's side view: letters of lines, tags of holes, and how they keep off each other."""

from collections.abc import Mapping, Sequence
from math import atan2, degrees

from planner.documents.drawings.drawing_marks import arrow_head, badge
from planner.documents.drawings.label_places import Area, area_around
from planner.documents.drawings.side_view import middle_of
from planner.documents.drawings.svg import PaperPoint, PaperView, group
from planner.documents.drawings.visit_key import tag_width_mm
from planner.documents.drawings.visit_lines import DrawnLine
from planner.parts import Frame, JobEnd

BADGE_MM, NARROW_BADGE_MM = 3.8, 4.4
MOST_STEPS = 33
"""Places for a letter that are looked at to either side, before the least crowded one is taken."""

APART_MM = 4.2
"""Holes nearer than this on the paper have their tags side by side."""

Ways = list[tuple[bool, list[PaperPoint]]]
"""The pieces of a line, each inside the frame or outside."""


def line_marks(
    lines: Sequence[DrawnLine], strokes: Sequence[Ways], taken: list[Area], *, is_roomy: bool
) -> tuple[list[str], list[Area]]:
    """The letters, at both ends and along, none upon another or upon a hole; and which way each line is fed.

    Returns the marks, and all paper that is taken then.

    strokes : where each line lies on the paper
    taken : by holes and what they say
    is_roomy : whether there is room for two letters along a line
    """
    size_mm = BADGE_MM if is_roomy else NARROW_BADGE_MM
    taken, parts = list(taken), []
    wholes = [[point for _, way in ways for point in way] for ways in strokes]
    for share in (0.0, 1.0, 0.33, 0.66) if is_roomy else (0.0, 1.0, 0.5):
        for line, whole in zip(lines, wholes, strict=True):
            if len(whole) > 1:
                at = _free_place(whole, share, taken, size_mm=size_mm)
                taken.append(area_around(at, size_mm=size_mm))
                mark = badge(at, line.letter, diameter_mm=size_mm, fill=line.strokes.colour)
                parts.append(group([mark], role="letter", name=line.line_id))
    arrows = [_fed(line, whole, taken) for line, whole in zip(lines, wholes, strict=True) if len(whole) > 1]
    return [*parts, *filter(None, arrows)], taken


def _free_place(whole: list[PaperPoint], share: float, taken: Sequence[Area], *, size_mm: float) -> PaperPoint:
    """The place on a line nearest to a share of its length whose letter touches nothing; the least crowded else."""
    shares = [share + sign * n * 0.012 for n in range(MOST_STEPS) for sign in (1, -1)]
    places = [middle_of(whole, share=each) for each in shares if 0 <= each <= 1]
    return min(places, key=lambda at: _crowd(at, size_mm, taken))


def _fed(line: DrawnLine, whole: list[PaperPoint], taken: Sequence[Area]) -> str:
    """The head of an arrow along the line, off all letters and holes; "" where nothing is fed."""
    if line.fed_from is None:
        return ""
    way = whole if line.fed_from is JobEnd.FROM else whole[::-1]
    share = min((0.2 + n * 0.02 for n in range(30)), key=lambda each: _crowd(middle_of(way, share=each), 3.0, taken))
    tip, back = middle_of(way, share=share), middle_of(way, share=share - 0.02)
    towards_deg = degrees(atan2(tip[1] - back[1], tip[0] - back[0]))
    return arrow_head(tip, towards_deg=towards_deg, length_mm=3.0, fill=line.strokes.colour)


def _crowd(at: PaperPoint, size_mm: float, taken: Sequence[Area]) -> float:
    """How much of the paper round a point is taken, in square millimetres."""
    return sum(area_around(at, size_mm=size_mm).shared_with(area) for area in taken)


def tag_places(frame: Frame, tags: Mapping[str, str], view: PaperView) -> dict[str, PaperPoint]:
    """Where the tag of each hole stands; holes that lie behind one another stand side by side.

    tags : of the holes, by their ids
    view : scale and place
    """
    seen = {}
    for port_id in tags:
        place = frame.ports[port_id].position_mm
        if place is not None:
            seen[port_id] = view.at(place[0], place[2])
    found: dict[str, PaperPoint] = {}
    for port_id, at in seen.items():
        if port_id in found:
            continue
        near = [other for other, there in seen.items() if abs(there[0] - at[0]) + abs(there[1] - at[1]) < APART_MM]
        widths = [tag_width_mm(tags[other]) + 0.4 for other in near]
        x = sum(seen[other][0] for other in near) / len(near) - sum(widths) / 2
        for other, wide in zip(near, widths, strict=True):
            found.setdefault(other, (x + wide / 2, sum(seen[one][1] for one in near) / len(near)))
            x += wide
    return found


def tag_area(at: PaperPoint, words: str) -> Area:
    """The paper that the tag of a hole takes.

    at : its middle
    words : what stands in it
    """
    half = tag_width_mm(words) / 2
    return Area(left_mm=at[0] - half, top_mm=at[1] - 2.2, right_mm=at[0] + half, bottom_mm=at[1] + 2.2)
