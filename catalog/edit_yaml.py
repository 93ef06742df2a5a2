"""Change values in a YAML text and leave every other character, comments included, as it was.

The text is parsed for the places of its values; only what differs is written anew. Whatever the result, it is read
back, and refused unless it says exactly what it should.
"""

import json
import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import yaml

from catalog.errors import CatalogError
from catalog.yaml_nodes import CORE_TAG, MappingNode, Node, ScalarNode, SequenceNode, compose, kind_of
from catalog.yaml_text import read_yaml

BOM = "\ufeff"


class TextNotEditable(CatalogError):  # noqa: N818
    """A text in which a value could not be changed without touching others."""

    def __init__(self, *, why: str) -> None:
        self.why = why
        super().__init__(f"the file cannot be edited in place: {why}; change it by hand")


@dataclass(frozen=True, slots=True)
class _Splice:
    """Characters from start to end become another text."""

    start: int
    end: int
    text: str


@dataclass(frozen=True, slots=True)
class _Pair:
    """A key with its value; `end` is behind the last character of the value."""

    key: ScalarNode
    value: Node
    end: int


def edit_yaml(text: str, value: Mapping[str, Any]) -> str:
    """The text changed so that it says `value`.

    Raises TextNotEditable when the text cannot be read, or would not say `value` after the change.
    """
    body = text.removeprefix(BOM)
    before = read_yaml(body.encode("utf-8"))
    if before.slips or not isinstance(before.value, dict):
        raise TextNotEditable(why="it cannot be read as it stands")
    if _same(before.value, dict(value)):
        return text
    root = compose(body)
    assert root is not None, "a text that says something has a node"
    editor = _Editor(body)
    edited = _spliced(body, list(editor.edits(root, before.value, dict(value))))
    after = read_yaml(edited.encode("utf-8"))
    if after.slips or not _same(after.value, dict(value)):
        raise TextNotEditable(why="the change would touch other values")
    return (BOM if text.startswith(BOM) else "") + edited


def _spliced(text: str, splices: list[_Splice]) -> str:
    parts: list[str] = []
    done = 0
    for splice in sorted(splices, key=lambda splice: (splice.start, splice.end)):
        if splice.start < done:
            raise TextNotEditable(why="two changes overlap")
        parts += [text[done : splice.start], splice.text]
        done = splice.end
    return "".join([*parts, text[done:]])


def _same(a: Any, b: Any) -> bool:
    """Equal in value and in kind: 5 is not 5.0, true is not 1."""
    if isinstance(a, Mapping) and isinstance(b, Mapping):
        return set(a) == set(b) and all(_same(a[key], b[key]) for key in a)
    if _is_list(a) and _is_list(b):
        return len(a) == len(b) and all(_same(x, y) for x, y in zip(a, b, strict=True))
    return type(a) is type(b) and bool(a == b)


def _is_list(value: Any) -> bool:
    return isinstance(value, Sequence) and not isinstance(value, str)


def _inline(value: Any) -> str:
    """A value on one line, safe inside brackets."""
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{_inline(key)}: {_inline(inner)}" for key, inner in value.items()) + "}"
    if _is_list(value):
        return "[" + ", ".join(_inline(inner) for inner in value) + "]"
    if isinstance(value, str) and value.startswith("?"):
        return json.dumps(value, ensure_ascii=False)  # unquoted inside brackets it would be read as a key
    written = yaml.dump([value], Dumper=_Dumper, default_flow_style=True, allow_unicode=True, width=math.inf)
    return str(written).strip()[1:-1]


class _Dumper(yaml.SafeDumper):  # type: ignore[misc, unused-ignore]
    """Puts in quotes what would be read as something else than a text."""

    def resolve(self, kind: Any, value: Any, implicit: Any) -> Any:
        if kind is yaml.ScalarNode and implicit[0]:
            return CORE_TAG + kind_of(value)
        return super().resolve(kind, value, implicit)


def _lines(value: Any) -> list[str]:
    """A value over several lines; what holds no further lists or mappings stays on one."""
    if isinstance(value, Mapping) and any(_is_deep(inner) for inner in value.values()):
        return [line for key, inner in value.items() for line in _key_lines(key, inner)]
    if _is_list(value) and any(_is_deep(inner) for inner in value):
        return [line for inner in value for line in _item_lines(inner)]
    return [_inline(value)]


def _is_deep(value: Any) -> bool:
    return bool(value) and (isinstance(value, Mapping) or _is_list(value))


def _key_lines(key: str, value: Any) -> list[str]:
    inner = value.values() if isinstance(value, Mapping) else value
    if not _is_deep(value) or not any(_is_deep(part) for part in inner):
        return [f"{_inline(key)}: {_inline(value)}"]
    return [f"{_inline(key)}:", *(f"  {line}" for line in _lines(value))]


def _item_lines(value: Any) -> list[str]:
    first, *others = _lines(value)
    return [f"- {first}", *(f"  {line}" for line in others)]


