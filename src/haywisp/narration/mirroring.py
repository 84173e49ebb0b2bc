"""The second side: which bout of the first side is meant by "same", by a bare technique, or by a bare muscle."""

from collections.abc import Sequence

from haywisp.narration.clauses import Clause
from haywisp.narration.drafts import OPPOSITE, STRETCHES, Draft
from haywisp.narration.mentions import Mention
from haywisp.narration.standing import Standing

HELD_S = 10.0
HOLDING = {"tail-traction"}
LIMB_HELD = {"passive-stretch"}
HOLDS = {"myofascial-hold", "sustained-pressure"}


class Mirroring(Standing):
    """Finds the bouts that the second side repeats, and what is taken over from them."""

    def _model(self, technique: str | None, targets: Sequence[str], said: str | None) -> Draft | None:
        """The bout on the other side that this one mirrors: not mirrored yet, the same technique or the same place."""
        side = said or self.side
        if side not in OPPOSITE:
            return None
        others = [d for d in self.drafts if d.side == OPPOSITE[side] and not d.mirrored]
        if technique is not None:
            others = [d for d in others if d.technique == technique]
        if targets:
            wanted = set(targets) | {self.scene.region(s) for s in targets}
            others = [d for d in others if wanted & (set(d.structures) | self.scene.around(d.structures))]
            exact = [d for d in others if set(d.structures) & set(targets)]
            others = exact or others
        elif self.hint:
            others = [d for d in others if self._stands_for(self.hint, d)] or others
        return self._next_of(others)

    def _stands_for(self, targets: Sequence[str], model: Draft) -> bool:
        """Whether regions named on the second side stand for the muscles that were worked on the first."""
        return not set(targets) & set(model.structures) and set(targets) <= self.scene.around(model.structures)

    def _next_of(self, others: Sequence[Draft]) -> Draft | None:
        """Of bouts that could be mirrored, the first after the one mirrored last; else the first."""
        ranked = sorted(others, key=lambda d: (d.number <= self.last_model, d.number))
        return ranked[0] if ranked else None

    def _mirror(self, model: Draft) -> None:
        model.mirrored = True
        self.last_model = model.number

    def _model_or_sibling(
        self, clause: Clause, technique: str, targets: Sequence[str], said: str | None
    ) -> tuple[str, Draft | None]:
        """The bout that is mirrored; "same strokes" may name a near sibling of the technique that was meant."""
        model = self._model(technique, targets, said)
        if model is None and self.scene.has("same", clause):
            for sibling in self.scene.lexicon.siblings.get(technique, ()):
                other = self._model(sibling, targets, said)
                if other is not None:
                    return sibling, other
        return technique, model

    def _inherit(self, draft: Draft, model: Draft, clause: Clause) -> None:
        same = {m.id for m in self.scene.mentions.within("same", clause.first, clause.last)}
        if self.scene.start(clause.first) - self.same_since <= HELD_S:
            same.add("whole")
            self.same_since = -1e9
        if not same:
            return
        whole = "whole" in same or ("phrases" in same and same <= {"phrases"})
        if draft.pressure is None and (whole or "pressure" in same):
            draft.pressure = model.pressure
        if draft.passes is None and (whole or "passes" in same):
            draft.passes = model.passes if model.passes is not None else self._counted_passes(model)

    def _counted_passes(self, model: Draft) -> int | None:
        """The passes counted aloud while a bout lasted; a stretch is counted in seconds and has none."""
        if model.technique in STRETCHES or model.end is None:
            return None
        within = [c.reached for c in self.scene.counts if model.start - 1.0 <= c.start <= model.end]
        return max(within, default=None)

    def _several_left(self, said: str | None) -> bool:
        """Whether more than one bout of the other side waits to be mirrored just after the side was changed."""
        if len(self.drafts) != self.switched_after:
            return False
        side = said or self.side
        left = [d for d in self.drafts if d.side == OPPOSITE.get(side or "") and not d.mirrored]
        begun = [d for d in self.drafts if d.side == side]
        return sum(1 for d in left if not begun or d.number > begun[-1].number) > 1

    def _unmirrored(self) -> bool:
        return any(d.side == OPPOSITE.get(self.side or "") and not d.mirrored for d in self.drafts)

    def _last_other(self, said: str | None) -> Draft | None:
        side = said or self.side
        others = [d for d in self.drafts if d.side == OPPOSITE.get(side or "")]
        return others[-1] if others else None

    def _rough(self, clause: Clause, targets: Sequence[str], said: str | None) -> tuple[Draft, int] | None:
        for kind, attribute in (("rough", "technique"), ("tool", "tools")):
            if self.latest is not None and self.latest.open and self.latest.technique in HOLDING:
                continue
            models = [
                self._rough_model(mention, attribute, targets, said)
                for mention in self.scene.mentions.every(kind, clause.first, clause.last)
                if not self._held_in_stretch(mention, targets) and not self.scene.denied(mention.first, clause.first, 3)
            ]
            model = self._next_of([m for m in models if m is not None])
            if model is not None:
                return model, clause.first
        return None

    def _held_in_stretch(self, mention: Mention, targets: Sequence[str]) -> bool:
        """Whether a bare "hold" is of the limb in the hands and no work on a muscle."""
        held = self.latest is not None and self.latest.open and self.latest.technique in LIMB_HELD
        return held and not targets and mention.id in HOLDS

    def _rough_model(self, mention: Mention, attribute: str, targets: Sequence[str], said: str | None) -> Draft | None:
        latest = self.latest.technique if self.latest else None
        if attribute == "technique" and mention.id in STRETCHES and latest != mention.id:
            return None
        if attribute == "technique":
            return self._model(mention.id, targets, said)
        side = said or self.side
        others = [
            d for d in self.drafts if d.side == OPPOSITE.get(side or "") and not d.mirrored and mention.id in d.tools
        ]
        if targets:
            others = [d for d in others if set(d.structures) & set(targets)]
        return self._next_of(others)
