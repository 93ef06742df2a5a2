"""Catalog files into the store, without loss: the text of every file is kept too, comments and all.

An entry that was changed in the file becomes a new revision; one that was changed in the store since it was last read
from that file is left as it is; one that was changed in both is a conflict. An entry that left its file stays in use
until somebody says that it is to go. What would come of it all is known, and held to be sound, before anything is kept.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from catalog.errors import CatalogProblems
from catalog.open_catalog import Contents, catalog_of_documents, contents_of
from catalog.read_files import Document, document_of, read_documents
from catalog.ready_catalog import Catalog
from catalog.starter_place import is_starter_file, paths_over_starter
from catalog.store import Store
from catalog.store_differences import differences, sentences
from catalog.store_errors import EditConflict, SeveralConflicts
from catalog.store_export import FILE_KIND, Key, entries_of, texts_of
from catalog.store_file_names import (
    homes_beside,
    id_of_file,
    keys_in,
    refuse_same_names,
    refuse_second_home,
    starter_as_kept,
    text_as_read,
)
from catalog.store_things import Change, Pin, Revision, once_saved


@dataclass(frozen=True, slots=True, kw_only=True)
class Imported:
    """What reading files into the store does, or did.

    added : entries that are new, or in use again
    changed : entries with other words than before, and in short what differs
    removed : entries that are taken out of use because they left their file
    missing : entries that left their file and stay in use
    unchanged : entries that said the same already
    kept : entries that were changed in the store since, and not in the file
    stands_in : entries of the files that say something else than the starter's, such as "line hose-50x21"
    """

    added: tuple[Pin, ...] = ()
    changed: tuple[tuple[Pin, tuple[str, ...]], ...] = ()
    removed: tuple[Pin, ...] = ()
    missing: tuple[Pin, ...] = ()
    unchanged: tuple[Pin, ...] = ()
    kept: tuple[Pin, ...] = ()
    stands_in: tuple[str, ...] = ()

    @property
    def saved(self) -> tuple[Pin, ...]:
        """Every entry that has a new revision by it."""
        return tuple(sorted((*self.added, *(pin for pin, _ in self.changed), *self.removed)))


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadyImport:
    """Files read and held against the store, nothing kept yet.

    changes : what to save
    told : what that does
    catalog : the store's catalog once it is saved, and sound
    pins : the exact revisions that catalog will be made of
    """

    changes: tuple[Change, ...]
    told: Imported
    catalog: Catalog
    pins: tuple[Pin, ...]


def import_files(
    store: Store,
    paths: Sequence[Path],
    *,
    by: str,
    note: str = "",
    prunes: bool = False,
    over_starter: bool = False,
) -> Imported:
    """Read catalog files into the store, all of them or none; for the choices see `prepare_import`.

    Raises CatalogProblems with everything that is wrong in any of the files, or with the catalog they would make.
    Raises EditConflict when an entry was changed both in a file and in the store since that file was last read.
    """
    ready = prepare_import(store, paths, prunes=prunes, over_starter=over_starter)
    store.documents.save_all(ready.changes, by=by, note=note or "read from files")
    return ready.told


def prepare_import(
    store: Store, paths: Sequence[Path], *, prunes: bool = False, over_starter: bool = False
) -> ReadyImport:
    """What reading files into the store would do.

    prunes : whether entries that have left their file since it was last read are taken out of use
    over_starter : whether the starter catalog is read in below them: where both have an id, without the starter's

    Raises CatalogProblems and EditConflict as `import_files` does.
    """
    named = {str(path) for path in paths}
    current = {(r.pin.kind, r.pin.id): r for r in store.documents.list_current(with_withdrawn=True)}
    read = read_documents(paths_over_starter(paths)) if over_starter else read_documents(paths)
    documents = [document for document in read if document.is_catalog or document.file in named]
    if over_starter:
        documents = starter_as_kept(documents, current)
    refuse_same_names(documents)
    bases = _last_read(store, documents, current)
    going = bases.keys() - homes_beside(documents, current).keys() if prunes else set()
    contents = contents_of([*documents, *_rest_of_store(documents, current, lost=going)])
    documents = [document for document in documents if not _gave_way(document, contents)]
    texts = {document.file: text_as_read(document, contents) for document in documents}
    refuse_second_home(texts, current, prunes=prunes)
    if contents.problems:
        raise CatalogProblems(contents.problems)
    work = _Work(current=current, prunes=prunes, bases=bases)
    for file, text in texts.items():
        work.read(file, text)
    work.read_gaps(
        given={key for text in texts.values() for key in entries_of(text)}, beside=homes_beside(documents, current)
    )
    if work.conflicts:
        raise work.conflicts[0] if len(work.conflicts) == 1 else SeveralConflicts(work.conflicts)
    merged = {**current, **{(r.pin.kind, r.pin.id): r for r in map(once_saved, work.changes)}}
    revisions = sorted(merged.values(), key=lambda revision: revision.pin)
    catalog = catalog_of_documents(
        tuple(document_of(name, text.encode("utf-8")) for name, text in texts_of(revisions).items()),
        read_from=("the store",),
    )
    told = replace(work.told(), stands_in=_stand_ins(documents, contents))
    return ReadyImport(changes=tuple(work.changes), told=told, catalog=catalog, pins=tuple(r.pin for r in revisions))


def _stand_ins(documents: Sequence[Document], contents: Contents) -> tuple[str, ...]:
    """Those of the files that were read, without what the store says of itself."""
    own = {
        f"{kind} {id}" for document in documents if not is_starter_file(document.file) for kind, id in keys_in(document)
    }
    return tuple(name for name in contents.layers.told if name in own)


@dataclass(frozen=True, slots=True, kw_only=True)
class _LastRead:
    """An entry as one of the files had it last, and whether that is how the file was read last."""

    entry: dict[str, Any]
    file: str
    is_there_yet: bool


@dataclass(slots=True, kw_only=True)
class _Work:
    """Files held against the store, one after another."""

    current: Mapping[Key, Revision]
    prunes: bool
    bases: Mapping[Key, _LastRead]
    changes: list[Change] = field(default_factory=list)
    conflicts: list[EditConflict] = field(default_factory=list)
    added: list[Pin] = field(default_factory=list)
    changed: list[tuple[Pin, tuple[str, ...]]] = field(default_factory=list)
    removed: list[Pin] = field(default_factory=list)
    missing: list[Pin] = field(default_factory=list)
    unchanged: list[Pin] = field(default_factory=list)
    kept: list[Pin] = field(default_factory=list)

    def told(self) -> Imported:
        lists = ("added", "changed", "removed", "missing", "unchanged", "kept")
        return Imported(**{name: tuple(getattr(self, name)) for name in lists})

    def read(self, file: str, text: str) -> None:
        held = self.current.get((FILE_KIND, id_of_file(file)))
        for key, entry in entries_of(text).items():
            base = self.bases.get(key)
            self._read_entry(key, entry, base.entry if base and base.is_there_yet else None, file)
        change = _file_change(file, text, held)
        if held is None or held.is_withdrawn or differences(held.content, change.content):
            self.changes.append(change)

    def read_gaps(self, *, given: Collection[Key], beside: Collection[Key]) -> None:
        """Entries that one of the files had when it was read before, and no file has any more."""
        for key, base in self.bases.items():
            now = self.current.get(key)
            if key in given or key in beside or now is None or now.is_withdrawn:
                continue
            if not self.prunes:
                self.missing.append(now.pin)
            elif differences(base.entry, now.content):
                self.conflicts.append(_conflict(now, base.entry, None, base.file))
            else:
                self._save(key, now.content, now, withdraws=True)
                self.removed.append(_next_pin(key, now))

    def _read_entry(self, key: Key, entry: dict[str, Any], base: dict[str, Any] | None, file: str) -> None:
        now = self.current.get(key)
        if now is None or (base is None and now.is_withdrawn):
            self._save(key, entry, now)
            self.added.append(_next_pin(key, now))
        elif not now.is_withdrawn and not differences(now.content, entry):
            self.unchanged.append(now.pin)
        elif base is not None and not now.is_withdrawn and not differences(base, now.content):
            self._save(key, entry, now)
            self.changed.append((_next_pin(key, now), sentences(differences(now.content, entry))))
        elif base is not None and not differences(base, entry):
            self.kept.append(now.pin)
        else:
            self.conflicts.append(_conflict(now, base or {}, entry, file))

    def _save(self, key: Key, entry: dict[str, Any], now: Revision | None, *, withdraws: bool = False) -> None:
        kind, id = key
        name = str(entry.get("name") or id)
        based_on = now.pin.revision if now else None
        self.changes.append(
            Change(kind=kind, id=id, name=name, content=dict(entry), based_on=based_on, withdraws=withdraws)
        )


def _last_read(store: Store, documents: Sequence[Document], current: Mapping[Key, Revision]) -> dict[Key, _LastRead]:
    """Every entry the files ever had, as they had it last: what is not gone yet is still to be told of."""
    found: dict[Key, _LastRead] = {}
    for document in documents:
        id = id_of_file(document.file)
        if (FILE_KIND, id) not in current:
            continue
        texts = [str(revision.content["text"]) for revision in store.documents.history(FILE_KIND, id)]
        for text in texts:
            for key, entry in entries_of(text).items():
                found[key] = _LastRead(entry=entry, file=document.file, is_there_yet=text == texts[-1])
    return found


def _rest_of_store(
    documents: Sequence[Document], current: Mapping[Key, Revision], *, lost: Collection[Key]
) -> list[Document]:
    """What the store will hold beside the files that come, as files, so that both are checked together.

    What stands in the shop's own files there goes before the starter's, as own files do that come.
    """
    coming = {(FILE_KIND, id_of_file(document.file)) for document in documents}
    beside = homes_beside(documents, current)
    given = {
        *lost,
        *(
            key
            for document in documents
            for key in keys_in(document)
            if not (is_starter_file(document.file) and key in beside)
        ),
    }
    left = [
        revision
        for key, revision in current.items()
        if key not in coming and (key not in given or revision.is_withdrawn)
    ]
    return [document_of(f"{name} as the store has it", text.encode("utf-8")) for name, text in texts_of(left).items()]


def _gave_way(document: Document, contents: Contents) -> bool:
    """Whether a file of the starter catalog stands back behind the shop's own."""
    return is_starter_file(document.file) and all(item.document.file != document.file for item in contents.placed)


def _next_pin(key: Key, now: Revision | None) -> Pin:
    return Pin(kind=key[0], id=key[1], revision=1 if now is None else now.pin.revision + 1)


def _file_change(file: str, text: str, held: Revision | None) -> Change:
    name = Path(file).name
    content = {"name": name, "text": text}
    based_on = None if held is None else held.pin.revision
    return Change(kind=FILE_KIND, id=id_of_file(file), name=name, content=content, based_on=based_on)


def _conflict(now: Revision, base: Mapping[str, Any], entry: Mapping[str, Any] | None, file: str) -> EditConflict:
    they = differences(base, now.content)
    you = {} if entry is None else differences(base, entry)
    return EditConflict(
        thing=f"{now.pin.kind} {now.pin.id} in {Path(file).name}",
        opened_revision=None,
        current_revision=now.pin.revision,
        saved_by=now.saved_by,
        saved_at=f"{now.saved_at:%Y-%m-%d %H:%M} UTC",
        they_changed=("it was withdrawn",) if now.is_withdrawn else sentences(they),
        you_changed=("it is not in the file any more",) if entry is None else sentences(you),
        both_changed=tuple(place for place in you if place in they),
    )
