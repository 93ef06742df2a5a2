"""A table made: what is not in its folder yet is decided in chunks, then every case is told in the order asked for."""

import hashlib
from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Protocol

import planner
from planner import CaseAnswers, Tally, count_case, look_of, table_rows
from planner.parts import Brake, Case, Workshop
from ui.table.parts_folder import key_of
from ui.table.plain_text import Refused, from_text, to_text
from ui.table.workers import Workers, chunk_sizes, this_process

Row = tuple[str | float | None, ...]
LARGEST_CHUNK = 50


@dataclass(frozen=True, slots=True, kw_only=True)
class Brakes:
    """The brakes of a table by their looks: those that differ by name and price alone are decided together.

    all : as they were asked for
    looks : each different one once
    look_of : for each brake, which of these
    """

    all: tuple[Brake, ...]
    looks: tuple[Brake, ...]
    look_of: tuple[int, ...]

    def count_into(self, tally: Tally, case: Case, answers: CaseAnswers) -> None:
        """Count a case's pairs."""
        brakes_n = [0] * len(self.looks)
        for look in self.look_of:
            brakes_n[look] += 1
        supplied_mm = [look.supplied_length_mm for look in self.looks]
        count_case(tally, frame_id=case.frame.id, answers=answers, supplied_mm=supplied_mm, brakes_n=brakes_n)

    def rows(self, case: Case, answers: CaseAnswers) -> Iterator[Row]:
        """A case's rows, a brake each."""
        head = (case.id, case.frame.id, case.from_anchor_id, case.to_anchor_id)
        supplied = [(brake.id, brake.supplied_length_mm) for brake in self.all]
        return table_rows(head=head, answers=answers, brakes=supplied, look_of=self.look_of)


def brakes_by_look(brakes: Sequence[Brake]) -> Brakes:
    """Brakes sorted out by their looks; the looks are in an order of their own, whatever that of the brakes."""
    found = [look_of(brake) for brake in brakes]
    looks = sorted(set(found), key=to_text)
    places = {look: place for place, look in enumerate(looks)}
    return Brakes(all=tuple(brakes), looks=tuple(looks), look_of=tuple(places[look] for look in found))


class Parts(Protocol):
    """Where the answers of one run are kept as they come.

    known : keys of the cases whose answers are there
    """

    @property
    def known(self) -> Collection[str]: ...

    def add(self, keys: Sequence[str], texts: Sequence[str]) -> None:
        """Keep some answers; they count once they are kept for good."""

    def text(self, key: str) -> str:
        """The answers of a case that is known."""

    def forget_others(self, keys: Sequence[str]) -> None:
        """The table is done, of these cases: what is nothing of it may go."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """What a table asks, with the names under which its answers are kept.

    shared : looks and workshop as text, which go to whoever decides
    run : stands for that text and this program
    keys : stand for what each case says
    """

    cases: tuple[Case, ...]
    brakes: Brakes
    shared: str
    run: str
    keys: tuple[str, ...]


def question_of(*, cases: Sequence[Case], brakes: Brakes, workshop: Workshop) -> Question:
    """Cases against brakes in a workshop."""
    shared = to_text((brakes.looks, what_answers(workshop)))
    return Question(
        cases=tuple(cases),
        brakes=brakes,
        shared=shared,
        run=key_of(program_key(), shared),
        keys=tuple(key_of(to_text(case)) for case in cases),
    )


def decide_table(
    question: Question,
    *,
    parts: Parts,
    workers: Workers = this_process,
    workers_n: int = 1,
    tell: Callable[[int], None] = lambda _: None,
) -> Iterator[tuple[Case, CaseAnswers | Refused]]:
    """Each case with its answers, in the order asked for, once all are decided.

    parts : keeps what is decided, from run to run
    tell : is called with how many cases are done, first with those that an earlier run has left
    """
    cases, keys = question.cases, question.keys
    todo = [place for place, key in enumerate(keys) if key not in parts.known]
    done_n = len(cases) - len(todo)
    tell(done_n)
    chunks = chunk_sizes(len(todo), largest=LARGEST_CHUNK, workers_n=workers_n)
    lost: dict[str, Refused] = {}
    for number, text in workers(question.shared, lambda number: _text_of(cases, todo, chunks[number]), len(chunks)):
        some = [todo[place] for place in chunks[number]]
        if text is None:
            lost |= {keys[place]: Refused(case_id=cases[place].id, why=LOST) for place in some}
        else:
            parts.add([keys[place] for place in some], text.split("\n"))
        done_n += len(some)
        tell(done_n)
    for case, key in zip(cases, keys, strict=True):
        yield case, lost[key] if key in lost else from_text(parts.text(key))
    parts.forget_others([key for key in keys if key not in lost])


LOST = "the process that worked on it, or on a frame beside it, was ended by the system, again and again"


def _text_of(cases: Sequence[Case], todo: Sequence[int], chunk: range) -> str:
    return "\n".join(to_text(cases[todo[place]]) for place in chunk)


def what_answers(workshop: Workshop) -> Workshop:
    """The workshop without what no answer hangs on."""
    adapters = tuple(replace(adapter, on_shelf=None) for adapter in workshop.adapters)
    return replace(workshop, small_parts={}, lines={}, fittings={}, brakes={}, adapters=adapters)


@cache
def program_key() -> str:
    """A name for the planner as it is: answers of another one are not taken for its own."""
    found = hashlib.sha256()
    folder = Path(planner.__file__).parent
    for path in sorted(folder.rglob("*.py")):
        found.update(path.relative_to(folder).as_posix().encode() + b"\0" + path.read_bytes() + b"\0")
    return found.hexdigest()
