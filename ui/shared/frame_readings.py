"""Figures read at the bench, written into a frame of the store, or into a copy of one that lies in files."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from catalog import STARTER_FOLDER, Catalog, Change, Pin, Reading
from ui.shared.catalog_choice import CatalogChoice

if TYPE_CHECKING:
    from catalog import Store


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameHome:
    """Where the entry of a frame lies that figures are to go into.

    fields : what it says now
    revision : of the store's entry; None where the store has none
    is_store_empty : whether the store holds no catalog at all
    """

    fields: Mapping[str, Any]
    revision: int | None
    is_store_empty: bool


def find_home(store: "Store", frame_id: str, catalog: Catalog) -> FrameHome:
    """The store's entry of a frame, or else the one of the catalog in use."""
    current = store.documents.list_current("frame")
    own = next((one for one in current if one.pin.id == frame_id), None)
    is_empty = own is None and not store.documents.list_current(with_withdrawn=True)
    if own is not None:
        return FrameHome(fields=own.content, revision=own.pin.revision, is_store_empty=False)
    entry = next(one for one in catalog.entries.frames if one.id == frame_id)
    fields = entry.model_dump(mode="json", by_alias=True, exclude_unset=True)
    return FrameHome(fields=fields, revision=None, is_store_empty=is_empty)


def changes_told(home: FrameHome, readings: Sequence[Reading]) -> list[tuple[str, str]]:
    """What each reading finds in it and what it puts there, in words.

    Raises ReadingNotPlaced where the frame has no such place.
    """
    from catalog import frame_with

    told = []
    for reading in readings:
        after, before = frame_with(home.fields, reading)
        _, now = frame_with(after, reading)
        told.append((value_words(before), value_words(now)))
    return told


def value_words(value: Any) -> str:
    """A figure of a frame as its entry has it, in words."""
    if value is None:
        return "not measured"
    if isinstance(value, Mapping):
        return ", ".join(f"{name.replace('_', ' ')} {value_words(one)}" for name, one in value.items())
    if isinstance(value, list):
        return f"{len(value)} of them"
    return f"{value:g}" if isinstance(value, int | float) else str(value)


def write_readings(
    store: "Store", readings: Sequence[Reading], catalog: Catalog, choice: CatalogChoice, *, note: str = ""
) -> Pin:
    """Save the frame with the readings in it, and tell its revision; all that this takes is written, or nothing.

    An empty store takes in the catalog in use first; one without this frame gets a copy of it.

    choice : the files of the catalog in use

    Raises CatalogError where the store or the frame does not take them.
    """
    from catalog import catalog_with, prepare_import, take_all_into_store

    frame_id, by = readings[0].frame_id, readings[0].by
    home = find_home(store, frame_id, catalog)
    with store.together():
        if home.is_store_empty:
            paths = choice.paths or (STARTER_FOLDER,)
            ready = prepare_import(store, paths, over_starter=bool(choice.paths) and not choice.is_bare)
            store.documents.save_all(ready.changes, by=by, note=f"for a figure of {frame_id}")
        elif home.revision is None:
            name = str(home.fields.get("name") or frame_id)[:200]
            copy = Change(kind="frame", id=frame_id, name=name, content=dict(home.fields), based_on=None)
            catalog_with(store, copy)
            store.documents.save(copy, by=by, note="a copy from files")
        return take_all_into_store(readings, store, note=note)
