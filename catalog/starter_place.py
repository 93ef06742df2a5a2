"""Where the catalog that comes with the program lies, and how people are told of files and folders."""

import os
from collections.abc import Sequence
from functools import lru_cache
from pathlib import Path

STARTER_FOLDER = Path(__file__).parent / "starter"
"""The catalog that comes with the program."""

STARTER_NAME = "the starter catalog"


def paths_over_starter(paths: Sequence[Path]) -> list[Path]:
    """The starter catalog, and over it some files and folders."""
    return [STARTER_FOLDER, *paths]


def is_starter_file(file: str) -> bool:
    """Whether a file is one of the starter catalog's, however it was named."""
    if "\0" in file:
        return False
    place = os.path.realpath(file) if os.path.islink(file) else file
    return _true_folder(os.path.dirname(place)) == str(STARTER_FOLDER)


@lru_cache(maxsize=64)
def _true_folder(folder: str) -> str:
    return os.path.realpath(folder)


def names_of(paths: Sequence[Path]) -> tuple[str, ...]:
    """Files and folders as people are told of them: by their last names, each once."""
    return tuple(dict.fromkeys(name_of(path) for path in paths if "\0" not in str(path)))


def name_of(path: Path) -> str:
    """The name of one file or folder."""
    whole = path.resolve()
    return STARTER_NAME if STARTER_FOLDER in (whole, whole.parent) else whole.name
