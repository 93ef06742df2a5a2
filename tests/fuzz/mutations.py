"""Files broken at random: bytes, words, lines and values of files that are sound."""

import json
from collections.abc import Callable
from random import Random
from typing import Any

from catalog.yaml_text import read_yaml

SPLINTERS = (
    *("{", "}", "[", "]", ":", ": ", ",", "- ", "#", "&a ", "*a", "!x ", "'", '"', "|", ">", "%", "\t", "\n", "?", "~"),
    *(".nan", "1e400", "0x", "-.inf", "9" * 500, "null", "<<: ", "id: ", "\u2028", "é", "\x00", "---\n", "...\n", "\r"),
    *('"\\UFFFFFFFF"', '"\\uD800"', '"\\e]0;x\\a"', "\u202e", "[" * 60, "{" * 60, " " * 300, "1_0", "0b1", "-0.0"),
)
VALUES: tuple[Any, ...] = (
    *(None, True, False, 0, -1, 1, 1e-9, 0.3, 1.0, 2.0, 5.0, 5.2, 1e3, 5e3, 1e300, 10**30, "", "x", "none", "outside"),
    *(
        [],
        {},
        [0, 0, 0],
        [1, 0, 0],
        [[0, 0], [9, 0], [9, 9]],
        {"shape": "round", "diameter": 6.0},
        "1.20",
        "a b",
        "5,0",
    ),
    *(
        "1.20",
        "a b",
        "5,0",
        "\u202ex\x1b[2J",
        "neck-left",
        "down_tube",
        "hydraulic_hose",
        "post",
        160,
        180,
        203,
        ["fluid"],
        "{cut_end}",
    ),
)
FACTORS = (0.0, 0.01, 0.1, 0.5, 0.9, 0.99, 1.001, 1.1, 2.0, 10.0, 25.4, -1.0)


def mutated(draw: Random, text: str, *, others: str) -> bytes:
    """A text broken in one to four ways, among them some that leave it sound.

    others : a text whose lines may be mixed in
    """
    for _ in range(draw.choice((1, 1, 1, 2, 4))):
        ways: tuple[Callable[[Random, str], str], ...] = (
            _cut,
            _splinter,
            _repeat,
            _swap_lines,
            _other_word,
            _value,
            _value,
            _scale,
            _scale,
            lambda draw, text: _mix(draw, text, others),
        )
        text = draw.choice(ways)(draw, text)
    content = text.encode("utf-8", "surrogatepass")
    if content and draw.random() < 0.1:
        at = draw.randrange(len(content))
        content = content[:at] + bytes([draw.randrange(256)]) + content[at + draw.randrange(2) :]
    return content


def _cut(draw: Random, text: str) -> str:
    start = draw.randrange(len(text) + 1)
    return text[:start] + text[start + draw.choice((1, 2, 10, 100, len(text))) :]


def _splinter(draw: Random, text: str) -> str:
    start = draw.randrange(len(text) + 1)
    return text[:start] + draw.choice(SPLINTERS) + text[start + draw.choice((0, 0, 1, 5)) :]


def _repeat(draw: Random, text: str) -> str:
    lines = text.splitlines(keepends=True)
    start = draw.randrange(len(lines) + 1)
    piece = "".join(lines[start : start + draw.choice((1, 2, 8))])
    times = draw.choice((1, 1, 2, 20, 300))
    return "".join(lines[:start]) + piece * times + "".join(lines[start:])


def _swap_lines(draw: Random, text: str) -> str:
    lines = text.splitlines(keepends=True)
    if len(lines) > 1:
        one, other = draw.sample(range(len(lines)), 2)
        lines[one], lines[other] = lines[other], lines[one]
    return "".join(lines)


def _mix(draw: Random, text: str, others: str) -> str:
    lines, more = text.splitlines(keepends=True), others.splitlines(keepends=True)
    if more:
        lines.insert(draw.randrange(len(lines) + 1), draw.choice(more))
    return "".join(lines)


def _other_word(draw: Random, text: str) -> str:
    words = text.split(" ")
    words[draw.randrange(len(words))] = draw.choice(words)
    return " ".join(words)


def _value(draw: Random, text: str) -> str:
    """Some value in place of another, written as JSON, which is YAML too."""
    read = read_yaml(text.encode("utf-8", "replace"))
    if not isinstance(read.value, dict):
        return text
    path = draw.choice(sorted(read.lines, key=str))
    new = draw.choice(VALUES)
    return json.dumps(_with(read.value, path, lambda _: new, drops=draw.random() < 0.2), ensure_ascii=False)


def _scale(draw: Random, text: str) -> str:
    """One number larger, smaller or the other way round, as happens at a bench."""
    read = read_yaml(text.encode("utf-8", "replace"))
    paths = [path for path in sorted(read.lines, key=str) if type(_at(read.value, path)) in (int, float)]
    if not paths or not isinstance(read.value, dict):
        return text
    factor = draw.choice(FACTORS)
    scaled = _with(read.value, draw.choice(paths), lambda old: round(old * factor, 6), drops=False)
    return json.dumps(scaled, ensure_ascii=False)


def _at(value: Any, path: tuple[str | int, ...]) -> Any:
    for step in path:
        try:
            value = value[step]
        except (KeyError, IndexError, TypeError):
            return None
    return value


def _with(value: Any, path: tuple[str | int, ...], new: Callable[[Any], Any], *, drops: bool) -> Any:
    if not path:
        return new(value)
    step, rest = path[0], path[1:]
    if isinstance(value, dict):
        kept = {key: inner for key, inner in value.items() if not (drops and not rest and key == step)}
        return {key: _with(inner, rest, new, drops=drops) if key == step else inner for key, inner in kept.items()}
    if isinstance(value, list):
        return [_with(inner, rest, new, drops=drops) if place == step else inner for place, inner in enumerate(value)]
    return value
