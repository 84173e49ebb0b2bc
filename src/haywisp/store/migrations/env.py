"""Alembic's entry: run the migrations on the connection that was handed over, inside its transaction."""

from alembic import context

from haywisp.store.tables import metadata

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=metadata,
    transactional_ddl=True,
    render_as_batch=True,
)
with context.begin_transaction():
    context.run_migrations()
