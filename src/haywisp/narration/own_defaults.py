"""Which words of an entry were likely meant by a correction of it, to be offered as the practitioner's own."""

from collections.abc import Collection, Sequence

from haywisp.narration.lexicon import Lexicon
from haywisp.narration.mentions import Mention
from haywisp.narration.own_rules import MOST_WORDS
from haywisp.narration.scene import Scene
from haywisp.narration.sounds import likeness_of_language, speech_of
from haywisp.narration.tokens import Token, pieces
from haywisp.narration.types import Repair, Span, Word

# Kinds of mention that explain the words they stand on.
EXPLAINED = ("structure", "technique", "weak", "rough", "tool", "sign", "aspect", "side", "pressure", "action", "same")
SOUNDS_LIKE = 0.5


def words_meant(scene: Scene, words: Sequence[Word], span: Span, kind: str, instead_of: Collection[str]) -> str:
    """The words of an entry that were heard as what it was corrected from; "" where none can be told.

    They are those that were repaired to its name, else the longest stretch that nothing explains, else its name.
    """
    places = [place for place, token in enumerate(scene.tokens) if span.first <= token.word < span.last]
    if not places:
        return ""
    first, last = places[0], places[-1] + 1
    named = [m for m in scene.mentions.within(kind, first, last) if _id(scene, m) in instead_of]
    for mention in named:
        spans = [_span_of(scene, mention), *(r.span for r in scene.repairs if _touch(r.span, _span_of(scene, mention)))]
        if len(spans) > 1:
            return said(words, Span(min(one.first for one in spans), max(one.last for one in spans)))
    run = _unexplained(scene, first, last)
    if run is None and named:
        longest = max(named, key=lambda one: one.length)
        run = (longest.first, longest.last)
    return said(words, scene.span(*run)) if run else ""


def repair_of(scene: Scene, span: Span, kind: str, ids: Collection[str]) -> Repair | None:
    """The doubtful repair in an entry's words on which one of its ids rests."""
    for repair in scene.repairs:
        if repair.confidence >= 1.0 or not _touch(repair.span, span):
            continue
        for mention in scene.mentions.all(kind):
            if _id(scene, mention) in ids and _touch(_span_of(scene, mention), repair.span):
                return repair
    return None


def sounds_like(phrase: str, name: str, lexicon: Lexicon) -> bool:
    """Whether words sound like a name or a word of it, as where a recogniser wrote them for it."""
    speech = speech_of(lexicon.tables)
    heard = "".join(speech.said(word) for word in pieces(phrase, lexicon.spellings))
    meant = [speech.said(word) for word in pieces(name, lexicon.spellings)]
    names = ["".join(meant), *(sounds for sounds in meant if len(sounds) > 3)]
    likeness = likeness_of_language(lexicon.tables)
    return any(heard and way and likeness.distance(heard, way) <= SOUNDS_LIKE for way in names)


def said(words: Sequence[Word], span: Span) -> str:
    """Words as they were heard, without the punctuation around them."""
    return " ".join(word.text for word in words[span.first : span.last]).strip(' .,;:!?…–—"“”()')


def _span_of(scene: Scene, mention: Mention) -> Span:
    return scene.span(mention.first, mention.last)


def _touch(one: Span, other: Span) -> bool:
    return one.first < other.last and other.first < one.last


def _id(scene: Scene, mention: Mention) -> str:
    return scene.resolve(mention) if mention.kind in ("structure", "ambiguous") else mention.id


def _unexplained(scene: Scene, first: int, last: int) -> tuple[int, int] | None:
    """The stretch of words that says most of all that no mention stands on; None where there are only everyday ones."""
    taken = {
        place
        for kind in EXPLAINED
        for mention in scene.mentions.within(kind, max(0, first - MOST_WORDS), last)
        for place in range(mention.first, mention.last)
    }
    best: tuple[int, int] | None = None
    most = 0
    begin = first
    for place in range(first, last + 1):
        if place < last and place not in taken and not (place > begin and scene.tokens[place - 1].mark):
            continue
        run = _trimmed(scene.tokens, begin, place, scene.lexicon)
        tells = sum(len(t.text) for t in scene.tokens[slice(*run)] if t.text not in scene.lexicon.lists["own-common"])
        if tells > most and run[1] - run[0] <= MOST_WORDS:
            best, most = run, tells
        begin = place + 1 if place in taken else place
    return best


def _trimmed(tokens: Sequence[Token], first: int, last: int, lexicon: Lexicon) -> tuple[int, int]:
    """A stretch without the small words at its ends."""
    small = lexicon.lists["function-words"] | lexicon.numbers.keys()
    while first < last and tokens[first].text in small:
        first += 1
    while first < last and tokens[last - 1].text in small:
        last -= 1
    return first, last
