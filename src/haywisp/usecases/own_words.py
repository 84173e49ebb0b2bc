"""The practitioner's own words: kept, listed, taken off the list, and looked for in what was said before."""

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from haywisp.errors import HaywispError
from haywisp.knowledge.types import Tables
from haywisp.narration.types import OwnWord
from haywisp.record.types import StoredOwnWord
from haywisp.store.types import Unit
from haywisp.usecases.app import App
from haywisp.usecases.errors import NotFound, Refused
from haywisp.usecases.lookup import horse_of, visit_of
from haywisp.usecases.views import HeardAt, OwnWordRow, Ref
from haywisp.usecases.wording import label, structure_label

if TYPE_CHECKING:
    from haywisp.narration.own_rules import OwnWordCheck

KIND_NAMES = {"structure": "part of the body", "technique": "technique", "sign": "answer of the horse"}
MOST_KEPT = 500
MOST_LOOKED_AT = 200
MOST_CHOICES = 8


class OwnWordWarned(Refused):
    """Words that mean something else already; ``how`` tells how to keep them all the same."""

    def __init__(self, warnings: Sequence[str], how: str = "say that you want it all the same") -> None:
        super().__init__(f"{' '.join(warnings)} Choose other words, or {how}. Nothing was kept.")
        self.warnings = tuple(warnings)


def own_words(app: App) -> tuple[OwnWordRow, ...]:
    """The list, by what the words mean and then by the words."""
    tables = app.tables()
    with app.units() as unit:
        rows = [own_word_row(kept, tables) for kept in unit.own_words()]
    return tuple(sorted(rows, key=lambda row: (row.kind_name, row.meaning_name.lower(), row.phrase.lower())))


def own_word_row(kept: StoredOwnWord, tables: Tables) -> OwnWordRow:
    """One of the list in words."""
    return OwnWordRow(
        id=kept.id,
        kind=kept.kind,
        kind_name=KIND_NAMES.get(kept.kind, kept.kind),
        phrase=kept.phrase,
        meaning=kept.meaning,
        meaning_name=meaning_label(kept.kind, kept.meaning, tables),
        misheard=kept.misheard,
        day=kept.added_at.date(),
        known=kept.meaning in _table(kept.kind, tables),
    )


def meaning_label(kind: str, meaning: str, tables: Tables) -> str:
    """The name of what own words mean, with a capital."""
    return structure_label(meaning, tables) if kind == "structure" else label(_table(kind, tables), meaning)


def _table(kind: str, tables: Tables) -> dict[str, object]:
    return dict({"structure": tables.structures, "technique": tables.techniques, "sign": tables.signs}.get(kind, {}))


def looked_at(app: App, word: OwnWord) -> "OwnWordCheck":
    """Whether words may be kept, and what is to be known before."""
    from haywisp.narration.own_rules import check
    from haywisp.narration.understanding import prepared

    lexicon, ear = prepared(app.tables())
    return check(word, lexicon, ear.watch.flags if ear.watch else None)


def teach(app: App, word: OwnWord, *, anyway: bool = False) -> OwnWordRow:
    """Keep words for every narration that is heard from now on; what was heard before stays as it is.

    :class:`OwnWordWarned` where they mean something else already, unless ``anyway``. Words that are on the list with
    another meaning are refused.
    """
    tables = app.tables()
    word = OwnWord(word.kind.strip(), " ".join(word.phrase.split()), word.meaning.strip(), word.misheard)
    found = looked_at(app, word)
    if found.problem:
        raise Refused(f"{found.problem} Nothing was kept.")
    with app.units() as unit:
        kept = unit.own_words()
        same = next((one for one in kept if one.key == found.key), None)
        if same is not None:
            meant = meaning_label(same.kind, same.meaning, tables)
            raise Refused(
                f"“{same.phrase}” is on your list already: it means {_inside(meant)}. "
                "Take it off the list first if it is to mean something else. Nothing was changed."
            )
        if len(kept) >= MOST_KEPT:
            raise Refused(f"There are {MOST_KEPT} words on your list, and it holds no more. Take off what is unused.")
        if found.warnings and not anyway:
            raise OwnWordWarned(found.warnings)
        new = StoredOwnWord(app.new_id(), word.kind, word.phrase, found.key, word.meaning, word.misheard, app.clock())
        unit.add_own_word(new)
    return own_word_row(new, tables)


