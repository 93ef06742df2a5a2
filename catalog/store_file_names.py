"""Files in the store go by their names: one file of a name, and one file for an entry."""

import re
from collections.abc import Collection, Iterator, Mapping, Sequence
from hashlib import sha256
from pathlib import Path

from catalog.edit_yaml import edit_yaml
from catalog.open_catalog import Contents
from catalog.read_files import Document, document_of
from catalog.starter_place import is_starter_file
from catalog.store_errors import StoreRefused
from catalog.store_export import FILE_KIND, Key, entries_of
from catalog.store_things import Revision

REST_OF_STARTER = "starter-"


def id_of_file(file: str) -> str:
    """The name of a file as an id; one with other signs in it is told apart by a few digits of its hash."""
    name = Path(file).name
    plain = re.sub(r"[^\w.+-]", "-", name)
    return plain if plain == name and name[0] not in ".+-" else f"file-{plain}-{sha256(name.encode()).hexdigest()[:8]}"


def text_as_read(document: Document, contents: Contents) -> str:
    """What a file says, character for character; one of the starter's, without what own entries stand in for."""
    text = _text_of(document)
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


def starter_as_kept(documents: Sequence[Document], current: Mapping[Key, Revision]) -> list[Document]:
    """Own files and the starter's below them, the starter's as the store has them where it does.

    Where an own file has the name of one of the starter's, it takes its place in a store that has that one; in one that
    has not, what it leaves of the starter's goes by another name.
    """
    own = [document for document in documents if not is_starter_file(document.file)]
    taken = {Path(document.file).name for document in own}
    found = list(own)
    for document in documents:
        path = Path(document.file)
        held = current.get((FILE_KIND, id_of_file(document.file)))
        is_held = held is not None and not held.is_withdrawn
        if not is_starter_file(document.file) or (is_held and path.name in taken):
            continue
        if held is not None and is_held:
            found.append(document_of(document.file, str(held.content["text"]).encode("utf-8")))
        elif path.name in taken:
            found.append(document_of(str(path.with_name(f"{REST_OF_STARTER}{path.name}")), document.content))
        else:
            found.append(document)
    return found


def keys_in(document: Document) -> set[Key]:
    """The entries of a file, whatever else may be wrong with it."""
    return _keys_of(_text_of(document))


def _text_of(document: Document) -> str:
    try:
        return document.content.decode("utf-8")
    except UnicodeDecodeError:
        return ""  # what is wrong is told as the file's own problem


def _keys_of(text: str) -> set[Key]:
    try:
        return set(entries_of(text))
    except (TypeError, KeyError, AttributeError):
        return set()  # likewise


def refuse_same_names(documents: Sequence[Document]) -> None:
    """Two files of one name would take each other's place, comments and all."""
    seen: dict[str, str] = {}
    for document in documents:
        name = Path(document.file).name
        first = seen.setdefault(name, document.file)
        if first != document.file:
            given, rule = f"{first} and {document.file}", "the store knows files by their names: rename one of the two"
            raise StoreRefused(thing=f"file {name}", given=given, rule=rule)


def homes_beside(documents: Sequence[Document], current: Mapping[Key, Revision]) -> dict[Key, str]:
    """Which entries stand in files of the store that are not among these, and the names of those files."""
    return _homes_beside({id_of_file(document.file) for document in documents}, current)


def _homes_beside(coming: Collection[str], current: Mapping[Key, Revision]) -> dict[Key, str]:
    return {key: name for id, name, keys in _files_held(current) if id not in coming for key in keys}


def refuse_second_home(texts: Mapping[str, str], current: Mapping[Key, Revision], *, prunes: bool) -> None:
    """An entry stands in one file only, or nobody could say which of them is meant; and a file keeps its name.

    texts : what is read in, by file
    prunes : whether what a file has lost is to go: then it may have lost all it had
    """
    homes = _homes_beside({id_of_file(file) for file in texts}, current)
    held = {id: keys for id, _, keys in _files_held(current)}
    for file, text in texts.items():
        name, keys = Path(file).name, _keys_of(text)
        for kind, id in sorted(keys):
            if (kind, id) in homes and not current[kind, id].is_withdrawn:
                rule = f"it stands in {homes[kind, id]} already: take it out of one of the two"
                raise StoreRefused(thing=f"{kind} {id}", given=name, rule=rule)
        before = held.get(id_of_file(file), set())
        if before and keys and not before & keys and not prunes:
            rule = (
                f"the store has another file of this name, with {' '.join(min(before))} in it: rename this one, or say "
                "--prune where it is the same file and all that it held is to go"
            )
            raise StoreRefused(thing=f"file {name}", given=file, rule=rule)


def _files_held(current: Mapping[Key, Revision]) -> Iterator[tuple[str, str, set[Key]]]:
    for (kind, id), file in current.items():
        if kind == FILE_KIND and not file.is_withdrawn:
            yield id, str(file.content["name"]), set(entries_of(str(file.content["text"])))
