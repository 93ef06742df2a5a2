"""What can be wrong with what somebody typed, wrote in a file, or asked the catalog for.

CatalogError
  EntryNotAccepted        carries every problem, already in sentences
    CatalogProblems       the same for whole files
    FileNotWritten        the same for files that were to be written
  PartNotInCatalog        carries what was asked for and near matches
  CatalogFileUnreadable   carries path, line, and what was expected
"""

from collections.abc import Sequence
from dataclasses import dataclass

from planner import printable_line


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Problem:
    """One thing that is wrong, where it stands, and what would be right.

    file : the file as the user named it, or the name of a form
    line : line in that file, counted from 1; 0 where there are no lines (a form, a missing file)
    thing : what it is about, such as "line hose-50" or "frame larkmoor-140 port neck-left"
    field : the field by its file name; "" when the whole thing is meant
    given : what was given, with its unit
    allowed : what is allowed, and the likely slip
    """

    file: str
    line: int
    thing: str
    field: str
    given: str
    allowed: str

    def __str__(self) -> str:
        where = f"{self.file}:{self.line}" if self.line else self.file
        about = f"{self.thing} > {self.field}" if self.field else self.thing
        return printable_line(f"{where}: {about}: {self.given}, {self.allowed}")


MOST_PROBLEMS = 1000
"""Problems looked for in one file; nobody mends more at once."""

MOST_TOLD = 200
"""Problems told in full; of the rest their number."""


def with_end(problems: list[Problem]) -> list[Problem]:
    """The problems of a file, and where there are so many that it was not looked at any further, that too."""
    if len(problems) < MOST_PROBLEMS:
        return problems
    given = f"{len(problems)} problems up to here, the rest was not looked at"
    last = problems[-1]
    end = Problem(file=last.file, line=last.line, thing="file", field="", given=given, allowed="mend these first")
    return [*problems, end]


def told_in_lines(problems: Sequence[Problem]) -> list[str]:
    """Problems as they are printed, one a line, with a count of those that are too many to read."""
    lines = [str(problem) for problem in problems[:MOST_TOLD]]
    left = len(problems) - MOST_TOLD
    return [*lines, f"... and {left} more problem{'' if left == 1 else 's'}"] if left > 0 else lines


def file_problem(path: object, *, given: str, allowed: str) -> Problem:
    """A problem with a file as a whole, under the name the user gave it."""
    return Problem(file=str(path), line=0, thing="file", field="", given=given, allowed=allowed)


class CatalogError(Exception):
    """Base of everything the catalog raises on purpose."""


class EntryNotAccepted(CatalogError):  # noqa: N818  (named for what happened, as the mechanic sees it)
    """Something typed was not accepted; every problem is told at once."""

    def __init__(self, problems: Sequence[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__("\n".join(told_in_lines(self.problems)))


class CatalogProblems(EntryNotAccepted):
    """Catalog or job files were not accepted; every problem is told at once."""


class FileNotWritten(EntryNotAccepted):
    """Files were not written; everything that stands in the way is told at once."""


class PartNotInCatalog(CatalogError):  # noqa: N818
    """Something was asked for by an id that the catalog does not have."""

    def __init__(self, *, kind: str, asked: str, near: Sequence[str]) -> None:
        self.kind, self.asked, self.near = kind, asked, tuple(near)
        hint = f"; did you mean {' or '.join(self.near)}?" if self.near else ""
        super().__init__(f"no {kind} {asked} in the catalog{hint}")


class CatalogFileUnreadable(CatalogError):  # noqa: N818
    """A file could not be read at all, before anything in it was looked at."""

    def __init__(self, *, path: str, line: int, found: str, expected: str) -> None:
        self.path, self.line, self.found, self.expected = path, line, found, expected
        super().__init__(str(self.as_problem()))

    def as_problem(self) -> Problem:
        """The same as one line among the other problems."""
        return Problem(file=self.path, line=self.line, thing="file", field="", given=self.found, allowed=self.expected)
