"""Open a store by its address, without importing the database library before it is needed."""

from haywisp.store.types import Store


def open_store(url: str) -> Store:
    """A store at ``sqlite:///file``, ``sqlite://`` (in memory, for a trial) or ``postgresql://…``.

    Nothing is read or written until the first unit or :meth:`Store.migrate`. Raises
    :class:`haywisp.store.WrongDatabase` for any other address.
    """
    from haywisp.store.database import Database

    return Database(url)
