"""Every small fault that is put into a function: a limit moved, a sign turned, a condition or a statement lost."""

import ast
from collections.abc import Iterator
from copy import deepcopy
from dataclasses import dataclass
from pathlib import Path
from types import CodeType

COMPARISONS: dict[type[ast.cmpop], tuple[type[ast.cmpop], ...]] = {
    ast.Lt: (ast.LtE, ast.GtE),
    ast.LtE: (ast.Lt, ast.Gt),
    ast.Gt: (ast.GtE, ast.LtE),
    ast.GtE: (ast.Gt, ast.Lt),
    ast.Eq: (ast.NotEq,),
    ast.NotEq: (ast.Eq,),
    ast.Is: (ast.IsNot,),
    ast.IsNot: (ast.Is,),
    ast.In: (ast.NotIn,),
    ast.NotIn: (ast.In,),
}
OPERATORS: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.Pow: ast.Mult,
}
NAMES = {"min": "max", "max": "min", "any": "all", "all": "any", "ceil": "int", "sin": "cos", "cos": "sin"}
DIGITS_OF_NOISE = 6
MEMBERS = {
    "FITS": "NO_FIT",
    "NO_FIT": "FITS",
    "TIGHT": "FITS",
    "UNKNOWN": "FITS",
    "DRAWING": "RIDING",
    "RIDING": "DRAWING",
    "FROM": "TO",
    "TO": "FROM",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Mutant:
    """One fault.

    place : number of the changed node among the file's, as `ast.walk` meets them
    variant : which of the changes of that node
    told : the line as it becomes
    """

    path: Path
    function: str
    line: int
    place: int
    variant: int
    told: str

    @property
    def as_line(self) -> str:
        """The fault in one line, the same wherever in its file it stands."""
        return " ".join(f"{self.path.stem} {self.function} {self.told}".split())


def mutants_of(path: Path) -> Iterator[Mutant]:
    """All faults of one file, inside functions only; docstrings and the words of refusals left alone, and what nobody
    could see: how many digits beyond a nanometre are rounded off, and whether a `zip` minds lengths that are equal."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    owners = {id(node): name for name, function in _functions(tree) for node in _body_nodes(function)}
    unseen = {id(node) for call in ast.walk(tree) if isinstance(call, ast.Call) for node in _seen_by_nobody(call)}
    for place, node in enumerate(ast.walk(tree)):
        if id(node) not in owners or id(node) in unseen:
            continue
        for variant, changed in enumerate(_changes(node)):
            yield Mutant(
                path=path,
                function=owners[id(node)],
                line=node.lineno,  # type: ignore[attr-defined]
                place=place,
                variant=variant,
                told=f"{ast.unparse(node)}  ->  {ast.unparse(changed)}",
            )


def code_with(mutant: Mutant) -> CodeType:
    """The code of the function that holds the fault."""
    tree = ast.parse(mutant.path.read_text(encoding="utf-8"))
    node = list(ast.walk(tree))[mutant.place]
    changed = ast.copy_location(list(_changes(node))[mutant.variant], node)
    tree = ast.fix_missing_locations(_Swap(node, changed).visit(tree))
    return _find(compile(tree, str(mutant.path), "exec"), mutant.function)


class _Swap(ast.NodeTransformer):
    def __init__(self, old: ast.AST, new: ast.AST) -> None:
        self.old, self.new = old, new

    def visit(self, node: ast.AST) -> ast.AST:
        return self.new if node is self.old else self.generic_visit(node)


def _functions(tree: ast.Module) -> Iterator[tuple[str, ast.FunctionDef]]:
    for node in tree.body:
        if isinstance(node, ast.FunctionDef):
            yield node.name, node
        elif isinstance(node, ast.ClassDef):
            yield from ((f"{node.name}.{each.name}", each) for each in node.body if isinstance(each, ast.FunctionDef))


def _body_nodes(function: ast.FunctionDef) -> Iterator[ast.AST]:
    return (node for statement in function.body for node in ast.walk(statement) if not isinstance(node, ast.Raise))


def _seen_by_nobody(call: ast.Call) -> list[ast.expr]:
    """The digits that a call rounds to, where these only take off what sums of decimals leave; `strict` of zip."""
    if not isinstance(call.func, ast.Name) or call.func.id != "round":
        return [keyword.value for keyword in call.keywords if keyword.arg == "strict"]
    return [
        digits
        for digits in call.args[1:]
        if isinstance(digits, ast.Constant) and isinstance(digits.value, int) and digits.value >= DIGITS_OF_NOISE
    ]


def _changes(node: ast.AST) -> Iterator[ast.AST]:
    changed = deepcopy(node)
    if isinstance(node, ast.Compare):
        for other in COMPARISONS.get(type(node.ops[0]), ()):
            yield ast.Compare(left=node.left, ops=[other(), *node.ops[1:]], comparators=node.comparators)
    elif isinstance(node, ast.BinOp) and type(node.op) in OPERATORS:
        yield ast.BinOp(left=node.left, op=OPERATORS[type(node.op)](), right=node.right)
    elif isinstance(node, ast.BoolOp):
        yield ast.BoolOp(op=ast.And() if isinstance(node.op, ast.Or) else ast.Or(), values=node.values)
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not | ast.USub):
        yield node.operand
    elif isinstance(node, ast.Constant) and isinstance(node.value, bool):
        yield ast.Constant(not node.value)
    elif isinstance(node, ast.Constant) and isinstance(node.value, int | float):
        yield ast.Constant(node.value + 1)
    elif isinstance(node, ast.Name) and isinstance(node.ctx, ast.Load) and node.id in NAMES:
        yield ast.Name(id=NAMES[node.id], ctx=ast.Load())
    elif isinstance(node, ast.Attribute) and node.attr in MEMBERS and isinstance(node.value, ast.Name):
        yield ast.Attribute(value=node.value, attr=MEMBERS[node.attr], ctx=ast.Load())
    elif isinstance(node, ast.If | ast.IfExp | ast.While):
        assert isinstance(changed, ast.If | ast.IfExp | ast.While)
        changed.test = ast.UnaryOp(op=ast.Not(), operand=node.test)
        yield ast.copy_location(changed, node)
    elif isinstance(node, ast.AugAssign) or (isinstance(node, ast.Expr) and not isinstance(node.value, ast.Constant)):
        yield ast.Pass()


def _find(code: CodeType, name: str) -> CodeType:
    for part in name.split("."):
        code = next(each for each in code.co_consts if isinstance(each, CodeType) and each.co_name == part)
    return code
