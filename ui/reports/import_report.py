"""What reading catalog files into the store does, or would do, in words."""

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from catalog import Imported, Pin

AT_MOST = 12
"""Entries named one by one; a whole catalog read in for the first time is only counted."""


def import_lines(told: "Imported") -> Iterator[str]:
    """A line with the counts, then the entries by name; of what changed, what differs."""
    counts = [
        (len(told.added), "added"),
        (len(told.changed), "changed"),
        (len(told.removed), "taken out of use"),
        (len(told.unchanged) + len(told.kept) + len(told.missing), "as before"),
    ]
    yield f"Catalog: {', '.join(f'{count} {what}' for count, what in counts if count or what != 'taken out of use')}."
    if told.added:
        yield f"  Added: {_listed(told.added)}."
    for pin, differences in told.changed[:AT_MOST]:
        yield f"  Changed: {pin}: {'; '.join(differences) or 'its name'}."
    if len(told.changed) > AT_MOST:
        yield f"  Changed: {len(told.changed) - AT_MOST} more; `lineplan store history` tells them."
    if told.removed:
        yield f"  Taken out of use, for they are not in their file any more: {_listed(told.removed)}."
    if told.missing:
        yield (
            f"  Not in their file any more, and still in use: {_listed(told.missing)}. "
            "`lineplan store import --prune` takes them out of use."
        )
    if told.kept:
        yield f"  Changed in the store since, and left as they are there: {_listed(told.kept)}."


def _listed(pins: Iterable["Pin"]) -> str:
    names = [f"{pin.kind} {pin.id}" for pin in pins]
    more = len(names) - AT_MOST
    return ", ".join(names[:AT_MOST]) + (f" and {more} more" if more > 0 else "")
