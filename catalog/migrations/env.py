"""What Alembic runs a migration in. The connection is handed over by catalog.store_upgrade; there is no ini file."""

from alembic import context

from catalog.store_rows import StoreTable

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=StoreTable.metadata,
    render_as_batch=True,
    transactional_ddl=True,  # SQLite too: catalog.store_engine opens its transactions itself
    compare_type=True,
)
with context.begin_transaction():
    context.run_migrations()
