"""The two numbers that a horse is known by everywhere: its life number (UELN) and that of its microchip.

Neither number is looked up anywhere: only its form is judged, and a form that is right may still be another horse's.
"""

import re
from dataclasses import dataclass

from haywisp.record.errors import BadIdentifier

UELN, CHIP = "life number (UELN)", "microchip number"
LENGTH = 15
DATABASE, NUMBER = 6, 9
# 38 bits hold the number of an animal (ISO 11784).
LARGEST_CHIP_NUMBER = 2**38 - 1
MAKERS, TEST = range(900, 999), 999
# What people and documents set between the groups of a number; none of them is part of it.
BETWEEN = re.compile(r"[\s.\-\u2010-\u2013]+")


@dataclass(frozen=True, slots=True)
class Ueln:
    """A universal equine life number.

    ``country`` has three digits (ISO 3166-1 numeric, of the country whose database registered the foal first),
    ``database`` three letters or digits and ``number`` nine. Source: ueln.net, rules of attribution.
    """

    country: str
    database: str
    number: str

    def __str__(self) -> str:
        """The fifteen characters as they are kept."""
        return self.country + self.database + self.number

    @property
    def shown(self) -> str:
        """``250001 00155928M``: the database apart from the horse."""
        return f"{self.country}{self.database} {self.number}"


@dataclass(frozen=True, slots=True)
class Microchip:
    """The number of a transponder by ISO 11784: a country's or a maker's ``code`` of three digits, ``number`` of 12."""

    code: str
    number: str

    def __str__(self) -> str:
        """The fifteen digits as they are kept."""
        return self.code + self.number

    @property
    def shown(self) -> str:
        """``276 098 101 234 567``: in groups of three, to be read aloud beside the reader."""
        digits = str(self)
        return " ".join(digits[at : at + 3] for at in range(0, LENGTH, 3))

    @property
    def issuer(self) -> str:
        """Whose the code is: ``country``, ``maker``, or ``test`` (999, which no horse should carry)."""
        code = int(self.code)
        return "maker" if code in MAKERS else "test" if code == TEST else "country"


def ueln(text: str) -> Ueln:
    """A life number as it was typed; blanks, dots and dashes between its groups don't matter, nor do small letters.

    Some databases end their numbers in a check digit of their own; there is none that holds for all, so none is tried.
    Raises :class:`haywisp.record.BadIdentifier`.
    """
    plain = _plain(UELN, text)
    _long_enough(UELN, text, plain)
    country = plain[:3]
    if not country.isdigit() or country == "000":
        raise BadIdentifier(
            UELN,
            text,
            f"begins with “{country}”, and has to begin with the three digits of a country, such as 826 or 250",
        )
    return Ueln(country, plain[3:DATABASE], plain[DATABASE:])


def ueln_of(database: str, number: str, *, signs_as: str = "") -> Ueln:
    """The life number from a database's code (six characters) and the horse's own number in it, filled up with zeros.

    How a sign such as a slash is written is each database's own choice: ``signs_as`` stands for it, and without that
    a number with one is refused. Source: ueln.net, rules of attribution. Raises :class:`haywisp.record.BadIdentifier`.
    """
    code = _plain(UELN, database)
    if len(code) != DATABASE:
        raise BadIdentifier(UELN, database, f"has a database code of {len(code)} characters instead of {DATABASE}")
    if re.fullmatch(r"[0-9A-Z]*", signs_as) is None:
        raise BadIdentifier(UELN, number, "can have its signs written as digits and capital letters only")
    own = number.strip()
    if signs_as:
        own = re.sub(r"[^0-9A-Za-z]", signs_as, own)
    own = _plain(UELN, own)
    if not 1 <= len(own) <= NUMBER:
        raise BadIdentifier(UELN, number, f"has {len(own)} characters of the horse's own; it can have 1 to {NUMBER}")
    return ueln(code + own.rjust(NUMBER, "0"))


def microchip(text: str) -> Microchip:
    """A chip's number as it was typed; blanks, dots and dashes between its groups don't matter.

    It has no check digit: a digit that was misread shows only when the chip is read again. Raises
    :class:`haywisp.record.BadIdentifier`. Source: ISO 11784.
    """
    plain = _plain(CHIP, text)
    if not plain.isdigit() and plain:
        raise BadIdentifier(CHIP, text, f"has the letter “{next(sign for sign in plain if not sign.isdigit())}” in it")
    _long_enough(CHIP, text, plain)
    code, number = plain[:3], plain[3:]
    if code == "000":
        raise BadIdentifier(CHIP, text, "begins with 000, which is neither a country nor a maker")
    if int(number) > LARGEST_CHIP_NUMBER:
        raise BadIdentifier(
            CHIP, text, f"ends in {number}, and no chip can hold more than {LARGEST_CHIP_NUMBER} there: read it again"
        )
    return Microchip(code, number)


def _plain(what: str, text: str) -> str:
    """The letters and digits alone; refused where there is anything that no such number has."""
    plain = BETWEEN.sub("", text)
    odd = next((sign for sign in plain if re.fullmatch(r"[0-9A-Za-z]", sign) is None), "")
    if odd:
        shown = odd if odd.isprintable() else "a sign that can't be seen"
        raise BadIdentifier(what, text, f"has “{shown}” in it, which no such number has")
    return plain.upper()


def _long_enough(what: str, text: str, plain: str) -> None:
    if not plain:
        raise BadIdentifier(what, text, "is empty")
    if len(plain) != LENGTH:
        signs = "characters" if what == UELN else "digits"
        raise BadIdentifier(what, text, f"has {len(plain)} {signs} instead of {LENGTH}")
