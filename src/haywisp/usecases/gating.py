"""The screening gate on its own: for a horse as it is known, or for facts that somebody asks about."""

from collections.abc import Iterable, Mapping, Sequence
from difflib import get_close_matches

from haywisp.findings import Fact, Held, Override
from haywisp.findings.gate import FIRST_VISIT
from haywisp.knowledge.types import Structure, Tables
from haywisp.usecases.app import App
from haywisp.usecases.basis import basis_of, recorded
from haywisp.usecases.conclusions import held_of, verdict_view
from haywisp.usecases.days import day_words
from haywisp.usecases.deciding import allowed_of, check
from haywisp.usecases.errors import Refused
from haywisp.usecases.limits import standing_since
from haywisp.usecases.lookup import horse_of
from haywisp.usecases.overriding import overrides_for
from haywisp.usecases.plans import CAUTIONS
from haywisp.usecases.views.gating import GateView
from haywisp.usecases.views.shared import Ref
from haywisp.usecases.wording import fact_sentence

SIDES = ("left", "right", "both")


def facts_told(
    tables: Tables,
    *,
    flags: Iterable[str] = (),
    findings: Iterable[str] = (),
    signs: Iterable[str] = (),
    actions: Iterable[str] = (),
) -> tuple[Fact, ...]:
    """Facts as they are typed: ids of the tables, and findings as ``left longissimus-dorsi warmth warm``."""
    ids: Sequence[tuple[str, Iterable[str], Mapping[str, object]]] = (
        ("flag", flags, tables.flags),
        ("sign", signs, tables.signs),
        ("action", actions, tables.actions),
    )
    named = [Fact(kind, id=_known(kind, one, rows)) for kind, given, rows in ids for one in given]
    return (*named, *(_finding(text, tables) for text in findings))


def gate_for_facts(tables: Tables, facts: Sequence[Fact], *, first_visit: bool = False) -> GateView:
    """The gate on these facts alone; refused where there are none, since nothing told is not nothing wrong."""
    from haywisp.findings import held

    if not facts and not first_visit:
        raise Refused("There is nothing to judge: name a horse, or give a --flag, --finding, --sign or --action.")
    told = _with_first(facts, first_visit)
    return _view(held(told, (), tables), told, (), tables)


def gate_for_horse(app: App, horse_id: str, also: Sequence[Fact] = (), *, first_visit: bool = False) -> GateView:
    """The gate for the next hands-on time of a horse, as its page has it; ``also`` are facts to ask about besides."""
    tables = app.tables()
    with app.units() as unit:
        horse = horse_of(unit, horse_id)
        visits = unit.visits_of(horse_id)
        basis = basis_of(unit, visits[0], visits, horse, tables) if visits else None
        overrides = (
            overrides_for(unit, visits[0], basis.entries, basis.before, next_time=True) if basis is not None else ()
        )
        seen = basis.visit if basis is not None and recorded(unit.entries_of(basis.visit.id)) else None
    first = first_visit or basis is None or basis.first
    found = held_of(
        basis.entries if basis else (),
        horse,
        tables,
        first_visit=first,
        before=basis.before if basis else (),
        overrides=overrides,
        also=also,
    )
    facts = tuple(dict.fromkeys(fact for reason in found.advice.reasons for fact in reason.facts))
    return _view(
        found,
        facts,
        overrides,
        tables,
        horse=Ref(horse.id, horse.name),
        visit=None if seen is None else Ref(seen.id, day_words(seen.day)),
    )


def _view(
    found: Held,
    facts: Sequence[Fact],
    overrides: Sequence[Override],
    tables: Tables,
    *,
    horse: Ref | None = None,
    visit: Ref | None = None,
) -> GateView:
    limits = found.verdict.limits
    return GateView(
        verdict=verdict_view(found.verdict, tables, overrides),
        facts=tuple(dict.fromkeys(fact_sentence(fact, tables) + standing_since([fact]) for fact in facts)),
        excluded=tuple(sorted(_site(*site) for site in limits.excluded)),
        techniques=tuple(sorted(limits.techniques)),
        caps={_site(*site): cap for site, cap in sorted(limits.caps.items(), key=lambda one: _site(*one[0]))},
        pressure_cap=limits.pressure_cap,
        cautions=CAUTIONS,
        horse=horse,
        visit=visit,
    )


def _site(structure: str, side: str | None) -> str:
    return structure if side is None else f"{structure}:{side}"


def _with_first(facts: Sequence[Fact], first_visit: bool) -> tuple[Fact, ...]:
    return (*facts, FIRST_VISIT) if first_visit and FIRST_VISIT not in facts else tuple(facts)


def _known(kind: str, text: str, rows: Mapping[str, object]) -> str:
    name = text.strip().lower()
    if name not in rows:
        near = get_close_matches(name, rows, n=3)
        hint = f"Did you mean {' or '.join(near)}?" if near else "List them all with: haywisp know"
        raise Refused(f"There is no {kind} “{text.strip()[:40]}”. {hint}")
    return name


def _finding(text: str, tables: Tables) -> Fact:
    words = text.lower().split()
    side = words.pop(0) if words and words[0] in SIDES else None
    if len(words) < 3:
        raise Refused(
            f"“{text.strip()[:60]}” is no finding: write side (or none), place, what was felt and how it was, such as "
            "“left longissimus-dorsi warmth warm”."
        )
    *place, aspect, value = words
    structure = _structure(" ".join(place), tables)
    check("finding", {"structure": structure, "side": side, "aspect": aspect, "value": value}, allowed_of(tables))
    return Fact("finding", structure=structure, side=side, aspect=aspect, value=value)


def _structure(text: str, tables: Tables) -> str:
    """The id of a structure by its id, its name or what the trade calls it."""
    if text.replace(" ", "-") in tables.structures:
        return text.replace(" ", "-")
    called = [row.id for row in tables.structures.values() if text in _names(row)]
    return called[0] if len(called) == 1 else _known("structure", text.replace(" ", "-"), tables.structures)


def _names(row: Structure) -> set[str]:
    return {name.lower() for name in (row.name, row.latin, *row.trade_names)}
