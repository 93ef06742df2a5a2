"""What a field is called, what it means and what it takes: for help pages and for complaints."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import Enum
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from annotated_types import Ge, Gt, Le, Lt
from pydantic import BaseModel
from pydantic.fields import FieldInfo

DISCRIMINATORS = ("shape", "kind")
IMPLIED, IMPLIED_BESIDE = {"at_least": "gauge"}, (None, "round", "gauge")
"""Fields that say the shape by themselves, and the shapes that may stand beside them."""
SIZES = ("diameter", "outer diameter")
TITLES_OF_TYPES = (
    *SIZES,
    *(
        "asked from",
        "bore",
        "clamp",
        "facts",
        "from, to",
        "heading",
        "length",
        "margin",
        "place",
        "place along the tube",
    ),
    *("price", "rotor", "sentence", "share", "shrinkage", "span", "times", "yes or no"),
)
"""What values of a type are called, whatever field they stand in: a field goes by its own name then."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldHelp:
    """One field in words.

    name : as in the files
    label, help : the words on the form and the sentence under them
    unit : "mm", "degrees", "N", "g", "minutes", "days", or "" for a number without a unit and for texts
    least, most : limits that are themselves allowed; None where there is none
    above, below : limits that are not allowed; None where there is none
    choices : the words it takes, when it takes only these
    is_required : whether it must be given
    """

    name: str
    label: str
    help: str
    unit: str = ""
    least: float | None = None
    most: float | None = None
    above: float | None = None
    below: float | None = None
    choices: tuple[str, ...] = ()
    is_required: bool = False

    @property
    def is_number(self) -> bool:
        """Whether it has a range."""
        return any(limit is not None for limit in (self.least, self.most, self.above, self.below))

    def takes(self, number: float) -> bool:
        """Whether a number lies in the range."""
        return (
            (self.least is None or number >= self.least)
            and (self.most is None or number <= self.most)
            and (self.above is None or number > self.above)
            and (self.below is None or number < self.below)
        )

    @property
    def range(self) -> str:
        """The range in words, with the unit."""
        unit = f" {self.unit}" if self.unit else ""
        low = f"more than {self.above:g}" if self.above is not None else f"{self.least or 0:g}"
        high = f"less than {self.below:g}" if self.below is not None else f"{self.most or 0:g}"
        joint = ", at most " if self.above is not None else " to "
        return f"{low}{joint}{high}{unit}"


def fields_of(model: type[BaseModel]) -> dict[str, FieldHelp]:
    """Every field of an entry, by its name in the files, in the order of the form: notes and sources last."""
    names = sorted(model.model_fields, key=("note", "source").__contains__)
    infos = {name: model.model_fields[name] for name in names}
    return {info.alias or name: _field_help(info.alias or name, info) for name, info in infos.items()}


def help_at(annotation: Any, value: object, path: tuple[str | int, ...]) -> FieldHelp | None:
    """What is known about the field that a path inside a value leads to; None where nothing is."""
    found: FieldHelp | None = None
    for step, outer, inside in _steps(annotation, value, path):
        if isinstance(step, int):
            found = _help_from(_item_annotation(outer, step), found)
        else:
            info = _field_in(outer, inside, step)
            if info is None:
                return None
            found = _field_help(step, info)
    return found


def model_at(annotation: Any, value: object, path: tuple[str | int, ...]) -> type[BaseModel] | None:
    """The kind of entry that a path inside a value leads to; None where it is not an entry."""
    *_, (_, inner, inside) = [*_steps(annotation, value, (*path, 0))]
    return model_for(inner, inside)


def words_at(annotation: Any, value: object, path: tuple[str | int, ...], discriminator: str) -> list[str]:
    """The shapes or kinds of entry that may stand where a path leads."""
    *_, (_, inner, _) = [*_steps(annotation, value, (*path, 0))]
    infos = [model.model_fields.get(discriminator) for model in _models(inner)]
    return [word for info in infos if info is not None for word in _choices(info.annotation)]


def _steps(annotation: Any, value: object, path: tuple[str | int, ...]) -> Iterator[tuple[str | int, Any, object]]:
    """Each step of a path with the annotation and the value it is taken in; None for an annotation nobody knows."""
    for step in path:
        yield step, annotation, value
        if isinstance(step, int):
            annotation = _item_annotation(annotation, step)
        else:
            info = _field_in(annotation, value, step)
            annotation = info.annotation if info else None
        value = _inside(value, step)


def _field_in(annotation: Any, value: object, name: str) -> FieldInfo | None:
    model = model_for(annotation, value)
    return _field(model, name) if model else None


