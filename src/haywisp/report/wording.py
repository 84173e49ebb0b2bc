"""Plain sentences for bouts, findings, responses and actions, in the practitioner's or the owner's words."""

from collections.abc import Callable, Mapping, Sequence
from typing import Literal

from haywisp.knowledge.types import Tables
from haywisp.report.phrases import Phrases, cap, humanised, joined, phrases

Reader = Literal["practitioner", "owner"]
Body = Mapping[str, object]


def mmss(seconds: float) -> str:
    """Minutes and seconds from the start, as ``12:05``; hours in front where there are any."""
    whole = max(0, int(seconds + 0.5))
    hours, rest = divmod(whole, 3600)
    minutes, left = divmod(rest, 60)
    return f"{hours}:{minutes:02d}:{left:02d}" if hours else f"{minutes}:{left:02d}"


def minutes_words(seconds: float, tables: Tables) -> str:
    """A duration to the whole minute: a narration's times are no better than that."""
    times = phrases(tables.language.code)["times"]
    minutes = round(seconds / 60)
    if seconds < 45:
        return str(times["short"])
    return str(times["one"] if minutes < 2 else times["many"].format(n=minutes))


def side_words(side: str | None, tables: Tables) -> str:
    """``left``, ``right``, ``both sides`` or nothing."""
    return "" if side is None else str(phrases(tables.language.code)["sides"].get(side, humanised(side)))


def pressure_words(pressure: str | None, tables: Tables) -> str:
    """``light``, ``moderate``, ``firm`` or nothing."""
    if not pressure:
        return ""
    return str(phrases(tables.language.code)["pressures"].get(pressure, humanised(pressure)))


def structure_name(structure: str, tables: Tables, reader: Reader = "practitioner") -> str:
    """The name in mid-sentence; an owner reads plain words with the trade term in brackets."""
    row = tables.structures.get(structure)
    trade = mid_sentence(row.name if row else humanised(structure))
    words = phrases(tables.language.code)
    plain = words["structures"].get(structure, trade)
    if reader == "practitioner" or plain == trade:
        return trade
    return str(words["frames"]["bracketed"].format(plain=plain, trade=trade))


def technique_name(technique: str, tables: Tables, reader: Reader = "practitioner", *, brackets: bool = True) -> str:
    """The name in mid-sentence; ``brackets`` adds the trade term to the owner's plain words."""
    row = tables.techniques.get(technique)
    trade = mid_sentence(row.name if row else humanised(technique))
    words = phrases(tables.language.code)
    plain = words["techniques"].get(technique, {}).get("owner", trade)
    if reader == "practitioner":
        return trade
    if not brackets or trade in plain or plain in trade:
        return str(plain)
    return str(words["frames"]["bracketed"].format(plain=plain, trade=trade))


def place(structures: Sequence[str], side: str | None, tables: Tables, reader: Reader = "practitioner") -> str:
    """``the left neck and shoulder``, for the middle of a sentence; ``the neck, left`` for the owner."""
    return _framed("the_owner" if reader == "owner" else "the", structures, side, tables, reader)


def place_title(structure: str, side: str | None, tables: Tables, reader: Reader = "practitioner") -> str:
    """``Left neck``, for the head of a line; the owner reads ``Neck, left``, since the plain names are long."""
    frame = "owner" if reader == "owner" else "titled"
    return cap(_framed(frame, [structure], side, tables, reader))


def place_words(structure: str, side: str | None, tables: Tables) -> str:
    """``left neck``: the same for brackets and the middle of a sentence."""
    return _framed("titled", [structure], side, tables, "practitioner")


def finding_words(aspect: str, value: str, tables: Tables, reader: Reader = "practitioner") -> str:
    """What was found, in mid-sentence: ``tight``, ``no heat``."""
    words = phrases(tables.language.code)
    usual = words["findings"].get(aspect, {}).get(value, humanised(value))
    return str(words["findings_owner"].get(aspect, {}).get(value, usual) if reader == "owner" else usual)


def sign_words(sign: str, tables: Tables) -> str:
    """What the horse did, in the past tense."""
    row = tables.signs.get(sign)
    return str(phrases(tables.language.code)["signs"].get(sign, cap(row.name if row else humanised(sign))))


def entry_sentence(part: str, body: Body, tables: Tables, reader: Reader = "practitioner") -> str:
    """One sentence without a full stop for the body of an entry.

    An id that no table knows is written as words and a missing field is left out, so that a half-filled entry can
    still be shown.
    """
    writer = _WRITERS.get(part, _note)
    return writer(body, tables, reader)


