"""The phrases of one language that the report room sets sentences from."""

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Any

Phrases = Mapping[str, Any]


def humanised(identifier: str) -> str:
    """An id as words, for rows that no table names."""
    return identifier.replace("-", " ").replace("_", " ").strip()


@cache
def table(name: str, language: str) -> Phrases:
    """Table ``name`` in ``language``, in English where the language has none."""
    folder = files("haywisp.report") / "data"
    path = folder / language / f"{name}.toml"
    if not path.is_file():
        path = folder / "en" / f"{name}.toml"
    return tomllib.loads(path.read_text(encoding="utf-8"))


def phrases(language: str) -> Phrases:
    """How entries are worded in ``language``."""
    return table("wording", language)


def cap(text: str) -> str:
    """The text with its first letter a capital."""
    return text[:1].upper() + text[1:]


def joined(parts: list[str], last: str = "and") -> str:
    """``a, b and c``."""
    if len(parts) < 2:
        return "".join(parts)
    return f"{', '.join(parts[:-1])} {last} {parts[-1]}"
