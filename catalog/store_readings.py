"""A value measured at the bench, taken into a frame of the store as a new revision of it."""

from collections.abc import Sequence
from typing import Any

from catalog.readings import Reading, ReadingNotPlaced, frame_with, frame_with_all
from catalog.store import Store
from catalog.store_catalog import catalog_with
from catalog.store_things import Change, Pin, Revision

MOST_NOTE = 500
"""Signs of a note in a history."""


def take_into_store(reading: Reading, store: Store, *, note: str = "") -> tuple[Pin, Any]:
    """Save the value as a new revision of the frame.

    Returns that revision, and what the figure was before.

    Raises as `take_into_files` does, and EditConflict where somebody saved the frame meanwhile.
    """
    _, before = frame_with(_frame_of(store, reading.frame_id).content, reading)
    return take_all_into_store([reading], store, note=note), before


def take_all_into_store(readings: Sequence[Reading], store: Store, *, note: str = "") -> Pin:
    """Save values of one frame as one new revision of it, and tell that revision.

    Raises as `take_into_store` does.
    """
    frame_id, by = readings[0].frame_id, readings[0].by
    now = _frame_of(store, frame_id)
    content = frame_with_all(now.content, readings)
    change = Change(kind="frame", id=frame_id, name=now.name, content=content, based_on=now.pin.revision)
    catalog_with(store, change)
    return store.documents.save(change, by=by, note=note or note_of(readings)).pin


def note_of(readings: Sequence[Reading]) -> str:
    """Why a revision that holds these values was made, for its history."""
    told = (f"{one.place_id}: {one.what} read as {one.told} with {one.tool or 'nothing named'}" for one in readings)
    return "; ".join(told)[:MOST_NOTE]


def _frame_of(store: Store, frame_id: str) -> Revision:
    current = {revision.pin.id: revision for revision in store.documents.list_current("frame")}
    if frame_id not in current:
        raise ReadingNotPlaced(thing="frame", given=f"{frame_id} is not in the store", allowed=current)
    return current[frame_id]
