"""A catalog ready for the planner, and the same as text to be kept: a line for each part, read when it is asked for."""

import json
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any, TypeVar

from catalog.kept_files import as_text
from catalog.plain_parts import NotPlainParts, as_plain, from_plain
from planner import parts

if TYPE_CHECKING:
    from catalog.catalog_file import CatalogFile
    from catalog.shop import ShopEntry

Part = TypeVar("Part")

_BY_ID = ("frames", "lines", "fittings", "brakes")
"""What a catalog may have thousands of, and a job needs few of."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """What a catalog was made of, as accepted.

    entries : for forms and files
    shop : the shop's own limits, filled up from the starter catalog
    """

    entries: "CatalogFile"
    shop: "ShopEntry"


@dataclass(frozen=True, slots=True, kw_only=True)
class Catalog:
    """Everything that jobs may name.

    frames, lines, fittings, brakes : planner parts by id
    workshop : methods, small parts, limits, steps and cautions
    opening_tolerance_mm : plus or minus on a hole's sizes where nobody told another [mm]
    written : what it was made of; read again where the catalog was kept
    read_from : the files and folders it was read from, as people are told of them
    stands_in : own entries that say something else than the starter's of the same id, such as "line hose-50x21"
    key : the hash of all it depends on; "" where it is not kept
    """

    frames: Mapping[str, parts.Frame]
    lines: Mapping[str, parts.Line]
    fittings: Mapping[str, parts.Fitting]
    brakes: Mapping[str, parts.Brake]
    workshop: parts.Workshop
    opening_tolerance_mm: float
    written: Callable[[], Written] = field(compare=False, repr=False)
    read_from: tuple[str, ...] = field(default=(), compare=False)
    stands_in: tuple[str, ...] = field(default=(), compare=False)
    key: str = field(default="", compare=False)

    @property
    def entries(self) -> "CatalogFile":
        """Its entries as written, for forms and files."""
        return self.written().entries

    @property
    def shop(self) -> "ShopEntry":
        """The shop's own limits, filled up from the starter catalog."""
        return self.written().shop


def catalog_as_text(catalog: Catalog) -> bytes:
    """A catalog as lines of JSON: first everything that any job needs, then each frame, line, fitting and brake."""
    shelves = {name: dict(getattr(catalog, name)) for name in _BY_ID}
    head = {
        "workshop": as_plain(replace(catalog.workshop, lines={}, fittings={}, brakes={})),
        "opening_tolerance_mm": catalog.opening_tolerance_mm,
        "read_from": catalog.read_from,
        "stands_in": catalog.stands_in,
        "ids": {name: list(shelf) for name, shelf in shelves.items()},
    }
    things = [as_plain(part) for shelf in shelves.values() for part in shelf.values()]
    return b"\n".join(as_text(value) for value in (head, *things))


def catalog_of_lines(text: bytes, *, key: str, in_full: Callable[[], Catalog]) -> Catalog:
    """The catalog that a text was made of.

    in_full : reads it again, for its entries as written and for a part that cannot be made of its line

    Raises NotPlainParts where no catalog was made into this text.
    """
    first, *lines = text.split(b"\n")
    try:
        head = json.loads(first)
        shelves: dict[str, Any] = {}
        for name in _BY_ID:
            ids = head["ids"][name]
            here, lines = lines[: len(ids)], lines[len(ids) :]
            shelves[name] = _PartsByLine(dict(zip(ids, here, strict=True)), _shelf(in_full, name))
        workshop = from_plain(head["workshop"])
        beside = {name: shelves[name] for name in ("lines", "fittings", "brakes")}
        return Catalog(
            workshop=replace(workshop, **beside),
            opening_tolerance_mm=head["opening_tolerance_mm"],
            written=lambda: in_full().written(),
            read_from=tuple(head["read_from"]),
            stands_in=tuple(head["stands_in"]),
            key=key,
            **shelves,
        )
    except (KeyError, TypeError, ValueError) as problem:
        raise NotPlainParts(str(problem)) from problem


def _shelf(in_full: Callable[[], Catalog], name: str) -> Callable[[], Mapping[str, Any]]:
    return lambda: dict(getattr(in_full(), name))


class _PartsByLine(Mapping[str, Part]):
    """Parts by id, each made of its line when it is first asked for."""

    def __init__(self, lines: Mapping[str, bytes], in_full: Callable[[], Mapping[str, Part]]) -> None:
        self._lines, self._in_full = lines, in_full
        self._made: dict[str, Part] = {}

    def __getitem__(self, id: str) -> Part:
        if id not in self._made:
            line = self._lines[id]
            try:
                self._made[id] = from_plain(json.loads(line))
            except ValueError:
                self._made[id] = self._in_full()[id]
        return self._made[id]

    def __contains__(self, id: object) -> bool:
        return id in self._lines

    def __iter__(self) -> Iterator[str]:
        return iter(self._lines)

    def __len__(self) -> int:
        return len(self._lines)
