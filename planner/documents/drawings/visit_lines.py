"""Every line of a visit as it is drawn: its letter, its strokes, and where it lies when the work is done."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import pairwise

from planner.documents.drawings.side_view import leg_points, place_position, places_in_order
from planner.documents.drawings.svg import SOFT_INK
from planner.parts import OUTSIDE, Frame, JobEnd, Point, Run, Visit, VisitLine
from planner.whole_bike.hole_stories import LiesAs
from planner.whole_bike.visit_plan import LinePlan, VisitPlan

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


@dataclass(frozen=True, slots=True, kw_only=True)
class Strokes:
    """How a line is drawn, so that it is known from others without colour.

    dash_mm : lengths of dashes and gaps; empty for an unbroken one
    is_double : two thin strokes in place of a thick one
    colour : on top of that
    """

    dash_mm: tuple[float, ...] = ()
    is_double: bool = False
    colour: str


BLUE, GREEN, VIOLET, BROWN = "#0a5a9c", "#1d6f3a", "#6b3a8c", "#7a4a1f"

STROKES = (
    Strokes(colour=BLUE),
    Strokes(dash_mm=(4.4, 1.3), colour=BROWN),
    Strokes(dash_mm=(0.9, 0.9), colour=VIOLET),
    Strokes(is_double=True, colour=GREEN),
    Strokes(dash_mm=(4.4, 1.0, 0.9, 1.0), colour=BLUE),
    Strokes(dash_mm=(2.0, 1.2), colour=BROWN),
    Strokes(dash_mm=(4.4, 1.3), is_double=True, colour=VIOLET),
    Strokes(dash_mm=(4.4, 1.0, 0.9, 1.0, 0.9, 1.0), colour=GREEN),
    Strokes(dash_mm=(2.0, 1.2), is_double=True, colour=BLUE),
    Strokes(dash_mm=(6.5, 1.0, 2.0, 1.0), colour=BROWN),
)
"""For as many lines as a visit may have."""

STAYS = Strokes(dash_mm=(0.5, 1.6), colour=SOFT_INK)
"""Lines that nobody touches; their letters tell them apart."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnLine:
    """A line on the picture.

    line_id, letter : as in the visit, and on the picture
    lies_as : new, one that stays, or an old one where nothing goes in for it
    strokes : how it is drawn
    legs : its runs with their points, from its `from`; empty where its way is not known or not placed
    places : ids of all places on its way, both ends with them
    fed_from : the end it is fed from; None where nothing is fed
    """

    line_id: str
    letter: str
    lies_as: LiesAs
    strokes: Strokes
    legs: tuple[tuple[Run, tuple[Point, ...]], ...] = ()
    places: tuple[str, ...] = ()
    fed_from: JobEnd | None = None


def visit_letters(plan: VisitPlan, line_ids: Iterable[str] = ()) -> dict[str, str]:
    """The letter of each line on every picture of a visit: the one changed first is A, those that stay come last.

    line_ids : further lines that may have no place in the order
    """
    ordered = (line_id for step in plan.order for line_id in step.line_ids)
    in_holes = (thing.line_id for story in plan.holes for moment in story.moments for thing in moment.things)
    ids = dict.fromkeys((*ordered, *in_holes, *line_ids))
    return {line_id: _letter(n) for n, line_id in enumerate(ids)}


def _letter(n: int) -> str:
    again, place = divmod(n, len(LETTERS))
    return LETTERS[place] + (str(again + 1) if again else "")


def find_drawn_lines(plan: VisitPlan, visit: Visit) -> tuple[DrawnLine, ...]:
    """Every line of a visit, and those that stay; new ones on the ways planned, others on those told.

    visit : that was planned
    """
    staying = [each.line.id for each in visit.staying]
    letters = visit_letters(plan, (*(line.id for line in visit.lines), *staying))
    planned = {line.line_id: line for line in plan.lines}
    changed = [_changed(line, visit.frame, planned.get(line.id), letters) for line in visit.lines]
    kept = [
        DrawnLine(
            line_id=each.line.id,
            letter=letters[each.line.id],
            lies_as=LiesAs.STAYS,
            strokes=STAYS,
            legs=_legs_told(visit.frame, each.through),
            places=tuple(place for place in each.through if place in visit.frame.ports),
        )
        for each in visit.staying
    ]
    return (*sorted(changed, key=lambda line: line.letter), *kept)


def _changed(line: VisitLine, frame: Frame, planned: LinePlan | None, letters: Mapping[str, str]) -> DrawnLine:
    letter = letters[line.id]
    strokes = STROKES[LETTERS.index(letter[0]) % len(STROKES)]
    plan = None if planned is None else planned.plan
    if plan is not None and plan.runs:
        legs = leg_points(plan, frame)
        return DrawnLine(
            line_id=line.id,
            letter=letter,
            lies_as=LiesAs.NEW,
            strokes=strokes,
            legs=tuple((frame.runs[run_id], _seen_way(frame.runs[run_id], points)) for run_id, points in legs.items()),
            places=places_in_order(plan, frame),
            fed_from=plan.feed_from if plan.route else None,
        )
    through = line.through if line.old is None else line.old.through
    places = (line.from_anchor_id, *through, line.to_anchor_id) if through else ()
    lies_as = LiesAs.NEW if line.old is None else LiesAs.OLD
    legs_told = _legs_told(frame, places)
    return DrawnLine(line_id=line.id, letter=letter, lies_as=lies_as, strokes=strokes, legs=legs_told, places=places)


def _seen_way(run: Run, points: tuple[Point, ...]) -> tuple[Point, ...]:
    """A loop in the open air by its shape; inside the frame straight, so that lines side by side can be followed."""
    return points if run.zone_id == OUTSIDE else (points[0], points[-1])


def _legs_told(frame: Frame, told: tuple[str, ...]) -> tuple[tuple[Run, tuple[Point, ...]], ...]:
    """The runs between places that follow each other, and those named themselves; straight, as far as they are placed.

    told : ids of places and runs
    """
    places = [place for place in told if place not in frame.runs]
    pairs = [frozenset(pair) for pair in pairwise(places)]
    named = [place for place in told if place in frame.runs]
    runs = [run for run in frame.runs.values() if run.id in named]
    for pair in pairs:
        if not any(frozenset(run.between) == pair for run in runs):
            runs += [run for run in frame.runs.values() if frozenset(run.between) == pair][:1]
    found = []
    for run in runs:
        ends = [place_position(frame, place) for place in _in_told_order(run.between, places)]
        points = tuple(end for end in ends if end is not None)
        if len(points) == len(ends):
            found.append((run, points))
    return tuple(found)


def _in_told_order(between: tuple[str, str], places: list[str]) -> tuple[str, str]:
    first, second = between
    is_turned = first in places and second in places and places.index(first) > places.index(second)
    return (second, first) if is_turned else between
