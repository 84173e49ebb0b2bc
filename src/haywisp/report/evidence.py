"""The words behind an entry, in the sentence they were said in."""

import re
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import Protocol

MOST_BESIDE = 40
BESIDE_UNPUNCTUATED = 12
MOST_MARKED = 26
# One full stop in so many words makes a text a punctuated one; a silence this long parts two sentences in any.
PUNCTUATED_SHARE = 0.03
SILENCE_S = 2.0
# A sentence of so few words is told with the one after it ("Carrot stretches. Three each side, daily.").
SHORT_WORDS = 3
STOPS = (".", "?", "!", "…")
ACRONYM = re.compile(r"(?:[A-Za-z]\.){2,}")
CUT = "…"


class Spoken(Protocol):
    """A word with its times in seconds."""

    @property
    def text(self) -> str: ...
    @property
    def start(self) -> float: ...
    @property
    def end(self) -> float: ...


@dataclass(frozen=True, slots=True)
class Quote:
    """A sentence as it was heard, in three parts; ``marked`` are the words of the entry."""

    before: str
    marked: str
    after: str

    @property
    def text(self) -> str:
        """The sentence without marks."""
        return " ".join(filter(None, (self.before, self.marked, self.after)))

    @property
    def pointed(self) -> str:
        """The sentence for plain text: the words of the entry in angle quotes, unless they are all of it."""
        if not self.before and not self.after:
            return self.marked
        return " ".join(filter(None, (self.before, f"«{self.marked}»", self.after)))


class Sentences:
    """The words of a narration, cut into sentences where one is asked for."""

    def __init__(self, words: Sequence[Spoken]) -> None:
        self.words = words
        self.most = MOST_BESIDE if punctuated(words) else BESIDE_UNPUNCTUATED

    def quoted(self, first: int, last: int) -> Quote | None:
        """Words ``first`` to ``last`` (excluded) within their sentence; None where there are none.

        Where no full stops were written it is up to twelve words on each side.
        """
        first, last = max(0, first), min(last, len(self.words))
        if not 0 <= first < last:
            return None
        begin, end = self._begin(first), self._end(last)
        led = [CUT] if begin > 0 and not parted(self.words, begin - 1) else []
        trailed = [CUT] if end < len(self.words) and not parted(self.words, end - 1) else []
        return Quote(
            " ".join([*led, *self._texts(begin, first)]),
            " ".join(_shortened(self._texts(first, last))),
            " ".join([*self._texts(last, end), *trailed]),
        )

    def span(self, first: int, last: int, apart: Collection[int] = ()) -> tuple[int, int]:
        """The words of the whole sentence that some stand in, first (included) to last (excluded); (0, 0) for none.

        A very short one is taken with the next, unless a word of that is among ``apart``.
        """
        first, last = max(0, first), min(last, len(self.words))
        if not 0 <= first < last:
            return (0, 0)
        begin, end = self._begin(first), self._end(last)
        follows = end < len(self.words) and self.words[end].start - self.words[end - 1].end < SILENCE_S
        if end - begin <= SHORT_WORDS and follows and self.most == MOST_BESIDE:
            further = self._end(end + 1)
            end = end if any(end <= place < further for place in apart) else further
        return (begin, end)

    def _begin(self, first: int) -> int:
        begin = first
        while begin > 0 and first - begin < self.most and not parted(self.words, begin - 1):
            begin -= 1
        return begin

    def _end(self, last: int) -> int:
        end = last
        while end < len(self.words) and end - last < self.most and not parted(self.words, end - 1):
            end += 1
        return end

    def _texts(self, first: int, last: int) -> list[str]:
        return [word.text for word in self.words[first:last]]


def punctuated(words: Sequence[Spoken]) -> bool:
    """Whether sentences are told by full stops."""
    return sum(1 for word in words if _stops(word)) > PUNCTUATED_SHARE * len(words)


def parted(words: Sequence[Spoken], place: int) -> bool:
    """Whether a sentence ends with the word at ``place``: by a full stop, or by a silence after it."""
    if _stops(words[place]):
        return True
    return place + 1 < len(words) and words[place + 1].start - words[place].end >= SILENCE_S


def _stops(word: Spoken) -> bool:
    text = word.text.rstrip("\"'”’)")
    return text.endswith(STOPS) and not ACRONYM.fullmatch(text)


def _shortened(texts: list[str]) -> list[str]:
    half = MOST_MARKED // 2
    return [*texts[:half], CUT, *texts[-half:]] if len(texts) > MOST_MARKED else texts
