"""The same on both databases: a worker's own file, or a database of its own on the server given to the tests."""

import os
import uuid
from collections.abc import Iterator
from pathlib import Path

import pytest

SERVER = os.environ.get("HAYWISP_TEST_POSTGRESQL", "")


@pytest.fixture(params=["sqlite", pytest.param("postgresql", marks=pytest.mark.postgresql)])
def jobs_url(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    """Where a worker keeps what it has done."""
    if request.param == "sqlite":
        yield f"sqlite:///{tmp_path / 'jobs.db'}"
        return
    if not SERVER:
        pytest.skip("HAYWISP_TEST_POSTGRESQL isn't set: the worker ran on SQLite only")
    import psycopg

    name = f"jobs_{uuid.uuid4().hex}"
    with psycopg.connect(SERVER, autocommit=True) as connection:
        connection.execute(f"CREATE DATABASE {name}")
        yield f"{SERVER.rsplit('/', 1)[0]}/{name}".replace("postgresql://", "postgresql+psycopg://")
        connection.execute(f"DROP DATABASE {name} WITH (FORCE)")
