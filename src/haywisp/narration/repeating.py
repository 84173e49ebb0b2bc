"""Bouts whose technique is not named: "same on this one", "and the triceps", "fist", "left elbow, one … two"."""

from collections.abc import Sequence

from haywisp.narration.attending import Attending
from haywisp.narration.clauses import Clause
from haywisp.narration.counting import stated_passes
from haywisp.narration.drafts import OPPOSITE, Draft
from haywisp.narration.scene import Scene

ANNOUNCE_S = 9.0
BARE_WORDS = 9
AND_WORDS = 6
AT_ONCE_S = 4.0
WORKS_S = 4.0
BACK_TO = frozenset({"on", "to", "at", "onto", "in"})
PLACE_WORDS = 4
BAITED_S = 8.0
NAMED_FIRST_S = 8.0
LURED_S = 40.0


class Repeating(Attending):
    """Begins bouts that only repeat: on the second side, at the next place, or once more."""

    def _elliptic(
        self,
        clause: Clause,
        targets: list[str],
        target_first: int | None,
        said: str | None,
        observed: bool,
        before: str | None,
    ) -> bool:
        """A bout whose technique is not named: "same on this one", "and the triceps", "fist"; True when one began."""
        scene = self.scene
        if not observed and self._resumes(clause, targets, said):
            return True
        lured = not targets or scene.start(clause.first) - self.baited_at <= BAITED_S
        if said is None and lured and self._low(clause) and self._lured(clause, None):
            return True
        same = scene.mentions.within("same", clause.first, clause.last)
        whole = any(m.id in {"whole", "phrases", "structure"} for m in same)
        switched = said is not None or (self.switched_after > 0 and self._unmirrored())
        if not (whole or switched or same):
            return False
        if said is not None and self._lured(clause, said):
            return True
        awaited = self._awaited(clause)
        begun = self.current is not None and self.current.named and self._in_one_breath(self.current, clause.first)
        begun = begun and not targets and said is None and not same
        rough = None if begun else self._rough(clause, targets or (awaited.structures if awaited else []), said)
        if rough is not None:
            model, place = rough
            self._begin_like(clause, model, targets, min(place, target_first or place), said, bool(same))
            return True
        told_first = bool(same) and not self._observed_before(clause, same[0].first)
        if whole and (not observed or (told_first and said is not None)):
            return self._same_again(clause, targets, said)
        if same and not targets and not observed:
            return self._same_count(clause, said)
        if observed and not whole and not self._place_then_found(clause, targets):
            return False
        return self._bare_place(clause, targets, said) or self._other_one(clause, targets, said, before)

    def _same_again(self, clause: Clause, targets: list[str], said: str | None) -> bool:
        """ "Same again": what was done last on the other side, or at the place named."""
        several = not targets and self._several_left(said)
        if several and not self._at_work(clause) and not self._on_this_one(clause):
            self.same_since = self.scene.start(clause.first)
            return True
        if several and not self._on_this_one(clause):
            model = self._model(None, [], said)
        else:
            model = self._model(None, targets, said) if targets else self._last_other(said)
        if model is None and targets and said is None:
            model = self.latest
        if model is None:
            return False
        self._begin_like(clause, model, targets, clause.first, said, True)
        return True

    def _place_then_found(self, clause: Clause, targets: Sequence[str]) -> bool:
        """Whether a muscle is named, worked and told of in a few words, on the second side ("quads, loose")."""
        scene = self.scene
        seen = [m.first for kind in ("aspect", "sign") for m in scene.mentions.within(kind, clause.first, clause.last)]
        named = [m.last for m, _ in scene.structures(clause.first, min(seen))]
        told = [token.text for token in scene.tokens[clause.first : min(seen) + 1]]
        bare = bool(named) and min(seen) - max(named) <= 1 and not set(told) & scene.lexicon.classes["be"]
        return bare and bool(targets) and len(told) <= PLACE_WORDS + 1 and self._unmirrored()

    def _resumes(self, clause: Clause, targets: list[str], said: str | None) -> bool:
        """Whether the hands go back to what they were at ("back on the glute", "hands back on that hold")."""
        latest = self.latest
        words = self.scene.words(clause)
        back = any(w == "back" and after in BACK_TO for w, after in zip(words, words[1:], strict=False))
        if latest is None or latest.open or not back:
            return False
        side = said or self.side
        alike = [
            d
            for d in reversed(self.drafts)
            if (not targets or set(d.structures) & set(targets)) and (d.side == side or d.side is None or side is None)
        ]
        if not alike or (not targets and alike[0] is not latest):
            return False
        self._begin_like(clause, alike[0], targets, clause.first, said, self.scene.has("same", clause))
        return True

    def _only_named(self, current: Draft | None, clause: Clause) -> bool:
        """Whether a bout was begun by the bare name of its place, and its technique is told only now."""
        if current is None or "technique" not in current.doubts or current.passes is not None:
            return False
        return (
            self._in_one_breath(current, clause.first)
            and self.scene.start(clause.first) - current.start <= NAMED_FIRST_S
        )

    def _withdraw(self, current: Draft | None) -> list[str]:
        """Take back a bout that was begun too early; its structures."""
        assert current is not None
        self.drafts.remove(current)
        if current.model is not None:
            current.model.mirrored = False
        return list(current.structures)

    def _lured(self, clause: Clause, said: str | None) -> bool:
        """A titbit led to the other side ("left elbow, one … two"): the same stretch again on that side."""
        latest, when = self.latest, self.scene.start(clause.first)
        if when - self.baited_at <= BAITED_S and clause.first:
            self.baited_at = -1e9
            stretch = Draft("baited-stretch", ["neck"], said, self.scene.start(clause.first), clause.first, clause.last)
            stretch.side_said, stretch.passes = (
                said is not None,
                stated_passes(self.scene.tokens, clause.first, clause.last, self.scene.lexicon),
            )
            self.close(stretch.start)
            stretch.number = len(self.drafts)
            self.drafts.append(stretch)
            self.pending = self.beside = None
            return True
        if latest is None or latest.technique != "baited-stretch" or said not in OPPOSITE or said == latest.side:
            return False
        counted = any(when <= count.start <= when + ANNOUNCE_S for count in self.scene.counts)
        if when - latest.start > LURED_S or not (counted or self._at_work(clause)):
            return False
        self._begin_like(clause, latest, [], clause.first, said, self.scene.has("same", clause))
        return True

    def _offers_bait(self, clause: Clause) -> bool:
        """Whether a few words without a verb offer a titbit ("and to finish, the carrot")."""
        lexicon = self.scene.lexicon
        words = set(clause_words(self.scene, clause))
        return (
            bool(words & lexicon.classes["bait"]) and words <= lexicon.classes["bait"] | lexicon.lists["clause-offers"]
        )

    def _low(self, clause: Clause) -> bool:
        """Whether a titbit is led down the middle ("down between his knees")."""
        words = set(self.scene.words(clause))
        return bool(words & {"down", "low", "between"}) and bool(words & {"between", "knees", "chest", "feet"})

    def _at_work(self, clause: Clause) -> bool:
        """Whether the hands work after a clause, as told by silence or a count before anything more is named."""
        scene = self.scene
        if scene.tokens[clause.last - 1].pause >= WORKS_S:
            return True
        end = scene.tokens[clause.last - 1].end
        return any(end <= count.start <= end + AT_ONCE_S for count in scene.counts)

    def _on_this_one(self, clause: Clause) -> bool:
        """Whether "same" is said of the muscle just left ("same on the right") and not of a whole side."""
        words = self.scene.words(clause)
        return "side" not in words and self.crossed != len(self.drafts)

    def _same_count(self, clause: Clause, said: str | None) -> bool:
        """ "Same three": the counted bout of the other side that comes next."""
        side = said or self.side
        others = [d for d in self.drafts if d.side == OPPOSITE.get(side or "") and not d.mirrored]
        counted = [d for d in others if d.passes is not None or self._counted(d)]
        model = self._next_of(counted)
        if model is None or not self.scene.has("same", clause, "passes"):
            return False
        self._begin_like(clause, model, [], clause.first, said, True)
        return True

    def _bare_place(self, clause: Clause, targets: list[str], said: str | None) -> bool:
        """A muscle alone, on the second side: what was done to it on the first."""
        if not targets or len(clause_words(self.scene, clause)) > BARE_WORDS or self.scene.refused_next(clause):
            return False
        if self._told_of(clause) or self.scene.has("action", clause) or self.scene.has("after", clause):
            return False
        model = self._model(None, targets, said)
        if model is None:
            return False
        short = self.scene.words(clause)[0] == "and" and len(clause_words(self.scene, clause)) <= AND_WORDS
        if not set(model.structures) & set(targets):
            if not (short and self._stands_for(targets, model)):
                return False
            targets = list(model.structures)
        self._begin_like(clause, model, targets, clause.first, said, False)
        return True

    def _told_of(self, clause: Clause) -> bool:
        """Whether something is said of a place ("that is the same side as the neck") and no work is begun on it."""
        words = [word for word in self.scene.words(clause) if word not in self.scene.lexicon.lists["clause-fillers"]]
        tells = words[:1] and words[0] in self.scene.lexicon.lists["clause-subjects"]
        if any(clause.first <= count.first < clause.last for count in self.scene.counts):
            return False
        return bool(tells and words[1:2] and words[1] in self.scene.lexicon.classes["be"])

    def _other_one(self, clause: Clause, targets: Sequence[str], said: str | None, before: str | None) -> bool:
        """ "And the other one", "off fore": the last bout again on the other side."""
        if targets or said is None or before is None or said == before or not self._bare_side(clause):
            return False
        model = self._last_other(said)
        if model is None or model is not self.latest:
            return False
        self._begin_like(clause, model, [], clause.first, said, False)
        return True

    def _bare_side(self, clause: Clause) -> bool:
        """A clause that says a side of a limb or "the other one" and little else."""
        words = self.scene.words(clause)
        if words[0] == "to" and not self._at_work(clause):
            return False
        small = self.scene.lexicon.lists["clause-bare_side"]
        if "side" in words:
            return self._counted_stretch(clause, set(words) - {"side"} <= small | set(self.scene.lexicon.numbers))
        return len(words) <= 6 and set(words) <= small and bool({"and", "one", "other", "to"} & set(words))

    def _begin_like(
        self, clause: Clause, model: Draft, targets: list[str], first: int, said: str | None, same: bool
    ) -> None:
        scene = self.scene
        if targets and (said or self.side) != model.side and self._stands_for(targets, model):
            targets = []
        structures = targets or list(model.structures)
        draft = Draft(
            model.technique, structures, self._side_for(structures, said), scene.start(first), first, clause.last
        )
        draft.doubts = ["technique"] + ([] if targets else ["structures"])
        draft.side_said = said is not None
        draft.pressure = self._pressure(clause)
        draft.passes = stated_passes(scene.tokens, clause.first, clause.last, scene.lexicon)
        draft.tools = set(model.tools)
        if same:
            self._inherit(draft, model, clause)
        if draft.side == model.side and self.current is model and set(structures) == set(model.structures):
            return
        if draft.side != model.side:
            self._mirror(model)
            draft.model = model
        self.close(draft.start)
        draft.number = len(self.drafts)
        self.drafts.append(draft)
        self.pending = None
        scene.recent.extend(structures)


def clause_words(scene: Scene, clause: Clause) -> list[str]:
    """The words of a clause without fillers."""
    return [word for word in scene.words(clause) if word not in scene.lexicon.lists["clause-fillers"]]
