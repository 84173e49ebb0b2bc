"""Red flags that are spoken of: every one becomes a question, unless it is denied or said of another horse.

What is told as so now counts for the screening gate until someone answers; what is told as long ago, as asked or as a
lesson only asks. The phrases stand in ``alerts.toml``.
"""

from bisect import bisect_right
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from haywisp.narration.clauses import Clause
from haywisp.narration.lexicon import Lexicon
from haywisp.narration.phrases import Match, Matcher
from haywisp.narration.scene import Scene
from haywisp.narration.temperatures import raised
from haywisp.narration.types import Alert, Choice, Question

TOLD, ASKED = 0.85, 0.4
FEVER = "fever"
CONDITION_REACH, DENIAL_REACH, AFTER_REACH, ANOTHER_REACH, TIME_REACH = 8, 7, 4, 9, 14
KEEP_OR_DROP = (Choice("Yes, keep it", "keep"), Choice("No, leave it out", "drop"))


@dataclass(frozen=True)
class Watch:
    """The phrases of one language, compiled: what names a flag, and what changes how it is meant."""

    flags: Matcher
    cues: Mapping[str, Matcher]
    names: Mapping[str, str]
    stronger: Mapping[str, str]
    subjects: frozenset[str]
    between: frozenset[str]
    joins: frozenset[str]
    after: frozenset[str]


@dataclass(frozen=True)
class Heard:
    """A flag named in tokens ``first`` to ``last`` (excluded); ``told`` when its words say that it is so."""

    flag: str
    first: int
    last: int
    told: bool


_BUILT: dict[int, tuple[Lexicon, Watch | None]] = {}


def watch_of(lexicon: Lexicon) -> Watch | None:
    """The compiled phrases, made once for each lexicon; None where the language has none."""
    held = _BUILT.get(id(lexicon))
    if held is None or held[0] is not lexicon:
        raw = lexicon.tables.language.tables.get("alerts")
        held = (lexicon, _compiled(lexicon, raw) if raw else None)
        _BUILT[id(lexicon)] = held
    return held[1]


def _compiled(lexicon: Lexicon, raw: Mapping[str, Any]) -> Watch:
    phrases = [
        phrase
        for level in ("said", "asks")
        for flag, texts in raw[level].items()
        for phrase in lexicon.compile(texts, f"{level} {flag}")
    ]
    parts = {
        "plain": raw["plain"]["phrases"],
        "recent": raw["recent"]["phrases"],
        "past": raw["past"]["phrases"],
        "conditional": raw["conditional"]["phrases"],
        "unconditional": raw["conditional"]["except"],
        "advice": raw["conditional"]["advice"],
        "such": raw["conditional"]["such"],
        "unsure": raw["conditional"]["unsure"],
        "question": raw["question"]["phrases"],
        "another": raw["another"]["phrases"],
        "elsewhere": raw["another"]["elsewhere"],
        "self": raw["another"]["self"],
        "over": raw["denied"]["over"],
    }
    return Watch(
        Matcher(phrases),
        {name: Matcher(lexicon.compile(texts, name)) for name, texts in parts.items()},
        raw["names"],
        raw["stronger"],
        frozenset(raw["another"]["subjects"]),
        *(frozenset(raw["denied"][name]) for name in ("between", "joins", "after")),
    )


def alerts_of(scene: Scene) -> tuple[Alert, ...]:
    """One alert for each flag that was spoken of, in order of time: the surest of its mentions."""
    watch = watch_of(scene.lexicon)
    if watch is None or not scene.tokens:
        return ()
    return _Listener(scene, watch).alerts()


def with_alerts(questions: Iterable[Question], alerts: Sequence[Alert], scene: Scene) -> tuple[Question, ...]:
    """The questions with one about each alert among them, in order of time."""
    watch = watch_of(scene.lexicon)
    names = watch.names if watch else {}
    asked = [
        Question(
            "flag",
            index,
            None,
            f"{names.get(alert.flag, alert.flag)} was spoken of: is this so of this horse today?",
            KEEP_OR_DROP,
            alert.time,
            alert.span,
        )
        for index, alert in enumerate(alerts)
    ]
    return tuple(sorted([*questions, *asked], key=lambda one: (one.time, one.part != "flag", one.part, one.index)))


