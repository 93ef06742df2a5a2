"""The integer programs behind a cut list: which patterns, how often, for one wish at a time."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil, gcd, isfinite
from typing import Any

from planner.plan.cut_patterns import Counts, CutProblem, Pattern, scrap_of

ROUNDING = 1e-6
"""How far a bound from the linear solver is trusted; far above its own tolerance of 1e-7 on such small programs."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SearchEffort:
    """How much work may be spent; counted in steps and not in seconds, so that the same job gives the same answer.

    patterns_at_most : more ways of cutting than this are not listed but generated as needed
    nodes_at_most : nodes of one branch-and-bound search
    """

    patterns_at_most: int = 5_000
    nodes_at_most: int = 20_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """What one level minimises: a price on each kind of stock, or on each pattern, and on each uncut piece."""

    stock_prices: tuple[int, ...]
    uncut_price: int = 0
    is_scrap: bool = False

    def price(self, problem: CutProblem, pattern: Pattern) -> int:
        return scrap_of(problem=problem, pattern=pattern) if self.is_scrap else self.stock_prices[pattern.stock]

    def total(self, problem: CutProblem, bins: Sequence[Pattern], uncut: Counts) -> int:
        return sum(self.price(problem, pattern) for pattern in bins) + self.uncut_price * sum(uncut)


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """The best way of cutting so far, and the wishes already settled with the totals not to be exceeded."""

    bins: tuple[Pattern, ...]
    uncut: Counts
    settled: tuple[tuple[Wish, int], ...] = ()


def search_patterns(
    *,
    problem: CutProblem,
    wish: Wish,
    standing: Standing,
    patterns: Sequence[Pattern],
    effort: SearchEffort,
    is_exact: bool = False,
) -> tuple[Standing, int]:
    """The best way of cutting with the given patterns, by branch and bound.

    Returns the better way, or `standing` where none was found, and a bound that holds for these patterns.

    problem : sizes and stock
    wish : what is minimised
    standing : the best way so far, with the wishes settled before
    patterns : ways of cutting to choose from
    effort : how much work may be spent
    is_exact : whether a pattern is cut as it stands; else pieces it gives beyond those wanted are not cut

    Source: Q. Huangfu, J. A. J. Hall, "Parallelizing the dual revised simplex method", Mathematical Programming
    Computation 10 (2018) 119-142 (from memory): the solver used.
    """
    from scipy.optimize import Bounds, LinearConstraint, milp

    program = _program(problem, wish, standing.settled, patterns, is_exact=is_exact)
    result = milp(
        program.prices,
        constraints=LinearConstraint(program.matrix, program.lower, program.upper),
        integrality=[1] * len(program.prices),
        bounds=Bounds(0, program.most),
        options={"node_limit": effort.nodes_at_most, "mip_rel_gap": 0.0},
    )
    bound = result.mip_dual_bound
    is_bounded = bound is not None and isfinite(bound)
    lowest = _round_up(bound, step=1 if wish.is_scrap else _step_of(wish)) if is_bounded else 0
    if result.x is None:
        return standing, lowest
    bins, uncut = _without_surplus(problem, patterns, [round(value) for value in result.x])
    is_better = wish.total(problem, bins, uncut) < wish.total(problem, standing.bins, standing.uncut)
    return (replace(standing, bins=bins, uncut=uncut) if is_better else standing), lowest


def _without_surplus(
    problem: CutProblem, patterns: Sequence[Pattern], values: Sequence[int]
) -> tuple[tuple[Pattern, ...], Counts]:
    """Patterns may cover more than is wanted: what is too much is not cut, and an empty length not opened."""
    left, bins = list(problem.demands), []
    for pattern, times in zip(patterns, values, strict=False):
        for _ in range(times):
            counts = tuple(min(count, have) for count, have in zip(pattern.counts, left, strict=True))
            left = [have - count for have, count in zip(left, counts, strict=True)]
            if any(counts):
                bins.append(Pattern(stock=pattern.stock, counts=counts))
    return tuple(bins), tuple(left)


