"""What was done in one session, and how the horse answered each bout."""

from collections.abc import Mapping, Sequence

from haywisp.knowledge.types import Tables
from haywisp.record.types import Entry, current
from haywisp.session.types import AnsweredBout, SessionLog

AFTER_S = 8.0  # how long after a bout a sign still answers it; common practice, no source
STRONG_GUARD = 0.8  # a guarding sign of this weight is never outweighed by settling ones; from memory
PRESSURES = ("light", "moderate", "firm")

Site = tuple[str, str | None]


def log_of(entries: Sequence[Entry], tables: Tables) -> SessionLog:
    """The bouts in time with the signs within them or up to 8 s after; rejected entries are left out.

    A sign answers one bout: the one that began last of those it falls into, else the one that ended last before it.
    """
    kept = [entry for entry in current(entries) if entry.status != "rejected"]
    bouts = [entry for entry in kept if entry.part == "bout"]
    signs: dict[str, list[Entry]] = {bout.thread: [] for bout in bouts}
    for response in (entry for entry in kept if entry.part == "response"):
        bout = _answered(response.time_s, bouts)
        if bout is not None:
            signs[bout.thread].append(response)
    answered = tuple(_bout(bout, signs[bout.thread], tables) for bout in bouts)
    return SessionLog(answered, _guarded(answered, tables))


def _answered(time_s: float, bouts: Sequence[Entry]) -> Entry | None:
    within = [bout for bout in bouts if bout.time_s <= time_s <= bout.end_s]
    if within:
        return max(within, key=lambda bout: bout.time_s)
    just_before = [bout for bout in bouts if bout.end_s < time_s <= bout.end_s + AFTER_S]
    return max(just_before, key=lambda bout: bout.end_s, default=None)


def _bout(entry: Entry, signs: Sequence[Entry], tables: Tables) -> AnsweredBout:
    body = entry.body
    structures = body.get("structures", ())
    return AnsweredBout(
        entry.thread,
        str(body["technique"]),
        tuple(str(structure) for structure in structures) if isinstance(structures, list | tuple) else (),
        _text(body, "side"),
        entry.time_s,
        entry.end_s,
        _text(body, "pressure"),
        tuple(str(sign.body["sign"]) for sign in signs),
        sum((_weight(sign, entry.end_s, tables) for sign in signs), 0.0),
    )


def _text(body: Mapping[str, object], key: str) -> str | None:
    value = body.get(key)
    return None if value is None else str(value)


def _weight(response: Entry, end_s: float, tables: Tables) -> float:
    """The sign's weight, positive for settling; one that comes after the bout fades by its half-life."""
    sign = tables.signs.get(str(response.body["sign"]))
    if sign is None:
        return 0.0
    late = max(0.0, response.time_s - end_s)
    faded = sign.weight * (0.5 ** (late / sign.half_life_s) if sign.half_life_s > 0 else 1.0)
    return faded if sign.direction == "settling" else -faded


def _guarded(bouts: Sequence[AnsweredBout], tables: Tables) -> dict[Site, str]:
    guarded: dict[Site, str] = {}
    for bout in bouts:
        if bout.pressure in PRESSURES and _is_guarded(bout, tables):
            for site in _sites(bout, tables):
                guarded[site] = min(guarded.get(site, bout.pressure), bout.pressure, key=PRESSURES.index)
    return guarded


def _sites(bout: AnsweredBout, tables: Tables) -> list[Site]:
    sites: list[Site] = []
    for structure in bout.structures:
        row = tables.structures.get(structure)
        if row is not None and not row.paired:
            sites.append((structure, None))
        elif bout.side == "both":
            sites += [(structure, "left"), (structure, "right")]
        else:
            sites.append((structure, bout.side))
    return sites


def _is_guarded(bout: AnsweredBout, tables: Tables) -> bool:
    known = [tables.signs[sign] for sign in bout.signs if sign in tables.signs]
    strong = any(sign.direction == "guarding" and sign.weight >= STRONG_GUARD for sign in known)
    return strong or bout.answer < 0
