"""Passes: counts said aloud while working, and numbers said of a technique."""

from collections.abc import Sequence
from dataclasses import dataclass

from haywisp.narration.lexicon import Lexicon
from haywisp.narration.mentions import Mentions
from haywisp.narration.tokens import Token

STEP_TOKENS = 14
STEP_S = 16.0
SPOKEN_ON_S = 0.6
DOZEN = 12


@dataclass(frozen=True, slots=True)
class Count:
    """A count said aloud from one upwards: where it runs, how far it got, and the usual time from one to the next."""

    first: int
    last: int
    start: float
    end: float
    reached: int
    step_s: float


def counts(tokens: Sequence[Token], lexicon: Lexicon) -> list[Count]:
    """Every run "one … two … three", with other words between; a number said again is not counted twice."""
    numbered = [
        (place, lexicon.numbers[token.text])
        for place, token in enumerate(tokens)
        if token.text in lexicon.numbers and token.text not in {"once", "twice"} and counts_on(tokens, place, lexicon)
    ]
    found: list[Count] = []
    at = 0
    while at < len(numbered):
        if numbered[at][1] != 1:
            at += 1
            continue
        places = [numbered[at]]
        following = at + 1
        while following < len(numbered) and _close(tokens, places[-1][0], numbered[following][0]):
            place, number = numbered[following]
            if number == places[-1][1] + 1 or (number == places[-1][1] and number > 2):
                places.append((place, number))
            elif number == 1 and places[-1][1] == 1:
                places = [(place, number)]
            following += 1
        if places[-1][1] > 1:
            start, end = tokens[places[0][0]].start, tokens[places[-1][0]].end
            step = (tokens[places[-1][0]].start - start) / (places[-1][1] - 1)
            found.append(Count(places[0][0], places[-1][0] + 1, start, end, places[-1][1], step))
            at = next(i for i in range(at, len(numbered)) if numbered[i][0] == places[-1][0]) + 1
        else:
            at += 1
    return found


def counts_on(tokens: Sequence[Token], place: int, lexicon: Lexicon) -> bool:
    """Whether a number may be one of a count, and not part of "the other one" or of "two fingers"."""
    after = tokens[place + 1].text if place + 1 < len(tokens) and not tokens[place].mark else ""
    led = tokens[place - 1].text if place else ""
    if after in lexicon.numbers or (led in lexicon.numbers and lexicon.numbers[led] > 1):
        return True
    if tokens[place].pause <= SPOKEN_ON_S and after in lexicon.lists["number-counted"]:
        return False
    before = tokens[place - 1] if place else None
    pointed = before is not None and not before.mark and before.pause <= SPOKEN_ON_S
    return not (pointed and before is not None and before.text in lexicon.lists["number-pointed"])


def _close(tokens: Sequence[Token], before: int, after: int) -> bool:
    return after - before <= STEP_TOKENS and tokens[after].start - tokens[before].end <= STEP_S


def stated_passes(tokens: Sequence[Token], first: int, last: int, lexicon: Lexicon) -> int | None:
    """A number of passes said of a technique in tokens ``first`` to ``last``, or None."""
    lists = lexicon.lists
    for place in range(first, last):
        number = lexicon.numbers.get(tokens[place].text)
        if tokens[place].text == "dozen":
            number = _dozens(tokens, place, first)
        if number is None or (number < 2 and tokens[place].text != "once"):
            continue
        before = tokens[place - 1].text if place > first and tokens[place - 1].mark != "stop" else ""
        ended = place + 1 >= last or tokens[place].mark != ""
        after = "" if ended else tokens[place + 1].text
        later = tokens[place + 2].text if place + 2 < last else ""
        pointed = before in {"the", "both", "all", "these", "those"} and after == "of"
        if after in lists["number-passes"] or (after == "of" and later in lists["number-of"] and not pointed):
            return number
        if after in lists["number-between"]:
            after = later
        if after in lexicon.numbers or before in lexicon.numbers:
            continue
        if (before in lists["number-not-before"] and tokens[place].text != "dozen") or after in lists[
            "number-not-after"
        ]:
            continue
        return number
    return None


def _dozens(tokens: Sequence[Token], place: int, first: int) -> int:
    """A dozen, or half of it."""
    halved = "half" in {token.text for token in tokens[max(first, place - 2) : place]}
    return DOZEN // 2 if halved else DOZEN


def is_held(first: int, last: int, mentions: Mentions) -> bool:
    """Whether the count is of seconds held, and no passes."""
    return bool(mentions.within("hold-count", max(0, first - 12), last))
