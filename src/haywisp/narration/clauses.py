"""Tokens parted into clauses, each with its modality: what was done, or what could, will, was or is usually done."""

from collections.abc import Sequence
from dataclasses import dataclass

from haywisp.narration.lexicon import Lexicon
from haywisp.narration.mentions import Mention, Mentions
from haywisp.narration.parting import breaking_pause, split
from haywisp.narration.tokens import Token

BREAK_S = 1.0
LONG_PAUSE_S = 1.8
RETURN_PAUSE_S = 2.0
SIDE_WORDS = 4
FOLLOWING = 12
TERSE = 2
HERE_WORDS = 14
ABOUT_THEM = frozenset(
    {"he", "she", "they", "her", "his", "their", "it", "him", "them", "that", "who", "which", "and", "so"}
)
THIRD = frozenset({"he", "she", "they", "you", "who", "people"})
THEM = THIRD | {"her", "his", "their", "him", "them", "hers", "theirs"}
DONE = "done"
STICKY = ("other", "past", "away")


@dataclass(frozen=True, slots=True)
class Clause:
    """Tokens ``first`` (included) to ``last`` (excluded), meant in one ``mode``.

    ``fresh`` when it begins after a full stop or a pause; ``pause`` is the silence before it in seconds.
    """

    first: int
    last: int
    mode: str
    fresh: bool
    pause: float


def clauses_of(tokens: Sequence[Token], mentions: Mentions, lexicon: Lexicon) -> list[Clause]:
    """Clauses with their modes; a mode lasts until the talk turns back to the horse under the hand."""
    found: list[Clause] = []
    mode = DONE
    breaking = breaking_pause(tokens)
    for first, last in split(tokens, lexicon, mentions):
        before = tokens[first - 1] if first else None
        pause = before.pause if before else BREAK_S
        fresh = before is None or before.mark == "stop" or pause >= breaking
        carried = carried_mode(mode, tokens, first, last, fresh, pause, mentions, lexicon)
        mode = own_mode(carried, tokens, first, last, mentions, lexicon)
        found.append(Clause(first, last, mode, fresh, pause))
    return found


def cue_modes(first: int, last: int, mentions: Mentions) -> list[str]:
    """Modes named in a clause, in order."""
    return [mention.id for mention in mentions.within("mode", first, last)]


def own_mode(carried: str, tokens: Sequence[Token], first: int, last: int, mentions: Mentions, lexicon: Lexicon) -> str:
    """The mode of a clause: the strongest that it names, or the one carried into it."""
    named = set(cue_modes(first, last, mentions))
    back = talk(mentions, first, last, "back_to_work")
    if "other" in named and not (back and back[-1].first > _last_cue(mentions, first, last, "other")):
        return "other"
    if back and carried in STICKY:
        carried = DONE
    if hands_come_off(mentions, first, last):
        return "away"
    if carried in STICKY:
        return carried
    if "past" in named and not present(tokens, first, last, lexicon, after=_last_cue(mentions, first, last, "past")):
        return "past"
    if "routine" in named and not first_person([token.text for token in tokens[first:last]]):
        return "advice"
    for mode in ("lesson", "next", "declined", "could", "usual", "advice"):
        if mode in named:
            return mode
    return carried


def _last_cue(mentions: Mentions, first: int, last: int, mode: str) -> int:
    return max((m.last for m in mentions.within("mode", first, last) if m.id == mode), default=first)


def talk(mentions: Mentions, first: int, last: int, what: str) -> list[Mention]:
    """Turns of the talk of one sort in a clause."""
    return [mention for mention in mentions.within("talk", first, last) if mention.id == what]


def hands_come_off(mentions: Mentions, first: int, last: int) -> bool:
    """Whether the hands come off: said in so many words, or in a word or two ("Phone.")."""
    terse = last - first <= TERSE and bool(talk(mentions, first, last, "hands_off_terse"))
    return terse or bool(talk(mentions, first, last, "hands_off"))


def present(tokens: Sequence[Token], first: int, last: int, lexicon: Lexicon, after: int = 0) -> bool:
    """Whether a clause speaks of now: a verb of the present, after its cue of the past if it has one."""
    texts = [token.text for token in tokens[max(first, after) : last]]
    past = any(text in lexicon.lists["clause-past_verbs"] for text in texts)
    now = any(text in lexicon.lists["clause-present_verbs"] for text in texts)
    return now and not past


