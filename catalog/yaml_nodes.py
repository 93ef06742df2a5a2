"""The nodes of a YAML text, each with its place: what libyaml finds in it, before anything is made of it.

Scalars are told apart by the core schema of YAML 1.2, whatever version the parser was made for.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any, TypeAlias

import yaml
from yaml.error import YAMLError
from yaml.events import (
    AliasEvent,
    DocumentStartEvent,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
)

DEEPEST_NESTING = 40
MOST_VALUES = 100_000
"""Keys and values in one file; a frame has some two hundred."""

CORE_TAG = "tag:yaml.org,2002:"
MERGE_TAG = CORE_TAG + "merge"

_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_CORE = {
    "null": r"|~|null|Null|NULL",
    "bool": r"true|True|TRUE|false|False|FALSE",
    "int": r"[-+]?\d[\d_]*|0o[0-7_]+|0x[\da-fA-F_]+|0b[01_]+",
    "float": r"[-+]?(?:\.\d[\d_]*|\d[\d_]*(?:\.[\d_]*)?)(?:[eE][-+]?\d+)?|[-+]?\.(?:inf|Inf|INF)|\.(?:nan|NaN|NAN)",
    "merge": "<<",
}
_CORE_KINDS = {kind: re.compile(pattern, re.ASCII) for kind, pattern in _CORE.items()}


class NotReadable(Exception):  # noqa: N818
    """A text that holds no nodes to go on with.

    line : counted from 1
    """

    def __init__(self, *, line: int, given: str, allowed: str) -> None:
        self.line, self.given, self.allowed = line, given, allowed
        super().__init__(given)


@dataclass(slots=True, kw_only=True)
class ScalarNode:
    """A word, a number, a text or nothing.

    value : as written, without quotes
    start, end : its first character and the one behind its last
    line, column : counted from 0
    is_plain : whether it stands without quotes
    anchor : its name where it has one
    alias : the name it stands for where it is an alias
    """

    value: str
    tag: str
    start: int
    end: int
    line: int
    column: int
    is_plain: bool
    anchor: str | None = None
    alias: str | None = None


@dataclass(slots=True, kw_only=True)
class _Collection:
    """What holds other nodes.

    start, end : its first character and the one behind its last
    line, column : counted from 0
    flow_style : whether it stands in brackets or braces
    anchor : its name where it has one
    """

    tag: str
    start: int
    end: int
    line: int
    column: int
    flow_style: bool
    anchor: str | None = None


@dataclass(slots=True, kw_only=True)
class SequenceNode(_Collection):
    """A list."""

    value: list["Node"] = field(default_factory=list)


@dataclass(slots=True, kw_only=True)
class MappingNode(_Collection):
    """Keys with values, in order."""

    value: list[tuple["Node", "Node"]] = field(default_factory=list)


Node: TypeAlias = ScalarNode | SequenceNode | MappingNode


def compose(text: str) -> Node | None:
    """The one node of a text that holds all others; None for a text without any.

    Raises NotReadable when it is no YAML, has more than one document, or goes deeper or on for longer than is read.
    """
    events = _events(text)
    try:
        return _composed(events)
    except yaml.MarkedYAMLError as error:
        raise _not_yaml(error, text) from error
    except YAMLError as error:
        given = next(iter(str(error).splitlines()), "nothing that can be read")
        raise NotReadable(line=1, given=given, allowed="a YAML text") from error


def kind_of(value: str) -> str:
    """What a word without quotes is by the core schema of YAML 1.2: null, bool, int, float, merge or str."""
    return next((kind for kind, pattern in _CORE_KINDS.items() if pattern.fullmatch(value)), "str")


def _events(text: str) -> Iterator[Any]:
    loader = _LOADER(text)
    try:
        while loader.check_event():
            yield loader.get_event()
    finally:
        loader.dispose()


def _composed(events: Iterator[Any]) -> Node | None:
    root: Node | None = None
    open_nodes: list[MappingNode | SequenceNode] = []
    keys: list[Node | None] = []
    count = documents = 0
    for event in events:
        if isinstance(event, DocumentStartEvent):
            documents += 1
            if documents > 1:
                allowed = "one document in a file"
                raise NotReadable(
                    line=event.start_mark.line + 1, given="not YAML: a second document after ---", allowed=allowed
                )
        if isinstance(event, MappingEndEvent | SequenceEndEvent):
            open_nodes.pop().end = event.end_mark.index
            keys.pop()
        if not isinstance(event, ScalarEvent | AliasEvent | MappingStartEvent | SequenceStartEvent):
            continue
        count += 1
        node = _node(event)
        if count > MOST_VALUES or len(open_nodes) > DEEPEST_NESTING:
            raise _too_much(count, event.start_mark.line + 1)
        if not open_nodes:
            root = node
        else:
            keys[-1] = _put(open_nodes[-1], keys[-1], node)
        if not isinstance(node, ScalarNode):
            open_nodes.append(node)
            keys.append(None)
    return root


def _put(around: MappingNode | SequenceNode, key: Node | None, node: Node) -> Node | None:
    """Put a node where it belongs; returns it where it is a key that waits for its value."""
    if isinstance(around, SequenceNode):
        around.value.append(node)
        return None
    if key is None:
        return node
    around.value.append((key, node))
    return None


def _node(event: Any) -> Node:
    start, end = event.start_mark, event.end_mark
    place = {"start": start.index, "end": end.index, "line": start.line, "column": start.column}
    if isinstance(event, AliasEvent):
        return ScalarNode(value="", tag=CORE_TAG + "str", is_plain=True, alias=event.anchor, **place)
    if isinstance(event, ScalarEvent):
        is_plain = not event.style
        kind = kind_of(event.value) if is_plain else "str"
        tag = event.tag or CORE_TAG + kind
        return ScalarNode(value=event.value, tag=tag, is_plain=is_plain, anchor=event.anchor, **place)
    is_map = isinstance(event, MappingStartEvent)
    tag = event.tag or CORE_TAG + ("map" if is_map else "seq")
    made: type[MappingNode] | type[SequenceNode] = MappingNode if is_map else SequenceNode
    return made(tag=tag, flow_style=bool(event.flow_style), anchor=event.anchor, **place)


def _too_much(count: int, line: int) -> NotReadable:
    if count > MOST_VALUES:
        given = f"more than {MOST_VALUES} keys and values in one file"
        return NotReadable(line=line, given=given, allowed="share them out over several files")
    return NotReadable(line=line, given="brackets in brackets without end", allowed="at most a few levels")


def _not_yaml(error: yaml.MarkedYAMLError, text: str) -> NotReadable:
    mark, opened = error.problem_mark or error.context_mark, error.context_mark
    problem = str(error.problem or error.context or "it cannot be read")
    problem = problem.removeprefix("did not find ").replace(" in this context", " here")
    allowed = "check colons, commas, brackets, quotes and indentation here and just above"
    if "nesting depth" in problem:
        return _too_much(0, 1)
    sign = text[mark.index] if mark is not None and mark.index < len(text) else ""
    if problem == "found character that cannot start any token":
        problem, allowed = ("a tab", "use spaces") if sign == "\t" else (f"{sign} before a text", "put it in quotes")
    elif problem.startswith("expected") and sign.strip():
        problem += f", but got {sign!r}"
    if opened is not None and mark is not None and opened.line < mark.line and re.search("flow|quoted", error.context):
        problem += f" (opened on line {opened.line + 1})"
    return NotReadable(line=(mark.line if mark else 0) + 1, given=f"not YAML: {problem}", allowed=allowed)
