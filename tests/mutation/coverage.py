"""Which tests run which lines of the planner, found by running all of them once in a child process."""

import json
import os
import sys
import tempfile
from collections import defaultdict
from collections.abc import Iterable
from contextlib import suppress
from dataclasses import dataclass
from importlib import import_module
from pathlib import Path
from time import process_time
from types import FrameType
from typing import Any

import pytest
from _pytest.runner import runtestprotocol

ROOT = Path(__file__).parents[2]
Tracer = Any


@dataclass(frozen=True, slots=True)
class Covering:
    """Names of tests by `path:line`, quickest first, and what they load as they go."""

    tests: dict[str, list[str]]
    modules: list[str]

    def load_modules(self) -> None:
        """Load what the tests would, once for all children of this process."""
        for name in self.modules:
            if name not in sys.modules:
                with suppress(ImportError):
                    import_module(name)

    def tests_of(self, path: Path, line: int) -> list[str]:
        """Tests that run one line, those of its own folder first; none where no test does."""
        own = f"tests/{path.parent.relative_to(ROOT).as_posix()}/"
        return sorted(self.tests.get(f"{path}:{line}", []), key=lambda name: not name.startswith(own))


def covering_tests(session: pytest.Session, paths: Iterable[Path], *, keep_in: Path | None) -> Covering:
    """Run every test once and note the lines it runs; a file kept from before is taken as it is."""
    if keep_in is not None and keep_in.is_file():
        return Covering(**json.loads(keep_in.read_text(encoding="utf-8")))
    noted = keep_in or Path(tempfile.mkstemp(suffix=".json")[1])
    child = os.fork()
    if child == 0:
        try:
            _note_lines(session, {str(path) for path in paths}, noted)
        finally:
            os._exit(0)
    os.waitpid(child, 0)
    return Covering(**json.loads(noted.read_text(encoding="utf-8")))


def run_until_one_fails(session: pytest.Session, names: list[str], *, at_most_s: float) -> bool:
    """Whether one of the tests fails.

    at_most_s : working time after which no further test is begun
    """
    begun = process_time()
    by_name = {item.nodeid: item for item in session.items}
    wanted = [by_name[name] for name in names if name in by_name]
    for item, following in zip(wanted, [*wanted[1:], None], strict=True):
        if any(report.failed for report in runtestprotocol(item, nextitem=following, log=False)):
            return True
        if process_time() - begun > at_most_s:
            break
    return False


def _note_lines(session: pytest.Session, paths: set[str], noted: Path) -> None:
    lines: dict[str, set[str]] = defaultdict(set)
    took_s: dict[str, float] = {}
    seen: set[str] = set()
    before = set(sys.modules)

    def local(frame: FrameType, event: str, _: Any) -> Tracer:
        if event == "line":
            seen.add(f"{frame.f_code.co_filename}:{frame.f_lineno}")
        return local

    def called(frame: FrameType, *_: Any) -> Tracer:
        return local if frame.f_code.co_filename in paths else None

    for item, following in zip(session.items, [*session.items[1:], None], strict=True):
        forget_answers()
        seen.clear()
        began = process_time()
        sys.settrace(called)
        runtestprotocol(item, nextitem=following, log=False)
        sys.settrace(None)
        took_s[item.nodeid] = process_time() - began
        for line in seen:
            lines[line].add(item.nodeid)
    ordered = {line: sorted(names, key=lambda name: (took_s[name], name)) for line, names in lines.items()}
    loaded = sorted(name for name in set(sys.modules) - before if not name.startswith("__"))
    noted.write_text(json.dumps({"tests": ordered, "modules": loaded}), encoding="utf-8")


def forget_answers() -> None:
    """Empty what the planner remembers between questions, else only the first test would run a line."""
    for name, module in list(sys.modules.items()):
        if name.partition(".")[0] == "planner":
            for each in list(vars(module).values()):
                if hasattr(each, "cache_clear"):
                    each.cache_clear()
