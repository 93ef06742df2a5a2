"""The integer programs behind a cut list: which patterns, how often, for one wish at a time."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil, gcd, isfinite
from typing import Any

from planner.plan.cut_patterns import Counts, CutProblem, Pattern, scrap_of

FEWEST_NODES = 20
"""A search of fewer is not worth its beginning."""

ROUNDING = 1e-6
"""How far a bound from the linear solver is trusted; far above its own tolerance of 1e-7 on such small programs."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SearchEffort:
    """How much work may be spent; counted in steps and not in seconds, so that the same job gives the same answer.

    patterns_at_most : more ways of cutting than this are not listed
    nodes_at_most : nodes of one branch-and-bound search of the solver
    entries_at_most : entries of the programs of all these nodes together; a larger program gets fewer nodes, or none
    work_at_most : for one wish, on pricing patterns: once for the bound, once more on the way to whole numbers; in
        cells of the table that prices them, of which an entry of the linear program counts as many as it takes
    cells_at_most : cells of that table
    """

    patterns_at_most: int = 5_000
    nodes_at_most: int = 20_000
    entries_at_most: int = 4_000_000
    work_at_most: int = 800_000_000
    cells_at_most: int = 4_000_000


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


Settled = tuple[tuple[Wish, int], ...]
"""Wishes already settled, with the totals not to be exceeded."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """The best way of cutting so far, and the wishes settled."""

    bins: tuple[Pattern, ...]
    uncut: Counts
    settled: Settled = ()


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

    program = make_program(problem, wish, standing.settled, patterns, is_exact=is_exact)
    nodes = min(effort.nodes_at_most, effort.entries_at_most // program.matrix.size)
    if nodes < FEWEST_NODES:
        return standing, 0
    result = milp(
        program.prices,
        constraints=LinearConstraint(program.matrix, program.lower, program.upper),
        integrality=[1] * len(program.prices),
        bounds=Bounds(0, program.most),
        options={"node_limit": nodes, "mip_rel_gap": 0.0},
    )
    bound = result.mip_dual_bound
    is_bounded = bound is not None and isfinite(bound)
    lowest = round_up(bound, step=1 if wish.is_scrap else step_of(wish)) if is_bounded else 0
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


def step_of(wish: Wish) -> int:
    """What every total of a wish is a multiple of."""
    return gcd(*wish.stock_prices, wish.uncut_price) or 1


def round_up(value: float, *, step: int) -> int:
    """The least total that is no less than a bound, as far as the linear solver is trusted.

    value : the bound [no unit]
    """
    return ceil(value / step - ROUNDING) * step


@dataclass(frozen=True, slots=True, kw_only=True)
class Program:
    """The integer program over some patterns: variables are patterns, then uncut pieces by size."""

    prices: Any
    matrix: Any
    lower: Any
    upper: Any
    most: Any


def make_program(
    problem: CutProblem, wish: Wish, settled: Settled, patterns: Sequence[Pattern], *, is_exact: bool
) -> Program:
    """The program for one wish over some patterns: a row for each size, for each kind of stock, for each settled wish.

    is_exact : as for `search_patterns`
    """
    import numpy as np

    sizes, stocks = len(problem.sizes), len(problem.rooms)
    matrix = np.zeros((sizes + stocks + len(settled), len(patterns) + sizes))
    if patterns:
        matrix[:sizes, : len(patterns)] = np.array([pattern.counts for pattern in patterns]).T
        matrix[[sizes + pattern.stock for pattern in patterns], np.arange(len(patterns))] = 1
    matrix[np.arange(sizes), len(patterns) + np.arange(sizes)] = 1
    for row, (was, _) in enumerate(settled, start=sizes + stocks):
        matrix[row, : len(patterns)] = [was.price(problem, pattern) for pattern in patterns]
        matrix[row, len(patterns) :] = was.uncut_price
    supplies = [np.inf if supply is None else supply for supply in problem.supplies]
    endless = np.full(sizes, np.inf)
    return Program(
        prices=np.array([wish.price(problem, pattern) for pattern in patterns] + [wish.uncut_price] * sizes, float),
        matrix=matrix,
        lower=np.concatenate([problem.demands, np.full(stocks + len(settled), -np.inf)]),
        upper=np.concatenate([problem.demands if is_exact else endless, supplies, [total for _, total in settled]]),
        most=np.array([np.inf] * len(patterns) + list(problem.demands), float),
    )
