"""How well a reading was heard: word errors, trade words, and passages that were dropped with or without a flag."""

from collections.abc import Sequence
from dataclasses import dataclass

from rapidfuzz.distance import Levenshtein, Opcodes
from speaking import Reading

from haywisp.knowledge import Tables
from haywisp.narration import Word
from haywisp.narration.sound import Again

#: So many words in a row that were said and not written, and so many letters of them, are a dropped passage.
DROPPED_WORDS, DROPPED_LETTERS = 4, 12
NEAR_S = 0.5
EVERYDAY = {
    "cross",
    "fibre",
    "muscle",
    "hands",
    "resting",
    "light",
    "passive",
    "stretch",
    "external",
    "internal",
    "chest",
}
NUMBERS = {"1": "one", "2": "two", "3": "three", "4": "four", "5": "five", "6": "six", "9": "nine", "10": "ten"}


@dataclass(frozen=True)
class Passage:
    """Words in a row that were said and are not in the transcript, and when they were said."""

    text: str
    start: float
    end: float


@dataclass(frozen=True)
class HearingScore:
    """Counts over one or more readings, so that they can be added up."""

    words: int = 0
    word_errors: int = 0
    trade_said: int = 0
    trade_heard: int = 0
    dropped: int = 0
    dropped_flagged: int = 0

    def __add__(self, other: "HearingScore") -> "HearingScore":
        return HearingScore(*(getattr(self, name) + getattr(other, name) for name in self.__dataclass_fields__))


def score(reading: Reading, words: Sequence[Word], again: Sequence[Again], tables: Tables) -> HearingScore:
    said = [plain(word) for word, _, _ in reading.words()]
    heard = [plain(word.text) for word in words]
    heard = [word for word in heard if word]
    trade = trade_words(tables)
    same = {
        place
        for step in Levenshtein.opcodes(said, heard)
        if step.tag == "equal"
        for place in range(step.src_start, step.src_end)
    }
    passages = dropped(reading, words)
    return HearingScore(
        words=len(said),
        word_errors=Levenshtein.distance(said, heard),
        trade_said=sum(word in trade for word in said),
        trade_heard=sum(said[place] in trade for place in same),
        dropped=len(passages),
        dropped_flagged=sum(flagged(passage, again) for passage in passages),
    )


def plain(text: str) -> str:
    word = "".join(letter for letter in text.lower() if letter.isalnum())
    return NUMBERS.get(word, word)


def trade_words(tables: Tables) -> set[str]:
    """The single words that muscles and techniques are named with, without those that anybody says."""
    rows = [row for row in tables.structures.values() if row.kind != "region"]
    names = [row.name for row in (*rows, *tables.techniques.values())]
    names += [row.spoken[0] for row in (*rows, *tables.techniques.values()) if row.spoken]
    return {word for name in names for word in map(plain, name.replace("-", " ").split()) if len(word) > 4} - EVERYDAY


def dropped(reading: Reading, words: Sequence[Word]) -> list[Passage]:
    """Passages that were said and of which nothing stands in the transcript."""
    said = reading.words()
    heard = [plain(word.text) for word in words if plain(word.text)]
    found = []
    for step in _parts(Levenshtein.opcodes([plain(word) for word, _, _ in said], heard)):
        first, last, start, end = step
        letters = sum(len(plain(word)) for word, _, _ in said[first:last]) - sum(map(len, heard[start:end]))
        if (last - first) - (end - start) >= DROPPED_WORDS and letters >= DROPPED_LETTERS:
            found.append(Passage(" ".join(word for word, _, _ in said[first:last]), said[first][1], said[last - 1][2]))
    return found


def _parts(steps: Opcodes) -> list[tuple[int, int, int, int]]:
    found: list[tuple[int, int, int, int]] = []
    for step in steps:
        if step.tag == "equal":
            continue
        if found and found[-1][1] == step.src_start and found[-1][3] == step.dest_start:
            found[-1] = (found[-1][0], step.src_end, found[-1][2], step.dest_end)
        else:
            found.append((step.src_start, step.src_end, step.dest_start, step.dest_end))
    return found


def flagged(passage: Passage, again: Sequence[Again]) -> bool:
    return any(one.start - NEAR_S < passage.end and passage.start < one.end + NEAR_S for one in again)
