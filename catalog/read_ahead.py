"""Many files read by all the cores at once: what they find is remembered where one file would be read."""

import os
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import suppress
from multiprocessing import get_context

from catalog.file_contents import FileContent
from catalog.yaml_text import YamlText, read_yaml

WORTH_IT_BYTES = 400_000
"""Less is read sooner than other processes have started."""

FILES_AT_ONCE = 20


def read_ahead(contents: Sequence[FileContent]) -> None:
    """Read texts into the memory of `read_yaml`, in other processes; where there can be none, nothing is done."""
    texts = list(dict.fromkeys(one.content for one in contents if one.unreadable is None))
    cores = min(os.cpu_count() or 1, len(texts))
    if cores < 2 or sum(map(len, texts)) < WORTH_IT_BYTES:
        return
    with (
        suppress(OSError, BrokenProcessPool),
        ProcessPoolExecutor(cores, mp_context=get_context("spawn")) as pool,
    ):
        for text, read in zip(texts, pool.map(_read, texts, chunksize=FILES_AT_ONCE), strict=True):
            read_yaml.remember(read, text)


def _read(text: bytes) -> YamlText:
    """What another process does: it knows the function by its name only."""
    return read_yaml(text)
