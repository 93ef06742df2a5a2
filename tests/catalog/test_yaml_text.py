"""What is wrong with a text as such, and which YAML is understood."""

import math

import pytest

from catalog.yaml_text import BIGGEST_FILE_BYTES, read_yaml

SLIPS = {
    "nothing": (b"", 1, "an empty file"),
    "only a comment": (b"# nothing yet\n", 1, "an empty file"),
    "a tab for indenting": (b"format: 1\nlines:\n\t- {id: a}\n", 3, "a tab in front of the text"),
    "a tab inside a line": (b"format:\t1\nlines:\n  - {id: a}\n\tx: 2", 4, "a tab in front of the text"),
    "bytes that are no UTF-8": (b"format: 1\nnote: caf\xe9\n", 2, "byte 0xe9 at position 19 is not UTF-8 text"),
    "UTF-16": ("format: 1".encode("utf-16"), 1, "byte 0xff at position 0 is not UTF-8 text"),
    "a control character": (b"format: 1\nnote: a\x07b\n", 2, "the control character 0x07 in column 8"),
    "a directive": (b"%YAML 1.1\n---\nformat: 1\n", 1, "the directive %YAML"),
    "a second document": (b"format: 1\n---\nformat: 1\n", 2, "not YAML: a second document after ---"),
    "a bracket never closed": (b"format: 1\nlines: [1, 2\n", 3, "not YAML: expected ',' or ']'"),
    "a quote never closed": (b"format: 1\nnote: 'abc\n", 3, "not YAML: found unexpected end of stream"),
    "two colons in a line": (b"format: 1\nnote: a: b\n", 2, "not YAML: mapping values are not allowed here"),
    "an alias of nothing": (b"format: 1\nnote: *x\n", 2, "the alias *x"),
    "a list as a key": (b"? [a]\n: 1\n", 1, "a list or a mapping as a key"),
    "a merge key": (b"<<: {a: 1}\n", 1, "the tag tag:yaml.org,2002:merge"),
    "a thousand brackets": (b"[" * 1000 + b"]" * 1000, 1, "brackets in brackets without end"),
    "fifty levels": (b"[" * 50 + b"]" * 50, 1, "brackets in brackets without end"),
    "a word alone in braces": (b"{a, b: 1}", 1, "'a' stands alone between commas"),
    "a word after quoted text": (b'{a: "x", pair}', 1, "'pair' stands alone between commas"),
    "a comma in a number": (b"{a: 7,5}", 1, "7,5 was given"),
}


@pytest.mark.parametrize(("content", "line", "given"), SLIPS.values(), ids=SLIPS.keys())
def test_slip_in_the_text_is_told_with_its_line(content: bytes, line: int, given: str) -> None:
    slip = read_yaml(content).slips[0]
    assert slip.given.startswith(given)
    assert slip.line == line


def test_anchors_and_aliases_are_both_refused() -> None:
    slips = read_yaml(b"a: &x {b: 1}\nc: *x\n").slips
    assert [slip.given for slip in slips] == ["the anchor &x", "the alias *x"]


def test_aliases_that_multiply_cost_nothing() -> None:
    lines = [b"a0: &a0 [1, 1]"] + [b"a%d: &a%d [*a%d, *a%d]" % (n, n, n - 1, n - 1) for n in range(1, 30)]
    assert read_yaml(b"\n".join(lines)).slips


@pytest.mark.parametrize("size", [BIGGEST_FILE_BYTES + 1])
def test_file_over_the_size_limit_is_not_even_looked_at(size: int) -> None:
    assert read_yaml(b"#" * size).slips[0].given == "more than 5000000 bytes"


def test_file_at_the_size_limit_is_read() -> None:
    assert read_yaml(b"#" * (BIGGEST_FILE_BYTES - 10) + b"\nformat: 1").value == {"format": 1}


def test_words_are_those_of_yaml_1_2() -> None:
    text = b"a: 012\nb: 1e3\nc: yes\nd: 1:30\ne: 2020-01-01\nf: ~\ng: true\nh: 0x1F\ni: .inf\nj: off"
    expected = {"a": 12, "b": 1000.0, "c": "yes", "d": "1:30", "e": "2020-01-01", "f": None, "g": True}
    assert read_yaml(text).value == {**expected, "h": 31, "i": math.inf, "j": "off"}


def test_lines_are_counted_from_one_for_keys_and_items() -> None:
    lines = read_yaml(b"format: 1\nlines:\n  - id: a\n    outer: 5\n  - {id: b,\n     outer: 6}\n").lines
    assert lines["lines",] == 2
    assert lines["lines", 0, "outer"] == 4
    assert (lines["lines", 1], lines["lines", 1, "outer"]) == (5, 6)


def test_byte_order_mark_and_windows_lines_are_fine() -> None:
    text = read_yaml(b"\xef\xbb\xbfformat: 1\r\nlines:\r\n  - {id: a}\r\n")
    assert (text.value, text.lines["lines", 0]) == ({"format": 1, "lines": [{"id": "a"}]}, 3)


def test_words_go_on_over_a_comma_in_braces() -> None:
    assert read_yaml(b"{name: Washers, pair, price: 1}").value == {"name": "Washers, pair", "price": 1}
    assert read_yaml(b"{name: Hose, black, 2 m}").value == {"name": "Hose, black, 2 m"}


def test_a_field_without_its_colon_is_not_taken_for_words() -> None:
    assert read_yaml(b"{name: Hose, bore 2.1}").slips[0].given == "'bore 2.1' stands alone between commas"
