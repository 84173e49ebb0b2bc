"""The fields of an entry's form: the options of each, and what a person chose as a body's plain values."""

from collections.abc import Mapping

from haywisp.knowledge.types import Tables
from haywisp.record.bodies import FIELDS, MOST_PASSES, NUMBERS
from haywisp.report.wording import finding_words
from haywisp.usecases.errors import Refused
from haywisp.usecases.views import Option, OptionGroup, Vocabulary
from haywisp.usecases.wording import FIELDS as FIELD_NAMES
from haywisp.usecases.wording import GROUPS, NOTE_KINDS, PRESSURES, SIDES, label, sentence_case, structure_label

NONE = {"", "none", "null"}


def vocabulary(tables: Tables) -> Vocabulary:
    """The options of every field, in the order of the tables; an empty value means that nothing was said."""
    return Vocabulary(
        structures=tuple(
            OptionGroup(heading, _labels(tables, group)) for group, heading in GROUPS.items() if _labels(tables, group)
        ),
        techniques=tuple(Option(key, label(tables.techniques, key)) for key in tables.techniques),
        sides=tuple(Option(key, text) for key, text in SIDES.items()),
        pressures=tuple(Option(key, text) for key, text in PRESSURES.items()),
        signs=tuple(Option(key, label(tables.signs, key)) for key in tables.signs),
        aspects=tuple(Option(key, label(tables.aspects, key)) for key in tables.aspects),
        values={
            key: tuple(Option(value, sentence_case(finding_words(key, value, tables))) for value in aspect.values)
            for key, aspect in tables.aspects.items()
        },
        actions=tuple(Option(key, label(tables.actions, key)) for key in tables.actions),
        flags=tuple(Option(key, label(tables.flags, key)) for key in tables.flags),
    )


def _labels(tables: Tables, group: str) -> tuple[Option, ...]:
    return tuple(
        Option(key, structure_label(key, tables)) for key, row in tables.structures.items() if row.group == group
    )


def plain(part: str, changes: Mapping[str, object]) -> dict[str, object]:
    """Changes as a form or a command line gives them, in the plain values of a body; refuses fields it hasn't got."""
    known = FIELDS.get(part, ())
    unknown = [name for name in changes if name not in known]
    if not known or unknown:
        what = unknown[0] if known else part
        raise Refused(f"A {part} has no “{what}”. It has: {', '.join(known) or 'nothing'}.")
    return {
        name: _reading(name, value) if part == "reading" else _plain(name, value) for name, value in changes.items()
    }


def _plain(name: str, value: object) -> object:
    if name in {"structures", "cautions"}:
        given = value if isinstance(value, list | tuple) else str(value or "").split(",")
        return list(dict.fromkeys(text for one in given if (text := str(one).strip())))
    text = "" if value is None else str(value).strip()
    if name == "passes":
        return _passes(text)
    if name in {"side", "pressure"}:
        return None if text.lower() in NONE else text
    return text


def _reading(name: str, value: object) -> object:
    """A field of a reading; what is a number is read as one where it can be."""
    if name not in NUMBERS or isinstance(value, int | float):
        return value if value != "" else None
    text = str(value or "").strip().replace(",", ".")
    try:
        return float(text) if text else None
    except ValueError:
        raise Refused(f"“{text[:40]}” should be a number.") from None


def _passes(text: str) -> int | None:
    if text.lower() in NONE:
        return None
    if not text.isdecimal() or not 1 <= int(text) <= MOST_PASSES:
        raise Refused(f"“{text}” passes: give a whole number from 1 to {MOST_PASSES}, or leave it empty.")
    return int(text)


def field_options(part: str, body: Mapping[str, object], tables: Tables) -> tuple[Option, ...]:
    """Each field that the body has, with its value in words."""
    shown = []
    for name in FIELDS.get(part, ()):
        words = _words(name, body, tables)
        if words:
            shown.append(Option(name, words))
    return tuple(shown)


def beside(
    part: str, chosen: Mapping[str, object], kept: Mapping[str, object], tables: Tables
) -> tuple[tuple[str, str, str], ...]:
    """Each field by its name with what a form chose and what is kept, both in words; "" where nothing was said."""
    bodies = ({**kept, **_readable(part, chosen)}, kept)
    mine, theirs = ({one.value: one.label for one in field_options(part, body, tables)} for body in bodies)
    return tuple(
        (FIELD_NAMES.get(name, sentence_case(name)), mine.get(name, ""), theirs.get(name, ""))
        for name in FIELDS.get(part, ())
        if mine.get(name) or theirs.get(name)
    )


def _readable(part: str, chosen: Mapping[str, object]) -> Mapping[str, object]:
    """A form's choice in plain values, or as it was typed where it can't be one."""
    try:
        return plain(part, chosen)
    except Refused:
        return chosen


def _words(name: str, body: Mapping[str, object], tables: Tables) -> str:
    value = body.get(name)
    if value is None:
        return ""
    if name == "structures" and isinstance(value, list | tuple):
        return ", ".join(structure_label(str(one), tables) for one in value)
    if name == "cautions" and isinstance(value, list | tuple):
        return ", ".join(label(tables.cautions, str(one)) for one in value)
    if name == "structure":
        return structure_label(str(value), tables)
    if name == "value":
        return sentence_case(finding_words(str(body.get("aspect", "")), str(value), tables))
    if name == "kind" and str(value) in NOTE_KINDS:
        return NOTE_KINDS[str(value)]
    tables_of = {
        "technique": tables.techniques,
        "aspect": tables.aspects,
        "sign": tables.signs,
        "kind": tables.actions,
        "flag": tables.flags,
    }
    if name in tables_of:
        return label(tables_of[name], str(value))
    return {"side": SIDES, "pressure": PRESSURES}.get(name, {}).get(str(value), str(value))
