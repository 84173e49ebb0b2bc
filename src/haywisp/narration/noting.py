"""What was noted so far, and whether a bare "fine" or "lovely" says anything of the place under the hand."""

from dataclasses import dataclass

from haywisp.narration.clauses import Clause
from haywisp.narration.hands import Hands
from haywisp.narration.mentions import Mention
from haywisp.narration.quoting import quotations
from haywisp.narration.scene import Scene
from haywisp.narration.subjects import Subjects
from haywisp.narration.types import Finding, Response

MOVED_S = 8.0
MOVED = {"passive-stretch", "passive-mobilisation", "tail-traction"}
WARMING = {"warmth", "cooling"}
RESTATED_S = 4.0
TERSE = 2
SHORT_CLAUSE = 9
MOVED_WORDS = 5
ANSWERED_S = 3.0


@dataclass
class Noted:
    """A finding or response as it is heard, with the bout it fell in."""

    what: Finding | Response
    bout: int
    place: int
    named: bool = False


class Noting:
    """Findings and responses as they come in, and what is asked of plain words."""

    def __init__(self, scene: Scene, hands: Hands) -> None:
        self.scene, self.hands = scene, hands
        self.subjects = Subjects(scene, hands)
        self.findings: list[Noted] = []
        self.responses: list[Noted] = []
        self.quotations = quotations(scene)
        self.explained_at = -1e9
        self.explained_aspect = ""
        self.after = False

    def _bout(self) -> int:
        return self.subjects.bout()

    def _plain_enough(self, mention: Mention, clause: Clause, named: bool) -> bool:
        """A bare "fine" counts only of something under the hand or named, in a short clause."""
        marks = [p for p in range(clause.first, mention.first) if self.scene.tokens[p].mark]
        words = self.scene.tokens[marks[-1] + 1 if marks else clause.first : clause.last]
        current, latest = self.hands.current, self.hands.latest
        moved = current or latest
        just = latest is not None and (latest.end is None or self.scene.start(mention.first) - latest.end <= MOVED_S)
        if self._worked_after(mention, clause) or (moved is not None and just and moved.technique in MOVED):
            return False
        if self.findings and self.scene.start(mention.first) - self.findings[-1].what.time < RESTATED_S:
            words_said = {token.text for token in self.scene.tokens[mention.first : mention.last]}
            if "normal" in words_said:
                return False
        if self.scene.start(clause.first) - self.explained_at < 5.0:
            return False
        if self.scene.mentions.within("sign", clause.first, mention.first) and not named:
            return False
        if self._said_already(mention, clause) or self._of_answer(mention, clause, named):
            return False
        beside = self.scene.mentions.within("side", mention.first - 5, mention.first)
        return named or bool(beside) or (self.hands.current is not None and len(words) <= SHORT_CLAUSE)

    def _said_already(self, mention: Mention, clause: Clause) -> bool:
        """Whether the same breath has just told that all is as usual there ("nicely filled, just right")."""
        last = self.findings[-1] if self.findings else None
        if last is None or not isinstance(last.what, Finding) or last.bout != self._bout():
            return False
        usual = self.scene.lexicon.tables.aspects[last.what.aspect].usual
        near = self.scene.start(mention.first) - last.what.time <= RESTATED_S
        return near and last.what.value == usual and not self.scene.has("structure", clause)

    def _of_pack(self, clause: Clause) -> bool:
        """Whether "it" is the pack that lies on the horse ("it's going cold")."""
        current = self.hands.current
        of_horse = self.scene.lexicon.lists["clause-of_horse"] & set(self.scene.words(clause))
        return current is not None and current.technique in WARMING and not of_horse

    def _of_answer(self, mention: Mention, clause: Clause, named: bool) -> bool:
        """Whether a bare "lovely" is said of what the horse has just answered."""
        last = self.responses[-1].what if self.responses else None
        near = last is not None and self.scene.start(mention.first) - last.time <= ANSWERED_S
        found = self.findings[-1].what.time if self.findings else -1.0
        return near and not named and last is not None and last.time > found and clause.last - clause.first <= TERSE

    def _moved_well(self, mention: Mention, clause: Clause, named: bool) -> bool:
        """Whether a bare "fine" tells how a limb or the neck came, just after it was moved."""
        latest = self.hands.latest
        if latest is None or latest.technique not in MOVED or named or self._worked_after(mention, clause):
            return False
        just = latest.end is None or self.scene.start(mention.first) - latest.end <= MOVED_S
        words = self.scene.words(clause)
        return just and len(words) <= MOVED_WORDS and not self.scene.has("structure", clause)

    def _worked_after(self, mention: Mention, clause: Clause) -> bool:
        """Whether a clause names work, unless what is found ends it ("knead the trapezius, fine")."""
        scene = self.scene
        if not scene.has("technique", clause):
            return False
        following = [token.text for token in scene.tokens[mention.last : clause.last]]
        return bool(following) and not set(following[:1]) <= scene.lexicon.lists["clause-ends_found"]
