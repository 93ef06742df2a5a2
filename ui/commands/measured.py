"""`lineplan measured`: a value read at the bicycle, taken into its frame with who, when and with what."""

from dataclasses import dataclass
from typing import Any

from catalog import Reading, read_range, take_into_files
from planner import printable_line
from planner.parts import PortLooks, ReadWhat
from ui.reports.refusals import refusals_as_sentences
from ui.shared.catalog_choice import CatalogChoice
from ui.shared.command_refused import CommandRefused
from ui.shared.days import day_named, time_zone_of, today_in
from ui.shared.entry_readings import value_words
from ui.shared.exit_status import ExitStatus
from ui.shared.opening_text import OpeningNotUnderstood, holds_a_range, opening_fields, read_opening
from ui.shared.store_place import is_store_there, opened_store, who_saves


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredQuestion:
    """What was measured, and where it goes.

    frame_id, place_id : the frame, and its port, run or zone
    what : which figure
    value_text : as it was said: a shape with its sizes, or a number
    tolerance_mm : how far the sizes of a hole may be off; None leaves the shop's own
    tool, by, day_text : with what, who, when; None for the login name and today
    choice : catalog files, or else the store
    note : why, for the store's history
    """

    frame_id: str
    place_id: str
    what: ReadWhat
    value_text: str
    tolerance_mm: float | None
    tool: str
    by: str | None
    day_text: str | None
    choice: CatalogChoice
    note: str


def run_measured(question: MeasuredQuestion) -> int:
    """Take the value into its frame, or say everything that is wrong and leave it; returns the exit status."""
    with refusals_as_sentences():
        by = who_saves(question.by, command="measured")
        day = day_named(question.day_text, command="measured")
        value = _value(question)
        if question.choice.paths:
            reading = _reading(question, value, by=by, on=(day or today_in("")).isoformat())
            home, before = take_into_files(reading, question.choice.paths)
            where = printable_line(str(home))
        else:
            where, before = _into_store(question, value, by=by, day=day)
    told = f"{question.frame_id}, {question.place_id}: {question.what} {question.value_text}"
    print(printable_line(f"{told}; before: {value_words(before)}."))
    print(f"Written into {where}.")
    return ExitStatus.DONE


def _into_store(question: MeasuredQuestion, value: Any, *, by: str, day: Any) -> tuple[str, Any]:
    place = question.choice.place
    if not place or not is_store_there(place):
        raise CommandRefused(
            command="measured",
            option="catalog",
            given="no catalog file was named, and there is no store",
            allowed="-c with the file that holds the frame, or --store PLACE",
        )
    with opened_store(place, creates=False) as store:
        from catalog import take_into_store

        on = (day or today_in(time_zone_of(store))).isoformat()
        pin, before = take_into_store(_reading(question, value, by=by, on=on), store, note=question.note)
    return f"the store as {pin}", before


def _reading(question: MeasuredQuestion, value: Any, *, by: str, on: str) -> Reading:
    return Reading(
        frame_id=question.frame_id,
        place_id=question.place_id,
        what=question.what,
        value=value,
        told=question.value_text,
        tolerance_mm=question.tolerance_mm,
        by=by,
        on=on,
        tool=question.tool,
    )


def _value(question: MeasuredQuestion) -> Any:
    if question.tolerance_mm is not None and holds_a_range(question.value_text):
        raise CommandRefused(
            command="measured",
            option="tolerance",
            given=f"{question.tolerance_mm:g} was given beside a range",
            allowed="the range alone, or one number with its tolerance",
        )
    if question.what.is_hole:
        try:
            return opening_fields(read_opening(question.value_text, tolerance_mm=0.0))
        except OpeningNotUnderstood as misread:
            given, _, allowed = str(misread).partition("; allowed: ")
            raise CommandRefused(
                command="measured", option=str(question.what), given=printable_line(given), allowed=allowed
            ) from misread
    if question.tolerance_mm is not None:
        raise CommandRefused(
            command="measured",
            option="tolerance",
            given=f"{question.tolerance_mm:g} was given for a {question.what}",
            allowed="only the sizes of a hole have one here",
        )
    if question.what is ReadWhat.LOOKS:
        return _way_it_looks(question)
    if ends := read_range(question.value_text):
        return f"{ends[0]:g}..{ends[1]:g}"
    try:
        number = float(question.value_text.replace(",", "."))
        return int(number) if number.is_integer() else number
    except (ValueError, OverflowError) as misread:
        raise CommandRefused(
            command="measured",
            option=str(question.what),
            given=f"{printable_line(question.value_text)} was given",
            allowed="a number, or a range such as 35..40, in mm; degrees for a lean",
        ) from misread


def _way_it_looks(question: MeasuredQuestion) -> str:
    """The word for it, or a refusal with those there are."""
    words = [one.value for one in PortLooks]
    if question.value_text not in words:
        given = f"{printable_line(question.value_text)} was given"
        raise CommandRefused(command="measured", option="looks", given=given, allowed=" or ".join(words))
    return question.value_text
