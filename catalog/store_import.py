"""Catalog files into the store, without loss: the text of every file is kept too, comments and all.

An entry that was changed in the file becomes a new revision; one that was changed in the store since it was last read
from that file is left as it is; one that was changed in both is a conflict.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Any

from catalog.edit_yaml import edit_yaml
from catalog.errors import CatalogProblems
from catalog.naming import SECTION_WORDS
from catalog.open_catalog import Contents, contents_of, paths_over_starter
from catalog.read_files import Document, read_content, read_documents
from catalog.starter_files import is_starter_file
from catalog.store import Store
from catalog.store_differences import differences, sentences
from catalog.store_errors import EditConflict, SeveralConflicts, StoreRefused
from catalog.store_export import FILE_KIND, Key, entries_of
from catalog.store_things import Change, Pin, Revision


@dataclass(frozen=True, slots=True, kw_only=True)
class Imported:
    """What reading files into the store did.

    saved : new revisions, in the order of the files
    unchanged : documents that said the same already
    kept : documents that were changed in the store since, and not in the file
    """

    saved: tuple[Pin, ...]
    unchanged: tuple[Pin, ...]
    kept: tuple[Pin, ...]


def import_files(
    store: Store, paths: Sequence[Path], *, by: str, note: str = "", over_starter: bool = False
) -> Imported:
    """Read catalog files into the store, all of them or none.

    over_starter : whether the starter catalog is read in below them: where both have an id, without the starter's

    Raises CatalogProblems with everything that is wrong in any of the files.
    Raises EditConflict when an entry was changed both in a file and in the store since that file was last read.
    """
    named = {str(path) for path in paths}
    read = read_documents(paths_over_starter(paths) if over_starter else paths)
    documents = [document for document in read if document.is_catalog or document.file in named]
    contents = contents_of(documents)
    if contents.problems:
        raise CatalogProblems(contents.problems)
    documents = [document for document in documents if not _gave_way(document, contents)]
    current = {(r.pin.kind, r.pin.id): r for r in store.documents.list_current(with_withdrawn=True)}
    texts = {document.file: _text_of(document, contents) for document in documents}
    _refuse_second_home(texts, current)
    moved = _moved_from_starter(documents, contents, current)
    changes: list[Change] = []
    unchanged: list[Pin] = []
    kept: list[Pin] = []
    conflicts: list[EditConflict] = []
    for document in documents:
        text = texts[document.file]
        held = current.get((FILE_KIND, _id_of_file(document.file)))
        base = moved | ({} if held is None else entries_of(str(held.content["text"])))
        for key, entry in entries_of(text).items():
            now = current.get(key)
            if now is None or _is_new_word(entry, base.get(key), now):
                changes.append(_change(key, entry, now))
            elif _same(entry, now):
                unchanged.append(now.pin)
            elif key in base and not differences(base[key], entry):
                kept.append(now.pin)
            else:
                conflicts.append(_conflict(now, base.get(key, {}), entry, document.file))
        changes.append(_file_change(document.file, text, held))
    if conflicts:
        raise conflicts[0] if len(conflicts) == 1 else SeveralConflicts(conflicts)
    saved = store.documents.save_all(changes, by=by, note=note or "read from files")
    is_new = [
        revision.pin
        for revision, change in zip(saved, changes, strict=True)
        if change.kind != FILE_KIND and revision.pin.revision != change.based_on
    ]
    return Imported(saved=tuple(is_new), unchanged=tuple(unchanged), kept=tuple(kept))


def _gave_way(document: Document, contents: Contents) -> bool:
    """Whether a file of the starter catalog stands back behind the shop's own."""
    is_starter = is_starter_file(document.file)
    return is_starter and all(item.document.file != document.file for item in contents.placed)


def _moved_from_starter(
    documents: Sequence[Document], contents: Contents, current: Mapping[Key, Revision]
) -> dict[Key, dict[str, Any]]:
    """Entries that stood in a file of the starter and stand in one of the shop's own now, as the store has them."""
    gave_way = {(SECTION_WORDS[section], id) for section, id in contents.layers.given_way}
    held = [current.get((FILE_KIND, _id_of_file(one.file))) for one in documents if is_starter_file(one.file)]
    texts = (str(file.content["text"]) for file in held if file is not None)
    return {key: entry for text in texts for key, entry in entries_of(text).items() if key in gave_way}


def _refuse_second_home(texts: Mapping[str, str], current: Mapping[Key, Revision]) -> None:
    """An entry stands in one file only, or nobody could say which of them is meant."""
    coming = {_id_of_file(file) for file in texts}
    homes = {
        key: str(file.content["name"])
        for (kind, id), file in current.items()
        if kind == FILE_KIND and id not in coming and not file.is_withdrawn
        for key in entries_of(str(file.content["text"]))
    }
    for file, text in texts.items():
        for kind, id in entries_of(text):
            if (kind, id) in homes and not current[kind, id].is_withdrawn:
                rule = f"it stands in {homes[kind, id]} already: take it out of one of the two"
                raise StoreRefused(thing=f"{kind} {id}", given=Path(file).name, rule=rule)


def _is_new_word(entry: Mapping[str, Any], base: Mapping[str, Any] | None, now: Revision) -> bool:
    """Whether the file says something new, and the store still says what the file said before."""
    untouched = base is not None and not differences(base, now.content) and not now.is_withdrawn
    return untouched and bool(differences(now.content, entry))


def _same(entry: Mapping[str, Any], now: Revision) -> bool:
    return not now.is_withdrawn and not differences(now.content, entry)


def _change(key: Key, entry: Mapping[str, Any], now: Revision | None) -> Change:
    kind, id = key
    name = str(entry.get("name") or id)
    return Change(kind=kind, id=id, name=name, content=dict(entry), based_on=now.pin.revision if now else None)


def _file_change(file: str, text: str, held: Revision | None) -> Change:
    name = Path(file).name
    content = {"name": name, "text": text}
    based_on = None if held is None else held.pin.revision
    return Change(kind=FILE_KIND, id=_id_of_file(file), name=name, content=content, based_on=based_on)


def _conflict(now: Revision, base: Mapping[str, Any], entry: Mapping[str, Any], file: str) -> EditConflict:
    they, you = differences(base, now.content), differences(base, entry)
    return EditConflict(
        thing=f"{now.pin.kind} {now.pin.id} in {Path(file).name}",
        opened_revision=None,
        current_revision=now.pin.revision,
        saved_by=now.saved_by,
        saved_at=f"{now.saved_at:%Y-%m-%d %H:%M} UTC",
        they_changed=("it was withdrawn",) if now.is_withdrawn else sentences(they),
        you_changed=sentences(you),
        both_changed=tuple(place for place in you if place in they),
    )


def _text_of(document: Document, contents: Contents) -> str:
    """The text of a file; of one of the starter's, without the entries that own ones stand in for."""
    text = read_content(Path(document.file)).decode("utf-8")
    value = document.text.value
    if not contents.layers.given_way or not is_starter_file(document.file) or not isinstance(value, dict):
        return text
    left = {
        section: [item for item in items if (section, item.get("id")) not in contents.layers.given_way]
        if isinstance(items, list)
        else items
        for section, items in value.items()
    }
    return text if left == value else edit_yaml(text, left)


def _id_of_file(file: str) -> str:
    """The name of a file as an id; one with other signs in it is told apart by a few digits of its hash."""
    name = Path(file).name
    plain = re.sub(r"[^\w.+-]", "-", name)
    return plain if plain == name and name[0] not in ".+-" else f"file-{plain}-{sha256(name.encode()).hexdigest()[:8]}"
