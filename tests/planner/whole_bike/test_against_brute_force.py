"""The search equals brute force: every way, method, end and order asked of the single planner one by one.

The short form; some hundreds of bicycles are compared when the search is changed (`random_visits` makes them from
their numbers).
"""

from dataclasses import replace
from random import Random

import pytest

from planner.outcomes import Outcome
from planner.parts import Visit, Workshop
from planner.whole_bike.visit_search import find_visit_order
from tests.planner.whole_bike.brute_force import BruteForce
from tests.planner.whole_bike.cockpit import mirrored
from tests.planner.whole_bike.random_visits import random_visit, random_workshop, with_a_pair, with_ties

NUMBERS = (2, 5, 9, 47, 59)
SPLIT_NUMBERS = (1001, 1043)
PAIR_NUMBERS = (12,)
"""Whole swaps with every outcome, unmeasured holes, inserts, lines only in and only out; lines taken out first; and two
drawn in together."""


def made(number: int, sort: str) -> tuple[Visit, Workshop]:
    """Bicycle and workshop by their number."""
    random = Random(number)
    visit = random_visit(random, lines_n=3 if sort == "split" else random.choice((3, 3, 4)))
    visit, workshop = replace(visit, may_take_out_first=sort == "split"), random_workshop(random)
    return (with_a_pair(random, visit), with_ties(random, workshop)) if sort == "pair" else (visit, workshop)


@pytest.mark.parametrize(
    ("number", "sort"),
    [
        *((n, "whole") for n in NUMBERS),
        *((n, "split") for n in SPLIT_NUMBERS),
        *((n, "pair") for n in PAIR_NUMBERS),
    ],
)
def test_outcome_and_value_are_those_of_all_orders(number: int, sort: str) -> None:
    visit, workshop = made(number, sort)
    answer, _ = find_visit_order(visit=visit, workshop=workshop)
    outcome, value, taken_out_first = BruteForce(visit, workshop).best()
    assert answer.outcome is outcome
    assert len(answer.split) == taken_out_first
    assert answer.is_proven
    if outcome is not Outcome.NO_FIT:
        assert answer.found.value == value


@pytest.mark.parametrize(("number", "sort"), [(9, "whole"), (1043, "split"), (12, "pair")])
def test_a_mirrored_bicycle_and_a_file_in_another_order_have_the_same_order(number: int, sort: str) -> None:
    visit, workshop = made(number, sort)
    turned = replace(visit, lines=visit.lines[::-1], together=tuple(ids[::-1] for ids in visit.together))
    told = order_of(visit, workshop)
    assert order_of(mirrored(visit), workshop) == told
    assert order_of(turned, workshop) == told


def order_of(visit: Visit, workshop: Workshop) -> tuple[object, ...]:
    """Outcome, value and steps with their ways."""
    answer, _ = find_visit_order(visit=visit, workshop=workshop)
    found = answer.found
    steps = [found.chosen[place] for place in (() if found.order is None else found.order.places)]
    told = [(step.change.line_ids, step.change.kind, [line.through for line in step.way.lines]) for step in steps]
    return answer.outcome, found.value, told
