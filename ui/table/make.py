"""A table made: every case against every brake, decided case by case."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from planner import CaseAnswers, Tally, book_of, count_case, decide_case, look_of, table_rows
from planner.parts import Brake, Case, Workshop

Row = tuple[str | float | None, ...]


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
    """Brakes sorted out by their looks, in the order each look is first met."""
    places: dict[Brake, int] = {}
    of = tuple(places.setdefault(look_of(brake), len(places)) for brake in brakes)
    return Brakes(all=tuple(brakes), looks=tuple(places), look_of=of)


def decided(
    *, cases: Sequence[Case], brakes: Brakes, workshop: Workshop, tell: Callable[[int], None]
) -> Iterator[tuple[Case, CaseAnswers]]:
    """Each case with its answers, in the order asked for.

    tell : is called after each with how many are done
    """
    book = book_of(brakes.looks, workshop)
    for done, case in enumerate(cases, start=1):
        yield case, decide_case(case=case, book=book)
        tell(done)
