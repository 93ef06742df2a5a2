"""Catalog files into the store and out again, without loss: the text of every file is kept, comments and all.

On the way in, an entry that was changed in the file becomes a new revision; one that was changed in the store since it
was last read from that file is left as it is; one that was changed in both is a conflict. On the way out, the kept text
is changed only where the store says something else.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Any

from catalog.edit_yaml import edit_yaml
from catalog.errors import CatalogProblems
from catalog.export_file import value_with_entry, write_atomically
from catalog.naming import SECTION_WORDS
from catalog.open_catalog import contents_of
from catalog.read_files import Document, read_documents
from catalog.store import Store
from catalog.store_differences import differences, sentences
from catalog.store_errors import EditConflict, SeveralConflicts
from catalog.store_things import Change, Pin, Revision
from catalog.yaml_text import read_yaml

FILE_KIND = "file"
SECTIONS = {**{word: section for section, word in SECTION_WORDS.items()}, "shop": "shop"}
NEW_ENTRIES_FILE = "further-entries.yaml"
Key = tuple[str, str]


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


def import_files(store: Store, paths: Sequence[Path], *, by: str, note: str = "") -> Imported:
    """Read catalog files into the store, all of them or none.

    Raises
    ------
    CatalogProblems
        With everything that is wrong in any of the files.
    EditConflict
        When an entry was changed both in a file and in the store since that file was last read.
    """
    documents = [document for document in read_documents(paths) if not document.is_job]
    contents = contents_of(documents)
    if contents.problems:
        raise CatalogProblems(contents.problems)
    current = {(r.pin.kind, r.pin.id): r for r in store.documents.list_current(with_withdrawn=True)}
    changes: list[Change] = []
    unchanged: list[Pin] = []
    kept: list[Pin] = []
    conflicts: list[EditConflict] = []
    for document in documents:
        text = _text_of(document)
        held = current.get((FILE_KIND, _id_of_file(document.file)))
        base = {} if held is None else _entries_of(str(held.content["text"]))
        for key, entry in _entries_of(text).items():
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


def export_files(store: Store, folder: Path) -> tuple[Path, ...]:
    """Write the catalog as the store has it now into a folder, under the names its files had."""
    written: list[Path] = []
    for name, text in exported_texts(store).items():
        path = folder / name
        write_atomically(path, text.encode("utf-8"))
        written.append(path)
    return tuple(written)


def exported_texts(store: Store) -> dict[str, str]:
    """The text of every catalog file, by name; what stands in no file goes into one of its own."""
    current = {(r.pin.kind, r.pin.id): r for r in store.documents.list_current(with_withdrawn=True)}
    files = [revision for key, revision in current.items() if key[0] == FILE_KIND and not revision.is_withdrawn]
    texts: dict[str, str] = {}
    told: set[Key] = set()
    for file in files:
        text = str(file.content["text"])
        keys = _entries_of(text)
        told |= set(keys)
        texts[str(file.content["name"])] = _brought_up_to_date(text, {key: current.get(key) for key in keys})
    left = [r for key, r in current.items() if key[0] in SECTIONS and key not in told and not r.is_withdrawn]
    if left:
        texts[_free_name(texts)] = _text_of_entries(left)
    return texts


def _brought_up_to_date(text: str, current: Mapping[Key, Revision | None]) -> str:
    value = _value_of(text)
    for (kind, id), revision in current.items():
        if revision is not None:
            entry = None if revision.is_withdrawn else revision.content
            value = value_with_entry(value, SECTIONS[kind], id, entry)
    return edit_yaml(text, value)


def _text_of_entries(revisions: Sequence[Revision]) -> str:
    value: dict[str, Any] = {"format": 1}
    for revision in revisions:
        value = value_with_entry(value, SECTIONS[revision.pin.kind], revision.pin.id, revision.content)
    return edit_yaml("format: 1\n", value)


def _free_name(texts: Mapping[str, str]) -> str:
    names = (NEW_ENTRIES_FILE, *(f"further-entries-{number}.yaml" for number in range(2, len(texts) + 3)))
    return next(name for name in names if name not in texts)


def _entries_of(text: str) -> dict[Key, dict[str, Any]]:
    return dict(_each_entry(_value_of(text)))


def _each_entry(value: Mapping[str, Any]) -> Iterator[tuple[Key, dict[str, Any]]]:
    for section, word in SECTION_WORDS.items():
        for entry in value.get(section) or ():
            yield (word, str(entry["id"])), entry
    if value.get("shop") is not None:
        yield ("shop", "shop"), value["shop"]


def _value_of(text: str) -> dict[str, Any]:
    value = read_yaml(text.encode("utf-8")).value
    return dict(value) if isinstance(value, dict) else {}


def _text_of(document: Document) -> str:
    return Path(document.file).read_bytes().decode("utf-8")


def _id_of_file(file: str) -> str:
    """The name of a file as an id; one with other signs in it is told apart by a few digits of its hash."""
    name = Path(file).name
    plain = re.sub(r"[^\w.+-]", "-", name)
    return plain if plain == name and name[0] not in ".+-" else f"file-{plain}-{sha256(name.encode()).hexdigest()[:8]}"
