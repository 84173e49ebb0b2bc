"""The history of the tables, as Alembic keeps it."""
