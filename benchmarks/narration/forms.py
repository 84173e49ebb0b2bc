"""Every form of a name that the tables spell out, for peers that know lists of names and nothing else."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import islice, product

from haywisp.narration.lexicon import Lexicon
from haywisp.narration.phrases import Phrase

# The kinds of mention that stand for an entry of the record, the first of them winning a form that several have.
KINDS = ("structure", "ambiguous", "technique", "sign", "aspect", "action", "after")


@dataclass(frozen=True)
class Name:
    """What a form names: the kind of mention and the id of its row."""

    kind: str
    id: str


def spelled(phrase: Phrase, most: int) -> Iterator[str]:
    """Up to so many of the forms of a phrase; none where it has a gap, as any words may stand in it."""
    if any(item.gap for item in phrase.items):
        return
    choices = [[*sorted(item.words), *([""] if item.optional else [])] for item in phrase.items]
    for words in islice(product(*choices), most):
        yield " ".join(filter(None, words))


def forms_of(lexicon: Lexicon, most: int) -> Mapping[str, Name]:
    """Every form with what it names."""
    found: dict[str, Name] = {}
    for kind in KINDS:
        for phrase in lexicon.matchers[kind].phrases:
            for form in spelled(phrase, most):
                found.setdefault(form, Name(kind, phrase.meaning))
    return found
