"""Owners, yards and horses: add, list, edit."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace

from haywisp.practice.types import Owner, Yard
from haywisp.record.types import Horse
from haywisp.store.types import Unit
from haywisp.usecases.app import App
from haywisp.usecases.errors import AlreadyKept, Refused
from haywisp.usecases.horse_details import LONGEST_NAME, checked
from haywisp.usecases.lookup import horse_of, owner_of, yard_of
from haywisp.usecases.namesakes import horses_called, owners_called, yards_called
from haywisp.usecases.views import Namesakes, Option, PeoplePage
from haywisp.usecases.wording import flag_label


@dataclass(frozen=True, slots=True)
class Whose:
    """The owner or the yard of a horse as a form gives it: the id of one that is kept, or the name of a new one.

    ``another`` says that a new one is meant although there is one of that name.
    """

    id: str = ""
    name: str = ""
    phone: str = ""
    another: bool = False


def people(app: App, also: Collection[str] = ()) -> PeoplePage:
    """Owners and yards by name, and the flags that stay with a horse; ``also`` are further flags that it has now."""
    with app.units() as unit:
        owners = tuple(sorted(unit.owners(), key=lambda owner: owner.name.casefold()))
        yards = tuple(sorted(unit.yards(), key=lambda yard: yard.name.casefold()))
    return PeoplePage(owners=owners, yards=yards, flags=flag_options(app, also))


def flag_options(app: App, also: Collection[str] = ()) -> tuple[Option, ...]:
    """What stays with a horse and the gate reads; the rest is asked again at each visit."""
    tables = app.tables()
    return tuple(
        Option(flag, flag_label(flag, tables)) for flag, row in tables.flags.items() if row.lasting or flag in also
    )


def add_owner(
    app: App, name: str, phone: str = "", email: str = "", *, another: bool = True, invented: bool = False
) -> Owner:
    """A new owner; without ``another`` one of the same name is refused."""
    owner = _owner(app, name, phone, checked_email(email), invented)
    with app.units() as unit:
        if not another:
            _refuse_same([owners_called(unit, owner.name)])
        unit.add_owner(owner)
    return owner


def add_yard(
    app: App, name: str, address: str = "", isolation: bool = False, *, another: bool = True, invented: bool = False
) -> Yard:
    """A new yard; without ``another`` one of the same name is refused."""
    yard = Yard(
        id=app.new_id(),
        name=checked_name(name, "The yard"),
        address=address.strip(),
        isolation=isolation,
        invented=invented,
    )
    with app.units() as unit:
        if not another:
            _refuse_same([yards_called(unit, yard.name)])
        unit.add_yard(yard)
    return yard


def add_horse(app: App, name: str, owner_id: str, yard_id: str, *, another: bool = True, **details: object) -> Horse:
    """A new horse. ``details`` are the other fields of :class:`Horse`: breed, sex, born, height_cm, work, notes, flags,
    invented."""
    return keep_horse(app, name, Whose(owner_id), Whose(yard_id), details, another=another)


def keep_horse(
    app: App,
    name: str,
    owner: Whose,
    yard: Whose,
    details: Mapping[str, object],
    *,
    horse_id: str = "",
    another: bool = False,
) -> Horse:
    """A horse from its form, new or changed, with a new owner and a new yard where their names are given.

    All of it is kept or nothing. Names that are kept already raise :class:`AlreadyKept` unless ``another`` says, of the
    horse, the owner or the yard, that it is another one.
    """
    called = checked_name(name, "The horse")
    with app.units() as unit:
        known = horse_of(unit, horse_id) if horse_id else None
        made = checked(app, details, known.notes if known else "")
        ask_again = not another and (known is None or known.name != called)
        _refuse_same(
            [
                *([horses_called(unit, called)] if ask_again else []),
                *([owners_called(unit, owner.name)] if owner.name and not owner.another else []),
                *([yards_called(unit, yard.name)] if yard.name and not yard.another else []),
            ],
            but=horse_id,
        )
        whose, where = _whose(app, unit, owner), _where(app, unit, yard)
        horse = known or Horse(id=app.new_id(), name=called, owner_id=whose, yard_id=where)
        horse = replace(horse, name=called, owner_id=whose, yard_id=where, **made)  # type: ignore[arg-type]
        if known is None:
            unit.add_horse(horse)
        else:
            unit.save_horse(horse)
    return horse


def edit_horse(app: App, horse_id: str, **changes: object) -> Horse:
    """The horse with the fields given changed: also ``name``, ``owner_id`` and ``yard_id``."""
    moved = {key: str(changes.pop(key)) for key in ("name", "owner_id", "yard_id") if key in changes}
    with app.units() as unit:
        horse = horse_of(unit, horse_id)
        made = checked(app, changes, horse.notes)
        if "name" in moved:
            horse = replace(horse, name=checked_name(moved["name"], "The horse"))
        if "owner_id" in moved:
            horse = replace(horse, owner_id=owner_of(unit, moved["owner_id"]).id)
        if "yard_id" in moved:
            horse = replace(horse, yard_id=yard_of(unit, moved["yard_id"]).id)
        horse = replace(horse, **made)  # type: ignore[arg-type]
        unit.save_horse(horse)
    return horse


def _whose(app: App, unit: Unit, owner: Whose) -> str:
    """The id of the owner, who is added where a name is given."""
    if not owner.name:
        return owner_of(unit, owner.id).id
    made = _owner(app, owner.name, owner.phone)
    unit.add_owner(made)
    return made.id


def _where(app: App, unit: Unit, yard: Whose) -> str:
    """The id of the yard, which is added where a name is given."""
    if not yard.name:
        return yard_of(unit, yard.id).id
    made = Yard(id=app.new_id(), name=checked_name(yard.name, "The yard"))
    unit.add_yard(made)
    return made.id


def _owner(app: App, name: str, phone: str = "", email: str = "", invented: bool = False) -> Owner:
    return Owner(
        id=app.new_id(), name=checked_name(name, "The owner"), phone=phone.strip(), email=email, invented=invented
    )


def _refuse_same(namesakes: Sequence[Namesakes], but: str = "") -> None:
    """Refuse what is kept already under those names; ``but`` is an id that doesn't count."""
    kept = [one for one in namesakes if any(found.id != but for found in one.found)]
    if kept:
        raise AlreadyKept(kept)


def checked_name(text: str, whose: str) -> str:
    """A name with single spaces; ``whose`` begins the sentence that refuses it."""
    name = " ".join(text.split())
    if not name:
        raise Refused(f"{whose} needs a name.")
    if len(name) > LONGEST_NAME:
        raise Refused(f"{whose}'s name is {len(name)} characters long; {LONGEST_NAME} is the most.")
    return name


def checked_email(text: str) -> str:
    """Only what can't be an address at all is refused: the real proof of an address is a letter that arrives."""
    email = text.strip()
    if email and (email.count("@") != 1 or email.startswith("@") or email.endswith("@") or " " in email):
        raise Refused(f"“{email}” can't be an e-mail address. Leave it empty if there is none.")
    return email
