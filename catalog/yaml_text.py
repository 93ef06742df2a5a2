"""Turn the bytes of a file into plain values that remember their lines.

YAML 1.2 (core schema), and less than YAML allows: no anchors, aliases, tags or directives, so that what is written is
what is meant.

In braces, a word without a colon after unquoted text continues that text, so that `name: Banjo washers, pair` is read
as people write it.
"""

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass, field

from catalog.errors import MOST_PROBLEMS
from catalog.file_contents import BIGGEST_FILE_BYTES
from catalog.remembered import Remembered
from catalog.yaml_nodes import CORE_TAG, MappingNode, Node, NotReadable, ScalarNode, SequenceNode, compose

Path = tuple[str | int, ...]
"""Where in a file something stands: keys and places in lists, counted from 0."""

LONGEST_NUMBER = 40
"""Signs of a number; no size, price or count has more."""

_FORGOTTEN_COLON = re.compile(r"\s*[a-z_]+\s+[-+.\d]+\s*")
_PLAIN_TAGS = {CORE_TAG + word for word in ("str", "int", "float", "bool", "null", "map", "seq", "timestamp")}
_LINE_END = re.compile(r"\r\n|\r|\n")
_REFUSED = re.compile(
    r"(?P<tab>(?:(?<=[\r\n])|\A) *\t[ \t]*[^\s#])|(?P<directive>(?:(?<=[\r\n])|\A)%\S*)"
    "|(?P<control>[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ud800-\udfff\ufeff\ufffe\uffff])"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Slip:
    """Something wrong with the text itself, before its meaning is looked at."""

    line: int
    path: Path
    given: str
    allowed: str


@dataclass(frozen=True, slots=True)
class YamlText:
    """What a file says.

    value : plain dicts, lists, texts, numbers; None when it could not be read
    lines : the line of everything in it, counted from 1
    slips : what is wrong with the text
    """

    value: object = None
    lines: dict[Path, int] = field(default_factory=dict)
    slips: tuple[Slip, ...] = ()

    def line_of(self, path: Path) -> int:
        """Line of the thing, or of the nearest thing around it."""
        while path and path not in self.lines:
            path = path[:-1]
        return self.lines.get(path, 1)


@Remembered
def read_yaml(content: bytes) -> YamlText:
    """Plain values with their lines, or what is wrong with the text. The result is shared: never change it."""
    text, slips = _decoded(content)
    if slips:
        return YamlText(slips=tuple(slips))
    try:
        root = compose(text)
    except NotReadable as found:
        return YamlText(slips=(Slip(line=found.line, path=(), given=found.given, allowed=found.allowed),))
    if root is None:
        return YamlText(slips=(_whole_file("an empty file", "format: 1 and then entries"),))
    reader = _NodeReader(text)
    value = reader.plain(root, ())
    return YamlText(value, reader.lines, tuple(reader.slips))


def _decoded(content: bytes) -> tuple[str, list[Slip]]:
    if len(content) > BIGGEST_FILE_BYTES:
        return "", [_whole_file(f"more than {BIGGEST_FILE_BYTES} bytes", "share it out over several files")]
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        given = f"byte {content[error.start]:#04x} at position {error.start} is not UTF-8 text"
        return "", [Slip(line=line, path=(), given=given, allowed="save the file as UTF-8")]
    return text, list(_refused_lines(text))


def _refused_lines(text: str) -> Iterator[Slip]:
    line, counted = 1, 0
    for number, found in enumerate(_REFUSED.finditer(text)):
        line += len(_LINE_END.findall(text, counted, found.start()))
        counted = found.start()
        if number == MOST_PROBLEMS:
            yield _no_further(line)
            return
        if found["tab"]:
            yield Slip(line=line, path=(), given="a tab in front of the text", allowed="indent with spaces")
        elif found["directive"]:
            yield Slip(line=line, path=(), given=f"the directive {found.group()[:40]}", allowed="leave it out")
        else:
            column = counted - max(text.rfind("\n", 0, counted), text.rfind("\r", 0, counted))
            given = f"the control character {ord(found.group()):#04x} in column {column}"
            yield Slip(line=line, path=(), given=given, allowed="plain text only")


def _no_further(line: int) -> Slip:
    return Slip(line=line, path=(), given=f"{MOST_PROBLEMS} slips up to here", allowed="mend these first")


def _whole_file(given: str, allowed: str) -> Slip:
    return Slip(line=1, path=(), given=given, allowed=allowed)


class _NodeReader:
    """Walks the parsed nodes once, keeping lines and slips."""

    def __init__(self, text: str) -> None:
        self._text = text
        self.lines: dict[Path, int] = {}
        self.slips: dict[Slip, None] = {}

    def plain(self, node: Node, path: Path) -> object:
        self.lines.setdefault(path, node.line + 1)
        self._refuse_cleverness(node, path)
        if isinstance(node, MappingNode):
            return self._plain_map(node, path)
        if isinstance(node, SequenceNode):
            return [self.plain(item, (*path, place)) for place, item in enumerate(node.value)]
        return self._plain_scalar(node, path)

    def _plain_map(self, node: MappingNode, path: Path) -> dict[str, object]:
        result: dict[str, object] = {}
        going_on: dict[str, list[str]] = {}
        before: tuple[str, Node] | None = None
        for key_node, value_node in node.value:
            line = key_node.line + 1
            if self._stands_alone(key_node, value_node):
                self._go_on(result, going_on, before, str(key_node.value), path, line)
                continue
            if not isinstance(key_node, ScalarNode):
                self._slip(line, path, "a list or a mapping as a key", "a plain word before the colon")
                continue
            key = key_node.value
            self._refuse_cleverness(key_node, (*path, key))
            if key in result:
                given = f"{key} is given twice, first on line {self.lines[(*path, key)]}"
                self._slip(line, (*path, key), given, "keep one of the two")
                continue
            self.lines[*path, key] = line
            result[key] = self.plain(value_node, (*path, key))
            before = key, value_node
        return result | {key: ", ".join([str(result[key]), *words]) for key, words in going_on.items()}

    def _stands_alone(self, key_node: Node, value_node: Node) -> bool:
        """Whether a word in braces has no colon: {name: Washers, pair}."""
        if not isinstance(key_node, ScalarNode) or not isinstance(value_node, ScalarNode) or value_node.value:
            return False
        return value_node.alias is None and ":" not in self._text[key_node.end : value_node.start]

    def _go_on(
        self,
        result: dict[str, object],
        going_on: dict[str, list[str]],
        before: tuple[str, Node] | None,
        word: str,
        path: Path,
        line: int,
    ) -> None:
        """A comma inside unquoted words in braces: the words go on, as was meant. Anything else is a slip."""
        key, value_node = before or ("", None)
        value = result.get(key)
        is_words = isinstance(value, str) and isinstance(value_node, ScalarNode) and value_node.is_plain
        if is_words and not _FORGOTTEN_COLON.fullmatch(word):
            going_on.setdefault(key, []).append(word)
        elif isinstance(value, int | float) and word.strip().isdigit():
            given = f"{value:g},{word.strip()} was given"
            self._slip(line, (*path, key), given, f"write a point, not a comma: {value:g}.{word.strip()}")
        else:
            given = f"{word!r} stands alone between commas"
            self._slip(line, path, given, "a field is word: value; put a text with commas in quotes")

    def _plain_scalar(self, node: ScalarNode, path: Path) -> object:
        kind, text = node.tag.removeprefix(CORE_TAG), node.value
        if kind in ("int", "float"):
            number = _number(text, kind)
            if number is None:
                told = repr(text) if len(text) <= LONGEST_NUMBER else f"a number of {len(text)} signs"
                allowed = f"a number with a point, of at most {LONGEST_NUMBER} signs"
                self._slip(self.lines[path], path, f"{told} is no number here", allowed)
            return math.nan if number is None else number
        if kind == "bool":
            return text.lower() == "true"
        return None if kind == "null" else text

    def _refuse_cleverness(self, node: Node, path: Path) -> None:
        if isinstance(node, ScalarNode) and node.alias is not None:
            allowed = "write the value out; put text that begins with * in quotes"
            self._slip(node.line + 1, path, f"the alias *{node.alias}", allowed)
        if node.anchor is not None:
            self._slip(node.line + 1, path, f"the anchor &{node.anchor}", "write the value out wherever it is meant")
        if node.tag not in _PLAIN_TAGS:
            self._slip(node.line + 1, path, f"the tag {node.tag}", "plain values without tags")

    def _slip(self, line: int, path: Path, given: str, allowed: str) -> None:
        if len(self.slips) < MOST_PROBLEMS:
            self.slips[Slip(line=line, path=path, given=given, allowed=allowed)] = None
            if len(self.slips) == MOST_PROBLEMS:
                self.slips[_no_further(line)] = None


def _number(text: str, kind: str) -> int | float | None:
    """The number that is written; None where none is, or a longer one than anything here has."""
    written = text.replace("_", "")
    if len(text) > LONGEST_NUMBER:
        return None
    try:
        if kind == "int":
            base = {"0o": 8, "0x": 16, "0b": 2}.get(written[:2], 10)
            return int(written, base)
        return float(re.sub(r"^([-+]?)\.(?=[a-zA-Z])", r"\1", written))
    except ValueError:
        return None
