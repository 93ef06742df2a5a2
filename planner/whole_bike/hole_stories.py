"""Who lies in each shared hole, before the work begins and after every step of the order."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from planner.fit.things import thing_of_line
from planner.parts import Line, Visit
from planner.verdicts import Placement, Room
from planner.whole_bike.changes import Asked
from planner.whole_bike.order_search import Chosen
from planner.whole_bike.place_book import PlaceBook, Size, WorkRanOutError
from planner.whole_bike.way_search import Found


class LiesAs(StrEnum):
    """Which line of an id lies there."""

    OLD = "old"
    NEW = "new"
    STAYS = "stays"


@dataclass(frozen=True, slots=True, kw_only=True)
class InHole:
    """One line in a hole.

    line_id : as the visit calls it; of a line that stays, as the catalog does
    lies_as : the old line, the new one, or one that nobody touches
    diameter_mm, tolerance_mm : outside, and plus or minus [mm]
    """

    line_id: str
    lies_as: LiesAs
    diameter_mm: float
    tolerance_mm: float

    @property
    def size(self) -> Size:
        """Its diameter and tolerance [mm]."""
        return self.diameter_mm, self.tolerance_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleMoment:
    """A hole between two steps.

    things : thickest first, as they stand in the placement
    room : as it is then: inserts out while work goes on, in again at the end
    placement : where they lie side by side; None where none was found
    """

    things: tuple[InHole, ...]
    room: Room
    placement: Placement | None


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleStory:
    """A shared hole over the whole visit.

    place_id : port or run
    moments : before the first step, then after each
    """

    place_id: str
    moments: tuple[HoleMoment, ...]


def find_hole_stories(*, visit: Visit, found: Found, places: PlaceBook) -> tuple[HoleStory, ...]:
    """The ports and guides that two lines share at some moment, in the frame's order.

    found : an order
    places : the memory of the shared places
    """
    assert found.order is not None
    guides = [run.id for run in visit.frame.runs.values() if run.guide is not None]
    worked = _rooms([asked for each in found.chosen for manner in each.way.manners for asked in manner.drawing])
    ridden = _rooms([asked for each in found.chosen for asked in each.way.riding])
    stories = (
        _story(place_id, visit, found, worked.get(place_id), ridden.get(place_id), places)
        for place_id in (*visit.frame.ports, *guides)
    )
    return tuple(story for story in stories if story is not None)


def _rooms(asked: Sequence[Asked]) -> Mapping[str, Room]:
    return {each.place_id: each.room for each in asked}


def _story(
    place_id: str, visit: Visit, found: Found, worked: Room | None, ridden: Room | None, places: PlaceBook
) -> HoleStory | None:
    if found.order is None or worked is None or ridden is None:
        return None
    order = found.order.places
    things = [tuple(_things(place_id, visit, found.chosen, set(order[:n]))) for n in range(len(order) + 1)]
    if max(len(each) for each in things) < 2:
        return None
    rooms = [*[worked] * len(order), ridden]
    moments = (_moment(each, room, places) for each, room in zip(things, rooms, strict=True))
    return HoleStory(place_id=place_id, moments=tuple(moments))


def _moment(things: tuple[InHole, ...], room: Room, places: PlaceBook) -> HoleMoment:
    in_order = tuple(sorted(things, key=lambda thing: (*thing.size, thing.line_id), reverse=True))
    placement = None
    if in_order and room.opening is not None:
        try:
            placement = places.ask(room, (thing.size for thing in in_order), proves_no=False).placement
        except WorkRanOutError:
            placement = None
    return HoleMoment(things=in_order, room=room, placement=placement)


def _things(place_id: str, visit: Visit, chosen: Sequence[Chosen], done: set[int]) -> Iterator[InHole]:
    for stays in visit.staying:
        if place_id in stays.through:
            yield _in_hole(stays.line.id, LiesAs.STAYS, stays.line)
    lines = {line.id: line for line in visit.lines}
    for n, each in enumerate(chosen):
        if n in done:
            there = (way for way in each.way.lines if place_id in way.lying.places)
            yield from (_in_hole(way.line_id, LiesAs.NEW, way.job.new.line) for way in there)
            continue
        line, lying = lines[each.change.line_ids[0]], each.change.old
        if lying is not None and line.old is not None and place_id in lying.places:
            yield _in_hole(line.id, LiesAs.OLD, line.old.line)


def _in_hole(line_id: str, lies_as: LiesAs, line: Line) -> InHole:
    thing = thing_of_line(line)
    return InHole(line_id=line_id, lies_as=lies_as, diameter_mm=thing.diameter_mm, tolerance_mm=thing.tolerance_mm)
