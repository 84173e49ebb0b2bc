"""Keep people, horses, visits and what was said of them in SQLite or PostgreSQL; the only room that knows SQL."""

from haywisp.store.errors import Busy, Conflict, Stale, StoreError, Unreachable, Unstorable, WrongDatabase
from haywisp.store.opening import open_store
from haywisp.store.types import Store, Unit, Units

__all__ = [
    "Busy",
    "Conflict",
    "Stale",
    "Store",
    "StoreError",
    "Unit",
    "Units",
    "Unreachable",
    "Unstorable",
    "WrongDatabase",
    "open_store",
]
