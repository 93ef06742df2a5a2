"""What an entry of the catalog says, field by field, in the words and units of its form."""

from collections.abc import Iterator, Mapping
from typing import Any

from catalog import EntryField, FieldSort, annotation_of, fields_in
from ui.shared.entry_values import as_text

BETWEEN = " › "
NOT_MEASURED = "not measured"


def said_in(kind: str, content: Mapping[str, Any]) -> list[tuple[str, str]]:
    """Every value of an entry with the words that lead to it, and its unit.

    kind : of the entry
    content : as a file would hold it
    """
    return list(_said(annotation_of(kind), content, ""))


def _said(annotation: Any, content: Any, path: str) -> Iterator[tuple[str, str]]:
    fields = fields_in(annotation, content) if isinstance(content, Mapping) else ()
    known = {field.help.name: field for field in fields}
    for name, value in content.items() if isinstance(content, Mapping) else ():
        field = known.get(name)
        if field is None:
            yield f"{path}{name.replace('_', ' ')}", as_text(value, FieldSort.TEXTS)
        else:
            yield from _said_of(field, value, f"{path}{field.help.label}")


def _said_of(field: EntryField, value: Any, words: str) -> Iterator[tuple[str, str]]:
    if field.sort is FieldSort.ENTRY and isinstance(value, Mapping):
        yield from _said(field.annotation, value, f"{words}{BETWEEN}")
    elif field.sort is FieldSort.ENTRIES and isinstance(value, list):
        for number, one in enumerate(value, start=1):
            yield from _said(field.annotation, one, f"{words}{BETWEEN}{_called(one, number)}{BETWEEN}")
    else:
        yield words, _told(field, value)


def _called(entry: Any, number: int) -> str:
    """An entry of a list by its label, its name or its id, with the id where another thing names it so."""
    if not isinstance(entry, Mapping):
        return f"no. {number}"
    label, id = entry.get("label") or entry.get("name"), entry.get("id")
    return f"{label} ({id})" if label and id else str(label or id or f"no. {number}")


def _told(field: EntryField, value: Any) -> str:
    match field.sort:
        case FieldSort.YES_NO:
            return "yes" if value is True else "no" if value is False else as_text(value, FieldSort.TEXT)
        case FieldSort.CHOICE:
            return as_text(value, FieldSort.TEXT).replace("_", " ")
        case FieldSort.NUMBER | FieldSort.NUMBERS if value is not None and field.help.unit:
            return f"{as_text(value, field.sort)} {field.help.unit}"
        case FieldSort.NUMBER if value is None:
            return NOT_MEASURED
        case _:
            return as_text(value, field.sort)
