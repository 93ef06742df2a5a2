"""Where the store is, and opening it for one command."""

import getpass
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from catalog import may_hold_a_password
from ui.shared.command_refused import CommandRefused
from ui.shared.days import now
from ui.shared.extras import refuse_without

if TYPE_CHECKING:
    from catalog import Store


STORE_VARIABLE = "LINEPLAN_STORE"
"""Names the store."""

STORE_FILE = "lineplan.sqlite"
"""The store of the terminal where nobody names another place: a file in the working folder."""


def page_store_place() -> str:
    """The store of the page: the one named, else the working folder's, else the one among the user's own data."""
    named = os.environ.get(STORE_VARIABLE, "")
    if named or os.path.exists(STORE_FILE):
        return named or os.path.abspath(STORE_FILE)
    return str(user_data_folder() / "lineplan" / STORE_FILE)


def user_data_folder() -> Path:
    """Where programs keep what belongs to whoever is logged in.

    Source: XDG Base Directory Specification, version 0.8, "XDG_DATA_HOME"; from memory.
    """
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA") or Path.home() / "AppData" / "Local")
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Application Support"
    named = os.environ.get("XDG_DATA_HOME", "")
    return Path(named) if os.path.isabs(named) else Path.home() / ".local" / "share"


@contextmanager
def opened_store(place: str, *, creates: bool) -> Iterator["Store"]:
    """The store for as long as a command works with it; a new one is made only for what is to be kept in it."""
    refuse_without("store")
    from catalog import open_store

    with open_store(place, create=creates, clock=now) as store:
        yield store


def is_store_there(place: str) -> bool:
    """Whether there is a store to look into: a database's address is taken at its word."""
    return may_hold_a_password(place) or os.path.exists(place)


def who_saves(named: str | None, *, command: str) -> str:
    """The name that stands beside what is kept: the one given, or the login name."""
    if named:
        return named
    try:
        return getpass.getuser()
    except (OSError, KeyError, ImportError) as error:
        raise CommandRefused(
            command=command, option="by", given="nobody was named", allowed="your name, or LINEPLAN_BY"
        ) from error
