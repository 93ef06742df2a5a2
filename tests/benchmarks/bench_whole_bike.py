"""The order of four to six lines on the demo's wide hardtail, memories emptied, beside every order asked one by one.

    python -m pytest tests/benchmarks/bench_whole_bike.py --benchmark-only

Brute force is every order through the single planner's front door, cut at the first line that has no plan.
"""

import gc
from dataclasses import replace
from functools import _lru_cache_wrapper
from itertools import permutations
from time import process_time
from typing import Any

import pytest

from planner import VisitMemory, plan_job, plan_visit
from planner.outcomes import Outcome
from planner.parts import StayingLine, Visit
from planner.whole_bike.line_ways import job_of_line
from planner.whole_bike.visit_search import find_visit_order
from tests.planner.whole_bike.cockpit import cockpit, workshop

WITHIN_S = {4: 0.4, 6: 1.0}
FASTER = {4: 12, 5: 25}
ROUNDS = 3
AGAIN = {"same": 0.05, "wish": 0.5, "hose": 0.6}
"""Shares of the time from nothing; of another hose every line that shares a hole with it is described anew."""


def visit_of(lines_n: int) -> Visit:
    """The cockpit swap with one or two wires more, and room for them."""
    visit = cockpit(guide_mm=10.6 + 2.5 * max(lines_n - 4, 0), slot_mm=24.0 + 3.0 * max(lines_n - 4, 0))
    wires = [line for line in visit.lines if line.old is None]
    more = [replace(wires[n % 2], id=f"{wires[n % 2].id}-{n}") for n in range(lines_n - 4)]
    ports = {
        port_id: port if port_id == "shared-neck" else replace(port, opening=replace(port.opening, diameter_mm=16.0))
        for port_id, port in visit.frame.ports.items()
    }
    return replace(visit, lines=(*visit.lines, *more), frame=replace(visit.frame, ports=ports))


def forget() -> None:
    """Every memory of the planner emptied."""
    for each in gc.get_objects():
        if isinstance(each, _lru_cache_wrapper) and str(getattr(each, "__module__", "")).startswith("planner"):
            each.cache_clear()


def works_one_by_one(visit: Visit, order: tuple[str, ...]) -> bool:
    """Every line planned by itself beside what lies there then, until one has no plan."""
    lines = {line.id: line for line in visit.lines}
    done: list[str] = []
    for line_id in order:
        beside = [stays for other in visit.lines if other.id != line_id for stays in lies(other, other.id in done)]
        at_end = [stays for other in visit.lines if other.id != line_id for stays in lies(other, True)]
        job = replace(
            job_of_line(visit=visit, line=lines[line_id]), staying=tuple(beside), staying_at_end=tuple(at_end)
        )
        if plan_job(job=job, workshop=workshop()).outcome > Outcome.TIGHT:
            return False
        done.append(line_id)
    return True


def lies(line: Any, is_done: bool) -> list[StayingLine]:
    """Where a line lies before or after."""
    through = line.through or (line.old.through if line.old is not None else ())
    there = line.new if is_done else line.old
    return [] if there is None else [StayingLine(line=there.line, through=through)]


def seconds(work: Any) -> float:
    forget()
    started = process_time()
    work()
    return process_time() - started


def with_hose(visit: Visit, diameter_mm: float) -> Visit:
    """The same with another new brake hose."""
    lines = tuple(
        replace(each, new=replace(each.new, line=replace(each.new.line, outer_diameter_mm=diameter_mm)))
        if each.id == "rear-brake" and each.new is not None
        else each
        for each in visit.lines
    )
    return replace(visit, lines=lines)


def test_planned_again_after_a_change(benchmark: Any) -> None:
    """Told as shares of planning it from nothing: the same, a wish, another new hose; and the orders alone."""
    visit, shop = visit_of(4), workshop()
    from_nothing = min(seconds(lambda: plan_visit(visit=visit, workshop=shop)) for _ in range(ROUNDS))
    memory = VisitMemory()

    def again(changed: Visit) -> float:
        started = process_time()
        plan_visit(visit=changed, workshop=shop, memory=memory)
        return process_time() - started

    again(visit)
    hoses = iter(5.3 + 0.01 * n for n in range(1000))
    benchmark.pedantic(lambda: again(with_hose(visit, next(hoses))), rounds=ROUNDS, iterations=1)
    shares = {
        "same": again(visit) / from_nothing,
        "wish": again(replace(visit, first=("lamp",))) / from_nothing,
        "hose": min(again(with_hose(visit, next(hoses))) for _ in range(ROUNDS)) / from_nothing,
    }
    benchmark.extra_info.update({name: round(share, 3) for name, share in shares.items()}, from_nothing_s=from_nothing)
    assert shares["same"] < AGAIN["same"]
    assert shares["wish"] < AGAIN["wish"]
    assert shares["hose"] < AGAIN["hose"]


@pytest.mark.parametrize("lines_n", [4, 5, 6])
def test_order_of_lines(benchmark: Any, lines_n: int) -> None:
    visit, shop = visit_of(lines_n), workshop()
    answer, search = benchmark.pedantic(
        lambda: find_visit_order(visit=visit, workshop=shop), setup=forget, rounds=ROUNDS, iterations=1
    )
    assert answer.outcome <= Outcome.TIGHT
    benchmark.extra_info["packings"] = search.places.asked_n
    if lines_n in WITHIN_S:
        best = min(seconds(lambda: find_visit_order(visit=visit, workshop=shop)) for _ in range(ROUNDS))
        benchmark.extra_info["cpu_s"] = round(best, 3)
        assert best < WITHIN_S[lines_n]


@pytest.mark.parametrize("lines_n", [4, 5])
def test_beside_every_order_one_by_one(benchmark: Any, lines_n: int) -> None:
    visit, shop = visit_of(lines_n), workshop()
    works: dict[tuple[str, ...], bool] = {}

    def brute() -> None:
        works.update({order: works_one_by_one(visit, order) for order in permutations(line.id for line in visit.lines)})

    brute_s = seconds(brute)
    answer, _ = benchmark.pedantic(
        lambda: find_visit_order(visit=visit, workshop=shop), setup=forget, rounds=1, iterations=1
    )
    search_s = min(seconds(lambda: find_visit_order(visit=visit, workshop=shop)) for _ in range(ROUNDS))
    assert answer.found.order is not None
    found = tuple(answer.found.chosen[place].change.line_ids[0] for place in answer.found.order.places)
    assert works[found]
    benchmark.extra_info.update(brute_s=round(brute_s, 2), search_s=round(search_s, 3), times=round(brute_s / search_s))
    benchmark.extra_info["orders_that_work"] = f"{sum(works.values())} of {len(works)}"
    assert brute_s > FASTER[lines_n] * search_s
