"""The folder where a table's answers are kept as they come: a killed run goes on where it was.

A part is a gzipped file of answers, a line a case. `manifest.jsonl` has a line for each part that lies complete on the
disk: run, file, bytes, sha256, keys of its cases. A line that is torn, or whose file is another, does not count.
"""

import gzip
import hashlib
import json
import os
from collections.abc import Iterator, Sequence
from functools import lru_cache
from pathlib import Path
from typing import Any

from catalog import make_folder

MANIFEST = "manifest.jsonl"
KEY_SIGNS = 32


def key_of(*texts: str) -> str:
    """A name for what some texts say."""
    found = hashlib.sha256()
    for text in texts:
        found.update(text.encode("utf-8") + b"\0")
    return found.hexdigest()[:KEY_SIGNS]


class PartsFolder:
    """The answers of one run that are there.

    known : for the key of each case, the part and the line
    """

    def __init__(self, folder: Path, run: str) -> None:
        make_folder(folder)
        self._folder, self._run = folder, run
        self.known: dict[str, tuple[str, int]] = {}
        for stale in folder.glob("*.new"):
            stale.unlink()
        for line in self._lines():
            self._know(line)
        self._read = lru_cache(maxsize=4)(self._read_part)

    def _lines(self) -> Iterator[dict[str, Any]]:
        """What the manifest says of this run, as far as the files are what it says."""
        manifest = self._folder / MANIFEST
        for text in manifest.read_text(encoding="utf-8", errors="replace").split("\n") if manifest.exists() else ():
            try:
                line = json.loads(text)
                is_there = line["run"] == self._run and self._is_whole(line)
            except (ValueError, KeyError, TypeError):
                continue
            if is_there:
                yield line

    def _is_whole(self, line: dict[str, Any]) -> bool:
        try:
            content = (self._folder / Path(str(line["file"])).name).read_bytes()
        except OSError:
            return False
        return bool(hashlib.sha256(content).hexdigest() == line["sha256"])

    def _know(self, line: dict[str, Any]) -> None:
        self.known.update((key, (line["file"], place)) for place, key in enumerate(line["cases"]))

    def add(self, keys: Sequence[str], texts: Sequence[str]) -> None:
        """Keep some answers; they count once they lie complete on the disk."""
        content = gzip.compress("\n".join(texts).encode("utf-8"), mtime=0)
        digest = hashlib.sha256(content).hexdigest()
        name = f"part-{digest[:KEY_SIGNS]}.jsonl.gz"
        beside = self._folder / f"{name}.{os.getpid()}.new"
        with beside.open("wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        beside.replace(self._folder / name)
        line = {"run": self._run, "file": name, "bytes": len(content), "sha256": digest, "cases": list(keys)}
        with (self._folder / MANIFEST).open("ab") as manifest:
            text = json.dumps(line, separators=(",", ":"))
            manifest.write(f"\n{text}\n".encode())  # a torn line before it ends here
            manifest.flush()
            os.fsync(manifest.fileno())
        self._know(line)

    def text(self, key: str) -> str:
        """The answers of a case that is known."""
        name, place = self.known[key]
        return self._read(name)[place]

    def _read_part(self, name: str) -> list[str]:
        return gzip.decompress((self._folder / name).read_bytes()).decode("utf-8").split("\n")

    def forget_others(self, keys: Sequence[str]) -> None:
        """Take away parts that hold nothing of a finished table."""
        wanted = {self.known[key][0] for key in keys}
        kept = [line for line in self._lines() if line["file"] in wanted]
        manifest = self._folder / MANIFEST
        beside = manifest.with_suffix(".new")
        beside.write_text("".join(json.dumps(line, separators=(",", ":")) + "\n" for line in kept), encoding="utf-8")
        beside.replace(manifest)
        for part in self._folder.glob("part-*.jsonl.gz"):
            if part.name not in wanted:
                part.unlink()
