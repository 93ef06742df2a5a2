"""Every public function of the planner says what it takes, in which unit, and who says so."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

PLANNER = Path(__file__).parents[2] / "planner"
UNITS = {"_mm": "[mm]", "_deg": "[deg]", "_n": "[N]", "_min": "[min]"}


def public_functions() -> Iterator[tuple[str, ast.FunctionDef]]:
    for path in sorted(PLANNER.rglob("*.py")):
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
                yield f"{path.relative_to(PLANNER.parent)}:{node.name}", node


FUNCTIONS = dict(public_functions())


def arguments_of(function: ast.FunctionDef) -> list[str]:
    return [argument.arg for argument in (*function.args.posonlyargs, *function.args.args, *function.args.kwonlyargs)]


def parameter_texts(docstring: str) -> dict[str, str]:
    """Each documented parameter's text, by name."""
    section = re.search(r"Parameters\n-+\n(.*?)(?:\n\n[A-Z][a-z]+\n-+\n|\Z)", docstring, re.DOTALL)
    texts: dict[str, str] = {}
    names: list[str] = []
    for line in section[1].splitlines() if section else []:
        if line and not line.startswith(" "):
            names = [name.strip() for name in line.split(" : ")[0].split(",")]
        for name in names:
            texts[name] = texts.get(name, "") + line + "\n"
    return texts


@pytest.mark.parametrize("where", FUNCTIONS)
def test_docstring_keeps_its_promise(where: str) -> None:
    function = FUNCTIONS[where]
    docstring = ast.get_docstring(function) or ""
    assert docstring, "has no docstring"
    if where.split(":")[0].endswith(("verdicts.py", "__init__.py")):
        return
    assert "References\n----------" in docstring, "says nothing of its source"
    texts = parameter_texts(docstring)
    for argument in arguments_of(function):
        assert argument in texts, f"{argument} is not documented"
        for ending, unit in UNITS.items():
            if argument.endswith(ending):
                assert unit in texts[argument], f"{argument} lacks its unit {unit}"


@pytest.mark.parametrize("where", FUNCTIONS)
def test_two_or_more_numbers_are_keyword_only(where: str) -> None:
    function = FUNCTIONS[where]
    positional = [
        argument.arg
        for argument in (*function.args.posonlyargs, *function.args.args)
        if argument.annotation is not None and ast.unparse(argument.annotation) in ("float", "int", "float | None")
    ]
    assert len(positional) < 2, f"{positional} can be mixed up"
