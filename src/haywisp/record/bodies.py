"""What the body of an entry may hold, and a clear sentence for everything that it may not."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from math import isfinite

from haywisp.record.types import OVERRIDE, VET_AGREES, VET_SAYS_WAIT

#: The fields of each part, as in :mod:`haywisp.narration.types` without times, spans and confidence.
FIELDS: Mapping[str, tuple[str, ...]] = {
    "bout": ("technique", "structures", "side", "passes", "pressure"),
    "finding": ("structure", "side", "aspect", "value"),
    "response": ("sign",),
    "action": ("kind",),
    "note": ("text", "kind", "cautions"),
    "flag": ("flag",),
    "reading": ("what", "value", "unit", "low", "high", "site", "side", "observer", "error"),
}
#: Fields that may stay open because they were not said; a note of no special kind has none, and only an
#: override names cautions.
OPEN = frozenset({"side", "passes", "pressure", "low", "high", "site", "error", "note kind", "note cautions"})
NOTE_KINDS = frozenset({VET_AGREES, VET_SAYS_WAIT, OVERRIDE})
NUMBERS = frozenset({"value", "low", "high", "error"})
LONGEST_WORD = 200
MOST_PASSES = 1000
LONGEST_NOTE = 20_000
# A reason to work against the gate is a sentence; own choice, no source.
SHORTEST_REASON, FEWEST_WORDS = 20, 4


@dataclass(frozen=True, slots=True)
class Allowed:
    """The ids that a body may name, taken from the knowledge tables; ``aspects`` maps an aspect to its values.

    ``overridable`` are the cautions that give way to a written reason.
    """

    structures: frozenset[str]
    techniques: frozenset[str]
    signs: frozenset[str]
    aspects: Mapping[str, frozenset[str]]
    actions: frozenset[str]
    flags: frozenset[str] = frozenset()
    readings: frozenset[str] = frozenset()
    overridable: frozenset[str] = frozenset()
    sides: frozenset[str] = frozenset({"left", "right", "both"})
    pressures: frozenset[str] = frozenset({"light", "moderate", "firm"})


def problems_of(part: str, body: Mapping[str, object], allowed: Allowed) -> tuple[str, ...]:
    """One sentence for each thing that is wrong with a whole body; none when it can be kept."""
    wrong = shape_problems(part, body)
    if wrong:
        return wrong
    found = (_problem(part, name, body, allowed) for name in FIELDS[part])
    return tuple(problem for problem in found if problem)


def shape_problems(part: str, body: Mapping[str, object]) -> tuple[str, ...]:
    """Fields that are missing from a body, or that this part doesn't have."""
    if part not in FIELDS:
        return (f"“{part}” is no part of the record; choose one of {listed(FIELDS)}.",)
    fields = FIELDS[part]
    unknown = [f"A {part} has no field “{name}”; it has {listed(fields)}." for name in body if name not in fields]
    missing = [
        f"“{name}” is missing from this {part}." for name in fields if name not in body and not _open(part, name)
    ]
    return (*unknown, *missing, *(_override_shape(body) if part == "note" and not unknown else ()))


def _override_shape(body: Mapping[str, object]) -> tuple[str, ...]:
    """Only an override names cautions, and it has to."""
    cautions = body.get("cautions")
    if body.get("kind") != OVERRIDE:
        return () if cautions is None else ("Only a reason to work against the gate names cautions.",)
    if not isinstance(cautions, list | tuple) or not cautions:
        return ("A reason to work against the gate has to name the cautions that it is for.",)
    return ()


def _open(part: str, name: str) -> bool:
    return name in OPEN or f"{part} {name}" in OPEN


def _problem(part: str, name: str, body: Mapping[str, object], allowed: Allowed) -> str:
    value = body.get(name)
    if value is None and _open(part, name):
        return ""
    if part == "note" and name == "kind":
        return _one_of("kind of note", value, NOTE_KINDS)
    if part == "reading":
        return _reading(name, value, allowed)
    if part == "note" and name == "text" and body.get("kind") == OVERRIDE:
        return _text(value, allowed) or _reason(value)
    if name == "value":
        aspect = body.get("aspect")
        values = allowed.aspects.get(aspect, frozenset()) if isinstance(aspect, str) else frozenset()
        # An unknown aspect is already said; its values can't be judged.
        return _one_of(f"value of {aspect}", value, values) if values else ""
    return CHECKS[name](value, allowed)


