"""The same places for stores as in the store's own tests."""

from tests.catalog.store.conftest import (  # noqa: F401
    clock,
    filled_database,
    filled_file,
    postgres_server,
    store_place,
)
