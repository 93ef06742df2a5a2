"""Turn the bytes of a file into plain values that remember their lines.

YAML 1.2, read with ruamel.yaml, and less than YAML allows: no anchors, aliases, tags or directives, so that what is
written is what is meant.
"""

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import lru_cache

from ruamel.yaml import YAML
from ruamel.yaml.error import MarkedYAMLError, YAMLError
from ruamel.yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

Path = tuple[str | int, ...]
"""Where in a file something stands: keys and places in lists, counted from 0."""

BIGGEST_FILE_BYTES = 5_000_000
DEEPEST_NESTING = 40
_FORGOTTEN_COLON = re.compile(r"\s*[a-z_]+\s+[-+.\d]+\s*")
_CORE_TAG = "tag:yaml.org,2002:"
_PLAIN_TAGS = {_CORE_TAG + word for word in ("str", "int", "float", "bool", "null", "map", "seq", "timestamp")}


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


@lru_cache(maxsize=64)
def read_yaml(content: bytes) -> YamlText:
    """Plain values with their lines, or what is wrong with the text. The result is shared: never change it."""
    text, slips = _decoded(content)
    if slips:
        return YamlText(slips=tuple(slips))
    try:
        root = YAML(typ="safe", pure=True).compose(text)
        if root is None:
            return YamlText(slips=(_whole_file("an empty file", "format: 1 and then entries"),))
        reader = _NodeReader(text)
        value = reader.plain(root, ())
    except MarkedYAMLError as error:
        return YamlText(slips=(_syntax_slip(error),))
    except (YAMLError, ValueError, AttributeError, TypeError, IndexError, KeyError, AssertionError) as error:
        # the reader stumbles over some broken texts with its own slips: for the mechanic both are one thing
        return YamlText(slips=(_whole_file(_first_line(error), "a YAML text"),))
    except RecursionError:
        return YamlText(slips=(_whole_file("brackets in brackets without end", "at most a few levels"),))
    return YamlText(value, reader.lines, tuple(reader.slips))


def _decoded(content: bytes) -> tuple[str, list[Slip]]:
    if len(content) > BIGGEST_FILE_BYTES:
        return "", [_whole_file(f"{len(content)} bytes", f"at most {BIGGEST_FILE_BYTES} bytes")]
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        given = f"byte {content[error.start]:#04x} at position {error.start} is not UTF-8 text"
        return "", [Slip(line=line, path=(), given=given, allowed="save the file as UTF-8")]
    return text, list(_refused_lines(text))


def _refused_lines(text: str) -> Iterator[Slip]:
    for number, line in enumerate(re.split(r"\r\n|\r|\n", text), start=1):
        if re.match(r" *\t\s*[^\s#]", line):
            yield Slip(line=number, path=(), given="a tab in front of the text", allowed="indent with spaces")
        if line.startswith("%"):
            yield Slip(line=number, path=(), given=f"the directive {line.split()[0]}", allowed="leave it out")
        if bad := re.search(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]", line):
            given = f"the control character {ord(bad[0]):#04x} in column {bad.start() + 1}"
            yield Slip(line=number, path=(), given=given, allowed="plain text only")


def _whole_file(given: str, allowed: str) -> Slip:
    return Slip(line=1, path=(), given=given, allowed=allowed)


def _first_line(error: BaseException) -> str:
    return next(iter(str(error).splitlines()), type(error).__name__) or "nothing that can be read"


def _syntax_slip(error: MarkedYAMLError) -> Slip:
    mark = error.problem_mark or error.context_mark
    problem = " ".join(str(error.problem or error.context or "it cannot be read").split())
    if "'\\t'" in problem:
        problem, allowed = "a tab", "use spaces"
    elif "single document" in str(error.context or ""):
        problem, allowed = "a second document after ---", "one document in a file"
    elif "alias" in problem:
        allowed = "write the value out; put text that begins with * in quotes"
    else:
        allowed = "check colons, commas, brackets, quotes and indentation here and just above"
    return Slip(line=(mark.line if mark else 0) + 1, path=(), given=f"not YAML: {problem}", allowed=allowed)


