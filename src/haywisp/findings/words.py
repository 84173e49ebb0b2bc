"""A fact in words, for the reasons that travel with a limit or a pattern."""

from haywisp.findings.types import Fact
from haywisp.knowledge.types import Tables


def structure_name(structure: str, tables: Tables) -> str:
    """The name to print: the first spoken form, else the table's name, else the id."""
    row = tables.structures.get(structure)
    if row is None:
        return structure
    return row.spoken[0] if row.spoken else row.name


def place(structure: str, side: str | None, tables: Tables) -> str:
    """A structure with its side: ``splenius, left``."""
    name = structure_name(structure, tables)
    return name if side is None else f"{name}, {'both sides' if side == 'both' else side}"


def say(fact: Fact, tables: Tables) -> str:
    """A fact as a phrase: ``tone tight (splenius, left)``; an action, sign or flag by its name."""
    if fact.kind == "finding":
        aspect = tables.aspects.get(fact.aspect)
        name = fact.aspect if aspect is None else aspect.name.lower()
        return f"{name} {fact.value} ({place(fact.structure, fact.side, tables)})"
    if fact.kind == "action":
        action = tables.actions.get(fact.id)
        return fact.id if action is None else action.name.lower()
    if fact.kind == "sign":
        sign = tables.signs.get(fact.id)
        return fact.id if sign is None else sign.name.lower()
    flag = tables.flags.get(fact.id)
    return fact.id if flag is None else flag.name.lower()
