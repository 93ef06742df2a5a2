"""How a value lies in a database column, the same on SQLite and PostgreSQL."""

import json
from collections.abc import Mapping
from datetime import UTC, datetime
from decimal import Decimal, InvalidOperation
from hashlib import sha256
from typing import Any

from sqlalchemy import DateTime, String, Text
from sqlalchemy.engine import Dialect
from sqlalchemy.types import TypeDecorator

from catalog.store_errors import StoreDamaged, StoreRefused


def text_of_content(content: Mapping[str, Any]) -> str:
    """The text a document is kept as: its own order of keys, no spaces, no numbers that JSON lacks."""
    try:
        text = json.dumps(content, ensure_ascii=False, allow_nan=False, separators=(",", ":"))
        text.encode("utf-8")
    except (TypeError, ValueError) as problem:
        raise StoreRefused(
            thing="content", given=str(problem), rule="only texts, finite numbers, yes/no, lists and mappings are kept"
        ) from problem
    if json.loads(text) != _as_lists(content):
        raise StoreRefused(
            thing="content", given="a key that is not text", rule="every key of a stored mapping must be text"
        )
    return text


def _as_lists(value: Any) -> Any:
    """The value with every sequence a list, as JSON gives it back."""
    if isinstance(value, Mapping):
        return {key: _as_lists(inner) for key, inner in value.items()}
    return [_as_lists(inner) for inner in value] if isinstance(value, list | tuple) else value


def content_of_text(text: str, *, thing: str) -> dict[str, Any]:
    """The document that a kept text stands for."""
    try:
        content = json.loads(text)
    except json.JSONDecodeError as problem:
        raise StoreDamaged(thing=thing, why=f"its text does not read as JSON ({problem})") from problem
    if not isinstance(content, dict):
        raise StoreDamaged(thing=thing, why="its text is not one mapping")
    return content


def hash_of_text(text: str) -> str:
    """SHA-256 of a kept text, in hexadecimal."""
    return sha256(text.encode("utf-8")).hexdigest()


class UtcMoment(TypeDecorator[datetime]):
    """A moment in UTC; SQLite alone would forget the time zone."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:  # noqa: ARG002
        """A moment without a zone is refused: nobody could say when it was."""
        if value is None:
            return None
        if value.tzinfo is None:
            raise StoreRefused(thing="moment", given=value.isoformat(), rule="it needs a time zone")
        return value.astimezone(UTC)

    def process_result_value(self, value: datetime | None, dialect: Dialect) -> datetime | None:  # noqa: ARG002
        """The moment with its zone put back."""
        if value is None:
            return None
        return value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)


class Content(TypeDecorator[dict[str, Any]]):
    """A JSON document, kept as the text it was hashed from and checked both ways."""

    impl = Text
    cache_ok = True

    def process_bind_param(self, value: dict[str, Any] | None, dialect: Dialect) -> str | None:  # noqa: ARG002
        """The text to keep."""
        return None if value is None else text_of_content(value)

    def process_result_value(self, value: str | None, dialect: Dialect) -> dict[str, Any] | None:  # noqa: ARG002
        """The document, a fresh copy each time."""
        return None if value is None else content_of_text(value, thing="a stored document")


class DecimalText(TypeDecorator[Decimal]):
    """Money as decimal text: 12.50 comes back as 12.50, never as 12.4999."""

    impl = String(40)
    cache_ok = True

    def process_bind_param(self, value: Decimal | None, dialect: Dialect) -> str | None:  # noqa: ARG002
        """Only a finite Decimal is taken; a float has already lost the cents."""
        if value is None:
            return None
        if not isinstance(value, Decimal) or not value.is_finite():
            raise StoreRefused(thing="money", given=repr(value), rule="it must be a finite decimal number")
        return format(value, "f")

    def process_result_value(self, value: str | None, dialect: Dialect) -> Decimal | None:  # noqa: ARG002
        """The same digits again."""
        try:
            return None if value is None else Decimal(value)
        except InvalidOperation as problem:
            raise StoreDamaged(thing=f"money {value!r}", why="it does not read as a decimal number") from problem
