"""``haywisp narrate``, ``plan``, ``report``, ``visit drawn``, ``weight`` and ``know``."""

from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from haywisp.commands.files import read_narration, write_file
from haywisp.commands.horses import Json, print_verdict
from haywisp.commands.opening import opened
from haywisp.commands.output import as_json, heading, items, pairs, say, table
from haywisp.commands.vet import print_vet_said
from haywisp.commands.visits import Visit

if TYPE_CHECKING:
    from haywisp.usecases.views import PlanPage


class Format(StrEnum):
    """What a narration or a report can be printed as."""

    JSON = "json"
    TEXT = "text"
    HTML = "html"


def narrate(
    file: Annotated[Path, typer.Argument(help="A timed transcript: WebVTT, SRT, [m:ss] text or word-time JSON.")],
    form: Annotated[Format, typer.Option("--format", help="What to print.")] = Format.TEXT,
    language: Annotated[str, typer.Option(help="The language that is spoken.")] = "en",
) -> None:
    """Understand a narration without keeping it."""
    from haywisp import bootstrap
    from haywisp.usecases.narrating import narrated

    data = read_narration(file)
    typer.echo(narrated(data, file.name, form.value, bootstrap.tables(language)))


def plan(
    context: typer.Context,
    visit: Visit,
    minutes: Annotated[int | None, typer.Option(help="Minutes for the work; the visit's own unless told.")] = None,
    json: Json = False,
) -> None:
    """Plan from what was found at a visit or, where nothing is recorded of it yet, at the one before."""
    from haywisp.usecases.naming import visit_named
    from haywisp.usecases.plans import plan_next

    with opened(context) as app:
        page = plan_next(app, visit_named(app, visit).id, minutes)
    as_json(page) if json else _print_plan(page)


def report(
    context: typer.Context,
    visit: Visit,
    out: Annotated[Path | None, typer.Option(help="Write a PDF to this file.")] = None,
    form: Annotated[Format, typer.Option("--format", help="What to print without --out.")] = Format.TEXT,
) -> None:
    """The owner's report of a visit, printed or as a PDF."""
    from haywisp.usecases.naming import visit_named
    from haywisp.usecases.reports import owner_report, owner_report_pdf, owner_report_printed

    with opened(context) as app:
        visit_id = visit_named(app, visit).id
        if out is not None:
            write_file(out, owner_report_pdf(app, visit_id))
            say(f"Wrote {out}.")
        elif form is Format.JSON:
            as_json(owner_report(app, visit_id))
        else:
            typer.echo(owner_report_printed(app, visit_id, form.value))


def drawn(
    context: typer.Context,
    visit: Visit,
    view: Annotated[str, typer.Option(help="left, right or above.")] = "left",
    layer: Annotated[str, typer.Option(help="superficial, deep or regions.")] = "superficial",
    out: Annotated[Path | None, typer.Option(help="Write the picture (SVG) to this file.")] = None,
    json: Json = False,
) -> None:
    """The horse drawn with what was found at a visit: an SVG picture, or with --json what was out of the usual."""
    from haywisp.usecases import drawing
    from haywisp.usecases.naming import visit_named

    with opened(context) as app:
        visit_id = visit_named(app, visit).id
        if json:
            as_json(drawing.out_of_usual(app, visit_id))
            return
        picture = drawing.drawn(app, visit_id, view, layer, choosable=False)
    if out is None:
        typer.echo(picture)
        return
    write_file(out, picture.encode())
    say(f"Wrote {out}.")


def weight(
    context: typer.Context,
    girth: Annotated[str, typer.Option(help="Round the barrel just behind elbows and withers, in cm.")],
    length: Annotated[str, typer.Option(help="From the point of the shoulder to the point of the buttock, in cm.")],
    keep: Annotated[
        str | None, typer.Option(metavar="VISIT", help="Keep it as a note of this visit; nothing is kept without.")
    ] = None,
    json: Json = False,
) -> None:
    """Body weight of a grown horse from two readings of a tape."""
    from haywisp.usecases.measuring import weight as usecase

    found = usecase(girth, length)
    if keep is not None:
        _keep_weight(context, keep, girth, length)
    if json:
        as_json(found)
        return
    say(found.sentence)
    say(f"{found.method}; {found.error}. {found.caution}")
    say(f"Source: {found.source}")
    if keep is not None:
        say("Kept as a note of the visit.")


def _keep_weight(context: typer.Context, visit: str, girth: str, length: str) -> None:
    from haywisp.usecases.measuring import weight_note
    from haywisp.usecases.naming import visit_named
    from haywisp.usecases.said import add

    with opened(context) as app:
        add(app, visit_named(app, visit).id, "note", {"text": weight_note(girth, length)})


def know(
    what: Annotated[str, typer.Argument(help="An id, or words of a name; everything is listed without.")] = "",
    language: Annotated[str, typer.Option(help="The language of the words.")] = "en",
    json: Json = False,
) -> None:
    """What the tables know of a structure, technique, sign, caution, pattern or exercise, with the source."""
    from haywisp import bootstrap
    from haywisp.usecases.knowing import known

    found = known(bootstrap.tables(language), what)
    if json:
        as_json(found)
        return
    if len(found) > 1:
        table(("Table", "Id", "Name"), ((one.table, one.id, one.name) for one in found), "")
        return
    for one in found:
        heading(f"{one.name} ({one.table}: {one.id})")
        pairs(one.lines)
        say(f"Source: {one.source}")


def _print_plan(page: "PlanPage") -> None:
    heading(f"Plan for {page.horse.name}, {page.minutes} minutes")
    if page.made_from:
        say(f"Nothing is recorded yet of the visit of {page.visit.day}: from the visit of {page.made_from.name}.")
    print_verdict(page.verdict)
    print_vet_said(page.vet_said)
    if page.unreviewed:
        say(f"{page.unreviewed} entries are still to be reviewed; what they found is not in this plan.")
    heading("In order")
    table(
        ("No.", "At", "Min", "What", "Why"),
        ((bout.order, bout.begins, f"{bout.minutes:g}", bout.sentence, bout.why) for bout in page.bouts),
        page.plan.refusal or "There is nothing to do.",
    )
    if page.omissions:
        heading("Left out or shortened")
        items(f"{omission.name}: {omission.why}" for omission in page.omissions)
    say()
    say(page.proof)
    heading("Always")
    items(page.cautions)
