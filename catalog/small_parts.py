"""Small parts: olives, washers, inserts and the like, kept on the bench."""

from catalog.fields import Money, Name
from catalog.sources import NamedEntry


class SmallPartEntry(NamedEntry):
    """One small part, with its price when it has one."""

    name: Name | None = None
    price: Money | None = None
