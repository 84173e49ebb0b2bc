"""Mentions: stretches of tokens that name a structure, technique, side, finding, sign, decision or cue."""

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from haywisp.narration.lexicon import Lexicon
from haywisp.narration.tokens import Token

HAND_PARTS = frozenset(
    {"hand", "palm", "thumb", "fist", "goes", "pushes", "pulls", "going", "pushing", "over", "on", "in"}
)
BREATH_S = 0.6
NEAR_OFF = {"near": "left", "off": "right"}
# Techniques whose phrases name their site or the way that a nose is led: what is named inside them is no place worked.
HIDES_SITE = frozenset({"tail-traction", "baited-stretch"})


# Where somebody is quoted, a sign does not go on ("her eye, and Ann says softer").
QUOTES = frozenset({"says", "said"})
ANSWERS = frozenset({"yes", "no"})


@dataclass(frozen=True, slots=True)
class Mention:
    """A named thing: its kind, its id, and tokens ``first`` (included) to ``last`` (excluded)."""

    kind: str
    id: str
    first: int
    last: int

    @property
    def length(self) -> int:
        """How many tokens it covers."""
        return self.last - self.first


def first_of(mention: Mention) -> int:
    """Where a mention begins."""
    return mention.first


class Mentions:
    """All mentions of a narration, by kind, with those that a longer one explains taken out."""

    def __init__(self, tokens: Sequence[Token], lexicon: Lexicon) -> None:
        self._every: dict[str, list[Mention]] = {}
        self._by_kind = {kind: matcher.find(tokens) for kind, matcher in lexicon.matchers.items()}
        techniques = settled(self._kind("technique"))
        signs = settled_by_core(self._kind("sign"), tokens, lexicon)
        techniques = uncovered(techniques, self._kind("no-technique"))
        no_signs = self._kind("no-sign")
        signs = [s for s in signs if uncovered([core_of(s, tokens, lexicon)], no_signs)]
        signs = [s for s in signs if not any(s.first < t.first and t.last < s.last for t in techniques)]
        signs = [s for s in signs if not quotes(tokens, s)]
        techniques, signs = (
            beaten_by(techniques, signs, ties=True),
            beaten_by(signs, techniques, ties=False),
        )
        structures = settled([*self._kind("structure"), *self._kind("ambiguous")])
        structures = uncovered(structures, self._kind("landmark"))
        limbs = lexicon.lists["limb-words"]
        structures = [s for s in structures if not (s.id == "back" and s.first and tokens[s.first - 1].text in limbs)]
        sited = [technique for technique in techniques if technique.id in HIDES_SITE]
        structures = uncovered(structures, [*signs, *sited], strict=True)
        found = [m for m in self._kind("aspect") if not answers_no(tokens, m)]
        aspects = uncovered(settled(found), self._kind("no-aspect"))
        aspects = beaten_by(uncovered(aspects, [*signs, *techniques], strict=True), signs, ties=False)
        sides = sides_of(tokens, self._kind("side"), structures, lexicon)
        actions = settled(self._kind("action"))
        kept = {
            "technique": techniques,
            "weak": uncovered(settled(self._kind("weak")), self._kind("no-weak")),
            "sign": signs,
            "structure": structures,
            "aspect": aspects,
            "side": sides,
            "pressure": uncovered(settled(self._kind("pressure")), [*self._kind("no-pressure"), *signs], strict=True),
            "talk": uncovered(settled(self._kind("talk")), self._kind("no-talk"), strict=True),
            "mode": modes_of(uncovered(settled(self._kind("mode")), self._kind("no-mode")), signs, actions),
            "same": uncovered(uncovered(settled(self._kind("same")), self._kind("no-same")), sides, strict=True),
            "terse-sign": uncovered(settled(self._kind("terse-sign")), no_signs),
        }
        self._mentions: dict[str, list[Mention]] = {}
        for kind in self._by_kind:
            self._mentions[kind] = kept[kind] if kind in kept else settled(self._kind(kind))
        self._starts = {kind: [m.first for m in found] for kind, found in self._mentions.items()}

    def _kind(self, kind: str) -> list[Mention]:
        return [Mention(kind, match.meaning, match.first, match.last) for match in self._by_kind.get(kind, [])]

    def within(self, kind: str, first: int, last: int) -> list[Mention]:
        """Mentions of a kind that begin from token ``first`` to before ``last``."""
        starts = self._starts[kind]
        return self._mentions[kind][bisect_left(starts, first) : bisect_left(starts, last)]

    def every(self, kind: str, first: int, last: int) -> list[Mention]:
        """Mentions of a kind with every meaning of the same words, as where one verb may stand for two techniques."""
        if kind not in self._every:
            unmeant = self._kind("no-weak") if kind == "rough" else []
            self._every[kind] = sorted(uncovered(self._kind(kind), unmeant), key=first_of)
        found = self._every[kind]
        return found[bisect_left(found, first, key=first_of) : bisect_left(found, last, key=first_of)]

    def all(self, kind: str) -> list[Mention]:
        """Every mention of a kind, in order."""
        return self._mentions[kind]


