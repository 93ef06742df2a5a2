"""Whether a job names things that exist, and says one thing only."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from catalog.mechanic_errors import Complaint, did_you_mean
from catalog.yaml_text import Path

MOST_FILES_TOLD = 6


@dataclass(frozen=True, slots=True, kw_only=True)
class KnownFrame:
    """Ids that a job may use on one frame."""

    anchors: frozenset[str]
    ports: frozenset[str]
    runs: frozenset[str]


@dataclass(frozen=True, slots=True, kw_only=True)
class KnownThings:
    """Ids that a job may use.

    read_from : the files they were read from, as people are told of them; empty where that is not told
    """

    frames: Mapping[str, KnownFrame]
    brakes: frozenset[str]
    lines: frozenset[str]
    fittings: frozenset[str]
    read_from: tuple[str, ...] = ()


def job_complaints(job: object, *, known: KnownThings) -> Iterator[Complaint]:
    """Everything in a job, as written, that names what is not there; what has no sense at all is told elsewhere."""
    if not isinstance(job, Mapping):
        return
    frame_id = job.get("frame")
    if isinstance(frame_id, str):
        frame = known.frames.get(frame_id)
        if frame is None:
            yield _not_read(("frame",), "frame", frame_id, known.frames, known)
        else:
            yield from _frame_complaints(job, frame)
    if isinstance(job.get("to"), str) and job.get("from") == job.get("to"):
        yield ("to",), f"{job['to']} is also where it starts", "another anchor than from"
    for field in ("old", "new"):
        if isinstance(job.get(field), Mapping):
            yield from _choice_complaints(field, job[field], known)
    for path, line in _texts(job, "staying", "line"):
        if line not in known.lines:
            yield _not_read(path, "line", line, known.lines, known)


def _frame_complaints(job: Mapping[str, object], frame: KnownFrame) -> Iterator[Complaint]:
    for field in ("from", "to"):
        anchor = job.get(field)
        if not isinstance(anchor, str) or anchor in frame.anchors:
            continue
        if anchor in frame.ports:
            yield (field,), f"{anchor} is a port", f"an anchor is wanted; {did_you_mean(anchor, frame.anchors)}"
        else:
            yield _unknown((field,), "anchor", anchor, frame.anchors)
    old = job.get("old")
    passed = old.get("through") if isinstance(old, Mapping) else None
    yield from _unknown_among(("old", "through"), "port", passed, frame.ports)
    staying = job.get("staying")
    for nth, item in enumerate(staying if isinstance(staying, list | tuple) else ()):
        passed = item.get("through") if isinstance(item, Mapping) else None
        yield from _unknown_among(("staying", nth, "through"), "port or run", passed, frame.ports | frame.runs)


def _choice_complaints(field: str, choice: Mapping[str, object], known: KnownThings) -> Iterator[Complaint]:
    brake, line = choice.get("brake"), choice.get("line")
    if (brake is None) == (line is None):
        given = "neither brake nor line was given" if brake is None else "both brake and line were given"
        allowed = "one of {brake: id} and {line: id}" + (", or old: none" if field == "old" else "")
        yield (field,), given, allowed
    for kind, asked, there in (("brake", brake, known.brakes), ("line", line, known.lines)):
        if isinstance(asked, str) and asked not in there:
            yield _not_read((field, kind), kind, asked, there, known)
    for about in ("measured", "move", "reached"):
        if about in choice and "measured_length" not in choice:
            yield (field, about), f"{about} was given without measured_length", "both, or neither"
    for end_field in ("from_end", "to_end"):
        end = choice.get(end_field)
        if not isinstance(end, Mapping):
            continue
        if brake is not None:
            given = f"{end_field} was given for a brake"
            yield (field, end_field), given, "the ends of a brake's line are the brake's own"
        fitting = end.get("fitting")
        if isinstance(fitting, str) and fitting not in known.fittings:
            yield _not_read((field, end_field, "fitting"), "fitting", fitting, known.fittings, known)


def _texts(job: Mapping[str, object], name: str, field: str) -> Iterator[tuple[Path, str]]:
    """A field of every item of a list, where it is a text."""
    items = job.get(name)
    for place, item in enumerate(items if isinstance(items, list | tuple) else ()):
        if isinstance(item, Mapping) and isinstance(item.get(field), str):
            yield (name, place, field), item[field]


def _unknown_among(path: Path, kind: str, asked: object, known: frozenset[str]) -> Iterator[Complaint]:
    for place, id_ in enumerate(asked if isinstance(asked, list | tuple) else ()):
        if isinstance(id_, str) and id_ not in known:
            yield _unknown((*path, place), kind, id_, known)


def _unknown(path: Path, kind: str, asked: str, known: Iterable[str]) -> Complaint:
    return path, f"there is no {kind} {asked}", did_you_mean(asked, known)


def _not_read(path: Path, kind: str, asked: str, there: Iterable[str], known: KnownThings) -> Complaint:
    """The same of a thing of the catalog, with the files that were looked through."""
    path, given, allowed = _unknown(path, kind, asked, there)
    if not known.read_from:
        return path, given, allowed
    more = len(known.read_from) - MOST_FILES_TOLD
    told = ", ".join(known.read_from[:MOST_FILES_TOLD]) + (f" and {more} more" if more > 0 else "")
    return path, given, f"{allowed} (read: {told})"
