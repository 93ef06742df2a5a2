"""Whether the entries of a catalog agree with each other: ids given once, and nothing named that is not there."""

from collections.abc import Iterator, Mapping, Sequence

from catalog.entry_checks import entry_complaints
from catalog.errors import Problem
from catalog.frame_checks import frame_complaints
from catalog.mechanic_errors import Complaint, did_you_mean
from catalog.naming import SECTION_WORDS
from catalog.read_files import Placed
from catalog.yaml_text import Path

_REFERENCES: dict[str, tuple[tuple[Path, str], ...]] = {
    "brakes": ((("line",), "lines"), (("lever", "fitting"), "fittings"), (("caliper", "fitting"), "fittings")),
    "fittings": ((("uses",), "parts"),),
    "methods": ((("uses",), "parts"), (("ties", "uses"), "parts")),
    "adapters": ((("uses",), "parts"),),
    "steps": ((("cautions",), "cautions"),),
}
"""Fields that name other entries: where, and in which list the named one must stand."""

SHELVES = {"adapters": "parts"}
"""Lists whose ids must differ from those of another: adapters stand beside small parts in the list for the bench."""

_SHARED_NAMES = (("zones",), ("ports", "anchors"), ("runs",))
"""Lists of a frame whose ids must differ; ports and anchors are named in the same places."""


def cross_problems(placed: Sequence[Placed], *, starter_cautions: frozenset[str]) -> Iterator[Problem]:
    """What is wrong between and inside entries that could be read."""
    yield from _repeated(placed)
    known = {word: frozenset(item.id for item in placed if item.section == word and item.id) for word in SECTION_WORDS}
    known["cautions"] |= starter_cautions
    for item in placed:
        complaints: list[Complaint] = []
        if item.section == "frames":
            complaints.extend(_repeated_in_frame(item))
            complaints.extend(frame_complaints(item))
        if item.entry is not None:
            complaints.extend(entry_complaints(item.entry))
        complaints.extend(_reference_complaints(item, known))
        yield from (item.problem(path, given=given, allowed=allowed) for path, given, allowed in complaints)


def _repeated(placed: Sequence[Placed]) -> Iterator[Problem]:
    first: dict[tuple[str, str], Placed] = {}
    for item in placed:
        key = (SHELVES.get(item.section, item.section), "" if item.section == "shop" else item.id or "")
        if not key[1] and item.section != "shop":
            continue
        before = first.setdefault(key, item)
        if before is not item:
            where = f"{before.document.file}:{before.document.text.line_of((*before.path, 'id'))}"
            what = "shop" if item.section == "shop" else f"{SECTION_WORDS[before.section]} {item.id}"
            allowed = "one shop in all files" if item.section == "shop" else "an id of its own for each"
            yield item.problem(("id",) if item.id else (), given=f"{what} is already given at {where}", allowed=allowed)


def _repeated_in_frame(frame: Placed) -> Iterator[Complaint]:
    raw = frame.raw if isinstance(frame.raw, dict) else {}
    for lists in _SHARED_NAMES:
        first: dict[str, Path] = {}
        for name in lists:
            items = raw.get(name)
            for place, item in enumerate(items if isinstance(items, list) else ()):
                id_ = item.get("id") if isinstance(item, dict) else None
                if not isinstance(id_, str):
                    continue
                path = (name, place, "id")
                before = first.setdefault(id_, path)
                if before != path:
                    line = frame.document.text.line_of((*frame.path, *before))
                    given = f"{id_} is already given at {frame.document.file}:{line}"
                    yield path, given, f"an id of its own for each of {' and '.join(lists)}"


def _reference_complaints(item: Placed, known: Mapping[str, frozenset[str]]) -> Iterator[Complaint]:
    """Names, as written, that lead nowhere; what is no name at all is told elsewhere."""
    for path, section in _REFERENCES.get(item.section, ()):
        asked = item.raw
        for step in path:
            asked = asked.get(step) if isinstance(asked, dict) else None
        names = enumerate(asked) if isinstance(asked, list) else [(None, asked)]
        for place, name in names:
            if isinstance(name, str) and name not in known[section]:
                where = path if place is None else (*path, place)
                yield where, f"there is no {SECTION_WORDS[section]} {name}", did_you_mean(name, known[section])
