"""A table made: what is not in its folder yet is decided in chunks, then every case is told in the order asked for."""

import hashlib
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

import planner
from planner import CaseAnswers, Tally, count_case, look_of, table_rows
from planner.parts import Brake, Case, Workshop
from ui.table.parts_folder import PartsFolder, key_of
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
        return table_rows(case=case, answers=answers, brakes=self.all, look_of=self.look_of)


def brakes_by_look(brakes: Sequence[Brake]) -> Brakes:
    """Brakes sorted out by their looks; the looks are in an order of their own, whatever that of the brakes."""
    found = [look_of(brake) for brake in brakes]
    looks = sorted(set(found), key=to_text)
    places = {look: place for place, look in enumerate(looks)}
    return Brakes(all=tuple(brakes), looks=tuple(looks), look_of=tuple(places[look] for look in found))


def decide_table(
    *,
    cases: Sequence[Case],
    brakes: Brakes,
    workshop: Workshop,
    folder: Path,
    workers: Workers = this_process,
    workers_n: int = 1,
    tell: Callable[[int], None] = lambda _: None,
) -> Iterator[tuple[Case, CaseAnswers | Refused]]:
    """Each case with its answers, in the order asked for, once all are decided.

    folder : keeps what is decided, from run to run
    tell : is called with how many cases are done, first with those that an earlier run has left

    Raises FileNotWritten where the folder cannot be made.
    """
    shared = to_text((brakes.looks, _asked_of(workshop)))
    parts = PartsFolder(folder, key_of(program_key(), shared))
    keys = [key_of(to_text(case)) for case in cases]
    todo = [place for place, key in enumerate(keys) if key not in parts.known]
    done_n = len(cases) - len(todo)
    tell(done_n)
    chunks = chunk_sizes(len(todo), largest=LARGEST_CHUNK, workers_n=workers_n)
    lost: dict[str, Refused] = {}
    for number, text in workers(shared, lambda number: _text_of(cases, todo, chunks[number]), len(chunks)):
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


def _asked_of(workshop: Workshop) -> Workshop:
    """The workshop without what no answer hangs on."""
    return replace(workshop, small_parts={}, lines={}, fittings={}, brakes={})


@cache
def program_key() -> str:
    """A name for the planner as it is: answers of another one are not taken for its own."""
    found = hashlib.sha256()
    folder = Path(planner.__file__).parent
    for path in sorted(folder.rglob("*.py")):
        found.update(path.relative_to(folder).as_posix().encode() + b"\0" + path.read_bytes() + b"\0")
    return found.hexdigest()
