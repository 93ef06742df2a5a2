"""The parts of the search for a cut list, each by itself: against every way of cutting, or by hand."""

from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.geometry.packing.work import Work
from planner.plan.cut_columns import Columns, _opened_at_most, _single_sizes, generate_columns
from planner.plan.cut_dive import _choices, _fitting, _Rest, _still_fitting
from planner.plan.cut_patterns import (
    Counts,
    CutProblem,
    Pattern,
    cut_greedily,
    find_patterns,
    leftover_of,
    scrap_of,
)
from planner.plan.cut_pricing import FillingTable, _powers
from planner.plan.cut_program import Standing, Wish, _without_surplus, make_program, round_up, step_of
from planner.plan.cut_search import _easy_bound

ROLLS = Wish(stock_prices=(1, 0))
LENGTHS = Wish(stock_prices=(10, 7))
UNCUT = Wish(stock_prices=(0, 0), uncut_price=1)
PROBLEM = CutProblem(sizes=(5, 3, 2), demands=(2, 3, 1), rooms=(10, 7), supplies=(None, 2), are_rolls=(True, False))


def ways(problem: CutProblem, stock: int) -> list[Counts]:
    """Every way of cutting one kind of stock, the empty one too."""
    fillings = product(*(range(demand + 1) for demand in problem.demands))
    sizes, room = problem.sizes, problem.rooms[stock]
    return [way for way in fillings if sum(n * size for n, size in zip(way, sizes, strict=True)) <= room]


problems = st.builds(
    lambda pieces, rooms: CutProblem(
        sizes=tuple(size for size, _ in sorted(pieces, reverse=True)),
        demands=tuple(demand for _, demand in sorted(pieces, reverse=True)),
        rooms=tuple(rooms),
        supplies=tuple(None for _ in rooms),
        are_rolls=tuple(True for _ in rooms),
    ),
    st.lists(
        st.tuples(st.integers(2, 20), st.integers(1, 4)), min_size=1, max_size=4, unique_by=lambda piece: piece[0]
    ),
    st.lists(st.integers(20, 60), min_size=1, max_size=2),
)


@settings(max_examples=40, deadline=None)
@given(problems)
def test_every_way_of_cutting_is_listed_once_and_no_other(problem: CutProblem) -> None:
    listed = find_patterns(problem=problem, only_full=False, at_most=10**6)
    assert listed is not None
    every = {Pattern(stock=n, counts=way) for n in range(len(problem.rooms)) for way in ways(problem, n) if any(way)}
    assert len(listed) == len(every)
    assert set(listed) == every
    full = find_patterns(problem=problem, only_full=True, at_most=10**6)
    assert full is not None

    def takes_no_more(pattern: Pattern) -> bool:
        left = problem.rooms[pattern.stock] - sum(
            n * size for n, size in zip(pattern.counts, problem.sizes, strict=True)
        )
        return all(
            size > left
            for n, size, demand in zip(pattern.counts, problem.sizes, problem.demands, strict=True)
            if n < demand
        )

    assert set(full) == {pattern for pattern in every if takes_no_more(pattern)}
    for only_full, found in ((False, listed), (True, full)):
        asked = {"problem": problem, "only_full": only_full}
        assert find_patterns(at_most=len(found), **asked) == found  # type: ignore[arg-type]
        assert find_patterns(at_most=len(found) - 1, **asked) is None  # type: ignore[arg-type]


@settings(max_examples=40, deadline=None)
@given(
    problems,
    st.lists(st.sampled_from([0.0, 0.5, 1.0, 2.5, 7.0]), min_size=4, max_size=4),
    st.sampled_from([10**6, 60, 9, 1]),
)
def test_the_fillings_worth_most_are_found_and_what_bounds_them_holds(
    problem: CutProblem, worth: list[float], cells: int
) -> None:
    values = np.array(worth[: len(problem.sizes)])
    table = FillingTable(problem, cells_at_most=cells)
    priced = table.price(values)
    for stock in range(len(problem.rooms)):
        best = max(float(np.array(way) @ values) for way in ways(problem, stock))
        assert priced.counts[stock] in ways(problem, stock)
        assert priced.worth[stock] == pytest.approx(float(np.array(priced.counts[stock]) @ values))
        assert priced.worth[stock] <= best + 1e-9 <= priced.worth_at_most[stock] + 2e-9
        if cells == 10**6:
            assert priced.worth[stock] == priced.worth_at_most[stock] == pytest.approx(best)


