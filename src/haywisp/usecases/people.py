"""Owners, yards and horses: add, list, edit."""

from dataclasses import replace

from haywisp.practice.types import Owner, Yard
from haywisp.record.types import Horse
from haywisp.usecases.app import App
from haywisp.usecases.errors import Refused
from haywisp.usecases.lookup import horse_of, owner_of, yard_of
from haywisp.usecases.views import Option, PeoplePage
from haywisp.usecases.wording import flag_label

LONGEST_NAME = 120
LONGEST_NOTE = 4000
HEIGHTS_CM = (50.0, 220.0)
OLDEST_YEARS = 65
TEXTS = {"breed": LONGEST_NAME, "sex": LONGEST_NAME, "work": LONGEST_NAME, "notes": LONGEST_NOTE}


def people(app: App) -> PeoplePage:
    """Owners and yards by name, and the standing flags that the screening gate reads."""
    with app.units() as unit:
        owners = tuple(sorted(unit.owners(), key=lambda owner: owner.name.casefold()))
        yards = tuple(sorted(unit.yards(), key=lambda yard: yard.name.casefold()))
    return PeoplePage(owners=owners, yards=yards, flags=flag_options(app))


def flag_options(app: App) -> tuple[Option, ...]:
    """Every standing fact about a horse that the gate can read."""
    tables = app.tables()
    return tuple(Option(flag, flag_label(flag, tables)) for flag in tables.flags)


def add_owner(app: App, name: str, phone: str = "", email: str = "", *, invented: bool = False) -> Owner:
    owner = Owner(
        id=app.new_id(),
        name=_name(name, "The owner"),
        phone=phone.strip(),
        email=_email(email),
        invented=invented,
    )
    with app.units() as unit:
        unit.add_owner(owner)
    return owner


def add_yard(app: App, name: str, address: str = "", isolation: bool = False, *, invented: bool = False) -> Yard:
    yard = Yard(
        id=app.new_id(),
        name=_name(name, "The yard"),
        address=address.strip(),
        isolation=isolation,
        invented=invented,
    )
    with app.units() as unit:
        unit.add_yard(yard)
    return yard


def add_horse(app: App, name: str, owner_id: str, yard_id: str, **details: object) -> Horse:
    """A new horse. ``details`` are the other fields of :class:`Horse`: breed, sex, born, height_cm, work, notes, flags,
    invented."""
    checked = _checked(app, details)
    with app.units() as unit:
        horse = Horse(
            id=app.new_id(),
            name=_name(name, "The horse"),
            owner_id=owner_of(unit, owner_id).id,
            yard_id=yard_of(unit, yard_id).id,
        )
        horse = replace(horse, **checked)  # type: ignore[arg-type]
        unit.add_horse(horse)
    return horse


def edit_horse(app: App, horse_id: str, **changes: object) -> Horse:
    """The horse with the fields given changed: also ``name``, ``owner_id`` and ``yard_id``."""
    moved = {key: str(changes.pop(key)) for key in ("name", "owner_id", "yard_id") if key in changes}
    checked = _checked(app, changes)
    with app.units() as unit:
        horse = horse_of(unit, horse_id)
        if "name" in moved:
            horse = replace(horse, name=_name(moved["name"], "The horse"))
        if "owner_id" in moved:
            horse = replace(horse, owner_id=owner_of(unit, moved["owner_id"]).id)
        if "yard_id" in moved:
            horse = replace(horse, yard_id=yard_of(unit, moved["yard_id"]).id)
        horse = replace(horse, **checked)  # type: ignore[arg-type]
        unit.save_horse(horse)
    return horse


def _name(text: str, whose: str) -> str:
    name = " ".join(text.split())
    if not name:
        raise Refused(f"{whose} needs a name.")
    if len(name) > LONGEST_NAME:
        raise Refused(f"{whose}'s name is {len(name)} characters long; {LONGEST_NAME} is the most.")
    return name


def _email(text: str) -> str:
    """Only what can't be an address at all is refused: the real proof of an address is a letter that arrives."""
    email = text.strip()
    if email and (email.count("@") != 1 or email.startswith("@") or email.endswith("@") or " " in email):
        raise Refused(f"“{email}” can't be an e-mail address. Leave it empty if there is none.")
    return email


def _checked(app: App, details: dict[str, object]) -> dict[str, object]:
    """The details in the types of :class:`Horse`; refused with a sentence where a value can't be one."""
    known = {*TEXTS, "born", "height_cm", "flags", "invented"}
    unknown = sorted(set(details) - known)
    if unknown:
        raise Refused(f"A horse has no “{unknown[0]}”. It has: {', '.join(sorted(known))}.")
    checked: dict[str, object] = {}
    for key, longest in TEXTS.items():
        if key in details:
            text = str(details[key] or "").strip()
            if len(text) > longest:
                raise Refused(f"The horse's {key} is {len(text)} characters long; {longest} is the most.")
            checked[key] = text
    if "born" in details:
        checked["born"] = _born(app, details["born"])
    if "height_cm" in details:
        checked["height_cm"] = _height(details["height_cm"])
    if "flags" in details:
        checked["flags"] = _flags(app, details["flags"])
    if "invented" in details:
        checked["invented"] = bool(details["invented"])
    return checked


def _born(app: App, value: object) -> int | None:
    if value is None or value == "":
        return None
    latest = app.clock().year
    try:
        year = int(str(value))
    except ValueError:
        year = 0
    if not latest - OLDEST_YEARS <= year <= latest:
        raise Refused(f"The year of birth “{value}” should be a year from {latest - OLDEST_YEARS} to {latest}.")
    return year


def _height(value: object) -> float | None:
    if value is None or value == "":
        return None
    low, high = HEIGHTS_CM
    try:
        height = float(str(value).replace(",", "."))
    except ValueError:
        height = 0.0
    if not low <= height <= high:
        raise Refused(f"The height “{value}” should be in centimetres, from {low:.0f} to {high:.0f}.")
    return height


def _flags(app: App, value: object) -> tuple[str, ...]:
    allowed = [option.value for option in flag_options(app)]
    given = value if isinstance(value, list | tuple | set) else str(value or "").split(",")
    flags = tuple(dict.fromkeys(text for flag in given if (text := str(flag).strip())))
    for flag in flags:
        if flag not in allowed:
            raise Refused(f"There is no standing flag “{flag}”. There are: {', '.join(allowed)}.")
    return flags
