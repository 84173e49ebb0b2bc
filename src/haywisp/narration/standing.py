"""Where the practitioner stands: the side of the horse, changes of it, and the bout under the hands."""

from collections.abc import Sequence

from haywisp.narration.clauses import Clause
from haywisp.narration.drafts import OPPOSITE, Draft, Found, Pending, Waiting
from haywisp.narration.mentions import Mention
from haywisp.narration.scene import Scene

STANDS_WORDS = 8
ARRIVED_S = 5.0


class Standing:
    """The state that bouts are heard in."""

    def __init__(self, scene: Scene) -> None:
        self.scene = scene
        self.drafts: list[Draft] = []
        self.side: str | None = None
        self.switched_after = 0
        self.turned_at = -1e9
        self.pending: Pending | None = None
        self.beside: Pending | None = None
        self.waiting: Waiting | None = None
        self.crossed = -1
        self.last_model = -1
        self.narrow: str | None = None
        self.same_since = -1e9
        self.hint: list[str] = []
        self.singled_at = -1e9
        self.pointed_at = -1e9
        self.baited_at = -1e9
        self.found: Found | None = None

    @property
    def current(self) -> Draft | None:
        """The bout under the hands now."""
        return self.drafts[-1] if self.drafts and self.drafts[-1].open else None

    @property
    def latest(self) -> Draft | None:
        """The last bout, under the hands or not."""
        return self.drafts[-1] if self.drafts else None

    def close(self, when: float) -> None:
        """The hands come off."""
        self.narrow = None
        if self.current is not None:
            self.current.end = max(self.current.start, when)

    def side_said(self, clause: Clause) -> tuple[str | None, int | None]:
        """The side that a clause tells, with corrections applied, and the token that first tells it."""
        sides = [side for side in self.scene.mentions.within("side", clause.first, clause.last) if side.id != "here"]
        if not sides:
            return None, None
        ids = [self._absolute(side.id) for side in sides]
        if "both" in ids and set(ids) & set(OPPOSITE) and len(self.scene.targets(clause.first, clause.last)[0]) > 1:
            sides = [side for side, told in zip(sides, ids, strict=True) if told != "both"]
            ids = [told for told in ids if told != "both"]
        if len(set(ids)) == 1:
            return ids[0], sides[0].first
        corrected = any(
            sides[0].last <= c.first < sides[-1].last
            for c in self.scene.mentions.within("correction", clause.first, clause.last)
        )
        if corrected:
            return ids[-1], sides[0].first
        return ("both" if "both" in ids else ids[0]), sides[0].first

    def _absolute(self, side: str) -> str | None:
        if side != "other":
            return side
        now = self.side or (self.latest.side if self.latest else None)
        if self.crossed == len(self.drafts):
            return now
        return OPPOSITE.get(now or "")

    def _goes_to(self, clause: Clause, targets: Sequence[str]) -> bool:
        """Whether a side is told as where the hands go now, and not in passing."""
        if targets or self.scene.has("same", clause) or self.scene.has("rough", clause):
            return True
        sides = self.scene.mentions.within("side", clause.first, clause.last)
        texts = [token.text for side in sides for token in self.scene.tokens[side.first : side.last + 1]]
        words = self.scene.words(clause)
        stands = (
            bool({"i", "we", "start", "begin", "starting", "beginning"} & set(words)) and len(words) <= STANDS_WORDS
        )
        told = [word for word in words if word not in self.scene.lexicon.lists["clause-fillers"]]
        return "side" in texts or len(told) <= 4 or stands or any(side.id == "other" for side in sides)

    def _cross(self, when: float) -> None:
        """Walk round to the other side, unless that side was just named ("right side, come around the front")."""
        arrived = self.switched_after == len(self.drafts) and when - self.turned_at <= ARRIVED_S
        if self.side in OPPOSITE and self.crossed != len(self.drafts) and not arrived:
            self._turn(OPPOSITE[self.side], when)
            self.crossed = len(self.drafts)

    def _turn(self, side: str | None, when: float) -> None:
        if side in OPPOSITE and side != self.side:
            self.side = side
            self.narrow = None
            self.switched_after = len(self.drafts)
            self.turned_at = when

    def _corrects_side(self, clause: Clause, said: str, targets: Sequence[str]) -> bool:
        """A side put right while the hands stay where they are ("no, sorry, it's her left")."""
        if self.current is None or targets or not self.scene.has("correction", clause) or said == self.current.side:
            return False
        if self.scene.has("aspect", clause) or self.scene.has("same", clause) or "now" in self.scene.words(clause):
            return False
        self.current.side = said
        self.side = said
        return True

    def _side_for(self, structures: Sequence[str], said: str | None) -> str | None:
        if not any(self.scene.paired(s) for s in structures):
            return None
        if said is not None:
            return said
        if all(s in self.scene.lexicon.central for s in structures):
            return None
        return self.side

    def _on_it(self, mention: Mention, clause: Clause) -> bool:
        """Whether a technique is done on "it": what is under the hand already on this side."""
        if len(self.drafts) == self.switched_after:
            return False
        after = self.scene.tokens[mention.first : min(mention.last + 3, clause.last)]
        return any(token.text in {"it", "that", "this", "there"} for token in after)
