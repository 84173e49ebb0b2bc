"""Findings and the horse's answers, tied to the structure and side that they are about."""

from dataclasses import replace

from haywisp.narration import answering
from haywisp.narration.asserting import asserted, denied, had_once, known_thing, questioned, waited_for
from haywisp.narration.clauses import DONE, Clause
from haywisp.narration.comparing import larger_side
from haywisp.narration.drafts import Draft, Found
from haywisp.narration.mentions import Mention
from haywisp.narration.noting import RESTATED_S, TERSE, Noted, Noting
from haywisp.narration.subjects import LATERAL, PLACED
from haywisp.narration.types import Finding, Response
from haywisp.narration.unmeant import wished

CORRECTED_S = 7.0
EXACT_S = 8.0
REPEAT_S = 20.0
EXPLAINED_S = 12.0
RELEASE_S = 120.0
UNSURE = 0.6
NAMED, FOCUSED, UNDER_HAND = 0.72, 0.7, 0.78
SELDOM_RIGHT = frozenset({("warmth", "warm"), ("warmth", "cool"), ("skin", "rub"), ("texture", "fibrous")})
SELDOM = 0.6
DOUBTFUL_S = 25.0
BARE_SIDE = 3
# Of this, one place may have more than one: a lump and a rub.
SEVERAL = frozenset({"skin"})
PLACED_WITHIN = 5
PLACES = frozenset({"in", "on", "under", "over", "where", "up", "down"})


