"""Which of a frame's ends suit a line, and which of them is meant where only one can be."""

from collections.abc import Iterable, Sequence
from enum import StrEnum

from planner.parts import Anchor, AnchorPart, AnchorServes, Brake, Frame, FrameEnd, Line, LineKind, MovesWith

_WORKED_BY = {
    LineKind.HYDRAULIC_HOSE: {AnchorServes.BRAKE},
    LineKind.BRAKE_HOUSING: {AnchorServes.BRAKE},
    LineKind.SHIFT_HOUSING: {AnchorServes.GEARS, AnchorServes.DROPPER},
    LineKind.INNER_CABLE: {AnchorServes.BRAKE, AnchorServes.GEARS, AnchorServes.DROPPER},
    LineKind.ELECTRIC_WIRE: {AnchorServes.ELECTRICS, AnchorServes.GEARS, AnchorServes.DROPPER},
}
"""What a line of each kind works; gears and posts may be worked by a wire."""


def suiting_anchors(frame: Frame, new: Brake | Line) -> tuple[str, ...]:
    """Ids of the ends where this line may sit, in catalog order: an end not told to serve anything may serve all."""
    works = {AnchorServes.BRAKE} if isinstance(new, Brake) else _WORKED_BY[new.kind]
    return tuple(anchor.id for anchor in frame.anchors.values() if anchor.serves is None or anchor.serves in works)


def only_start(frame: Frame, suiting: Sequence[str]) -> str | None:
    """The one end up at the bar, where a line starts; None where there are several, or none."""
    return _only([frame.anchors[one] for one in suiting if _lies_at(frame, suiting, one) is _Place.BAR])


def only_end(frame: Frame, new: Brake | Line, suiting: Sequence[str], *, start: str | None) -> str | None:
    """The one end where the line that starts at another can end; None where there are several, or none.

    start : where it starts; None while that is not known
    """
    made_for = new.made_for if isinstance(new, Brake) else None
    wanted = {FrameEnd.FRONT: {_Place.FORK}, FrameEnd.REAR: {_Place.REST}, None: {_Place.FORK, _Place.REST}}[made_for]
    return _only([frame.anchors[one] for one in suiting if one != start and _lies_at(frame, suiting, one) in wanted])


def end_pairs(frame: Frame) -> dict[str, tuple[str, str]]:
    """From where to where a line may run, rear ends first: runs link both, and both work one thing or may work any."""
    all_ids = tuple(frame.anchors)
    starts = [one for one in all_ids if _lies_at(frame, all_ids, one) is _Place.BAR]
    ends = [one for place in (_Place.REST, _Place.FORK) for one in all_ids if _lies_at(frame, all_ids, one) is place]
    return {
        f"{start} {end}": (start, end)
        for end in ends
        for start in starts
        if len({frame.anchors[start].serves, frame.anchors[end].serves} - {None}) < 2
        if end in _linked_to(frame, start)
    }


def brake_pairs(frame: Frame, at: FrameEnd) -> tuple[tuple[str, str], ...]:
    """From which lever to which caliper a brake at one end of the frame may run."""
    wanted = _Place.FORK if at is FrameEnd.FRONT else _Place.REST
    return tuple(
        (start, end)
        for start, end in end_pairs(frame).values()
        if _lies_at(frame, tuple(frame.anchors), end) is wanted
        if all(frame.anchors[one].serves in (None, AnchorServes.BRAKE) for one in (start, end))
    )


def _linked_to(frame: Frame, start: str) -> set[str]:
    """Every hole and end that runs lead to from an end."""
    found, added = {start}, True
    while added:
        met = [set(run.between) for run in frame.runs.values() if found & set(run.between)]
        added = any(not ends <= found for ends in met)
        found.update(*met)
    return found


def is_made_for(frame: Frame, thing: Brake | Line, *, end: str) -> bool:
    """Whether a brake is one for this end of the frame; a bare line is for any."""
    made_for = thing.made_for if isinstance(thing, Brake) else None
    place = _lies_at(frame, tuple(frame.anchors), end)
    return made_for is None or (made_for is FrameEnd.FRONT) is (place is _Place.FORK)


class _Place(StrEnum):
    """Where an end lies: up at the bar, down at the fork that turns with it, or on what does not turn."""

    BAR = "bar"
    FORK = "fork"
    REST = "rest"


def _lies_at(frame: Frame, suiting: Sequence[str], anchor_id: str) -> _Place:
    """A lever or shifter is at the bar, any other part at its end; bar and fork both turn.

    Where nobody told the part or the end, what turns is at the fork where it lies in the lower half of the line's ends.
    """
    anchor = frame.anchors[anchor_id]
    if anchor.part in (AnchorPart.LEVER, AnchorPart.SHIFTER):
        return _Place.BAR
    if anchor.end is not None:
        return _Place.FORK if anchor.end is FrameEnd.FRONT else _Place.REST
    if anchor.moves_with is not MovesWith.BAR:
        return _Place.REST
    if anchor.part is not None:
        return _Place.FORK
    heights_mm = [place[2] for one in suiting if (place := frame.anchors[one].position_mm) is not None]
    is_low = anchor.position_mm is not None and anchor.position_mm[2] < (min(heights_mm) + max(heights_mm)) / 2
    return _Place.FORK if is_low else _Place.BAR


def _only(anchors: Iterable[Anchor]) -> str | None:
    """The only one; ends that are told to serve this line come before those that are not told to serve anything."""
    found = list(anchors)
    told = [anchor for anchor in found if anchor.serves is not None]
    found = told or found
    return found[0].id if len(found) == 1 else None
