"""A table of frames against brakes beside planning each pair by itself, and beside a smaller table."""

from collections.abc import Iterator
from functools import partial
from itertools import islice
from random import Random

from catalog import read_catalog
from planner import CaseAnswers, book_of, decide_case, look_of
from planner.parts import Brake
from tests.benchmarks.bench_plan import empty_memories
from tests.benchmarks.beside.measured import Measured, Stopwatch
from tests.planner.table.one_by_one import told_by_plan, told_by_table
from tests.planner.table.realistic import brakes_of, cases_of

WORKSHOP = read_catalog().workshop


def table_and_pairs(*, cases_n: int, brakes_n: int, pairs_n: int) -> Measured:
    """The whole table, and some of its pairs planned alone with warm memories: those rows the same, all pairs by their
    mean."""
    mine, theirs = Stopwatch(), Stopwatch()
    brakes, draw = brakes_of(brakes_n), Random(5)
    answers = mine.time(partial(_table, cases_n, brakes))
    cases = list(islice(cases_of(cases_n), cases_n))
    for _ in range(pairs_n):
        place, look = draw.randrange(cases_n), draw.randrange(brakes_n)
        alone = theirs.time(partial(told_by_plan, cases[place], brakes[look], WORKSHOP))
        assert alone == told_by_table(answers[place], look, brakes[look]), (place, look)
    return Measured(
        name="",
        work=f"{cases_n} frames against {brakes_n} brakes; {pairs_n} rows held equal",
        ours_s=mine.seconds,
        beside="each pair planned alone, as long as those rows take",
        beside_s=theirs.seconds / pairs_n * cases_n * brakes_n,
        aim="200 at 1,000 x 200",
    )


def growing_table(*, cases_n: int, brakes_n: int, times: int) -> Measured:
    """A table, and one of so many times fewer frames as long as that many of it; frames in both are answered alike."""
    small, large = Stopwatch(), Stopwatch()
    brakes, few_n = brakes_of(brakes_n), max(cases_n // times, 1)
    few, few_pairs = small.time(partial(_counted_table, few_n, brakes, kept_n=few_n))
    many, many_pairs = large.time(partial(_counted_table, cases_n, brakes, kept_n=few_n))
    assert few == many
    assert (few_pairs, many_pairs) == (few_n * brakes_n, cases_n * brakes_n)
    return Measured(
        name="",
        work=f"{cases_n} frames against {brakes_n} brakes, {large.seconds / many_pairs * 1e6:.3g} us a pair",
        ours_s=large.seconds,
        beside=f"{few_n} {'frame' if few_n == 1 else 'frames'}, as long as so many pairs take",
        beside_s=small.seconds / few_pairs * many_pairs,
        aim="1",
    )


def _table(cases_n: int, brakes: tuple[Brake, ...]) -> list[CaseAnswers]:
    return list(_decided(cases_n, brakes))


def _decided(cases_n: int, brakes: tuple[Brake, ...]) -> Iterator[CaseAnswers]:
    """From emptied memories, one after the other: a large table is never held whole."""
    empty_memories()
    book = book_of(tuple(map(look_of, brakes)), WORKSHOP)
    return (decide_case(case=case, book=book) for case in islice(cases_of(cases_n), cases_n))


def _counted_table(cases_n: int, brakes: tuple[Brake, ...], *, kept_n: int) -> tuple[list[CaseAnswers], int]:
    """The first answers, and how many pairs were answered in all."""
    first: list[CaseAnswers] = []
    pairs_n = 0
    for answers in _decided(cases_n, brakes):
        pairs_n += len(answers.way_of)
        if len(first) < kept_n:
            first.append(answers)
    return first, pairs_n
