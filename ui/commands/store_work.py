"""`lineplan store upgrade` and `lineplan store import`."""

import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from catalog import EditConflict
from planner import printable_line
from ui.reports.refusals import refusals_as_sentences
from ui.shared.exit_status import ExitStatus
from ui.shared.extras import refuse_without
from ui.shared.import_words import PRUNE_COMMAND, import_lines
from ui.shared.store_care import check_words, upgraded
from ui.shared.store_place import opened_store, who_saves

if TYPE_CHECKING:
    from catalog import StoreCheck


def run_upgrade(place: str) -> int:
    """Bring the tables up to date; returns the exit status."""
    with refusals_as_sentences():
        refuse_without("store")
        from catalog import StoreOutdated, open_store

        try:
            with open_store(place, create=False) as store:
                print(f"{printable_line(str(store.place))}: its tables are up to date.")
        except StoreOutdated as outdated:
            print(printable_line(upgraded(place, outdated)))
    return ExitStatus.DONE


def run_check_store(place: str) -> int:
    """Name everything in the store that is not as it was saved; returns the exit status."""
    with refusals_as_sentences(), opened_store(place, creates=False) as store:
        found, shown = store.check(), printable_line(str(store.place))
    return tell_check(found, shown=shown)


def tell_check(found: "StoreCheck", *, shown: str) -> int:
    """What a look through a store, or a copy of it, found; returns the exit status."""
    for damage in found.damages:
        print(printable_line(str(damage)), file=sys.stderr)
    print(f"{shown}: {check_words(found)}", file=sys.stderr if found.damages else sys.stdout)
    return ExitStatus.BAD_INPUT if found.damages else ExitStatus.DONE


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
