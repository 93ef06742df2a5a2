"""A job as the fields of a job file and as the choices on a form, and back."""

from collections.abc import Mapping
from typing import Any

from planner.parts import Job, LineEnd, NewLine, OldLine

NOTHING = ("none", "")
"""The choice of an empty frame: nothing comes off."""

Choice = tuple[str, str]


def fields_of(job: Job) -> dict[str, Any]:
    """The job in the words of a job file."""
    fields: dict[str, Any] = {
        "id": job.id,
        "title": job.title,
        "frame": job.frame.id,
        "from": job.from_anchor_id,
        "to": job.to_anchor_id,
        "old": "none" if job.old is None else _old_fields(job.old),
        "new": _new_fields(job.new),
        "allow": {"remove_inserts": job.may_remove_inserts, "keep_old_brake": job.keeps_old_brake},
    }
    if job.staying:
        fields["staying"] = [{"line": staying.line.id, "through": list(staying.through)} for staying in job.staying]
    if job.rotor_mm is not None:
        fields["rotor"] = job.rotor_mm
    if job.rotor_hub is not None:
        fields["rotor_hub"] = job.rotor_hub.value
    return fields


def choice_of(line_fields: object) -> Choice:
    """What a job file's `old` or `new` names: nothing, a brake or a bare line."""
    if not isinstance(line_fields, Mapping):
        return NOTHING
    if line_fields.get("brake"):
        return ("brake", str(line_fields["brake"]))
    return ("line", str(line_fields["line"]))


def line_fields(choice: Choice, as_opened: object) -> object:
    """The fields of a choice; where it is the one a job was opened with, with all that the job said about it."""
    if choice == NOTHING:
        return "none"
    return as_opened if as_opened is not None and choice_of(as_opened) == choice else {choice[0]: choice[1]}


def _old_fields(old: OldLine) -> dict[str, Any]:
    fields: dict[str, Any] = _named(old)
    if old.through:
        fields["through"] = list(old.through)
    if old.measured_length_mm is not None:
        fields["measured_length"] = old.measured_length_mm
    return fields


def _new_fields(new: NewLine) -> dict[str, Any]:
    fields = _named(new)
    as_supplied = new.brake.supplied_length_mm if new.brake else None
    if new.supplied_length_mm is not None and new.supplied_length_mm != as_supplied:
        fields["supplied_length"] = new.supplied_length_mm
    return fields


def _named(line: OldLine | NewLine) -> dict[str, Any]:
    if line.brake is not None:
        return {"brake": line.brake.id}
    fields: dict[str, Any] = {"line": line.line.id}
    for name, end in (("from_end", line.from_end), ("to_end", line.to_end)):
        if end.fitting is not None:
            fields[name] = _end_fields(end)
    return fields


def _end_fields(end: LineEnd) -> dict[str, Any]:
    return {"fitting": end.fitting.id if end.fitting else "", "fitted": end.is_fitted}