def test_a_table_takes_no_more_cells_than_it_may_by_more_than_one_a_copy() -> None:
    """Sizes 30, 18 and 12 go by sixes: rooms of 10 and 7 steps; of each size 2, 3 and 1, in 2, 2 and 1 copies."""
    problem = CutProblem(
        sizes=(30, 18, 12), demands=(2, 3, 1), rooms=(60, 42), supplies=(None, None), are_rolls=(True, True)
    )
    assert FillingTable(problem, cells_at_most=1000).cells == 5 * 11
    assert FillingTable(problem, cells_at_most=50).cells == 5 * 11
    assert FillingTable(problem, cells_at_most=49).cells == 5 * 6
    assert FillingTable(problem, cells_at_most=25).cells == 5 * 6
    assert FillingTable(problem, cells_at_most=24).cells == 5 * 4


@pytest.mark.parametrize("count", range(20))
def test_parts_of_a_count_make_every_smaller_count_and_no_larger(count: int) -> None:
    parts = _powers(count)
    sums = {
        sum(part for part, taken in zip(parts, way, strict=True) if taken) for way in product((0, 1), repeat=len(parts))
    }
    assert sums == set(range(count + 1))
    assert len(parts) == count.bit_length()


@pytest.mark.parametrize(
    ("counts", "saw_cut", "keep_from", "leftover", "scrap"),
    [
        ((1, 1, 0), 0, None, 2, 2),
        ((1, 1, 0), 0, 2, 2, 0),
        ((1, 1, 0), 0, 3, 2, 2),
        ((2, 0, 0), 0, None, 0, 0),
        ((1, 1, 0), 1, None, 1, 1),  # the room holds one saw cut more than the length
        ((2, 0, 0), 1, None, 0, 0),
        ((1, 1, 1), 1, None, 0, 0),
    ],
)
def test_what_is_left_of_a_length_and_what_of_it_is_scrap(
    counts: Counts, saw_cut: int, keep_from: int | None, leftover: int, scrap: int
) -> None:
    problem = CutProblem(
        sizes=(5, 3, 2),
        demands=(2, 3, 1),
        rooms=(10,),
        supplies=(None,),
        are_rolls=(True,),
        saw_cut=saw_cut,
        keep_from=keep_from,
    )
    pattern = Pattern(stock=0, counts=counts)
    assert leftover_of(problem=problem, pattern=pattern) == leftover
    assert scrap_of(problem=problem, pattern=pattern) == scrap


def test_quickly_offcuts_are_used_first_the_shortest_first_and_then_the_longest_rolls() -> None:
    problem = CutProblem(
        sizes=(4,),
        demands=(7,),
        rooms=(9, 12, 8, 5, 3),
        supplies=(None, 1, 1, 1, None),
        are_rolls=(True, True, False, False, False),
    )
    bins, uncut = cut_greedily(problem=problem)
    assert [(one.stock, one.counts) for one in bins] == [(3, (1,)), (2, (2,)), (1, (3,)), (0, (1,))]
    assert uncut == (0,)
    short = CutProblem(sizes=(4,), demands=(7,), rooms=(9,), supplies=(2,), are_rolls=(True,))
    assert cut_greedily(problem=short)[1] == (3,)
    none = CutProblem(sizes=(4,), demands=(7,), rooms=(9,), supplies=(0,), are_rolls=(True,))
    assert cut_greedily(problem=none) == ((), (7,))


def test_of_wanted_patterns_those_that_pieces_and_stock_are_left_for_are_taken() -> None:
    two_fives, threes = Pattern(stock=0, counts=(2, 0, 0)), Pattern(stock=1, counts=(0, 2, 0))
    five_two = Pattern(stock=1, counts=(1, 0, 1))
    assert _fitting(PROBLEM, [(two_fives, 3), (threes, 2)]) == [two_fives, threes]  # pieces for one of each only
    assert _fitting(PROBLEM, [(five_two, 1), (threes, 1), (Pattern(stock=1, counts=(0, 1, 0)), 1)]) == [
        five_two,
        threes,
    ]  # two of that stock
    assert _fitting(PROBLEM, [(five_two, 2)]) == [five_two]  # one piece of 2
    assert _fitting(PROBLEM, [(Pattern(stock=0, counts=(0, 3, 0)), 1)]) == [Pattern(stock=0, counts=(0, 3, 0))]


def chosen(*times: float) -> list[list[int]]:
    """Which patterns are tried, by their numbers, where each is of one piece that there is plenty of."""
    sizes = tuple(range(9, 9 - len(times), -1))
    plenty = CutProblem(sizes=sizes, demands=(9,) * len(times), rooms=(9,), supplies=(None,), are_rolls=(True,))
    patterns = tuple(
        Pattern(stock=0, counts=tuple(int(n == other) for other in range(len(times)))) for n in range(len(times))
    )
    columns = Columns(patterns=patterns, times=times, bound=0)
    return [[patterns.index(one) for one in some] for some in _choices(plenty, columns)]


