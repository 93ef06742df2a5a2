"""Catalog files out of the store: the text that was read in, changed only where the store says something else."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from catalog.edit_yaml import edit_yaml
from catalog.errors import PartNotInCatalog
from catalog.naming import SECTION_WORDS
from catalog.read_files import LIST_SECTIONS
from catalog.store import Store
from catalog.store_things import Revision
from catalog.yaml_text import read_yaml

FILE_KIND = "file"
"""The kind of the documents that hold the texts of files."""

SECTIONS = {**{SECTION_WORDS[section]: section for section in LIST_SECTIONS}, "shop": "shop"}
"""Where in a file a document of each kind stands."""

NEW_ENTRIES_FILE = "further-entries.yaml"
Key = tuple[str, str]


def exported_texts(store: Store) -> dict[str, str]:
    """The text of every catalog file, by name; what stands in no file goes into one of its own."""
    return texts_of(store.documents.list_current(with_withdrawn=True))


def texts_of(revisions: Sequence[Revision]) -> dict[str, str]:
    """The same for some revisions of the catalog: its files, each brought up to date with the entries."""
    current = {(r.pin.kind, r.pin.id): r for r in revisions}
    files = [revision for key, revision in current.items() if key[0] == FILE_KIND and not revision.is_withdrawn]
    texts: dict[str, str] = {}
    told: set[Key] = set()
    for file in files:
        text = str(file.content["text"])
        keys = entries_of(text)
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


def entries_of(text: str) -> dict[Key, dict[str, Any]]:
    """The entries a file's text holds, by kind and id."""
    return dict(_each_entry(_value_of(text)))


def _each_entry(value: Mapping[str, Any]) -> Iterator[tuple[Key, dict[str, Any]]]:
    for section in LIST_SECTIONS:
        for entry in value.get(section) or ():
            yield (SECTION_WORDS[section], str(entry["id"])), entry
    if value.get("shop") is not None:
        yield ("shop", "shop"), value["shop"]


def _value_of(text: str) -> dict[str, Any]:
    value = read_yaml(text.encode("utf-8")).value
    return dict(value) if isinstance(value, dict) else {}


def value_with_entry(
    value: Mapping[str, Any], section: str, id: str, entry: Mapping[str, Any] | None
) -> dict[str, Any]:
    """What a file says with one entry changed, added or taken out (None).

    Raises PartNotInCatalog where what is to be taken out is not there.
    """
    if section == "shop":
        rest = {key: inner for key, inner in value.items() if key != "shop"}
        return rest if entry is None else {**value, "shop": dict(entry)}
    items = list(value.get(section) or ())
    places = [place for place, item in enumerate(items) if isinstance(item, Mapping) and item.get("id") == id]
    if entry is None and not places:
        known = [str(item.get("id")) for item in items if isinstance(item, Mapping)]
        raise PartNotInCatalog(kind=section, asked=id, near=known[:3])
    if entry is None:
        del items[places[0]]
    elif places:
        items[places[0]] = dict(entry)
    else:
        items.append(dict(entry))
    return {**value, section: items}
