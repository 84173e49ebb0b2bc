"""``haywisp visit asked``: today's questions before touching, listed or answered."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Annotated

import typer

from haywisp.commands.horses import Json
from haywisp.commands.opening import opened
from haywisp.commands.output import as_json, heading, say, table
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
            table(("Flag", "Question", "Answer"), ((one.flag, one.text, answers[one.yes]) for one in questions), "")
    say()
    say(page.told or "Nothing is answered yet. Answer with --yes FLAG for each yes, or with --no-to-all.")
