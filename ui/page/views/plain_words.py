"""Words that came from a file, made safe to stand in a paragraph of the page."""

import re

_MARKUP = re.compile(r"[\\`*_{}\[\]#|~$<>&]|:(?=[\w/])|^\s*(?:[-+]|\d+(?=[.)]\s))", re.MULTILINE)


def plain(words: str) -> str:
    """The words as they are, with nothing in them read as markup."""
    return _MARKUP.sub(_kept, words)


def _kept(found: re.Match[str]) -> str:
    """A mark behind a backslash; a number that would begin a list with the backslash before its point."""
    mark = found.group()
    return f"{mark}\\" if mark.strip().isdigit() else f"{mark[:-1]}\\{mark[-1]}"
