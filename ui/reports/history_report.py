"""The history of the catalog in the terminal: what is kept, who changed what."""

from collections.abc import Sequence
from itertools import pairwise

from rich.markup import escape

from catalog import Revision
from ui.reports.plain_table import plain_table
from ui.reports.report import print_report
from ui.shared.days import told_moment
from ui.shared.revision_words import changes


def print_revisions(revisions: Sequence[Revision], *, time_zone: str) -> None:
    """Print a row for every document."""
    if not revisions:
        print("The store holds no catalog. `lineplan store import FILES` reads one in.")
        return
    table = plain_table(("Kind", "Id", "Name", "Revision", "Saved", "By"))
    for revision in revisions:
        pin = revision.pin
        number = f"{pin.revision}, withdrawn" if revision.is_withdrawn else str(pin.revision)
        saved = (told_moment(revision.saved_at, time_zone), escape(revision.saved_by))
        table.add_row(escape(pin.kind), escape(pin.id), escape(revision.name), number, *saved)
    print_report(table)


def print_history(revisions: Sequence[Revision], *, time_zone: str) -> None:
    """Print every revision of one document, oldest first."""
    table = plain_table(("Revision", "Saved", "By", "Note", "What changed"))
    told = ["new", *(changes(before, after) for before, after in pairwise(revisions))]
    for revision, changed in zip(revisions, told, strict=True):
        saved = (told_moment(revision.saved_at, time_zone), escape(revision.saved_by), escape(revision.note))
        table.add_row(str(revision.pin.revision), *saved, escape(changed))
    print_report(table)
