"""The catalog in some files: found as it was kept when the same files were read before, else read in full and kept."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache, partial
from pathlib import Path

from catalog.file_contents import FileContent, read_contents
from catalog.kept_files import find_text, hash_of, keep, key_of
from catalog.plain_parts import NotPlainParts
from catalog.ready_catalog import Catalog, catalog_as_text, catalog_of_lines
from catalog.starter_place import STARTER_FOLDER, is_starter_file, names_of, paths_over_starter


@dataclass(frozen=True, slots=True, kw_only=True)
class Sources:
    """What a catalog is to be read from.

    key : the hash of all that it depends on
    contents : the files, in order
    named : those that were named themselves, not found in a folder
    read_from : as people are told of them
    """

    key: str
    contents: tuple[FileContent, ...] = field(compare=False)
    named: frozenset[str] = field(compare=False)
    read_from: tuple[str, ...] = field(compare=False)


def read_catalog(paths: Sequence[Path] | None = None, *, over_starter: bool = False, as_kept: bool = True) -> Catalog:
    """The catalog in some files and folders; the starter catalog when none are named.

    A catalog without shop limits, steps or cautions takes those of the starter catalog. Job and stock files that lie in
    a folder beside catalog files are passed over.

    over_starter : whether the files are laid over the starter catalog, or stand for themselves
    as_kept : whether it may be found as it was kept; else every word of the files is looked at

    Raises CatalogProblems with everything that is wrong in any of the files.
    """
    paths = [STARTER_FOLDER] if paths is None else paths_over_starter(paths) if over_starter else list(paths)
    contents = tuple(read_contents(paths))
    named, read_from = frozenset(str(path) for path in paths), names_of(paths)
    told = [f"{hash_of(one.content)} {one.file in named} {is_starter_file(one.file)}" for one in contents]
    key = key_of("catalog", *read_from, *told)
    sources = Sources(key=key, contents=contents, named=named, read_from=read_from)
    if not as_kept or any(one.unreadable for one in contents):
        return _in_full(sources, as_kept=as_kept)
    return _found(sources)


def found_or_read(key: str, in_full: Callable[[], Catalog]) -> Catalog:
    """The catalog kept under a key; where none is, it is read in full and kept.

    Raises CatalogProblems with everything that is wrong with it.
    """
    text = find_text(key)
    if text is not None:
        try:
            return catalog_of_lines(text, key=key, in_full=in_full)
        except NotPlainParts:
            pass  # kept by somebody else: made anew, and kept in its place
    catalog = replace(in_full(), key=key)
    keep(key, partial(catalog_as_text, catalog))
    return catalog


@lru_cache(maxsize=16)
def _found(sources: Sources) -> Catalog:
    return found_or_read(sources.key, partial(_in_full, sources))


def _in_full(sources: Sources, *, as_kept: bool = True) -> Catalog:
    from catalog.open_catalog import catalog_of_documents
    from catalog.read_files import document_kept, document_with

    documents = [document_kept(one) if as_kept else document_with(one) for one in sources.contents]
    counted = tuple(document for document in documents if document.is_catalog or document.file in sources.named)
    return catalog_of_documents(counted, read_from=sources.read_from)
