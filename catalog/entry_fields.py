"""The fields of an entry as a form asks them: of which sort each is, what stands inside it, what is wrong with it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from types import UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic import BaseModel, ValidationError

from catalog.field_help import DISCRIMINATORS, FieldHelp, fields_of, model_for, words_at
from catalog.mechanic_errors import complaints_of
from catalog.read_files import entry_kind
from catalog.store_export import SECTIONS

Path = tuple[str | int, ...]


class FieldSort(StrEnum):
    """What a field takes."""

    NUMBER = "number"
    MONEY = "money"
    TEXT = "text"
    YES_NO = "yes_no"
    CHOICE = "choice"
    TEXTS = "texts"
    NUMBERS = "numbers"
    POINTS = "points"
    ENTRY = "entry"
    ENTRIES = "entries"


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryField:
    """One field of an entry.

    help : what it is called, what it means, what it takes
    sort : what it takes
    annotation : of the schema; of a list of entries that of one of them
    kinds : words one of which must be chosen first, where it may be an entry of several kinds
    """

    help: FieldHelp
    sort: FieldSort
    annotation: Any
    kinds: tuple[str, ...] = ()


def kinds_of_entries() -> tuple[str, ...]:
    """The kinds of entries there are in a catalog."""
    return tuple(SECTIONS)


def annotation_of(kind: str) -> Any:
    """The schema of a kind of entries."""
    return entry_kind(SECTIONS[kind])[1]


def kind_word(annotation: Any) -> tuple[str, tuple[str, ...]]:
    """The field that says of which kind an entry is, and its words; "" and none where there is only one kind."""
    if model_for(annotation, {}) is not None:
        return "", ()
    words = {word: tuple(words_at(annotation, None, (), word)) for word in DISCRIMINATORS}
    return next(((word, told) for word, told in words.items() if told), ("", ()))


def fields_in(annotation: Any, value: object) -> tuple[EntryField, ...]:
    """The fields of the entry that stands there, in the order of the form; none where its kind is not told yet."""
    model = model_for(annotation, value)
    if model is None:
        return ()
    infos = {info.alias or name: info for name, info in model.model_fields.items()}
    return tuple(_field(told, infos[name].annotation) for name, told in fields_of(model).items())


def complaints_by_path(kind: str, value: Mapping[str, Any]) -> dict[Path, str]:
    """What is wrong with an entry taken by itself, by the place where it stands."""
    adapter, annotation = entry_kind(SECTIONS[kind])
    try:
        adapter.validate_python(dict(value))
    except ValidationError as error:
        found = complaints_of(error, annotation=annotation, value=value)
        return {tuple(path): f"{given}; {allowed}" for path, given, allowed in found}
    return {}


def _field(told: FieldHelp, annotation: Any) -> EntryField:
    bare = _bare(annotation)
    item = _item(bare)
    if item is not None and _has_model(item):
        return EntryField(help=told, sort=FieldSort.ENTRIES, annotation=item)
    if item is not None:
        return EntryField(help=told, sort=_sort_of_list(item), annotation=bare)
    if _has_model(bare):
        return EntryField(help=told, sort=FieldSort.ENTRY, annotation=bare, kinds=kind_word(bare)[1])
    return EntryField(help=told, sort=_sort(told, bare), annotation=bare)


def _sort(told: FieldHelp, annotation: Any) -> FieldSort:
    types = set(_types(annotation))
    if bool in types:
        return FieldSort.YES_NO
    if told.choices:
        return FieldSort.CHOICE
    if Decimal in types:
        return FieldSort.MONEY
    return FieldSort.NUMBER if types & {float, int} else FieldSort.TEXT


def _sort_of_list(item: Any) -> FieldSort:
    if _item(_bare(item)) is not None:
        return FieldSort.POINTS
    return FieldSort.NUMBERS if set(_types(item)) & {float, int} else FieldSort.TEXTS


def _bare(annotation: Any) -> Any:
    """Without what is said about it, and without the nothing that may stand in its place."""
    while True:
        if get_origin(annotation) is Annotated:
            inner = get_args(annotation)[0]
            if get_origin(inner) in (Union, UnionType) and len(_something(inner)) > 1:
                return annotation
            annotation = inner
        elif get_origin(annotation) in (Union, UnionType) and len(_something(annotation)) == 1:
            annotation = _something(annotation)[0]
        else:
            return annotation


def _something(annotation: Any) -> list[Any]:
    return [inner for inner in get_args(annotation) if inner is not type(None)]


def _item(annotation: Any) -> Any:
    """What a list holds; None for what is no list."""
    return get_args(annotation)[0] if get_origin(annotation) is tuple else None


def _has_model(annotation: Any) -> bool:
    return any(isinstance(one, type) and issubclass(one, BaseModel) for one in _types(annotation))


def _types(annotation: Any) -> Iterator[Any]:
    origin = get_origin(annotation)
    if origin is Annotated:
        yield from _types(get_args(annotation)[0])
    elif origin in (Union, UnionType):
        for inner in get_args(annotation):
            yield from _types(inner)
    elif origin is not Literal:
        yield annotation
