"""Findings and the horse's answers, tied to the structure and side that they are about."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from haywisp.narration import answering
from haywisp.narration.clauses import DONE, Clause
from haywisp.narration.drafts import Draft, Found
from haywisp.narration.hands import Hands
from haywisp.narration.mentions import Mention
from haywisp.narration.scene import SKIPPED, Scene
from haywisp.narration.types import Finding, Response

FOCUS_S = 25.0
CORRECTED_S = 7.0
REPEAT_S = 20.0
EXPLAINED_S = 12.0
TERSE = 2
LEAD_IN = 5
GONE_REACH = 7
RELEASE_S = 120.0
UNSURE = 0.6
NAMED, FOCUSED, UNDER_HAND = 0.72, 0.7, 0.78
SELDOM_RIGHT = frozenset({("warmth", "warm"), ("warmth", "cool"), ("skin", "rub"), ("texture", "fibrous")})
SELDOM = 0.6
MOVED = {"passive-stretch", "passive-mobilisation", "tail-traction"}
RESTATED_S = 4.0
SHORT_CLAUSE = 9
LATERAL = {"left", "right"}


@dataclass
class Focus:
    """What "it" is: structures, side, and since when."""

    structures: list[str]
    side: str | None
    since: float
    bout: int


@dataclass
class Noted:
    """A finding or response as it is heard, with the bout it fell in."""

    what: Finding | Response
    bout: int
    place: int


class Observer:
    """Collects findings and responses clause by clause."""

    def __init__(self, scene: Scene, hands: Hands) -> None:
        self.scene, self.hands = scene, hands
        self.findings: list[Noted] = []
        self.responses: list[Noted] = []
        self.focus: Focus | None = None
        self.explained_at = -1e9
        self.explained_aspect = ""
        self.after = False

    def hear(self, clause: Clause, until: int) -> None:
        """Take tokens of a clause before ``until`` that were not heard yet (the rest follows once a bout has begun)."""
        if clause.mode == "declined":
            self._name(clause)
        if clause.mode in (DONE, "declined"):
            self._explain(clause, until)
            for mention in self.scene.mentions.within("aspect", clause.first, until):
                self._finding(mention, clause)
        for mention in self.scene.mentions.within("sign", clause.first, until):
            self._response(mention, clause)

    def hear_rest(self, clause: Clause, after: int) -> None:
        """Take tokens of a clause from ``after`` on."""
        self._name(clause)
        if clause.mode in (DONE, "declined"):
            self._correct_side(clause)
            for mention in self.scene.mentions.within("aspect", after, clause.last):
                self._finding(mention, clause)
        for mention in self.scene.mentions.within("sign", after, clause.last):
            self._response(mention, clause)
        few = answering.terse(self.scene, clause)
        if few is not None:
            self._response(few, clause)
        if clause.mode in (DONE, "declined"):
            self._explain(clause, clause.last)

    # what "it" is

    def _bout(self) -> int:
        return len(self.hands.drafts)

    def _name(self, clause: Clause) -> None:
        """Structures named without a technique become what the next findings are about."""
        named, _ = self.scene.targets(clause.first, clause.last)
        if named and clause.mode in (DONE, "declined") and not self.scene.has("technique", clause):
            side, _ = self.hands.side_said(clause)
            self.focus = Focus(named, side or self.hands.side, self.scene.start(clause.first), self._bout())

    def _subject(self, mention: Mention, clause: Clause) -> tuple[list[str], bool]:
        """Structures that a finding is about, and whether they were named beside it."""
        near = self.scene.structures(clause.first, clause.last)
        near = [pair for pair in near if not self.scene.is_locator(pair[0], clause.first, len(near) > 1)]
        before = [pair for pair in near if pair[0].first < mention.last]
        chosen = before[-1] if before else self._following(mention, near)
        if chosen is None and near and self.focus is None and self.hands.latest is None:
            chosen = near[0]
        if chosen is not None:
            joined = [s for m, s in before if chosen[0].first - m.last <= 2 and m.last <= chosen[0].first]
            names = [*joined, chosen[1]] if self.scene.has("finishing", clause) else [chosen[1]]
            return self.scene.narrowed(names), True
        when = self.scene.start(mention.first)
        if self.focus is not None and self.focus.bout == self._bout() and when - self.focus.since <= FOCUS_S:
            return list(self.focus.structures), False
        draft = self.hands.current or self.hands.latest
        if draft is None or (draft.end is not None and when - draft.end > FOCUS_S):
            return [], False
        return list(draft.structures), False

    def _following(self, mention: Mention, near: Sequence[tuple[Mention, str]]) -> tuple[Mention, str] | None:
        """A structure that follows what is found, led in by a word of place ("a knot in the splenius")."""
        for pair in near:
            between = [token.text for token in self.scene.tokens[mention.last : pair[0].first]]
            led = [word for word in between if word not in SKIPPED]
            if len(between) <= LEAD_IN and led and led[-1] in self.scene.lexicon.lists["leads-in"]:
                return pair
            break
        return None

    def _side(self, mention: Mention, clause: Clause, structures: Sequence[str], named: bool) -> str | None:
        if not any(self.scene.paired(s) for s in structures):
            return None
        said, _ = self.hands.side_said(clause)
        if said is not None:
            nearest = [s for s in self.scene.mentions.within("side", clause.first, clause.last) if s.id in LATERAL]
            if len({s.id for s in nearest}) > 1 and not self.scene.has("correction", clause):
                return min(nearest, key=lambda s: abs(s.first - mention.first)).id
            return said
        if all(s in self.scene.lexicon.central for s in structures):
            return None
        if self.focus is not None and not named and self.focus.bout == self._bout():
            return self.focus.side
        draft = self.hands.current
        if draft is not None and (set(structures) & set(draft.structures)):
            return draft.side
        return self.hands.side

    # findings

    def _finding(self, mention: Mention, clause: Clause) -> None:
        scene = self.scene
        said = scene.lexicon.said[mention.id]
        if clause.mode == "declined" and said.strength == 0:
            return
        if any(True for _ in scene.mentions.within("asked", mention.first - 4, mention.first)):
            return
        denied = scene.denied(mention.first, clause.first, 5) or self._gone(mention, clause)
        value = said.denied if denied else said.value
        if not value:
            return
        when = scene.start(mention.first)
        if said.aspect == self.explained_aspect and when - self.explained_at < EXPLAINED_S / 2:
            return
        if self._of_another_part(mention, clause):
            return
        if scene.tokens[clause.last - 1].asks and not scene.has("structure", clause):
            return
        structures, named = self._subject(mention, clause)
        if self.after and not named:
            return
        if not structures or (said.strength == 0 and not self._plain_enough(mention, clause, named)):
            return
        if said.aspect == "symmetry":
            sided = self._symmetry(value)
            if sided is None:
                return
            value = sided
        if not scene.has("finishing", clause) and not named and len(structures) > 1 and said.aspect != "symmetry":
            structures = structures[:1]
        for structure in structures:
            side = None if said.aspect == "symmetry" else self._side(mention, clause, [structure], named)
            self._note(mention, structure, side, said.aspect, value, named)
        if named:
            current = self.hands.current
            unusual = value != scene.lexicon.tables.aspects[said.aspect].usual
            several = current is not None and len(current.structures) > 1
            if unusual and several and current is not None and set(structures) < set(current.structures):
                self.hands.narrow = structures[-1]
            if unusual:
                beside = self._side(mention, clause, structures, named)
                self.hands.found = Found(tuple(structures), beside, scene.start(mention.first))
            side = self._side(mention, clause, structures, named)
            self.focus = Focus(structures, side, scene.start(mention.first), self._bout())

    def _gone(self, mention: Mention, clause: Clause) -> bool:
        """Whether what was found is said to be there no longer ("the knot has gone")."""
        if mention.id not in self.scene.lexicon.said or not self.scene.lexicon.said[mention.id].denied:
            return False
        return bool(self.scene.mentions.within("gone", mention.last, min(mention.last + GONE_REACH, clause.last)))

    def _of_another_part(self, mention: Mention, clause: Clause) -> bool:
        """Whether what is found is said of a joint that is no structure of the record ("the hocks are sore")."""
        reach = max(clause.first, mention.first - 4)
        landmarks = [m for m in self.scene.mentions.within("landmark", reach, mention.first) if m.length == 1]
        return bool(landmarks) and not self.scene.mentions.within("structure", landmarks[-1].first, mention.first)

    def _plain_enough(self, mention: Mention, clause: Clause, named: bool) -> bool:
        """A bare "fine" counts only of something under the hand or named, in a short clause."""
        words = self.scene.words(clause)
        current = self.hands.current
        if self.scene.has("technique", clause) or (current is not None and current.technique in MOVED):
            return False
        if self.findings and self.scene.start(mention.first) - self.findings[-1].what.time < RESTATED_S:
            words_said = {token.text for token in self.scene.tokens[mention.first : mention.last]}
            if "normal" in words_said:
                return False
        if self.scene.start(clause.first) - self.explained_at < 5.0:
            return False
        beside = self.scene.mentions.within("side", mention.first - 5, mention.first)
        return named or bool(beside) or (self.hands.current is not None and len(words) <= SHORT_CLAUSE)

    def _symmetry(self, value: str) -> str | None:
        if value != "larger-here":
            return value
        side = self.hands.side
        return f"larger-{side}" if side in LATERAL else None

    def _sureness(self, named: bool, aspect: str, value: str) -> float:
        """How often such findings were right over the scored cases, by what tells where they are."""
        focused = self.focus is not None and self.focus.bout == self._bout()
        base = NAMED if named else (FOCUSED if focused else UNDER_HAND)
        return base * (1.0 if (aspect, value) not in SELDOM_RIGHT else SELDOM)

    def _correct_side(self, clause: Clause) -> None:
        """A side put right just after a finding ("on the near fore, sorry, the off fore")."""
        scene = self.scene
        busy = scene.has("aspect", clause) or scene.has("technique", clause)
        if busy or not self.findings or not scene.has("correction", clause):
            return
        said, _ = self.hands.side_said(clause)
        last = self.findings[-1].what
        named = [s for _, s in scene.structures(clause.first, clause.last)]
        if said is None or not isinstance(last, Finding) or scene.start(clause.first) - last.time > CORRECTED_S:
            return
        if last.side is not None and (not named or last.structure in named):
            self.findings[-1].what = replace(last, side=said)

    def _note(self, mention: Mention, structure: str, side: str | None, aspect: str, value: str, named: bool) -> None:
        scene = self.scene
        when = scene.start(mention.first)
        key = (structure, side, aspect)
        for noted in reversed(self.findings):
            old = noted.what
            assert isinstance(old, Finding)
            if (old.structure, old.side, old.aspect) != key:
                continue
            if old.value == value and noted.bout == self._bout():
                return
            if noted.bout == self._bout() and when - old.time <= CORRECTED_S:
                self.findings.remove(noted)
            break
        doubtful = any(name == structure and abs(when - said) <= FOCUS_S for name, said in scene.doubtful)
        sure = UNSURE if doubtful else self._sureness(named, aspect, value)
        confidence = sure * scene.repaired(mention.first, mention.last)
        finding = Finding(
            structure,
            side,
            aspect,
            value,
            round(when, 2),
            scene.span(mention.first, mention.last),
            round(confidence, 3),
        )
        self.findings.append(Noted(finding, self._bout(), mention.first))

    # responses

    def _response(self, mention: Mention, clause: Clause) -> None:
        scene = self.scene
        decided = self.after and (scene.has("after", clause) or scene.has("action", clause))
        if decided or not answering.meant(scene, mention, clause):
            return
        bare = mention.length == 1 and scene.tokens[mention.first].text in scene.lexicon.lists["terse-signs"]
        if bare and clause.last - clause.first > TERSE:
            return
        if mention.id == "muscle-release" and not self._under_hand(mention):
            return
        when = scene.start(mention.first)
        for noted in reversed(self.responses):
            old = noted.what
            assert isinstance(old, Response)
            if old.sign == mention.id and (noted.bout == self._bout() or when - old.time < REPEAT_S):
                return
        confidence = round(0.9 * scene.repaired(mention.first, mention.last), 3)
        response = Response(mention.id, round(when, 2), scene.span(mention.first, mention.last), confidence)
        self.responses.append(Noted(response, self._bout(), mention.first))

    def _under_hand(self, mention: Mention) -> bool:
        draft: Draft | None = self.hands.latest
        return draft is not None and (draft.end is None or self.scene.start(mention.first) - draft.end < RELEASE_S)

    def _explain(self, clause: Clause, until: int) -> None:
        """Take back what the speaker explains away in these words."""
        scene = self.scene
        for mention in scene.mentions.within("explained", clause.first, until):
            if scene.mentions.within("keeps", clause.first, clause.last):
                continue
            when = scene.start(mention.first)
            self.explained_at = when
            held = [notes for notes in (self.findings, self.responses) if notes and notes[-1].place < mention.first]
            if not held:
                continue
            latest = max(held, key=lambda notes: notes[-1].place)
            if when - latest[-1].what.time <= EXPLAINED_S:
                gone = latest.pop().what
                self.explained_aspect = gone.aspect if isinstance(gone, Finding) else ""
