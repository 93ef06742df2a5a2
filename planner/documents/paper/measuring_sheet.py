"""A blank sheet to take to the bicycle: its holes in order, what to measure with what, room for two readings."""

from collections.abc import Iterator, Sequence
from typing import Any

from planner.documents.drawings.shape_key import draw_shape_key
from planner.documents.drawings.svg import SOFT_INK
from planner.documents.paper.pages import pages_as_pdf
from planner.documents.paper.parts import gap, heading, picture
from planner.documents.paper.style import TICK_BOX, Cell, PageSize, table, text_width_mm, words
from planner.parts import Frame, Guide, Measure, Measured, Port, Run

MOST_HOLES = 40
"""More than any frame has: a number above it is a slip."""

_TO_WRITE = "\n"
_PLACE = "\n____________"
"""Room for a hand to write in."""
_MEASURED_WORDS = {
    Measured.ROUND: "Round hole",
    Measured.SLOT: "Slot, oval, box",
    Measured.LEAN: "Lean of the line",
    Measured.WALL: "Wall",
    Measured.INSERT: "Rubber piece",
    Measured.GUIDE: "Small tube inside",
    Measured.LENGTH: "Length of a stretch",
    Measured.OLD_LINE: "Old line",
    Measured.MOUNT: "Mount and rotor",
    Measured.LINE: "A line's thickness",
    Measured.PAPER: "Paper gauge",
}


def measuring_sheet_pdf(
    *,
    frame: Frame | None = None,
    hole_count: int = 3,
    measures: Sequence[Measure],
    page_size: PageSize = "a4",
    date_text: str = "",
    shop_name: str = "",
) -> bytes:
    """The sheet for a frame of the catalog, with what is told of it beside the empty places, or for any frame.

    Returns PDF; the same for the same input.

    frame : whose holes and stretches are listed; None for a blank one
    hole_count : holes on a blank sheet, windows inside counted
    measures : with what to measure, best tool first
    date_text : the day to print; "" for none
    shop_name : printed at the foot; "" for none

    Raises ValueError when a blank sheet is asked for no hole, or for more than 40.
    """
    if frame is None and not 1 <= hole_count <= MOST_HOLES:
        raise ValueError(f"holes: {hole_count} was given; 1 to {MOST_HOLES}")
    width_mm = text_width_mm(page_size)
    ports = [*frame.ports.values()] if frame else [None] * hole_count
    runs = [*frame.runs.values()] if frame else [None] * (hole_count + 1)
    parts = [
        words("Measuring sheet" if frame is None else f"Measuring sheet: {frame.name}", "title"),
        words(
            "Read every size twice, in two directions; for a hole the smaller counts, for a line the larger. Write – "
            "for what was not measured: that is an answer too.",
            colour=SOFT_INK,
        ),
        gap(2),
        *_about(frame, width_mm),
        *_holes(ports, width_mm),
        *_stretches(runs, width_mm),
        *_tools(measures, width_mm),
    ]
    title = "Measuring sheet" if frame is None else f"Measuring sheet: {frame.name}"
    foot = " · ".join(text for text in (shop_name, frame.id if frame else "", date_text) if text)
    return pages_as_pdf(parts, page_size=page_size, title=title, foot=foot or "measuring sheet")


def _about(frame: Frame | None, width_mm: float) -> Iterator[Any]:
    told = {} if frame is None else _mounts_told(frame)
    rows: list[list[Cell]] = [
        [("Frame", "strong"), frame.name if frame else _TO_WRITE, ("Measured by, on", "strong"), _TO_WRITE],
        [
            ("Front mount, native rotor, greatest", "strong"),
            told.get("front", _TO_WRITE),
            ("Rear mount, native rotor, greatest", "strong"),
            told.get("rear", _TO_WRITE),
        ],
        [
            ("Old line", "strong"),
            f"length ________ mm\n{TICK_BOX} between its fittings {TICK_BOX} cut ends {TICK_BOX} with fittings",
            ("Old line's thickness", "strong"),
            "________ / ________ mm",
        ],
    ]
    half_mm = width_mm / 2
    yield table(rows, widths_mm=(30, half_mm - 30, 30, half_mm - 30), has_head=False)