class _NodeReader:
    """Walks the parsed nodes once, keeping lines and slips."""

    def __init__(self, text: str) -> None:
        self._text = text
        self.lines: dict[Path, int] = {}
        self.slips: list[Slip] = []
        self._constructor = YAML(typ="safe", pure=True).constructor
        self._seen: set[int] = set()

    def plain(self, node: Node, path: Path) -> object:
        self.lines.setdefault(path, node.start_mark.line + 1)
        if len(path) > DEEPEST_NESTING:
            raise RecursionError
        self._refuse_cleverness(node, path)
        if id(node) in self._seen:
            return None
        self._seen.add(id(node))
        if isinstance(node, MappingNode):
            return self._plain_map(node, path)
        if isinstance(node, SequenceNode):
            return [self.plain(item, (*path, place)) for place, item in enumerate(node.value)]
        return self._plain_scalar(node, path)

    def _plain_map(self, node: MappingNode, path: Path) -> dict[str, object]:
        result: dict[str, object] = {}
        before: tuple[str, Node] | None = None
        for key_node, value_node in node.value:
            line = key_node.start_mark.line + 1
            if self._stands_alone(key_node, value_node):
                self._go_on(result, before, str(key_node.value), path, line)
                continue
            if not isinstance(key_node, ScalarNode):
                self._slip(line, path, "a list or a mapping as a key", "a plain word before the colon")
                continue
            key = str(key_node.value)
            self._refuse_cleverness(key_node, (*path, key))
            if key in result:
                given = f"{key} is given twice, first on line {self.lines[(*path, key)]}"
                self._slip(line, (*path, key), given, "keep one of the two")
                continue
            self.lines[*path, key] = line
            result[key] = self.plain(value_node, (*path, key))
            before = key, value_node
        return result

    def _stands_alone(self, key_node: Node, value_node: Node) -> bool:
        """Whether a word in braces has no colon: {name: Washers, pair}."""
        if not isinstance(key_node, ScalarNode) or not isinstance(value_node, ScalarNode) or value_node.value:
            return False
        between = self._text[key_node.end_mark.index : value_node.start_mark.index]
        return ":" not in between

    def _go_on(
        self, result: dict[str, object], before: tuple[str, Node] | None, word: str, path: Path, line: int
    ) -> None:
        """A comma inside unquoted words in braces: the words go on, as was meant. Anything else is a slip."""
        key, value_node = before or ("", None)
        value = result.get(key)
        is_words = isinstance(value, str) and isinstance(value_node, ScalarNode) and value_node.style is None
        if is_words and not _FORGOTTEN_COLON.fullmatch(word):
            result[key] = f"{value}, {word}"
        elif isinstance(value, int | float) and word.strip().isdigit():
            given = f"{value:g},{word.strip()} was given"
            self._slip(line, (*path, key), given, f"write a point, not a comma: {value:g}.{word.strip()}")
        else:
            given = f"{word!r} stands alone between commas"
            self._slip(line, path, given, "a field is word: value; put a text with commas in quotes")

    def _plain_scalar(self, node: Node, path: Path) -> object:
        kind = str(node.tag).removeprefix(_CORE_TAG)
        text = str(node.value)
        try:
            if kind == "int":
                return int(self._constructor.construct_yaml_int(node))
            if kind == "float":
                return float(self._constructor.construct_yaml_float(node))
        except (ValueError, OverflowError):
            self._slip(self.lines[path], path, f"{text[:40]!r} is no number", "a number with a point")
            return math.nan
        if kind == "bool":
            return text.lower() == "true"
        return None if kind == "null" else text

    def _refuse_cleverness(self, node: Node, path: Path) -> None:
        line = node.start_mark.line + 1
        if node.anchor is not None:
            self._slip(line, path, f"the anchor &{node.anchor}", "write the value out wherever it is meant")
        if node.tag is not None and str(node.tag) not in _PLAIN_TAGS:
            self._slip(line, path, f"the tag {node.tag}", "plain values without tags")

    def _slip(self, line: int, path: Path, given: str, allowed: str) -> None:
        slip = Slip(line=line, path=path, given=given, allowed=allowed)
        if slip not in self.slips:
            self.slips.append(slip)
