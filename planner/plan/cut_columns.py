"""Patterns worth having, one round after the other, and a bound that rests on the prices of the pieces alone."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import inf
from typing import Any

import numpy as np

from planner.geometry.packing.work import Work
from planner.plan.cut_patterns import CutProblem, Pattern
from planner.plan.cut_pricing import Array, FillingTable
from planner.plan.cut_program import Settled, Wish, make_program, round_up, step_of

WORTH_HAVING = 1e-9
WHOLE = 1e-6
DEAR = 10
CELLS_AN_ENTRY = 40
"""What an entry of the linear program takes, in cells of the table; measured."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns:
    """What column generation came to.

    patterns : ways of cutting that the linear program may mix
    times : how often it takes each, in parts; never where these patterns cannot keep the settled totals [no unit]
    bound : no way of cutting is better than this, whatever the patterns [in the wish's prices, no unit of its own]
    """

    patterns: tuple[Pattern, ...]
    times: tuple[float, ...]
    bound: int


def generate_columns(
    *,
    problem: CutProblem,
    wish: Wish,
    settled: Settled,
    so_far: int,
    known: Iterable[Pattern],
    table: FillingTable,
    work: Work,
) -> Columns:
    """Patterns added by the prices of the linear program, until they prove that nothing is better than what is known,
    or until nothing is left to gain or the work is used up.

    problem : sizes and stock
    wish : what is minimised
    settled : the wishes settled before, with the totals not to be exceeded
    so_far : the best total known
    known : patterns to begin with
    table : prices patterns of this problem
    work : what may be spent

    Source: P. C. Gilmore, R. E. Gomory, Operations Research 9 (1961) 849-859; the bound is that of Lagrange's
    multipliers, as in L. S. Lasdon, "Optimization theory for large systems", 1970; both from memory.
    """
    step = step_of(wish)
    patterns = list(dict.fromkeys((*known, *_single_sizes(problem))))
    has = set(patterns)
    times: Any = [0.0] * len(patterns)
    bound = 0
    while not work.is_out:
        work.spend(table.cells + CELLS_AN_ENTRY * len(patterns) * (len(problem.sizes) + len(problem.rooms)))
        solved = _solve(problem, wish, settled, patterns)
        if solved is None:
            break
        times = solved.times if solved.is_kept else [0.0] * len(patterns)
        priced = table.price(solved.values)
        bound = max(bound, round_up(_bound(problem, wish, settled, solved, priced.worth_at_most, so_far), step=step))
        if bound >= min(so_far, round_up(solved.total, step=step)):
            break
        gain = priced.worth - solved.prices
        scale = max(1, *wish.stock_prices, wish.uncut_price)
        fresh = [
            pattern
            for stock in np.flatnonzero(gain > WORTH_HAVING * scale).tolist()
            if (pattern := Pattern(stock=stock, counts=priced.counts[stock])) not in has
        ]
        if not fresh:
            break
        patterns.extend(fresh)
        has.update(fresh)
    return Columns(
        patterns=tuple(patterns),
        times=tuple(float(time) for time in (*times, *[0.0] * (len(patterns) - len(times)))),
        bound=min(bound, so_far),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Solved:
    """One linear program: its total, how often each pattern, whether the settled totals are kept, the worth of each
    size, each stock's price after all duals, and the duals of the settled wishes (none above zero)."""

    total: float
    times: Any
    is_kept: bool
    values: Array
    prices: Array
    settled_duals: Array


def _solve(problem: CutProblem, wish: Wish, settled: Settled, patterns: Sequence[Pattern]) -> _Solved | None:
    from scipy.optimize import linprog

    sizes, stocks = len(problem.sizes), len(problem.rooms)
    program = make_program(problem, wish, settled, patterns, is_exact=False)
    has_upper = program.upper < inf
    rows = np.concatenate([-program.matrix[:sizes], program.matrix[has_upper]])
    beyond = np.zeros(
        (len(rows), len(settled))
    )  # what goes beyond a settled total, dear: so that prices are always found
    if settled:
        beyond[-len(settled) :] = -np.eye(len(settled))
    result = linprog(
        np.concatenate([program.prices, np.full(len(settled), DEAR * max(1, *wish.stock_prices, wish.uncut_price))]),
        A_ub=np.concatenate([rows, beyond], axis=1),
        b_ub=np.concatenate([-program.lower[:sizes], program.upper[has_upper]]),
        bounds=np.stack(
            [np.zeros(rows.shape[1] + len(settled)), np.append(program.most, [inf] * len(settled))], axis=1
        ),
        method="highs",
    )
    if not result.success:
        return None
    duals = np.minimum(result.ineqlin.marginals, 0.0)
    by_row = np.zeros(len(program.upper))
    by_row[has_upper] = duals[sizes:]
    settled_duals = by_row[sizes + stocks :]
    prices = _prices_after(wish, settled, settled_duals) - by_row[sizes : sizes + stocks]
    return _Solved(
        total=float(result.fun),
        times=result.x[: len(patterns)],
        is_kept=not (result.x[rows.shape[1] :] > WHOLE).any(),
        values=-duals[:sizes],
        prices=prices,
        settled_duals=settled_duals,
    )


def _prices_after(wish: Wish, settled: Settled, duals: Array) -> Array:
    """The price of each kind of stock, with what the settled wishes add."""
    prices = np.array(wish.stock_prices, dtype=np.float64)
    for dual, (was, _) in zip(duals, settled, strict=True):
        prices -= dual * np.array(was.stock_prices)
    return prices


def _bound(
    problem: CutProblem, wish: Wish, settled: Settled, solved: _Solved, worth_at_most: Array, so_far: int
) -> float:
    """What every way of cutting costs at least, told by the worth of the pieces: it holds for any worth."""
    demands = np.array(problem.demands)
    uncut_price = wish.uncut_price - sum(
        dual * was.uncut_price for dual, (was, _) in zip(solved.settled_duals, settled, strict=True)
    )
    prices = _prices_after(wish, settled, solved.settled_duals)
    opened_at_most = np.array(_opened_at_most(problem, wish, settled, so_far))
    kept = sum(dual * total for dual, (_, total) in zip(solved.settled_duals, settled, strict=True))
    return float(
        solved.values @ demands
        + kept
        + (demands * np.minimum(0.0, uncut_price - solved.values)).sum()
        + (opened_at_most * np.minimum(0.0, prices - worth_at_most)).sum()
    )


def _opened_at_most(problem: CutProblem, wish: Wish, settled: Settled, so_far: int) -> list[int]:
    """How many of each kind of stock any way of cutting opens that is no worse than the standing one."""
    limits: Iterable[tuple[Wish, int]] = (*settled, (wish, so_far))
    return [
        min(
            sum(problem.demands) if supply is None else supply,
            *(total // was.stock_prices[stock] for was, total in limits if was.stock_prices[stock]),
            sum(problem.demands),
        )
        for stock, supply in enumerate(problem.supplies)
    ]


def _single_sizes(problem: CutProblem) -> list[Pattern]:
    """The longest stock there is, cut into pieces of one size."""
    there = [stock for stock, supply in enumerate(problem.supplies) if supply != 0]
    longest = max(there, key=lambda stock: problem.rooms[stock], default=0)
    return [
        Pattern(stock=longest, counts=tuple(most if other == index else 0 for other in range(len(problem.sizes))))
        for index, size in enumerate(problem.sizes)
        if (most := min(problem.demands[index], problem.rooms[longest] // size)) > 0
    ]
