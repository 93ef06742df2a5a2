"""The catalog as the store has it now, or had it when something was planned."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from catalog.find_catalog import found_or_read
from catalog.kept_files import key_of
from catalog.ready_catalog import Catalog
from catalog.store import Store
from catalog.store_things import Change, Pin, Revision, once_saved


@dataclass(frozen=True, slots=True, kw_only=True)
class PinnedCatalog:
    """A catalog with the exact revisions it is made of.

    catalog : checked and ready for the planner
    pins : to be kept with a plan or quote; `catalog_at` makes the same catalog of them
    """

    catalog: Catalog
    pins: tuple[Pin, ...]


def catalog_of_store(store: Store, *, as_kept: bool = True) -> PinnedCatalog:
    """The catalog as it is now, all of it seen at one moment.

    as_kept : whether it may be found as it was kept when it was made before

    Raises CatalogProblems when entries that were edited one by one do not agree with each other.
    """
    revisions = store.documents.list_current(with_withdrawn=True)
    catalog = _catalog(revisions) if as_kept else _read(revisions)
    return PinnedCatalog(catalog=catalog, pins=tuple(revision.pin for revision in revisions))


def catalog_at(store: Store, pins: Iterable[Pin]) -> Catalog:
    """The catalog as it was, from the revisions that were pinned then."""
    return _catalog(store.documents.at_all(pins))


def catalog_with(store: Store, change: Change) -> Catalog:
    """The catalog as it would be with one entry changed, added or taken out of use.

    Raises CatalogProblems with everything that would be wrong with it.
    """
    revisions = store.documents.list_current(with_withdrawn=True)
    after = {(revision.pin.kind, revision.pin.id): revision for revision in revisions}
    after[change.kind, change.id] = once_saved(change)
    return _read([after[key] for key in sorted(after)])  # what is not saved yet has no hash to be found by


def _catalog(revisions: Sequence[Revision]) -> Catalog:
    """The catalog that revisions make: as it was kept, where they made one before."""
    told = (f"{one.pin.kind} {one.pin.id} {one.content_sha256} {one.is_withdrawn}" for one in revisions)
    return found_or_read(key_of("store", *told), lambda: _read(revisions))


def _read(revisions: Sequence[Revision]) -> Catalog:
    from catalog.open_catalog import catalog_of_documents
    from catalog.read_files import document_of
    from catalog.store_export import texts_of

    texts = texts_of(revisions)
    documents = tuple(document_of(name, text.encode("utf-8")) for name, text in texts.items())
    return catalog_of_documents(documents, read_from=("the store",))
