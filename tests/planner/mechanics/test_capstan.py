"""Pull around bends, against the published capstan table and by its own laws."""

import csv
from math import exp, pi
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.errors import ImpossibleDimensionError
from planner.mechanics.capstan import Passage, capstan_ratio, tension_through
from planner.mechanics.drag import Leg, estimate_drag_n

PUBLISHED = Path(__file__).parents[2] / "published_values"
ROWS = list(csv.DictReader((PUBLISHED / "capstan.csv").open(encoding="utf-8")))

friction_ratios = st.floats(0, 0.6)
turns_deg = st.floats(0, 720)
forces_n = st.floats(0, 50)
passages = st.builds(Passage, turn_deg=st.floats(0, 200), entry_drag_n=forces_n, weight_drag_n=forces_n)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["case"])
def test_capstan_ratio_is_the_published_one(row: dict[str, str]) -> None:
    ratio = capstan_ratio(friction_ratio=float(row["friction_ratio"]), turn_deg=float(row["turn_deg"]))
    assert ratio == pytest.approx(float(row["expected_ratio"]), abs=float(row["tolerance_ratio"]))


PULLS = list(csv.DictReader((PUBLISHED / "pulls.csv").open(encoding="utf-8")))


@pytest.mark.parametrize("row", PULLS, ids=lambda row: row["case"])
def test_the_pull_on_a_line_that_lies_level_and_then_bends_is_the_published_one(row: dict[str, str]) -> None:
    """None of these is a hose in a bicycle: they hold the arithmetic, not the friction."""
    number = {key: float(row[key]) for key in row if key.rpartition("_")[2] in ("m", "ratio", "deg", "n")}
    straight = Leg(turn_deg=0, length_mm=number["length_m"] * 1000)
    friction_ratio = number["friction_ratio"]
    weight_n = estimate_drag_n(legs=[straight], friction_ratio=friction_ratio, mass_g_per_m=float(row["mass_g_per_m"]))
    pull_n = tension_through(
        passages=[Passage(turn_deg=number["turn_deg"], weight_drag_n=weight_n)],
        friction_ratio=friction_ratio,
        start_n=number["start_n"],
    )
    assert pull_n == pytest.approx(number["expected_n"], abs=number["tolerance_n"])


@given(friction_ratio=friction_ratios, first=turns_deg, second=turns_deg)
def test_turns_in_a_row_count_as_one(friction_ratio: float, first: float, second: float) -> None:
    both = capstan_ratio(friction_ratio=friction_ratio, turn_deg=first + second)
    one_by_one = capstan_ratio(friction_ratio=friction_ratio, turn_deg=first) * capstan_ratio(
        friction_ratio=friction_ratio, turn_deg=second
    )
    assert both == pytest.approx(one_by_one, rel=1e-12)


def test_straight_or_frictionless_line_loses_nothing() -> None:
    assert capstan_ratio(friction_ratio=0.3, turn_deg=0) == 1
    assert capstan_ratio(friction_ratio=0, turn_deg=720) == 1


def test_tension_of_two_holes_and_two_bends_by_hand() -> None:
    route = [Passage(turn_deg=90, entry_drag_n=2), Passage(turn_deg=180, entry_drag_n=1, weight_drag_n=0.5)]
    by_hand = (2 * exp(0.2 * pi / 2) + 1.5) * exp(0.2 * pi)
    assert tension_through(passages=route, friction_ratio=0.2) == pytest.approx(by_hand, rel=1e-12)


def test_order_of_bend_and_drag_matters() -> None:
    drag_first = [Passage(turn_deg=0, entry_drag_n=5), Passage(turn_deg=180)]
    bend_first = [Passage(turn_deg=180), Passage(turn_deg=0, entry_drag_n=5)]
    assert tension_through(passages=bend_first, friction_ratio=0.2) == 5
    assert tension_through(passages=drag_first, friction_ratio=0.2) == pytest.approx(5 * 1.874456, abs=1e-5)


@given(route=st.lists(passages, max_size=6), friction_ratio=friction_ratios, start_n=forces_n, extra=passages)
def test_one_more_stretch_never_makes_it_lighter(
    route: list[Passage], friction_ratio: float, start_n: float, extra: Passage
) -> None:
    shorter = tension_through(passages=route, friction_ratio=friction_ratio, start_n=start_n)
    longer = tension_through(passages=[*route, extra], friction_ratio=friction_ratio, start_n=start_n)
    assert longer >= shorter >= start_n


@given(route=st.lists(passages, max_size=6), friction_ratio=friction_ratios, start_n=forces_n)
def test_tension_is_the_sum_of_what_each_force_becomes(
    route: list[Passage], friction_ratio: float, start_n: float
) -> None:
    def left_after(index: int) -> float:
        return exp(friction_ratio * sum(passage.turn_deg for passage in route[index:]) * pi / 180)

    summed = start_n * left_after(0) + sum(
        (passage.entry_drag_n + passage.weight_drag_n) * left_after(index) for index, passage in enumerate(route)
    )
    found = tension_through(passages=route, friction_ratio=friction_ratio, start_n=start_n)
    assert found == pytest.approx(summed, rel=1e-9)


@pytest.mark.parametrize("bad", [-0.1, float("nan")])
def test_negative_friction_is_refused(bad: float) -> None:
    with pytest.raises(ImpossibleDimensionError, match=r"friction_ratio: .* it must not be negative"):
        capstan_ratio(friction_ratio=bad, turn_deg=10)


@pytest.mark.parametrize("name", ["entry_drag_n", "weight_drag_n", "start_n"])
def test_negative_forces_are_refused(name: str) -> None:
    forces = {"entry_drag_n": 0.0, "weight_drag_n": 0.0, "start_n": 0.0, name: -1.0}
    start_n = forces.pop("start_n")
    with pytest.raises(ImpossibleDimensionError, match=f"{name}: -1 N was given; it must not be negative"):
        tension_through(passages=[Passage(turn_deg=0, **forces)], friction_ratio=0.2, start_n=start_n)
