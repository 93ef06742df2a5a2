"""Nothing in planner, catalog and ui is reached by tests only: the program uses it, or it is not there."""

import ast
from collections import defaultdict
from collections.abc import Iterator
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parents[2]
FILES = [path for top in ("planner", "catalog", "ui") for path in sorted((ROOT / top).rglob("*.py"))]
ENTRANCES = {"main", "app", "open_door"}
"""What starts the program, what the page starts, and what opens a name of a front door."""

FOR_TESTS = {
    "import_files": "looking at an import and making it in one go, where a test is about what comes after",
    "downgrade_store": "every migration is tried backwards",
    "check_tables": "the migrations are held against the tables the code expects",
}
"""What stands in the program for its tests' sake, with the reason."""

WAITING = {
    "rewrite": "changing a drafted quote",
}
"""What the program does not reach yet, though it should. Nothing is added here; what is taken out stays out."""


def names_in(node: ast.AST) -> Iterator[str]:
    """Names that a piece of code uses; a text that is a name counts, as registries hold such."""
    for each in ast.walk(node):
        if isinstance(each, ast.Name) and isinstance(each.ctx, ast.Load):
            yield each.id
        elif isinstance(each, ast.Attribute):
            yield each.attr
        elif isinstance(each, ast.Constant) and isinstance(each.value, str) and each.value.isidentifier():
            yield each.value


def is_from_outside(base: ast.expr, own: set[str]) -> bool:
    """Whether a class stands on one that is not ours, whose caller we do not see."""
    return ast.unparse(base).split("[")[0].split(".")[-1] not in own


def read_program() -> tuple[dict[str, set[str]], dict[str, str], set[str]]:
    """What each name uses, where it is, and what runs as soon as a module is loaded."""
    uses: dict[str, set[str]] = defaultdict(set)
    places: dict[str, str] = {}
    at_once: set[str] = set(ENTRANCES)
    trees = {path: ast.parse(path.read_text(encoding="utf-8")) for path in FILES}
    own = {node.name for tree in trees.values() for node in tree.body if isinstance(node, ast.ClassDef)}
    for path, tree in trees.items():
        for node in ast.walk(tree):
            if isinstance(node, ast.ImportFrom):
                for name in node.names:
                    if name.asname and name.asname != name.name:
                        uses[name.asname].add(name.name)
        for node in tree.body:
            where = f"{path.relative_to(ROOT)}"
            if isinstance(node, ast.FunctionDef):
                uses[node.name].update(names_in(node))
                places.setdefault(node.name, where)
                if any("command" in ast.unparse(each) for each in node.decorator_list):
                    at_once.add(node.name)
            elif isinstance(node, ast.ClassDef):
                foreign = any(is_from_outside(base, own) for base in node.bases)
                places.setdefault(node.name, where)
                for part in node.body:
                    is_method = isinstance(part, ast.FunctionDef) and not part.name.startswith("__")
                    if is_method and not foreign and not part.decorator_list:
                        uses[part.name].update(names_in(part))
                        places.setdefault(part.name, f"{where}: {node.name}")
                    else:
                        uses[node.name].update(names_in(part))
                for outer in (*node.decorator_list, *node.bases):
                    uses[node.name].update(names_in(outer))
            elif isinstance(node, ast.Assign | ast.AnnAssign):
                targets = node.targets if isinstance(node, ast.Assign) else [node.target]
                for target in (each.id for each in targets if isinstance(each, ast.Name) and each.id != "__all__"):
                    uses[target].update(names_in(node))
            elif not isinstance(node, ast.Import | ast.ImportFrom):
                at_once.update(names_in(node))
    return uses, places, at_once


@cache
def unreached() -> dict[str, str]:
    """Functions, classes and methods that the program never gets to, with their files."""
    uses, places, todo = read_program()
    seen: set[str] = set()
    while todo:
        name = todo.pop()
        seen.add(name)
        todo |= uses[name] - seen
    return {name: where for name, where in places.items() if name not in seen and "migrations" not in where}


def test_the_program_reaches_everything_in_it() -> None:
    assert {name: where for name, where in unreached().items() if name not in FOR_TESTS | WAITING} == {}


def test_what_is_excused_is_there_and_needs_the_excuse() -> None:
    assert set(FOR_TESTS | WAITING) - set(unreached()) == set()
