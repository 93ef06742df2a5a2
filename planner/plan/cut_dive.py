"""Whole numbers from the linear program: patterns taken for good, a few at a time, and the rest priced anew."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from planner.geometry.packing.work import Work
from planner.plan.cut_columns import WHOLE, Columns, generate_columns
from planner.plan.cut_patterns import Counts, CutProblem, Pattern, cut_greedily
from planner.plan.cut_pricing import FillingTable
from planner.plan.cut_program import SearchEffort, Settled, Standing, Wish

NEARLY_ONCE = 0.7
OTHERS_AT_MOST = 3


def dive(*, problem: CutProblem, wish: Wish, standing: Standing, columns: Columns, effort: SearchEffort) -> Standing:
    """A way of cutting that is better by the wish, where taking what the linear program takes most often leads to one.

    What can be proven to lead to nothing better is given up, and a few other patterns tried in its place.

    problem : sizes and stock
    wish : what is minimised
    standing : the best way so far, with the wishes settled before
    columns : where column generation ended
    effort : how much work may be spent

    Source: rounding with column generation on what is left: G. Wascher, T. Gau, OR Spektrum 18 (1996) 131-144; from
    memory.
    """
    search = _Dive(wish=wish, effort=effort, work=Work(effort.work_at_most))
    while (so_far := wish.total(problem, standing.bins, standing.uncut)) > columns.bound:
        rest = search.go_on(_Rest(problem=problem, settled=standing.settled, so_far=so_far), columns)
        if rest is None:
            break
        standing = replace(standing, bins=rest.taken, uncut=rest.problem.demands)
    return standing


@dataclass(slots=True, kw_only=True)
class _Dive:
    """The wish, and what may be spent on the way."""

    wish: Wish
    effort: SearchEffort
    work: Work

    def go_on(self, rest: "_Rest", columns: Columns) -> "_Rest | None":
        """The end of the first way down that holds; None where none is found."""
        if rest.is_done(self.wish):
            return rest
        for chosen in _choices(rest.problem, columns):
            if self.work.is_out:
                return rest.filled(self.wish)
            after = rest.after(self.wish, chosen)
            if after.is_done(self.wish):
                return after
            priced = self._priced(after, columns)
            if priced is not None and (found := self.go_on(after, priced)) is not None:
                return found
        return None

    def _priced(self, rest: "_Rest", columns: Columns) -> Columns | None:
        """What is left, priced anew; None where it leads to nothing better."""
        if not any(rest.problem.demands):
            return None
        priced = generate_columns(
            problem=rest.problem,
            wish=self.wish,
            settled=rest.settled,
            so_far=rest.so_far,
            known=_still_fitting(rest.problem, columns.patterns),
            table=FillingTable(rest.problem, cells_at_most=self.effort.cells_at_most),
            work=self.work,
        )
        return None if priced.bound >= rest.so_far or not any(priced.times) else priced


@dataclass(frozen=True, slots=True, kw_only=True)
class _Rest:
    """What is still to be cut, what it may cost: the settled wishes at most, this one less than the best; and what was
    taken."""

    problem: CutProblem
    settled: Settled
    so_far: int
    taken: tuple[Pattern, ...] = ()

    def is_done(self, wish: Wish) -> bool:
        """Whether what is left may stay uncut."""
        return wish.total(self.problem, (), self.problem.demands) < self.so_far and all(
            was.total(self.problem, (), self.problem.demands) <= total for was, total in self.settled
        )

    def filled(self, wish: Wish) -> "_Rest | None":
        """With what is left cut quickly; None where that is not better than the best."""
        bins, _ = cut_greedily(problem=self.problem)
        end = self.after(wish, bins)
        return end if end.is_done(wish) else None

    def after(self, wish: Wish, taken: Sequence[Pattern]) -> "_Rest":
        demands, supplies = list(self.problem.demands), list(self.problem.supplies)
        for pattern in taken:
            demands = [have - count for have, count in zip(demands, pattern.counts, strict=True)]
            supply = supplies[pattern.stock]
            supplies[pattern.stock] = None if supply is None else supply - 1
        return _Rest(
            problem=replace(self.problem, demands=tuple(demands), supplies=tuple(supplies)),
            settled=tuple((was, total - self._cost(was, taken)) for was, total in self.settled),
            so_far=self.so_far - self._cost(wish, taken),
            taken=(*self.taken, *taken),
        )

    def _cost(self, wish: Wish, taken: Sequence[Pattern]) -> int:
        return sum(wish.price(self.problem, pattern) for pattern in taken)


def _choices(problem: CutProblem, columns: Columns) -> Iterator[list[Pattern]]:
    """Patterns to take next: all that are taken whole times; or all that are taken nearly once, then those taken most,
    one by one."""
    order = sorted((n for n, times in enumerate(columns.times) if times > WHOLE), key=lambda n: -columns.times[n])
    whole = [(columns.patterns[n], int(columns.times[n] + WHOLE)) for n in order]
    if whole and whole[0][1]:
        yield _fitting(problem, whole)
        return
    nearly = [(columns.patterns[n], 1) for n in order if columns.times[n] >= NEARLY_ONCE]
    if len(nearly) > 1:
        yield _fitting(problem, nearly)
    for n in order[:OTHERS_AT_MOST]:
        yield _fitting(problem, [(columns.patterns[n], 1)])


def _fitting(problem: CutProblem, wanted: Iterable[tuple[Pattern, int]]) -> list[Pattern]:
    """Of patterns so many times each, those that pieces and stock are left for, one after the other."""
    left, supplies = list(problem.demands), list(problem.supplies)
    chosen: list[Pattern] = []
    for pattern, times in wanted:
        for _ in range(times):
            supply = supplies[pattern.stock]
            if supply == 0 or any(count > have for count, have in zip(pattern.counts, left, strict=True)):
                break
            chosen.append(pattern)
            left = [have - count for have, count in zip(left, pattern.counts, strict=True)]
            supplies[pattern.stock] = None if supply is None else supply - 1
    return chosen


def _still_fitting(problem: CutProblem, patterns: Iterable[Pattern]) -> list[Pattern]:
    """Patterns cut down to what is still wanted, of stock that is still there."""
    kept: dict[Pattern, None] = {}
    for pattern in patterns:
        counts: Counts = tuple(min(count, have) for count, have in zip(pattern.counts, problem.demands, strict=True))
        if any(counts) and problem.supplies[pattern.stock] != 0:
            kept[Pattern(stock=pattern.stock, counts=counts)] = None
    return list(kept)
