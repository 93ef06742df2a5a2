"""The inverse of the quick question: the smallest hole for some things, or the thickest thing for a hole."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil, floor, isfinite

from catalog import Catalog
from planner import Wedge, wedge_in
from planner.parts import BoxOpening, Opening, RoundOpening, SlotOpening, is_gauged
from planner.verdicts import Placement
from ui.shared.fit_question import (
    FitQuestion,
    opening_of_question,
    room_of_question,
    things_in_words,
    things_of_question,
    tolerance_of_question,
)
from ui.shared.opening_text import NUMBER

KINDS = "'round', 'slot W' or 'box W rR', in mm"
HUNDREDTHS = 100
ROUND_HOLE = "round hole"
SomeKind = RoundOpening | SlotOpening | BoxOpening


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomAnswer:
    """What was sought.

    asks_opening : whether a hole was sought; else a thing
    size_mm : of the hole or the thing, proven to do; None where there is none
    proven_mm : of the hole, nothing smaller does; of the thing, nothing thicker; None where nothing is ruled out
    placement : where the things lie, with the running clearance about each
    running_clearance_mm, tolerance_mm : what was left to the things, and to the hole
    wedge : three lines alike that can wedge there; None where they cannot
    """

    asks_opening: bool
    size_mm: float | None
    proven_mm: float | None
    placement: Placement | None
    running_clearance_mm: float
    tolerance_mm: float
    wedge: Wedge | None

    @property
    def told_mm(self) -> float | None:
        """The size for people: in hundredths, a hole rounded up and a thing rounded down."""
        if self.size_mm is None:
            return None
        hundredths = round(self.size_mm * HUNDREDTHS, 6)
        return (ceil(hundredths) if self.asks_opening else floor(hundredths)) / HUNDREDTHS

    @property
    def is_proven(self) -> bool:
        """Whether nothing better is left open but what rounding hides."""
        if self.size_mm is None:
            return True
        return self.proven_mm is not None and abs(self.proven_mm - self.size_mm) < 1 / HUNDREDTHS


def find_room_problems(question: FitQuestion) -> Iterator[str]:
    """Everything that is wrong with the kind of hole, or with what is asked at once, one sentence each."""
    if question.smallest_text is not None and kind_of_text(question.smallest_text, tolerance_mm=0.0) is None:
        yield f"fit > smallest: {question.smallest_text!r} was given, allowed: {KINDS}"
    if question.smallest_text is not None and (question.opening_text or question.asks_largest):
        yield "fit > smallest: given beside --opening or --largest-item, allowed: one question at a time"
    is_inverse = question.smallest_text is not None or question.asks_largest
    if is_inverse and (question.rigid_length_mm is not None or question.bore_mm is not None):
        yield "fit > rigid: given beside --smallest or --largest-item, allowed: only when asking whether things pass"


def kind_of_text(text: str, *, tolerance_mm: float) -> SomeKind | None:
    """The kind of hole described by a few words, its size still to be sought; None where they describe none."""
    words = " ".join(text.lower().split())
    if words == "round":
        return RoundOpening(diameter_mm=1.0, tolerance_mm=tolerance_mm)
    if (slot := re.fullmatch(f"slot {NUMBER}", words)) and float(slot[1]) > 0:
        return SlotOpening(length_mm=float(slot[1]), width_mm=float(slot[1]), tolerance_mm=tolerance_mm)
    box = re.fullmatch(f"box {NUMBER}(?: ?r{NUMBER})?", words)
    if box is None or not 0 <= 2 * float(box[2] or 0) <= float(box[1]) or float(box[1]) == 0:
        return None
    width_mm, corner_mm = float(box[1]), float(box[2] or 0)
    return BoxOpening(length_mm=width_mm, width_mm=width_mm, corner_radius_mm=corner_mm, tolerance_mm=tolerance_mm)


def find_room(question: FitQuestion, catalog: Catalog) -> RoomAnswer:
    """Ask the planner."""
    from planner import find_largest_item, find_smallest_opening

    running_mm = catalog.workshop.limits.running_clearance_mm
    tolerance_mm = tolerance_of_question(question, catalog)
    things = things_of_question(question)
    seen = room_of_question(question)
    opening: Opening | None = None
    size_mm, proven_mm, placement = None, None, None
    if question.smallest_text is not None:
        like = kind_of_text(question.smallest_text, tolerance_mm=tolerance_mm)
        assert like is not None
        smallest = find_smallest_opening(
            like=like,
            tilt_deg=seen.tilt_deg,
            wall_thickness_mm=seen.wall_thickness_mm,
            things=things,
            running_clearance_mm=running_mm,
            most_work=catalog.workshop.limits.hole_work_rows,
        )
        if smallest is not None:
            size_mm, proven_mm, placement = smallest.size_mm, smallest.none_below_mm, smallest.placement
            opening = smallest.opening
    else:
        opening = opening_of_question(question, catalog)
        tolerance_mm = opening.tolerance_mm
        largest = find_largest_item(
            opening=opening,
            tilt_deg=seen.tilt_deg,
            wall_thickness_mm=seen.wall_thickness_mm,
            beside=things,
            item_tolerance_mm=question.item_tolerance_mm,
            running_clearance_mm=running_mm,
            most_work=catalog.workshop.limits.hole_work_rows,
        )
        if largest is not None:
            size_mm, proven_mm, placement = largest.diameter_mm, largest.none_above_mm, largest.placement
            proven_mm = None if is_gauged(opening) else proven_mm
    return RoomAnswer(
        asks_opening=question.smallest_text is not None,
        size_mm=size_mm,
        proven_mm=proven_mm if proven_mm is None or isfinite(proven_mm) else None,
        placement=placement,
        running_clearance_mm=running_mm,
        tolerance_mm=tolerance_mm,
        wedge=None if placement is None else wedge_in(opening=opening, diameters_mm=placement.diameters_mm),
    )


def _kind_in_words(kind: SomeKind | None) -> str:
    match kind:
        case SlotOpening():
            return f"slot {kind.width_mm:g} mm wide"
        case BoxOpening() if kind.corner_radius_mm > 0:
            return f"box {kind.width_mm:g} mm wide, its corners rounded by {kind.corner_radius_mm:g} mm,"
        case BoxOpening():
            return f"sharp box {kind.width_mm:g} mm wide"
        case _:
            return ROUND_HOLE


def room_sentence(question: FitQuestion, answer: RoomAnswer) -> str:
    """The answer first, without a full stop."""
    things = things_in_words(question)
    if answer.asks_opening:
        kind = _kind_in_words(kind_of_text(question.smallest_text or "", tolerance_mm=0.0))
        if answer.told_mm is None:
            return f"No length is enough: {things} will not go through a {kind}, however long it is"
        measure = "across" if kind == ROUND_HOLE else "long"
        return f"The smallest {kind} for {things} is {answer.told_mm:.2f} mm {measure}"
    beside = f" beside {things}" if things_of_question(question) else ""
    if answer.told_mm is None:
        return f"Nothing passes {question.opening_text} mm{beside}"
    return f"The thickest thing that passes {question.opening_text} mm{beside} is {answer.told_mm:.2f} mm"
