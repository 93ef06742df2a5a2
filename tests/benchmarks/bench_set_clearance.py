"""How fast sets are placed and ruled out, beside a plain search with scipy's SLSQP from many starts.

Run: python -m pytest tests/benchmarks/bench_set_clearance.py -s
"""

import time
from math import hypot, pi, sqrt
from typing import Any

import numpy as np
import pytest

from planner.fit.fit_chance import find_chance_of_fit
from planner.fit.hole_fit import check_things_in_room
from planner.geometry.openings.opening_depth import nearest_edge
from planner.geometry.openings.opening_shape import SeenArcs, see_opening
from planner.geometry.packing.search import find_placement, growth_of_placement
from planner.geometry.packing.set_clearance import find_set_clearance
from planner.parts import BoxOpening, Opening, OvalOpening, RoundOpening, SlotOpening
from planner.rules import PlaceRule
from planner.verdicts import Room, Thing, ThingKind

CASES = 200
PLAIN_STARTS = 40
ITEM_TOLERANCE_MM = 0.05


def random_case(seed: int) -> tuple[Opening, float, float, tuple[float, ...]]:
    """Three to six things and an opening that they all but fill."""
    draw = np.random.default_rng(seed)
    sizes = np.sort(draw.uniform(2, 6, int(draw.integers(3, 7))))[::-1]
    tilt = float(draw.choice([0, 0, 20, 40, 55]))
    area = float((pi * sizes**2 / 4).sum() * draw.uniform(1.25, 1.6))
    longer = float(draw.uniform(1.0, 2.2))
    width = sqrt(area / longer)
    openings: tuple[Opening, ...] = (
        RoundOpening(diameter_mm=sqrt(area * 4 / pi), tolerance_mm=0.1),
        SlotOpening(length_mm=width * longer + 1, width_mm=width, tolerance_mm=0.1),
        OvalOpening(length_mm=width * longer * 1.1, width_mm=width * 1.1, tolerance_mm=0.1),
        BoxOpening(length_mm=width * longer, width_mm=width, corner_radius_mm=min(1.5, width / 2), tolerance_mm=0.1),
        BoxOpening(length_mm=width * longer, width_mm=width, corner_radius_mm=0, tolerance_mm=0.1),
    )
    return openings[seed % 5], tilt, 1.5, tuple(sizes.tolist())


def plain_search(seen: SeenArcs, sizes: tuple[float, ...], *, seed: int) -> float:
    """The best growth SLSQP finds, given slopes, from random starts."""
    from scipy.optimize import minimize

    count = len(sizes)
    size = np.array(sizes)
    first, second = np.triu_indices(count, 1)
    pairs = np.arange(len(first))
    half = np.array([seen.flat_x_mm + seen.arc_x_mm, seen.flat_y_mm + seen.arc_y_mm])

    def slack(state: Any) -> Any:
        centres = state[:-1].reshape(count, 2)
        depth = np.array([nearest_edge(seen=seen, x_mm=x, y_mm=y)[0] for x, y in centres.tolist()])
        apart = np.hypot(*(centres[first] - centres[second]).T)
        return np.concatenate([apart - (size[first] + size[second]) / 2 - state[-1], depth - (size + state[-1]) / 2])

    def slopes(state: Any) -> Any:
        centres = state[:-1].reshape(count, 2)
        rows = np.zeros((len(pairs) + count, 2 * count + 1))
        between = centres[first] - centres[second]
        towards = between / (np.hypot(*between.T)[:, None] + 1e-12)
        for axis in (0, 1):
            rows[pairs, 2 * first + axis], rows[pairs, 2 * second + axis] = towards[:, axis], -towards[:, axis]
        rows[pairs, -1], rows[len(pairs) :, -1] = -1.0, -0.5
        for thing, (x, y) in enumerate(centres.tolist()):
            _, nx, ny = nearest_edge(seen=seen, x_mm=x, y_mm=y)
            rows[len(pairs) + thing, 2 * thing : 2 * thing + 2] = -nx, -ny
        return rows

    goal = np.zeros(2 * count + 1)
    goal[-1] = -1.0
    draw, best = np.random.default_rng(seed), -np.inf
    for _ in range(PLAIN_STARTS):
        start = np.append(((draw.random((count, 2)) - 0.5) * 1.6 * half).ravel(), -3.0)
        found = minimize(
            lambda state: -state[-1],
            start,
            jac=lambda _: goal,
            constraints={"type": "ineq", "fun": slack, "jac": slopes},
            method="SLSQP",
            options={"maxiter": 100},
        )
        centres = found.x[:-1].reshape(count, 2)
        best = max(best, growth_of_placement(seen=seen, diameters_mm=sizes, centres_mm=centres))
    return best


