"""Reading the invented practice from its TOML file and the narrations beside it."""

import tomllib
from collections.abc import Callable, Iterable, Mapping
from functools import partial
from importlib.resources import files
from importlib.resources.abc import Traversable
from typing import Any, TypeVar

from haywisp.demo.checks import check
from haywisp.demo.types import (
    DemoBooking,
    DemoError,
    DemoHorse,
    DemoOwner,
    DemoOwnWord,
    DemoPractice,
    DemoVisit,
    DemoYard,
)

T = TypeVar("T")


def load(folder: Traversable | None = None) -> DemoPractice:
    """The practice of ``folder`` (the packaged one unless told); :class:`DemoError` says what is wrong with it."""
    folder = folder or files("haywisp.demo")
    try:
        data = tomllib.loads(folder.joinpath("practice.toml").read_text(encoding="utf-8"))
    except FileNotFoundError:
        raise DemoError("practice.toml", "is missing", "Install Haywisp again.") from None
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        raise DemoError("practice.toml", f"is no TOML file ({error})", "Mend that line.") from error
    practice = practice_of(data, partial(_narration, folder))
    check(practice)
    for visit in practice.visits:
        visit.content()
    return practice


def practice_of(data: Mapping[str, Any], read: Callable[[str], bytes]) -> DemoPractice:
    """The parsed file as records; ``read`` gives a narration's bytes by file name."""
    return DemoPractice(
        name=_field(data, "name", str, "practice.toml"),
        yards=tuple(_yard(row) for row in _rows(data, "yards")),
        owners=tuple(_owner(row) for row in _rows(data, "owners")),
        horses=tuple(_horse(row) for row in _rows(data, "horses")),
        visits=tuple(_visit(row, read) for row in _rows(data, "visits")),
        bookings=tuple(_booking(row) for row in _rows(data, "bookings")),
        invented=_field(data, "invented", bool, "practice.toml"),
        own_words=tuple(_own_word(row) for row in _rows(data, "own_words")) if "own_words" in data else (),
    )


def _narration(folder: Traversable, name: str) -> bytes:
    try:
        return folder.joinpath("narrations", name).read_bytes()
    except FileNotFoundError:
        where = f"narrations/{name}"
        raise DemoError(where, "is missing", "Run scripts/make_demo_narrations.py or mend the visit's file.") from None


class _Row:
    """One row of a table, read field by field with the row's place in every complaint."""

    def __init__(self, table: str, number: int, values: Mapping[str, Any]) -> None:
        self.values = values
        self.where = f"{table} row {number} ({values.get('id', 'no id')})"

    def text(self, name: str) -> str:
        return _field(self.values, name, str, self.where)

    def number(self, name: str) -> int:
        return _field(self.values, name, int, self.where)

    def truth(self, name: str) -> bool:
        return _field(self.values, name, bool, self.where)

    def texts(self, name: str) -> tuple[str, ...]:
        items = _field(self.values, name, list, self.where)
        if not all(isinstance(item, str) for item in items):
            raise DemoError(self.where, f"has something in {name} that is no text", "Put each in quotes.")
        return tuple(items)


def _rows(data: Mapping[str, Any], table: str) -> Iterable[_Row]:
    rows = _field(data, table, list, "practice.toml")
    return [_Row(table, number, row) for number, row in enumerate(rows, start=1)]


def _field(values: Mapping[str, Any], name: str, kind: type[T], where: str) -> T:
    value = values.get(name)
    # bool is a kind of int in Python: a minutes = true must not pass
    if not isinstance(value, kind) or (kind is int and isinstance(value, bool)):
        found = "is missing" if value is None else f"is {value!r}"
        raise DemoError(where, f"needs {name} as {kind.__name__} and it {found}", f"Mend {name} in practice.toml.")
    return value


def _yard(row: _Row) -> DemoYard:
    return DemoYard(
        id=row.text("id"),
        name=row.text("name"),
        address=row.text("address"),
        isolation=row.truth("isolation"),
        invented=row.truth("invented"),
    )


def _owner(row: _Row) -> DemoOwner:
    return DemoOwner(
        id=row.text("id"),
        name=row.text("name"),
        phone=row.text("phone"),
        email=row.text("email"),
        invented=row.truth("invented"),
    )


def _horse(row: _Row) -> DemoHorse:
    return DemoHorse(
        id=row.text("id"),
        name=row.text("name"),
        owner=row.text("owner"),
        yard=row.text("yard"),
        breed=row.text("breed"),
        sex=row.text("sex"),
        born=row.number("born"),
        height_cm=float(row.number("height_cm")),
        work=row.text("work"),
        notes=row.text("notes"),
        flags=row.texts("flags"),
        invented=row.truth("invented"),
    )


def _visit(row: _Row, read: Callable[[str], bytes]) -> DemoVisit:
    return DemoVisit(
        id=row.text("id"),
        horse=row.text("horse"),
        day_offset=row.number("day"),
        minutes=row.number("minutes"),
        practitioner=row.text("practitioner"),
        narration_file=row.text("narration"),
        reviewed=row.truth("reviewed"),
        invented=row.truth("invented"),
        read=read,
        not_so=row.texts("not_so") if "not_so" in row.values else (),
        vet_said=row.text("vet_said") if "vet_said" in row.values else "",
    )


def _booking(row: _Row) -> DemoBooking:
    return DemoBooking(
        id=row.text("id"),
        horse=row.text("horse"),
        day_offset=row.number("day"),
        minutes=row.number("minutes"),
        practitioner=row.text("practitioner"),
        invented=row.truth("invented"),
    )


def _own_word(row: _Row) -> DemoOwnWord:
    return DemoOwnWord(
        id=row.text("id"),
        kind=row.text("kind"),
        phrase=row.text("phrase"),
        meaning=row.text("meaning"),
        misheard=row.truth("misheard"),
        day_offset=row.number("day"),
        invented=row.truth("invented"),
    )
