"""``haywisp horse``, ``haywisp horses`` and ``haywisp today``."""

from datetime import datetime
from typing import TYPE_CHECKING, Annotated

import typer

from haywisp.commands.opening import opened
from haywisp.commands.output import JSON_OPTION, as_json, heading, items, say, short, table
from haywisp.commands.people import Another, saying_another

if TYPE_CHECKING:
    from haywisp.usecases.views import HorsePage, VerdictView, VisitRow

horses = typer.Typer(help="Horses: add, list, look at one.", no_args_is_help=True)
Json = Annotated[bool, JSON_OPTION]
Text = Annotated[str, typer.Argument(help="Words in the name of the horse, its owner or its yard.")]
NO_HORSES = "No horses yet. See: haywisp horse add --help"
# Shorter than on a page: a terminal has 80 columns.
STATUSES = {"heard": "to review"}
HORSE = typer.Argument(help="The horse's name, its id or the start of its id.")

# The details that adding and changing a horse have in common.
BREED = typer.Option(help="Breed or type.")
SEX = typer.Option(help="Mare, gelding, stallion, filly or colt.")
WORK = typer.Option(help="What the horse does.")
UELN = typer.Option(help="Life number, 15 letters and digits.")
MICROCHIP = typer.Option(help="The chip's number, 15 digits.")
VET = typer.Option(help="The horse's vet: practice and telephone.")
HISTORY = typer.Option(help="Illness, injuries and operations, as told.")
MEDICINES = typer.Option(help="What the horse is given, and until when.")
TACK = typer.Option(help="Saddle, bridle, and when they were last fitted.")
TEETH = typer.Option(help="When they were last done, and what was found.")
FEET = typer.Option(help="Shod or bare, and when last done.")
INSURANCE = typer.Option(help="With whom, and the policy's number.")
HEIGHT = typer.Option("--height", "--height-cm", help="At the withers: 157 (cm), or in hands “15.2 hh”.")


@horses.command("add")
def add_horse(
    context: typer.Context,
    name: Annotated[str, typer.Argument(help="The horse's name.")],
    owner: Annotated[str, typer.Option(help="The owner's name or id.")],
    yard: Annotated[str, typer.Option(help="The yard's name or id.")],
    breed: Annotated[str, BREED] = "",
    sex: Annotated[str, SEX] = "",
    born: Annotated[str, typer.Option(help="Year of birth; “about 2012” is kept as 2012 with a note.")] = "",
    height: Annotated[str, HEIGHT] = "",
    work: Annotated[str, WORK] = "",
    notes: Annotated[str, typer.Option(help="Anything else that is known of the horse.")] = "",
    ueln: Annotated[str, UELN] = "",
    microchip: Annotated[str, MICROCHIP] = "",
    vet: Annotated[str, VET] = "",
    history: Annotated[str, HISTORY] = "",
    medicines: Annotated[str, MEDICINES] = "",
    tack: Annotated[str, TACK] = "",
    teeth: Annotated[str, TEETH] = "",
    feet: Annotated[str, FEET] = "",
    insurance: Annotated[str, INSURANCE] = "",
    flag: Annotated[
        list[str] | None,
        typer.Option(metavar="ID", help="What stays with the horse, such as head-shy (`haywisp know`); repeatable."),
    ] = None,
    another: Another = False,
    json: Json = False,
) -> None:
    """Add a horse."""
    from haywisp.usecases import people
    from haywisp.usecases.naming import owner_named, yard_named

    with opened(context) as app:
        whose, where = people.Whose(owner_named(app, owner).id), people.Whose(yard_named(app, yard).id)
        details = {
            "breed": breed,
            "sex": sex,
            "born": born,
            "height_cm": height,
            "work": work,
            "notes": notes,
            "ueln": ueln,
            "microchip": microchip,
            "vet": vet,
            "history": history,
            "medicines": medicines,
            "tack": tack,
            "teeth": teeth,
            "feet": feet,
            "insurance": insurance,
            "flags": flag or [],
        }
        with saying_another():
            horse = people.keep_horse(app, name, whose, where, details, another=another)
    as_json(horse) if json else say(f"Added horse {horse.name} ({short(horse.id)}).")


