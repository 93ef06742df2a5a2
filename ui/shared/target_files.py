"""Files that a command is asked to write: refused before any work when they cannot be meant, then written whole."""

from collections.abc import Iterator, Sequence
from pathlib import Path

from catalog import CatalogFileUnreadable, CatalogProblems, Problem
from ui.shared.whole_files import write_whole


def refuse_bad_targets(targets: Sequence[tuple[Path | None, str]]) -> None:
    """Tell which files cannot be meant; each is given with the ending its name should have, or None for no file."""
    problems = [problem for path, ending in targets if path is not None for problem in _slips(path, ending)]
    named = [path for path, _ in targets if path is not None]
    problems += [
        _problem(path, given="it is named twice", allowed="a file of its own for each")
        for place, path in enumerate(named)
        if path.resolve() in [other.resolve() for other in named[:place]]
    ]
    if problems:
        raise CatalogProblems(problems)


def _slips(path: Path, ending: str) -> Iterator[Problem]:
    if path.suffix.lower() != ending:
        yield _problem(path, given=f"{path} was given", allowed=f"a name that ends in {ending}")
    elif not path.parent.is_dir():
        yield _problem(path, given=f"there is no folder {path.parent}", allowed="a folder that is there")
    elif path.is_dir():
        yield _problem(path, given="this is a folder", allowed="the name of a file")


def _problem(path: Path, *, given: str, allowed: str) -> Problem:
    return Problem(file=str(path), line=0, thing="file", field="", given=given, allowed=allowed)


def write_target(path: Path, content: str | bytes) -> None:
    """Write a file whole or not at all; one that cannot be written is a refusal with the reason."""
    try:
        write_whole(path, content)
    except OSError as error:
        reason = f"it cannot be written: {error.strerror or error}"
        raise CatalogFileUnreadable(path=str(path), line=0, found=reason, expected="a file to write to") from error
