"""What stands behind a limit, as words that go after "because of"."""

from collections.abc import Iterable

from haywisp.findings.types import Cause, Fact, Reason
from haywisp.knowledge.types import Tables
from haywisp.report.phrases import joined, phrases
from haywisp.report.wording import mid_sentence, place_words


def causes_words(causes: Iterable[Cause | Reason], tables: Tables) -> str:
    """``a rub on the skin (chest) and warmth (left neck)``; "" where there are none. Each is said once."""
    return joined(list(dict.fromkeys(_cause_words(cause, tables) for cause in causes)))


def _cause_words(cause: Cause | Reason, tables: Tables) -> str:
    """The findings by their place; a caution without any by its own words."""
    by_place: dict[str, list[str]] = {}
    for fact in cause.facts:
        if fact.kind == "finding":
            known = by_place.setdefault(place_words(fact.structure, fact.side, tables), [])
            noun = _noun(fact, tables)
            if noun not in known:
                known.append(noun)
    if by_place:
        return joined([f"{joined(nouns)} ({where})" for where, nouns in by_place.items()])
    named = phrases(tables.language.code)["causes"]["cautions"].get(cause.caution)
    return str(named or mid_sentence(cause.name))


def _noun(fact: Fact, tables: Tables) -> str:
    row = phrases(tables.language.code)["causes"].get(fact.aspect, {})
    return str(row.get(fact.value) or mid_sentence(f"{fact.aspect} {fact.value}".replace("-", " ")))
