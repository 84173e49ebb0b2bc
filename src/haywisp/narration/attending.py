"""What is still the same bout: continued, deepened, narrowed down, or waiting for its technique."""

from collections.abc import Sequence

from haywisp.narration.clauses import Clause
from haywisp.narration.counting import stated_passes
from haywisp.narration.drafts import LEVELS, Draft, Pending
from haywisp.narration.mirroring import Mirroring
from haywisp.narration.scene import Scene

PENDING_S = 25.0
PENDING_PLACE_S = 15.0
UPGRADE_S = 25.0
COUNT_WITHIN_S = 12.0
LEG_REACH = 10
HANDLED_S = 10.0
BREATH_S = 2.5
NEXT_WITHIN = 6
OPENS_WITHIN = 2
OTHER_WORDS = 5
NAMED_ALONE = 4
RELATIVES = frozenset({"which", "that", "where"})
WAITING_WITH = frozenset({"i", "'m", "and", "just", "we", "now", "'ll", "then", "so", "here"})
BREATH_WORDS = 10
DESCRIBED_WITHIN = 8


class Attending(Mirroring):
    """Questions asked of the bout under the hands."""

    def _upgrades(self, current: Draft, technique: str, targets: Sequence[str], clause: Clause) -> bool:
        """Hands laid on that then wait for the tissue: one bout, and it is the hold."""
        near = self.scene.start(clause.first) - current.start < UPGRADE_S
        same = not targets or set(targets) <= set(current.structures)
        return near and same and current.technique == "hands-resting" and technique == "myofascial-hold"

    def _waits(self, current: Draft, clause: Clause) -> bool:
        """Whether hands laid on now wait in so many words ("wait", "I'm waiting", "and I wait")."""
        told = self.scene.words(clause)
        words = [w for w in told if w not in WAITING_WITH]
        near = self.scene.start(clause.first) - current.start < UPGRADE_S
        return (
            near
            and current.technique == "hands-resting"
            and (words == ["waiting"] or (words == ["wait"] and len(told) > 1))
        )

    def _continues(
        self, current: Draft, technique: str, targets: Sequence[str], said: str | None, clause: Clause
    ) -> bool:
        if len(self.drafts) == self.switched_after:
            return False
        sibling = technique in self.scene.lexicon.siblings.get(current.technique, ()) and not targets
        if current.technique != technique and not (sibling and self.pending is None):
            return False
        if said is not None and said != current.side and any(self.scene.paired(s) for s in current.structures):
            return False
        if not targets:
            return self.pending is None
        new = set(targets)
        if technique == "passive-stretch" and new <= self.scene.around(current.structures):
            return self.scene.start(clause.first) - current.start <= HANDLED_S
        return new == set(current.structures) or not current.named or self._refines(current, targets, clause.first)

    def _extend(self, current: Draft, clause: Clause, targets: list[str]) -> None:
        if targets and (not current.named or self._refines(current, targets, clause.first)):
            current.structures = targets
            current.named = True
        current.last = clause.last
        self._deepen(current, clause)
        if current.passes is None:
            current.passes = stated_passes(self.scene.tokens, clause.first, clause.last, self.scene.lexicon)

    def _over(self, technique: str, structures: Sequence[str]) -> list[str]:
        """Where a technique goes that takes over a place: skin rolled over a muscle is of the region above it."""
        regions = self.scene.lexicon.skin_over.get(technique, {})
        return list(dict.fromkeys(regions.get(s, s) for s in structures))

    def _patience(self, pending: Pending) -> float:
        """How long a structure waits for its technique: a region less long than a muscle."""
        only_places = all(self.scene.region(s) == s for s in pending.structures)
        return PENDING_PLACE_S if only_places else PENDING_S

    def _refines(self, current: Draft, targets: Sequence[str], place: int) -> bool:
        """Whether structures named in the same breath are the muscles of the region that was named first."""
        return (
            self._in_one_breath(current, place)
            and not set(targets) & set(current.structures)
            and set(current.structures) <= self.scene.around(targets)
        )

    def _points_at(self, clause: Clause) -> bool:
        """Whether a clause points at what was found ("on that band", "over the knot")."""
        words = self.scene.words(clause)
        pointed = self.scene.lexicon.lists["clause-pointed"]
        return any(
            word in {"that", "the", "this", "them", "those", "these"} and following in pointed
            for word, following in zip(words, words[1:], strict=False)
        )

    def _joins(self, current: Draft, clause: Clause, targets: Sequence[str]) -> bool:
        """Whether the hands go on over the next muscle in one breath ("… the splenius and down to the serratus")."""
        words = self.scene.words(clause)
        led = words[0] == "and" and (words[1:2] and words[1] in self.scene.lexicon.lists["clause-onward"])
        near = self._in_one_breath(current, clause.first) and not set(targets) & set(current.structures)
        return bool(led and near and current.named)

    def _limb(self, clause: Clause) -> list[str]:
        """The limb that "the leg" is: of the end of the horse where the hands were last."""
        said = [token.text for token in self.scene.tokens[max(0, clause.first - LEG_REACH) : clause.last]]
        if not {"leg", "foot", "knee", "limb"} & set(said) or self.latest is None:
            return []
        parts = self.scene.lexicon.limb_of
        told = [parts[word] for word in reversed(said) if word in parts]
        if told:
            return told[:1]
        return [parts[group] for group in [self.scene.group(self.latest.structures[0])] if group in parts]

    def _stretched(self, technique: str, targets: list[str], when: float) -> list[str]:
        """The muscle that a limb is taken up for, where it was named just before; the limb is only the handle."""
        pending = self.pending
        if technique != "passive-stretch" or len(targets) != 1 or pending is None or when - pending.start > PENDING_S:
            return targets
        deep = self.scene.lexicon.by_limb
        limbs = set(self.scene.lexicon.limb_of.values())
        if set(pending.structures) <= limbs and not set(targets) & (deep | limbs):
            return list(pending.structures)
        held = all(s in deep and targets[0] in self.scene.around([s]) for s in pending.structures)
        return list(pending.structures) if held else targets

    def _narrows(self, current: Draft, clause: Clause, targets: Sequence[str]) -> bool:
        """Whether the hands go on with one of several muscles ("so the biceps alone now")."""
        words = self.scene.words(clause)
        single = singled_out(words) or bool({"alone", "only", "just"} & set(words))
        return single and set(targets) < set(current.structures)

    def _in_one_breath(self, current: Draft, place: int) -> bool:
        """Whether the talk has gone on from the onset of a bout to a token without work in silence between."""
        scene = self.scene
        onset = min(current.last, place)
        if place - onset > BREATH_WORDS:
            return False
        silent = max((token.pause for token in scene.tokens[max(onset - 1, 0) : place]), default=0.0)
        return silent < BREATH_S and not any(onset <= count.first < place for count in scene.counts)

    def _only_places(self, targets: Sequence[str], clause: Clause) -> bool:
        """Whether regions named in the same breath only say where the muscle lies that waits for its technique."""
        if self.pending is None or clause.fresh:
            return False
        return all(self.scene.region(s) == s for s in targets) and any(
            self.scene.region(s) != s for s in self.pending.structures
        )

    def _pressure(self, clause: Clause) -> str | None:
        heard = [
            m.id
            for m in self.scene.mentions.within("pressure", clause.first, clause.last)
            if m.id in LEVELS and not self.scene.denied(m.first, clause.first, 2)
        ]
        return max(heard, key=lambda level: LEVELS[level], default=None)

    def _deepen(self, draft: Draft, clause: Clause) -> None:
        heard = self._pressure(clause)
        if heard is not None and LEVELS[heard] > LEVELS.get(draft.pressure or "", 0):
            draft.pressure = heard

    def _awaited(self, clause: Clause) -> Pending | None:
        """Structures named just before that still wait for a technique."""
        pending = self.pending
        if pending is None or self.scene.start(clause.first) - pending.start > self._patience(pending):
            return None
        return pending

    def _describes(self, clause: Clause, targets: Sequence[str]) -> bool:
        """Whether a clause tells what the muscle just named is ("that's the inside one of the hammies")."""
        pending, words = self._awaited(clause), self.scene.words(clause)
        fresh = pending is not None and clause.first - pending.first <= DESCRIBED_WITHIN
        muscle = pending is not None and set(targets) <= self.scene.around(pending.structures)
        told = words[:1] and words[0] in {"that", "it", "this", "which"} and words[1:2] and words[1] in {"'s", "is"}
        return bool(fresh and muscle and told and words[2:3] and words[2] in {"the", "his", "her", "a"})

    def _put_right(self, current: Draft, clause: Clause) -> bool:
        """Whether the muscle under the hand is corrected ("no, I am on the … , it is the …")."""
        scene = self.scene
        corrected = scene.mentions.within("correction", current.first, clause.last)
        words = scene.words(clause)[:4]
        return bool(corrected) and bool({"it", "that", "this"} & set(words)) and bool({"'s", "is"} & set(words))

    def _before_observed(self, clause: Clause, targets: list[str]) -> list[str]:
        """Structures named in a clause before anything is observed in it."""
        mentions = self.scene.mentions
        seen = [m.first for kind in ("aspect", "sign") for m in mentions.within(kind, clause.first, clause.last)]
        return self.scene.targets(clause.first, min(seen))[0] if seen else targets

    def _named_next(self, clause: Clause) -> list[str]:
        """Muscles named after what was observed in a clause, and not as where it was ("no heat, and the calf")."""
        scene = self.scene
        seen = [m for kind in ("aspect", "sign") for m in scene.mentions.within(kind, clause.first, clause.last)]
        last = max(seen, key=lambda mention: mention.last)
        limbs = set(scene.lexicon.limb_of.values())
        named = [(m, s) for m, s in scene.structures(last.last, clause.last) if scene.region(s) != s or s in limbs]
        if not named or named[0][0].first - last.last > NEXT_WITHIN:
            return []
        between = [token.text for token in scene.tokens[last.last : named[0][0].first]]
        taken = any(scene.mentions.within(kind, last.last, named[0][0].first) for kind in ("rough", "weak"))
        parted = taken or scene.tokens[last.last - 1].mark != "" or bool({"and", "then", "now"} & set(between))
        placed = set(between) & (scene.lexicon.lists["leads-in"] | scene.lexicon.lists["found-places"])
        joined = not between and not parted
        return [] if (placed and not parted) or joined else list(dict.fromkeys(s for _, s in named))

    def _spoken_of_now(self, clause: Clause) -> bool:
        """Whether a muscle was named with what is found in it, in the breath that now goes on to work it."""
        scene, beside, current = self.scene, self.beside, self.current
        if beside is None or clause.first - beside.first > BREATH_WORDS * 2 or clause.fresh:
            return False
        if self._unmirrored() or (current is not None and current.first >= beside.first):
            return False
        silent = max((token.pause for token in scene.tokens[beside.first : clause.first]), default=0.0)
        return silent < BREATH_S and all(scene.region(s) != s for s in beside.structures)

    def _observed_before(self, clause: Clause, place: int) -> bool:
        """Whether anything is observed in a clause before a token."""
        mentions = self.scene.mentions
        return any(mentions.within(kind, clause.first, place) for kind in ("aspect", "sign"))

    def _counted_stretch(self, clause: Clause, bare: bool) -> bool:
        """Whether a side alone, with a count after it, goes on with the stretches ("right side … one … two")."""
        latest, when = self.latest, self.scene.start(clause.first)
        if not bare or latest is None or latest.technique not in {"baited-stretch", "passive-stretch"}:
            return False
        return any(
            when <= count.start <= when + COUNT_WITHIN_S
            and not any(self.scene.mentions.within(k, clause.last, count.first) for k in ("technique", "weak", "rough"))
            for count in self.scene.counts
        )

    def _other_of_two(self, clause: Clause) -> bool:
        """ "So only the other": of two muscles under the hands the one not spoken of last, and no other side."""
        scene, current = self.scene, self.current
        words = scene.words(clause)
        if current is None or len(current.structures) != 2 or "other" not in words or "side" in words:
            return False
        if len(words) > OTHER_WORDS or scene.has("technique", clause) or scene.has("structure", clause):
            return False
        named = [s for _, s in scene.structures(current.last, clause.first) if s in current.structures]
        if not named:
            return False
        self.narrow = next(s for s in current.structures if s != named[-1])
        return True

    def _counted_since(self, current: Draft, clause: Clause) -> bool:
        """Whether a count was said since a bout began, before a clause that begins anew."""
        return clause.fresh and any(current.first <= count.first < clause.first for count in self.scene.counts)

    def _counted(self, draft: Draft) -> bool:
        """Whether a count was said aloud during a bout."""
        end = draft.end if draft.end is not None else draft.start
        return any(draft.start <= count.start <= end for count in self.scene.counts)

    def _told_of_once(self, clause: Clause) -> None:
        """A muscle of which is told how it was or is waits for its technique ("her hamstrings, which were sore, …")."""
        scene = self.scene
        for mention, structure in scene.structures(clause.first, clause.last):
            after = scene.tokens[mention.last].text if mention.last < clause.last else ""
            if after in RELATIVES:
                self.pending = Pending([structure], clause.first, scene.start(clause.first))
                return

    def _taught(self, clause: Clause) -> None:
        """A muscle that a lesson begins with waits for the technique that follows the lesson."""
        cues = [m.first for m in self.scene.mentions.within("mode", clause.first, clause.last) if m.id == "lesson"]
        named = [s for _, s in self.scene.structures(clause.first, cues[0] if cues else clause.first)]
        muscles = [s for s in named if self.scene.region(s) != s]
        words = self.scene.words(clause)
        bare = not cues and len(words) <= NAMED_ALONE
        told_of = "there" in words or words[0] in RELATIVES or bare
        if not named and self._awaited(clause) is None and told_of:
            told = self.scene.structures(cues[0] if cues else clause.first, clause.last)
            muscles = [s for _, s in told if self.scene.region(s) != s]
        if muscles:
            self.pending = Pending(muscles[:1], clause.first, self.scene.start(clause.first))


def singled_out(words: Sequence[str]) -> bool:
    """Whether one of several muscles is meant: "just that bit", "only the thin one"."""
    return any(
        word in {"just", "only"} and following in {"that", "this", "the", "his", "her"}
        for word, following in zip(words, words[1:], strict=False)
    )


def opening_side(scene: Scene, clause: Clause) -> str | None:
    """The side that a clause begins with ("left side, the iliopsoas, which …")."""
    sides = scene.mentions.within("side", clause.first, clause.first + OPENS_WITHIN)
    told = scene.words(clause)[: OPENS_WITHIN + 1]
    return sides[0].id if sides and "side" in told else None


def opening_words(scene: Scene, clause: Clause) -> list[str]:
    """The first word of a clause, and what follows fillers that it begins with."""
    words = scene.words(clause)
    place = 0
    while place < len(words) - 1 and words[place] in scene.lexicon.lists["clause-hums"]:
        place += 1
    return words[: place + 1]
