"""Bouts: which technique, where, on which side, and from when to when, followed through ellipsis and change of side."""

from collections.abc import Sequence

from haywisp.narration.attending import BREATH_S, opening_side, opening_words, singled_out
from haywisp.narration.clauses import DONE, Clause
from haywisp.narration.counting import stated_passes
from haywisp.narration.drafts import Draft, Pending, Waiting
from haywisp.narration.mentions import Mention
from haywisp.narration.repeating import ANNOUNCE_S, AT_ONCE_S, BARE_WORDS, Repeating, clause_words

NAMED_LATER_S = 15.0
PULLED = {"sustained-pressure", "compression", "passive-stretch", "muscle-squeezing"}
LIMB_MOVED = {"passive-stretch", "passive-mobilisation"}
SWUNG = {"rocking", "passive-mobilisation"}
SINGLED_S = 6.0
TOOL_WORDS = 4
FOUND_S = 14.0
POINTED_S = 20.0
SPENT_S = 6.0
BESIDE_S = 9.0
CALLED_OFF_S = 12.0
HELD = {"myofascial-hold", "sustained-pressure", "vibration", "passive-mobilisation", "warmth", "cooling", "rocking"}
YIELDS_TO = {
    "hands-resting": HELD,
    "sustained-pressure": {"compression", "circular-friction", "cross-fibre-friction", "kneading"},
    "kneading": {"wringing"},
    "circular-friction": {"cooling"},
}