def _inside(name: str) -> str:
    return name[:1].lower() + name[1:]


def forget(app: App, word_id: str) -> OwnWordRow:
    """Take words off the list; what was understood with them stays as it is."""
    with app.units() as unit:
        kept = own_word_of(unit, word_id)
        unit.remove_own_word(word_id)
    return own_word_row(kept, app.tables())


def own_word_of(unit: Unit, word_id: str) -> StoredOwnWord:
    """One of the list by its id."""
    found = next((kept for kept in unit.own_words() if kept.id == word_id), None)
    if found is None:
        raise NotFound("word of your own", word_id, "The list has them all; it may have been taken off already.")
    return found


def own_word_named(app: App, text: str) -> OwnWordRow:
    """One of the list by the words, its id or the start of its id."""
    from haywisp.narration.own_words import key_of
    from haywisp.narration.understanding import prepared

    key = " ".join(key_of(text, prepared(app.tables())[0]))
    with app.units() as unit:
        kept = unit.own_words()
    found = [one for one in kept if key and one.key == key]
    found = found or [one for one in kept if len(text) >= 4 and one.id.startswith(text.lower())]
    if len(found) != 1:
        raise NotFound("word of your own", text, "List them with: haywisp words list")
    return own_word_row(found[0], app.tables())


def meaning_named(app: App, text: str) -> tuple[str, str]:
    """The kind and id of a structure, technique or sign by its id or name; refused with the choices in doubt."""
    from haywisp.knowledge import find

    kinds = {"structures": "structure", "techniques": "technique", "signs": "sign"}
    tables = app.tables()
    wanted = " ".join(text.lower().split())
    found = [(kinds[table], row) for table, row in find(tables, text) if table in kinds]
    exact = [(kind, row) for kind, row in found if wanted in (row, meaning_label(kind, row, tables).lower())]
    found = exact or found
    if not found:
        raise NotFound("structure, technique or sign", text, "List them with: haywisp know")
    if len(found) > 1:
        choices = ", ".join(row for _, row in found[:MOST_CHOICES])
        more = f" and {len(found) - MOST_CHOICES} more" if len(found) > MOST_CHOICES else ""
        raise Refused(f"“{text}” could be {choices}{more}. Give one of these.")
    return found[0]


def heard_at(app: App, phrase: str) -> tuple[HeardAt, ...]:
    """The visits in whose narrations words were said, newest first, and how often: a hint of how they would be heard.

    The newest narrations that hold all of the words are looked at, and no more than so many.
    """
    from haywisp.narration import read_bytes
    from haywisp.narration.own_words import heard_in
    from haywisp.narration.understanding import prepared

    lexicon = prepared(app.tables())[0]
    # The kind and the meaning do not matter for where words are said, only that the tables know them.
    word = OwnWord("structure", phrase, next(iter(app.tables().structures)))
    parts = [part for part in re.findall(r"[a-z0-9]+", phrase.lower()) if len(part) > 2]
    if not parts:
        return ()
    found = []
    with app.units() as unit:
        for stored in unit.narrations_holding(parts, MOST_LOOKED_AT):
            try:
                words = read_bytes(stored.content.encode(), stored.file_name).words
            except HaywispError:
                # What can't be read any more says nothing, and keeps nobody from the rest.
                continue
            times = heard_in(words, [word], lexicon).get(word, 0)
            if times:
                visit = visit_of(unit, stored.visit_id)
                horse = horse_of(unit, visit.horse_id)
                found.append(
                    HeardAt(Ref(visit.id, f"{horse.name}, visit {visit.number}"), horse.name, visit.day, times)
                )
    return tuple(sorted(found, key=lambda one: (one.day, one.visit.id), reverse=True))