def test_whole_times_are_taken_for_good_then_what_is_nearly_once_and_then_one_by_one() -> None:
    assert chosen(0.4, 2.3, 1.0) == [[1, 1, 2]]
    assert chosen(0.4, 0.9999999) == [[1]]
    assert chosen(0.4, 0.8, 0.7, 0.69) == [[1, 2], [1], [2], [3]]
    assert chosen(0.4, 0.8, 0.0, 0.6) == [[1], [3], [0]]
    assert chosen(0.1, 0.2, 0.3, 0.4) == [[3], [2], [1]]
    assert chosen(0.0, 1e-7) == []


def test_patterns_are_cut_down_to_what_is_still_wanted_of_stock_that_is_still_there() -> None:
    gone = CutProblem(sizes=(5, 3, 2), demands=(1, 0, 1), rooms=(10, 7), supplies=(None, 0), are_rolls=(True, False))
    kept = _still_fitting(
        gone,
        [
            Pattern(stock=0, counts=(2, 0, 0)),
            Pattern(stock=0, counts=(1, 1, 0)),
            Pattern(stock=0, counts=(0, 3, 0)),
            Pattern(stock=1, counts=(1, 0, 1)),
            Pattern(stock=0, counts=(1, 1, 1)),
        ],
    )
    assert kept == [Pattern(stock=0, counts=(1, 0, 0)), Pattern(stock=0, counts=(1, 0, 1))]


def test_what_is_taken_goes_off_pieces_stock_and_what_it_may_cost() -> None:
    rest = _Rest(problem=PROBLEM, settled=((UNCUT, 0), (ROLLS, 2)), so_far=24)
    after = rest.after(LENGTHS, [Pattern(stock=0, counts=(2, 0, 0)), Pattern(stock=1, counts=(0, 2, 0))])
    assert (after.problem.demands, after.problem.supplies) == ((0, 1, 1), (None, 1))
    assert (after.settled, after.so_far) == (((UNCUT, 0), (ROLLS, 1)), 24 - 17)
    assert len(after.taken) == 2
    assert not after.is_done(LENGTHS)  # two pieces are left, and none may be
    filled = after.filled(LENGTHS)
    assert filled is None  # a length more is 7, and less than 7 is left
    dear = _Rest(problem=after.problem, settled=after.settled, so_far=8)
    end = dear.filled(LENGTHS)
    assert end is not None
    assert end.taken == (Pattern(stock=1, counts=(0, 1, 1)),)
    assert end.is_done(LENGTHS)
    assert end.so_far == 1


def test_of_a_length_that_gives_too_much_the_surplus_is_not_cut_and_an_empty_one_not_opened() -> None:
    patterns = [Pattern(stock=0, counts=(2, 0, 0)), Pattern(stock=1, counts=(1, 0, 1))]
    bins, left = _without_surplus(PROBLEM, patterns, [1, 2, 5])
    assert bins == (Pattern(stock=0, counts=(2, 0, 0)), Pattern(stock=1, counts=(0, 0, 1)))
    assert left == (0, 3, 0)


def test_totals_are_whole_multiples_of_what_all_prices_share() -> None:
    assert step_of(Wish(stock_prices=(12, 18), uncut_price=0)) == 6
    assert step_of(Wish(stock_prices=(12, 18), uncut_price=4)) == 2
    assert step_of(Wish(stock_prices=(0, 0))) == 1
    assert [round_up(value, step=6) for value in (12.0, 12.000001, 12.001, 17.99, 0.0)] == [12, 12, 18, 18, 0]


def test_the_easy_bound_is_what_the_pieces_ask_for_as_if_stock_could_be_joined() -> None:
    """Pieces of 5, 5, 3, 3, 3 and 2 are 21. Two offcuts of 7 are free of rolls: 7 are left, one roll; by length the
    same price a unit, 21. With one piece left uncut, the largest, 16."""
    nothing_uncut = Standing(bins=(), uncut=(0, 0, 0))
    assert _easy_bound(PROBLEM, ROLLS, nothing_uncut) == 1
    assert _easy_bound(PROBLEM, LENGTHS, nothing_uncut) == 21
    assert _easy_bound(PROBLEM, LENGTHS, Standing(bins=(), uncut=(1, 0, 0))) == 16
    assert _easy_bound(PROBLEM, UNCUT, nothing_uncut) == 0
    few = CutProblem(sizes=(5, 3, 2), demands=(2, 3, 1), rooms=(10, 7), supplies=(1, 0), are_rolls=(True, False))
    assert _easy_bound(few, UNCUT, nothing_uncut) == 3  # 2 + 3 + 3 are 8, one more 3 is too much


