"""What in the store uses an entry: other entries and jobs that name it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from catalog.store import Store
from catalog.store_export import FILE_KIND

MOST_TOLD = 50


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryUsers:
    """Who names an entry.

    entries : kind, id and name of each, at most 50
    jobs : id and title of each, those changed last first, at most 50
    """

    entries: tuple[tuple[str, str, str], ...]
    jobs: tuple[tuple[str, str], ...]


def users_of(store: Store, kind: str, id: str) -> EntryUsers:
    """Entries and jobs that name an entry by its id."""
    entries = tuple(
        (revision.pin.kind, revision.pin.id, revision.name)
        for revision in store.documents.list_current()
        if revision.pin.kind != FILE_KIND and (revision.pin.kind, revision.pin.id) != (kind, id)
        if id in _texts(revision.content)
    )
    return EntryUsers(entries=entries[:MOST_TOLD], jobs=store.jobs.naming(id, most=MOST_TOLD))


def _texts(value: Any) -> Iterator[str]:
    """Every text in an entry but its own words."""
    if isinstance(value, Mapping):
        for name, inner in value.items():
            if name not in ("id", "name", "note", "source", "text", "why"):
                yield from _texts(inner)
    elif isinstance(value, list | tuple):
        for inner in value:
            yield from _texts(inner)
    elif isinstance(value, str):
        yield value
