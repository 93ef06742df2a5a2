"""The one benchmark command: `python -m tests.benchmarks` compares, and prints a row for each comparison.

    python -m tests.benchmarks [NAME ...] [--replace]

A name may be the first word of several: `growth` measures tables of 10^4, 10^5 and 10^6 pairs; that of 10^7, which
takes minutes, is made only by its whole name, "growth, 10^7 pairs".

With `--replace` the rows are written into the table between the marks in DEVELOPERS.md; the others stay. Comparisons
with libraries of the extra `oracle` need it. The times themselves: `pytest tests/benchmarks --benchmark-only`.
"""

import argparse
import os
import platform
import sys
from dataclasses import replace
from datetime import date
from importlib.util import find_spec
from pathlib import Path

from tests.benchmarks.beside.every import COMPARISONS, measure, names_of
from tests.benchmarks.beside.measured import Measured, with_rows

DEVELOPERS = Path(__file__).parents[2] / "DEVELOPERS.md"


def main(told: list[str]) -> int:
    """Compare, print as it goes, and write where asked; returns the exit status."""
    asked = _read(told)
    words = asked.names or [""]
    names = list(dict.fromkeys(name for word in words for name in names_of(word)))
    if wrong := _wrong(words, names):
        print(wrong, file=sys.stderr)
        return 2
    measured: list[Measured] = []
    for name in names:
        measured.append(replace(measure(name), on=f"{date.today().isoformat()}, {_machine()}"))
        print(f"| {' | '.join(measured[-1].cells)} |", flush=True)
    if asked.replace:
        text = DEVELOPERS.read_text(encoding="utf-8")
        DEVELOPERS.write_text(with_rows(text, measured, order=tuple(COMPARISONS)), encoding="utf-8")
    return 0


def _read(told: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks")
    parser.add_argument("names", nargs="*", metavar="NAME")
    parser.add_argument("--replace", action="store_true", help="write the rows into the table in DEVELOPERS.md")
    return parser.parse_args(told)


def _wrong(words: list[str], names: list[str]) -> str:
    """Why these cannot be compared here; empty where they can."""
    if unknown := [word for word in words if not names_of(word)]:
        return f"{unknown[0]!r} is none of: {'; '.join(COMPARISONS)}"
    missing = {library for name in names for library in COMPARISONS[name].needs if not find_spec(library)}
    return f"not installed, of the extra 'oracle': {', '.join(sorted(missing))}" if missing else ""


def _machine() -> str:
    """How many cores there are and of what kind, the Python, and how many processes wanted to run."""
    cores = f"{os.cpu_count()} cores {platform.machine()}"
    return f"{cores}, Python {platform.python_version()}, load {os.getloadavg()[0]:.0f}"


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
