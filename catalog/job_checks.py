"""Whether a job names things that exist, and says one thing only."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from catalog.jobs import JobEntry, NewLineEntry, OldLineEntry
from catalog.mechanic_errors import Complaint, did_you_mean
from catalog.yaml_text import Path


@dataclass(frozen=True, slots=True, kw_only=True)
class KnownFrame:
    """Ids that a job may use on one frame."""

    anchors: frozenset[str]
    ports: frozenset[str]
    runs: frozenset[str]


@dataclass(frozen=True, slots=True, kw_only=True)
class KnownThings:
    """Ids that a job may use."""

    frames: Mapping[str, KnownFrame]
    brakes: frozenset[str]
    lines: frozenset[str]
    fittings: frozenset[str]


def job_complaints(job: JobEntry, *, known: KnownThings) -> Iterator[Complaint]:
    """Everything in a job that names what is not there."""
    frame = known.frames.get(job.frame)
    if frame is None:
        yield _unknown(("frame",), "frame", job.frame, known.frames)
    else:
        yield from _frame_complaints(job, frame)
    if job.from_ == job.to:
        yield ("to",), f"{job.to} is also where it starts", "another anchor than from"
    if job.old is not None:
        yield from _line_complaints("old", job.old, known)
    yield from _line_complaints("new", job.new, known)
    for place, staying in enumerate(job.staying):
        if staying.line not in known.lines:
            yield _unknown(("staying", place, "line"), "line", staying.line, known.lines)


def _frame_complaints(job: JobEntry, frame: KnownFrame) -> Iterator[Complaint]:
    for field, anchor in (("from", job.from_), ("to", job.to)):
        if anchor in frame.ports:
            yield (field,), f"{anchor} is a port", f"an anchor; {did_you_mean(anchor, frame.anchors)}"
        elif anchor not in frame.anchors:
            yield _unknown((field,), "anchor", anchor, frame.anchors)
    if job.old is not None:
        for place, port in enumerate(job.old.through):
            if port not in frame.ports:
                yield _unknown(("old", "through", place), "port", port, frame.ports)
    for nth, staying in enumerate(job.staying):
        for place, passed in enumerate(staying.through):
            if passed not in frame.ports | frame.runs:
                path = ("staying", nth, "through", place)
                yield _unknown(path, "port or run", passed, frame.ports | frame.runs)


def _line_complaints(field: str, choice: OldLineEntry | NewLineEntry, known: KnownThings) -> Iterator[Complaint]:
    if (choice.brake is None) == (choice.line is None):
        given = "neither brake nor line was given" if choice.brake is None else "both brake and line were given"
        allowed = "one of {brake: id} and {line: id}" + (", or old: none" if field == "old" else "")
        yield (field,), given, allowed
    if choice.brake is not None and choice.brake not in known.brakes:
        yield _unknown((field, "brake"), "brake", choice.brake, known.brakes)
    if choice.line is not None and choice.line not in known.lines:
        yield _unknown((field, "line"), "line", choice.line, known.lines)
    for end_field, end in (("from_end", choice.from_end), ("to_end", choice.to_end)):
        if end is None:
            continue
        if choice.brake is not None:
            yield (
                (field, end_field),
                f"{end_field} was given for a brake",
                "the ends of a brake's line are the brake's own",
            )
        if end.fitting not in known.fittings:
            yield _unknown((field, end_field, "fitting"), "fitting", end.fitting, known.fittings)


def _unknown(path: Path, kind: str, asked: str, known: Mapping[str, object] | frozenset[str]) -> Complaint:
    return path, f"there is no {kind} {asked}", did_you_mean(asked, known)
