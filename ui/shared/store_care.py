"""What keeps a store sound: copies of it, putting one back, newer tables; each told in a sentence."""

from pathlib import Path
from typing import TYPE_CHECKING

from ui.shared.days import now

if TYPE_CHECKING:
    from catalog import StoreCheck, StoreOutdated


def aside_of(file: Path, what: str) -> Path:
    """The name under which a store as it is now is laid beside itself, such as `lineplan-before-restore-...`.

    what : is about to be done
    """
    return file.with_name(f"{file.stem}-before-{what}-{now():%Y%m%d-%H%M%S}.sqlite")


def restored(place: str, backup: Path) -> tuple[str, Path | None]:
    """Put a copy back; what was done, and the store as it was, to be put back in turn: None where it cannot be.

    Raises BackupRefused where the copy cannot be trusted; nothing is changed then.
    """
    from catalog import file_of_store, restore_store

    file = file_of_store(place) or Path("store")  # a database server's is refused with what to do instead
    done = restore_store(place, backup, aside=aside_of(file, "restore"))
    older = done.upgraded_from
    upgraded_words = f" Its tables of version {older} were brought up to date." if older else ""
    before = "" if done.aside is None else f" What was there before lies in {done.aside}."
    return f"{file}: {counted(done.counts)} put back.{upgraded_words}{before}", done.aside if done.can_undo else None


def upgraded(place: str, outdated: "StoreOutdated") -> str:
    """Bring the tables up to date, with a copy of the store laid aside first; what was done."""
    from catalog import file_of_store, keep_aside, upgrade_store

    file = file_of_store(place)
    aside = None if file is None else aside_of(file, "upgrade")
    if aside is not None:
        keep_aside(place, aside)
    version = upgrade_store(place)
    before = "" if aside is None else f" The store as it was lies in {aside}."
    return f"{outdated.place}: tables of version {outdated.found} brought up to {version}.{before}"


def check_words(found: "StoreCheck") -> str:
    """What a look through a store found, in short."""
    if found.damages:
        return f"{len(found.damages)} damaged of {counted(found.counts)}; restore it from a copy."
    return f"{counted(found.counts)}, all as they were saved."


def counted(counts: dict[str, int]) -> str:
    """How many there are of each."""
    return ", ".join(f"{count} {what}" for what, count in counts.items())
