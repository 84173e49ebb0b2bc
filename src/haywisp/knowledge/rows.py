"""A parsed TOML row becomes a typed row: every field present, of its type, and none that is unknown."""

from collections.abc import Callable, Mapping
from dataclasses import MISSING, Field, fields
from types import MappingProxyType
from typing import Any, TypeVar, get_type_hints

from haywisp.knowledge.errors import KnowledgeFault
from haywisp.knowledge.scale_types import Alarm, Band, Level, Piece, ScaleLimits, Spread, Term
from haywisp.knowledge.types import Evidence, Trigger

Row = TypeVar("Row")


class _Wrong(Exception):
    """What a value is not, said as the end of a sentence."""


def _text(value: object) -> str:
    if not isinstance(value, str):
        raise _Wrong("must be text in quotes")
    return value


def _number(value: object) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise _Wrong("must be a number")
    return float(value)


def _whole(value: object) -> int:
    if isinstance(value, bool) or not isinstance(value, int):
        raise _Wrong("must be a whole number")
    return value


def _yes_or_no(value: object) -> bool:
    if not isinstance(value, bool):
        raise _Wrong("must be true or false")
    return value


def _texts(value: object) -> tuple[str, ...]:
    if not isinstance(value, list):
        raise _Wrong("must be a list of texts")
    return tuple(_text(item) for item in value)


def _numbers(value: object) -> Mapping[str, float]:
    if not isinstance(value, dict):
        raise _Wrong("must be a table of numbers")
    return MappingProxyType({key: _number(item) for key, item in value.items()})


def _parts(part: type[Any]) -> Callable[[object], tuple[Any, ...]]:
    def read(value: object) -> tuple[Any, ...]:
        if not isinstance(value, list) or not all(isinstance(item, dict) for item in value):
            raise _Wrong("must be a list of inline tables")
        return tuple(_filled(part, item) for item in value)

    return read


_READERS: Mapping[object, Callable[[object], object]] = {
    str: _text,
    float: _number,
    float | None: _number,
    int: _whole,
    bool: _yes_or_no,
    tuple[str, ...]: _texts,
    Mapping[str, float]: _numbers,
    **{
        tuple[part, ...]: _parts(part)  # type: ignore[valid-type]
        for part in (Trigger, Evidence, Term, Piece, Level, Band, ScaleLimits, Spread, Alarm)
    },
}


def _required(each: Field[Any]) -> bool:
    return each.default is MISSING and each.default_factory is MISSING


def _filled(kind: type[Row], raw: Mapping[str, object]) -> Row:
    known = {each.name: each for each in fields(kind)}  # type: ignore[arg-type]
    hints = get_type_hints(kind)
    unknown = sorted(raw.keys() - known.keys())
    if unknown:
        raise _Wrong(f"has a field {unknown[0]!r} that is not known")
    missing = sorted(name for name, each in known.items() if _required(each) and name not in raw)
    if missing:
        raise _Wrong(f"lacks the field {missing[0]!r}")
    values = {}
    for name, value in raw.items():
        try:
            values[name] = _READERS[hints[name]](value)
        except _Wrong as wrong:
            raise _Wrong(f"has a field {name!r} that {wrong}") from None
    return kind(**values)


def row_of(kind: type[Row], row_id: str, raw: object, file: str, **given: object) -> Row:
    """Build one row of a table; ``given`` are fields that come from elsewhere. Raises KnowledgeFault."""
    if not isinstance(raw, dict):
        raise KnowledgeFault(file, row_id, "it must be a table of fields.")
    clash = sorted(raw.keys() & (given.keys() | {"id"}))
    if clash:
        raise KnowledgeFault(file, row_id, f"the field {clash[0]!r} is not given here.")
    try:
        return _filled(kind, {"id": row_id, **raw, **given})
    except _Wrong as wrong:
        raise KnowledgeFault(file, row_id, f"it {wrong}.") from None
