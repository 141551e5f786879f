"""Run by Alembic: the connection, with its transaction begun, comes from `jobbook.db.schema`."""

from alembic import context

context.configure(connection=context.config.attributes["connection"], target_metadata=None)
context.run_migrations()
