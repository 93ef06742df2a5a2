"""The hand-over form of a job as it is filled in: what differs from the record kept last is kept as a draft.

The rows of the form are known by their words and not by their place, so that what was typed stays at its bolt where the
job was planned again meanwhile.
"""

from collections.abc import Mapping
from typing import Any

from planner import HandOver
from ui.page import session
from ui.page.draft_form import Form, own_draft
from ui.page.drafts import keep, put_away

FIELDS = ("fluid", "lever_feel", "leaks", "looked_again_by", "done_by", "received_by", "note")


def prefix_of(job_id: str) -> str:
    """How the keys of a job's fields begin."""
    return f"choice_place_hand_over|{job_id}|"


def form_of(job_id: str, title: str) -> Form:
    """The form of one job, which has one draft of its own."""
    prefix, base = prefix_of(job_id), _base_name(job_id)

    def shown() -> dict[str, Any]:
        typed, held = _typed(job_id), session.held(base)
        if held is None or not (typed or held.get("is_draft")):
            return {}
        session.hold(base, {**held, "is_draft": True})
        return {"job": job_id, "version": held["version"], "typed": typed}

    def put(content: Mapping[str, Any]) -> None:
        session.forget_beginning(prefix)
        session.put_choices({f"{prefix}{name}": value for name, value in content["typed"].items()})
        session.hold(base, {"version": content["version"], "starts": {}, "is_draft": True})

    blank = {"job": job_id, "version": (session.held(base) or {"version": 0})["version"], "typed": {}}
    return Form(
        name="hand_over",
        shown=shown,
        put=put,
        title=lambda: f"Hand-over of {title}"[:200],
        own=own_draft("hand-over", job_id),
        is_beside=True,
        blank=blank,
    )


def start(job_id: str, record: HandOver, version: int) -> bool:
    """The fields show the record, and over it what was typed.

    Returns whether something was typed over an older record than this one.

    version : of the record; 0 where none was kept
    """
    prefix, base, starts = prefix_of(job_id), _base_name(job_id), starts_of(record)
    held = session.held(base) or {"version": version, "starts": {}}
    typed = _typed(job_id)
    if held["version"] != version or held["starts"] != starts:
        is_newer = held["version"] != version
        is_behind = held.get("is_behind", False) or (is_newer and bool(typed))
        session.forget_beginning(prefix)
        session.put_choices({f"{prefix}{name}": value for name, value in typed.items()})
        held = {**held, "version": version, "starts": starts, "is_behind": is_behind}
        session.hold(base, held)
        if is_newer and not _typed(job_id):  # all of it stands in the record now: no draft begins again from here
            put_away(form_of(job_id, ""))
            held = {"version": version, "starts": starts}
            session.hold(base, held)
    for name, value in starts.items():
        session.start_choice(f"{prefix}{name}", value)
    return bool(held.get("is_behind"))


def starts_of(record: HandOver) -> dict[str, Any]:
    """What each field shows before anything is typed, by its name."""
    starts: dict[str, Any] = {name: getattr(record, name) for name in FIELDS}
    starts |= {name: None if starts[name] is None else str(starts[name]) for name in ("lever_feel", "leaks")}
    for name, value in rows_of(record):
        starts[name] = "" if value is None else f"{value:.10g}"
    return starts


def rows_of(record: HandOver) -> list[tuple[str, float | None]]:
    """The names of the fields for lengths and torques, in order, with what is recorded; rows alike are numbered."""
    lengths = [(f"length {row.line_name} {row.planned_mm}", row.fitted_mm) for row in record.lengths]
    torques = [(f"torque {row.bolts}", row.read_nm) for row in record.torques]
    seen: dict[str, int] = {}
    rows = []
    for name, value in (*lengths, *torques):
        seen[name] = seen.get(name, 0) + 1
        rows.append((name if seen[name] == 1 else f"{name} #{seen[name]}", value))
    return rows


def typed_beside(job_id: str, record: HandOver) -> dict[str, str]:
    """What was typed on rows that are not asked any more, by the row."""
    known = starts_of(record)
    return {name: str(value) for name, value in _typed(job_id).items() if name not in known}


def keep_typed(job_id: str, title: str) -> None:
    """Keep what was typed last where the fields are out of sight: the click that leaves them may come with it."""
    if session.held(_base_name(job_id)) is not None:
        keep(form_of(job_id, title))


def finish(job_id: str, title: str) -> None:
    """The record was kept: nothing is typed over it any more."""
    session.forget_beginning(prefix_of(job_id))
    session.let_go(_base_name(job_id))
    put_away(form_of(job_id, title))


def _typed(job_id: str) -> dict[str, Any]:
    """What differs from what the fields began with."""
    prefix = prefix_of(job_id)
    starts = (session.held(_base_name(job_id)) or {"starts": {}})["starts"]
    shown = {key.removeprefix(prefix): value for key, value in session.choices_beginning(prefix).items()}
    return {name: value for name, value in shown.items() if name not in starts or value != starts[name]}


def _base_name(job_id: str) -> str:
    """Under which name it is held which record the fields began with."""
    return f"hand_over_base|{job_id}"
