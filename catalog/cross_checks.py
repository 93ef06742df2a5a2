"""Whether the entries of a catalog agree with each other."""

from collections.abc import Iterator, Sequence

from catalog.errors import Problem
from catalog.read_files import Placed


def cross_problems(placed: Sequence[Placed], *, starter_cautions: frozenset[str]) -> Iterator[Problem]:
    """What is wrong between entries."""
    yield from ()