class Hands(Repeating):
    """Follows the hands clause by clause."""

    def hear(self, clause: Clause) -> None:
        """Take one clause."""
        scene = self.scene
        when = scene.start(clause.first)
        if clause.mode == "away":
            self.close(when)
        if clause.mode == "lesson":
            self._taught(clause)
            self._turn(opening_side(scene, clause), when)
        if clause.mode in ("past", "usual", "could"):
            self._told_of_once(clause)
        if clause.mode == "declined":
            self._call_off(clause)
        if clause.mode != DONE:
            return
        if scene.has("talk", clause, "bout_ends") and not scene.has("technique", clause):
            self.close(when)
        if self.current is not None and self._waits(self.current, clause):
            self.current.technique = "myofascial-hold"
        if scene.has("talk", clause, "crosses"):
            self.close(when)
            self._cross(when)
        if self._offers_bait(clause):
            self.baited_at = when
        if self._points_at(clause):
            self.pointed_at = when
        if singled_out(scene.words(clause)):
            self.singled_at = when
        if self._other_of_two(clause):
            return
        said, side_first = self.side_said(clause)
        techniques = self.techniques(clause)
        targets, target_first = self._places(clause, techniques, said)
        observed = scene.has("aspect", clause) or scene.has("sign", clause)
        if said is not None and not techniques and self._corrects_side(clause, said, targets):
            return
        moved = said is not None and (bool(techniques) or (not observed and self._goes_to(clause, targets)))
        before = self.side
        if moved and said is not None:
            self._turn(said, when)
        if techniques:
            self._onsets(clause, techniques, targets, target_first, said, side_first)
        elif not self._elliptic(clause, targets, target_first, said, observed, before):
            self._attach(clause, targets, said, observed)

    def _places(self, clause: Clause, techniques: Sequence[Mention], said: str | None) -> tuple[list[str], int | None]:
        """Where the hands go in a clause, and the token that first tells it; nothing where another place is meant."""
        scene, latest = self.scene, self.latest
        targets, first = scene.targets(clause.first, clause.last)
        if not targets and latest is not None:
            targets = scene.part_meant(clause.first, clause.last, latest.structures)
        apart = self._only_stretch(clause, techniques, said) or self._along_it(clause, techniques)
        if targets and (self._describes(clause, targets) or apart):
            targets, first = [], None
        self.hint = []
        same = scene.has("same", clause, "structure")
        if same and self._unmirrored():
            self.hint = targets or (self.pending.structures if self.pending else [])
            targets, first, self.pending = [], None, None
        if same and not targets and techniques and latest is not None:
            repeats = self._model(techniques[0].id, [], said) is not None
            targets = [] if repeats else self._over(techniques[0].id, latest.structures)
        return targets, first

    def _only_stretch(self, clause: Clause, techniques: Sequence[Mention], said: str | None) -> bool:
        """Whether places only tell how far a stroke goes over a muscle that waits for it, or that is done again."""
        if not techniques or not self.scene.only_ends(clause.first, clause.last):
            return False
        awaited = self._awaited(clause)
        muscle = awaited is not None and any(self.scene.region(s) != s for s in awaited.structures)
        return muscle or self._model(techniques[0].id, [], said) is not None

    def _along_it(self, clause: Clause, techniques: Sequence[Mention]) -> bool:
        """Whether "it" is worked and a place only tells where along it ("kneading it along, just under the crest")."""
        if not techniques or self._awaited(clause) is None:
            return False
        place = techniques[0].last
        own = self.scene.tokens[place].text if place < clause.last else ""
        named = self.scene.structures(place, clause.last)
        lead = [token.text for token in self.scene.tokens[place + 1 : named[0][0].first]] if named else []
        lists = self.scene.lexicon.lists
        return own in lists["clause-worked_on"] and bool(lists["clause-along_by"] & set(lead))

    def _call_off(self, clause: Clause) -> None:
        """Take back a bout that was only announced and is declined before any work ("… so skip that")."""
        scene, current = self.scene, self.current
        if not set(scene.words(clause)) & scene.lexicon.lists["clause-calls_off"]:
            return
        if current is None or scene.start(clause.first) - current.start > CALLED_OFF_S or current.passes is not None:
            return
        techniques = {m.id for m in scene.mentions.within("technique", clause.first, clause.last)}
        if techniques - {current.technique}:
            return
        between = scene.tokens[current.first : clause.first]
        worked = any(token.pause >= BREATH_S for token in between)
        worked = worked or any(current.first <= count.first < clause.first for count in scene.counts)
        heard = any(scene.mentions.within(kind, current.first, clause.first) for kind in ("aspect", "sign"))
        places = scene.structures(clause.first, clause.last)
        if not worked and not heard and all(s in current.structures for _, s in places):
            self.drafts.remove(current)

    # techniques

    def techniques(self, clause: Clause) -> list[Mention]:
        """Techniques named as done in a clause, each once, weaker readings dropped beside stronger ones."""
        found: list[Mention] = []
        for mention in self.scene.mentions.within("technique", clause.first, clause.last):
            if self.scene.denied(mention.first, clause.first, 3) or any(m.id == mention.id for m in found):
                continue
            if self._done_by_horse(mention):
                continue
            found.append(mention)
        if not found:
            found = self._weak(clause) or self._tool_alone(clause)
        ids = {mention.id for mention in found}
        return [mention for mention in found if not (YIELDS_TO.get(mention.id, set()) & ids)]

    def _weak(self, clause: Clause) -> list[Mention]:
        """An everyday verb that is a technique because a structure stands beside it."""
        targets, _ = self.scene.targets(clause.first, clause.last)
        if not targets and not self._awaited(clause) and not self._counted_at_once(clause):
            return []
        found = [
            mention
            for mention in self.scene.mentions.within("weak", clause.first, clause.last)
            if not self.scene.denied(mention.first, clause.first, 3)
            and not self._done_by_horse(mention)
            and not self.scene.mentions.within("aspect", clause.first, mention.first)
            and not self.scene.mentions.within("sign", clause.first, mention.last)
        ]
        return found[:1]

    def _done_by_horse(self, mention: Mention) -> bool:
        """Whether "it glides", "she rocks" tells what the horse or its skin does."""
        if mention.id == "baited-stretch":
            return False
        before = self.scene.tokens[mention.first - 1].text if mention.first else ""
        earlier = self.scene.tokens[mention.first - 2].text if mention.first > 1 else ""
        if before in {"'s", "is"} and earlier in {"it", "he", "she"}:
            return self.scene.tokens[mention.first].text.endswith("ing")
        return before in {"it", "he", "she", "skin", "hide"} and self.scene.tokens[mention.first].text.endswith("s")

    def _counted_at_once(self, clause: Clause) -> bool:
        """Whether a few words ("and I press") are followed at once by a count, with a bout under the hands."""
        when = self.scene.start(clause.first)
        counted = any(when <= count.start <= when + ANNOUNCE_S for count in self.scene.counts)
        here = self.current is not None and not self._unmirrored()
        return counted and here and len(clause_words(self.scene, clause)) <= BARE_WORDS

    def _tool_alone(self, clause: Clause) -> list[Mention]:
        """A part of the hand named alone after a muscle or a find: "Elbow.", "so that's my thumb on it"."""
        scene = self.scene
        when = scene.start(clause.first)
        counted = any(when <= count.start <= when + ANNOUNCE_S for count in scene.counts)
        named = bool(scene.targets(clause.first, clause.last)[0])
        wielded = named and bool({"with", "using"} & set(scene.words(clause)))
        if (self._unmirrored() and not (named and counted)) or (named and not (counted or wielded)):
            return []
        short = len(clause_words(scene, clause)) <= TOOL_WORDS
        recent = self.found is not None and scene.start(clause.first) - self.found.when <= FOUND_S
        if not (named or (self._awaited(clause) is not None and short) or (recent and "on" in scene.words(clause))):
            return []
        return [
            Mention("technique", scene.lexicon.tool_means[tool.id], tool.first, tool.last)
            for tool in scene.mentions.within("tool", clause.first, clause.last)
            if tool.id in scene.lexicon.tool_means
        ][:1]

    def _onsets(
        self,
        clause: Clause,
        techniques: Sequence[Mention],
        targets: list[str],
        target_first: int | None,
        said: str | None,
        side_first: int | None,
    ) -> None:
        for number, technique in enumerate(techniques):
            own = targets
            first = self._announced(clause, technique, target_first, side_first)
            if len(techniques) > 1:
                low = clause.first if number == 0 else techniques[number - 1].last
                high = techniques[number + 1].first if number + 1 < len(techniques) else clause.last
                own, own_first = self.scene.targets(low, high)
                first = technique.first if number else self._announced(clause, technique, own_first, side_first)
                if number and not own and self.drafts:
                    own = list(self.drafts[-1].structures)
            self._onset(clause, technique.id, own, first, said, technique)

    def _announced(self, clause: Clause, technique: Mention, target: int | None, side: int | None) -> int:
        """The token at which a bout is announced: the clause's first, or the first after what was observed in it."""
        scene = self.scene
        names = [place for place in (technique.first, target, side) if place is not None]
        first = min(names)
        observed = [
            m.last
            for kind in ("aspect", "sign")
            for m in scene.mentions.within(kind, clause.first, technique.first)
            if m.last <= first
        ]
        return min(max(observed), first) if observed else clause.first

    def _onset(
        self, clause: Clause, technique: str, targets: list[str], first: int, said: str | None, mention: Mention | None
    ) -> None:
        scene, current = self.scene, self.current
        targets = self._stretched(technique, targets, scene.start(first))
        swung = technique in SWUNG and scene.lexicon.lists["clause-swung"] & set(scene.words(clause))
        if not targets and (technique in LIMB_MOVED or swung):
            targets = self._limb(clause)
        if technique in scene.lexicon.sites:
            targets = [scene.lexicon.sites[technique]]
        elif targets == [scene.lexicon.sites["tail-traction"]] and technique in PULLED:
            technique = "tail-traction"
        if technique == "passive-stretch":
            targets = [s for s in targets if s != "back"]
        if not targets and self._only_named(current, clause):
            targets = self._withdraw(current)
            current = self.current
        words = scene.words(clause)
        single = singled_out(words) or scene.start(clause.first) - self.singled_at <= SINGLED_S
        if not targets and self.narrow is not None and self.pending is None and single:
            targets = [self.narrow]
        if not targets and self._spoken_of_now(clause):
            assert self.beside is not None
            targets = list(self.beside.structures)
        if current is not None and self._upgrades(current, technique, targets, clause):
            current.technique = technique
            self._deepen(current, clause)
            return
        if current is not None and self._continues(current, technique, targets, said, clause):
            self._extend(current, clause, targets)
            return
        draft = self._draft(clause, technique, targets, first, said, mention)
        if draft is None:
            if mention is not None:
                self.waiting = Waiting(mention, clause, first, scene.start(first))
            return
        self.waiting = None
        self.narrow = None
        when = draft.start
        self.close(when)
        draft.number = len(self.drafts)
        self.drafts.append(draft)
        self.pending = self.beside = None
        scene.recent.extend(draft.structures)

    def _draft(
        self, clause: Clause, technique: str, targets: list[str], first: int, said: str | None, mention: Mention | None
    ) -> Draft | None:
        scene = self.scene
        model: Draft | None = None
        doubts: list[str] = []
        named = bool(targets)
        pending = self.pending
        if not targets and pending is not None and scene.start(first) - pending.start <= self._patience(pending):
            targets, first, named = pending.structures, pending.first, True
            if targets == [scene.lexicon.sites["tail-traction"]] and technique in PULLED:
                technique = "tail-traction"
        if not targets and technique in scene.lexicon.sites:
            targets, named = [scene.lexicon.sites[technique]], True
        on_it = mention is not None and self._on_it(mention, clause)
        found = self.found
        pointed = (
            (self._points_at(clause) or scene.start(first) - self.pointed_at <= AT_ONCE_S)
            and found is not None
            and scene.start(first) - found.when <= POINTED_S
        )
        recent = on_it and found is not None and scene.start(first) - found.when <= FOUND_S
        if not targets and (recent or pointed) and found is not None:
            targets, named, said = self._over(technique, found.structures), True, said or found.side
        if not targets and on_it and self.narrow is None and self.current is not None:
            targets, named = self._over(technique, self.current.structures), True
        beside = self.beside
        close = beside is not None and scene.start(first) - beside.start <= BESIDE_S
        if not targets and beside is not None and close and self._model(technique, [], said) is None:
            targets = list(beside.structures)
        if not targets and self.narrow is not None:
            targets, named = [self.narrow], True
        technique, model = self._model_or_sibling(clause, technique, targets, said)
        if model is not None and (not targets or self._stands_for(targets, model)):
            doubts += [] if targets else ["structures"]
            targets = list(model.structures)
        if not targets and technique in SWUNG:
            targets = scene.started_from(clause.first, clause.last)
        moving_limb = technique == "passive-stretch" and (self.latest is None or self.latest.technique != technique)
        if not targets and self.latest is not None and not moving_limb:
            targets = self._over(technique, self.latest.structures)
            doubts.append("structures")
        if not targets:
            return None
        side = self._side_for(targets, said)
        repaired = scene.repaired(mention.first, mention.last) if mention else 1.0
        draft = Draft(technique, targets, side, scene.start(first), first, clause.last, named=named)
        draft.side_said, draft.repaired, draft.doubts = said is not None, repaired, doubts
        draft.tools = {m.id for m in scene.mentions.within("tool", clause.first, clause.last)}
        draft.pressure = self._pressure(clause)
        draft.passes = stated_passes(scene.tokens, clause.first, clause.last, scene.lexicon)
        if model is not None:
            self._mirror(model)
            self._inherit(draft, model, clause)
        if side is None and any(scene.paired(s) and s not in scene.lexicon.central for s in targets):
            draft.doubts.append("side")
        return draft

    # attributes that follow

    def _attach(self, clause: Clause, targets: list[str], said: str | None, observed: bool) -> None:
        scene, current = self.scene, self.current
        when = scene.start(clause.first)
        part = current is not None and set(targets) < set(current.structures)
        if observed and targets and current is not None and not current.named and not part:
            targets, observed = self._before_observed(clause, targets), False
        if current is not None and not observed and targets and self._joins(current, clause, targets):
            current.structures = [*current.structures, *targets]
            scene.recent.extend(targets)
            self._deepen(current, clause)
            return
        if current is not None and not observed and targets and self._narrows(current, clause, targets):
            self._begin_like(clause, current, targets, clause.first, said, False)
            return
        if current is not None and not observed:
            fresh = when - current.start <= ANNOUNCE_S
            if said is not None and fresh and not current.side_said and current.side != said:
                current.side = self._side_for(current.structures, said)
                current.side_said = True
            moves = bool(set(opening_words(scene, clause)) & scene.lexicon.lists["clause-moves"])
            moves = moves and (clause.fresh or when - current.start > AT_ONCE_S)
            deep = current.technique == "passive-stretch" and set(targets) <= scene.lexicon.by_limb
            near = when - current.start <= NAMED_LATER_S and (not moves or deep)
            if targets and near and current.named and self._put_right(current, clause):
                current.structures, current.start, current.first = targets, when, clause.first
                scene.recent.extend(targets)
                targets = []
            open_place = not current.named and not self._counted_since(current, clause)
            if targets and near and (open_place or self._refines(current, targets, clause.first)):
                current.structures, current.named = targets, True
                current.side = self._side_for(targets, said or self.side)
                current.doubts = [d for d in current.doubts if d != "structures"]
                scene.recent.extend(targets)
                targets = []
        if current is not None:
            self._deepen(current, clause)
            put_right = scene.has("correction", clause) and not targets
            if (current.passes is None or put_right) and when - current.start <= ANNOUNCE_S and not observed:
                told = stated_passes(scene.tokens, clause.first, clause.last, scene.lexicon)
                current.passes = told if told is not None else current.passes
        if targets and self.waiting is not None and when - self.waiting.start <= ANNOUNCE_S and not observed:
            waiting, self.waiting = self.waiting, None
            self._onset(waiting.clause, waiting.technique.id, targets, waiting.first, said, waiting.technique)
            return
        spent = observed and not targets and not self.drafts
        if spent and self.pending is not None and when - self.pending.start < SPENT_S:
            self.pending = None
        if targets and not observed:
            if not self._only_places(targets, clause):
                self.pending = Pending(targets, clause.first, when)
            scene.recent.extend(targets)
        elif targets:
            onward = self._named_next(clause)
            if onward:
                self.pending = Pending(onward, clause.first, when)
            else:
                self.beside = Pending(targets, clause.first, when)
            scene.recent.extend(targets)
