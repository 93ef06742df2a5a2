"""Pins: a plan or quote names exact revisions, and each of them must be there."""

from collections.abc import Sequence

from sqlmodel import Session

from catalog.store_errors import NotInStore, StoreRefused
from catalog.store_rows import DocumentRevisionRow
from catalog.store_things import Pin


def refuse_unknown_pins(session: Session, pins: Sequence[Pin]) -> None:
    """Complain about a pin whose revision was never saved, and about two revisions of one document."""
    seen: dict[tuple[str, str], Pin] = {}
    for pin in pins:
        if session.get(DocumentRevisionRow, (pin.kind, pin.id, pin.revision)) is None:
            raise NotInStore(thing=str(pin))
        other = seen.setdefault((pin.kind, pin.id), pin)
        if other != pin:
            given = f"revisions {other.revision} and {pin.revision}"
            raise StoreRefused(thing=f"{pin.kind} {pin.id}", given=given, rule="one plan or quote uses one of them")
