"""Scores on scales and vital signs as they are typed: kept with their limits, put into words, told to the gate."""

import re
from collections.abc import Sequence

from haywisp import record
from haywisp.knowledge.types import Tables
from haywisp.measure.types import Score
from haywisp.record.types import Entry, Visit, current
from haywisp.report.wording import entry_sentence
from haywisp.store.types import Unit
from haywisp.usecases.app import App
from haywisp.usecases.asked import answers
from haywisp.usecases.deciding import allowed_of, append, check
from haywisp.usecases.errors import Refused
from haywisp.usecases.lookup import horse_of, visit_of
from haywisp.usecases.views import Option, ReadingChoice, ReadingView

NUMBER = re.compile(r"(-?[0-9]{1,5}(?:[.,][0-9]{1,3})?)\s*(.*)")
UNITS = {"c": "°C", "°c": "°C", "f": "°F", "°f": "°F"}


def choices(tables: Tables) -> tuple[ReadingChoice, ...]:
    """What can be read or scored, vital signs first, each with what to know before."""
    signs = [
        ReadingChoice(row.id, row.name, f"{row.low:g} to {row.high:g} {row.unit} is usual", row.how, ())
        for row in tables.vital_signs.values()
    ]
    scales = [
        ReadingChoice(
            row.id,
            row.name,
            f"{row.minimum:g} to {row.maximum:g}",
            row.how,
            tuple(Option(part, part) for part in row.parts),
        )
        for row in tables.scales.values()
    ]
    return (*signs, *scales)


def keep_reading(
    app: App, visit_id: str, what: str, value: str, *, site: str = "", side: str = "", observer: str = ""
) -> ReadingView:
    """Keep a reading of a vital sign, or a score with the limits of its scale; what the gate should hear, it hears."""
    tables = app.tables()
    with app.units() as unit:
        visit = visit_of(unit, visit_id)
        age = _age(unit, visit)
    body, flags = _read(
        what, value, site, side, observer or visit.practitioner or "the practitioner", visit, age, tables
    )
    check("reading", body, allowed_of(tables))
    with app.units() as unit:
        kept = unit.entries_of(visit_id)
        now = app.clock()
        entry = record.by_hand(visit_id, "reading", body, 0.0, app.new_id, now)
        heard = {str(one.body["flag"]) for one in answers(current(kept))}
        raised = [flag for flag in flags if flag not in heard]
        append(unit, [entry, *(record.by_hand(visit_id, "flag", {"flag": f}, 0.0, app.new_id, now) for f in raised)])
    return _view(entry, visit, age, tables)


def readings(app: App, visit_id: str) -> tuple[ReadingView, ...]:
    """What was read and scored at a visit, in the order in which it was kept."""
    tables = app.tables()
    with app.units() as unit:
        visit = visit_of(unit, visit_id)
        age = _age(unit, visit)
        entries = current(unit.entries_of(visit_id))
    return tuple(
        _view(one, visit, age, tables) for one in entries if one.part == "reading" and one.status != "rejected"
    )


def _age(unit: Unit, visit: Visit) -> float | None:
    born = horse_of(unit, visit.horse_id).born
    return None if born is None else float(visit.day.year - born)


def _read(
    what: str, value: str, site: str, side: str, observer: str, visit: Visit, age: float | None, tables: Tables
) -> tuple[dict[str, object], Sequence[str]]:
    from haywisp.measure import meaning, read_vital_sign, score

    number, unit = _number(value)
    body: dict[str, object] = {"what": what, "site": site or None, "side": side or None, "observer": observer}
    if what in tables.vital_signs:
        sign = tables.vital_signs[what]
        read = read_vital_sign(sign, number, UNITS.get(unit.lower(), unit), age)
        known = {
            "value": round(read.reading.value, 2),
            "unit": sign.unit,
            "low": sign.low,
            "high": sign.high,
            "error": None,
        }
        return body | known, read.flags
    if what in tables.scales:
        scale = tables.scales[what]
        given = score(scale, number, observer, visit.day, site=site, side=side or None)
        told = meaning(scale, given)
        known = {"value": given.value, "unit": given.unit, "low": given.minimum, "high": given.maximum}
        return body | known | {"error": given.error}, (told.flag,) if told.flag else ()
    known_ids = ", ".join((*tables.vital_signs, *tables.scales))
    raise Refused(f"There is no scale or vital sign “{what[:40]}”. There are: {known_ids}.")


def _number(text: str) -> tuple[float, str]:
    """The figure and the unit of what was typed, such as ``38,2`` or ``101 °F``."""
    found = NUMBER.fullmatch(text.strip())
    if not found:
        raise Refused(f"“{text[:40]}” should be a number, such as 38.2 (for a temperature also 101 °F).")
    return float(found[1].replace(",", ".")), found[2].strip()


def _view(entry: Entry, visit: Visit, age: float | None, tables: Tables) -> ReadingView:
    """A kept reading in words; where the tables have changed since, only what was kept."""
    from haywisp.errors import HaywispError

    says: tuple[str, ...] = ()
    try:
        says = _says(entry, visit, age, tables)
    except (HaywispError, KeyError):
        says = ()
    return ReadingView(
        thread=entry.thread,
        what=str(entry.body["what"]),
        sentence=entry_sentence("reading", entry.body, tables),
        says=says,
        observer=str(entry.body.get("observer") or ""),
    )


def _says(entry: Entry, visit: Visit, age: float | None, tables: Tables) -> tuple[str, ...]:
    from haywisp.measure import meaning, read_vital_sign

    body = entry.body
    what, value = str(body["what"]), float(str(body["value"]))
    if what in tables.vital_signs:
        return (read_vital_sign(tables.vital_signs[what], value, "", age).sentence,)
    scale = tables.scales[what]
    low, high = float(str(body["low"])), float(str(body["high"]))
    site, side = str(body.get("site") or ""), body.get("side")
    given = Score(
        what,
        scale.unit,
        low,
        high,
        scale.step,
        value,
        str(body["observer"]),
        visit.day,
        site,
        str(side) if side else None,
    )
    told = meaning(scale, given)
    return tuple(filter(None, (told.level, told.mark, told.caution)))