def settled(mentions: Iterable[Mention]) -> list[Mention]:
    """Longest first where mentions of one kind overlap, then in order of place."""
    kept: list[Mention] = []
    taken: set[int] = set()
    for mention in sorted(mentions, key=lambda m: (-m.length, m.first, m.id)):
        places = range(mention.first, mention.last)
        if not any(place in taken for place in places):
            taken.update(places)
            kept.append(mention)
    return sorted(kept, key=lambda m: m.first)


def core_of(mention: Mention, tokens: Sequence[Token], lexicon: Lexicon) -> Mention:
    """A sign without the subject and helping words that lead into it ("she's just" of "she's just yawning")."""
    leading = lexicon.classes["who"] | lexicon.classes["aux"]
    first = mention.first
    while first < mention.last - 1 and tokens[first].text in leading:
        first += 1
    return Mention(mention.kind, mention.id, first, mention.last)


def settled_by_core(mentions: Iterable[Mention], tokens: Sequence[Token], lexicon: Lexicon) -> list[Mention]:
    """As ``settled``, where a subject and its helping words make no sign longer."""
    wholes: dict[Mention, Mention] = {}
    for mention in mentions:
        core = core_of(mention, tokens, lexicon)
        if core not in wholes or wholes[core].first > mention.first:
            wholes[core] = mention
    return [wholes[core] for core in settled(wholes)]


def quotes(tokens: Sequence[Token], mention: Mention) -> bool:
    """Whether somebody is quoted within a mention; a head that "says yes" is none who is."""
    return any(
        tokens[place].text in QUOTES and tokens[place + 1].text not in ANSWERS
        for place in range(mention.first, mention.last - 1)
    )


def answers_no(tokens: Sequence[Token], mention: Mention) -> bool:
    """Whether the first word of a mention is a "no" that stands by itself ("a nodule, no, a knot")."""
    first = tokens[mention.first]
    return mention.length > 1 and first.text == "no" and first.mark != ""


class Neighbours:
    """Mentions by place, for asking which of them can touch a stretch of tokens."""

    def __init__(self, mentions: Iterable[Mention]) -> None:
        self._sorted = sorted(mentions, key=lambda mention: mention.first)
        self._starts = [mention.first for mention in self._sorted]
        self._longest = max((mention.length for mention in self._sorted), default=0)

    def near(self, first: int, last: int) -> list[Mention]:
        """Mentions that may overlap tokens ``first`` to ``last`` (excluded)."""
        low = bisect_left(self._starts, first - self._longest)
        return self._sorted[low : bisect_left(self._starts, last)]


def uncovered(mentions: Sequence[Mention], covers: Iterable[Mention], strict: bool = False) -> list[Mention]:
    """Mentions that no cover holds whole; with ``strict`` a cover of the same tokens lets the mention stand."""
    around = Neighbours(covers)

    def held(mention: Mention) -> bool:
        for cover in around.near(mention.first, mention.last):
            whole = cover.first <= mention.first and mention.last <= cover.last
            same = (cover.first, cover.last) == (mention.first, mention.last)
            if whole and not (strict and same):
                return True
        return False

    return [mention for mention in mentions if not held(mention)]


def beaten_by(mentions: Sequence[Mention], rivals: Sequence[Mention], ties: bool) -> list[Mention]:
    """Mentions that no overlapping rival of greater length (or of the same, with ``ties``) beats."""
    around = Neighbours(rivals)

    def beaten(mention: Mention) -> bool:
        return any(
            rival.first < mention.last
            and mention.first < rival.last
            and (rival.length > mention.length or (ties and rival.length == mention.length))
            for rival in around.near(mention.first, mention.last)
        )

    return [mention for mention in mentions if not beaten(mention)]


def modes_of(found: Sequence[Mention], signs: Sequence[Mention], actions: Sequence[Mention]) -> list[Mention]:
    """Cues of modality, without those that are part of a sign or a decision ("leave that alone", "I'd get the vet")."""
    apart = {"declined": [*signs, *actions], "next": [*signs, *actions], "could": actions, "usual": actions}
    kept = [set(uncovered([m for m in found if m.id == mode], held)) for mode, held in apart.items()]
    return [mention for mention in found if mention.id not in apart or any(mention in free for free in kept)]


