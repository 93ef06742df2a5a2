"""From files and folders to entries that remember where they stand; what is wrong with any of them is told at once."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any, get_args

from pydantic import BaseModel, TypeAdapter, ValidationError

from catalog.catalog_file import CatalogFile
from catalog.errors import MOST_PROBLEMS, Problem, with_end
from catalog.file_contents import FileContent, content_at, read_contents
from catalog.kept_values import values_of
from catalog.mechanic_errors import complaints_of, did_you_mean, shown
from catalog.naming import problem_at
from catalog.remembered import Remembered
from catalog.yaml_text import Path as PathInFile
from catalog.yaml_text import YamlText, read_yaml

LIST_SECTIONS = (
    "frames",
    "lines",
    "fittings",
    "brakes",
    "methods",
    "parts",
    "adapters",
    "steps",
    "cautions",
    "rescues",
    "measures",
    "at_hand",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Document:
    """One file as read.

    file : as the user named it
    text : its values and lines
    problems : what is wrong with the text itself
    content : byte for byte; nothing where it could not be read
    """

    file: str
    text: YamlText
    problems: tuple[Problem, ...] = ()
    content: bytes = b""

    @property
    def is_job(self) -> bool:
        """Whether it is a job file rather than a catalog file."""
        return isinstance(self.text.value, dict) and "job" in self.text.value

    @property
    def is_stock(self) -> bool:
        """Whether it is a stock file rather than a catalog file."""
        return isinstance(self.text.value, dict) and "stock" in self.text.value and not self.is_job

    @property
    def is_catalog(self) -> bool:
        """Whether it is to be read as a catalog file: everything that is neither a job nor a stock file."""
        return not self.is_job and not self.is_stock

    def problem(self, path: PathInFile, *, given: str, allowed: str, line: int | None = None) -> Problem:
        """A complaint about what stands at a path."""
        return problem_at(self.file, self.text, path, given=given, allowed=allowed, line=line)


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """An entry and where it stands.

    section : the list it stands in, such as "lines"
    raw : as written
    entry : as accepted; None when it was not
    document, path : where it stands
    """

    section: str
    raw: Any
    entry: Any
    document: Document
    path: PathInFile

    @property
    def id(self) -> str | None:
        """Its id as written, when that is a text."""
        found = self.raw.get("id") if isinstance(self.raw, dict) else None
        return found if isinstance(found, str) else None

    def problem(self, inner: PathInFile, *, given: str, allowed: str) -> Problem:
        """A complaint about what stands inside it."""
        return self.document.problem((*self.path, *inner), given=given, allowed=allowed)


def read_documents(paths: Sequence[Path]) -> list[Document]:
    """Every file named, and every catalog or job file in the folders named, in order and each once."""
    return [document_with(content) for content in read_contents(paths)]


def read_document(path: Path) -> Document:
    """One file; a file that cannot be read is a document with a problem."""
    return document_with(content_at(path))


def document_with(content: FileContent) -> Document:
    """What stands in a file, read."""
    if content.unreadable is not None:
        return Document(file=content.file, text=YamlText(), problems=(content.unreadable.as_problem(),))
    return document_of(content.file, content.content)


def document_kept(content: FileContent) -> Document:
    """The same, its values as they were kept where the same text was read before."""
    return document_with(content) if content.unreadable is not None else _kept(content.file, content.content)


@Remembered
def document_of(file: str, content: bytes) -> Document:
    """The content of a file under the name it is to be told by."""
    return _document(file, content, read_yaml(content))


@Remembered
def _kept(file: str, content: bytes) -> Document:
    return _document(file, content, values_of(content))


def _document(file: str, content: bytes, text: YamlText) -> Document:
    problems = [
        problem_at(file, text, slip.path, given=slip.given, allowed=slip.allowed, line=slip.line) for slip in text.slips
    ]
    if not problems and not isinstance(text.value, dict):
        given = f"{shown(text.value)} was given"
        problems.append(problem_at(file, text, (), given=given, allowed="format: 1 and then lists of entries"))
    return Document(file=file, text=text, problems=tuple(problems), content=content)


def read_entries(document: Document) -> tuple[list[Placed], list[Problem]]:
    """The entries of a catalog file, each accepted or not on its own, and what is wrong with them."""
    value = document.text.value
    if not isinstance(value, dict):
        return [], []
    placed: list[Placed] = []
    problems = list(format_problems(document))
    for key, content in value.items():
        if key != "format" and len(problems) < MOST_PROBLEMS:
            _read_section(document, key, content, placed, problems)
    return placed, with_end(problems)


def _read_section(document: Document, key: str, content: object, placed: list[Placed], problems: list[Problem]) -> None:
    if key == "job":
        problems.append(document.problem((), given="this is a job file", allowed="a catalog file is wanted here"))
    elif key not in CatalogFile.model_fields:
        known = [*CatalogFile.model_fields, "job"]
        problems.append(document.problem((key,), given=f"{key} is not known here", allowed=did_you_mean(key, known)))
    elif key == "shop":
        _place(document, "shop", (key,), content, placed, problems)
    elif content is not None and not isinstance(content, list):
        problems.append(
            document.problem((key,), given=f"{shown(content)} was given", allowed="a list of entries is allowed")
        )
    else:
        for place, item in enumerate(content or ()):
            if len(problems) >= MOST_PROBLEMS:
                break
            _place(document, key, (key, place), item, placed, problems)


def format_problems(document: Document) -> Iterator[Problem]:
    """What is wrong with the format number of a file."""
    value = document.text.value
    if not isinstance(value, dict):
        return
    if "format" not in value:
        yield document.problem((), given="format is missing", allowed="format: 1 is the one known here")
    elif type(value["format"]) is not int or value["format"] != 1:
        given = f"{shown(value['format'])} was given"
        yield document.problem(("format",), given=given, allowed="format: 1 is the one known here")


def _place(
    document: Document,
    section: str,
    path: PathInFile,
    raw: object,
    placed: list[Placed],
    problems: list[Problem],
) -> None:
    adapter, annotation = entry_kind(section)
    try:
        entry = adapter.validate_python(raw)
    except ValidationError as error:
        entry = None
        for inner, given, allowed in complaints_of(error, annotation=annotation, value=raw):
            problems.append(document.problem((*path, *inner), given=given, allowed=allowed))
    placed.append(Placed(section=section, raw=raw, entry=entry, document=document, path=path))


@lru_cache(maxsize=32)
def entry_kind(section: str) -> tuple[TypeAdapter[Any], Any]:
    """The validator of a section's entries, and the annotation it was made from."""
    annotation: Any = CatalogFile.model_fields[section].annotation
    if section in LIST_SECTIONS:
        annotation = get_args(annotation)[0]  # of tuple[Entry, ...]
    return TypeAdapter(annotation), annotation


def accepted(model: type[BaseModel], raw: object) -> Any:
    """A part of an entry on its own; None when it is not accepted."""
    try:
        return model.model_validate(raw)
    except ValidationError:
        return None


def accepted_as(annotation: Any, raw: object) -> Any:
    """A part of an entry that may be of several kinds, on its own; None when it is not accepted."""
    try:
        return TypeAdapter(annotation).validate_python(raw)
    except ValidationError:
        return None
