"""Say what a row of the tables holds, for the command line and the pages."""

from haywisp.knowledge.types import Tables


def find(tables: Tables, row_id: str) -> tuple[tuple[str, object], ...]:
    """The rows of every table that carry this id, each with the name of its table."""
    named = {
        "structures": tables.structures,
        "techniques": tables.techniques,
        "signs": tables.signs,
        "aspects": tables.aspects,
        "actions": tables.actions,
        "cautions": tables.cautions,
        "patterns": tables.patterns,
        "exercises": tables.exercises,
        "flags": tables.flags,
    }
    return tuple((name, table[row_id]) for name, table in named.items() if row_id in table)


def describe(tables: Tables, row_id: str) -> tuple[tuple[str, object], ...]:
    """Placeholder until the listing is written."""
    return find(tables, row_id)
