"""A visit as the fields of a job file, and its lines as the choices on a form."""

from collections.abc import Mapping
from typing import Any

from planner.parts import Visit, VisitLine
from ui.shared.dialogue.frame_questions import id_of_name
from ui.shared.dialogue.told_files import job_text
from ui.shared.job_fields import Choice, choice_of, line_fields, new_fields, old_fields

Fields = dict[str, Any]


def fields_of_visit(visit: Visit) -> Fields:
    """The visit in the words of a job file."""
    fields: Fields = {
        "id": visit.id,
        "title": visit.title,
        "frame": visit.frame.id,
        "lines": [_fields_of_line(line) for line in visit.lines],
        "allow": {
            "remove_inserts": visit.may_remove_inserts,
            "keep_old_brake": visit.keeps_old_brake,
            "take_out_first": visit.may_take_out_first,
        },
    }
    if visit.staying:
        fields["staying"] = [{"line": each.line.id, "through": list(each.through)} for each in visit.staying]
    if visit.first:
        fields["first"] = list(visit.first)
    if visit.before:
        fields["before"] = [list(pair) for pair in visit.before]
    if visit.together:
        fields["together"] = [list(ids) for ids in visit.together]
    return fields


def job_text_of_visit(visit: Visit) -> str:
    """The visit as a job file."""
    return job_text(fields_of_visit(visit))


def _fields_of_line(line: VisitLine) -> Fields:
    fields: Fields = {
        "id": line.id,
        "from": line.from_anchor_id,
        "to": line.to_anchor_id,
        "old": "none" if line.old is None else old_fields(line.old),
        "new": "none" if line.new is None else new_fields(line.new),
    }
    if line.through:
        fields["through"] = list(line.through)
    if line.rotor_mm is not None:
        fields["rotor"] = line.rotor_mm
    if line.rotor_hub is not None:
        fields["rotor_hub"] = line.rotor_hub.value
    return fields


def line_of_choices(
    *,
    name: str,
    ends: tuple[str | None, str | None],
    old: Choice | None,
    new: Choice | None,
    through: list[str],
    supplied_mm: float | None,
    rotor_mm: float | None,
    opened: Mapping[str, Any],
) -> Fields:
    """One line of a form in the words of a job file, with what an opened file said beside it as far as that holds.

    What is not chosen yet is left out, so that it is complained of like any field that is missing.

    name : as people call it
    through : ids of the holes it takes; empty where that is left to the frame
    opened : the fields of this line as it was opened; empty for a line of the form's own
    """
    start, end = ends
    is_same_way = (opened.get("from"), opened.get("to")) == ends
    fields: Fields = {"id": id_of_name(name), "from": start, "to": end}
    for field, choice in (("old", old), ("new", new)):
        if choice is not None:
            fields[field] = line_fields(choice, opened.get(field), is_same_way=is_same_way)
    if isinstance(fields.get("old"), dict):
        told = fields["old"]
        told.pop("through", None)
        told |= {"through": through} if through else {}
        if new != choice_of(opened.get("new")):
            told.pop("move", None)  # what it says is between the outlets of the old line and of the new
    elif through:
        fields["through"] = through
    if isinstance(fields.get("new"), dict):
        fields["new"].pop("supplied_length", None)
        fields["new"] |= {} if supplied_mm is None else {"supplied_length": supplied_mm}
    if rotor_mm is not None:
        fields["rotor"] = rotor_mm
        if "rotor_hub" in opened and opened.get("rotor") == rotor_mm:
            fields["rotor_hub"] = opened["rotor_hub"]
    return {field: value for field, value in fields.items() if value is not None}


def through_of(line: Mapping[str, Any]) -> list[str]:
    """The holes a line is told to take: its old one, or itself where nothing comes off."""
    old = line.get("old")
    return list((old if isinstance(old, Mapping) else line).get("through", ()))


def supplied_of(line: Mapping[str, Any]) -> float | None:
    """How long its new line is as supplied; None where that is not told."""
    new = line.get("new")
    return new.get("supplied_length") if isinstance(new, Mapping) else None


def choice_in(line: Mapping[str, Any], field: str) -> Choice | None:
    """What comes off or goes on, as a choice; None while nothing is chosen.

    field : old or new
    """
    return choice_of(line[field]) if field in line else None