def _bout(body: Body, tables: Tables, reader: Reader) -> str:
    words = phrases(tables.language.code)
    technique = _text(body, "technique")
    structures = _texts(body, "structures")
    side = _text(body, "side") or None
    where = place(structures, side, tables, reader) if structures else ""
    parts = [_technique_phrase(technique, where, words, tables, reader), *_amounts(body, tables, reader)]
    return cap(", ".join(parts))


def _technique_phrase(technique: str, where: str, words: Phrases, tables: Tables, reader: Reader) -> str:
    row = words["techniques"].get(technique)
    name = technique_name(technique, tables, reader)
    if reader == "owner" or row is None:
        return ", ".join(filter(None, [name, where]))
    return str(row["phrase"].format(where=where) if where else row["bare"])


def _amounts(body: Body, tables: Tables, reader: Reader) -> list[str]:
    words = phrases(tables.language.code)
    passes, pressure = body.get("passes"), pressure_words(_text(body, "pressure"), tables)
    amounts = []
    if isinstance(passes, int) and not isinstance(passes, bool):
        amounts.append(words["passes"]["one"] if passes == 1 else words["passes"]["many"].format(n=passes))
    if pressure:
        amounts.append(words["frames"]["pressure"].format(pressure=pressure) if reader == "owner" else pressure)
    return amounts


def _finding(body: Body, tables: Tables, reader: Reader) -> str:
    structure = _text(body, "structure")
    value = finding_words(_text(body, "aspect"), _text(body, "value"), tables, reader)
    if not structure:
        return cap(value)
    title = place_title(structure, _text(body, "side") or None, tables, reader)
    return str(phrases(tables.language.code)["frames"]["finding"].format(place=title, value=value))


def _response(body: Body, tables: Tables, reader: Reader) -> str:
    return sign_words(_text(body, "sign"), tables)


def _action(body: Body, tables: Tables, reader: Reader) -> str:
    kind = _text(body, "kind")
    row = tables.actions.get(kind)
    if reader == "owner" and row is not None:
        return row.wording.rstrip(".")
    return str(phrases(tables.language.code)["actions"].get(kind, cap(row.name if row else humanised(kind))))


def _note(body: Body, tables: Tables, reader: Reader) -> str:
    return _text(body, "text")


def _flag(body: Body, tables: Tables, reader: Reader) -> str:
    flag = _text(body, "flag")
    row = tables.flags.get(flag)
    return cap(row.name if row else humanised(flag))


def _reading(body: Body, tables: Tables, reader: Reader) -> str:
    what, site, side = _text(body, "what"), _text(body, "site"), _text(body, "side")
    row = tables.scales.get(what) or tables.vital_signs.get(what)
    name = cap(row.name if row else humanised(what))
    value, unit, low, high = (body.get(field) for field in ("value", "unit", "low", "high"))
    told = f"{value:g}" if isinstance(value, int | float) else str(value)
    if what in tables.scales:
        told += f" on {low:g} to {high:g}" if isinstance(low, int | float) and isinstance(high, int | float) else ""
    elif unit:
        told += f" {unit}"
    where = ", ".join(filter(None, [site, side]))
    return f"{name}{f' ({where})' if where else ''}: {told}"


_WRITERS: Mapping[str, Callable[[Body, Tables, Reader], str]] = {
    "bout": _bout,
    "finding": _finding,
    "response": _response,
    "action": _action,
    "flag": _flag,
    "reading": _reading,
}


def _framed(frame: str, structures: Sequence[str], side: str | None, tables: Tables, reader: Reader) -> str:
    words = phrases(tables.language.code)
    frames = words["frames"]
    names = joined([structure_name(one, tables, reader) for one in structures], frames["and"])
    if side is None:
        return str(frames[frame].format(place=names))
    if side == "both":
        return str(frames[f"{frame}_both"].format(place=names))
    return str(frames[f"{frame}_sided"].format(place=names, side=side_words(side, tables)))


def mid_sentence(name: str) -> str:
    """A name with a small first letter, unless it is written in capitals."""
    return name[:1].lower() + name[1:] if name[1:2].islower() else name


def _text(body: Body, key: str) -> str:
    value = body.get(key)
    return value if isinstance(value, str) else ""


def _texts(body: Body, key: str) -> list[str]:
    value = body.get(key)
    return [one for one in value if isinstance(one, str)] if isinstance(value, list | tuple) else []
