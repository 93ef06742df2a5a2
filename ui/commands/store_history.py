"""`lineplan store history` and `lineplan store back`: who changed what, and undo."""

from collections.abc import Sequence
from itertools import pairwise

from rich import box
from rich.markup import escape
from rich.table import Table

from catalog import Revision, differences, sentences
from ui.reports.jobs_report import moment
from ui.reports.refusals import refusals_as_sentences
from ui.reports.report import print_report
from ui.shared.command_refused import CommandRefused
from ui.shared.store_place import opened_store, who_saves

EXIT_DONE = 0


def run_history(kind: str | None, id: str | None, *, place: str) -> int:
    """List documents, or every revision of one; returns the exit status."""
    with refusals_as_sentences(), opened_store(place, creates=False) as store:
        if kind is not None and id is not None:
            _print_history(store.documents.history(kind, id))
            return EXIT_DONE
        found = store.documents.list_current(with_withdrawn=True)
        wanted = [revision for revision in found if kind in (None, revision.pin.kind)]
        if kind is not None and not wanted:
            kinds = ", ".join(sorted({revision.pin.kind for revision in found})) or "nothing so far"
            raise CommandRefused(
                command="store history", option="kind", given=f"{kind} was given", allowed=f"what is kept: {kinds}"
            )
        _print_list(wanted)
    return EXIT_DONE


def run_back(kind: str, id: str, revision: int, *, over: int | None, place: str, by: str | None, note: str) -> int:
    """Make an old revision the current one again; returns the exit status."""
    with refusals_as_sentences():
        who = who_saves(by, command="store back")
        with opened_store(place, creates=False) as store:
            from catalog import Pin

            now = store.documents.current(kind, id)
            to = Pin(kind=kind, id=id, revision=revision)
            based_on = now.pin.revision if over is None else over
            made = store.documents.go_back(to, based_on=based_on, by=who, note=note)
    if made.pin == now.pin:
        print(f"{kind} {id}: revision {revision} says the same as the current one, revision {now.pin.revision}.")
        return EXIT_DONE
    print(f"{made.pin}: says what revision {revision} said. {_changes(now, made)}")
    print(f"To undo this: lineplan store back {kind} {id} {now.pin.revision}")
    return EXIT_DONE


def _print_list(revisions: Sequence[Revision]) -> None:
    if not revisions:
        print("The store holds no catalog. `lineplan store import FILES` reads one in.")
        return
    table = _plain_table("Kind", "Id", "Name", "Revision", "Saved", "By")
    for revision in revisions:
        pin = revision.pin
        number = f"{pin.revision}, withdrawn" if revision.is_withdrawn else str(pin.revision)
        saved = (moment(revision.saved_at), escape(revision.saved_by))
        table.add_row(escape(pin.kind), escape(pin.id), escape(revision.name), number, *saved)
    print_report(table)


def _print_history(revisions: Sequence[Revision]) -> None:
    table = _plain_table("Revision", "Saved", "By", "Note", "What changed")
    changes = ["new", *(_changes(before, after) for before, after in pairwise(revisions))]
    for revision, changed in zip(revisions, changes, strict=True):
        saved = (moment(revision.saved_at), escape(revision.saved_by), escape(revision.note))
        table.add_row(str(revision.pin.revision), *saved, escape(changed))
    print_report(table)


def _changes(before: Revision, after: Revision) -> str:
    """What differs between two revisions, in one line."""
    said = [f"name: {before.name} -> {after.name}"] if before.name != after.name else []
    said += sentences(differences(before.content, after.content))
    if before.is_withdrawn != after.is_withdrawn:
        said.append("taken out of use" if after.is_withdrawn else "in use again")
    return "; ".join(dict.fromkeys(said)) or "nothing"


def _plain_table(*headings: str) -> Table:
    table = Table(box=box.SIMPLE_HEAD, padding=(0, 1, 0, 0))
    for heading in headings:
        table.add_column(heading)
    return table
