"""The peers: a fuzzy gazetteer, and plain spaCy pipelines with the tables' names; each gives hits for a transcript."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from forms import KINDS, Name
from plain_names import Hit
from rapidfuzz import fuzz, process

from haywisp.narration import Transcript
from haywisp.narration.lexicon import Lexicon
from haywisp.narration.phrases import Phrase
from haywisp.narration.tokens import tokenise

LONGEST_WINDOW = 4
LIKE_ENOUGH = 88
INSTALL = (
    "spaCy is not installed, so its rows are left out: in an environment made for it, run "
    "`pip install --require-hashes -r requirements.lock -r benchmarks/requirements.lock`, "
    "then `pip install --no-deps -e .` and this script again."
)


@dataclass(frozen=True)
class Peer:
    """A peer by name, what it knows in words, and what finds its hits."""

    name: str
    knows: str
    find: Callable[[Transcript], list[Hit]]


def gazetteer(forms: Mapping[str, Name], lexicon: Lexicon) -> Peer:
    """The nearest form by rapidfuzz for each window of one to four words, the longest window that has one winning."""
    names = list(forms)

    def find(transcript: Transcript) -> list[Hit]:
        tokens = tokenise(transcript.words, lexicon.spellings)
        hits, place = [], 0
        while place < len(tokens):
            for length in range(min(LONGEST_WINDOW, len(tokens) - place), 0, -1):
                window = " ".join(token.text for token in tokens[place : place + length])
                best = process.extractOne(window, names, scorer=fuzz.ratio, score_cutoff=LIKE_ENOUGH)
                if best is not None:
                    hits.append(Hit(forms[best[0]], tokens[place].word))
                    place += length - 1
                    break
            place += 1
        return hits

    return Peer("rapidfuzz gazetteer", f"{len(names)} forms", find)


def spacy_names(forms: Mapping[str, Name]) -> Peer | None:
    """A blank English pipeline whose entity ruler has every form as a phrase (its phrase matcher, lower case)."""
    nlp = names_pipeline(forms)
    if nlp is None:
        return None
    return Peer("spaCy, forms", f"{len(forms)} forms", lambda transcript: spacy_hits(nlp, transcript))


def names_pipeline(forms: Mapping[str, Name]) -> Any:
    """The pipeline of spacy_names, or None without spaCy."""
    nlp = blank({"phrase_matcher_attr": "LOWER"})
    if nlp is not None:
        patterns = [{"label": label_of(name), "pattern": form} for form, name in forms.items()]
        nlp.get_pipe("entity_ruler").add_patterns(patterns)
    return nlp


def spacy_patterns(lexicon: Lexicon) -> Peer | None:
    """A blank English pipeline whose entity ruler has the tables' own phrases as token patterns, gaps and all."""
    nlp = blank({})
    if nlp is None:
        return None
    patterns = [
        {"label": label_of(Name(kind, phrase.meaning)), "pattern": list(token_pattern(phrase))}
        for kind in KINDS
        for phrase in lexicon.matchers[kind].phrases
    ]
    nlp.get_pipe("entity_ruler").add_patterns(patterns)
    return Peer("spaCy, token patterns", f"{len(patterns)} phrases", lambda transcript: spacy_hits(nlp, transcript))


def blank(config: Mapping[str, str]) -> Any:
    """A blank English pipeline with an entity ruler, or None without spaCy."""
    try:
        import spacy
    except ImportError:
        return None
    nlp = spacy.blank("en")
    nlp.max_length = 10**8
    nlp.add_pipe("entity_ruler", config=dict(config))
    return nlp


def token_pattern(phrase: Phrase) -> Iterator[dict[str, Any]]:
    """A phrase as spaCy's matcher takes it."""
    for item in phrase.items:
        if item.gap:
            yield from [{"IS_PUNCT": False, "OP": "?"}] * item.gap
        else:
            yield {"LOWER": {"IN": sorted(item.words)}, **({"OP": "?"} if item.optional else {})}


def label_of(name: Name) -> str:
    """A name as the label of an entity."""
    return f"{name.kind}={name.id}"


def spacy_hits(nlp: Any, transcript: Transcript) -> list[Hit]:
    """The entities that a pipeline finds in the words of a transcript, by spaCy's own tokens."""
    starts, at = [], 0
    for word in transcript.words:
        starts.append(at)
        at += len(word.text) + 1
    found = nlp(" ".join(word.text for word in transcript.words)).ents
    return [Hit(Name(*entity.label_.split("=", 1)), word_at(starts, entity.start_char)) for entity in found]


def word_at(starts: Sequence[int], place: int) -> int:
    """The word that holds a letter of the text."""
    from bisect import bisect_right

    return max(0, bisect_right(starts, place) - 1)
