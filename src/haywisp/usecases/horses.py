"""The list of horses, and everything on one of them."""

from collections import Counter
from collections.abc import Sequence

from haywisp.knowledge.types import Tables
from haywisp.progress.types import Strand
from haywisp.record.types import Entry, Visit
from haywisp.report.wording import finding_words, place_title
from haywisp.usecases.app import App
from haywisp.usecases.basis import basis_of, recorded
from haywisp.usecases.conclusions import held_of, pattern_views, reviewed, verdict_view
from haywisp.usecases.horse_details import height_words, number_words, told_words
from haywisp.usecases.lookup import by_visit, horse_of, owner_of, yard_of
from haywisp.usecases.overriding import overrides_for
from haywisp.usecases.views import HorsePage, HorseRow, Option, Ref, StrandView
from haywisp.usecases.visit_rows import visit_rows
from haywisp.usecases.wording import flag_label, humanised, label, structure_label

# Visits waiting for review are few; this only keeps a list page from reading a whole database.
MOST_WAITING = 2000


def list_horses(app: App, text: str = "", *, after: str = "", limit: int = 200) -> tuple[HorseRow, ...]:
    """Horses by name; each word of ``text`` is in the name of the horse, its owner or its yard.

    ``after`` is the id of the last horse of the page before.
    """
    with app.units() as unit:
        horses = unit.horses(text.strip(), after, limit)
        owners = {owner.id: owner.name for owner in unit.owners()}
        yards = {yard.id: yard.name for yard in unit.yards()}
        last_days = unit.last_visit_days([horse.id for horse in horses]) if horses else {}
        waiting = unit.visits_by_status("heard", MOST_WAITING) if horses else []
        questions = unit.open_questions([visit.id for visit in waiting]) if waiting else {}
    visits_of_horse = Counter(visit.horse_id for visit in waiting)
    questions_of_horse: Counter[str] = Counter()
    for visit in waiting:
        questions_of_horse[visit.horse_id] += questions.get(visit.id, 0)
    return tuple(
        HorseRow(
            id=horse.id,
            name=horse.name,
            owner=Ref(horse.owner_id, owners.get(horse.owner_id, "")),
            yard=Ref(horse.yard_id, yards.get(horse.yard_id, "")),
            breed=horse.breed,
            work=horse.work,
            last_day=last_days.get(horse.id),
            open_questions=questions_of_horse[horse.id],
            waiting=visits_of_horse[horse.id],
            invented=horse.invented,
        )
        for horse in horses
    )


def horse_page(app: App, horse_id: str) -> HorsePage:
    """The horse with its visits, newest first, what changed between them, and the gate's verdict for next time."""
    tables = app.tables()
    with app.units() as unit:
        horse = horse_of(unit, horse_id)
        owner, yard = owner_of(unit, horse.owner_id), yard_of(unit, horse.yard_id)
        visits = unit.visits_of(horse_id)
        rows = visit_rows(unit, visits, tables)
        entries = by_visit(unit.entries_of_many([visit.id for visit in visits])) if visits else {}
        basis = basis_of(unit, visits[0], visits, horse, tables) if visits else None
        aside = overrides_for(unit, visits[0], basis.entries, basis.before, next_time=True) if basis else ()
    latest = basis.entries if basis else ()
    held = held_of(
        latest,
        horse,
        tables,
        first_visit=basis is None or basis.first,
        before=basis.before if basis else (),
        overrides=aside,
    )
    return HorsePage(
        horse=horse,
        owner=owner,
        yard=yard,
        height=height_words(horse.height_cm),
        numbers=number_words(horse),
        told=told_words(horse),
        flags=tuple(Option(flag, flag_label(flag, tables)) for flag in horse.flags),
        visits=rows,
        strands=strand_views(visits, entries, tables),
        patterns=pattern_views(reviewed(latest), horse, tables),
        verdict=verdict_view(held.verdict, tables, aside),
        verdict_visit=basis.visit if basis and recorded(entries.get(basis.visit.id, [])) else None,
    )


def strand_views(visits: Sequence[Visit], entries: dict[str, list[Entry]], tables: Tables) -> tuple[StrandView, ...]:
    """What changed, from the entries that someone stood by."""
    from haywisp.progress import strands

    oldest_first = sorted(visits, key=lambda visit: (visit.day, visit.number))
    told = [(visit, reviewed(entries.get(visit.id, []))) for visit in oldest_first]
    return tuple(_strand_view(strand, tables) for strand in strands(told, tables))


def _strand_view(strand: Strand, tables: Tables) -> StrandView:
    aspect = label(tables.aspects, strand.aspect)
    return StrandView(
        structure=Ref(strand.structure, structure_label(strand.structure, tables)),
        side=strand.side,
        aspect=Ref(strand.aspect, aspect),
        title=f"{place_title(strand.structure, strand.side, tables)}: {aspect.lower()}",
        values=tuple((day, _values(strand.aspect, told, tables)) for day, told in strand.values),
        change=humanised(strand.change),
    )


def _values(aspect: str, told: str, tables: Tables) -> str:
    """Values in words; a visit that found several has them joined by "and"."""
    return " and ".join(finding_words(aspect, value, tables) for value in told.split(" and "))
