"""Whether a visit names things that exist, and says one thing only."""

from collections.abc import Iterator, Mapping

from catalog.job_checks import KnownThings, job_complaints
from catalog.mechanic_errors import Complaint, did_you_mean
from catalog.wish_checks import wish_complaints


def visit_complaints(visit: object, *, known: KnownThings) -> Iterator[Complaint]:
    """Everything in a visit, as written, that names what is not there or says two things."""
    if not isinstance(visit, Mapping):
        return
    own = {field: value for field, value in visit.items() if field in ("frame", "staying")}
    yield from job_complaints(own, known=known)
    written = visit.get("lines")
    lines = list(written) if isinstance(written, list | tuple) else []
    frame = known.frames.get(visit["frame"]) if isinstance(visit.get("frame"), str) else None
    for nth, line in enumerate(lines):
        if not isinstance(line, Mapping):
            continue
        asked = {**line, "frame": visit.get("frame") if frame is not None else None}
        yield from ((("lines", nth, *path), *told) for path, *told in job_complaints(asked, known=known))  # type: ignore[misc]
        yield from _line_complaints(nth, line, () if frame is None else tuple(frame.ports))
    yield from _id_complaints(lines)
    yield from wish_complaints(visit, [line for line in lines if isinstance(line, Mapping)])


def _line_complaints(nth: int, line: Mapping[str, object], ports: tuple[str, ...]) -> Iterator[Complaint]:
    is_out, is_in = line.get("new") in (None, "none"), line.get("old") in (None, "none")
    if is_out and is_in and {"old", "new"} <= line.keys():
        yield ("lines", nth), "neither an old nor a new line was given", "at least one of old and new"
    through = line.get("through")
    if not isinstance(through, list | tuple) or not through:
        return
    if not is_in:
        told = "for a line that replaces another, old > through tells the way"
        yield ("lines", nth, "through"), "through was given for a line that replaces one", told
    for place, port_id in enumerate(through):
        if ports and isinstance(port_id, str) and port_id not in ports:
            yield ("lines", nth, "through", place), f"there is no port {port_id}", did_you_mean(port_id, ports)


def _id_complaints(lines: list[object]) -> Iterator[Complaint]:
    told = [line.get("id") if isinstance(line, Mapping) else None for line in lines]
    ids = [line_id if isinstance(line_id, str) else None for line_id in told]
    for nth, line_id in enumerate(ids):
        if line_id is not None and line_id in ids[:nth]:
            yield ("lines", nth, "id"), f"{line_id} is the id of another line too", "an id of its own for each line"
