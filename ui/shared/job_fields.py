"""A job as the fields of a job file and as the choices on a form, and back."""

from collections.abc import Mapping
from typing import Any

from catalog import Catalog
from planner import find_frame_names, told_apart
from planner.parts import Job, LineEnd, NewLine, OldLine, OldMeasured

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
        "old": "none" if job.old is None else old_fields(job.old),
        "new": new_fields(job.new),
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


def choice_words(choice: Choice, catalog: Catalog) -> str:
    """What to call a choice."""
    if tuple(choice) == NOTHING:
        return "nothing, the frame is empty"
    kind, thing_id = choice
    return catalog.brakes[thing_id].name if kind == "brake" else f"{catalog.lines[thing_id].name}, bare"


def choice_names(catalog: Catalog) -> dict[Choice, str]:
    """What to call each choice there is, where they are listed: things of one name are told apart by their ids."""
    found = {NOTHING: choice_words(NOTHING, catalog)}
    for kind, things in (("brake", catalog.brakes), ("line", catalog.lines)):
        called = told_apart({id: choice_words((kind, id), catalog) for id in things})
        found |= {(kind, id): words for id, words in called.items()}
    return found


_OF_THE_WAY = ("through", "measured_length", "measured", "move", "reached")
"""What a job says of its old line that is true between its own two ends on its own frame alone."""


def line_fields(choice: Choice, as_opened: object, *, is_same_way: bool) -> object:
    """The fields of a choice; where it is the one a job was opened with, with all that the job said about it.

    is_same_way : whether frame and ends are those the job was opened with
    """
    if choice == NOTHING:
        return "none"
    if not isinstance(as_opened, Mapping) or not _is_same_thing(choice, as_opened):
        return {choice[0]: choice[1]}
    return {field: value for field, value in as_opened.items() if is_same_way or field not in _OF_THE_WAY}


def _is_same_thing(choice: Choice, as_opened: object) -> bool:
    """Whether a choice is what a job was opened with."""
    return isinstance(as_opened, Mapping) and choice_of(as_opened) == choice


def job_of_choices(
    *, frame_id: str, ends: tuple[str, str], old: Choice, new: Choice, title: str, opened: Mapping[str, Any]
) -> dict[str, Any]:
    """The chosen job in the words of a job file, with what an opened job said beside it as far as that still holds.

    title : what to call it where it is another job than the one opened
    opened : the fields of the job as it was opened; empty where none was
    """
    is_same_way = (opened.get("frame"), opened.get("from"), opened.get("to")) == (frame_id, *ends)
    fields = {
        "id": f"{frame_id}-{new[1]}",
        "title": title,
        "frame": frame_id,
        "from": ends[0],
        "to": ends[1],
        "old": line_fields(old, opened.get("old"), is_same_way=is_same_way),
        "new": line_fields(new, opened.get("new"), is_same_way=is_same_way),
    }
    if isinstance(fields["old"], dict) and not _is_same_thing(new, opened.get("new")):
        fields["old"].pop("move", None)  # what it says is between the outlets of the old brake and of the new
    if is_same_way and all(fields[name] == opened.get(name) for name in ("old", "new")):
        fields |= {name: opened[name] for name in ("id", "title") if opened.get(name)}
    return fields


def untyped_words(fields: Mapping[str, Any], catalog: Catalog) -> list[str]:
    """What a job says that no field of the form shows, so that nothing counts unseen; places by their labels."""
    told = []
    names = find_frame_names(catalog.frames[fields["frame"]])
    ends = {end: names.place(fields[end]) for end in ("from", "to")}
    for name, words in (("old", "old line"), ("new", "new line")):
        line = fields[name] if isinstance(fields[name], Mapping) else {}
        if line.get("through"):
            told.append(f"the {words} runs through {' · '.join(map(names.place, line['through']))}")
        if "measured_length" in line:
            told.append(f"the {words} was measured at {line['measured_length']:g} mm{_how_measured(line, ends)}")
        if "supplied_length" in line:
            told.append(f"the {words} is supplied {line['supplied_length']:g} mm long")
        for end in ("from", "to"):
            if fitted := line.get(f"{end}_end"):
                lies = "sits on" if fitted["fitted"] else "lies beside"
                told.append(f"{catalog.fittings[fitted['fitting']].name} {lies} the {words} at {ends[end]}")
    if "rotor_hub" in fields:
        told.append(f"the rotor's hub is {fields['rotor_hub'].replace('_', ' ')}")
    return told


def _how_measured(line: Mapping[str, Any], ends: Mapping[str, str]) -> str:
    """From where to where, how far the outlets moved and whether it reached, as far as a job says so.

    ends : labels of the job's two ends
    """
    said = [str(line["measured"]).replace("_", " ")] if "measured" in line else []
    if "move" in line:
        said.append(", ".join(f"{by:+g} mm at {ends[end]}" for end, by in line["move"].items()))
    if "reached" in line:
        said.append("it reached in every posture" if line["reached"] else "it did not reach in every posture")
    return f" ({'; '.join(said)})" if said else ""


def old_fields(old: OldLine) -> dict[str, Any]:
    """An old line in the words of a job file."""
    fields: dict[str, Any] = _named(old)
    if old.through:
        fields["through"] = list(old.through)
    if old.measured_length_mm is not None:
        fields["measured_length"] = old.measured_length_mm
        fields |= _measured_fields(old)
    return fields


def _measured_fields(old: OldLine) -> dict[str, Any]:
    fields: dict[str, Any] = {} if old.measured is OldMeasured.CUT_ENDS else {"measured": old.measured.value}
    moves = {"from": old.move_from_mm, "to": old.move_to_mm}
    told = {end: by_mm for end, by_mm in moves.items() if by_mm is not None}
    fields |= {"move": told} if told else {}
    return fields if old.is_reached is None else {**fields, "reached": old.is_reached}


def new_fields(new: NewLine) -> dict[str, Any]:
    """A new line in the words of a job file."""
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
