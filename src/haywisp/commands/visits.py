"""``haywisp visit``: open one, hear its narration, review it."""

from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from haywisp.commands.fields import changes_of, saying_choices
from haywisp.commands.files import as_text, read_file, read_narration, write_file
from haywisp.commands.helping import PlainCommand
from haywisp.commands.horses import HORSE, Json, print_verdict, visits_table
from haywisp.commands.offering import say_offers
from haywisp.commands.opening import opened
from haywisp.commands.output import as_json, heading, items, say, short, table
from haywisp.commands.people import Another, saying_another
from haywisp.commands.vet import print_vet_said

if TYPE_CHECKING:
    from haywisp.usecases.app import App
    from haywisp.usecases.views import Counts, EntryView, SaidPage

visits = typer.Typer(help="Visits: open, hear, review.", no_args_is_help=True)
Visit = Annotated[str, typer.Argument(help="The start of the visit's id, or a horse's name for its newest visit.")]
Entry = Annotated[str, typer.Argument(help="The entry's number in `visit show`, or the start of its id.")]
Reason = Annotated[str, typer.Option(help="Why; it is kept with the entry.")]


@visits.command("open")
def open_visit(
    context: typer.Context,
    horse: Annotated[str, HORSE],
    day: Annotated[
        datetime | None, typer.Option(formats=["%Y-%m-%d"], help="Day of the visit; today unless told.")
    ] = None,
    minutes: Annotated[int, typer.Option(help="Minutes booked.")] = 60,
    practitioner: Annotated[str, typer.Option(help="Who works.")] = "",
    json: Json = False,
) -> None:
    """Open a visit to a horse."""
    from haywisp.usecases import visits as usecase
    from haywisp.usecases.naming import horse_named

    with opened(context) as app:
        found = horse_named(app, horse)
        when = day.date() if day else app.clock().date()
        visit = usecase.open_visit(app, found.id, when, minutes, practitioner)
    if json:
        as_json(visit)
    else:
        say(f"Opened visit {visit.number} to {found.name} on {visit.day}, {visit.minutes} minutes ({short(visit.id)}).")


@visits.command("list")
def list_visits(context: typer.Context, horse: Annotated[str, HORSE], json: Json = False) -> None:
    """List the visits to a horse, newest first."""
    from haywisp.usecases.horses import horse_page
    from haywisp.usecases.naming import horse_named

    with opened(context) as app:
        rows = horse_page(app, horse_named(app, horse).id).visits
    as_json(rows) if json else visits_table(rows, "No visits yet. Open one with: haywisp visit open HORSE")


@visits.command("hear")
def hear(
    context: typer.Context,
    visit: Visit,
    file: Annotated[Path, typer.Argument(help="A timed transcript: WebVTT, SRT, [m:ss] text or word-time JSON.")],
    again: Annotated[bool, typer.Option("--again", help="Replace what is still to be reviewed.")] = False,
    json: Json = False,
) -> None:
    """Read a narration into a visit; what is in doubt becomes a question."""
    from haywisp.usecases import visits as usecase
    from haywisp.usecases.naming import visit_named

    data = read_narration(file)
    with opened(context) as app:
        heard = usecase.hear(app, visit_named(app, visit).id, file.name, data, again=again)
    if json:
        as_json(heard)
        return
    say(f"Heard {heard.words} words. {counted(heard.counts)}")
    if heard.problems:
        say("Mended on the way:")
        items(heard.problems)
    say(f"Look at it with: haywisp visit show {short(heard.visit.id)}")


@visits.command("show")
def show(
    context: typer.Context,
    visit: Visit,
    words: Annotated[bool, typer.Option("--words", help="Print the words too.")] = False,
    json: Json = False,
) -> None:
    """What was heard at a visit, with the questions that are still open."""
    from haywisp.usecases.asking import ask_page
    from haywisp.usecases.naming import visit_named
    from haywisp.usecases.said import said
    from haywisp.usecases.visits import visit_page

    with opened(context) as app:
        found = visit_named(app, visit)
        page = said(app, found.id)
        head = visit_page(app, found.id)
        asked = bool(ask_page(app, found.id).told)
    if json:
        as_json(page)
        return
    _print_said(page, words)
    heading("Before touching")
    known = [f"the visit of {head.at_start_from.name}"] if head.at_start_from else []
    known += ["what was answered before touching"] if asked else []
    if known:
        say(f"From {' and '.join(known)}:")
    print_verdict(head.at_start)
    if head.recorded:
        heading("For next time, from this visit")
        print_verdict(head.verdict, told=head.at_start)
    print_vet_said(head.vet_said)


