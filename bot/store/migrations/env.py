"""Runs the migrations within the transaction that was handed over. Alembic loads this file."""

from alembic import context

from bot.store.schema import metadata

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=metadata,
    render_as_batch=True,
    transactional_ddl=False,  # the transaction belongs to the caller, for SQLite too
)
context.run_migrations()
