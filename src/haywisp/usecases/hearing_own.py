"""Which of the practitioner's own words a narration is understood with."""

from haywisp.knowledge.types import Tables
from haywisp.narration.types import Narration, OwnWord
from haywisp.store.types import Unit


def own_words_kept(unit: Unit) -> tuple[OwnWord, ...]:
    """All that are on the list now."""
    return tuple(kept.word for kept in unit.own_words())


def said_in(narration: Narration, own: tuple[OwnWord, ...], tables: Tables) -> tuple[OwnWord, ...]:
    """Those that were said in a narration: the copy that it keeps, since the others change nothing in it."""
    if not own:
        return ()
    from haywisp.narration.own_words import heard_in
    from haywisp.narration.understanding import prepared

    heard = heard_in(narration.transcript.words, own, prepared(tables)[0])
    return tuple(word for word in own if word in heard)