@visits.command("accept", cls=PlainCommand)
def accept(
    context: typer.Context,
    visit: Visit,
    entries: Annotated[
        list[str] | None,
        typer.Argument(metavar="ENTRY", help="Entries by number or id; all that aren't in doubt when none."),
    ] = None,
) -> None:
    """Stand by entries as they are."""
    from haywisp.usecases import said as usecase
    from haywisp.usecases.naming import visit_named

    with opened(context) as app:
        visit_id = visit_named(app, visit).id
        if not entries:
            say("Accepted all that isn't in doubt. " + counted(usecase.accept_all(app, visit_id)))
            return
        for chosen in [chosen_entry(app, visit_id, text) for text in entries]:
            say("Accepted: " + usecase.accept(app, chosen.thread, chosen.version).sentence)


@visits.command("correct", cls=PlainCommand)
def correct(
    context: typer.Context,
    visit: Visit,
    entry: Entry,
    changes: Annotated[list[str], typer.Argument(metavar="FIELD=VALUE", help="Such as side=left or passes=5.")],
    reason: Reason = "",
) -> None:
    """Correct fields of an entry; the version before stays in the record."""
    from haywisp.usecases import said as usecase
    from haywisp.usecases.forms import vocabulary
    from haywisp.usecases.naming import visit_named

    fields = changes_of(changes)
    with opened(context) as app:
        chosen = chosen_entry(app, visit_named(app, visit).id, entry)
        with saying_choices(vocabulary(app.tables()), chosen.part, {**chosen.body, **fields}):
            say("Corrected: " + usecase.correct(app, chosen.thread, chosen.version, fields, reason).sentence)
        say_offers(app, chosen.thread)


@visits.command("reject")
def reject(context: typer.Context, visit: Visit, entry: Entry, reason: Reason = "") -> None:
    """Leave an entry out; it stays in the record with its reason."""
    from haywisp.usecases import said as usecase
    from haywisp.usecases.naming import visit_named

    with opened(context) as app:
        chosen = chosen_entry(app, visit_named(app, visit).id, entry)
        say("Left out: " + usecase.reject(app, chosen.thread, chosen.version, reason).sentence)


@visits.command("answer")
def answer(
    context: typer.Context,
    visit: Visit,
    question: Annotated[str, typer.Argument(help="The question's number in `visit show`, or the start of its id.")],
    value: Annotated[str, typer.Argument(help="One of the answers that `visit show` lists.")],
) -> None:
    """Answer a question that was in doubt."""
    from haywisp.usecases import said as usecase
    from haywisp.usecases.naming import numbered, visit_named

    with opened(context) as app:
        page = usecase.said(app, visit_named(app, visit).id)
        chosen = numbered("question", question, [view.id for view in page.questions])
        answered = usecase.answer(app, chosen, value)
        left = len(page.questions) - 1
        done = f"{answered.status_name.capitalize()}: {answered.sentence}." if answered else "Answered."
        say(f"{done} {left} still open." if left else f"{done} No question is open.")
        if answered:
            say_offers(app, answered.thread)


@visits.command("finish")
def finish(
    context: typer.Context,
    visit: Visit,
    force: Annotated[bool, typer.Option("--force", help="Even with questions open.")] = False,
) -> None:
    """The visit is reviewed."""
    from haywisp.usecases import said as usecase
    from haywisp.usecases.errors import QuestionsOpen
    from haywisp.usecases.naming import visit_named

    with opened(context) as app:
        try:
            done = usecase.finish(app, visit_named(app, visit).id, force=force)
        except QuestionsOpen as refused:
            raise QuestionsOpen(refused.waiting, "finish with --force") from refused
    say(f"Visit {done.number} on {done.day} is reviewed.")