def generate_patterns(*, problem: CutProblem, wish: Wish, standing: Standing) -> tuple[tuple[Pattern, ...], int]:
    """Patterns worth having, one by one, until the linear program cannot be bettered.

    Returns the patterns, and the linear bound rounded up: it holds for all patterns there are; 0 where there is none.

    problem : sizes and stock
    wish : what is minimised
    standing : the best way so far, with the wishes settled before

    Source: P. C. Gilmore, R. E. Gomory, Operations Research 9 (1961) 849-859 (from memory).
    """
    from scipy.optimize import linprog

    sizes = len(problem.sizes)
    patterns = list(dict.fromkeys((*standing.bins, *_single_sizes(problem))))
    while True:
        program = _program(problem, wish, standing.settled, patterns, is_exact=False)
        has_upper = program.upper < float("inf")
        signed = [*(-program.matrix[:sizes]), *program.matrix[has_upper]]
        limits = [*(-program.lower[:sizes]), *program.upper[has_upper]]
        result = linprog(
            program.prices, A_ub=signed, b_ub=limits, bounds=[(0, most) for most in program.most], method="highs"
        )
        if not result.success:
            return tuple(patterns), 0
        duals = result.ineqlin.marginals
        row_values = dict(zip(has_upper.nonzero()[0], duals[sizes:], strict=True))
        fresh = [
            pattern
            for stock in range(len(problem.rooms))
            if (pattern := _cheapest(problem, wish, standing, stock, -duals[:sizes], row_values)) is not None
            and pattern not in patterns
        ]
        if not fresh:
            return tuple(patterns), _round_up(result.fun, step=_step_of(wish))
        patterns.extend(fresh)


def _single_sizes(problem: CutProblem) -> list[Pattern]:
    return [
        Pattern(stock=stock, counts=tuple(most if other == index else 0 for other in range(len(problem.sizes))))
        for stock, room in enumerate(problem.rooms)
        for index, size in enumerate(problem.sizes)
        if (most := min(problem.demands[index], room // size)) > 0
    ]


def _cheapest(
    problem: CutProblem, wish: Wish, standing: Standing, stock: int, values: Any, row_values: dict[int, float]
) -> Pattern | None:
    """The pattern of one kind of stock that the linear program would gain most from; None where it gains nothing."""
    from scipy.optimize import Bounds, LinearConstraint, milp

    sizes, stocks = len(problem.sizes), len(problem.rooms)
    price = wish.stock_prices[stock] - row_values.get(sizes + stock, 0.0)
    for row, (was, _) in enumerate(standing.settled):
        price -= row_values.get(sizes + stocks + row, 0.0) * was.stock_prices[stock]
    result = milp(
        -values,
        constraints=LinearConstraint([list(problem.sizes)], 0, problem.rooms[stock]),
        integrality=[1] * sizes,
        bounds=Bounds(0, list(problem.demands)),
        options={"mip_rel_gap": 0.0},
    )
    counts = tuple(round(value) for value in result.x)
    gain = sum(value * count for value, count in zip(values, counts, strict=True)) - price
    scale = max(1, *wish.stock_prices, wish.uncut_price)
    return Pattern(stock=stock, counts=counts) if gain > ROUNDING * 1e-2 * scale else None


def _step_of(wish: Wish) -> int:
    return gcd(*wish.stock_prices, wish.uncut_price) or 1


def _round_up(value: float, *, step: int) -> int:
    return ceil(value / step - ROUNDING) * step


@dataclass(frozen=True, slots=True, kw_only=True)
class _Program:
    """The integer program over some patterns: variables are patterns, then uncut pieces by size."""

    prices: Any
    matrix: Any
    lower: Any
    upper: Any
    most: Any


def _program(
    problem: CutProblem, wish: Wish, settled: Sequence[tuple[Wish, int]], patterns: Sequence[Pattern], *, is_exact: bool
) -> _Program:
    import numpy as np

    sizes, stocks = len(problem.sizes), len(problem.rooms)
    matrix = np.zeros((sizes + stocks + len(settled), len(patterns) + sizes))
    for column, pattern in enumerate(patterns):
        matrix[:sizes, column] = pattern.counts
        matrix[sizes + pattern.stock, column] = 1
        for row, (was, _) in enumerate(settled):
            matrix[sizes + stocks + row, column] = was.price(problem, pattern)
    for size in range(sizes):
        matrix[size, len(patterns) + size] = 1
        for row, (was, _) in enumerate(settled):
            matrix[sizes + stocks + row, len(patterns) + size] = was.uncut_price
    supplies = [np.inf if supply is None else supply for supply in problem.supplies]
    endless = np.full(sizes, np.inf)
    return _Program(
        prices=np.array([wish.price(problem, pattern) for pattern in patterns] + [wish.uncut_price] * sizes, float),
        matrix=matrix,
        lower=np.concatenate([problem.demands, np.full(stocks + len(settled), -np.inf)]),
        upper=np.concatenate([problem.demands if is_exact else endless, supplies, [total for _, total in settled]]),
        most=np.array([np.inf] * len(patterns) + list(problem.demands), float),
    )
