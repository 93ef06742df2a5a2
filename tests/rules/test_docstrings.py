"""Docstrings say what code and name do not: a unit or reference point, an assumption, an error, a source outside."""

import ast
import doctest
import re
from collections.abc import Iterator
from importlib import import_module
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

NUMPY_SECTION = re.compile(r"^\s*(Parameters|Returns|Yields|References|Raises|Notes)\n\s*-{3,}", re.MULTILINE)
UNIT_IN_NAME = re.compile(r"(^|_)(mm|mm2|deg|rad|n|min|ratio|ratios|chance|share|mpa|c|g)($|_)")
UNIT_TOLD = re.compile(r"\[[^\]]+\]|\b(mm|millimetres?|degrees|minutes|0 to 1|no unit)\b")
FORMULAS = ("geometry", "mechanics", "fit")
SOURCE_TOLD = re.compile(r"Source: |[Dd]erived|[Cc]ommon practice, no source")
MOST_DOCSTRING_RATIO = 0.25


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


def has_float(annotation: ast.expr | None) -> bool:
    """Whether a number with a unit may be behind an annotation; money is a Decimal, in the shop's currency."""
    if annotation is None:
        return False
    names = {node.id for node in ast.walk(annotation) if isinstance(node, ast.Name)}
    return "float" in names and "Callable" not in names


def told_of(docstring: str, name: str) -> str:
    """What a docstring's line about an argument or a field says."""
    line = re.search(rf"^[\w, ]*\b{name}\b[\w, ]* : (.*(?:\n    .*)*)", docstring, re.MULTILINE)
    return line[1] if line else ""


def told_of_result(docstring: str) -> str:
    """What a docstring says of what comes out: the sentence that begins with Returns, or else the first line."""
    returns = re.search(r"^Returns(.|\n)*?(?=\n\n|\Z)", docstring, re.MULTILINE)
    return returns[0] if returns else docstring.split("\n\n")[0]


def numbers_of(thing: ast.FunctionDef | ast.ClassDef) -> Iterator[tuple[str, str]]:
    """Every number of a function or class whose name has no unit, with what its docstring says of it."""
    docstring = ast.get_docstring(thing) or ""
    if isinstance(thing, ast.ClassDef):
        for part in thing.body:
            if isinstance(part, ast.AnnAssign) and isinstance(part.target, ast.Name) and has_float(part.annotation):
                yield part.target.id, told_of(docstring, part.target.id)
            elif isinstance(part, ast.FunctionDef) and not part.name.startswith("_") and has_float(part.returns):
                yield part.name, told_of_result(ast.get_docstring(part) or "")
        return
    arguments = (*thing.args.posonlyargs, *thing.args.args, *thing.args.kwonlyargs)
    for argument in arguments:
        if has_float(argument.annotation):
            yield argument.arg, told_of(docstring, argument.arg)
    if has_float(thing.returns):
        yield thing.name, told_of_result(docstring)


@pytest.mark.parametrize("where", THINGS)
def test_unit_of_every_number_is_in_its_name_or_told(where: str) -> None:
    told = {name: words for name, words in numbers_of(THINGS[where]) if not UNIT_IN_NAME.search(name)}
    assert [name for name, words in told.items() if not UNIT_TOLD.search(words)] == []


def is_formula(where: str) -> bool:
    returns = FUNCTIONS[where].returns
    return where.split("/")[1] in FORMULAS and returns is not None and ast.unparse(returns) in ("float", "float | None")


@pytest.mark.parametrize("where", [where for where in FUNCTIONS if is_formula(where)])
def test_every_formula_has_its_source_or_is_derived(where: str) -> None:
    module = ast.parse((PLANNER.parent / where.partition(":")[0]).read_text(encoding="utf-8"))
    told = f"{ast.get_docstring(module)} {ast.get_docstring(FUNCTIONS[where])}"
    assert SOURCE_TOLD.search(told), "says neither where its formula is from nor that it is derived"


def test_docstrings_are_a_quarter_of_the_planner_at_most() -> None:
    lines = in_docstrings = 0
    for path in PLANNER.rglob("*.py"):
        text = path.read_text(encoding="utf-8")
        lines += len(text.splitlines())
        for node in ast.walk(ast.parse(text)):
            if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef) and ast.get_docstring(node):
                first = node.body[0]
                in_docstrings += (first.end_lineno or first.lineno) - first.lineno + 1
    assert in_docstrings / lines < MOST_DOCSTRING_RATIO


WITH_EXAMPLES = [path for path in sorted(PLANNER.rglob("*.py")) if ">>> " in path.read_text(encoding="utf-8")]


@pytest.mark.parametrize("path", WITH_EXAMPLES, ids=lambda path: str(path.relative_to(PLANNER)))
def test_examples_in_docstrings_are_true(path: Path) -> None:
    name = ".".join(path.relative_to(PLANNER.parent).with_suffix("").parts)
    tried = doctest.testmod(import_module(name))
    assert tried.attempted > 0
    assert tried.failed == 0
