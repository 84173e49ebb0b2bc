"""The details of a horse as they are typed, in the types of the record; refused with a sentence where they can't be."""

import re
from collections.abc import Callable, Mapping

from haywisp.record import BadIdentifier, microchip, ueln
from haywisp.record.types import INTAKE, Horse
from haywisp.usecases.app import App
from haywisp.usecases.errors import Refused

LONGEST_NAME = 120
LONGEST_NOTE = 4000
HEADINGS = {
    "vet": "Vet",
    "history": "History",
    "medicines": "Medicines",
    "tack": "Tack",
    "teeth": "Teeth",
    "feet": "Feet",
    "insurance": "Insurance",
}
HEIGHTS_CM = (50.0, 220.0)
OLDEST_YEARS = 65
TEXTS = {
    "breed": LONGEST_NAME,
    "sex": LONGEST_NAME,
    "work": LONGEST_NAME,
    "notes": LONGEST_NOTE,
    **dict.fromkeys(INTAKE, LONGEST_NOTE),
    "vet": LONGEST_NAME,
    "insurance": LONGEST_NAME,
}
IDENTIFIERS: Mapping[str, Callable[[str], object]] = {"ueln": ueln, "microchip": microchip}
ABOUT = re.compile(
    r"(?:(?:about|around|approx(?:imately|\.)?|roughly|circa|ca?\.?|~)\s*(\d{4})|(\d{4})\s*(?:\?|or so|ish|approx\.?))",
    re.IGNORECASE,
)


def checked(app: App, details: Mapping[str, object], known_notes: str = "") -> dict[str, object]:
    """The details in the types of :class:`haywisp.record.types.Horse`.

    ``known_notes`` are kept where the details have none: a birth that is only about known adds a line to them.
    """
    known = {*TEXTS, *IDENTIFIERS, "born", "height_cm", "flags", "invented"}
    unknown = sorted(set(details) - known)
    if unknown:
        raise Refused(f"A horse has no “{unknown[0]}”. It has: {', '.join(sorted(known))}.")
    made: dict[str, object] = {}
    for key, longest in TEXTS.items():
        if key in details:
            made[key] = _text(key, details[key], longest)
    for key, read in IDENTIFIERS.items():
        if key in details:
            made[key] = _identifier(read, details[key])
    if "born" in details:
        made["born"], remark = _born(app, details["born"])
        notes = str(made.get("notes", known_notes))
        if remark and remark not in notes:
            made["notes"] = _text("notes", f"{notes}\n{remark}", LONGEST_NOTE)
    if "height_cm" in details:
        made["height_cm"] = _height(details["height_cm"])
    if "flags" in details:
        made["flags"] = _flags(app, details["flags"])
    if "invented" in details:
        made["invented"] = bool(details["invented"])
    return made


def height_words(height_cm: float | None) -> str:
    """``157.5 cm (15.2 hh)``; empty when it isn't known."""
    from haywisp.measure import hands_from_cm

    return "" if height_cm is None else f"{height_cm:g} cm ({hands_from_cm(height_cm)})"


def _text(key: str, value: object, longest: int) -> str:
    text = str(value or "").strip()
    if len(text) > longest:
        raise Refused(f"The horse's {key} is {len(text)} characters long; {longest} is the most.")
    return text


def _identifier(read: Callable[[str], object], value: object) -> str:
    """A life number or a chip's number in its plain form."""
    text = str(value or "").strip()
    if not text:
        return ""
    try:
        return str(read(text))
    except BadIdentifier as bad:
        raise Refused(str(bad)) from bad


def number_words(horse: Horse) -> tuple[tuple[str, str], ...]:
    """The horse's numbers as they are read aloud, each with its name; none that isn't known."""
    shown = (("Life number (UELN)", horse.ueln, ueln), ("Microchip", horse.microchip, microchip))
    return tuple((name, read(text).shown) for name, text, read in shown if text)


def told_words(horse: Horse) -> tuple[tuple[str, str], ...]:
    """What the owner told of the horse, each with its heading, in the order of the form."""
    return tuple((HEADINGS[key], text) for key in INTAKE if (text := getattr(horse, key)))


def _born(app: App, value: object) -> tuple[int | None, str]:
    """The year, and what to keep in the notes where it is only about that."""
    text = "" if value is None else str(value).strip()
    if not text:
        return None, ""
    latest = app.clock().year
    about = ABOUT.fullmatch(text)
    figures = (about[1] or about[2]) if about else text
    year = int(figures) if re.fullmatch(r"[0-9]{4}", figures) else 0
    if not latest - OLDEST_YEARS <= year <= latest:
        raise Refused(
            f"The year of birth “{text[:40]}” should be a year from {latest - OLDEST_YEARS} to {latest}, "
            f"with “about” before it where it is not known for certain."
        )
    return year, f"Born about {year}." if about else ""


def _height(value: object) -> float | None:
    """Centimetres of a height in centimetres, metres or hands."""
    from haywisp.measure import cm_from_hands

    text = "" if value is None else str(value).strip()
    if not text:
        return None
    low, high = HEIGHTS_CM
    plain = re.fullmatch(r"([0-9]{1,3}(?:[.,][0-9]{1,3})?)\s*(cm|m)?", text, re.IGNORECASE)
    if plain:
        number = float(plain[1].replace(",", ".")) * (100 if (plain[2] or "").lower() == "m" else 1)
    else:
        number = round(cm_from_hands(text) or 0.0, 1)
    if not low <= number <= high:
        hint = f" Is “{text}” in hands? Then write {text} hh." if plain and not plain[2] and 7 <= number <= 20 else ""
        raise Refused(
            f"The height “{text[:40]}” should be in centimetres, from {low:.0f} to {high:.0f}, "
            f"or in hands and inches, such as 15.2 hh.{hint}"
        )
    return round(number, 2)


def flag_ids(app: App) -> tuple[str, ...]:
    """Every flag that a horse can have."""
    return tuple(app.tables().flags)


def _flags(app: App, value: object) -> tuple[str, ...]:
    allowed = flag_ids(app)
    given = value if isinstance(value, list | tuple | set) else str(value or "").split(",")
    flags = tuple(dict.fromkeys(text for flag in given if (text := str(flag).strip())))
    for flag in flags:
        if flag not in allowed:
            raise Refused(f"There is no standing flag “{flag}”. There are: {', '.join(allowed)}.")
    return flags
