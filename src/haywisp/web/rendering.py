"""Templates to answers: the Jinja environment, its filters, and the two shapes of an answer, whole page or piece."""

from collections.abc import Callable, Iterable, Mapping
from datetime import date
from functools import cache
from hashlib import sha256
from pathlib import Path

from fastapi import Request
from fastapi.responses import HTMLResponse, RedirectResponse, Response
from jinja2 import Environment, PackageLoader, StrictUndefined, select_autoescape

STATIC = Path(__file__).parent / "static"
PART_SYMBOLS = {
    "bout": "hand",
    "finding": "fingertip",
    "response": "ear",
    "action": "arrow",
    "note": "pencil",
    "flag": "warning",
    "reading": "pencil",
}
STATUS_SYMBOLS = {"proposed": "open", "accepted": "tick", "corrected": "pencil", "rejected": "cross"}


@cache
def static_url(name: str) -> str:
    """The address of a static file with a mark of its content, so that a browser may keep it for good."""
    mark = sha256((STATIC / name).read_bytes()).hexdigest()[:12]
    return f"/static/{name}?v={mark}"


def long_day(day: date) -> str:
    """``Wednesday 4 March 2026``."""
    return f"{day:%A} {day.day} {day:%B %Y}"


def short_day(day: date) -> str:
    """``4 Mar 2026``."""
    return f"{day.day} {day:%b %Y}"


def week_day(day: date) -> str:
    """``Wed 4 Mar``."""
    return f"{day:%a} {day.day} {day:%b}"


def plural(count: int, one: str, many: str = "") -> str:
    """``1 question``, ``3 questions``."""
    return f"{count} {one if count == 1 else many or one + 's'}"


def minutes(value: float) -> str:
    """``1½ min``: minutes in halves, as a plan has them."""
    whole, half = divmod(round(value * 2), 2)
    number = ("½" if not whole else f"{whole}½") if half else str(whole)
    return f"{number} min"


def capital(text: str) -> str:
    """The text with a capital first letter."""
    return text[:1].upper() + text[1:]


def about_minutes(value: float) -> str:
    """``under a minute``, ``23 minutes``."""
    return "under a minute" if value < 1 else plural(round(value), "minute")


def placed(name: str, side: str | None) -> str:
    """A structure's name in mid-sentence with its side: ``left splenius``, ``neck, both sides``."""
    name = name[:1].lower() + name[1:]
    return f"{name}, both sides" if side == "both" else f"{side} {name}" if side else name


def found_in(keys: Iterable[str], known: Mapping[str, str]) -> list[str]:
    """What ``known`` says of some keys, each thing once."""
    return list(dict.fromkeys(known[key] for key in keys if key in known))


def sentence(text: str) -> str:
    """The text with a capital letter and a full stop."""
    text = text.strip()
    if not text:
        return ""
    text = capital(text)
    return text if text[-1] in ".?!…" else f"{text}."


@cache
def environment() -> Environment:
    """The templates; every value is escaped, and a name that is missing is an error and not a blank."""
    made = Environment(
        loader=PackageLoader("haywisp.web"),
        autoescape=select_autoescape(default=True, default_for_string=True),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    filters: Mapping[str, Callable[..., object]] = {
        "long_day": long_day,
        "short_day": short_day,
        "week_day": week_day,
        "plural": plural,
        "minutes": minutes,
        "about_minutes": about_minutes,
        "capital": capital,
        "placed": placed,
        "sentence": sentence,
        "found_in": found_in,
    }
    made.filters.update(filters)
    made.globals.update(
        static_url=static_url,
        part_symbols=PART_SYMBOLS,
        status_symbols=STATUS_SYMBOLS,
    )
    return made


def render(template: str, **values: object) -> str:
    """The text of one template."""
    return environment().get_template(template).render(**values)


def page(template: str, status: int = 200, **values: object) -> HTMLResponse:
    """An answer made of one template."""
    return HTMLResponse(render(template, **values), status_code=status)


def wants_piece(request: Request) -> bool:
    """Whether htmx asks, and so only the part that changed is wanted; going back in history wants the whole page."""
    asked = request.headers
    return asked.get("hx-request") == "true" and asked.get("hx-history-restore-request") != "true"


def go_to(request: Request, where: str) -> Response:
    """Send the browser to another page after a form: a redirect, or htmx's own way of saying it."""
    if wants_piece(request):
        return Response(status_code=204, headers={"HX-Redirect": where})
    return RedirectResponse(where, status_code=303)
