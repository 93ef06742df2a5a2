"""A table whose workers write down who they are and then sleep: `python -m tests.ui.table.sleepers FOLDER`."""

import os
import sys
import time
from functools import partial
from pathlib import Path


def write_and_sleep(folder: str, shared: str, chunk: str) -> str:
    (Path(folder) / f"{os.getpid()}.pid").touch()
    time.sleep(3600)
    return f"{shared}{chunk}"


def main(folder: str) -> None:
    from ui.table.workers import processes

    for _ in processes(2, decide=partial(write_and_sleep, folder))("", str, 2):
        pass


if __name__ == "__main__":
    main(sys.argv[1])
