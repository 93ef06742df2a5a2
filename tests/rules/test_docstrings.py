"""Docstrings say what code and name do not: a unit or reference point, an assumption, an error, a source outside."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

PLANNER = Path(__file__).parents[2] / "planner"
EMPTY_PHRASES = (
    "no outside source",
    "none needed",
    "our own words",
    "our own format",
    "plain bookkeeping",
    "plain logic",
    "plain enumeration",
)
"""What says nothing: where there is no source, none is named."""

NUMPY_SECTION = re.compile(r"^\s*(Parameters|Returns|References|Raises)\n\s*-{3,}", re.MULTILINE)


def documented() -> Iterator[tuple[str, ast.FunctionDef | ast.ClassDef]]:
    for path in sorted(PLANNER.rglob("*.py")):
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            if isinstance(node, ast.FunctionDef | ast.ClassDef) and not node.name.startswith("_"):
                yield f"{path.relative_to(PLANNER.parent)}:{node.name}", node


THINGS = dict(documented())
FUNCTIONS = {where: node for where, node in THINGS.items() if isinstance(node, ast.FunctionDef)}


def errors_raised_in(function: ast.FunctionDef) -> set[str]:
    """Names of the exceptions that a function's own lines raise anew."""
    raised = (node.exc for node in ast.walk(function) if isinstance(node, ast.Raise))
    return {ast.unparse(error.func) for error in raised if isinstance(error, ast.Call)}


@pytest.mark.parametrize("where", THINGS)
def test_docstring_is_there_and_says_something(where: str) -> None:
    docstring = ast.get_docstring(THINGS[where]) or ""
    assert docstring, "has no docstring"
    told = " ".join(docstring.lower().split())
    assert [phrase for phrase in EMPTY_PHRASES if phrase in told] == []
    assert not NUMPY_SECTION.search(docstring), "tells in sections what a line would tell"
    for name, kind in re.findall(r"^(\w+) : (?:the |a )?(\w+)\.?$", docstring, re.MULTILINE):
        assert name.lower() != kind.lower(), f"{name} is told by its own name"


@pytest.mark.parametrize("where", FUNCTIONS)
def test_every_error_raised_is_named(where: str) -> None:
    docstring = ast.get_docstring(FUNCTIONS[where]) or ""
    unnamed = errors_raised_in(FUNCTIONS[where]) - {"AttributeError", "AssertionError", "TypeError"}
    assert {error for error in unnamed if error not in docstring} == set()


@pytest.mark.parametrize("where", FUNCTIONS)
def test_two_or_more_numbers_are_keyword_only(where: str) -> None:
    function = FUNCTIONS[where]
    positional = [
        argument.arg
        for argument in (*function.args.posonlyargs, *function.args.args)
        if argument.annotation is not None and ast.unparse(argument.annotation) in ("float", "int", "float | None")
    ]
    assert len(positional) < 2, f"{positional} can be mixed up"
