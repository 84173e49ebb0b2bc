"""``haywisp gate``: may this horse be worked on, and within which limits?"""

from typing import TYPE_CHECKING, Annotated

import typer

from haywisp.commands.horses import Json
from haywisp.commands.opening import opened
from haywisp.commands.output import as_json, heading, items, say

if TYPE_CHECKING:
    from haywisp.usecases.views.gating import GateView
    from haywisp.usecases.views.shared import ReasonView

# What it takes to work in spite of a reason; the keys are those of ReasonView.gives_way_to.
GIVES_WAY = {
    "nobody": "Vet first, and no reason sets it aside.",
    "vet": "Vet first: only the vet's word, or what the law wants, lifts it.",
    "reason": "Vet first, unless a reason is written down for the visit.",
    "": "Work within limits.",
}


def gate(
    context: typer.Context,
    horse: Annotated[str, typer.Argument(help="A horse's name or id; none for the facts that are given alone.")] = "",
    flag: Annotated[
        list[str] | None, typer.Option(metavar="ID", help="A red flag, such as fever; repeatable (`haywisp know`).")
    ] = None,
    finding: Annotated[
        list[str] | None,
        typer.Option(metavar="TEXT", help="What was felt, such as “left longissimus-dorsi warmth warm”; repeatable."),
    ] = None,
    sign: Annotated[
        list[str] | None, typer.Option(metavar="ID", help="How the horse answered, such as kick-threat; repeatable.")
    ] = None,
    action: Annotated[
        list[str] | None, typer.Option(metavar="ID", help="What was decided, such as refer-vet; repeatable.")
    ] = None,
    first_visit: Annotated[bool, typer.Option("--first-visit", help="It is the first session.")] = False,
    json: Json = False,
) -> None:
    """Say whether the vet comes first, why, and what the work has to leave out.

    With a horse it is judged as it is known: what stays with it, its newest visit, what still stands of those before.
    Facts that are given are asked about besides; nothing is kept.
    """
    from haywisp import bootstrap
    from haywisp.usecases.gating import facts_told, gate_for_facts, gate_for_horse
    from haywisp.usecases.naming import horse_named

    given = {"flags": flag or (), "findings": finding or (), "signs": sign or (), "actions": action or ()}
    if horse.strip():
        with opened(context) as app:
            facts = facts_told(app.tables(), **given)
            view = gate_for_horse(app, horse_named(app, horse).id, facts, first_visit=first_visit)
    else:
        tables = bootstrap.tables()
        view = gate_for_facts(tables, facts_told(tables, **given), first_visit=first_visit)
    as_json(view) if json else _print_gate(view)


def _print_gate(view: "GateView") -> None:
    if view.horse:
        heading(f"{view.horse.name}: {view.verdict.name[:1].lower()}{view.verdict.name[1:]}")
        say(f"From the visit of {view.visit.name}." if view.visit else "Nothing is recorded of a visit yet.")
    else:
        heading(view.verdict.name)
    for sentence in view.verdict.set_aside:
        say(sentence)
    for reason in view.verdict.reasons:
        _print_reason(reason)
    limits = [view.verdict.pressure, *view.verdict.excluded, *view.verdict.techniques, *view.verdict.caps]
    heading("What that changes in a plan")
    items(f"{limit}." for limit in limits if limit)
    if not any(limits):
        say("Nothing.")
    heading("Always")
    items(view.cautions)


def _print_reason(reason: "ReasonView") -> None:
    heading(f"{reason.name} ({reason.caution})")
    say(GIVES_WAY[reason.gives_way_to])
    because = [
        sentence for sentence in dict.fromkeys(fact.sentence for fact in reason.because) if sentence != reason.name
    ]
    if because:
        say(f"Because: {'; '.join(because)}.")
    say(f"To the owner: {reason.wording}")
    say(f"Source: {reason.source}.")
