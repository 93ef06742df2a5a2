"""A figure as it is typed where a plan asks to measure it: read, and held against what a catalog takes."""

from dataclasses import dataclass, replace
from functools import cache

from catalog import FieldHelp, Reading, Spread, annotation_of, asked_field, fields_in, spread_of
from planner.parts import Figure, FigureRead, LineFigure, PortLooks, ReadWhat, is_gauged
from ui.shared.number_text import read_measure_typed, read_number
from ui.shared.opening_text import OpeningNotUnderstood, holds_a_range, opening_fields, read_opening

OFF_MM = "0.1"
"""What a hole's reading may be off, until somebody says otherwise: common practice with calipers, no source."""

_FIELDS: dict[ReadWhat | LineFigure, tuple[str, str]] = {
    ReadWhat.LEAN: ("port", "tilt"),
    ReadWhat.WALL: ("port", "wall"),
    ReadWhat.BORE: ("guide", "bore"),
    ReadWhat.BEND: ("guide", "bend_radius"),
    ReadWhat.CAVITY: ("zone", "bore"),
    LineFigure.OLD_OUTER: ("line", "outer"),
    LineFigure.OLD_CABLE: ("line", "cable"),
    LineFigure.STAYING_OUTER: ("line", "outer"),
    LineFigure.BORE: ("line", "bore"),
    LineFigure.JOINT_OUTER: ("fitting", "joint_outer"),
    LineFigure.JOINT_HOLDS: ("fitting", "joint_holds"),
}
"""The field of an entry that each number stands in."""

_ONE_NUMBER = (LineFigure.OLD_CABLE, LineFigure.BORE, LineFigure.JOINT_OUTER, LineFigure.JOINT_HOLDS, ReadWhat.BEND)
"""Figures that have no plus or minus of their own."""

_OF_ONE_PIECE = (LineFigure.OLD_OUTER, LineFigure.OLD_CABLE, LineFigure.STAYING_OUTER)
"""Figures of a line as it lies in one frame."""

LOOKS_WORDS = {
    PortLooks.SIDE: "through the tube's side",
    PortLooks.ALONG: "along the tube, as a boss or a window",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedFigure:
    """What was typed for a figure.

    read : for a plan; None where nothing was typed, or it cannot be read
    told : the same as a command would take it; "" with it
    problem : what is wrong, as a sentence; "" where nothing is
    remark : how it was read, where that may surprise; "" where not
    """

    read: FigureRead | None = None
    told: str = ""
    problem: str = ""
    remark: str = ""


@cache
def figure_help(what: ReadWhat | LineFigure) -> FieldHelp:
    """The range and unit of a number, as its entry has them."""
    kind, name = _FIELDS[what]
    if kind in ("line", "fitting"):
        return next(one.help for one in fields_in(annotation_of(kind), {}) if one.help.name == name)
    return asked_field(kind, name)


def read_figure(figure: Figure, typed: str, *, off_typed: str = "") -> TypedFigure:
    """What was typed for it, with a decimal point or comma; of a number also a range such as 6.5..7.

    off_typed : how far the sizes of a hole may be off
    """
    words = typed.strip()
    if not words:
        return TypedFigure()
    if figure.what is ReadWhat.LOOKS:
        return TypedFigure(read=FigureRead(figure=figure, value=PortLooks(words)), told=words)
    if isinstance(figure.what, ReadWhat) and figure.what.is_hole:
        return _read_hole(figure, words, off_typed or OFF_MM)
    takes_range = figure.what not in _ONE_NUMBER
    number = (read_measure_typed if takes_range else read_number)(words, unit=figure.unit)
    if number.value is None:
        return TypedFigure(problem=number.problem or "Type a number.")
    known = figure_help(figure.what)
    ends = (number.value.low, number.value.high) if isinstance(number.value, Spread) else (number.value,)
    if not all(known.takes(end) for end in ends):
        return TypedFigure(problem=f"“{words}” was given; {known.range} is allowed.")
    read = FigureRead(figure=figure, value=float(number.value), half=spread_of(number.value))
    told = "..".join(f"{end:.10g}" for end in ends)
    return TypedFigure(read=read, told=told, remark=number.remark)


def _read_hole(figure: Figure, words: str, off_typed: str) -> TypedFigure:
    number, off = read_number(words, unit="mm"), read_number(off_typed, unit="mm")
    shape = f"round {number.value:g}" if number.value is not None else _with_points(words)
    if off.value is None or off.value < 0:
        return TypedFigure(problem="How far it may be off is not a number from 0 on.")
    try:
        opening = read_opening(shape, tolerance_mm=off.value)
    except OpeningNotUnderstood as misread:
        return TypedFigure(problem=f"{misread}.")
    return TypedFigure(read=FigureRead(figure=figure, value=opening), told=shape, remark=number.remark)


def _with_points(words: str) -> str:
    """Decimal commas as points; the corners of an outline keep theirs, which part them."""
    return words if words.lower().startswith("outline") else words.replace(",", ".")


def reading_of(typed: TypedFigure, *, frame_id: str, by: str, on: str, tool: str) -> Reading:
    """What was read, as a frame's entry takes it.

    by, on, tool : who read it, on which day, with what

    Raises ValueError for what is not a figure of a frame, or was not read.
    """
    read = typed.read
    if read is None or not isinstance(read.figure.what, ReadWhat):
        raise ValueError("only a figure of a frame that was read goes into its entry")
    value: object = str(read.value)
    tolerance_mm = None
    if read.figure.what.is_hole:
        assert not isinstance(read.value, int | float | str), "a hole is read as its opening"
        has_own = holds_a_range(typed.told) or is_gauged(read.value)
        value = opening_fields(read.value if has_own else replace(read.value, tolerance_mm=0.0))
        tolerance_mm = None if has_own else read.value.tolerance_mm
    elif isinstance(read.value, int | float):
        value = typed.told if holds_a_range(typed.told) else _plain(float(read.value))
    return Reading(
        frame_id=frame_id,
        place_id=read.figure.id,
        what=read.figure.what,
        value=value,
        told=typed.told,
        tolerance_mm=tolerance_mm,
        by=by,
        on=on,
        tool=tool,
    )


def _plain(number: float) -> int | float:
    return int(number) if number.is_integer() else number


@dataclass(frozen=True, slots=True, kw_only=True)
class LineReading:
    """A figure of a line or a fitting, as its entry takes it.

    kind, id : of the entry
    field : of it
    value : in the field's unit [mm or N]
    """

    kind: str
    id: str
    field: str
    value: int | float


def line_reading_of(typed: TypedFigure) -> LineReading | None:
    """What was read, for the entry of its line or fitting; None where no entry is to take it.

    How thick a line is that lies in a frame is a figure of that piece alone: its entry tells what such a line is as
    sold, and new ones would be planned by it.
    """
    read = typed.read
    if read is None or not isinstance(read.figure.what, LineFigure) or read.figure.what in _OF_ONE_PIECE:
        return None
    assert isinstance(read.value, int | float), "a figure of a line is a number"
    kind, field = _FIELDS[read.figure.what]
    return LineReading(kind=kind, id=read.figure.id, field=field, value=_plain(float(read.value)))
