"""Whether what somebody typed as a store's place means a file or a database: known without a database's libraries."""

import re

_SCHEME = re.compile(r"\s*([A-Za-z][A-Za-z0-9+.-]+):")  # two signs at least: C:\ is a drive
_OTHER_FORMS = re.compile(r":[^@]*@|\bpass(word|file)?\s*=|^\s*(host|hostaddr|dbname|user)\s*=", re.IGNORECASE)
_DRIVE = re.compile(r"[A-Za-z]:[\\/]")


def is_address(text: str) -> bool:
    """Whether this means a database rather than a file: it has :// in it, or begins as one does."""
    scheme = _SCHEME.match(text)
    return "://" in text or (scheme is not None and scheme[1].lower().startswith(("postgres", "sqlite")))


def may_hold_a_password(text: str) -> bool:
    """Whether this is an address, or looks like one in another form than ours: never to be printed as it stands."""
    return is_address(text) or (_DRIVE.match(text) is None and _OTHER_FORMS.search(text) is not None)
