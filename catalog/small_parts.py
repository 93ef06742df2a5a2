"""Small parts: olives, washers, inserts and the like, kept on the bench."""

from typing import Annotated

from pydantic import Field

from catalog.fields import Money, Name
from catalog.sources import NamedEntry

OnShelf = Annotated[
    int,
    Field(
        strict=True,
        ge=0,
        le=100_000,
        title="on the shelf",
        description="How many the shop has, as somebody counted them; left out where nobody did.",
        json_schema_extra={"unit": "pieces"},
    ),
]


class SmallPartEntry(NamedEntry):
    """One small part, with its price when it has one."""

    name: Name | None = None
    price: Money | None = None
    on_shelf: OnShelf | None = None
