"""Files that a command is asked to write: refused before any work when they cannot be meant or would lose something."""

import os
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from catalog import FileNotWritten, Problem, file_obstacle, file_problem


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """One file to write.

    path : None where it is not wanted
    endings : what its name may end in
    replaces : whether a file that is there may be lost
    """

    path: Path | None
    endings: tuple[str, ...]
    replaces: bool


def refuse_bad_targets(*targets: Target) -> None:
    """Tell everything that stands in the way of any of the files.

    Raises FileNotWritten where there is anything.
    """
    problems = target_problems(*targets)
    if problems:
        raise FileNotWritten(problems)


def target_problems(*targets: Target) -> list[Problem]:
    """Everything that stands in the way of any of the files."""
    named = [(target, target.path) for target in targets if target.path is not None]
    problems = [problem for target, path in named for problem in _slips(target, path)]
    problems += [
        file_problem(path, given="it is named twice", allowed="a file of its own for each")
        for place, (_, path) in enumerate(named)
        if os.path.realpath(path) in [os.path.realpath(other) for _, other in named[:place]]
    ]
    return problems


def _slips(target: Target, path: Path) -> Iterator[Problem]:
    if path.suffix.lower() not in target.endings and not os.path.isdir(path):
        allowed = f"a name that ends in {' or '.join(target.endings)}"
        yield file_problem(path, given=f"{path.name} was given", allowed=allowed)
        return
    in_the_way = file_obstacle(path, replaces=target.replaces)
    if in_the_way is not None:
        yield in_the_way