def _reading(name: str, value: object, allowed: Allowed) -> str:
    if name == "what":
        return _one_of("scale or sign", value, allowed.readings)
    if name == "side":
        return _one_of("side", value, allowed.sides)
    if name in NUMBERS:
        sound = isinstance(value, int | float) and not isinstance(value, bool) and isfinite(value)
        return "" if sound else f"The {name} of a reading must be a number; “{value}” is none."
    return "" if isinstance(value, str) and len(value) <= LONGEST_WORD else f"The {name} of this reading can't be read."


def _structures(value: object, allowed: Allowed) -> str:
    if not isinstance(value, list | tuple) or not value:
        return "A bout needs at least one structure that was worked on."
    problems = (_one_of("structure", one, allowed.structures) for one in value)
    repeated = "" if len({str(one) for one in value}) == len(value) else "A structure is named twice in this bout."
    return " ".join(filter(None, (*problems, repeated)))


def _passes(value: object, _allowed: Allowed) -> str:
    if isinstance(value, int) and not isinstance(value, bool) and 1 <= value <= MOST_PASSES:
        return ""
    return f"The passes must be a whole number from 1 to {MOST_PASSES}, or left open; “{value}” isn't."


def _text(value: object, _allowed: Allowed) -> str:
    if not isinstance(value, str) or not value.strip():
        return "The note is empty; write something, or leave it out."
    if len(value) > LONGEST_NOTE:
        return f"The note has {len(value)} characters; {LONGEST_NOTE} is the most that one can hold: split it."
    return ""


def _reason(value: object) -> str:
    text = " ".join(str(value).split())
    if len(text) >= SHORTEST_REASON and len(text.split()) >= FEWEST_WORDS:
        return ""
    return (
        f"The reason to work against the gate is too short to be read later: write a sentence of {FEWEST_WORDS} words "
        f"and {SHORTEST_REASON} letters at least."
    )


def _cautions(value: object, allowed: Allowed) -> str:
    given = value if isinstance(value, list | tuple) else ()
    never = [str(one) for one in given if not isinstance(one, str) or one not in allowed.overridable]
    if never:
        return (
            f"“{never[0]}” can't be set aside by a written reason: it is for the vet, or no caution that asks for one."
        )
    return "A caution is named twice in this reason." if len(set(given)) < len(given) else ""


CHECKS: Mapping[str, Callable[[object, Allowed], str]] = {
    "technique": lambda value, allowed: _one_of("technique", value, allowed.techniques),
    "structure": lambda value, allowed: _one_of("structure", value, allowed.structures),
    "structures": _structures,
    "side": lambda value, allowed: _one_of("side", value, allowed.sides),
    "pressure": lambda value, allowed: _one_of("pressure", value, allowed.pressures),
    "aspect": lambda value, allowed: _one_of("aspect", value, frozenset(allowed.aspects)),
    "sign": lambda value, allowed: _one_of("sign", value, allowed.signs),
    "kind": lambda value, allowed: _one_of("kind of action", value, allowed.actions),
    "flag": lambda value, allowed: _one_of("red flag", value, allowed.flags),
    "passes": _passes,
    "text": _text,
    "cautions": _cautions,
}


def _one_of(what: str, value: object, known: frozenset[str]) -> str:
    if isinstance(value, str) and value in known:
        return ""
    choose = f"choose one of {listed(sorted(known))}" if len(known) <= 12 else "choose one from the list"
    return f"“{value}” is no {what} that Haywisp knows; {choose}."


def listed(names: Iterable[str]) -> str:
    """Names as a sentence lists them."""
    *most, last = names
    return f"{', '.join(most)} or {last}" if most else last
