"""The same contract on both databases: every test that asks for ``store`` or ``url`` runs on SQLite and PostgreSQL."""

import os
import uuid
from collections.abc import Iterator
from pathlib import Path

import pytest

from haywisp.store import Store, open_store

SERVER = os.environ.get("HAYWISP_TEST_POSTGRESQL", "")
DATABASES = ["sqlite", *([pytest.param("postgresql", marks=pytest.mark.postgresql)] if SERVER else [])]


@pytest.fixture
def schema_url() -> Iterator[str]:
    """The address of a new schema on the server given to the tests."""
    if not SERVER:
        pytest.skip(
            "the store's tests ran on SQLite only: HAYWISP_TEST_POSTGRESQL isn't set"
            " (scripts/postgresql_for_tests.sh starts a server and prints its address)"
        )
    import psycopg

    schema = f"test_{uuid.uuid4().hex}"
    with psycopg.connect(SERVER, autocommit=True) as connection:
        connection.execute(f"CREATE SCHEMA {schema}")
        yield f"{SERVER}?options=-csearch_path%3D{schema}"
        connection.execute(f"DROP SCHEMA {schema} CASCADE")


@pytest.fixture(params=DATABASES)
def url(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """The address of an empty database: a new file, or a new schema."""
    if request.param == "sqlite":
        return f"sqlite:///{tmp_path / 'haywisp.db'}"
    return str(request.getfixturevalue("schema_url"))


@pytest.fixture
def store(url: str) -> Iterator[Store]:
    """A migrated store."""
    opened = open_store(url)
    opened.migrate()
    yield opened
    opened.close()
