"""Actions: what the speaker decides for after the session, or that it stops."""

from collections.abc import Sequence

from haywisp.narration import resolving
from haywisp.narration.clauses import DONE, Clause
from haywisp.narration.hands import Hands
from haywisp.narration.mentions import Mention
from haywisp.narration.scene import Scene
from haywisp.narration.types import Action

LATE_SHARE = 0.55
STILL_AT_WORK = 2
AT_HOME = frozenset({"warmth", "cooling", "baited-stretch"})
DECISION_REACH = 70
DECIDED = (DONE, "next", "advice")
TERSE = 1
COUNT_REACH = 8


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
        over = self.after or clause.first >= self.last_onset
        for mention in scene.mentions.within("action", clause.first, clause.last):
            if self._decided(mention, clause, over):
                self._add(mention)
                if over and mention.id.startswith(("refer-", "recheck")):
                    self._work_is_over(scene.start(clause.first))
        if not over:
            return
        for mention in scene.mentions.within("after", clause.first, clause.last):
            if self._spoken(mention, clause) and self._meant(mention, clause) and not self._still_done(mention):
                self._add(mention)
        self._hear_terse(clause)

    def _hear_terse(self, clause: Clause) -> None:
        """Once the work is over, take an action that is nearly all of a clause ("Farrier.")."""
        few = self.scene.mentions.within("terse-action", clause.first, clause.last)
        if not self.after or not few or clause.mode not in DECIDED:
            return
        if clause.last - clause.first - few[0].length <= TERSE and self._meant(few[0], clause):
            self._add(few[0])

    def _spoken(self, mention: Mention, clause: Clause) -> bool:
        """Whether the mode of a clause lets an action be decided: "next" of no later session, leave that is given."""
        scene = self.scene
        cues = [m for m in scene.mentions.within("mode", clause.first, clause.last) if m.id == clause.mode]
        if clause.mode == DONE or self._allowed(clause) or (cues and all(m.first >= mention.last for m in cues)):
            return True
        if clause.mode == "advice":
            return not scene.has("mode", clause, "usual") and not resolving.words(scene, "unsure") & set(
                scene.words(clause)[:3]
            )
        if clause.mode == "next":
            return not any(scene.tokens[cue.last - 1].text in resolving.words(scene, "later") for cue in cues)
        return clause.mode == "declined" and (resolving.negative(scene, mention) or resolving.leaves(scene, mention))

    def _meant(self, mention: Mention, clause: Clause) -> bool:
        """Whether an action is neither denied nor put aside."""
        scene = self.scene
        held = resolving.negative(scene, mention) or not resolving.denied(scene, mention, clause)
        return held and resolving.resolved(scene, mention, clause)

    def _rests(self, mention: Mention) -> bool:
        """Whether longer words make a rest of what would spare a place ("no harness on him this week")."""
        after = self.scene.mentions.within("after", mention.first - 1, mention.last)
        return any(m.id == "rest" and m.first <= mention.first and m.last >= mention.last for m in after)

    def _still_done(self, mention: Mention) -> bool:
        """Whether what could be homework is done now, as a count follows it ("now the carrot, one, two")."""
        if self.after or mention.id not in ("baited-stretches", "warmth"):
            return False
        if "i" in [token.text for token in self.scene.tokens[max(0, mention.first - COUNT_REACH // 2) : mention.first]]:
            return True
        return any(mention.first <= count.first <= mention.last + COUNT_REACH for count in self.scene.counts)

    def _allowed(self, clause: Clause) -> bool:
        """Whether "you can" gives leave for afterwards, or "I'd" advises, and neither tells of what could be done."""
        words = self.scene.words(clause)
        if not self.after or clause.mode != "could":
            return False
        cues = [m for m in self.scene.mentions.within("mode", clause.first, clause.last) if m.id == "could"]
        advised = bool(cues) and all(self.scene.tokens[cue.first].text == "i" for cue in cues)
        return advised or ("you" in words[:2] and "can" in words[:3])

    def _decided(self, mention: Mention, clause: Clause, over: bool) -> bool:
        scene = self.scene
        if resolving.broken(scene, mention) or not self._spoken(mention, clause):
            return False
        if mention.id == "stop-session":
            return not resolving.asked(scene, mention) and self._little_follows(mention)
        if mention.id != "avoid-site" and not self._meant(mention, clause):
            return False
        if over and self._rests(mention):
            return False
        if mention.id == "avoid-site" and not resolving.resolved(scene, mention, clause):
            return False
        return over or mention.id != "recheck"

    def _little_follows(self, mention: Mention) -> bool:
        """Whether hardly any work is told of after these words, so that they can have ended it."""
        scene = self.scene
        worked = [
            m
            for clause in scene.clauses
            if clause.mode == DONE and clause.last > mention.last
            for kind in ("technique", "weak")
            for m in scene.mentions.within(kind, max(clause.first, mention.last), clause.last)
            if m.id not in AT_HOME
        ]
        placed = [m for m in worked if scene.mentions.within("structure", m.first - 6, m.last + 6)]
        return sum(1 for place in self.onsets if place > mention.last) <= STILL_AT_WORK and len(placed) < STILL_AT_WORK

    def _work_is_over(self, when: float) -> None:
        if not self.after:
            self.after = True
            self.hands.close(when)

    def _add(self, mention: Mention) -> None:
        scene = self.scene
        held = scene.mentions.within("no-action", max(0, mention.first - 8), mention.last)
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
        if m.id not in {"warmth", "baited-stretch", "cooling", "hacking", "stroking"} and not homework(scene, m)
    ]


def homework(scene: Scene, technique: Mention) -> bool:
    """Whether the words of a technique are those of exercise for afterwards ("on the long lines")."""
    near = scene.mentions.within("after", technique.first - 4, technique.last)
    return any(m.id in resolving.EXERCISE and m.first <= technique.first and m.last >= technique.last for m in near)


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
