"""Work against a verdict that asks for the vet first: when a written reason is enough, and what then still holds.

It never is for an absolute row, nor for one that is the vet's or the law's alone to lift. What was set aside is told in
every document, and its work is light.
"""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from haywisp.findings.gate import gate
from haywisp.findings.types import Fact, Held, Overridden, Override, Reason
from haywisp.knowledge.types import Caution, Tables
from haywisp.record.types import OVERRIDE, Entry, current

STOOD_BY = frozenset(("accepted", "corrected"))
# The heaviest pressure anywhere once a row was set aside; own choice, no source.
STILL_AT_MOST = "light"


def may_be_set_aside(caution: Caution) -> bool:
    """Whether a written reason is enough to work in spite of a row."""
    return caution.verdict == "vet-first" and not caution.absolute and not caution.vet_alone


def overrides_in(entries: Iterable[Entry]) -> tuple[Override, ...]:
    """What was set aside at a visit, from the notes that somebody stands by."""
    return tuple(
        Override(_ids(entry.body.get("cautions")), str(entry.body.get("text", "")).strip(), entry.thread)
        for entry in current(entries)
        if entry.part == "note" and entry.body.get("kind") == OVERRIDE and entry.status in STOOD_BY
    )


def held(facts: Sequence[Fact], overrides: Sequence[Override], tables: Tables, *, first_visit: bool = False) -> Held:
    """The gate's advice, and the verdict that holds where rows of it were set aside.

    A row gives way where all the facts that raise it were known as its reason was written: the body is open again, at
    light pressure at most, and every place and technique that the row names stays out. Whatever else asks for the vet
    first goes on doing so.
    """
    advice = gate(facts, tables, first_visit=first_visit)
    aside = [
        Overridden(reason, override)
        for reason in advice.reasons
        if (row := tables.cautions.get(reason.caution)) is not None and may_be_set_aside(row)
        for override in [next((one for one in overrides if _covers(one, reason)), None)]
        if override is not None
    ]
    if not aside:
        return Held(advice, advice)
    softened = {one.reason.caution: _softened(tables.cautions[one.reason.caution]) for one in aside}
    milder = replace(tables, cautions={**tables.cautions, **softened})
    found = gate(facts, milder, first_visit=first_visit)
    # What was set aside stays where it stood among the reasons: it is the weightiest still.
    ranks = {reason.caution: rank for rank, reason in enumerate(advice.reasons)}
    reasons = tuple(sorted(found.reasons, key=lambda reason: ranks[reason.caution]))
    return Held(advice, replace(found, reasons=reasons), tuple(aside))


def override_text(overrides: Iterable[Override], tables: Tables) -> tuple[str, ...]:
    """What every document of the visit has to show, whatever was answered since: a line for each reason."""
    return tuple(
        f"Work without waiting for the vet, who should come first ({_names(one, tables)}). "
        f"The reason that was written: “{one.reason}” No vet agreed to it by this."
        for one in overrides
    )


def _names(override: Override, tables: Tables) -> str:
    """The rows by their names in the table's order, what it doesn't know by its id."""
    known = [row.name for row in tables.cautions.values() if row.id in override.cautions]
    return ", ".join([*known, *sorted(override.cautions - tables.cautions.keys())])


def _covers(override: Override, reason: Reason) -> bool:
    known = override.known
    return reason.caution in override.cautions and (
        known is None or all(not fact.entry or fact.entry in known for fact in reason.facts)
    )


def _softened(caution: Caution) -> Caution:
    return replace(
        caution,
        verdict="within-limits",
        site="none" if caution.site == "body" else caution.site,
        pressure_cap=STILL_AT_MOST,
    )


def _ids(value: object) -> frozenset[str]:
    return frozenset(str(one) for one in value) if isinstance(value, list | tuple) else frozenset()
