"""Files sent to the page, put on disk for as long as it takes to read them."""

import re
import tempfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

from catalog import Problem


@contextmanager
def files_on_disk(uploads: Mapping[str, bytes]) -> Iterator[list[Path]]:
    """The files in a folder of their own, under names that no path can hide in."""
    with tempfile.TemporaryDirectory(prefix="lineplan-") as folder:
        paths = []
        for name, content in uploads.items():
            path = Path(folder) / (re.sub(r"[^\w.+-]", "_", Path(name).name) or "file.yaml")
            path.write_bytes(content)
            paths.append(path)
        yield paths


def is_job_file(content: bytes) -> bool:
    """Whether a file holds a job rather than a catalog: `job` stands at the beginning of a row."""
    return re.search(rb"(?m)^job\s*:", content) is not None


def without_folder(problem: Problem) -> Problem:
    """The problem with its file named as the user named it."""
    return replace(problem, file=Path(problem.file).name)