@horses.command("change")
def change_horse(
    context: typer.Context,
    horse: Annotated[str, HORSE],
    name: Annotated[str | None, typer.Option(help="The horse's new name.")] = None,
    owner: Annotated[str | None, typer.Option(help="The owner's name or id.")] = None,
    yard: Annotated[str | None, typer.Option(help="The yard's name or id.")] = None,
    breed: Annotated[str | None, BREED] = None,
    sex: Annotated[str | None, SEX] = None,
    born: Annotated[str | None, typer.Option(help="Year of birth, or “about 2012”.")] = None,
    height: Annotated[str | None, HEIGHT] = None,
    work: Annotated[str | None, WORK] = None,
    notes: Annotated[
        str | None, typer.Option(help="Anything else that is known; takes the place of the notes.")
    ] = None,
    ueln: Annotated[str | None, UELN] = None,
    microchip: Annotated[str | None, MICROCHIP] = None,
    vet: Annotated[str | None, VET] = None,
    history: Annotated[str | None, HISTORY] = None,
    medicines: Annotated[str | None, MEDICINES] = None,
    tack: Annotated[str | None, TACK] = None,
    teeth: Annotated[str | None, TEETH] = None,
    feet: Annotated[str | None, FEET] = None,
    insurance: Annotated[str | None, INSURANCE] = None,
    flag: Annotated[
        list[str] | None,
        typer.Option(metavar="ID", help="What stays with the horse, all of it; repeatable, and “” for nothing."),
    ] = None,
    another: Another = False,
    json: Json = False,
) -> None:
    """Change the details of a horse that are given; the others stay, and “” takes one away."""
    from haywisp.usecases import Refused, people
    from haywisp.usecases.naming import horse_named, owner_named, yard_named

    texts = {
        "breed": breed,
        "sex": sex,
        "born": born,
        "height_cm": height,
        "work": work,
        "notes": notes,
        "ueln": ueln,
        "microchip": microchip,
        "vet": vet,
        "history": history,
        "medicines": medicines,
        "tack": tack,
        "teeth": teeth,
        "feet": feet,
        "insurance": insurance,
        "flags": flag,
    }
    details = {key: value for key, value in texts.items() if value is not None}
    if not details and name is owner is yard is None:
        raise Refused("Nothing was given to change. See: haywisp horse change --help")
    with opened(context) as app:
        known = horse_named(app, horse)
        whose = people.Whose(known.owner_id if owner is None else owner_named(app, owner).id)
        where = people.Whose(known.yard_id if yard is None else yard_named(app, yard).id)
        called = known.name if name is None else name
        with saying_another("call it so all the same with --another"):
            kept = people.keep_horse(app, called, whose, where, details, horse_id=known.id, another=another)
    as_json(kept) if json else say(f"Changed horse {kept.name} ({short(kept.id)}).")


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


def round_(
    context: typer.Context,
    day: Annotated[
        datetime | None, typer.Argument(formats=["%Y-%m-%d"], help="The day, such as 2026-03-04; today unless told.")
    ] = None,
    json: Json = False,
) -> None:
    """A day's visits by yard, in the order to drive: yards in isolation last."""
    from haywisp.usecases.rounds import round_for

    with opened(context) as app:
        page = round_for(app, day.date() if day else app.clock().date())
    if json:
        as_json(page)
        return
    heading(f"Round of {page.day}")
    if not page.stops:
        say("No visits on this day. Open one with: haywisp visit open HORSE --day DAY")
    for number, stop in enumerate(page.stops, 1):
        isolation = ", in isolation" if stop.isolation else ""
        heading(f"{number}. {stop.name}{isolation} ({stop.minutes} minutes)")
        if stop.address:
            say(stop.address)
        table(
            ("Horse", "Owner", "Minutes", "Status", "Id"),
            ((row.horse.name, row.owner.name, row.minutes, _status(row), short(row.id)) for row in stop.visits),
            "",
        )
    if page.cautions:
        heading("On the way")
        items(page.cautions)


def _status(row: "VisitRow") -> str:
    return STATUSES.get(row.status, row.status)


def visits_table(rows: "tuple[VisitRow, ...]", empty: str) -> None:
    """Visits as every list shows them."""
    table(
        ("Day", "Horse", "No.", "Status", "Asks", "Bouts", "Found", "Id"),
        (
            (
                row.day,
                row.horse.name,
                row.number,
                _status(row),
                row.open_questions or "",
                row.bouts or "",
                "\n".join(row.headline),
                short(row.id),
            )
            for row in rows
        ),
        empty,
    )


def print_verdict(verdict: "VerdictView", told: "VerdictView | None" = None) -> None:
    """The gate's verdict with its reasons and limits; what ``told`` has said already is not said again."""
    if verdict == told:
        say("The same as before touching.")
        return
    say(verdict.name + ".")
    for sentence in verdict.set_aside:
        say(sentence)
    for reason in verdict.reasons:
        because = "; ".join(dict.fromkeys(fact.sentence for fact in reason.because))
        why = f": {because}" if because and because != reason.name else ""
        items([f"{reason.name}{why}. To the owner: {reason.wording}"])
    limits = _limits(verdict)
    if limits and told and limits == _limits(told):
        say("It changes the same in a plan as before touching.")
    elif limits:
        say("What that changes in a plan:")
        items(f"{limit}." for limit in limits)


def _limits(verdict: "VerdictView") -> list[str]:
    return [*filter(None, [verdict.pressure]), *verdict.excluded, *verdict.techniques, *verdict.caps]


def _print_horse(page: "HorsePage") -> None:
    horse = page.horse
    invented = " (invented)" if horse.invented else ""
    heading(f"{horse.name}{invented} ({short(horse.id)})")
    born = f"born {horse.born}" if horse.born else ""
    say(", ".join(filter(None, [horse.breed, horse.sex, born, page.height, horse.work])) or "No details.")
    say(f"Owner: {page.owner.name}. Yard: {page.yard.name}.")
    if page.flags:
        say("Standing facts: " + ", ".join(flag.label for flag in page.flags) + ".")
    if horse.notes:
        say(horse.notes)
    items(f"{name}: {text}" for name, text in (*page.numbers, *page.told))
    heading("Next time")
    print_verdict(page.verdict)
    heading("Visits")
    visits_table(page.visits, "No visits yet.")
    heading("From visit to visit")
    table(
        ("What", "Found", "Change"),
        (
            (strand.title, ", ".join(f"{day} {value}" for day, value in strand.values[-4:]), strand.change)
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
