"""Text from anywhere made fit to be printed: nothing in it steers a terminal, breaks a picture or starts a formula.

A sign that cannot be printed is told by its number, such as \\u001b for escape: the way JSON writes it, so that a JSON
text stays one. Printable signs are never changed, and neither is the order they are read in.
"""

import re

_CONTROLS = "\x00-\x09\x0b-\x1f\x7f-\x9f"
_BREAKS = "\u2028\u2029"
_TURNED = "\u202a-\u202e\u2066-\u2069"
"""Embeddings, overrides and isolates of reading direction: they make a text read as it does not stand."""

_UNSEEN = "\ufeff\ufff9-\ufffb\ufffe\uffff\ud800-\udfff\U000e0000-\U000e007f"
_UNPRINTABLE = re.compile(f"[{_CONTROLS}{_BREAKS}{_TURNED}{_UNSEEN}]")
_UNPRINTABLE_OR_NEW_LINE = re.compile(f"[\n{_CONTROLS}{_BREAKS}{_TURNED}{_UNSEEN}]")

FORMULA_SIGNS = "=+-@|%\t\r\n＝＋－＠"
"""A cell that begins with one of these is taken for a formula by some spreadsheet, full-width forms included."""

_AFTER_SEMICOLON = re.compile(rf";(?=\s*[{re.escape(FORMULA_SIGNS)}])")
_MARKUP = re.compile(r"[\\`*_{}\[\]#|~$<>&]|^\s*(?:[-+]|\d+(?=[.)]\s))", re.MULTILINE)
WORD_JOINER = "\u2060"
_FOUND_LATER = re.compile(r"(?<=:)(?=[\w/+-])|(?<=www)(?=\.)|(?<=@)(?=\w)|(?<=-)(?=>)|(?<=<)(?=-)", re.IGNORECASE)
"""Where an address, a little picture or an arrow begins that the page looks for in words already freed of markup."""


def printable_text(words: str) -> str:
    """The words with every sign that cannot be printed told by its number; line ends stay.

    Source: Unicode Standard Annex 9, "Unicode Bidirectional Algorithm", section 2 (explicit directional formatting
    characters); ECMA-48, "Control Functions for Coded Character Sets", 1991 (C0 and C1); from memory of both.
    """
    return _UNPRINTABLE.sub(_told, words)


def printable_line(words: str) -> str:
    """The same in one line: a line end is told by its number too."""
    return _UNPRINTABLE_OR_NEW_LINE.sub(_told, words)


def in_xml(words: str) -> str:
    """The words as they may stand between two tags, or in quotes, of an SVG picture.

    Source: W3C, "Extensible Markup Language (XML) 1.0", fifth edition, 2008, section 2.2 (characters); from memory.
    """
    shown = printable_line(words).replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
    return shown.replace('"', "&quot;")


def in_csv(words: str) -> str:
    """The words as a cell that no spreadsheet takes for a formula, also where it splits at semicolons.

    Returns the same, or with an apostrophe before what would be calculated.
    """
    parted = _AFTER_SEMICOLON.sub(";'", words)
    is_formula = bool(words.strip()) and (words[0] in FORMULA_SIGNS or words.lstrip()[0] in FORMULA_SIGNS)
    return printable_text(f"'{parted}" if is_formula else parted)


def in_markdown(words: str) -> str:
    """The words as they are, with nothing in them read as markup of a paragraph, and no address made a link.

    Backslashes end what is read as markup; joiners, which are not seen, end what is looked for afterwards.
    """
    return _MARKUP.sub(_kept, _FOUND_LATER.sub(WORD_JOINER, printable_text(words)))


def _told(found: re.Match[str]) -> str:
    units = found.group().encode("utf-16-be", "surrogatepass").hex()
    return "".join(f"\\u{units[n : n + 4]}" for n in range(0, len(units), 4))


def _kept(found: re.Match[str]) -> str:
    """A mark behind a backslash; a number that would begin a list with the backslash before its point."""
    mark = found.group()
    return f"{mark}\\" if mark.strip().isdigit() else f"{mark[:-1]}\\{mark[-1]}"
