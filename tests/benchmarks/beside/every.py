"""Every comparison by its name, at full size for the table and small for a run that only sees whether they work."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from tests.benchmarks.beside.cuts import cut_lists
from tests.benchmarks.beside.geometry import packings, walls
from tests.benchmarks.beside.measured import Measured
from tests.benchmarks.beside.networks import network_questions
from tests.benchmarks.beside.page import CHANGES, page_wait
from tests.benchmarks.beside.plans import cold_plan, warm_plans
from tests.benchmarks.beside.routes import by_constraints, by_simple_paths, compare, random_question
from tests.benchmarks.beside.tables import growing_table, table_and_pairs

SEARCHERS = {
    "networkx, simple paths by length": by_simple_paths,
    "OR-tools CP-SAT, one worker": by_constraints,
}
SIMPLE_PATHS, CONSTRAINTS = SEARCHERS


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """What is compared, and how much of it.

    work : makes it
    full, small : its sizes for the table, and for a run that only sees whether it works
    needs : libraries of the extra `oracle`
    only_asked : whether it takes so long that it is made only where it is named in full
    """

    work: Callable[..., Measured]
    full: Mapping[str, Any]
    small: Mapping[str, Any]
    needs: tuple[str, ...] = ()
    only_asked: bool = False


def _routes(*, beside: str, ports_n: int, frames_n: int) -> Measured:
    questions = [random_question(seed, ports_n=ports_n) for seed in range(frames_n)]
    return compare(beside, SEARCHERS[beside], questions, f"frames of {ports_n} ports")


def _networks(*, beside: str, pairs_n: int) -> Measured:
    import topohub

    questions = network_questions(topohub, pairs_n=pairs_n)
    return compare(beside, SEARCHERS[beside], questions, "ways in ten telephone networks")


def _of_frames(beside: str, ports_n: int, *, full: int, small: int, needs: tuple[str, ...] = ()) -> Comparison:
    asked = {"beside": beside, "ports_n": ports_n}
    return Comparison(work=_routes, full={**asked, "frames_n": full}, small={**asked, "frames_n": small}, needs=needs)


def _of_cuts(roll_mm: float) -> Comparison:
    full = {"pieces_n": 1000, "sizes_n": 50, "offcuts_n": 50, "lists_n": 1, "least_s": 10.0}
    small = {"pieces_n": 60, "sizes_n": 10, "offcuts_n": 6, "lists_n": 1, "least_s": 1.0}
    return Comparison(work=cut_lists, full={"roll_mm": roll_mm, **full}, small={"roll_mm": roll_mm, **small})


def _growth(cases_n: int, brakes_n: int, *, only_asked: bool = False) -> Comparison:
    """A table of so many frames and brakes, beside one with a tenth of the frames."""
    full = {"cases_n": cases_n, "brakes_n": brakes_n, "times": 10}
    return Comparison(
        work=growing_table, full=full, small={"cases_n": 2, "brakes_n": 10, "times": 2}, only_asked=only_asked
    )


def _of_page(wait: str) -> Comparison:
    full = {"frames_n": 1000, "rounds_n": 5, "windows_n": 8, "changes_n": len(CHANGES)}
    small = {"frames_n": 5, "rounds_n": 1, "windows_n": 2, "changes_n": 3}
    return Comparison(work=page_wait, full={"wait": wait, **full}, small={"wait": wait, **small}, needs=("playwright",))


COMPARISONS: Mapping[str, Comparison] = {
    "routes, 60 ports": _of_frames(SIMPLE_PATHS, 60, full=40, small=4),
    "routes, 120 ports": _of_frames(SIMPLE_PATHS, 120, full=20, small=2),
    "routes, 500 ports": _of_frames(SIMPLE_PATHS, 500, full=10, small=1),
    "routes, networks": Comparison(
        work=_networks,
        full={"beside": SIMPLE_PATHS, "pairs_n": 60},
        small={"beside": SIMPLE_PATHS, "pairs_n": 2},
        needs=("topohub",),
    ),
    "routes by constraints, 60 ports": _of_frames(CONSTRAINTS, 60, full=10, small=2, needs=("ortools",)),
    "routes by constraints, 120 ports": _of_frames(CONSTRAINTS, 120, full=5, small=1, needs=("ortools",)),
    "routes by constraints, 500 ports": _of_frames(CONSTRAINTS, 500, full=2, small=1, needs=("ortools",)),
    "routes by constraints, networks": Comparison(
        work=_networks,
        full={"beside": CONSTRAINTS, "pairs_n": 4},
        small={"beside": CONSTRAINTS, "pairs_n": 1},
        needs=("ortools", "topohub"),
    ),
    "packing": Comparison(work=packings, full={"cases_n": 60}, small={"cases_n": 5}),
    "walls": Comparison(work=walls, full={"cases_n": 20}, small={"cases_n": 1}),
    "cut lists, long rolls": _of_cuts(10_000),
    "cut lists, short rolls": _of_cuts(5000),
    "table": Comparison(
        work=table_and_pairs,
        full={"cases_n": 100, "brakes_n": 200, "pairs_n": 40},
        small={"cases_n": 3, "brakes_n": 20, "pairs_n": 3},
    ),
    "growth, 10^4 pairs": _growth(100, 100),
    "growth, 10^5 pairs": _growth(100, 1_000),
    "growth, 10^6 pairs": _growth(1_000, 1_000),
    "growth, 10^7 pairs": _growth(10_000, 1_000, only_asked=True),
    "warm plan": Comparison(work=warm_plans, full={"rounds_n": 2}, small={"rounds_n": 1}),
    "cold plan": Comparison(work=cold_plan, full={"rounds_n": 7}, small={"rounds_n": 1}),
    "page, settled": _of_page("settled"),
    "page, first verdict": _of_page("verdict"),
    "page, windows at once": _of_page("windows"),
}


def measure(name: str, *, is_small: bool = False) -> Measured:
    """Make a comparison. Raises KeyError where none has this name."""
    comparison = COMPARISONS[name]
    return replace(comparison.work(**(comparison.small if is_small else comparison.full)), name=name)


def names_of(word: str) -> list[str]:
    """The comparisons that a word stands for: the one of that name, or those whose names begin so; "" for all."""
    if word in COMPARISONS:
        return [word]
    begins = f"{word}," if word else ""
    return [name for name, each in COMPARISONS.items() if name.startswith(begins) and not each.only_asked]
