"""Finished results as plain records for the store, and back: a quote or plan prints the same when it is read again."""

from collections.abc import Iterable, Mapping
from dataclasses import is_dataclass
from datetime import date, timedelta
from decimal import Decimal
from typing import Any, Protocol, TypeVar

from pydantic import TypeAdapter, ValidationError

from catalog.store_errors import StoreDamaged
from catalog.store_things import Pin, QuoteDraft

Result = TypeVar("Result")


class _Quoted(Protocol):
    """What the store asks of a quote; `planner.plan.quote.Quote` has it."""

    @property
    def total(self) -> Decimal: ...
    @property
    def currency(self) -> str: ...
    @property
    def valid_days(self) -> int: ...


def as_record(result: object) -> dict[str, Any]:
    """A frozen result (a plan, a quote) as plain JSON values; money as decimal text."""
    if not is_dataclass(result):
        raise TypeError(f"{type(result).__name__} is no dataclass")
    record = _adapter(type(result)).dump_python(result, mode="json")
    return dict(record)


def from_record(kind: type[Result], record: Mapping[str, Any]) -> Result:
    """The result that a record was made of; fields that came later take their defaults."""
    try:
        found: Result = _adapter(kind).validate_python(dict(record))
    except ValidationError as problem:
        first = problem.errors()[0]
        where = " > ".join(str(step) for step in first["loc"])
        raise StoreDamaged(thing=f"a stored {kind.__name__.lower()}", why=f"{where}: {first['msg']}") from problem
    return found


def _adapter(kind: Any) -> TypeAdapter[Any]:
    return TypeAdapter(kind)


def draft_of_quote(
    quote: _Quoted,
    *,
    for_whom: str,
    on: date,
    pins: Iterable[Pin] = (),
    plan_ids: Iterable[int] = (),
    replaces_id: int | None = None,
) -> QuoteDraft:
    """A quote ready to be saved, standing from a day on."""
    return QuoteDraft(
        for_whom=for_whom,
        record=as_record(quote),
        total=quote.total,
        currency=quote.currency,
        valid_until=on + timedelta(days=quote.valid_days),
        pins=tuple(sorted(set(pins))),
        plan_ids=tuple(sorted(set(plan_ids))),
        replaces_id=replaces_id,
    )
