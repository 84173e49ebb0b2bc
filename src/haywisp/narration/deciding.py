"""Actions: what the speaker decides for after the session, or that it stops."""

from collections.abc import Sequence

from haywisp.narration.clauses import DONE, Clause
from haywisp.narration.hands import Hands
from haywisp.narration.mentions import Mention
from haywisp.narration.scene import Scene
from haywisp.narration.types import Action

LATE_SHARE = 0.55
STILL_AT_WORK = 2
DECISION_REACH = 70
DECIDED = (DONE, "next", "advice")
JOINS = frozenset({"and", "but"})


class Decider:
    """Collects decisions clause by clause; each kind once, at its first mention."""

    def __init__(self, scene: Scene, hands: Hands) -> None:
        self.scene, self.hands = scene, hands
        self.actions: list[Action] = []
        self.after = False
        self.onsets = onsets(scene)
        self.last_onset = last_onset(scene, self.onsets)

    def hear(self, clause: Clause) -> None:
        """Take one clause."""
        scene = self.scene
        begins = scene.mentions.within("after-begins", clause.first, clause.last)
        if clause.mode == DONE and begins and clause.first >= self.last_onset:
            self._work_is_over(scene.start(clause.first))
        if clause.mode not in DECIDED and not self._allowed(clause):
            return
        over = self.after or clause.first >= self.last_onset
        for mention in scene.mentions.within("action", clause.first, clause.last):
            if self._decided(mention, clause, over):
                self._add(mention)
                if over and mention.id.startswith(("refer-", "recheck")):
                    self._work_is_over(scene.start(clause.first))
        if not over:
            return
        for mention in scene.mentions.within("after", clause.first, clause.last):
            if (clause.mode in DECIDED or self._allowed(clause)) and not scene.denied(mention.first, clause.first, 3):
                self._add(mention)

    def _allowed(self, clause: Clause) -> bool:
        """Whether "you can" gives leave for afterwards, and is no talk of what could be done."""
        words = self.scene.words(clause)
        return self.after and clause.mode == "could" and "you" in words[:2] and "can" in words[:3]

    def _decided(self, mention: Mention, clause: Clause, over: bool) -> bool:
        scene = self.scene
        if mention.id == "stop-session":
            return clause.mode == DONE and self._little_follows(mention)
        if mention.id == "recheck":
            return over
        if clause.mode not in (DONE, "advice"):
            return False
        denied = scene.denied(mention.first, clause.first, 3, JOINS) and mention.id != "avoid-site"
        return not denied and (over or scene.has("asks", clause) or mention.id == "avoid-site")

    def _little_follows(self, mention: Mention) -> bool:
        """Whether hardly any work is told of after these words, so that they can have ended it."""
        return sum(1 for place in self.onsets if place > mention.last) <= STILL_AT_WORK

    def _work_is_over(self, when: float) -> None:
        if not self.after:
            self.after = True
            self.hands.close(when)

    def _add(self, mention: Mention) -> None:
        scene = self.scene
        held = scene.mentions.within("no-action", max(0, mention.first - 4), mention.last)
        if any(m.first <= mention.first and m.last >= mention.last for m in held):
            return
        if any(action.kind == mention.id for action in self.actions):
            return
        when = round(scene.start(mention.first), 2)
        confidence = round(0.85 * scene.repaired(mention.first, mention.last), 3)
        self.actions.append(Action(mention.id, when, scene.span(mention.first, mention.last), confidence))
        if mention.id == "stop-session":
            self._work_is_over(when)


def onsets(scene: Scene) -> list[int]:
    """Tokens at which the speaker names a technique as done; those that are also homework are left out."""
    return [
        m.first
        for clause in scene.clauses
        if clause.mode == DONE
        for m in scene.mentions.within("technique", clause.first, clause.last)
        if m.id not in {"warmth", "baited-stretch", "cooling", "hacking", "stroking"}
    ]


def among_decisions(scene: Scene, place: int) -> bool:
    """Whether a technique is named in the middle of what is decided for afterwards."""
    before = [
        m.id
        for kind in ("action", "after")
        for m in scene.mentions.within(kind, max(0, place - DECISION_REACH), place)
        if m.first > len(scene.tokens) * LATE_SHARE
    ]
    return len(set(before)) >= 2


def last_onset(scene: Scene, places: Sequence[int]) -> int:
    """The token of the last technique named as done, before the talk of afterwards."""
    stops = [m.first for m in scene.mentions.all("after-begins")]
    late = [place for place in stops if place > len(scene.tokens) * LATE_SHARE]
    last = max((place for place in places if not among_decisions(scene, place)), default=0)
    return min(last, late[0]) if late and late[0] < last and late[0] > len(scene.tokens) * 0.8 else last