class Observer(Noting):
    """Collects findings and responses clause by clause."""

    def hear(self, clause: Clause, until: int) -> None:
        """Take tokens of a clause before ``until`` that were not heard yet (the rest follows once a bout has begun)."""
        if clause.mode == "declined":
            self.subjects.name(clause, clause.first)
        if clause.mode in (DONE, "declined"):
            self._explain(clause, until)
            self._observe(clause, clause.first, until)
        for mention in self.scene.mentions.within("sign", clause.first, until):
            self._response(mention, clause)

    def hear_rest(self, clause: Clause, after: int) -> None:
        """Take tokens of a clause from ``after`` on."""
        self._take_back(clause)
        if clause.mode in (DONE, "declined"):
            self._correct_side(clause)
            self._relocate(clause)
            self.subjects.other_of_two(clause)
            noted = self._observe(clause, after, clause.last)
            self.subjects.name(clause, max(noted, clause.first))
        for mention in self.scene.mentions.within("sign", after, clause.last):
            self._response(mention, clause)
        few = answering.terse(self.scene, clause)
        if few is not None:
            self._response(few, clause)
        if clause.mode in (DONE, "declined"):
            self._explain(clause, clause.last)

    def _observe(self, clause: Clause, first: int, last: int) -> int:
        """Findings of a stretch of a clause in order; gives the token after the last of them."""
        noted = first
        for mention in self.scene.mentions.within("compared", first, last):
            self._compare(mention, clause)
        for mention in self.scene.mentions.within("aspect", first, last):
            before = len(self.findings)
            self._finding(mention, clause)
            noted = mention.last if len(self.findings) > before else noted
        return noted

    def _relocate(self, clause: Clause) -> None:
        """A place told just after what was seen there ("there's a lump. Just behind his elbow")."""
        scene = self.scene
        if not self.findings or scene.has("technique", clause) or scene.has("aspect", clause):
            return
        last, words = self.findings[-1], scene.words(clause)
        found = last.what
        near = [s for _, s in scene.structures(clause.first, min(clause.last, clause.first + PLACED_WITHIN))]
        led = words[0] in scene.lexicon.lists["found-places"] or words[:1] == ["just"] or words[0] in PLACES
        fresh = scene.start(clause.first) - found.time <= RESTATED_S and not last.named
        if not isinstance(found, Finding) or found.aspect not in PLACED or len(near) != 1 or not led or not fresh:
            return
        side, _ = self.hands.side_said(clause)
        side = side if scene.paired(near[0]) else None
        last.what = replace(found, structure=near[0], side=side)

    # findings

    def _quoted(self, mention: Mention) -> bool:
        return any(first <= mention.first < last for first, last in self.quotations)

    def _compare(self, mention: Mention, clause: Clause) -> None:
        """Which side a comparison of sizes tells to be the larger."""
        past = had_once(self.scene, mention, clause) or self._was(mention, clause)
        unreal = (
            wished(self.scene, mention) or waited_for(self.scene, mention, clause) or questioned(self.scene, clause)
        )
        if past or unreal or self._quoted(mention) or self.after or self.scene.tokens[clause.last - 1].asks:
            return
        side = larger_side(self.scene, clause, mention, self.hands.side)
        if side is None:
            return
        near = [s for _, s in self.scene.structures(clause.first, clause.last)]
        structures = self.scene.narrowed(near)[-1:] or self.subjects.lately(self.scene.start(mention.first))
        for structure in structures[:1]:
            self._note(mention, structure, None, "symmetry", f"larger-{side}", bool(near))
        if near:
            self.subjects.set(structures, self.hands.side, self.scene.start(mention.first))

    def _was(self, mention: Mention, clause: Clause) -> bool:
        led = self.scene.tokens[max(clause.first, mention.first - 3) : mention.first]
        return any(token.text in {"was", "were"} for token in led)

    def _finding(self, mention: Mention, clause: Clause) -> None:
        scene = self.scene
        said = scene.lexicon.said[mention.id]
        if clause.mode == "declined" and said.strength == 0:
            return
        if self._quoted(mention):
            return
        if self.after and known_thing(scene, mention):
            return
        if not asserted(scene, mention, clause):
            self._spoken_of(mention, clause)
            return
        value = said.denied if denied(scene, mention, clause) else said.value
        if not value:
            return
        when = scene.start(mention.first)
        if said.aspect == self.explained_aspect and when - self.explained_at < EXPLAINED_S / 2:
            return
        if scene.tokens[clause.last - 1].asks and not scene.has("structure", clause):
            return
        structures, named = self.subjects.of(mention, clause)
        if self.after and not named:
            return
        if said.aspect == "warmth" and not named and self._of_pack(clause):
            return
        if said.strength == 0 and structures and self._moved_well(mention, clause, named):
            said = replace(said, aspect="mobility", strength=1)
            value = "free"
        if not structures or (said.strength == 0 and not self._plain_enough(mention, clause, named)):
            return
        current = self.hands.current
        rolled = current is not None and current.technique == "skin-rolling"
        if rolled and (said.aspect, value) == ("tone", "normal") and "loose" in self._texts(mention):
            said = replace(said, aspect="mobility")
            value = "free"
        if said.strength == 0 and (said.aspect, value) == ("tone", "normal") and named and structures == ["topline"]:
            said = replace(said, aspect="development")
            value = "even"
        if said.aspect == "symmetry":
            sided = self._symmetry(mention, value)
            compared = scene.has("compared", clause) or scene.mentions.within("compared", mention.first, mention.last)
            if sided is None or compared:
                return
            value = sided
        if not scene.has("finishing", clause) and not named and len(structures) > 1 and said.aspect != "symmetry":
            structures = [self.subjects.one_of(structures, mention)]
        for structure in structures:
            side = None if said.aspect == "symmetry" else self.subjects.side(mention, clause, [structure], named)
            self._note(mention, structure, side, said.aspect, value, named)
        if named:
            self._point_at(mention, clause, structures, value != scene.lexicon.tables.aspects[said.aspect].usual)

    def _spoken_of(self, mention: Mention, clause: Clause) -> None:
        """What is spoken of without finding it there tells what comes next is about ("the rub behind the ear …")."""
        structures, named = self.subjects.of(mention, clause)
        if named:
            side = self.subjects.side(mention, clause, structures, True)
            self.subjects.set(structures, side, self.scene.start(mention.first))

    def _point_at(self, mention: Mention, clause: Clause, structures: list[str], unusual: bool) -> None:
        """What was named with a finding is spoken of from now on, and worked on if it is out of the usual."""
        current = self.hands.current
        side = self.subjects.side(mention, clause, structures, True)
        several = current is not None and len(current.structures) > 1
        if unusual and several and current is not None and set(structures) < set(current.structures):
            self.hands.narrow = structures[-1]
        if unusual:
            self.hands.found = Found(tuple(structures), side, self.scene.start(mention.first))
        self.subjects.set(structures, side, self.scene.start(mention.first))

    def _texts(self, mention: Mention) -> set[str]:
        return {token.text for token in self.scene.tokens[mention.first : mention.last]}

    def _symmetry(self, mention: Mention, value: str) -> str | None:
        said = [token.text for token in self.scene.tokens[mention.first : mention.last]]
        if value != "larger-here":
            return None if "than" in said else value
        side = self.hands.side
        return f"larger-{side}" if side in LATERAL else None

    def _sureness(self, named: bool, aspect: str, value: str) -> float:
        """How often such findings were right over the scored cases, by what tells where they are."""
        focused = self.subjects.focused()
        base = NAMED if named else (FOCUSED if focused else UNDER_HAND)
        return base * (1.0 if (aspect, value) not in SELDOM_RIGHT else SELDOM)

    def _correct_side(self, clause: Clause) -> None:
        """A side put right just after a finding ("on the near fore, sorry, the off fore")."""
        scene = self.scene
        busy = scene.has("aspect", clause) or scene.has("technique", clause)
        if busy or not self.findings:
            return
        if not scene.has("correction", clause):
            self._side_after(clause)
            return
        said, _ = self.hands.side_said(clause)
        last = self.findings[-1].what
        named = [s for _, s in scene.structures(clause.first, clause.last)]
        if said is None or not isinstance(last, Finding) or scene.start(clause.first) - last.time > CORRECTED_S:
            return
        if last.side is not None and (not named or last.structure in named):
            self.findings[-1].what = replace(last, side=said)

    def _side_after(self, clause: Clause) -> None:
        """A side told alone, just after a finding that had none ("… gone to nothing. Near side.")."""
        scene, last = self.scene, self.findings[-1].what
        if not isinstance(last, Finding) or last.side is not None or not scene.paired(last.structure):
            return
        bare = clause.last - clause.first <= BARE_SIDE and scene.start(clause.first) - last.time <= RESTATED_S
        said, _ = self.hands.side_said(clause)
        if bare and said in LATERAL and last.aspect != "symmetry" and last.structure not in scene.lexicon.central:
            self.findings[-1].what = replace(last, side=said)

    def _note(self, mention: Mention, structure: str, side: str | None, aspect: str, value: str, named: bool) -> None:
        scene = self.scene
        when = scene.start(mention.first)
        key = (structure, side, aspect)
        for noted in reversed(self.findings):
            old = noted.what
            assert isinstance(old, Finding)
            again = (old.structure, old.aspect, old.value) == (structure, aspect, value) and noted.bout == self._bout()
            if again and (old.side is None or side is None) and when - old.time <= REPEAT_S:
                return
            if noted is self.findings[-1] and self._restated(noted, structure, aspect, value, named, when):
                side = side or old.side
                self.findings.remove(noted)
                break
            if (old.structure, old.side, old.aspect) != key:
                continue
            if old.value == value and noted.bout == self._bout():
                return
            usual = scene.lexicon.tables.aspects[aspect].usual
            replaced = aspect not in SEVERAL or usual in (old.value, value)
            if replaced and noted.bout == self._bout() and when - old.time <= CORRECTED_S:
                self.findings.remove(noted)
            break
        doubtful = any(name == structure and abs(when - said) <= DOUBTFUL_S for name, said in scene.doubtful)
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
        self.findings.append(Noted(finding, self._bout(), mention.first, named))

    def _restated(self, noted: Noted, structure: str, aspect: str, value: str, named: bool, when: float) -> bool:
        """Whether what was just found is told again of the muscle there ("a hollow, that's the trapezius")."""
        old = noted.what
        assert isinstance(old, Finding)
        if not named or (old.aspect, old.value) != (aspect, value) or old.structure == structure:
            return False
        wider = not noted.named or old.structure in self.scene.around([structure])
        return wider and noted.bout == self._bout() and when - old.time <= EXACT_S

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

    def _take_back(self, clause: Clause) -> None:
        """What was read before "that was in May" is no finding of today."""
        for mention in self.scene.mentions.within("quoted-before", clause.first, clause.last):
            since = self.scene.start(mention.first) - EXPLAINED_S
            self.findings = [noted for noted in self.findings if noted.what.time < since]

    def _named_since(self, noted: Noted, mention: Mention) -> bool:
        """Whether another structure was named between a finding and its explanation, which is of that one then."""
        between = self.scene.structures(noted.place, mention.first)
        found = noted.what
        return isinstance(found, Finding) and any(s != found.structure for _, s in between)

    def _under_hand(self, mention: Mention) -> bool:
        draft: Draft | None = self.hands.latest
        if draft is None:
            return any(self.scene.mentions.within(kind, 0, mention.first) for kind in ("technique", "rough"))
        return draft.end is None or self.scene.start(mention.first) - draft.end < RELEASE_S

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
            if self._named_since(latest[-1], mention):
                continue
            if when - latest[-1].what.time <= EXPLAINED_S:
                gone = latest.pop().what
                self.explained_aspect = gone.aspect if isinstance(gone, Finding) else ""
