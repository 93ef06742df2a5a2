"""How fast sets are placed and ruled out.

Run: python -m pytest tests/benchmarks/bench_set_clearance.py -s
"""

from math import hypot
from typing import Any

import numpy as np
import pytest

from planner.fit.fit_chance import find_chance_of_fit
from planner.fit.hole_fit import check_things_in_room
from planner.geometry.openings.opening_depth import nearest_edge
from planner.geometry.openings.opening_shape import SeenArcs, see_opening
from planner.geometry.packing.search import find_placement
from planner.geometry.packing.set_clearance import find_set_clearance
from planner.parts import BoxOpening, Opening, OvalOpening, RoundOpening, SlotOpening
from planner.rules import PlaceRule
from planner.verdicts import Room, Thing, ThingKind
from tests.benchmarks.beside.plain_packing import random_case

ITEM_TOLERANCE_MM = 0.05


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
