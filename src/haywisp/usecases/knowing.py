"""What the tables hold under an id or a name."""

from haywisp.knowledge import describe, find
from haywisp.knowledge.listing import TABLES, Description, ids
from haywisp.knowledge.types import Tables
from haywisp.usecases.errors import NotFound


def known(tables: Tables, what: str = "") -> tuple[Description, ...]:
    """Every row that is called so: exact ids alone when there are any, everything when nothing is asked."""
    if not what.strip():
        return tuple(one for table in TABLES for row in ids(tables, table) for one in _rows(tables, table, row))
    exact = describe(tables, what.strip().lower())
    found = exact or tuple(one for table, row in find(tables, what) for one in _rows(tables, table, row))
    if not found:
        raise NotFound("entry in the tables", what, "List them all with: haywisp know")
    return found


def _rows(tables: Tables, table: str, row_id: str) -> tuple[Description, ...]:
    return tuple(one for one in describe(tables, row_id) if one.table == table)
