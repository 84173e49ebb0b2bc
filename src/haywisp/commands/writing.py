"""``haywisp visit write`` and ``haywisp visit undo``: entries by hand, and earlier versions of any entry."""

from typing import TYPE_CHECKING, Annotated

import typer

from haywisp.commands.fields import FIELDS_HELP, changes_of, saying_choices
from haywisp.commands.opening import opened
from haywisp.commands.output import say, table
from haywisp.commands.visits import Entry, Visit, chosen_entry

if TYPE_CHECKING:
    from haywisp.usecases.app import App


def write(
    context: typer.Context,
    visit: Visit,
    part: Annotated[str, typer.Argument(help="bout, finding, response, action, flag or note.")],
    fields: Annotated[list[str], typer.Argument(metavar="FIELD=VALUE", help=FIELDS_HELP)],
    at: Annotated[str, typer.Option(help="When in the session, as minutes:seconds, such as 12:30.")] = "",
) -> None:
    """Write an entry by hand: what was done or seen and not said. The ids of the tables are in `haywisp know`."""
    from haywisp.usecases import Refused
    from haywisp.usecases import said as usecase
    from haywisp.usecases.forms import vocabulary
    from haywisp.usecases.moments import moment_of
    from haywisp.usecases.naming import visit_named
    from haywisp.usecases.wording import PARTS

    if part not in PARTS:
        raise Refused(f"“{part}” is no part of the record; choose one of {', '.join(PARTS)}.")
    body = changes_of(fields)
    with opened(context) as app:
        visit_id = visit_named(app, visit).id
        with saying_choices(vocabulary(app.tables()), part, body):
            entry = usecase.add(app, visit_id, part, body, moment_of(at))
        say(f"Wrote entry {_number(app, visit_id, entry.thread)}: {entry.sentence}")


def undo(
    context: typer.Context,
    visit: Visit,
    entry: Entry,
    version: Annotated[int | None, typer.Argument(help="The version to go back to; else the one before.")] = None,
    versions: Annotated[bool, typer.Option("--versions", help="List the versions and change nothing.")] = False,
) -> None:
    """Go back to an earlier version of an entry; the versions since stay in the record."""
    from haywisp.usecases import Refused
    from haywisp.usecases.naming import visit_named
    from haywisp.usecases.restoring import go_back
    from haywisp.usecases.said import history

    with opened(context) as app:
        chosen = chosen_entry(app, visit_named(app, visit).id, entry)
        if versions:
            rows = ((old.version, old.sentence, old.status_name, old.reason) for old in history(app, chosen.thread))
            table(("Version", "What", "Status", "Reason"), rows, "")
            return
        if version is None and chosen.version == 1:
            raise Refused("This entry has one version: there is none before it to go back to. Nothing was changed.")
        back = go_back(app, chosen.thread, chosen.version, chosen.version - 1 if version is None else version)
    say(f"{back.reason.capitalize()}: {back.sentence} ({back.status_name}).")


def _number(app: "App", visit_id: str, thread: str) -> int:
    """The number of an entry in ``visit show``."""
    from haywisp.usecases.said import said

    page = said(app, visit_id)
    return 1 + [one.thread for one in (*page.entries, *page.rejected)].index(thread)
