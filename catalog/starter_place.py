"""Where the catalog that comes with the program lies, and how people are told of files and folders."""

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
    return _folder_of(file) == STARTER_FOLDER


@lru_cache(maxsize=1024)
def _folder_of(file: str) -> Path:
    return Path(file).parent if "\0" in file else Path(file).resolve().parent


def names_of(paths: Sequence[Path]) -> tuple[str, ...]:
    """Files and folders as people are told of them: by their last names, each once."""
    return tuple(dict.fromkeys(name_of(path) for path in paths if "\0" not in str(path)))


def name_of(path: Path) -> str:
    """The name of one file or folder."""
    whole = path.resolve()
    return STARTER_NAME if STARTER_FOLDER in (whole, whole.parent) else whole.name
