"""Forms read into commands: texts as they were typed, kept so that a refused form can be shown again as it was."""

import re
from collections.abc import AsyncIterator, Mapping
from datetime import date
from typing import Annotated

from fastapi import Depends, Request
from starlette.datastructures import FormData

from haywisp.record.types import INTAKE
from haywisp.usecases import Refused
from haywisp.web.security import BODY_LIMIT

SINGLE_FIELDS: Mapping[str, tuple[str, ...]] = {
    "bout": ("technique", "side", "passes", "pressure"),
    "finding": ("structure", "side"),
    "response": ("sign",),
    "action": ("kind",),
    "note": ("text",),
    "flag": ("flag",),
    "reading": ("value",),
}
HORSE_TEXTS = ("name", "breed", "sex", "born", "height_cm", "work", "notes", "ueln", "microchip", *INTAKE)
WHOSE_TEXTS = (
    "owner_id",
    "owner_name",
    "owner_phone",
    "owner_same",
    "owner_same_name",
    "yard_id",
    "yard_name",
    "yard_same",
    "yard_same_name",
    "horse_same",
    "horse_same_name",
)


async def sent_form(request: Request) -> AsyncIterator[FormData]:
    """The form of a request; a pasted transcript can be long, so only the guard's limit holds."""
    async with request.form(max_part_size=BODY_LIMIT) as form:
        yield form


Form = Annotated[FormData, Depends(sent_form)]


def text_of(form: FormData, name: str) -> str:
    """One field as text, "" when it wasn't sent."""
    value = form.get(name, "")
    return value.strip() if isinstance(value, str) else ""


def texts_of(form: FormData, name: str) -> tuple[str, ...]:
    """All values of a field that may be sent more than once, empty ones left out."""
    return tuple(value for value in form.getlist(name) if isinstance(value, str) and value)


def whole_number(text: str, what: str) -> int:
    """A whole number that a form or an address gave; refused with a sentence otherwise."""
    if not re.fullmatch(r"\d{1,9}", text.strip()):
        raise Refused(f"{what} should be a whole number; “{text[:40]}” is none. Nothing was changed.")
    return int(text)


def day_of(text: str) -> date:
    """The day that a form gave."""
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise Refused(
            f"“{text[:40]}” is no day. Choose one, or write it as year-month-day, such as 2026-03-04."
        ) from None


def version_of(form: FormData) -> int:
    """The version of an entry that the person was looking at."""
    return whole_number(text_of(form, "version"), "The version of the entry")


def body_of(part: str, form: FormData) -> dict[str, object]:
    """The fields of an entry's form as changes for a use case; what was found comes as ``aspect:value``.

    A field that the form hasn't got is no change: what is kept of it stays.
    """
    body: dict[str, object] = {name: text_of(form, name) for name in SINGLE_FIELDS.get(part, ()) if name in form}
    if part == "bout":
        body["structures"] = list(texts_of(form, "structures"))
    if part == "finding" and "found" in form:
        body["aspect"], _, body["value"] = text_of(form, "found").partition(":")
    return body


def shown_body(part: str, body: Mapping[str, object]) -> dict[str, object]:
    """The same the other way round: a body as the values that an entry's form shows."""
    form: dict[str, object] = {
        name: "" if body.get(name) is None else body[name] for name in SINGLE_FIELDS.get(part, ())
    }
    if part == "bout":
        given = body.get("structures")
        form["structures"] = list(given) if isinstance(given, list | tuple) else []
    if part == "finding":
        form["found"] = f"{body['aspect']}:{body['value']}" if body.get("aspect") and body.get("value") else ""
    return form


def horse_texts(form: FormData) -> dict[str, object]:
    """The horse's form as it was filled in."""
    filled: dict[str, object] = {name: text_of(form, name) for name in HORSE_TEXTS}
    filled["flags"] = texts_of(form, "flags")
    filled |= {name: text_of(form, name) for name in WHOSE_TEXTS}
    return filled
