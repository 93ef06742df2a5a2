"""A table made and kept in the store: answers as they come, the table itself once all of them are there."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from catalog import OUTCOME_SIGNS, TableLine
from planner import COLUMNS, CaseAnswers, Tally, find_frame_names
from planner.parts import Case, job_of_pair
from ui.shared.job_fields import fields_of
from ui.table.asked import TableAsked, place_label
from ui.table.kept_words import Lasting, tally_fields
from ui.table.make import Question, brakes_by_look, decide_table, question_of
from ui.table.parts_folder import key_of
from ui.table.plain_text import Refused
from ui.table.store_parts import StoreParts
from ui.table.workers import Workers, this_process

if TYPE_CHECKING:
    from catalog import Store, TableBrief

_OUTCOME = COLUMNS.index("outcome")


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptMade:
    """A table that was made.

    brief : what is kept of it, in short
    is_new : whether it was not kept before
    refused : cases that could not be decided
    """

    brief: "TableBrief"
    is_new: bool
    tally: Tally
    refused: tuple[Refused, ...]


@dataclass(slots=True, kw_only=True)
class _Gathered:
    """What of a table is gathered case by case."""

    tally: Tally = field(default_factory=Tally)
    lines: list[TableLine] = field(default_factory=list)
    refused: list[Refused] = field(default_factory=list)
    frames: dict[str, dict[str, Any]] = field(default_factory=dict)


def keep_table(
    asked: TableAsked,
    store: "Store",
    *,
    by: str,
    note: str = "",
    workers: Workers = this_process,
    workers_n: int = 1,
    tell: Callable[[int], None] = lambda _: None,
) -> KeptMade:
    """Decide what is not decided yet, and keep the table whole.

    by, note : who makes it, and why

    Raises StoreError where the store refuses it.
    """
    question = question_of(cases=asked.cases, brakes=brakes_by_look(asked.brakes), workshop=asked.workshop)
    parts = StoreParts(store, question.run, question.keys)
    gathered = _Gathered()
    decided = decide_table(question, parts=parts, workers=workers, workers_n=workers_n, tell=tell)
    for key, (case, answers) in zip(question.keys, decided, strict=True):
        if isinstance(answers, Refused):
            gathered.refused.append(answers)
        else:
            _gather(gathered, question, key, case, answers)
    brief, is_new = store.tables.save(
        question=_name_of(question, gathered.refused),
        brakes_n=len(asked.brakes),
        counts={outcome.word: several for outcome, several in sorted(gathered.tally.outcomes.items())},
        content=_content(asked, question, gathered),
        lines=gathered.lines,
        by=by,
        note=note,
    )
    return KeptMade(brief=brief, is_new=is_new, tally=gathered.tally, refused=tuple(gathered.refused))


def _name_of(question: Question, refused: Sequence[Refused]) -> str:
    """Stands for all that was asked and could be answered; who asks the same again gets the table there is."""
    brakes = [(brake.id, brake.name) for brake in question.brakes.all]
    return key_of(question.run, *question.keys, repr(brakes), repr([each.case_id for each in refused]))


def _gather(gathered: _Gathered, question: Question, key: str, case: Case, answers: CaseAnswers) -> None:
    brakes = question.brakes
    brakes.count_into(gathered.tally, case, answers)
    outcomes = "".join(OUTCOME_SIGNS[str(row[_OUTCOME])] for row in brakes.rows(case, answers))
    frame = gathered.frames.setdefault(case.frame.id, {"name": case.frame.name, "places": {}})
    told = [place_id for place_id in _places_told(answers) if place_id not in frame["places"]]
    frame["places"] |= {place_id: place_label(case.frame, place_id) for place_id in dict.fromkeys(told) if place_id}
    gathered.lines.append(
        TableLine(
            n=len(gathered.lines),
            case_id=case.id,
            frame_id=case.frame.id,
            label=_label(case),
            outcomes=outcomes,
            run=question.run,
            case_key=key,
            content={"from": case.from_anchor_id, "to": case.to_anchor_id, "job": _job_fields(case, question)},
        )
    )


def _places_told(answers: CaseAnswers) -> Iterator[str]:
    for way in answers.ways:
        yield from (way.decider.place_id, *way.route)
        yield from (place for place, _ in way.missing)


def _label(case: Case) -> str:
    """The frame's name; where a frame may be asked about twice, with what tells this time from the other."""
    if case.id == case.frame.id:
        return case.frame.name
    if case.id == f"{case.frame.id}+{case.from_anchor_id}+{case.to_anchor_id}":
        names = find_frame_names(case.frame)
        return f"{case.frame.name}: {names.way((case.from_anchor_id, case.to_anchor_id))}"
    return f"{case.frame.name} ({case.id})"


def _job_fields(case: Case, question: Question) -> dict[str, Any]:
    """What a job file says of a case, all but its new line and what it is called."""
    fields = fields_of(job_of_pair(case=case, brake=question.brakes.all[0]))
    return {name: value for name, value in fields.items() if name not in ("id", "title", "new")}


def _content(asked: TableAsked, question: Question, gathered: _Gathered) -> dict[str, Any]:
    brakes = question.brakes
    shop = (*asked.workshop.methods, *asked.workshop.adapters)
    lasting: Lasting = {
        "brakes": [
            [brake.id, brake.name, brake.supplied_length_mm, look]
            for brake, look in zip(brakes.all, brakes.look_of, strict=True)
        ],
        "frames": gathered.frames,
        "things": {each.id: each.name for each in shop},
        "tally": tally_fields(gathered.tally),
        "refused": [[each.case_id, each.why] for each in gathered.refused],
    }
    return dict(lasting)
