"""``haywisp visit asked``: today's questions before touching, listed or answered."""

from collections.abc import Sequence
from itertools import groupby
from typing import TYPE_CHECKING, Annotated

import typer

from haywisp.commands.horses import Json
from haywisp.commands.opening import opened
from haywisp.commands.output import as_json, heading, items, say, table
from haywisp.commands.visits import Visit

if TYPE_CHECKING:
    from haywisp.usecases.views.asking import AskPage


def asked(
    context: typer.Context,
    visit: Visit,
    yes: Annotated[
        list[str] | None, typer.Option(metavar="FLAG", help="Answered with yes, by the flag in the list; repeatable.")
    ] = None,
    no: Annotated[
        list[str] | None, typer.Option(metavar="FLAG", help="Answered with no after a yes; repeatable.")
    ] = None,
    no_to_all: Annotated[bool, typer.Option("--no-to-all", help="All of them are answered with no.")] = False,
    agreement: Annotated[
        str | None, typer.Option(help="The vet's agreement and the owner's consent: who, when, how.")
    ] = None,
    json: Json = False,
) -> None:
    """Keep the answers to today's questions before touching; without options, list them with what is answered.

    A question that is answered with neither is kept as a no; one that is known, or was answered with yes, stays a yes.
    """
    from haywisp.usecases.asking import ask_page, keep_answers
    from haywisp.usecases.naming import visit_named
    from haywisp.usecases.visits import visit_page

    with opened(context) as app:
        visit_id = visit_named(app, visit).id
        page = ask_page(app, visit_id)
        keeps = bool(yes or no or no_to_all) or agreement is not None
        if keeps:
            answered = _answered(page, yes or (), no or (), no_to_all)
            page = keep_answers(app, visit_id, answered, page.agreement if agreement is None else agreement)
        verdict = visit_page(app, visit_id).at_start.name
    if json:
        as_json(page)
        return
    if keeps:
        say(f"Kept. {page.told}")
    else:
        _print_questions(page)
    say(f"Before touching: {verdict[:1].lower()}{verdict[1:]}.")


def _answered(page: "AskPage", yes: Sequence[str], no: Sequence[str], no_to_all: bool) -> set[str]:
    """The flags that are answered with yes: a yes that stands stays one until it is answered with no."""
    from haywisp.usecases import Refused

    questions = {one.flag: one.yes for one in (*page.vet_first, *page.limits)}
    unknown = [flag for flag in (*yes, *no) if flag not in questions]
    if unknown:
        raise Refused(f"“{unknown[0]}” is no question of today; choose one of {', '.join(questions)}.")
    if set(yes) & set(no) or (no_to_all and yes):
        raise Refused("One question can't be answered with yes and with no. Nothing was saved.")
    if not (yes or no or no_to_all or page.told):
        raise Refused("Nothing is answered yet: give --yes FLAG or --no-to-all with it. Nothing was saved.")
    stands = set() if no_to_all else {flag for flag, so in questions.items() if so}
    return (stands | set(yes)) - set(no)


def _print_questions(page: "AskPage") -> None:
    for title, questions in (("A yes here: the vet first", page.vet_first), ("A yes here: limits", page.limits)):
        if questions:
            heading(title)
            answers = {True: "yes", False: "no"} if page.told else {True: "known", False: ""}
            for group, asked_together in groupby(questions, key=lambda one: one.group):
                rows = ((one.flag, one.text, answers[one.yes]) for one in asked_together)
                table(("Flag", group or "Question", "Answer"), rows, "")
                say()
    say()
    say(page.told or "Nothing is answered yet. Answer with --yes FLAG for each yes, or with --no-to-all.")


def reading(
    context: typer.Context,
    visit: Visit,
    what: Annotated[str, typer.Argument(help="A vital sign or a scale, such as temperature or body-condition.")] = "",
    value: Annotated[str, typer.Argument(help="What was read or scored: 38.2, “101 F”, 5.")] = "",
    site: Annotated[str, typer.Option(help="The part, of a scale that is scored in parts.")] = "",
    side: Annotated[str, typer.Option(help="left or right, where one side is scored.")] = "",
    observer: Annotated[str, typer.Option(help="Who looked and felt; the practitioner unless told.")] = "",
    json: Json = False,
) -> None:
    """Keep a vital sign or a score with its limits; without one, list what is kept and what can be."""
    from haywisp.usecases.naming import visit_named
    from haywisp.usecases.readings import choices, keep_reading, readings
    from haywisp.usecases.visits import visit_page

    with opened(context) as app:
        visit_id = visit_named(app, visit).id
        if what:
            kept = keep_reading(app, visit_id, what, value, site=site, side=side, observer=observer)
            verdict = visit_page(app, visit_id).at_start.name
        listed, known = readings(app, visit_id), choices(app.tables())
    if json:
        as_json(kept if what else {"kept": listed, "choices": known})
        return
    if what:
        say(f"Kept. {kept.sentence}.")
        items(kept.says)
        say(f"Before touching: {verdict[:1].lower()}{verdict[1:]}.")
        return
    heading("Kept")
    table(("Reading", "What it says"), ((one.sentence, " ".join(one.says)) for one in listed), "Nothing yet.")
    heading("What can be read")
    table(
        ("Name", "", "Range", "Parts"),
        ((one.id, one.name, one.range, ", ".join(part.value for part in one.parts)) for one in known),
        "Nothing.",
    )
