"""`lineplan store upgrade` and `lineplan store import`."""

from collections.abc import Sequence
from pathlib import Path

from catalog import EditConflict, Pin
from planner import printable_line
from ui.reports.refusals import refusals_as_sentences
from ui.shared.exit_status import ExitStatus
from ui.shared.extras import refuse_without
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


def run_import(files: Sequence[Path], *, place: str, by: str | None, note: str) -> int:
    """Read catalog files into the store; returns the exit status."""
    with refusals_as_sentences():
        who = who_saves(by, command="store import")
        with opened_store(place, creates=True) as store:
            from catalog import import_files

            try:
                done = import_files(store, files, by=who, note=note)
            except EditConflict:  # somebody may have been quicker with the same words: then there is no clash
                done = import_files(store, files, by=who, note=note)
            shown = printable_line(str(store.place))
    print(f"Read into {shown}: {len(done.saved)} entries new or changed, {len(done.unchanged)} as before.")
    for pin in done.saved:
        if pin.revision > 1:
            print(f"  {pin}")
    if done.kept:
        print(f"Changed in the store since, and left as they are there: {_listed(done.kept)}.")
    return ExitStatus.DONE


def _listed(pins: Sequence[Pin]) -> str:
    return ", ".join(f"{pin.kind} {pin.id}" for pin in pins)