def _mounts_told(frame: Frame) -> dict[str, str]:
    told = {}
    for end, mount in frame.brakes.items():
        sizes = [f"{size_mm:g} mm" if size_mm else "?" for size_mm in (mount.rotor_native_mm, mount.rotor_max_mm)]
        told[str(end)] = f"{mount.mount}, {', '.join(sizes)}; right? {TICK_BOX}"
    return told


def _holes(ports: Sequence[Port | None], width_mm: float) -> Iterator[Any]:
    yield from heading("Holes, from lever to caliper, windows inside counted", followed_by_mm=60)
    key = draw_shape_key(width_mm=width_mm)
    yield from picture(key, width_mm=width_mm, height_mm=key.height_mm)
    rows: list[list[Cell]] = [["No.", "What", "Told", "First reading", "Second reading"]]
    shaded = []
    for number, port in enumerate(ports, 1):
        shaded.append(len(rows))
        rows += _hole_rows(number, port)
    yield table(rows, widths_mm=_shared(width_mm, (10, 66, 40, 32, 32)), shaded=shaded)


def _hole_rows(number: int, port: Port | None) -> list[list[Cell]]:
    if port is None:
        name: Cell = ("where: tube, mm from its upper or front end, side", "small")
        opening = lean = wall = insert = ""
    else:
        name = (port.label or port.id, "strong")
        opening = "not measured" if port.opening is None else port.opening.words
        lean, wall = f"{port.tilt_deg:g}°", f"{port.wall_thickness_mm:g} mm"
        insert = "none" if port.insert is None else f"{port.insert.opening.words} in it"
    return [
        [(str(number), "strong"), name, "", "", ""],
        ["", "shape and size, mm", opening, _PLACE, _PLACE],
        ["", "how far the line leans in it, degrees", lean, _PLACE, _PLACE],
        ["", "thickness of the wall, mm", wall, _PLACE, _PLACE],
        ["", f"rubber piece, the hole in it, mm   {TICK_BOX} comes out   {TICK_BOX} split", insert, _PLACE, _PLACE],
    ]


def _stretches(runs: Sequence[Run | None], width_mm: float) -> Iterator[Any]:
    yield from heading("Stretches, from the lever on")
    rows: list[list[Cell]] = [
        [
            "No.",
            "Stretch, hole to hole",
            "Small tube in it: bore, tightest bend, turn",
            "Length told",
            "Length, mm",
            "again",
        ]
    ]
    for number, run in enumerate(runs, 1):
        name = "" if run is None else run.label or run.id
        told = "" if run is None or run.length_mm is None else f"{run.length_mm:g} mm"
        tube = "\n____ mm   ____ mm   ____°" if run is None or run.guide is None else _guide_words(run.guide)
        rows.append([(str(number), "strong"), (name, "strong"), tube, told, _PLACE, _PLACE])
    yield table(rows, widths_mm=_shared(width_mm, (10, 46, 50, 22, 26, 26)))


def _guide_words(guide: Guide) -> str:
    bend = "straight" if guide.bend_radius_mm is None else f"bend {guide.bend_radius_mm:g} mm, {guide.turn_deg:g}°"
    return f"bore {guide.bore_diameter_mm:g} mm, {bend}"


def _tools(measures: Sequence[Measure], width_mm: float) -> Iterator[Any]:
    if not measures:
        return
    yield from heading("With what, and how well")
    rows: list[list[Cell]] = [["What", "With", "Usually off by", "Mind"]]
    for measure in measures:
        unit = "°" if measure.of is Measured.LEAN else " mm"
        off = "" if measure.give_or_take is None else f"±{measure.give_or_take:g}{unit}"
        rows.append([(_MEASURED_WORDS[measure.of], "strong"), measure.tool, off, measure.hint])
    yield table(rows, widths_mm=_shared(width_mm, (34, 60, 22, 64)))


def _shared(width_mm: float, parts_mm: Sequence[float]) -> list[float]:
    return [part_mm * width_mm / sum(parts_mm) for part_mm in parts_mm]