@visits.command("export")
def export_visit(
    context: typer.Context,
    visit: Visit,
    file: Annotated[Path | None, typer.Argument(help="The JSON file to write; printed without.")] = None,
) -> None:
    """Write a whole visit with every version of every entry as a JSON file."""
    from haywisp.usecases.exchanging import export_visit as usecase
    from haywisp.usecases.naming import visit_named

    with opened(context) as app:
        text = usecase(app, visit_named(app, visit).id)
    if file is None:
        typer.echo(text, nl=False)
        return
    write_file(file, text.encode())
    say(f"Wrote {file}.")


@visits.command("import")
def import_visit(
    context: typer.Context,
    file: Annotated[Path, typer.Argument(help="A JSON file that `visit export` wrote.")],
    another: Another = False,
    json: Json = False,
) -> None:
    """Keep the visit of an exported file, with its horse, owner and yard where they are not kept yet."""
    from haywisp.usecases.exchanging import import_visit as usecase

    data = read_file(file)
    with opened(context) as app, saying_another():
        visit = usecase(app, as_text(data, file), another=another)
    as_json(visit) if json else say(f"Kept the visit of {visit.day} ({short(visit.id)}).")


def counted(counts: "Counts") -> str:
    """The counts in a sentence."""
    parts = (
        (counts.bouts, "bout", "bouts"),
        (counts.findings, "finding", "findings"),
        (counts.responses, "answer of the horse", "answers of the horse"),
        (counts.actions, "thing for after", "things for after"),
        (counts.open_questions, "question open", "questions open"),
        (counts.proposed, "entry to be reviewed", "entries to be reviewed"),
    )
    return ", ".join(f"{number} {one if number == 1 else many}" for number, one, many in parts) + "."


def chosen_entry(app: "App", visit_id: str, text: str) -> "EntryView":
    """An entry of a visit by its number in ``visit show`` or its id."""
    from haywisp.usecases.naming import numbered
    from haywisp.usecases.said import said

    page = said(app, visit_id)
    entries = {entry.thread: entry for entry in (*page.entries, *page.rejected)}
    return entries[numbered("entry", text, list(entries))]


def _print_said(page: "SaidPage", words: bool) -> None:
    row = page.row
    heading(f"{row.horse.name}, visit {row.number} on {row.day} ({short(row.id)})")
    say(f"{row.status_name.capitalize()}. {counted(page.counts)} {page.minutes_of_work:.0f} minutes of work.")
    if words:
        heading("Words")
        table(
            ("Time", "Said"),
            ((line.time, " ".join(word.text for word in line.words)) for line in page.lines),
            "No narration yet. Give one with: haywisp visit hear VISIT FILE",
        )
    heading("Understood")
    table(
        ("No.", "Time", "What", "Status", "Sure"),
        (
            (
                number,
                f"{entry.time}-{entry.end}" if entry.end else entry.time,
                entry.sentence + (" (?)" if entry.questions else "") + _quoted(page, entry.thread),
                entry.status_name,
                f"{entry.confidence:.0%}",
            )
            for number, entry in enumerate((*page.entries, *page.rejected), 1)
        ),
        "Nothing yet. Give a narration with: haywisp visit hear VISIT FILE",
    )
    if page.questions:
        heading("Questions")
        for number, question in enumerate(page.questions, 1):
            choices = ", ".join(f"{choice.value} ({choice.label})" for choice in question.choices)
            heard = _quoted(page, f"question-{question.id}").strip()
            told = [f"{question.text} [{question.time}]", heard, f"Answers: {choices}"]
            items(["\n".join(filter(None, told))], mark=f"{number}.")


def _quoted(page: "SaidPage", key: str) -> str:
    """What was said, on a line of its own, the words of the entry in angle quotes; "" for what was added by hand."""
    quote = page.quotes.get(key)
    return f"\n“{quote.pointed}”" if quote else ""