def test_same_or_better_than_a_plain_search_and_much_faster() -> None:
    cases = [random_case(seed) for seed in range(CASES)]
    seen = [see_opening(opening=o, tilt_deg=tilt, wall_thickness_mm=wall) for o, tilt, wall, _ in cases]
    find_placement.cache_clear()
    plain, ours, plain_s, ours_s = [], [], 0.0, 0.0
    for k, (s, case) in enumerate(zip(seen, cases, strict=True)):  # by turns, so that both meet the machine alike
        began = time.process_time()
        plain.append(plain_search(s, case[3], seed=k))
        between = time.process_time()
        ours.append(find_placement(s, case[3]).growth_mm)
        plain_s, ours_s = plain_s + between - began, ours_s + time.process_time() - between
    shortfall = [one - two for one, two in zip(plain, ours, strict=True)]
    print(
        f"\n{CASES} openings: plain search {plain_s:.1f} s, ours {ours_s:.2f} s, ratio {plain_s / ours_s:.1f}; "
        f"ours better by 1e-4 in {sum(s < -1e-4 for s in shortfall)}, worse in {sum(s > 1e-4 for s in shortfall)}, "
        f"at most {max(shortfall):.4f} mm"
    )
    assert not [k for k in range(CASES) if plain[k] >= 0 > ours[k]]


@pytest.mark.parametrize("count", [1, 2, 3])
@pytest.mark.parametrize("kind", ["slot", "ring", "box", "oval"])
def test_typical_port(benchmark: Any, kind: str, count: int) -> None:
    openings: dict[str, tuple[Opening, float]] = {
        "slot": (SlotOpening(length_mm=19, width_mm=7, tolerance_mm=0.1), 50),
        "ring": (RoundOpening(diameter_mm=14, tolerance_mm=0.1), 20),
        "box": (BoxOpening(length_mm=14, width_mm=9, corner_radius_mm=2, tolerance_mm=0.1), 30),
        "oval": (OvalOpening(length_mm=16, width_mm=9, tolerance_mm=0.1), 20),
    }
    opening, tilt_deg = openings[kind]
    turn = iter(range(10**9))

    def check() -> None:
        more = next(turn) * 1e-7  # never the same question twice: nothing comes from a cache
        items = [
            Thing(id=str(size), kind=ThingKind.LINE, diameter_mm=size + more, tolerance_mm=ITEM_TOLERANCE_MM)
            for size in (5.2, 4.0, 3.0)[:count]
        ]
        room = Room(opening=opening, tilt_deg=tilt_deg, wall_thickness_mm=1.6)
        check_things_in_room(rule=PlaceRule.PORT_CLEARANCE, room=room, things=items, running_clearance_mm=0.5)

    benchmark.pedantic(check, rounds=20, warmup_rounds=2)


@pytest.mark.parametrize("count", [3, 4, 5])
@pytest.mark.parametrize("kind", range(5))
def test_set_a_tenth_too_large(benchmark: Any, kind: int, count: int) -> None:
    opening, tilt_deg, wall_mm, sizes = random_case(kind)
    draw = np.random.default_rng(kind)
    sizes = tuple(sorted(draw.uniform(3, 5, count).tolist(), reverse=True))
    seen = see_opening(opening=opening, tilt_deg=tilt_deg, wall_thickness_mm=wall_mm)
    growth = find_placement(seen, sizes).growth_mm + 0.1
    turn = iter(range(10**9))

    def rule_out() -> float:
        more = growth + next(turn) * 1e-7
        return find_set_clearance(
            opening=opening,
            tilt_deg=tilt_deg,
            wall_thickness_mm=wall_mm,
            diameters_mm=tuple(size + more for size in sizes),
        ).upper_bound_mm

    bound = benchmark.pedantic(rule_out, rounds=3, warmup_rounds=1)
    if count < 5:
        assert bound < 0


def test_chance_of_a_typical_port(benchmark: Any) -> None:
    turn = iter(range(10**9))

    def ask() -> None:
        more = next(turn) * 1e-7
        find_chance_of_fit(
            opening=SlotOpening(length_mm=10.8, width_mm=6.2, tolerance_mm=0.2),
            tilt_deg=10,
            wall_thickness_mm=1.6,
            items=[
                Thing(id=str(size), kind=ThingKind.LINE, diameter_mm=size + more, tolerance_mm=0.1)
                for size in (5.2, 5.0)
            ],
        )

    benchmark.pedantic(ask, rounds=30, warmup_rounds=2)


def test_depth_of_a_point(benchmark: Any) -> None:
    slot = SlotOpening(length_mm=19, width_mm=7, tolerance_mm=0.1)
    seen = see_opening(opening=slot, tilt_deg=50, wall_thickness_mm=1.6)
    assert isinstance(seen, SeenArcs)
    assert hypot(*nearest_edge(seen=seen, x_mm=3.0, y_mm=1.0)[1:]) == pytest.approx(1)
    benchmark(nearest_edge, seen=seen, x_mm=3.0, y_mm=1.0)
