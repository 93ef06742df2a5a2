"""Which texts the store takes as names, ids and notes; the same on both databases."""

import re

from catalog.store_errors import NotInStore, StoreRefused

_ID = re.compile(r"\w[\w.+-]*")


def checked_id(what: str, text: str, *, longest: int) -> str:
    """An id as the catalog files allow it."""
    if not _ID.fullmatch(text) or len(text) > longest:
        rule = f"it must be 1 to {longest} letters, digits, points, pluses, hyphens or underscores"
        raise StoreRefused(thing=what, given=repr(text), rule=rule)
    return text


LARGEST_NUMBER = 2**31 - 1
"""The databases count no further."""


def checked_number(what: str, number: int) -> int:
    """A number that a plan, quote or revision can have; beyond these there is none."""
    if not 0 < number <= LARGEST_NUMBER:
        raise NotInStore(thing=f"{what} {number}")
    return number


def checked_text(what: str, text: str, *, longest: int, may_be_empty: bool = False) -> str:
    """A text for people: no control characters (PostgreSQL keeps no NUL), not too long."""
    text = text.strip()
    if not text and not may_be_empty:
        raise StoreRefused(thing=what, given="nothing", rule="it must be said")
    if len(text) > longest:
        raise StoreRefused(thing=what, given=f"a text of {len(text)} characters", rule=f"{longest} at most")
    if any((ord(sign) < 32 and sign not in "\n\t") or 0xD800 <= ord(sign) <= 0xDFFF for sign in text):
        raise StoreRefused(thing=what, given=repr(text), rule="control characters are not kept")
    return text