class _Editor:
    """Finds what to write anew."""

    def __init__(self, text: str) -> None:
        self._text = text
        self._newline = "\r\n" if "\r\n" in text else "\n"

    def edits(self, node: Node, old: Any, new: Any) -> Iterator[_Splice]:
        if _same(old, new):
            return
        if isinstance(node, MappingNode) and isinstance(new, Mapping) and node.value:
            yield from self._map_edits(node, old, new)
        elif isinstance(node, SequenceNode) and _is_list(new) and node.value and self._can_match(old, new):
            yield from self._list_edits(node, old, new)
        else:
            yield self._replaced(node, new)

    def _map_edits(self, node: MappingNode, old: Mapping[str, Any], new: Mapping[str, Any]) -> Iterator[_Splice]:
        pairs = self._pairs(node)
        going = [place for place, pair in enumerate(pairs) if str(pair.key.value) not in new]
        if len(going) == len(pairs) or not self._can_remove(node, pairs[0].key.start, going):
            yield self._replaced(node, new)
            return
        for place, pair in enumerate(pairs):
            key = str(pair.key.value)
            if key not in new:
                yield self._removed(node, [(p.key.start, p.end) for p in pairs], place)
            elif isinstance(pair.value, ScalarNode) and not _same(old[key], new[key]):
                yield self._scalar_in_pair(pair, new[key])
            else:
                yield from self.edits(pair.value, old[key], new[key])
        for key in new:
            if key not in old:
                yield self._added_to_map(node, pairs, key, new[key])

    def _list_edits(self, node: SequenceNode, old: Sequence[Any], new: Sequence[Any]) -> Iterator[_Splice]:
        wanted = _by_id(new) or dict(enumerate(new))
        had = list(_by_id(old) or dict(enumerate(old)))
        spans = [(item.start, self._end(item)) for item in node.value]
        going = [place for place, name in enumerate(had) if name not in wanted]
        if not self._can_remove(node, None, going):
            yield self._replaced(node, new)
            return
        for place, (name, item) in enumerate(zip(had, node.value, strict=True)):
            if name in wanted:
                yield from self.edits(item, old[place], wanted[name])
            else:
                yield self._removed(node, spans, place)
        for name, value in wanted.items():
            if name not in had:
                yield self._added_to_list(node, value)

    def _can_remove(self, node: MappingNode | SequenceNode, first_key: int | None, going: list[int]) -> bool:
        """Whether these can be cut out on their own: one between brackets, or whole lines of a block."""
        if node.flow_style:
            return len(going) < 2
        if first_key is None or 0 not in going:
            return True
        return not self._text[self._text.rfind("\n", 0, first_key) + 1 : first_key].strip()

    def _can_match(self, old: Sequence[Any], new: Sequence[Any]) -> bool:
        """Items of a list are the same ones by id, in one order; or else by place, none fewer and none more."""
        before, after = list(_by_id(old) or ()), list(_by_id(new) or ())
        if before and after:
            kept = [name for name in before if name in after]
            return bool(kept) and after[: len(kept)] == kept
        return len(old) == len(new)

    def _pairs(self, node: MappingNode) -> list[_Pair]:
        """Keys with values; a word without a colon between commas belongs to the words before it."""
        pairs: list[_Pair] = []
        for key, value in node.value:
            assert isinstance(key, ScalarNode), "another key is a slip, and such a text is not edited"
            between = self._text[key.end : value.start]
            if pairs and node.flow_style and isinstance(value, ScalarNode) and not value.value and ":" not in between:
                pairs[-1] = _Pair(pairs[-1].key, pairs[-1].value, key.end)
                continue
            if isinstance(value, ScalarNode) and value.start == value.end:
                end = self._text.index(":", key.end) + 1
            else:
                end = self._end(value)
            pairs.append(_Pair(key, value, end))
        return pairs

    def _end(self, node: Node) -> int:
        """Behind the last character of a value, before blanks and comments that follow it."""
        if isinstance(node, MappingNode) and not node.flow_style and node.value:
            return self._pairs(node)[-1].end
        if isinstance(node, SequenceNode) and not node.flow_style and node.value:
            return self._end(node.value[-1])
        start, end = node.start, node.end
        return start + len(self._text[start:end].rstrip())

    def _replaced(self, node: Node, new: Any) -> _Splice:
        return _Splice(node.start, self._end(node), _inline(new))

    def _scalar_in_pair(self, pair: _Pair, new: Any) -> _Splice:
        after_colon = self._text.index(":", pair.key.end) + 1
        if pair.end == after_colon:  # nothing stood there
            return _Splice(after_colon, after_colon, f" {_inline(new)}")
        return _Splice(pair.value.start, pair.end, _inline(new))

    def _removed(self, node: MappingNode | SequenceNode, spans: list[tuple[int, int]], place: int) -> _Splice:
        start, end = spans[place]
        if node.flow_style:
            if place + 1 < len(spans):
                return _Splice(start, spans[place + 1][0], "")
            return _Splice(spans[place - 1][1] if place else start, end, "")
        line_start = self._text.rfind("\n", 0, start) + 1
        line_end = self._text.find("\n", end)
        return _Splice(line_start, len(self._text) if line_end < 0 else line_end + 1, "")

    def _added_to_map(self, node: MappingNode, pairs: list[_Pair], key: str, value: Any) -> _Splice:
        if node.flow_style:
            return _Splice(pairs[-1].end, pairs[-1].end, f", {_inline({key: value})[1:-1]}")
        return self._added_lines(node.column, _key_lines(key, value), pairs[-1].end)

    def _added_to_list(self, node: SequenceNode, value: Any) -> _Splice:
        end = self._end(node.value[-1])
        if node.flow_style:
            return _Splice(end, end, f", {_inline(value)}")
        return self._added_lines(node.column, _item_lines(value), end)

    def _added_lines(self, column: int, lines: list[str], after: int) -> _Splice:
        """New lines below the line that ends a block, so that a comment at its end stays with it."""
        line_end = self._text.find("\n", after)
        added = "".join(" " * column + line + self._newline for line in lines)
        if line_end < 0:
            return _Splice(len(self._text), len(self._text), self._newline + added)
        return _Splice(line_end + 1, line_end + 1, added)


def _by_id(items: Sequence[Any]) -> dict[Any, Any]:
    """Items by their id; empty when one has none, or two share one."""
    named = {item["id"]: item for item in items if isinstance(item, Mapping) and isinstance(item.get("id"), str)}
    return named if len(named) == len(items) else {}