def carried_mode(
    mode: str,
    tokens: Sequence[Token],
    first: int,
    last: int,
    fresh: bool,
    pause: float,
    mentions: Mentions,
    lexicon: Lexicon,
) -> str:
    """The mode that a clause takes over from the one before it."""
    if mode == DONE:
        return DONE
    words = [token.text for token in tokens[first:last]]
    onset = bool(mentions.within("technique", first, last) or mentions.within("side", first, last))
    if mode in ("other", "away"):
        works = bool(mentions.within("technique", first, last)) and not _past(words, lexicon)
        placed = bool(mentions.within("side", first, last) or mentions.within("structure", first, last))
        works = works and not any(
            tokens[m.first].text.endswith("ed") for m in mentions.within("technique", first, last)
        )
        works = works and (first_person(words) or placed or not set(words) & THIRD)
        named = onset or (bool(mentions.within("structure", first, last)) and not _past(words, lexicon))
        here = mode == "other" and bool(mentions.within("structure", first, last)) and not _past(words, lexicon)
        muscled = len(words) <= HERE_WORDS or bool({"left", "right"} & set(words))
        works = works or (here and not set(words) & THEM and muscled)
        decided = mode == "other" and fresh and not _past(words, lexicon)
        decided = decided and bool(mentions.within("action", first, last) or mentions.within("after", first, last))
        followed = bool(mentions.within("technique", first, last + FOLLOWING))
        sided = len(words) <= SIDE_WORDS and "side" in words and bool(mentions.within("side", first, last))
        sided = sided and (followed or (fresh and mode == "other"))
        sided = sided or ("side" in words[:4] and bool(mentions.within("same", first, last)))
        returned = (mode == "other" and pause >= LONG_PAUSE_S and named) or sided
        goes_back = any(
            w == "back" and after in {"on", "to", "at", "onto"} for w, after in zip(words[:5], words[1:6], strict=False)
        )
        if mode == "away" and goes_back and not _past(words, lexicon):
            returned = True
        if mode == "away" and pause >= RETURN_PAUSE_S:
            returned = (
                returned
                or onset
                or bool(mentions.within("same", first, last))
                or words[0] in lexicon.lists["clause-resets"]
            )
        turned = mode == "other" and fresh and not _past(words, lexicon) and not set(words[:5]) & ABOUT_THEM
        return DONE if returned or works or decided or turned else mode
    if mode == "past":
        now = present(tokens, first, last, lexicon) or first_person(words)
        works = bool(mentions.within("technique", first, last)) and not _past(words, lexicon)
        turned = fresh and bool(words) and not _past(words, lexicon)
        return DONE if now or works or turned or pause >= LONG_PAUSE_S else mode
    turned = bool(words) and words[0] in lexicon.lists["clause-resets"]
    if turned and words[0] == "right" and len(words) > 1 and words[1] in lexicon.lists["right-never"]:
        turned = False
    if fresh or turned:
        return DONE
    if mode == "lesson" and (mentions.within("aspect", first, last) or mentions.within("sign", first, last)):
        return DONE
    if mode in ("declined", "could", "usual", "advice"):
        carries = lexicon.lists["clause-carries"] | (
            frozenset() if mode == "declined" else {"you", "they", "then", "ye"}
        )
        return mode if words and words[0] in carries and not first_person(words[:3]) else DONE
    if mentions.within("talk", first, last) or (mode != "next" and _instructs(words, first, last, mode, mentions)):
        return DONE
    return DONE if mode != "next" and first_person(words[:3]) else mode


def _instructs(words: Sequence[str], first: int, last: int, mode: str, mentions: Mentions) -> bool:
    """A technique with its place, said by itself: the hands are at work again."""
    techniques = mentions.within("technique", first, last)
    if mode == "lesson" and techniques and techniques[0].first == first and words[techniques[0].length :][:1] == ["it"]:
        return True
    if not techniques or not mentions.within("structure", first, last):
        return False
    if {"'d", "would"} & set(words[:4]):
        return False
    return not (set(words[:2]) & {"you", "they", "some", "people", "if", "when", "which", "that", "he", "she"})


def _past(words: Sequence[str], lexicon: Lexicon) -> bool:
    return any(word in lexicon.lists["clause-past_verbs"] for word in words)


def first_person(words: Sequence[str]) -> bool:
    """Whether the speaker says what he or she is doing."""
    return any(
        word == "i"
        and (place + 1 == len(words) or words[place + 1] not in {"'d", "could", "would", "had", "was", "did"})
        for place, word in enumerate(words)
    )
