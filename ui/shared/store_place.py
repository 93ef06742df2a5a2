"""Where the store is, and opening it for one command."""

import getpass
import os
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

from catalog import may_hold_a_password
from ui.shared.command_refused import CommandRefused
from ui.shared.days import now
from ui.shared.extras import refuse_without

if TYPE_CHECKING:
    from catalog import Store


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