def model_for(annotation: Any, value: object) -> type[BaseModel] | None:
    """The kind of entry a value is meant to be, by its shape or kind where there are several."""
    models = list(_models(annotation))
    if len(models) > 1 and isinstance(value, Mapping):
        for field, word in IMPLIED.items():
            if field in value and value.get("shape") in IMPLIED_BESIDE:
                value = {**value, "shape": word}
        for model in models:
            for word in DISCRIMINATORS:
                info = model.model_fields.get(word)
                if info is not None and value.get(word) in get_args(info.annotation):
                    return model
        return None
    return models[0] if len(models) == 1 else None


def _models(annotation: Any) -> Iterator[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    elif get_origin(annotation) in (Annotated, Union, UnionType):
        for inner in get_args(annotation):
            yield from _models(inner)


def _field(model: type[BaseModel], name: str) -> FieldInfo | None:
    return next((info for key, info in model.model_fields.items() if (info.alias or key) == name), None)


def _field_help(name: str, info: FieldInfo) -> FieldHelp:
    layers = [info, *_layers(info.annotation)]
    title = next((layer.title for layer in layers if layer.title and layer.title != "id"), "")
    text = next((layer.description for layer in layers if layer.description), "")
    unit = next((_unit(layer) for layer in layers if _unit(layer)), "")
    limits: dict[str, float] = {}
    for layer in layers:
        limits.update(_limits(layer.metadata))
    choices = tuple(_choices(info.annotation))
    return FieldHelp(
        name=name,
        label=_label(name, title),
        help=text,
        unit=unit,
        choices=choices,
        is_required=info.is_required(),
        **limits,
    )


def _label(name: str, title: str) -> str:
    """What to call a field, so that no two of an entry are called alike: a stud's diameter, a collar's diameter."""
    words = name.replace("_", " ")
    if not title or name == "at":  # where something is at is its place
        return title or words
    if title not in TITLES_OF_TYPES or set(words.split()) <= set(title.split()):
        return title
    return f"{words} diameter" if title in SIZES else words


def _help_from(annotation: Any, outer: FieldHelp | None) -> FieldHelp | None:
    if get_origin(annotation) is not Annotated:
        return outer
    return _field_help(outer.name if outer else "", FieldInfo.from_annotation(annotation))


def _layers(annotation: Any) -> Iterator[FieldInfo]:
    if get_origin(annotation) is Annotated:
        yield FieldInfo.from_annotation(annotation)
    elif get_origin(annotation) in (Union, UnionType):
        for inner in get_args(annotation):
            yield from _layers(inner)


def _unit(info: FieldInfo) -> str:
    extra = info.json_schema_extra
    return str(extra.get("unit", "")) if isinstance(extra, dict) else ""


def _limits(metadata: list[Any]) -> Iterator[tuple[str, float]]:
    for mark in metadata:
        if isinstance(mark, Ge):
            yield "least", float(mark.ge)  # type: ignore[arg-type]
        elif isinstance(mark, Le):
            yield "most", float(mark.le)  # type: ignore[arg-type]
        elif isinstance(mark, Gt):
            yield "above", float(mark.gt)  # type: ignore[arg-type]
        elif isinstance(mark, Lt):
            yield "below", float(mark.lt)  # type: ignore[arg-type]


def _choices(annotation: Any) -> Iterator[str]:
    origin = get_origin(annotation)
    if isinstance(annotation, type) and issubclass(annotation, Enum):
        yield from (str(choice.value) for choice in annotation)
    elif origin is Literal:
        yield from (str(choice) for choice in get_args(annotation))
    elif origin is Annotated:
        yield from _choices(get_args(annotation)[0])
    elif origin in (Union, UnionType):
        for inner in get_args(annotation):
            if inner is not NoneType:
                yield from _choices(inner)


def _item_annotation(annotation: Any, place: int) -> Any:
    origin = get_origin(annotation)
    if origin is Annotated:
        return _item_annotation(get_args(annotation)[0], place)
    if origin in (Union, UnionType):
        options = (_item_annotation(inner, place) for inner in get_args(annotation))
        return next((option for option in options if option is not None), None)
    if origin is tuple:
        inner = get_args(annotation)
        if len(inner) == 2 and inner[1] is Ellipsis:
            return inner[0]
        return inner[place] if place < len(inner) else None
    return None


def _inside(value: object, step: str | int) -> object:
    if isinstance(value, Mapping):
        return value.get(step)
    if isinstance(value, list | tuple) and isinstance(step, int) and 0 <= step < len(value):
        return value[step]
    return None
