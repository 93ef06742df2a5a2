"""A value measured at the bench, taken into its frame: the figure itself, and who read it when and with what.

The readings of a place are kept in the order they were taken, so that one can see what a figure was before.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from catalog.edit_yaml import edit_yaml
from catalog.errors import CatalogError
from catalog.open_catalog import catalog_of_documents
from catalog.read_files import Document, document_of, read_documents
from catalog.starter_place import is_starter_file, paths_over_starter
from catalog.write_files import write_file
from planner.parts import ReadWhat

_OTHER_SECTIONS = {
    ReadWhat.LENGTH: "runs",
    ReadWhat.BORE: "runs",
    ReadWhat.BEND: "runs",
    ReadWhat.CAVITY: "zones",
}
"""Where a figure stands that is not one of a port."""

_PATHS: dict[ReadWhat, tuple[str, ...]] = {
    ReadWhat.OPENING: ("opening",),
    ReadWhat.INSERT: ("insert", "opening"),
    ReadWhat.LEAN: ("tilt",),
    ReadWhat.WALL: ("wall",),
    ReadWhat.LOOKS: ("looks",),
    ReadWhat.LENGTH: ("length",),
    ReadWhat.BORE: ("guide", "bore"),
    ReadWhat.BEND: ("guide", "bend_radius"),
    ReadWhat.CAVITY: ("bore",),
}


class ReadingNotPlaced(CatalogError):  # noqa: N818
    """There is no such thing in the frame to be measured."""

    def __init__(self, *, thing: str, given: str, allowed: Iterable[str]) -> None:
        self.thing, self.given, self.allowed = thing, given, tuple(allowed)
        super().__init__(f"{thing}: {given}, allowed: {', '.join(self.allowed) or 'nothing'}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One value read at the bicycle.

    frame_id, place_id : the frame, and its port, run or zone
    what : which figure of it
    value : as a file says it: a number, or the fields of an opening
    told : the same in the words it was told in
    tolerance_mm : how far it may be off, for a size of a hole; None leaves the shop's own
    by, on, tool : who read it, on which day, with what
    """

    frame_id: str
    place_id: str
    what: ReadWhat
    value: Any
    told: str
    tolerance_mm: float | None
    by: str
    on: str
    tool: str


def take_into_files(reading: Reading, paths: Sequence[Path]) -> tuple[Path, Any]:
    """Write the value into the catalog file that holds the frame; every comment and all layout stay.

    Returns that file, and what the figure was before; None where nobody had measured it.

    Raises ReadingNotPlaced where no file has the frame or the frame no such place, CatalogProblems where the value is
        not one that a frame may have, and then nothing is written.
    """
    documents = [document for document in read_documents(paths_over_starter(paths)) if document.is_catalog]
    own = [document for document in documents if not is_starter_file(document.file)]
    home = next((document for document in own if _frame_in(document, reading.frame_id) is not None), None)
    if home is None:
        known = [str(frame["id"]) for document in own for frame in _frames(document)]
        raise ReadingNotPlaced(thing="frame", given=f"{reading.frame_id} is in none of the files", allowed=known)
    text, before = _text_with(home, reading)
    after = document_of(home.file, text.encode("utf-8"))
    catalog_of_documents(tuple(after if one is home else one for one in documents), read_from=())
    write_file(Path(home.file), text, replaces=True, was=home.content)
    return Path(home.file), before


def _text_with(home: Document, reading: Reading) -> tuple[str, Any]:
    frame, value = _frame_in(home, reading.frame_id), home.text.value
    assert frame is not None
    assert isinstance(value, dict), "a file with frames in it says something"
    changed, before = frame_with(frame, reading)
    frames = [changed if raw is frame else raw for raw in value["frames"]]
    return edit_yaml(home.content.decode("utf-8"), {**value, "frames": frames}), before


def frame_with_all(frame: Mapping[str, Any], readings: Iterable[Reading]) -> dict[str, Any]:
    """The fields of a frame with several values in their places.

    Raises ReadingNotPlaced where the frame has no such place.
    """
    for reading in readings:
        frame, _ = frame_with(frame, reading)
    return dict(frame)


def frame_with(frame: Mapping[str, Any], reading: Reading) -> tuple[dict[str, Any], Any]:
    """The fields of a frame with the value in its place, and what stood there before.

    Raises ReadingNotPlaced where the frame has no such place.
    """
    section = _OTHER_SECTIONS.get(reading.what, "ports")
    places = [place for place in frame.get(section, ()) if isinstance(place, Mapping)]
    if reading.place_id not in [place.get("id") for place in places]:
        raise ReadingNotPlaced(
            thing=f"frame {reading.frame_id} > {section}",
            given=f"{reading.place_id} has no {reading.what}",
            allowed=[str(place.get("id")) for place in places],
        )
    before: Any = None
    changed = []
    for place in places:
        if place.get("id") != reading.place_id:
            changed.append(place)
            continue
        measured, before = _place_with(place, reading)
        changed.append(measured)
    return {**frame, section: changed}, before


def _place_with(place: Mapping[str, Any], reading: Reading) -> tuple[dict[str, Any], Any]:
    *outer, name = _PATHS[reading.what]
    holder = place
    for key in outer:
        if not isinstance(holder.get(key), Mapping):
            raise ReadingNotPlaced(
                thing=f"frame {reading.frame_id} > {reading.place_id}", given=f"it has no {key}", allowed=()
            )
        holder = holder[key]
    before = holder.get(name)
    value = reading.value
    if reading.tolerance_mm is not None and isinstance(value, Mapping):
        value = {**value, "tolerance": reading.tolerance_mm}
    inner: dict[str, Any] = {**holder, name: value}
    for key in reversed(outer):
        inner = {**place, key: inner}
    note = {"what": str(reading.what), "value": reading.told, "by": reading.by, "on": reading.on, "tool": reading.tool}
    return {**inner, "readings": [*place.get("readings", ()), note]}, before


def _frames(document: Document) -> list[Mapping[str, Any]]:
    value = document.text.value
    frames = value.get("frames") if isinstance(value, dict) else None
    return [frame for frame in frames or () if isinstance(frame, Mapping) and isinstance(frame.get("id"), str)]


def _frame_in(document: Document, frame_id: str) -> Mapping[str, Any] | None:
    return next((frame for frame in _frames(document) if frame["id"] == frame_id), None)