def sides_of(
    tokens: Sequence[Token], found: Sequence[Mention], structures: Sequence[Mention], lexicon: Lexicon
) -> list[Mention]:
    """Side mentions, with "right" and "left" counted only where they mean a side of the body."""
    named = {structure.first for structure in structures}
    sides = list(settled(found))
    taken = {place for side in sides for place in range(side.first, side.last)}
    for place, token in enumerate(tokens):
        if token.text == "right" and place not in taken and right_is_side(tokens, place, named, lexicon):
            sides.append(Mention("side", "right", place, place + 1))
    kept = [side for side in sides if side.id != "left" or left_is_side(tokens, side, lexicon)]
    kept += [
        Mention("side", NEAR_OFF[token.text], place - 1, place + 1)
        for place, token in enumerate(tokens)
        if token.text in NEAR_OFF
        and place
        and tokens[place - 1].text == "the"
        and place not in taken
        and alone(tokens, place)
    ]
    kept += [
        Mention("side", "other", place - 1, place + 1)
        for place, token in enumerate(tokens)
        if token.text == "other"
        and place
        and tokens[place - 1].text == "the"
        and place not in taken
        and alone(tokens, place)
        and not paired_hands(tokens, place)
    ]
    kept = [side for side in kept if not compared(tokens, side.first)]
    return sorted(kept, key=lambda side: side.first)


def paired_hands(tokens: Sequence[Token], place: int) -> bool:
    """Whether "the other" is the other hand ("one hand going past the other")."""
    texts = [token.text for token in tokens[max(0, place - 8) : place]]
    return any(word == "one" and after in HAND_PARTS for word, after in zip(texts, texts[1:], strict=False))


def alone(tokens: Sequence[Token], place: int) -> bool:
    """Whether a token ends what is said in one breath."""
    return place + 1 >= len(tokens) or tokens[place].mark != "" or tokens[place].pause > BREATH_S


def compared(tokens: Sequence[Token], place: int) -> bool:
    """Whether a side is named only to compare with ("colder than the left one", "as I had on the other")."""
    before = tokens[max(0, place - 7) : place]
    led = [token.text for token in before]
    while led and led[-1] in ("the", "his", "her"):
        led.pop()
    if led[-1:] == ["on"] and "as" in led and not any(token.mark == "stop" for token in before):
        return True
    return any(
        token.text in {"than", "unlike", "as", "like"}
        and not any(after.mark == "stop" or after.pause > BREATH_S for after in tokens[number:place])
        and not token.mark
        for number, token in enumerate(tokens[max(0, place - 2) : place], max(0, place - 2))
    ) or any(
        before.text == "same" and after.text == "as"
        for before, after in zip(tokens[max(0, place - 7) : place], tokens[max(0, place - 6) : place], strict=False)
    )


def left_is_side(tokens: Sequence[Token], side: Mention, lexicon: Lexicon) -> bool:
    """Whether "left" is the side and not the past of leave."""
    if tokens[side.first].text != "left" or side.first == 0:
        return True
    before = tokens[side.first - 1]
    return before.mark == "stop" or before.text not in lexicon.lists["left-never-before"]


def right_is_side(tokens: Sequence[Token], place: int, named: set[int], lexicon: Lexicon) -> bool:
    """Whether "right" is the side and not a turn of the talk: its neighbours tell."""
    token = tokens[place]
    before = tokens[place - 1] if place else None
    after = tokens[place + 1] if place + 1 < len(tokens) and token.mark != "stop" else None
    fresh = before is None or before.mark == "stop" or before.pause > 1.0
    if before is not None and before.text in {"'m", "'re", "all"}:
        return False
    if after is not None and token.mark != "comma":
        if after.text in lexicon.lists["right-never"]:
            return before is not None and not fresh and before.text in {"the", "his", "her"}
        if place + 1 in named or after.text in lexicon.lists["right-after"]:
            return True
        if place + 2 in named and after.text in {"the", "his", "her", "middle", "upper", "lower"} and fresh:
            return True
    if before is not None and not fresh and before.text in lexicon.lists["right-before"]:
        return True
    if fresh and after is not None and after.text == "the" and tokens[min(place + 2, len(tokens) - 1)].text == "same":
        return True
    ended = after is None or token.mark in {"stop", "comma"} or token.pause > 0.5
    repeats = after is not None and after.text in {"the", "same"}
    if before is not None and before.text in {"and", "now", "then"} and (ended or repeats):
        return True
    turn = after is not None and after.text in lexicon.lists["right-never"]
    return bool(before is not None and not fresh and token.mark == "comma" and before.mark == "comma" and not turn)
