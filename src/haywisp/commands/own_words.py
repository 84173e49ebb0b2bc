"""``haywisp words`` and ``haywisp visit read-again``: the practitioner's own words."""

from typing import TYPE_CHECKING, Annotated

import typer

from haywisp.commands.horses import Json
from haywisp.commands.opening import opened
from haywisp.commands.output import as_json, say, short, table
from haywisp.commands.visits import Visit

if TYPE_CHECKING:
    from haywisp.usecases.views import RereadPage

words = typer.Typer(help="Words of your own: pet names, and what is written instead of a name.", no_args_is_help=True)
Phrase = Annotated[str, typer.Argument(help="The words that you say, in quotes where they are several.")]
WHAT = {
    "new": "new, to be reviewed",
    "changed": "changed, to be reviewed",
    "gone": "left out",
    "surer": "the same, questions asked anew",
    "stays": "stays as you decided",
}


@words.command("list")
def list_words(context: typer.Context, json: Json = False) -> None:
    """List your own words with what they mean."""
    from haywisp.usecases.own_words import own_words

    with opened(context) as app:
        rows = own_words(app)
    if json:
        as_json(rows)
        return
    table(
        ("Words", "Mean", "What", "How", "Kept", "Id"),
        ((row.phrase, row.meaning_name, row.kind_name, _how(row.misheard), row.day, short(row.id)) for row in rows),
        "No words yet. Teach some with: haywisp words teach WORDS MEANING",
    )


@words.command("teach")
def teach(
    context: typer.Context,
    phrase: Phrase,
    meaning: Annotated[str, typer.Argument(help="The structure, technique or sign, by id or name.")],
    misheard: Annotated[bool, typer.Option("--misheard", help="It is how the name is misheard.")] = False,
    anyway: Annotated[bool, typer.Option("--anyway", help="Even where they mean something else already.")] = False,
    json: Json = False,
) -> None:
    """Keep words for every narration that is heard from now on; earlier visits stay as they are."""
    from haywisp.narration.types import OwnWord
    from haywisp.usecases import own_words as usecase

    with opened(context) as app:
        kind, found = usecase.meaning_named(app, meaning)
        try:
            kept = usecase.teach(app, OwnWord(kind, phrase, found, misheard), anyway=anyway)
        except usecase.OwnWordWarned as refused:
            raise usecase.OwnWordWarned(refused.warnings, "keep them all the same with --anyway") from refused
        heard = usecase.heard_at(app, kept.phrase)
    if json:
        as_json(kept)
        return
    say(f"Kept: “{kept.phrase}” means {kept.meaning_name} ({kept.kind_name}) from the next narration on.")
    if heard:
        visits = "1 visit that was" if len(heard) == 1 else f"{len(heard)} visits that were"
        say(f"It was said at {visits} heard before; what is kept of them stays as it is.")


@words.command("forget")
def forget(
    context: typer.Context,
    phrase: Annotated[str, typer.Argument(help="The words, or the start of their id.")],
) -> None:
    """Take words off the list; visits that were understood with them stay as they are."""
    from haywisp.usecases import own_words as usecase

    with opened(context) as app:
        gone = usecase.forget(app, usecase.own_word_named(app, phrase).id)
    say(f"Off the list: “{gone.phrase}” for {gone.meaning_name}.")


@words.command("heard")
def heard(context: typer.Context, phrase: Phrase, json: Json = False) -> None:
    """Where words were said before, and how often."""
    from haywisp.usecases.own_words import heard_at

    with opened(context) as app:
        rows = heard_at(app, phrase)
    if json:
        as_json(rows)
        return
    table(
        ("Day", "Horse", "Times", "Visit"),
        ((row.day, row.horse, row.times, short(row.visit.id)) for row in rows),
        "Not said in any narration that is kept.",
    )


def read_again(
    context: typer.Context,
    visit: Visit,
    yes: Annotated[bool, typer.Option("--yes", help="Do it; without, only what would change is told.")] = False,
    json: Json = False,
) -> None:
    """What reading a visit again with today's own words would change; nothing is done without --yes."""
    from haywisp.usecases import rereading as usecase
    from haywisp.usecases.naming import visit_named

    with opened(context) as app:
        visit_id = visit_named(app, visit).id
        page = usecase.reread_page(app, visit_id)
        if yes:
            usecase.read_again(app, visit_id, page.mark)
    if json:
        as_json(page)
        return
    _print_reread(page)
    if yes:
        say("Done. Look at it with: haywisp visit show " + short(page.visit.id))
    elif page.changes:
        say("Nothing was changed. Do it with --yes.")


def _print_reread(page: "RereadPage") -> None:
    if page.added:
        say("On your list since: " + ", ".join(f"“{phrase}”" for phrase in page.added))
    if page.dropped:
        say("On your list no more: " + ", ".join(f"“{phrase}”" for phrase in page.dropped))
    table(
        ("Time", "What", "As it is", "As it would be"),
        ((one.time, WHAT[one.what], one.before, one.after) for one in page.changes),
        "No entry would change.",
    )


def _how(misheard: bool) -> str:
    return "misheard" if misheard else "my name"
