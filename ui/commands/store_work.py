"""`lineplan store upgrade` and `lineplan store import`."""

import sys
from collections.abc import Sequence
from pathlib import Path

from catalog import EditConflict
from planner import printable_line
from ui.reports.refusals import refusals_as_sentences
from ui.shared.exit_status import ExitStatus
from ui.shared.extras import refuse_without
from ui.shared.import_words import PRUNE_COMMAND, import_lines
from ui.shared.store_place import opened_store, who_saves


def run_upgrade(place: str) -> int:
    """Bring the tables up to date; returns the exit status."""
    with refusals_as_sentences():
        refuse_without("store")
        from catalog import StoreOutdated, open_store, upgrade_store

        try:
            with open_store(place, create=False) as store:
                print(f"{printable_line(str(store.place))}: its tables are up to date.")
        except StoreOutdated as outdated:
            now = upgrade_store(place)
            print(f"{printable_line(str(outdated.place))}: tables of version {outdated.found} brought up to {now}.")
    return ExitStatus.DONE


def run_check_store(place: str) -> int:
    """Name everything in the store that is not as it was saved; returns the exit status."""
    with refusals_as_sentences(), opened_store(place, creates=False) as store:
        found, shown = store.check(), printable_line(str(store.place))
    for damage in found.damages:
        print(printable_line(str(damage)), file=sys.stderr)
    counted = ", ".join(f"{count} {what}" for what, count in found.counts.items())
    if found.damages:
        print(f"{shown}: {len(found.damages)} damaged of {counted}; restore it from a copy.", file=sys.stderr)
        return ExitStatus.BAD_INPUT
    print(f"{shown}: {counted}, all as they were saved.")
    return ExitStatus.DONE


def run_import(
    files: Sequence[Path], *, place: str, by: str | None, note: str, prunes: bool = False, only_looks: bool = False
) -> int:
    """Read catalog files into the store, or only tell what that would do; returns the exit status."""
    with refusals_as_sentences():
        who = who_saves(by, command="store import")
        with opened_store(place, creates=not only_looks) as store:
            from catalog import prepare_import, questions_of_shop

            ready = prepare_import(store, files, prunes=prunes)
            if not only_looks:
                try:
                    store.documents.save_all(ready.changes, by=who, note=note or "read from files")
                except EditConflict:  # somebody may have been quicker with the same words: then there is no clash
                    ready = prepare_import(store, files, prunes=prunes)
                    store.documents.save_all(ready.changes, by=who, note=note or "read from files")
            shown = store.place
    for question in questions_of_shop(ready.catalog.workshop.limits):
        print(question, file=sys.stderr)
    did = "Nothing is kept; this is what would be read into" if only_looks else "Read into"
    print(f"{did} {printable_line(str(shown))}.")
    print("\n".join(import_lines(ready.told, prune_words=PRUNE_COMMAND)))
    return ExitStatus.DONE
