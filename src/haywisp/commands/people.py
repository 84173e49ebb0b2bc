"""``haywisp owner`` and ``haywisp yard``."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Annotated

import typer

from haywisp.commands.opening import opened
from haywisp.commands.output import JSON_OPTION, as_json, say, short, table

owners = typer.Typer(help="Owners: the clients of the practice.", no_args_is_help=True)
yards = typer.Typer(help="Yards: the places where horses are kept.", no_args_is_help=True)
Json = Annotated[bool, JSON_OPTION]
Another = Annotated[bool, typer.Option("--another", help="Even where that name is kept already.")]


@contextmanager
def saying_another(how: str = "add another one with --another") -> Iterator[None]:
    """Refuse a name that is kept already with the option that takes it all the same."""
    from haywisp.usecases.errors import AlreadyKept

    try:
        yield
    except AlreadyKept as refused:
        raise AlreadyKept(refused.namesakes, how) from refused


@owners.command("add")
def add_owner(
    context: typer.Context,
    name: Annotated[str, typer.Argument(help="The owner's name.")],
    phone: Annotated[str, typer.Option(help="Telephone number.")] = "",
    email: Annotated[str, typer.Option(help="E-mail address.")] = "",
    another: Another = False,
    json: Json = False,
) -> None:
    """Add an owner."""
    from haywisp.usecases import people

    with opened(context) as app, saying_another():
        owner = people.add_owner(app, name, phone, email, another=another)
    as_json(owner) if json else say(f"Added owner {owner.name} ({short(owner.id)}).")


@owners.command("list")
def list_owners(context: typer.Context, json: Json = False) -> None:
    """List all owners."""
    from haywisp.usecases.people import people

    with opened(context) as app:
        rows = people(app).owners
    if json:
        as_json(rows)
        return
    table(
        ("Owner", "Telephone", "E-mail", "Id"),
        ((row.name, row.phone, row.email, short(row.id)) for row in rows),
        "No owners yet. Add one with: haywisp owner add NAME",
    )


@yards.command("add")
def add_yard(
    context: typer.Context,
    name: Annotated[str, typer.Argument(help="The yard's name.")],
    address: Annotated[str, typer.Option(help="Where it is.")] = "",
    isolation: Annotated[bool, typer.Option("--isolation", help="Horses in isolation: visited last.")] = False,
    another: Another = False,
    json: Json = False,
) -> None:
    """Add a yard."""
    from haywisp.usecases import people

    with opened(context) as app, saying_another():
        yard = people.add_yard(app, name, address, isolation, another=another)
    as_json(yard) if json else say(f"Added yard {yard.name} ({short(yard.id)}).")


@yards.command("list")
def list_yards(context: typer.Context, json: Json = False) -> None:
    """List all yards."""
    from haywisp.usecases.people import people

    with opened(context) as app:
        rows = people(app).yards
    if json:
        as_json(rows)
        return
    table(
        ("Yard", "Address", "Isolation", "Id"),
        ((row.name, row.address, "yes" if row.isolation else "", short(row.id)) for row in rows),
        "No yards yet. Add one with: haywisp yard add NAME",
    )
