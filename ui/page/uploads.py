"""Files sent to the page, put on disk for as long as it takes to read them."""

import re
import tempfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

from catalog import Problem

LONGEST_NAME = 60
"""Signs; short enough for every disk, whatever the signs are. The end of a name, with its ending, is what is kept."""


@contextmanager
def files_on_disk(uploads: Mapping[str, bytes]) -> Iterator[list[Path]]:
    """The files, each in a folder of its own, under names that no path can hide in."""
    with tempfile.TemporaryDirectory(prefix="lineplan-") as folder:
        paths = []
        for number, (name, content) in enumerate(uploads.items()):
            path = Path(folder) / str(number) / _harmless(name)
            path.parent.mkdir()
            path.write_bytes(content)
            paths.append(path)
        yield paths


def _harmless(name: str) -> str:
    return re.sub(r"[^\w.+-]", "_", Path(name).name)[-LONGEST_NAME:] or "file.yaml"


def is_job_file(content: bytes) -> bool:
    """Whether a file holds a job rather than a catalog: `job` stands at the beginning of a row."""
    return re.search(rb"(?m)^job\s*:", content) is not None


def without_folder(problem: Problem) -> Problem:
    """The problem with its file named as the user named it."""
    return replace(problem, file=Path(problem.file).name)
