"""``haywisp horse``, ``haywisp horses`` and ``haywisp today``."""

from typing import TYPE_CHECKING, Annotated

import typer

from haywisp.commands.opening import opened
from haywisp.commands.output import JSON_OPTION, as_json, heading, items, say, short, table

if TYPE_CHECKING:
    from haywisp.usecases.views import HorsePage, VerdictView, VisitRow

horses = typer.Typer(help="Horses: add, list, look at one.", no_args_is_help=True)
Json = Annotated[bool, JSON_OPTION]
Text = Annotated[str, typer.Argument(help="Words in the name of the horse, its owner or its yard.")]
NO_HORSES = "No horses yet. See: haywisp horse add --help"
# Shorter than on a page: a terminal has 80 columns.
STATUSES = {"heard": "to review"}
HORSE = typer.Argument(help="The horse's name, its id or the start of its id.")


@horses.command("add")
def add_horse(
    context: typer.Context,
    name: str,
    owner: Annotated[str, typer.Option(help="The owner's name or id.")],
    yard: Annotated[str, typer.Option(help="The yard's name or id.")],
    breed: str = "",
    sex: str = "",
    born: Annotated[str, typer.Option(help="Year of birth.")] = "",
    height_cm: Annotated[str, typer.Option(help="Height at the withers in centimetres.")] = "",
    work: Annotated[str, typer.Option(help="What the horse does.")] = "",
    notes: str = "",
    flag: Annotated[list[str] | None, typer.Option(help="A standing fact for the gate; may be repeated.")] = None,
    json: Json = False,
) -> None:
    """Add a horse."""
    from haywisp.usecases import people
    from haywisp.usecases.naming import owner_named, yard_named

    with opened(context) as app:
        horse = people.add_horse(
            app,
            name,
            owner_named(app, owner).id,
            yard_named(app, yard).id,
            breed=breed,
            sex=sex,
            born=born,
            height_cm=height_cm,
            work=work,
            notes=notes,
            flags=flag or [],
        )
    as_json(horse) if json else say(f"Added horse {horse.name} ({short(horse.id)}).")


@horses.command("list")
def list_horses(context: typer.Context, text: Text = "", json: Json = False) -> None:
    """List horses with their owner, yard, last visit and what waits for review."""
    from haywisp.usecases import horses as usecase

    with opened(context) as app:
        rows = usecase.list_horses(app, text, limit=10_000)
    if json:
        as_json(rows)
        return
    table(
        ("Horse", "Owner", "Yard", "Last visit", "Waiting", "Id"),
        ((row.name, row.owner.name, row.yard.name, row.last_day, row.waiting or "", short(row.id)) for row in rows),
        f"No horse has “{text}” in its name, owner or yard."
        if text
        else "No horses yet. See: haywisp horse add --help",
    )


@horses.command("show")
def show_horse(context: typer.Context, horse: Annotated[str, HORSE], json: Json = False) -> None:
    """Everything on one horse: visits, changes, what belongs together, and the verdict for next time."""
    from haywisp.usecases.horses import horse_page
    from haywisp.usecases.naming import horse_named

    with opened(context) as app:
        page = horse_page(app, horse_named(app, horse).id)
    as_json(page) if json else _print_horse(page)


def today(context: typer.Context, json: Json = False) -> None:
    """Today's visits, what waits for review, and the horses that are due again."""
    from haywisp.usecases import today as usecase

    with opened(context) as app:
        page = usecase.today(app)
    if json:
        as_json(page)
        return
    heading(f"Today, {page.day}")
    visits_table(page.visits, "No visits today.")
    heading("To be reviewed")
    visits_table(page.waiting, "Nothing waits for review.")
    heading("Due again")
    due = ((row.horse.name, row.owner.name, row.decided, f"{row.days_ago} days", row.wording) for row in page.due)
    table(("Horse", "Owner", "Decided", "Ago", "What"), due, "No horse is due.")


def visits_table(rows: "tuple[VisitRow, ...]", empty: str) -> None:
    """Visits as every list shows them."""
    table(
        ("Day", "Horse", "No.", "Status", "Asks", "Bouts", "Found", "Id"),
        (
            (
                row.day,
                row.horse.name,
                row.number,
                STATUSES.get(row.status, row.status),
                row.open_questions or "",
                row.bouts or "",
                "\n".join(row.headline),
                short(row.id),
            )
            for row in rows
        ),
        empty,
    )


def print_verdict(verdict: "VerdictView") -> None:
    """The gate's verdict with its reasons and limits."""
    say(verdict.name + ".")
    for reason in verdict.reasons:
        because = "; ".join(fact.sentence for fact in reason.because)
        told = f": {because}" if because and because != reason.name else ""
        items([f"{reason.name}{told}. To the owner: {reason.wording}"])
    limits = [*filter(None, [verdict.pressure]), *verdict.excluded, *verdict.techniques, *verdict.caps]
    if limits:
        say("What that changes in a plan:")
        items(f"{limit}." for limit in limits)


def _print_horse(page: "HorsePage") -> None:
    horse = page.horse
    invented = " (invented)" if horse.invented else ""
    heading(f"{horse.name}{invented} ({short(horse.id)})")
    height = f"{horse.height_cm:g} cm" if horse.height_cm else ""
    born = f"born {horse.born}" if horse.born else ""
    say(", ".join(filter(None, [horse.breed, horse.sex, born, height, horse.work])) or "No details.")
    say(f"Owner: {page.owner.name}. Yard: {page.yard.name}.")
    if page.flags:
        say("Standing facts: " + ", ".join(flag.label for flag in page.flags) + ".")
    if horse.notes:
        say(horse.notes)
    heading("Next time")
    print_verdict(page.verdict)
    heading("Visits")
    visits_table(page.visits, "No visits yet.")
    heading("From visit to visit")
    table(
        ("What", "Found", "Change"),
        (
            (strand.title, ", ".join(f"{day:%d.%m.%y} {value}" for day, value in strand.values[-4:]), strand.change)
            for strand in page.strands
        ),
        "Nothing reviewed yet.",
    )
    heading("What may belong together (never a diagnosis)")
    items(
        f"{pattern.name} ({pattern.probability:.0%}): {pattern.says} Check next: {pattern.check_next}"
        for pattern in page.patterns
    )
    if not page.patterns:
        say("Nothing stands out.")
