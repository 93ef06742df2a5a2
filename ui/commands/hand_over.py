"""`lineplan handover`: what went in, what was read and who looked again, kept with a job and printed."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from catalog import CatalogError, write_file
from planner import Finding, HandOver, hand_over_rows, printable_line
from ui.reports.refusals import refusals_as_sentences
from ui.shared.command_refused import CommandRefused
from ui.shared.days import today_in
from ui.shared.exit_status import ExitStatus
from ui.shared.extras import refuse_without
from ui.shared.hand_over import keep_record, last_record, record_pdf
from ui.shared.number_text import read_number
from ui.shared.planned_visit import kept_either
from ui.shared.store_place import opened_store, who_saves
from ui.shared.target_files import Target, refuse_bad_targets


@dataclass(frozen=True, slots=True, kw_only=True)
class HandOverQuestion:
    """What was asked.

    name : of the saved job
    place : of the store
    words : what to record, by the field of the record; None for what stays
    fitted, torques : such as "1=1640" and "12=6"
    by : who records; None for the login name
    pdf : a file to print; None for none
    replaces : whether a file that is there may be lost
    """

    name: str
    place: str
    words: Mapping[str, str | None]
    fitted: Sequence[str]
    torques: Sequence[str]
    by: str | None
    pdf: Path | None
    replaces: bool


def run_hand_over(question: HandOverQuestion) -> int:
    """Record what was named, then tell the record; returns the exit status."""
    with refusals_as_sentences():
        refuse_without("store")
        refuse_bad_targets(Target(path=question.pdf, endings=(".pdf",), replaces=question.replaces))
        if question.pdf is not None:
            refuse_without("paper")
        with opened_store(question.place, creates=False) as store:
            planned = kept_either(store, question.name)
            record, version = last_record(store, planned, question.name)
            new = _filled(record, question)
            if new != record:
                day = today_in(planned.workshop.limits.time_zone).isoformat()
                by = who_saves(question.by, command="handover")
                record = replace(new, day=day)
                version = keep_record(store, question.name, record, based_on=version, by=by)
            title = store.jobs.get(question.name).title
        if question.pdf is not None:
            pdf = record_pdf(record, planned, title=title, version=version)
            write_file(question.pdf, pdf, replaces=question.replaces)
    print(printable_line(f"{title}: hand-over record {version}" if version else f"{title}: nothing is recorded yet"))
    for name, words in hand_over_rows(record):
        print(printable_line(f"  {name}: {words}"))
    return ExitStatus.DONE


def _filled(record: HandOver, question: HandOverQuestion) -> HandOver:
    """The record with what was named; everything that cannot be meant is told at once."""
    problems: list[CommandRefused] = []
    words: dict[str, Any] = {name: said for name, said in question.words.items() if said is not None}
    for name in ("lever_feel", "leaks"):
        if name in words:
            words[name] = _finding(name, words[name], problems)
    lengths = list(record.lengths)
    for place, value in _pairs("fitted", question.fitted, len(lengths), "mm", problems):
        lengths[place] = replace(lengths[place], fitted_mm=value)
    torques = list(record.torques)
    numbers = [row.bolts.removeprefix("Step ").partition(":")[0] for row in torques]
    for place, value in _pairs("torque", question.torques, numbers, "N m", problems):
        torques[place] = replace(torques[place], read_nm=value)
    if problems:
        raise CatalogError("\n".join(map(str, problems)))
    return replace(record, **words, lengths=tuple(lengths), torques=tuple(torques))


def _finding(name: str, said: str, problems: list[CommandRefused]) -> Finding | None:
    found = {finding.value: finding for finding in Finding}.get(said.replace(" ", "_").replace("-", "_"))
    if found is None:
        option = "lever" if name == "lever_feel" else name
        allowed = " or ".join(finding.replace("_", " ") for finding in Finding)
        problems.append(_refused(option, f"{said} was given", allowed))
    return found


def _pairs(
    option: str, told: Sequence[str], numbers: int | Sequence[str], unit: str, problems: list[CommandRefused]
) -> Iterator[tuple[int, float]]:
    """Which row, and the figure, of each "number=figure"."""
    known = [str(n + 1) for n in range(numbers)] if isinstance(numbers, int) else list(numbers)
    for one in told:
        number, _, figure = one.partition("=")
        value = read_number(figure, unit=unit).value
        if number.strip() not in known:
            problems.append(
                _refused(option, f"{one} was given", f"a number of {', '.join(known) or 'no row'}, = and a figure")
            )
        elif value is None or value <= 0:
            problems.append(_refused(option, f"{one} was given", f"a figure above 0 in {unit} behind ="))
        else:
            yield known.index(number.strip()), value


def _refused(option: str, given: str, allowed: str) -> CommandRefused:
    return CommandRefused(command="handover", option=option, given=given, allowed=allowed)
