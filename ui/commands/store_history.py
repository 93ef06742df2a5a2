"""`lineplan store history` and `lineplan store back`: who changed what, and undo."""

from ui.reports.history_report import print_history, print_revisions
from ui.reports.refusals import refusals_as_sentences
from ui.shared.command_refused import CommandRefused
from ui.shared.days import time_zone_of
from ui.shared.exit_status import ExitStatus
from ui.shared.revision_words import changes
from ui.shared.store_place import opened_store, who_saves


def run_history(kind: str | None, id: str | None, *, place: str) -> int:
    """List documents, or every revision of one; returns the exit status."""
    with refusals_as_sentences(), opened_store(place, creates=False) as store:
        time_zone = time_zone_of(store)
        if kind is not None and id is not None:
            print_history(store.documents.history(kind, id), time_zone=time_zone)
            return ExitStatus.DONE
        found = store.documents.list_current(with_withdrawn=True)
        wanted = [revision for revision in found if kind in (None, revision.pin.kind)]
        if kind is not None and not wanted:
            kinds = ", ".join(sorted({revision.pin.kind for revision in found})) or "nothing so far"
            raise CommandRefused(
                command="store history", option="kind", given=f"{kind} was given", allowed=f"what is kept: {kinds}"
            )
        print_revisions(wanted, time_zone=time_zone)
    return ExitStatus.DONE


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
        return ExitStatus.DONE
    print(f"{made.pin}: says what revision {revision} said. {changes(now, made)}")
    print(f"To undo this: lineplan store back {kind} {id} {now.pin.revision}")
    return ExitStatus.DONE
