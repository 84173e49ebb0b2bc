"""What can be kept whole by every database, checked before any of them is asked."""

import math
import re
from collections.abc import Mapping
from datetime import date, datetime
from typing import Any

from haywisp.store.errors import Unstorable

#: The range of a four-byte integer, which is what PostgreSQL keeps.
SMALLEST, LARGEST = -(2**31), 2**31 - 1
#: PostgreSQL refuses NUL in text, and no database takes half of a surrogate pair.
DAMAGED = re.compile("[\0\ud800-\udfff]")


def check(what: str, field: str, value: Any) -> Any:
    """The value in the form that is kept; raises :class:`haywisp.store.Unstorable` when it can't be."""
    if isinstance(value, datetime):
        why = "" if value.tzinfo else "the time has no time zone"
    elif isinstance(value, date):
        why = ""
    else:
        why = fault(value)
    if why:
        raise Unstorable(what, field, why)
    return plain(value)


def fault(value: Any) -> str:
    """Why a plain value, or something inside it, can't be kept; nothing when it can."""
    match value:
        case None | bool():
            return ""
        case str():
            return text_fault(value)
        case int():
            return "" if SMALLEST <= value <= LARGEST else "the number is too large"
        case float():
            return "" if math.isfinite(value) else "it isn't a finite number"
        case Mapping():
            odd = next((name for name in value if not isinstance(name, str)), None)
            if odd is not None:
                return f"the name {odd!r} inside it isn't text"
            return next(filter(None, map(fault, [*value, *value.values()])), "")
        case list() | tuple():
            return next(filter(None, map(fault, value)), "")
    return f"a {type(value).__name__} isn't a plain value"


def text_fault(text: str) -> str:
    """Where a text holds a character that can't be kept."""
    damaged = DAMAGED.search(text)
    if not damaged:
        return ""
    kind = "a NUL character" if damaged.group() == "\0" else "half of a damaged symbol"
    return f"character {damaged.start() + 1} is {kind}; take it out and try again"


def sound(text: str) -> str:
    """The text with damaged characters replaced: good for looking something up, never for keeping it."""
    return DAMAGED.sub("\N{REPLACEMENT CHARACTER}", text)


def plain(value: Any) -> Any:
    """Mappings as dicts and tuples as lists, all the way down, as JSON has them."""
    if isinstance(value, Mapping):
        return {name: plain(inner) for name, inner in value.items()}
    if isinstance(value, list | tuple):
        return [plain(inner) for inner in value]
    return value
