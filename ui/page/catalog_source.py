"""The files of the catalog in use, so that the store can read them in."""

from collections.abc import Iterator
from contextlib import contextmanager

from ui.page import session
from ui.page.uploads import Upload, files_on_disk
from ui.shared.catalog_choice import CatalogChoice
from ui.shared.page_start import catalog_to_start_with, starts_bare
from ui.shared.store_place import page_store_place


@contextmanager
def choice_in_use() -> Iterator[CatalogChoice]:
    """The catalog in use as the commands are told of it; none of its files where it is the store's already."""
    source = session.catalog_source()
    first = () if session.is_store_used() else catalog_to_start_with()
    match source["kind"]:
        case "demo":
            yield CatalogChoice(paths=session.demo_frames(), place=page_store_place())
        case "files":
            sent = [Upload(name=file["name"], content=file["text"].encode("utf-8")) for file in source["files"]]
            with files_on_disk(sent) as paths:
                beside = first if source["beside"] else ()
                choice = CatalogChoice(paths=(*beside, *paths), is_bare=starts_bare(), place=page_store_place())
                yield choice
        case _:
            yield CatalogChoice(paths=first, is_bare=starts_bare() and bool(first), place=page_store_place())
