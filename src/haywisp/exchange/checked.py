"""Read JSON text into frozen dataclasses, with every fault named by its place."""

import json
from collections.abc import Hashable, Mapping, Sequence
from functools import cache
from typing import Any, TypeVar, cast

from haywisp.exchange.errors import BadFile

T = TypeVar("T")

WORDS = {
    "missing": "is missing",
    "float_type": "should be a number",
    "int_type": "should be a whole number",
    "int_from_float": "should be a whole number",
    "string_type": "should be text",
    "bool_type": "should be true or false",
    "tuple_type": "should be a list",
    "dict_type": "should be an object in braces",
    "dataclass_type": "should be an object in braces",
    "dataclass_exact_type": "should be an object in braces",
}


def parsed(text: str, kind: str) -> Mapping[str, object]:
    """The JSON object that ``text`` is; numbers that JSON does not know (NaN, Infinity) are refused."""
    try:
        value = json.loads(text.removeprefix("\ufeff"), parse_constant=_refuse_constant)
    except json.JSONDecodeError as fault:
        raise BadFile(kind, (f"line {fault.lineno}, column {fault.colno}: {fault.msg}",)) from fault
    except RecursionError as fault:
        raise BadFile(kind, ("it is nested too deeply",)) from fault
    except ValueError as fault:
        raise BadFile(kind, (str(fault),)) from fault
    if not isinstance(value, dict):
        raise BadFile(kind, ("the file should hold one object in braces",))
    return value


def checked(shape: type[T], value: object, kind: str) -> T:
    """``value`` as a ``shape``, a dataclass; keys that the shape does not name are passed over."""
    from pydantic import ValidationError

    try:
        # Back through JSON text, so that lists may be tuples and texts may be days, and nothing else is bent to fit.
        text = json.dumps(value, allow_nan=False)
    except ValueError as fault:
        raise BadFile(kind, ("a number in it is too large",)) from fault
    try:
        result: T = _adapter(cast(Hashable, shape)).validate_json(text, strict=True)
    except ValidationError as faults:
        problems = tuple(_sentence(fault) for fault in faults.errors(include_url=False))
        raise BadFile(kind, problems) from faults
    return result


def dumped(shape: type[T], value: T) -> str:
    """``value`` as indented JSON text, keys in the order of the dataclass."""
    plain = _adapter(cast(Hashable, shape)).dump_python(value, mode="json")
    return json.dumps(plain, ensure_ascii=False, indent=1, allow_nan=False) + "\n"


@cache
def _adapter(shape: Hashable) -> Any:
    from pydantic import TypeAdapter

    return TypeAdapter(cast(Any, shape))


def _refuse_constant(name: str) -> float:
    raise ValueError(f"{name} is not a number that JSON knows")


def _sentence(fault: Mapping[str, Any]) -> str:
    says = WORDS.get(fault["type"], str(fault["msg"]).replace("Input should", "should"))
    place = _place(fault["loc"])
    return f"{place} {says}" + ("" if fault["type"] == "missing" else f", found {_short(fault['input'])}")


def _place(steps: Sequence[str | int]) -> str:
    """``treatments 3, start``: numbers count from 1, as a person counts."""
    words: list[str] = []
    for step in steps:
        if isinstance(step, int) and words:
            words[-1] += f" {step + 1}"
        else:
            words.append(str(step))
    return ", ".join(words) or "the whole"


def _short(value: object) -> str:
    shown = json.dumps(value, ensure_ascii=False, default=str)
    return shown if len(shown) <= 40 else f"{shown[:37]}…"
