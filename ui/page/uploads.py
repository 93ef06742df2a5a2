"""Files sent to the page, put on disk for as long as it takes to read them."""

import re
import tempfile
from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path

from catalog import EntryNotAccepted, Problem

LONGEST_NAME = 60
"""Signs; short enough for every disk, whatever the signs are. The end of a name, with its ending, is what is kept."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Upload:
    """One file as it was sent; several may have one name."""

    name: str
    content: bytes

    @property
    def is_job(self) -> bool:
        """Whether it holds a job rather than a catalog: `job` stands at the beginning of a row."""
        return re.search(rb"(?m)^job\s*:", self.content) is not None


@contextmanager
def files_on_disk(uploads: Sequence[Upload]) -> Iterator[dict[Path, str]]:
    """The files, each in a folder of its own, under names that no path can hide in; with what to call each.

    Raises EntryNotAccepted as it is raised inside, with every file called as its sender calls it.
    """
    with tempfile.TemporaryDirectory(prefix="lineplan-") as folder:
        paths = {}
        for number, (upload, called) in enumerate(zip(uploads, names_told_apart(uploads), strict=True)):
            path = Path(folder) / str(number) / _harmless(upload.name)
            path.parent.mkdir()
            path.write_bytes(upload.content)
            paths[path] = called
        try:
            yield paths
        except EntryNotAccepted as refusal:
            raise EntryNotAccepted([as_sent(problem, paths) for problem in refusal.problems]) from refusal


def names_told_apart(uploads: Sequence[Upload]) -> list[str]:
    """What to call each file: by its name, and those that share one also by which of them it is."""
    names = [Path(upload.name).name or "file without a name" for upload in uploads]
    seen: Counter[str] = Counter()
    called = []
    for name in names:
        seen[name] += 1
        called.append(name if names.count(name) == 1 else f"{name} (no. {seen[name]} of this name)")
    return called


def as_sent(problem: Problem, names: dict[Path, str]) -> Problem:
    """The problem with every file that was sent called as its sender calls it, wherever the problem names it."""

    def told(words: str) -> str:
        for path, name in names.items():
            words = words.replace(str(path), name)
        return words

    return replace(
        problem,
        file=told(problem.file),
        given=told(problem.given),
        allowed=told(problem.allowed),
        thing=told(problem.thing),
    )


def _harmless(name: str) -> str:
    return re.sub(r"[^\w.+-]", "_", Path(name).name)[-LONGEST_NAME:] or "file.yaml"
