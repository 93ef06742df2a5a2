"""Whether what a visit wishes for its lines, first, before and together, can be had at once."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

from catalog.mechanic_errors import Complaint, did_you_mean

Line = Mapping[str, object]
Path = tuple[str | int, ...]
LEADS = "one old line at the most: list the others by themselves, with new: none"


def wish_complaints(visit: Mapping[str, object], lines: Sequence[Line]) -> Iterator[Complaint]:
    """Everything in a visit's wishes that names what is not there, or asks what cannot be.

    lines : the visit's own, as written
    """
    known = {line["id"]: line for line in lines if isinstance(line.get("id"), str)}
    lists: dict[Path, list[str]] = {
        ("first",): _ids(visit.get("first")),
        **{("before", nth): _ids(ids) for nth, ids in enumerate(_items(visit.get("before")))},
        **{("together", nth): _ids(ids) for nth, ids in enumerate(_items(visit.get("together")))},
    }
    found = [complaint for path, ids in lists.items() for complaint in _list_complaints(path, ids, known)]
    yield from found
    together = {path: ids for path, ids in lists.items() if path[0] == "together"}
    yield from _drawn_twice(together)
    for path, ids in together.items():
        yield from _draw_complaints(path, [known[line_id] for line_id in ids if line_id in known])
    if not found:
        yield from _circles(lists)


def _items(value: object) -> list[object]:
    return list(value) if isinstance(value, list | tuple) else []


def _ids(value: object) -> list[str]:
    return [line_id if isinstance(line_id, str) else "" for line_id in _items(value)]


def _list_complaints(path: Path, ids: Sequence[str], known: Mapping[object, Line]) -> Iterator[Complaint]:
    for nth, line_id in enumerate(ids):
        if not line_id:
            continue
        if line_id not in known:
            yield (*path, nth), f"there is no line {line_id}", did_you_mean(line_id, [str(each) for each in known])
        elif line_id in ids[:nth]:
            yield (*path, nth), f"{line_id} is wished for twice", "each line once"


def _drawn_twice(together: Mapping[Path, Sequence[str]]) -> Iterator[Complaint]:
    seen: set[str] = set()
    for path, ids in together.items():
        for nth, line_id in enumerate(ids):
            if line_id and line_id in seen:
                yield (*path, nth), f"{line_id} is drawn in with others already", "each line in one list"
        seen |= set(ids)


def _draw_complaints(path: Path, lines: Sequence[Line]) -> Iterator[Complaint]:
    """Of lines drawn in together every one goes in, one old line draws them, and all take the same holes."""
    for line in lines:
        if line.get("new") in (None, "none"):
            yield path, f"{line['id']} is only taken out", "lines that go in"
    with_old = [line for line in lines if line.get("old") not in (None, "none")]
    if len(with_old) > 1:
        named = " and ".join(str(line["id"]) for line in with_old)
        yield path, f"{named} each have an old line", LEADS
    told = {str(line["id"]): _through(line) for line in lines if _through(line)}
    if len({frozenset(ports) for ports in told.values()}) > 1:
        given = "; ".join(f"{line_id} through {', '.join(ports)}" for line_id, ports in told.items())
        yield path, given, "the same holes for all of them: they part outside the frame only"


def _through(line: Line) -> list[str]:
    old = line.get("old")
    return [port for port in _ids(old.get("through") if isinstance(old, Mapping) else line.get("through")) if port]


def _circles(lists: Mapping[Path, Sequence[str]]) -> Iterator[Complaint]:
    """A line that would have to go in before itself, whatever is drawn in together counting as one."""
    draws = [frozenset(ids) for path, ids in lists.items() if path[0] == "together"]

    def draw_of(line_id: str) -> frozenset[str]:
        return next((draw for draw in draws if line_id in draw), frozenset({line_id}))

    first = [draw_of(line_id) for line_id in lists["first",]]
    later: dict[frozenset[str], set[frozenset[str]]] = {}

    def reaches(start: frozenset[str], goal: frozenset[str], seen: set[frozenset[str]]) -> bool:
        seen.add(start)
        after = later.get(start, set())
        return goal in after or any(reaches(each, goal, seen) for each in after if each not in seen)

    for path, ids in lists.items():
        pairs = pairwise([draw_of(line_id) for line_id in ids]) if path[0] != "together" else ()
        for nth, (one, other) in enumerate(pairs):
            goes_round = one != other and reaches(other, one, set())
            is_not_first = path[0] == "before" and other in first and one not in first
            if goes_round or is_not_first:
                given = f"{' and '.join(sorted(one))} before {' and '.join(sorted(other))}"
                yield (*path, nth), given, "wishes that do not go round in a circle"
            elif one != other:
                later.setdefault(one, set()).add(other)
