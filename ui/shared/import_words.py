"""What reading catalog files into the store does, or would do, in words."""

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from catalog import Imported, Pin

PRUNE_COMMAND = "`lineplan store import --prune` takes them out of use."
"""What the terminal says of entries that have left their file."""

AT_MOST = 12
"""Entries named one by one; a whole catalog read in for the first time is only counted."""


def import_lines(told: "Imported", *, prune_words: str) -> Iterator[str]:
    """A line with the counts, then the entries by name; of what changed, what differs.

    prune_words : how what has left its file is taken out of use
    """
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
        yield f"  Changed: {len(told.changed) - AT_MOST} more; their histories tell them."
    if told.removed:
        yield f"  Taken out of use, for they are not in their file any more: {_listed(told.removed)}."
    if told.missing:
        yield (f"  Not in their file any more, and still in use: {_listed(told.missing)}. {prune_words}")
    if told.kept:
        yield f"  Changed in the store since, and left as they are there: {_listed(told.kept)}."


def _listed(pins: Iterable["Pin"]) -> str:
    names = [f"{pin.kind} {pin.id}" for pin in pins]
    more = len(names) - AT_MOST
    return ", ".join(names[:AT_MOST]) + (f" and {more} more" if more > 0 else "")
