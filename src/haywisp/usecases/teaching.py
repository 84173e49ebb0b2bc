"""After a correction or an answered doubt: the words that may be kept as the practitioner's own."""

from collections.abc import Iterator, Sequence

from haywisp.knowledge.types import Tables
from haywisp.narration.types import OwnWord, Span
from haywisp.record.types import Entry, StoredNarration
from haywisp.usecases.app import App
from haywisp.usecases.listening import heard_again
from haywisp.usecases.own_words import KIND_NAMES, looked_at, meaning_label
from haywisp.usecases.views import OwnWordOffer

MOST_OFFERS = 2
# The fields of a part whose correction tells what words meant, with the kind of own word that each would make.
TEACHES = {
    "bout": (("technique", "technique"), ("structures", "structure")),
    "finding": (("structure", "structure"),),
    "response": (("sign", "sign"),),
}


def offers(app: App, thread: str) -> tuple[OwnWordOffer, ...]:
    """What the newest decision on an entry teaches: nothing where it changed nothing that words stand for."""
    with app.units() as unit:
        versions = unit.thread(thread)
        if len(versions) < 2 or versions[-1].first_word < 0:
            return ()
        stored = unit.narration_of(versions[-1].visit_id)
        kept = {word.key for word in unit.own_words()}
    if stored is None:
        return ()
    before, now = versions[-2], versions[-1]
    if now.status == "corrected":
        found = [_after_correction(app, stored, now, *change) for change in _changes(before, now)]
    elif now.status == "accepted":
        found = list(_after_answer(app, stored, now))
    else:
        found = []
    return tuple(offer for offer in found if _new(app, offer, kept))[:MOST_OFFERS]


def _new(app: App, offer: OwnWordOffer, kept: set[str]) -> bool:
    """Whether an offer would teach something; words for the person to give always would."""
    if not offer.phrase:
        return True
    found = looked_at(app, OwnWord(offer.kind, offer.phrase, offer.meaning, offer.misheard))
    return not found.problem and found.key not in kept


def _changes(before: Entry, now: Entry) -> Iterator[tuple[str, str, Sequence[str]]]:
    """The kind, the new meaning and the old ones of each field that was given another value."""
    for name, kind in TEACHES.get(now.part, ()):
        old, new = _ids(before.body.get(name)), _ids(now.body.get(name))
        added = [one for one in new if one not in old]
        if len(added) == 1:
            yield kind, added[0], [one for one in old if one not in new]


def _ids(value: object) -> list[str]:
    if isinstance(value, list | tuple):
        return [str(one) for one in value]
    return [str(value)] if value else []


def _after_correction(
    app: App, stored: StoredNarration, entry: Entry, kind: str, meaning: str, instead_of: Sequence[str]
) -> OwnWordOffer:
    from haywisp.narration.own_defaults import sounds_like, words_meant
    from haywisp.narration.understanding import scene_of

    tables = app.tables()
    transcript = heard_again(app.listen, app.tables, stored).transcript
    scene = scene_of(transcript, tables, stored.own_words)
    phrase = words_meant(scene, transcript.words, _span(entry), kind, instead_of)
    looked = looked_at(app, OwnWord(kind, phrase, meaning))
    if looked.problem or looked.warnings:
        # Words with a meaning of their own are not held out to be kept by one tap.
        phrase = ""
    name = meaning_label(kind, meaning, tables)
    misheard = sounds_like(phrase, name, scene.lexicon)
    return OwnWordOffer(entry.thread, kind, KIND_NAMES[kind], phrase, meaning, name, misheard)


def _after_answer(app: App, stored: StoredNarration, entry: Entry) -> Iterator[OwnWordOffer]:
    """A misheard word that the person said was read rightly."""
    from haywisp.narration.own_defaults import repair_of, said
    from haywisp.narration.understanding import scene_of

    tables = app.tables()
    transcript = heard_again(app.listen, app.tables, stored).transcript
    scene = scene_of(transcript, tables, stored.own_words)
    for name, kind in TEACHES.get(entry.part, ()):
        for meaning in _ids(entry.body.get(name)):
            repair = repair_of(scene, _span(entry), kind, [meaning])
            if repair is not None:
                words = said(transcript.words, repair.span)
                yield _offer(entry, kind, words, meaning, tables)


def _offer(entry: Entry, kind: str, words: str, meaning: str, tables: Tables) -> OwnWordOffer:
    name = meaning_label(kind, meaning, tables)
    return OwnWordOffer(entry.thread, kind, KIND_NAMES[kind], words, meaning, name, misheard=True)


def _span(entry: Entry) -> Span:
    return Span(entry.first_word, entry.last_word)
