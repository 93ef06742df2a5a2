"""Figures read at the bench, written into the entries of the store they belong to, or into copies of those in files."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from catalog import STARTER_FOLDER, Catalog, Change, Pin, Reading
from ui.shared.catalog_choice import CatalogChoice
from ui.shared.figure_text import LineReading

if TYPE_CHECKING:
    from catalog import Store


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryHome:
    """Where the entry lies that figures are to go into.

    kind, id, name : of the entry: a frame, a line or a fitting
    fields : what it says now
    revision : of the store's entry; None where the store has none
    is_store_empty : whether the store holds no catalog at all
    """

    kind: str
    id: str
    name: str
    fields: Mapping[str, Any]
    revision: int | None
    is_store_empty: bool


def find_home(store: "Store", kind: str, id: str, catalog: Catalog) -> EntryHome:
    """The store's entry of this kind and id, or else the one of the catalog in use."""
    own = next((one for one in store.documents.list_current(kind) if one.pin.id == id), None)
    if own is not None:
        fields, revision, is_empty = own.content, own.pin.revision, False
    else:
        is_empty = not store.documents.list_current(with_withdrawn=True)
        entry = next(one for one in getattr(catalog.entries, f"{kind}s") if one.id == id)
        fields, revision = entry.model_dump(mode="json", by_alias=True, exclude_unset=True), None
    name = str(fields.get("name") or id)[:200]
    return EntryHome(kind=kind, id=id, name=name, fields=fields, revision=revision, is_store_empty=is_empty)


def changes_told(home: EntryHome, readings: Sequence[Reading]) -> list[tuple[str, str]]:
    """What each reading of a frame finds in it and what it puts there, in words.

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


def write_all(
    store: "Store",
    readings: Sequence[Reading],
    of_lines: Sequence[LineReading],
    catalog: Catalog,
    choice: CatalogChoice,
    *,
    by: str,
    tool: str,
) -> tuple[Pin, ...]:
    """Save figures of one frame, and of lines and fittings, and tell the revision of each entry; all of it or nothing.

    An empty store takes in the catalog in use first; one without an entry gets a copy of it.

    choice : the files of the catalog in use
    by, tool : who read them, and with what

    Raises CatalogError where the store or an entry does not take them, and then nothing is written.
    """
    by_entry: dict[tuple[str, str], list[LineReading]] = {}
    for reading in of_lines:
        by_entry.setdefault((reading.kind, reading.id), []).append(reading)
    with store.together():
        of_frame = [_write_frame(store, readings, catalog, choice)] if readings else []
        others = [_write_line(store, each, catalog, choice, by=by, tool=tool) for each in by_entry.values()]
    return (*of_frame, *others)


def _write_frame(store: "Store", readings: Sequence[Reading], catalog: Catalog, choice: CatalogChoice) -> Pin:
    from catalog import take_all_into_store

    _take_in(store, find_home(store, "frame", readings[0].frame_id, catalog), choice, by=readings[0].by)
    return take_all_into_store(readings, store)


def _write_line(
    store: "Store", readings: Sequence[LineReading], catalog: Catalog, choice: CatalogChoice, *, by: str, tool: str
) -> Pin:
    from catalog import catalog_with

    kind, id = readings[0].kind, readings[0].id
    _take_in(store, find_home(store, kind, id, catalog), choice, by=by)
    now = store.documents.current(kind, id)
    content = {**now.content, **{one.field: one.value for one in readings}}
    change = Change(kind=kind, id=id, name=now.name, content=content, based_on=now.pin.revision)
    catalog_with(store, change)
    with_what = f" with {tool}" if tool else ""
    told = "; ".join(f"{one.field.replace('_', ' ')} read as {one.value:g}{with_what}" for one in readings)
    return store.documents.save(change, by=by, note=told[:500]).pin


def _take_in(store: "Store", home: EntryHome, choice: CatalogChoice, *, by: str) -> None:
    """See to it that the store has the entry: all that is in use where it is empty, else a copy of it alone."""
    from catalog import catalog_with, prepare_import

    if home.is_store_empty:
        paths = choice.paths or (STARTER_FOLDER,)
        ready = prepare_import(store, paths, over_starter=bool(choice.paths) and not choice.is_bare)
        store.documents.save_all(ready.changes, by=by, note=f"for a figure of {home.id}")
    elif home.revision is None:
        copy = Change(kind=home.kind, id=home.id, name=home.name, content=dict(home.fields), based_on=None)
        catalog_with(store, copy)
        store.documents.save(copy, by=by, note="a copy from files")
