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
from haywisp.narration.questions import KEEP_OR_DROP
from haywisp.narration.scene import Scene
from haywisp.narration.temperatures import raised
from haywisp.narration.types import Alert, Question

TOLD, ASKED = 0.85, 0.4
FEVER = "fever"
# The lists of single words, in the order of Watch's fields.
WORDS = {"another": ("subjects", "pronouns", "beside"), "denied": ("verbs", "between", "joins", "after")}
CONDITION_REACH, DENIAL_REACH, AFTER_REACH, ANOTHER_REACH, TIME_REACH = 8, 7, 4, 9, 14


@dataclass(frozen=True)
class Watch:
    """The phrases of one language, compiled: what names a flag, and what changes how it is meant."""

    flags: Matcher
    cues: Mapping[str, Matcher]
    names: Mapping[str, str]
    stronger: Mapping[str, str]
    subjects: frozenset[str]
    pronouns: frozenset[str]
    beside: frozenset[str]
    verbs: frozenset[str]
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


def watch_of(lexicon: Lexicon) -> Watch | None:
    """The compiled phrases; None where the language has none."""
    raw = lexicon.tables.language.tables.get("alerts")
    return _compiled(lexicon, raw) if raw else None


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
        *(frozenset(raw[part][name]) for part, names in WORDS.items() for name in names),
    )


def alerts_of(scene: Scene, watch: Watch | None) -> tuple[Alert, ...]:
    """One alert for each flag that was spoken of, in order of time: the surest of its mentions."""
    if watch is None or not scene.tokens:
        return ()
    return _Listener(scene, watch).alerts()


def with_alerts(questions: Iterable[Question], alerts: Sequence[Alert], watch: Watch | None) -> tuple[Question, ...]:
    """The questions with one about each alert among them, in order of time."""
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
        if self._is_denied(heard):
            self.denied.append(heard)
            return 0.0
        others = self._others(heard, clause)
        conditions = self._conditions(heard)
        if any(self._holds_on(other, heard) for other in others):
            return 0.0
        if any(not self._told_apart(match, heard) for match in conditions):
            return 0.0
        asked = not heard.told or clause.mode in ("usual", "lesson", "away", "other") or self._questioned(heard)
        asked = asked or self._long_ago(heard, clause) or self._over(heard) or self._of_whom(heard)
        return ASKED if asked or others or conditions or self._conditional(heard) else TOLD

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

    def _is_denied(self, heard: Heard) -> bool:
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
            if text == "no" and self.tokens[place + 1].text in self.watch.subjects:
                return False
            if text in denials and (text == "without" or not self.tokens[place].mark):
                return True
            if any(one.last == place + 1 for one in self.denied):
                return self._denied_on(place, heard)
            if text not in self.watch.between | self.watch.joins or (self.tokens[place].mark and text not in denials):
                return False
            place -= 1
        return False

    def _denied_on(self, place: int, heard: Heard) -> bool:
        """Whether what is denied up to ``place`` is so after it: "no colic, fever", not "not lame, he has a fever"."""
        if self.tokens[heard.first].text in self.scene.lexicon.lists["denial"]:
            return False
        if self._joined(place + 1, heard.first):
            return True
        told = {token.text for token in self.tokens[place + 1 : heard.first + 1]} & self.watch.verbs
        return bool(self.tokens[place].mark) and self._nameless(place + 1, heard.first) and not told

    def _joined(self, first: int, last: int) -> bool:
        """Whether "or", "nor" or "and" alone stands between: what was denied before it is denied after it."""
        return first < last and all(token.text in self.watch.joins for token in self.tokens[first:last])

    def _others(self, heard: Heard, clause: Clause) -> list[tuple[int, int]]:
        """Where the flag's own clause names somebody else before it, who is no mere company of this horse."""
        first, _ = self._sentence(heard, ANOTHER_REACH)
        first = max(first, clause.first)
        cues = [(m.first, m.last) for m in self._cued("self", max(first, heard.first - 4), heard.first + 1)]
        named = [(m.first, m.last) for m in self._cued("another", first, heard.first + 1)]
        if clause.mode == "other":
            modes = self.scene.mentions.within("mode", clause.first, heard.first + 1)
            named += [(m.first, m.last) for m in modes if m.id == "other"]
        return [*cues, *(cue for cue in named if not self._is_company(cue[0], clause.first))]

    def _is_company(self, place: int, first: int) -> bool:
        """Whether another is only who this horse was with: "he was out with the other horses and came in lame"."""
        led = [at for at in range(max(first, place - 2), place) if self.tokens[at].text in self.watch.beside]
        return bool(led) and any(token.text in self.watch.pronouns for token in self.tokens[first : led[-1]])

    def _holds_on(self, other: tuple[int, int], heard: Heard) -> bool:
        """Whether somebody else is still spoken of: no "he" or "she" between may be this horse again."""
        return not any(token.text in self.watch.pronouns for token in self.tokens[other[1] : heard.first])

    def _conditions(self, heard: Heard) -> list[Match]:
        """What makes it a case to watch for: "if he goes lame", "any heat in the feet, and it's the vet"."""
        first, last = self._sentence(heard, TIME_REACH)
        found = self._cued("such", first, heard.first) if self._cued("advice", heard.last, last) else []
        near, _ = self._sentence(heard, CONDITION_REACH)
        if not self._cued("unsure", near, heard.first):
            found = [
                *found,
                *(m for m in self._cued("conditional", near, heard.first + 1) if m.last <= heard.first + 1),
            ]
        plain = self._cued("unconditional", max(0, first - TIME_REACH), heard.first)
        return [m for m in found if not any(p.first < m.last and m.first < p.last for p in plain)]

    def _told_apart(self, condition: Match, heard: Heard) -> bool:
        """Whether a new sentence begins between them after a comma: "ring me if you can, he's lame"."""
        for place in range(condition.first, heard.first):
            begins = self.tokens[place].mark == "comma" and self.tokens[place + 1].text not in self.watch.joins
            if begins and not self._nameless(place + 1, min(place + 4, heard.first)):
                return True
        return False

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
