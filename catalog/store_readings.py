"""A value measured at the bench, taken into a frame of the store as a new revision of it."""

from typing import Any

from catalog.readings import Reading, ReadingNotPlaced, frame_with
from catalog.store import Store
from catalog.store_catalog import catalog_with
from catalog.store_things import Change, Pin


def take_into_store(reading: Reading, store: Store, *, note: str = "") -> tuple[Pin, Any]:
    """Save the value as a new revision of the frame.

    Returns that revision, and what the figure was before.

    Raises as `take_into_files` does, and EditConflict where somebody saved the frame meanwhile.
    """
    current = {revision.pin.id: revision for revision in store.documents.list_current("frame")}
    if reading.frame_id not in current:
        raise ReadingNotPlaced(thing="frame", given=f"{reading.frame_id} is not in the store", allowed=current)
    now = current[reading.frame_id]
    content, before = frame_with(now.content, reading)
    change = Change(kind="frame", id=reading.frame_id, name=now.name, content=content, based_on=now.pin.revision)
    catalog_with(store, change)
    why = note or f"{reading.place_id}: {reading.what} read as {reading.told} with {reading.tool}"
    return store.documents.save(change, by=reading.by, note=why).pin, before
