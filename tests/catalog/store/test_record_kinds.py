"""What a kept record is read back as: the very kind it was, though kinds share their fields."""

from collections.abc import Iterator
from dataclasses import MISSING, fields, is_dataclass
from itertools import combinations
from types import UnionType
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints

import pytest

from catalog.store_records import as_record, from_record
from planner.parts import Method
from planner.plan.cut_list import CutList
from planner.plan.quote import Alternative, Quote
from planner.plan.routing_plan import RoutingPlan
from planner.plan.way_out import WayOut, WayOutKind

KEPT = (RoutingPlan, Quote, Alternative, CutList)
"""What the store keeps whole."""


def choices_in(kind: Any, seen: set[Any]) -> Iterator[tuple[Any, ...]]:
    """Every choice between dataclasses below a kind, each once."""
    if kind in seen:
        return
    seen.add(kind)
    if is_dataclass(kind):
        for hint in get_type_hints(kind).values():
            yield from choices_in(hint, seen)
    elif get_args(kind) and get_origin(kind) is not Literal:
        members = tuple(one for one in get_args(kind) if is_dataclass(one))
        if get_origin(kind) in (Union, UnionType) and len(members) > 1:
            yield members
        for one in get_args(kind):
            yield from choices_in(one, seen)


def choices() -> list[tuple[Any, ...]]:
    """All choices of what is kept."""
    seen: set[Any] = set()
    return [choice for kind in KEPT for choice in choices_in(kind, seen)]


def words_told(kind: Any) -> dict[str, set[Any]]:
    """The words that a kind alone may stand for, by field."""
    hints = get_type_hints(kind)
    return {name: set(get_args(hint)) for name, hint in hints.items() if get_origin(hint) is Literal}


def is_told_apart(one: Any, other: Any) -> bool:
    """Whether no record can stand for both: a word differs, or one lacks what the other must have."""
    words, others = words_told(one), words_told(other)
    if any(words[name].isdisjoint(others[name]) for name in words.keys() & others.keys()):
        return True
    must = [{each.name for each in fields(kind) if each.default is MISSING} for kind in (one, other)]
    has = [{each.name for each in fields(kind)} for kind in (one, other)]
    return bool(must[0] - has[1]) and bool(must[1] - has[0])


def is_heir_before(one: Any, other: Any, choice: tuple[Any, ...]) -> bool:
    """Whether one kind is a narrower sort of the other, with a word of its own, and is tried first."""
    narrow, wide = (one, other) if issubclass(one, other) else (other, one)
    is_narrower = issubclass(narrow, wide) and words_told(narrow)["kind"] < words_told(wide)["kind"]
    return is_narrower and choice.index(narrow) < choice.index(wide)


def test_there_are_choices_to_tell_apart() -> None:
    assert any(set(choice) >= set(get_args(Method)) for choice in choices())
    assert len(choices()) > 1


@pytest.mark.parametrize("choice", choices(), ids=lambda choice: choice[0].__name__)
def test_kinds_that_a_record_may_be_are_told_apart(choice: tuple[Any, ...]) -> None:
    for one, other in combinations(choice, 2):
        assert is_told_apart(one, other) or is_heir_before(one, other, choice), (one, other)
    heirs = {heir for kind in choice for heir in kind.__subclasses__()}
    assert heirs <= set(choice), "a kind that was left out is read back as what it is a sort of"


@pytest.mark.parametrize("kind", get_args(Method), ids=lambda kind: kind.__name__)
def test_a_way_of_joining_is_read_back_as_the_kind_it_was(kind: Any) -> None:
    """Cord, magnet and tie came back as a plain leader line, and a line laid outside as housing over a cable."""
    needed: dict[str, Any] = {each.name: 2.0 for each in fields(kind) if each.default is MISSING}
    words = {name: "x" for name in needed if name in ("id", "name", "behind_id", "thread", "end_shape")}
    way = WayOut(kind=WayOutKind.COUPLER, method=kind(**{**needed, **words}))
    back = from_record(WayOut, as_record(way))
    assert type(back.method) is kind
    assert back == way