def test_no_more_of_a_stock_is_opened_than_there_is_than_pieces_and_than_the_best_so_far_costs() -> None:
    assert _opened_at_most(PROBLEM, LENGTHS, (), 100) == [6, 2]
    assert _opened_at_most(PROBLEM, LENGTHS, (), 39) == [3, 2]
    assert _opened_at_most(PROBLEM, LENGTHS, (), 6) == [0, 0]
    assert _opened_at_most(PROBLEM, LENGTHS, ((ROLLS, 1),), 39) == [1, 2]


def test_generating_begins_with_the_longest_stock_there_is_cut_into_one_size_each() -> None:
    assert _single_sizes(PROBLEM) == [
        Pattern(stock=0, counts=(2, 0, 0)),
        Pattern(stock=0, counts=(0, 3, 0)),
        Pattern(stock=0, counts=(0, 0, 1)),
    ]
    used_up = CutProblem(sizes=(8, 3), demands=(2, 3), rooms=(10, 7), supplies=(0, 2), are_rolls=(True, False))
    assert _single_sizes(used_up) == [Pattern(stock=1, counts=(0, 2))]


def generated(problem: CutProblem, wish: Wish, so_far: int, *, work: int = 10**7) -> Columns:
    return generate_columns(
        problem=problem,
        wish=wish,
        settled=((Wish(stock_prices=(0,) * len(problem.rooms), uncut_price=1), 0),),
        so_far=so_far,
        known=(),
        table=FillingTable(problem, cells_at_most=10**6),
        work=Work(work),
    )


def test_the_bound_of_generated_patterns_is_that_of_the_linear_program() -> None:
    """Rolls of 10; 3 of 6 and 2 of 5: each 6 takes a roll of its own, two 5 share one: 4. Of 4, 3 and 3 any number fill
    rolls to the last. Five of 4 two by two ask for 2.5, so 3."""
    rolls = Wish(stock_prices=(1,))

    def bound(sizes: Counts, demands: Counts) -> int:
        problem = CutProblem(sizes=sizes, demands=demands, rooms=(10,), supplies=(None,), are_rolls=(True,))
        columns = generated(problem, rolls, sum(demands))
        assert len(columns.times) == len(columns.patterns)
        assert len(set(columns.patterns)) == len(columns.patterns)
        assert all(pattern.counts in ways(problem, 0) for pattern in columns.patterns)
        return columns.bound

    assert bound((6, 5), (3, 2)) == 4
    assert bound((4, 3), (5, 10)) == 5
    assert bound((4,), (5,)) == 3


def test_without_work_nothing_is_generated_and_nothing_proven() -> None:
    problem = CutProblem(sizes=(6, 5), demands=(3, 2), rooms=(10,), supplies=(None,), are_rolls=(True,))
    columns = generated(problem, Wish(stock_prices=(1,)), 5, work=0)
    assert (columns.bound, set(columns.times)) == (0, {0.0})
    assert list(columns.patterns) == _single_sizes(problem)


def test_a_program_has_a_row_for_each_size_each_stock_and_each_settled_wish() -> None:
    patterns = [Pattern(stock=0, counts=(2, 0, 0)), Pattern(stock=1, counts=(0, 1, 1))]
    program = make_program(PROBLEM, LENGTHS, ((UNCUT, 1), (ROLLS, 2)), patterns, is_exact=False)
    assert program.matrix.tolist() == [
        [2, 0, 1, 0, 0],
        [0, 1, 0, 1, 0],
        [0, 1, 0, 0, 1],
        [1, 0, 0, 0, 0],
        [0, 1, 0, 0, 0],
        [0, 0, 1, 1, 1],
        [1, 0, 0, 0, 0],
    ]
    endless = float("inf")
    assert program.prices.tolist() == [10, 7, 0, 0, 0]
    assert program.lower.tolist() == [2, 3, 1, -endless, -endless, -endless, -endless]
    assert program.upper.tolist() == [endless, endless, endless, endless, 2, 1, 2]
    assert program.most.tolist() == [endless, endless, 2, 3, 1]
    exact = make_program(PROBLEM, LENGTHS, (), patterns, is_exact=True)
    assert exact.upper.tolist() == [2, 3, 1, endless, 2]
