"""A process killed while it edits a catalog file: the file is the one before or the one after, never half."""

import random
import time
from multiprocessing.context import ForkServerContext
from pathlib import Path

from catalog.yaml_text import read_yaml
from tests.crash.test_killed_while_saving import rest_of

KILLS = 30


def test_a_killed_edit_leaves_a_whole_file(tmp_path: Path, processes: ForkServerContext) -> None:
    from tests.crash.savers import write_until_killed

    path = tmp_path / "shelf.yaml"
    path.write_text("format: 1\nlines:   # kept\n  - {id: hose-50, outer: 5.0}   # blue reel\n", encoding="utf-8")
    chance = random.Random(12)
    for _ in range(KILLS):
        mine, theirs = processes.Pipe(duplex=False)
        process = processes.Process(target=write_until_killed, args=(str(path), theirs))
        process.start()
        theirs.close()
        acknowledged = mine.recv()
        time.sleep(chance.uniform(0, 0.03))
        process.kill()
        process.join()
        acknowledged = max([acknowledged, *rest_of(mine)])
        text = path.read_bytes()
        said = read_yaml(text)
        assert not said.slips
        number = int(said.value["lines"][0]["note"].split()[1])  # type: ignore[index]
        assert number >= acknowledged
        assert said.value["lines"][0]["note"] == f"written {number} times " * 200  # type: ignore[index]
        assert b"# kept" in text
        assert b"# blue reel" in text
