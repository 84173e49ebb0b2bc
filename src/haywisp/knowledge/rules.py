"""The checks of the tables that conclude: actions, cautions, flags, patterns and exercises."""

from collections.abc import Iterator

from haywisp.knowledge.flaws import among, blank, known, places, value_known, within
from haywisp.knowledge.types import ActionKind, Caution, Exercise, Flag, Pattern, Tables, Trigger

VERDICTS = ("vet-first", "within-limits")
TRIGGER_KINDS = ("finding", "action", "sign", "flag")
SITES = ("found", "found-cap", "body", "none")
CAPS = ("", "light", "moderate")
FLAG_GROUPS = ("illness", "readings", "lameness", "skin", "vet", "yard", "breeding", "today", "handling")
CALLS = ("", "vet", "saddler", "dentist", "farrier")
HEAVIEST_WEIGHT = 3.0  # log-odds; 3 turns even odds into 95 %


def action_wrong(row: ActionKind, tables: Tables) -> Iterator[str]:
    """What is wrong with a kind of action: how the owner reads it."""
    yield from blank(row, "wording")


def flag_wrong(row: Flag, tables: Tables) -> Iterator[str]:
    """What is wrong with a flag: its question and group, and that a caution reads it."""
    yield from blank(row, "asks")
    yield from among("group", row.group, FLAG_GROUPS)
    read = {trigger.id for caution in tables.cautions.values() for trigger in caution.triggers}
    if row.id not in read:
        yield "no caution reads it."


def caution_wrong(row: Caution, tables: Tables) -> Iterator[str]:
    """What is wrong with a caution: its triggers, and limits that say what they hold for."""
    yield from blank(row, "owner_wording")
    yield from among("verdict", row.verdict, VERDICTS)
    yield from among("site", row.site, SITES)
    yield from among("pressure_cap", row.pressure_cap, CAPS)
    yield from known("structures", row.structures, places(tables))
    yield from known("techniques", row.techniques, tables.techniques)
    if not row.triggers:
        yield "it has no triggers."
    for trigger in row.triggers:
        yield from _trigger_wrong(trigger, tables)
    if row.absolute and row.verdict != "vet-first":
        yield "only a vet-first rule can be absolute."
    if row.vet_alone and (row.verdict != "vet-first" or row.absolute):
        yield "only a vet-first rule that isn't absolute can be the vet's alone."
    if row.site == "found-cap" and not row.pressure_cap:
        yield "site 'found-cap' needs a pressure_cap."
    if row.site == "found-cap" and any(trigger.kind != "finding" for trigger in row.triggers):
        yield "site 'found-cap' needs findings as triggers: nothing else has a place."
    if row.site == "found" and all(trigger.kind != "finding" for trigger in row.triggers):
        yield "site 'found' needs a finding among its triggers: nothing else has a place."
    if row.all_triggers and len(row.triggers) < 2:
        yield "all_triggers needs two triggers or more."


def _trigger_wrong(trigger: Trigger, tables: Tables) -> Iterator[str]:
    yield from among("a trigger's kind", trigger.kind, TRIGGER_KINDS)
    named = {"action": tables.actions, "sign": tables.signs, "flag": tables.flags}
    if trigger.kind in named:
        yield from known(f"a trigger of kind {trigger.kind}", [trigger.id], named[trigger.kind])
    if trigger.kind == "finding":
        yield from known("a trigger", trigger.structures, places(tables))
        yield from value_known("a trigger", trigger.aspect, trigger.value, tables)
        if not (trigger.aspect or trigger.structures):
            yield "a trigger of kind finding must name an aspect or structures."


def pattern_wrong(row: Pattern, tables: Tables) -> Iterator[str]:
    """What is wrong with a pattern: its figures, its evidence and what comes next."""
    yield from blank(row, "says", "check_next")
    yield from among("call", row.call, CALLS)
    yield from within("prior", row.prior, 0.001, 0.999)
    if not any(evidence.weight > 0 for evidence in row.evidence):
        yield "no evidence speaks for it."
    for evidence in row.evidence:
        yield from known("evidence", evidence.structures, places(tables))
        yield from value_known("evidence", evidence.aspect, evidence.value, tables)
        yield from blank(evidence, "aspect", "value")
        yield from within("the weight of evidence", evidence.weight, -HEAVIEST_WEIGHT, HEAVIEST_WEIGHT)
        if evidence.weight == 0:
            yield "evidence of weight 0 says nothing."


def exercise_wrong(row: Exercise, tables: Tables) -> Iterator[str]:
    """What is wrong with an exercise: its dose, and when it must not be done."""
    yield from blank(row, "how", "never")
    yield from among("action", row.action, ("", *tables.actions))
    yield from known("suits", row.suits, places(tables))
    yield from within("repetitions", row.repetitions, 1, 50)
    yield from within("hold_s", row.hold_s, 0, 600)
    yield from within("days_per_week", row.days_per_week, 1, 7)
