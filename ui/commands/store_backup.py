"""`lineplan store backup` and `lineplan store restore`."""

from pathlib import Path

from catalog import CatalogError, write_pieces
from planner import printable_line
from ui.commands.store_work import tell_check
from ui.reports.refusals import refusals_as_sentences
from ui.shared.extras import refuse_without
from ui.shared.store_care import left_open, restored
from ui.shared.store_place import is_store_there, opened_store
from ui.shared.target_files import Target, refuse_bad_targets


def run_backup(file: Path, *, place: str, replaces: bool) -> int:
    """Copy the store to a file, and tell what a look through the copy found; returns the exit status."""
    with refusals_as_sentences():
        refuse_without("store")
        from catalog import copied_store

        refuse_bad_targets(Target(path=file, endings=(".sqlite",), replaces=replaces))
        with copied_store(place) as copy:
            write_pieces(file, copy.pieces(), replaces=replaces)
            check = copy.check
    return tell_check(check, shown=printable_line(str(file)))


def run_restore(file: Path, *, place: str) -> int:
    """Put a copy back, and tell where the store as it was lies; returns the exit status."""
    with refusals_as_sentences():
        refuse_without("store")
        open_forms = _open_forms(place, file)
        told, aside = restored(place, file)
    print(printable_line(told))
    for one in open_forms:
        print(printable_line(f"Was being filled in, and went aside: {one}"))
    if aside is not None:
        print(f"To undo this: lineplan store restore {printable_line(str(aside))}")
    return 0


def _open_forms(place: str, file: Path) -> tuple[str, ...]:
    """What is being filled in and is not in the copy; nothing of a store that is not there or cannot be read."""
    if not is_store_there(place):
        return ()
    try:
        with opened_store(place, creates=False) as store:
            return left_open(store, file)
    except CatalogError:
        return ()
