"""Words that came from a file, made safe to stand in a paragraph of the page."""

import re

_MARKUP = re.compile(r"([\\`*_{}\[\]()#+\-.!|~$:<>&])")


def plain(words: str) -> str:
    """The words as they are, with nothing in them read as markup."""
    return _MARKUP.sub(r"\\\1", words)
