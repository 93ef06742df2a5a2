"""Which catalog a command works with, by one rule: files over the starter or alone, the store's, or the starter."""

import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from catalog import Catalog, read_catalog
from ui.shared.store_place import is_store_there, opened_store

MOST_TOLD = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class CatalogChoice:
    """What was said about the catalog.

    paths : files and folders named with -c; none for the store's catalog or, where there is no store, the starter
    is_bare : whether they stand for themselves instead of being laid over the starter
    place : the store; "" where none is asked
    """

    paths: tuple[Path, ...] = ()
    is_bare: bool = False
    place: str = ""


def chosen_catalog(choice: CatalogChoice, *, as_kept: bool = True) -> Catalog:
    """The catalog chosen.

    as_kept : whether it may be found as it was kept when it was read before

    Raises CatalogProblems with everything that is wrong in any of its files.
    """
    if choice.paths or choice.is_bare or not choice.place or not is_store_there(choice.place):
        return catalog_of_files(choice.paths, is_bare=choice.is_bare, as_kept=as_kept)
    from catalog import catalog_of_store

    with opened_store(choice.place, creates=False) as store:
        pinned = catalog_of_store(store, as_kept=as_kept)
    return pinned.catalog if pinned.pins else read_catalog(as_kept=as_kept)


def catalog_of_files(paths: Sequence[Path], *, is_bare: bool, as_kept: bool = True) -> Catalog:
    """The catalog in files and folders, over the starter or for themselves; the starter where none are named."""
    if is_bare or paths:
        return read_catalog(list(paths), over_starter=not is_bare, as_kept=as_kept)
    return read_catalog(as_kept=as_kept)


def stand_in_remarks(stands_in: Sequence[str]) -> tuple[str, ...]:
    """What is to be said once of own entries that stand in for the starter's; nothing where none do."""
    if not stands_in:
        return ()
    more = len(stands_in) - MOST_TOLD
    told = ", ".join(stands_in[:MOST_TOLD]) + (f" and {more} more" if more > 0 else "")
    return (f"Your own word stands in for the starter catalog's: {told}.",)


def tell_stand_ins(catalog: Catalog) -> None:
    """Say it on the error stream, where results are not printed."""
    for remark in stand_in_remarks(catalog.stands_in):
        print(remark, file=sys.stderr)
