"""What the owner is asked to do: the decisions of the visit, and the exercises that belong to them."""

from collections.abc import Sequence

from haywisp.findings.types import GateVerdict
from haywisp.knowledge import covers
from haywisp.knowledge.types import Exercise, Tables
from haywisp.record.types import Entry
from haywisp.report.owner_lines import structures_of
from haywisp.report.phrases import Phrases, humanised, table
from haywisp.report.types import ReportLine

MOST_EXERCISES = 3
STRETCHES = "baited-stretches"


def homework(
    kept: Sequence[Entry], verdict: GateVerdict, tables: Tables, *, wait_for_vet: bool
) -> tuple[ReportLine, ...]:
    """The decided actions in the order they are read, each once; work waits where a vet is asked for first."""
    words = table("owner", tables.language.code)
    order: list[str] = words["order"]["kinds"]
    kinds = {str(one.body.get("kind", "")) for one in kept if one.part == "action"}
    lines: list[ReportLine] = []
    for kind in sorted(kinds, key=lambda one: (order.index(one) if one in order else len(order), one)):
        row = tables.actions.get(kind)
        text = row.wording if row else humanised(kind)
        waits = wait_for_vet and kind in words["waits"]["kinds"]
        if kind == STRETCHES:
            lines += _stretches(text, kept, verdict, tables, waits)
        else:
            lines.append(ReportLine(text, words["lines"]["wait_for_vet"] if waits else ""))
    return tuple(lines)


def _stretches(text: str, kept: Sequence[Entry], verdict: GateVerdict, tables: Tables, waits: bool) -> list[ReportLine]:
    """The stretches that suit what was worked on; none where the gate rules them out."""
    says = table("owner", tables.language.code)["lines"]
    if "baited-stretch" in verdict.limits.techniques:
        return [ReportLine(str(says["no_stretches"]))]
    chosen = suiting(kept, verdict, tables)
    # What all of them share is told once, with the head.
    shared = {one.never for one in chosen}
    never = shared.pop() if len(shared) == 1 else ""
    head = ReportLine(text, " ".join(filter(None, [says["wait_for_vet"] if waits else "", never])))
    return [head, *(ReportLine(one.name, _how(one, says, told=bool(never))) for one in chosen)]


def suiting(kept: Sequence[Entry], verdict: GateVerdict, tables: Tables) -> list[Exercise]:
    """Up to three stretches: those for what was found before those for what was worked on, none for a place that is
    left alone.
    """
    excluded = {structure for structure, _ in verdict.limits.excluded}
    found = {one for entry in kept if entry.part == "finding" for one in structures_of(entry)}
    worked = {one for entry in kept if entry.part == "bout" for one in structures_of(entry)}
    ranked = []
    stretches = [one for one in tables.exercises.values() if one.action in (STRETCHES, "")]
    for number, exercise in enumerate(stretches):
        if not exercise.suits:
            ranked.append((2, number, exercise))
        elif _touches(exercise.suits, excluded, tables):
            continue
        elif _touches(exercise.suits, found, tables):
            ranked.append((0, number, exercise))
        elif _touches(exercise.suits, worked, tables):
            ranked.append((1, number, exercise))
    return [exercise for _, _, exercise in sorted(ranked, key=lambda one: one[:2])][:MOST_EXERCISES]


def _touches(suits: Sequence[str], structures: set[str], tables: Tables) -> bool:
    rows = [tables.structures[one] for one in structures if one in tables.structures]
    return any(covers(suits, row) for row in rows) or not structures.isdisjoint(suits)


def _how(exercise: Exercise, says: Phrases, *, told: bool) -> str:
    """How it is done and how often; ``told`` when its caution stands elsewhere."""
    text = says["exercise" if exercise.hold_s > 0 else "exercise_unheld"].format(
        how=exercise.how,
        repetitions=exercise.repetitions,
        hold=f"{exercise.hold_s:g}",
        days=exercise.days_per_week,
    )
    return " ".join(filter(None, [text, "" if told else exercise.never]))
