"""How words sound: spelling read aloud by the language's rules, and what it costs to hear one sound for another."""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from typing import Any

from haywisp.knowledge.types import Tables

KEPT_WORDS = 20_000
CHOICE = re.compile(r"\{([^{}]*)\}")


class Speech:
    """Reads written words aloud, one letter a sound."""

    def __init__(self, rules: Sequence[Sequence[str]], words: Mapping[str, str]) -> None:
        self._rules = re.compile("|".join(f"({pattern})" for pattern, _ in rules))
        self._sounds = [sounds for _, sounds in rules]
        self._words = words
        self._held: dict[str, str] = {}

    def said(self, word: str) -> str:
        """The sounds of one word; a letter without a rule is silent."""
        held = self._held.get(word)
        if held is None:
            if len(self._held) >= KEPT_WORDS:
                self._held.clear()
            held = self._held[word] = self._words.get(word) or self._read(word)
        return held

    def _read(self, word: str) -> str:
        sounds: list[str] = []
        at = 0
        while at < len(word):
            found = self._rules.match(word, at)
            if found is None or found.lastindex is None:
                at += 1
                continue
            sounds.append(self._sounds[found.lastindex - 1])
            at = max(found.end(), at + 1)
        return "".join(sounds)


def ways(written: str) -> list[str]:
    """Every way of saying that ``{a|b}`` stands for, without the blanks between words."""
    parts = CHOICE.split(written.replace(" ", ""))
    choices = [part.split("|") if place % 2 else [part] for place, part in enumerate(parts)]
    return ["".join(chosen) for chosen in product(*choices)]


@dataclass(frozen=True)
class Likeness:
    """What it costs to hear one sound for another (``swaps``), to lose one, and to add one; 0 for the same sound."""

    swaps: Mapping[str, Mapping[str, float]]
    lost: Mapping[str, float]
    added: Mapping[str, float]
    edge: float

    def weight(self, sounds: Iterable[str]) -> float:
        """How much there is to hear in some sounds: what it would cost to lose them all."""
        return sum(self.lost[sound] for sound in sounds)

    def losses(self, sounds: str) -> list[float]:
        """What each sound costs to lose; less at the edges, which run into the words beside."""
        costs = [self.lost[sound] for sound in sounds]
        costs[0] *= self.edge
        costs[-1] *= self.edge
        return costs

    def heard_as(self, row: list[float], sound: str, wanted: str, losses: Sequence[float]) -> list[float]:
        """One row of the alignment on: what each beginning of the wanted sounds costs after one more sound."""
        extra, costs = self.added[sound], self.swaps[sound]
        after = [row[0] + extra]
        for at, other in enumerate(wanted):
            after.append(min(row[at] + costs[other], row[at + 1] + extra, after[at] + losses[at]))
        return after

    def distance(self, heard: str, meant: str) -> float:
        """How far some sounds are from others, 0 for the very same, in parts of what there is to hear in these."""
        losses = self.losses(meant)
        row = [0.0]
        for cost in losses:
            row.append(row[-1] + cost)
        for sound in heard:
            row = self.heard_as(row, sound, meant, losses)
        return row[-1] / self.weight(meant)


def speech_of(tables: Tables) -> Speech:
    """The reader of a language's tables."""
    table: Mapping[str, Any] = tables.language.tables["sounds"]
    spelling = table["spelling"]
    return Speech(spelling["rules"], spelling["words"])


def likeness_of_language(tables: Tables) -> Likeness:
    """The costs of a language's tables."""
    table: Mapping[str, Any] = tables.language.tables["sounds"]
    return likeness_of(table["likeness"])


def likeness_of(table: Mapping[str, Any]) -> Likeness:
    """The costs that a language's table of features gives."""
    consonants, vowels = table["consonants"], table["vowels"]
    sounds = [*consonants, *vowels]
    lost = {sound: table["lost"].get(sound, 1.0) * table["sounds_left_out"] for sound in sounds}
    added = {sound: table["lost"].get(sound, 1.0) * table["sounds_added"] for sound in sounds}
    swaps = {one: {other: _step(one, other, table) for other in sounds} for one in sounds}
    return Likeness(swaps, lost, added, table["at_the_edge"])


def _step(one: str, other: str, table: Mapping[str, Any]) -> float:
    if one == other:
        return 0.0
    consonants, vowels = table["consonants"], table["vowels"]
    if one in vowels and other in vowels:
        (height, front), (height_2, front_2) = vowels[one], vowels[other]
        step = table["height_step"] * abs(height - height_2) + table["front_step"] * abs(front - front_2)
        return float(min(step, table["vowel_most"]))
    if one in consonants and other in consonants:
        (place, manner, voice), (place_2, manner_2, voice_2) = consonants[one], consonants[other]
        pair = " ".join(sorted((manner, manner_2)))
        moved = 0.0 if manner == manner_2 else table["near_manners"].get(pair, table["manner_step"])
        reach = min(table["place_step"] * abs(place - place_2), table["place_most"])
        return float(reach + moved + table["voice_step"] * abs(voice - voice_2))
    consonant = one if one in consonants else other
    return float(table["glide"] if consonants[consonant][1] == "glide" else table["across"])
