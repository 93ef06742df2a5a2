"""Where a hole is on its tube, in the words of the bench."""

from collections.abc import Iterator
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BeforeValidator, Field
from pydantic_core import PydanticCustomError

from catalog.fields import Entry, Id
from catalog.geometry_fields import AlongTube, Lean, OffMiddle, OuterSize
from catalog.mechanic_errors import Complaint
from catalog.yaml_text import Path
from planner.parts import OUTSIDE, SideWord, TubeEnd, TubePlace, TubeSide

WINDOW = "window"
_WORDS = frozenset(str(word) for word in SideWord)


def _side_text(side: object) -> str:
    """A side as text; an hour of the clock is a number in files."""
    if isinstance(side, str):
        return side
    if isinstance(side, int | float) and not isinstance(side, bool):
        return f"{side:g}"
    raise PydanticCustomError("side", "neither a word nor an hour")


def _is_side(side: str) -> str:
    if side not in _WORDS:
        try:
            hour = float(side)
        except ValueError:
            raise PydanticCustomError("side", "no side of a tube") from None
        if not 0 <= hour <= 12 or hour * 2 != int(hour * 2):
            raise PydanticCustomError("side", "no hour of the clock")
    return side


Side = Annotated[
    str,
    BeforeValidator(
        _side_text,
        json_schema_input_type=SideWord | Annotated[float, Field(ge=0, le=12, multiple_of=0.5)],
    ),
    AfterValidator(_is_side),
    Field(
        title="side",
        description="left, right, top, bottom, front, back, or an hour of the clock as the rider sees it, by halves.",
    ),
]


def _across_and_up(outer: object) -> object:
    """A round tube is as thick from left to right as from bottom to top."""
    is_number = isinstance(outer, int | float) and not isinstance(outer, bool)
    return (outer, outer) if is_number else outer


def _is_outer(outer: tuple[float, float]) -> tuple[float, float]:
    if not all(LEAST_OUTER_MM <= size <= MOST_OUTER_MM for size in outer):
        raise PydanticCustomError("outer", "no outside of a tube")
    return outer


LEAST_OUTER_MM, MOST_OUTER_MM = 4.0, 300.0

Outer = Annotated[
    tuple[OuterSize, OuterSize],
    BeforeValidator(_across_and_up, json_schema_input_type=OuterSize | tuple[OuterSize, OuterSize]),
    AfterValidator(_is_outer),
    Field(title="outer", description="Outside of the tube; [across, up] for one that is not round."),
]


class OnEntry(Entry):
    """Where a hole is on its tube; `window` is one between two cavities."""

    zone: (
        Annotated[Id, Field(title="zone", description="The cavity; left out where `joins` names one only.")] | None
    ) = None
    from_start: AlongTube | None = None
    from_end: AlongTube | None = None
    end: Annotated[
        Literal["start", "end", "window"] | None,
        Field(title="end", description="start or end: the tube's open end by its path; window: between two cavities."),
    ] = None
    side: Side | None = None
    lean: Lean | None = None
    off: OffMiddle | None = None


def _window_word(on: object) -> object:
    if isinstance(on, str) and on != WINDOW:
        raise PydanticCustomError("on_tube", "no place on a tube")
    return {"end": WINDOW} if on == WINDOW else on


On = Annotated[
    OnEntry,
    BeforeValidator(_window_word, json_schema_input_type=OnEntry | Literal["window"]),
    Field(title="on", description="Where it is on its tube, or window; in place of at and heading."),
]


def on_complaints(on: OnEntry, joins: tuple[str, str], path: Path) -> Iterator[Complaint]:
    """What a hole's place on its tube says against itself."""
    told = [name for name in ("from_start", "from_end", "end") if getattr(on, name) is not None]
    if len(told) != 1:
        given = f"{' and '.join(told)} were given" if told else "no place along the tube was given"
        yield path, given, "one of from_start, from_end and end, or window"
    tubes = [zone for zone in joins if zone != OUTSIDE]
    if not tubes:
        yield path, f"a place on a tube was given, and the port joins {OUTSIDE} only", "a cavity in joins"
        return
    if on.end == WINDOW:
        extra = [name for name in ("zone", "side", "lean", "off") if getattr(on, name) is not None]
        if extra:
            yield (*path, extra[0]), f"{extra[0]} was given with a window", "a window needs nothing else"
        if len(tubes) < 2:
            yield path, f"a window was given, and the port joins {' and '.join(joins)}", "two cavities in joins"
        return
    if on.zone is None and len(tubes) > 1:
        yield (*path, "zone"), "nothing was given", f"{' or '.join(tubes)}: the tube that it is told on"
    elif on.zone is not None and on.zone not in tubes:
        yield (*path, "zone"), f"{on.zone} was given", f"a zone that the port joins: {' or '.join(tubes)}"
    if on.end is not None and on.lean is not None:
        yield (*path, "lean"), f"{on.lean:g} degrees was given", "none at an open end: the line lies along the tube"
    if on.side is None and (on.end is None or on.off is not None):
        yield (*path, "side"), "nothing was given", _SIDES_ALLOWED
    if on.end is not None and on.side is not None and on.off is None:
        yield (*path, "off"), "nothing was given", "how far from the middle line, or no side for the middle itself"


_SIDES_ALLOWED = "left, right, top, bottom, front, back or an hour of the clock from 0 to 12 by halves is allowed"


def tube_place(on: OnEntry, *, zone_id: str, tilt_deg: float) -> TubePlace:
    """The planner's place on a tube; a hole without a lean leans as its line does.

    tilt_deg : of the line in the hole
    """
    fields: dict[str, Any] = {"lean_deg": tilt_deg if on.lean is None else on.lean} if on.end is None else {}
    return TubePlace(
        zone_id=zone_id,
        from_start_mm=on.from_start,
        from_end_mm=on.from_end,
        end=None if on.end is None else TubeEnd(on.end),
        side=None if on.side is None else _tube_side(on.side),
        off_mm=on.off,
        **fields,
    )


def _tube_side(side: str) -> TubeSide:
    return TubeSide.of_word(SideWord(side)) if side in _WORDS else TubeSide(word=None, clock=float(side) % 12)