class _Listener:
    """Reads the flags of one narration."""

    def __init__(self, scene: Scene, watch: Watch) -> None:
        self.scene, self.watch, self.tokens = scene, watch, scene.tokens
        self.starts = [clause.first for clause in scene.clauses]
        self.cues = {name: matcher.find(self.tokens) for name, matcher in watch.cues.items()}
        self.denied: list[Heard] = []

    def alerts(self) -> tuple[Alert, ...]:
        surest: dict[str, tuple[Heard, float]] = {}
        for heard in self._heard():
            sure = self._sure(heard)
            known = surest.get(heard.flag)
            if sure and (known is None or sure > known[1]):
                surest[heard.flag] = (heard, sure)
        for weaker, stronger in self.watch.stronger.items():
            if weaker in surest and stronger in surest and surest[stronger][1] >= surest[weaker][1]:
                del surest[weaker]
        kept = sorted(surest.values(), key=lambda one: (one[0].first, one[0].flag))
        return tuple(self._alert(heard, sure) for heard, sure in kept)

    def _alert(self, heard: Heard, sure: float) -> Alert:
        scene = self.scene
        text = " ".join(token.text for token in self.tokens[heard.first : heard.last])
        for clitic in ("'", "n't"):
            text = text.replace(f" {clitic}", clitic)
        span = scene.span(heard.first, heard.last)
        confidence = round(sure * scene.repaired(heard.first, heard.last), 3)
        return Alert(heard.flag, text, round(scene.start(heard.first), 2), span, confidence)

    def _heard(self) -> list[Heard]:
        """Mentions of flags, longest first where they overlap, without those that a plain phrase holds."""
        found = [_named(match) for match in self.watch.flags.find(self.tokens)]
        found += [
            Heard(FEVER, first, last, over) for first, last, over in raised(self.tokens, self.scene.lexicon.numbers)
        ]
        found.sort(key=lambda one: (one.first - one.last, not one.told, one.first, one.flag))
        taken: set[int] = set()
        kept = []
        for one in found:
            places = set(range(one.first, one.last))
            if places & taken or self._explained(one):
                continue
            taken |= places
            kept.append(one)
        return sorted(kept, key=lambda one: one.first)

    def _explained(self, heard: Heard) -> bool:
        """Whether the words are part of something harmless; those that only ask also where they name a sign."""
        holds = [(match.first, match.last) for match in self.cues["plain"]]
        if not heard.told:
            near = (max(0, heard.first - 12), heard.last)
            holds += [
                (m.first, m.last) for kind in ("sign", "technique") for m in self.scene.mentions.within(kind, *near)
            ]
        return any(first <= heard.first and heard.last <= last for first, last in holds)

    def _sure(self, heard: Heard) -> float:
        """How surely this horse has it now; 0 where it is denied, only to be watched for, or another horse's."""
        clause = self._clause(heard.first)
        if self._is_denied(heard, clause):
            self.denied.append(heard)
            return 0.0
        if clause.mode == "other" or self._of_another(heard, clause) or self._such_a_case(heard):
            return 0.0
        asked = not heard.told or clause.mode in ("usual", "lesson", "away") or self._questioned(heard)
        asked = asked or self._long_ago(heard, clause) or self._over(heard) or self._of_whom(heard)
        return ASKED if asked or self._conditional(heard) else TOLD

    def _clause(self, place: int) -> Clause:
        return self.scene.clauses[max(0, bisect_right(self.starts, place) - 1)]

    def _sentence(self, heard: Heard, reach: int) -> tuple[int, int]:
        """The tokens around a mention up to the full stops, and at most ``reach`` away."""
        first, last = heard.first, heard.last
        while first > 0 and heard.first - first < reach and self.tokens[first - 1].mark != "stop":
            first -= 1
        while last < len(self.tokens) and last - heard.last < reach and self.tokens[last - 1].mark != "stop":
            last += 1
        return first, last

    def _cued(self, name: str, first: int, last: int) -> list[Match]:
        return [match for match in self.cues[name] if first <= match.first and match.first < last]

    def _is_denied(self, heard: Heard, clause: Clause) -> bool:
        denials = self.scene.lexicon.lists["denial"]
        after = [token.text for token in self.tokens[heard.last : heard.last + 1]]
        if self.tokens[heard.last - 1].asks and denials.intersection(after):
            return True
        if self.watch.after.intersection(after) and self.tokens[heard.last - 1].mark != "stop":
            following = self.tokens[heard.last + 1 : heard.last + 2]
            if self.tokens[heard.last].mark or not following or after[0] in ("none", "negative", "nil", "free"):
                return True
        place = heard.first - 1
        while place >= 0 and heard.first - place <= DENIAL_REACH and self.tokens[place].mark != "stop":
            text = self.tokens[place].text
            if text in denials and text != "without" and not self.tokens[place].mark:
                return True
            if text == "without":
                return True
            earlier = next((one for one in self.denied if one.last == place + 1), None)
            if earlier is not None:
                return self._joined(place + 1, heard.first) or bool(self.tokens[place].mark)
            if text not in self.watch.between | self.watch.joins or (self.tokens[place].mark and text not in denials):
                return False
            place -= 1
        return False

    def _joined(self, first: int, last: int) -> bool:
        """Whether "or", "nor" or "and" alone stands between: what was denied before it is denied after it."""
        return first < last and all(token.text in self.watch.joins for token in self.tokens[first:last])

    def _of_another(self, heard: Heard, clause: Clause) -> bool:
        first, _ = self._sentence(heard, ANOTHER_REACH)
        first = max(first, clause.first)
        if self._cued("self", max(first, heard.first - 4), heard.first + 1):
            return True
        return bool(self._cued("another", first, heard.first + 1))

    def _such_a_case(self, heard: Heard) -> bool:
        """Whether it is told what to watch for: "if he goes lame", "any heat in the feet, and it's the vet"."""
        first, last = self._sentence(heard, TIME_REACH)
        if self._cued("advice", heard.last, last) and self._cued("such", first, heard.first):
            return True
        first, _ = self._sentence(heard, CONDITION_REACH)
        if self._cued("unconditional", first, heard.first) or self._cued("unsure", first, heard.first):
            return False
        return any(match.last <= heard.first + 1 for match in self._cued("conditional", first, heard.first + 1))

    def _conditional(self, heard: Heard) -> bool:
        """Whether it may be what to watch for: seen on condition, or advice in as few words as "lame, vet"."""
        first, last = self._sentence(heard, TIME_REACH)
        terse = self._nameless(first, heard.first) and bool(self._cued("advice", heard.last, min(last, heard.last + 3)))
        return terse or bool(self._cued("unsure", first, heard.first))

    def _nameless(self, first: int, last: int) -> bool:
        """Whether these tokens name nobody who has it."""
        return not any(token.text in self.watch.subjects for token in self.tokens[first:last])

    def _of_whom(self, heard: Heard) -> bool:
        """Whether the sentence before spoke of a horse elsewhere and this one does not say who is meant."""
        first, _ = self._sentence(heard, TIME_REACH)
        if not first or not self._nameless(first, heard.first):
            return False
        return bool(self._cued("elsewhere", max(0, first - TIME_REACH), first))

    def _questioned(self, heard: Heard) -> bool:
        first, last = self._sentence(heard, 2 * TIME_REACH)
        asks = any(token.asks for token in self.tokens[heard.first : last])
        return asks or any(match.first == first for match in self._cued("question", first, heard.first + 1))

    def _long_ago(self, heard: Heard, clause: Clause) -> bool:
        first, last = self._sentence(heard, TIME_REACH)
        denials = self.scene.lexicon.lists["denial"]
        if any(self.tokens[match.first - 1].text not in denials for match in self._cued("recent", first, last)):
            return False
        return clause.mode == "past" or bool(self._cued("past", first, last))

    def _over(self, heard: Heard) -> bool:
        _, last = self._sentence(heard, AFTER_REACH)
        return bool(self._cued("over", heard.last, last))


def _named(match: Match) -> Heard:
    level, flag = match.meaning.split()
    return Heard(flag, match.first, match.last, level == "said")
