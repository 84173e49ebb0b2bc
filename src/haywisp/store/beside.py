"""What is kept beside a database: the sound of recordings, and what workers have done."""

from pathlib import Path


def recordings_beside(url: str) -> Path | None:
    """The folder beside a SQLite file; None for a database in memory or on a server."""
    file = _file(url)
    return None if file is None else file.with_name(f"{file.stem}-recordings")


def jobs_beside(url: str) -> str:
    """Where workers keep what they have done: a file beside a SQLite file, or the database on the server itself."""
    from haywisp.store.engines import read_url

    file = _file(url)
    if file is None:
        return read_url(url).render_as_string(hide_password=False)
    return f"sqlite:///{file.with_name(f'{file.stem}-jobs.db').as_posix()}"


def _file(url: str) -> Path | None:
    from haywisp.store.engines import read_url

    read = read_url(url)
    if read.get_backend_name() != "sqlite" or read.database in (None, "", ":memory:"):
        return None
    return Path(str(read.database).removeprefix("file:"))
