"""The same places for stores as in the store's own tests, and a way to start processes cheaply."""

import multiprocessing
from multiprocessing.context import ForkServerContext

import pytest

from tests.catalog.store.conftest import (  # noqa: F401
    clock,
    empty_place,
    filled_database,
    filled_file,
    postgres_server,
    store_place,
)


@pytest.fixture(scope="session")
def processes() -> ForkServerContext:
    """Starts processes from a small server that has imported the store once and holds no connection."""
    context = multiprocessing.get_context("forkserver")
    context.set_forkserver_preload(["tests.crash.savers"])
    return context
