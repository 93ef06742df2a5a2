"""The one benchmark command: `python -m tests.benchmarks` compares, and prints the table.

    python -m tests.benchmarks [NAME ...] [--replace]

With `--replace` the table between the marks in DEVELOPERS.md is written anew; only the whole of it can be. Comparisons
with libraries of the extra `oracle` need it. The times themselves: `pytest tests/benchmarks --benchmark-only`.
"""

import argparse
import os
import platform
import sys
from datetime import date
from importlib.util import find_spec
from pathlib import Path

from tests.benchmarks.beside.every import COMPARISONS, measure
from tests.benchmarks.beside.measured import Measured, table_of, with_table

DEVELOPERS = Path(__file__).parents[2] / "DEVELOPERS.md"


def main(words: list[str]) -> int:
    """Compare, print as it goes, and write where asked; returns the exit status."""
    asked = _read(words)
    names = asked.names or list(COMPARISONS)
    if wrong := _wrong(names, is_whole=not asked.names, replaces=asked.replace):
        print(wrong, file=sys.stderr)
        return 2
    measured: list[Measured] = []
    for name in names:
        measured.append(measure(name))
        print(" | ".join(measured[-1].cells), flush=True)
    table = table_of(measured, told=f"Measured on {_machine()} on {date.today().isoformat()}, CPU time, one thread.")
    if asked.replace:
        DEVELOPERS.write_text(with_table(DEVELOPERS.read_text(encoding="utf-8"), table), encoding="utf-8")
    else:
        print(table)
    return 0


def _read(words: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks")
    parser.add_argument("names", nargs="*", metavar="NAME")
    parser.add_argument("--replace", action="store_true", help="write the table into DEVELOPERS.md")
    return parser.parse_args(words)


def _wrong(names: list[str], *, is_whole: bool, replaces: bool) -> str:
    """Why these cannot be compared here; empty where they can."""
    if unknown := [name for name in names if name not in COMPARISONS]:
        return f"{unknown[0]!r} is none of: {'; '.join(COMPARISONS)}"
    missing = {library for name in names for library in COMPARISONS[name].needs if not find_spec(library)}
    if missing:
        return f"{' and '.join(sorted(missing))} are not installed: they come with the extra 'oracle'"
    return "--replace writes the whole table: name none" if replaces and not is_whole else ""


def _machine() -> str:
    """How many cores there are and of what kind, and the Python."""
    return (
        f"{os.cpu_count()} shared cores ({platform.machine()}, {platform.system()}), Python {platform.python_version()}"
    )


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
