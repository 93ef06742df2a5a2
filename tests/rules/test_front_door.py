"""Planner and catalog have one narrow front door each: every name listed once, in order, and every name opens."""

import ast
import subprocess
import sys
from pathlib import Path
from types import ModuleType

import pytest

import catalog
import planner
from planner.front_door import names_behind

ROOT = Path(__file__).parents[2]
DOORS = pytest.mark.parametrize("package", [planner, catalog], ids=lambda package: package.__name__)


@DOORS
def test_every_name_opens(package: ModuleType) -> None:
    assert len(package.__all__) > 40
    for name in package.__all__:
        assert getattr(package, name) is not None


@DOORS
def test_every_name_is_listed_once(package: ModuleType) -> None:
    source = Path(str(package.__file__)).read_text(encoding="utf-8")
    assert {name for name in package.__all__ if source.count(f" {name} as {name}\n") != 1} == set()
    assert all(name not in source.replace(f" {name} as {name}\n", "").split() for name in package.__all__)


@DOORS
def test_the_list_is_read_as_a_parser_reads_it(package: ModuleType) -> None:
    """It is read as text, row by row: a row that is broken in two would be missed."""
    tree = ast.parse(Path(str(package.__file__)).read_text(encoding="utf-8"))
    blocks = [node for node in tree.body if isinstance(node, ast.If) and ast.unparse(node.test) == "TYPE_CHECKING"]
    rows = [row for block in blocks for row in block.body if isinstance(row, ast.ImportFrom)]
    homes = {name.asname or name.name: row.module for row in rows for name in row.names}
    assert names_behind(package.__name__) == homes


@DOORS
def test_what_is_not_there_is_said_so(package: ModuleType) -> None:
    with pytest.raises(AttributeError, match=f"{package.__name__} has no nothing_of_the_sort; its front door has "):
        package.nothing_of_the_sort  # noqa: B018


@DOORS
def test_every_name_is_wanted_by_somebody_outside(package: ModuleType) -> None:
    others = [ROOT / top for top in ("planner", "catalog", "ui", "tests") if top != package.__name__]
    asked = {
        name.name
        for path in (path for other in others for path in other.rglob("*.py"))
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.ImportFrom) and node.module == package.__name__
        for name in node.names
    }
    things = {name: getattr(package, name) for name in set(package.__all__) - asked}
    assert [name for name, it in things.items() if not (isinstance(it, type) and issubclass(it, Exception))] == []


def test_a_door_opens_no_room_before_it_is_asked() -> None:
    code = (
        "import sys, planner, catalog; print(sorted(n for n in sys.modules if n.startswith(('planner.', 'catalog.'))))"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOT)
    assert run.stdout.strip() == "['planner.front_door']"
