"""A frame told by one of the catalog that is like it: its holes are asked again, all else is taken over."""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Any

from catalog import Catalog, Noted, PartNotInCatalog
from ui.shared.dialogue.frame_questions import (
    id_of_name,
    name_question,
    opening_question,
    tilt_question,
    wall_question,
)
from ui.shared.dialogue.questions import Answer, Script, Source
from ui.shared.dialogue.said_sizes import as_said, opening_fields, size_words


@dataclass(frozen=True, slots=True, kw_only=True)
class LikeFrame:
    """A frame made from another.

    entry : of a catalog file, with comments
    unknown : what nobody measured on it, in words
    """

    entry: dict[str, Any]
    unknown: tuple[str, ...]


def like_entry(catalog: Catalog, frame_id: str) -> dict[str, Any]:
    """The frame of the catalog to start from, as its file has it.

    Raises PartNotInCatalog where there is none.
    """
    for frame in catalog.entries.frames:
        if frame.id == frame_id:
            return frame.model_dump(mode="json", by_alias=True, exclude_unset=True)
    near = get_close_matches(frame_id, catalog.frames, n=3)
    raise PartNotInCatalog(kind="frame", asked=frame_id, near=near)


def like_script(entry: Mapping[str, Any], *, known_ids: Collection[str] = ()) -> Script[LikeFrame]:
    """Ask for the name, and for each hole again, with what the other frame has in brackets."""
    name = (yield name_question(known_ids)).value
    ports: list[dict[str, Any]] = []
    unknown: list[str] = []
    for port in entry["ports"]:
        called, key = port.get("label") or port["id"], f"hole {port['id']}"
        words = size_words(port.get("opening"))
        opening = yield opening_question(f"{key} opening", f"{called}: opening, mm?", default=words or None)
        lean = as_said(port.get("tilt", 0))
        tilt = yield tilt_question(f"{key} tilt", f"{called}: how far does the line lean in it, degrees?", default=lean)
        wall = yield wall_question(f"{key} wall", f"{called}: wall, mm?", default=as_said(port["wall"]))
        ports.append(_port(port, opening, tilt, wall, like=entry["id"]))
        unknown += _unknown(called, opening=opening, tilt=tilt, like=entry["id"])
    note = f"told after {entry['id']}: what was not asked is as on that one"
    made = {**entry, "id": id_of_name(name), "name": name, "note": note, "ports": ports}
    return LikeFrame(entry=made, unknown=tuple(unknown))


def _port(port: Mapping[str, Any], opening: Answer, tilt: Answer, wall: Answer, *, like: str) -> dict[str, Any]:
    kept = {name: value for name, value in port.items() if name not in ("opening", "note", "tilt", "wall")}
    return {
        **kept,
        **{name: _marked(opening, value, like) for name, value in opening_fields(opening.value).items()},
        "tilt": _marked(tilt, tilt.value.written, like),
        "wall": _marked(wall, wall.value, like),
    }


def _marked(answer: Answer, value: Any, like: str) -> Any:
    return Noted(value=value, note=f"as on {like}") if answer.source is Source.DEFAULT else value


def _unknown(called: str, *, opening: Answer, tilt: Answer, like: str) -> Iterator[str]:
    if opening.value is None or "at_least" in opening.value:
        yield f"the opening of {called}"
    elif opening.source is Source.DEFAULT:
        yield f"the opening of {called}, taken as on {like}"
    if tilt.source is Source.DEFAULT:
        yield f"the tilt at {called}, taken as on {like}"
