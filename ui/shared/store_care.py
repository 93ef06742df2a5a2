"""What keeps a store sound: copies of it, putting one back, newer tables; each told in a sentence."""

import re
from pathlib import Path
from typing import TYPE_CHECKING

from catalog import CatalogError
from ui.shared.days import in_zone, now, time_zone_of

if TYPE_CHECKING:
    from catalog import DraftBrief, Store, StoreCheck, StoreOutdated


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


FORM_WORDS = {
    "job": "job",
    "visit": "several lines",
    "hand_over": "record",
    "entry": "entry of the catalog",
    "cuts": "cut list",
    "new_frame": "new frame",
    "new_job": "new job",
    "frames_and_brakes": "frames and brakes",
    "quote": "quote",
    "shopping": "shopping list",
}
"""Forms that people fill in, and what to call them."""

MOST_TOLD = 8


def left_open(store: "Store", backup: Path) -> tuple[str, ...]:
    """What is being filled in and is not in a copy as it stands: each in a few words, newest first.

    A saved job of several lines that is only open, with nothing changed, is not among them.
    """
    from catalog import draft_versions_in

    found = [
        one
        for one in store.drafts.not_in(draft_versions_in(backup), forms=tuple(FORM_WORDS))
        if not _is_as_saved(store, one)
    ]
    zone = time_zone_of(store)
    told = [
        f"{FORM_WORDS[one.form]}: {one.title or 'without a title'}, {in_zone(one.changed_at, zone):%Y-%m-%d %H:%M}"
        for one in found[:MOST_TOLD]
    ]
    return (*told, f"and {len(found) - MOST_TOLD} more") if len(found) > MOST_TOLD else tuple(told)


def _is_as_saved(store: "Store", one: "DraftBrief") -> bool:
    """Whether several lines are open just as they were saved."""
    if one.form != "visit":
        return False
    content = store.drafts.get(one.id).content
    saved = content.get("saved")
    if not saved:
        return False
    try:
        return bool(store.jobs.content_at(saved["id"], saved["version"]) == content["fields"])
    except CatalogError:
        return False


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
    """How many there are of each, by what several of them are called.

    >>> counted({"jobs": 1, "cases in tables": 1, "hand-over records": 1, "quotes": 0})
    '1 job, 1 case in tables, 1 hand-over record, 0 quotes'
    """
    return ", ".join(
        f"{count} {_PLURAL.sub('', what, count=1) if count == 1 else what}" for what, count in counts.items()
    )


_PLURAL = re.compile(r"s(?= in | for |$)")
"""Where the word for several ends."""
