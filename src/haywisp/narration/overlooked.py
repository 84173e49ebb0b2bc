"""What was heard and left out: entries that the words may have meant, each with its features, for asking about."""

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from haywisp.narration.asserting import denied
from haywisp.narration.clauses import DONE, Clause
from haywisp.narration.drafts import OPPOSITE, Draft
from haywisp.narration.evidence import AGAIN_S, BEFORE_S, CLOSE_S, WORKS_S, Evidence, around
from haywisp.narration.hearing import Hearing
from haywisp.narration.mentions import Mention
from haywisp.narration.noting import Noted
from haywisp.narration.types import Action, Bout, Finding, Response, Span

SILENCE_S = 4.0
OFFERED_S = 30.0
SAME_SIGN_S = 10.0
COUNT_SOON_S = 9.0
NAMED_BEFORE_S = 20.0
# Talk that is clearly of another horse, or while the hands were off, is asked about nowhere.
CLEAR = frozenset({"other", "away"})
Offer = Bout | Finding | Response | Action


@dataclass(frozen=True, slots=True)
class Candidate:
    """An entry that was not made: its sort (the name of its model), its part, what a yes adds, and its features."""

    sort: str
    part: str
    offer: Offer
    evidence: Evidence

    @property
    def time(self) -> float:
        """When it was said."""
        return self.offer.start if isinstance(self.offer, Bout) else self.offer.time

    @property
    def span(self) -> Span:
        """The words that may have meant it."""
        return self.offer.span


def candidates(
    hearing: Hearing, findings: Sequence[Noted], responses: Sequence[Noted], actions: Sequence[Action]
) -> list[Candidate]:
    """Everything that was left out and can be offered, in order of sort."""
    return [
        *_techniques(hearing),
        *_silences(hearing),
        *_other_sides(hearing),
        *_repeats(hearing),
        *_found(hearing, findings),
        *_shown(hearing, responses),
        *_decided(hearing, actions),
    ]


# bouts


def _techniques(hearing: Hearing) -> Iterator[Candidate]:
    """Techniques named where no bout of them began."""
    scene = hearing.scene
    for kind in ("technique", "weak", "rough"):
        for mention in scene.mentions.all(kind):
            clause = hearing.clause_at(mention.first)
            if clause.mode in CLEAR or _begun(hearing, mention, clause):
                continue
            structures, how = _places(hearing, clause, mention.first)
            if not structures:
                continue
            found = around(hearing, mention.first, mention.last) | how | _work(hearing, clause)
            draft = hearing.draft_at(scene.start(mention.first))
            under = draft is not None and draft.technique == mention.id
            found |= {
                f"by {kind}": 1.0,
                f"is {mention.id}": 1.0,
                "denied": float(scene.denied(mention.first, clause.first, 3)),
                "one word": float(mention.length == 1),
                "technique under the hands": float(under),
                "all under the hands": float(under and draft is not None and set(structures) <= set(draft.structures)),
            }
            yield Candidate("bout left out", "bout", _bout(hearing, clause, mention.id, structures), _kept(found))


def _begun(hearing: Hearing, mention: Mention, clause: Clause) -> bool:
    """Whether a bout began at a mention, or in its clause with the same technique."""
    low = hearing.drafts_until(hearing.scene.start(clause.first))
    for draft in hearing.drafts[max(0, low - 3) : low + 4]:
        if draft.first <= mention.first < draft.last:
            return True
        if clause.first <= draft.first < clause.last and draft.technique == mention.id:
            return True
    return False


def _silences(hearing: Hearing) -> Iterator[Candidate]:
    """A structure named before a silence or a count, where no bout of it was begun."""
    scene = hearing.scene
    begun = {hearing.number_at(draft.first) for draft in hearing.drafts}
    for number, clause in enumerate(scene.clauses):
        if clause.mode in CLEAR or number in begun:
            continue
        work = _work(hearing, clause)
        if not work or scene.mentions.within("technique", clause.first, clause.last):
            continue
        targets, _ = scene.targets(clause.first, clause.last)
        draft = hearing.draft_at(scene.start(clause.first))
        if not targets or draft is None or set(targets) <= set(draft.structures):
            continue
        found = around(hearing, clause.first, clause.last) | work
        found |= {
            f"is {draft.technique}": 1.0,
            "only regions": float(all(scene.region(s) == s for s in targets)),
            "side said": float(bool(scene.mentions.within("side", clause.first, clause.last))),
            "hands off": float(draft.end is not None and draft.end < scene.start(clause.first)),
            "near the hands": float(bool(scene.around(targets) & scene.around(draft.structures))),
        }
        yield Candidate(
            "place worked in silence", "bout", _bout(hearing, clause, draft.technique, targets), _kept(found)
        )


def _other_sides(hearing: Hearing) -> Iterator[Candidate]:
    """Bouts of the first side that were not repeated on the second, though their neighbours were."""
    scene, drafts, sides = hearing.scene, hearing.drafts, hearing.by_side
    for number, draft in enumerate(drafts):
        other = OPPOSITE.get(draft.side or "", "")
        later = sides.numbers(other, number)
        if draft.mirrored or not later or sides.repeated(draft, number):
            continue
        before, after = sides.repeats(number - 1, draft.side), sides.repeats(number + 1, draft.side)
        at = before or after or drafts[later[-1]]
        end = at.end if at.end is not None else at.start
        if at is after and before is None:
            end = at.start
        first = drafts[later[0]]
        found = {
            "neighbour before repeated": float(before is not None),
            "neighbour after repeated": float(after is not None),
            "both neighbours repeated": float(before is not None and after is not None),
            "counted": float(draft.passes is not None),
            f"is {draft.technique}": 1.0,
            "second side short": float(len(later) < 2),
            "same said": float(bool(scene.mentions.within("same", max(0, first.first - 20), first.last + 20))),
        }
        clause = hearing.clause_at(hearing.token_at(end))
        offer = replace(_bout(hearing, clause, draft.technique, draft.structures), side=other)
        offer = replace(offer, start=round(end, 2), end=round(max(end, offer.end), 2))
        yield Candidate("side not repeated", "bout", offer, _kept(found))


def _repeats(hearing: Hearing) -> Iterator[Candidate]:
    """A place named, or "same" said, on the second side, where no bout began and the first side has one to repeat."""
    scene, drafts, sides = hearing.scene, hearing.drafts, hearing.by_side
    begun = {hearing.number_at(draft.first) for draft in drafts}
    for number, clause in enumerate(scene.clauses):
        if clause.mode in CLEAR or number in begun or clause.mode == "lesson":
            continue
        same = bool(scene.mentions.within("same", clause.first, clause.last))
        targets, _ = scene.targets(clause.first, clause.last)
        if not (same or targets):
            continue
        when = scene.start(clause.first)
        now = hearing.draft_at(when)
        told = [m.id for m in scene.mentions.within("side", clause.first, clause.last)]
        stands = now.side if now is not None else None
        side = next(
            (one for one in told if one in OPPOSITE), OPPOSITE.get(stands or "", "") if "other" in told else stands
        )
        model = sides.model(targets, OPPOSITE.get(side or "", ""), when)
        if model is None or (now is not None and _alike(model, now) and now.side == side):
            continue
        found = around(hearing, clause.first, clause.last) | _work(hearing, clause)
        found |= {
            f"is {model.technique}": 1.0,
            "same said": float(same),
            "side said": float(bool(told)),
            "place named": float(bool(targets)),
            "model repeated": float(model.mirrored),
            "just after a bout": float(now is not None and now.end is not None and now.end <= when),
            "soon after onset": float(now is not None and when - now.start < 2 * CLOSE_S),
            "short": float(clause.last - clause.first <= 6),
        }
        structures = [s for s in targets if s in model.structures] or model.structures
        offer = replace(_bout(hearing, clause, model.technique, structures), side=side)
        yield Candidate("second side not begun", "bout", offer, _kept(found))


def _alike(one: Draft, two: Draft) -> bool:
    return one.technique == two.technique and bool(set(one.structures) & set(two.structures))


def _places(hearing: Hearing, clause: Clause, place: int) -> tuple[list[str], Evidence]:
    """Where a technique would have been done, and how that is told."""
    scene = hearing.scene
    targets, _ = scene.targets(clause.first, clause.last)
    if targets:
        draft = hearing.draft_at(scene.start(place))
        same = draft is not None and set(targets) <= set(draft.structures)
        return targets, {"structure here": 1.0, "structure under the hands": float(same)}
    low = hearing.token_at(scene.start(place) - NAMED_BEFORE_S)
    before = scene.structures(low, place)
    if before:
        return [before[-1][1]], {"structure before": 1.0}
    draft = hearing.draft_at(scene.start(place))
    return (list(draft.structures), {"structure inferred": 1.0}) if draft is not None else ([], {})


def _work(hearing: Hearing, clause: Clause) -> Evidence:
    """What tells that the hands worked after a clause: silence, or a count."""
    scene = hearing.scene
    end = scene.tokens[clause.last - 1].end
    silent = scene.tokens[clause.last - 1].pause
    counted = any(end - WORKS_S <= count.start <= end + COUNT_SOON_S for count in scene.counts)
    found = {
        "silence after": float(silent >= SILENCE_S),
        "long silence after": float(silent >= 2 * SILENCE_S),
        "count after": float(counted),
    }
    return _kept(found)


def _bout(hearing: Hearing, clause: Clause, technique: str, structures: Sequence[str]) -> Bout:
    """The bout that a yes would add: from its words to the next bout, and no longer than may be guessed."""
    scene = hearing.scene
    start = scene.start(clause.first)
    later = hearing.drafts[hearing.drafts_until(start) :][:1]
    end = min([start + OFFERED_S, scene.tokens[-1].end, *(draft.start for draft in later)])
    return Bout(
        technique,
        tuple(structures),
        _side(hearing, clause, structures),
        round(start, 2),
        round(max(start, end), 2),
        None,
        None,
        scene.span(clause.first, clause.last),
        0.0,
    )


def _side(hearing: Hearing, clause: Clause, structures: Iterable[str]) -> str | None:
    scene = hearing.scene
    if not any(scene.paired(s) for s in structures):
        return None
    sides = [m.id for m in scene.mentions.within("side", clause.first, clause.last) if m.id in {*OPPOSITE, "both"}]
    if sides:
        return sides[0]
    draft = hearing.draft_at(scene.start(clause.first))
    return draft.side if draft is not None else None


# findings, answers, decisions


def _found(hearing: Hearing, findings: Sequence[Noted]) -> Iterator[Candidate]:
    """What may have been found: words of an aspect from which no finding was made."""
    scene = hearing.scene
    noted = {one.place for one in findings}
    made = [one.what for one in findings if isinstance(one.what, Finding)]
    told = {(one.structure, one.aspect, one.value) for one in made}
    times = sorted((one.aspect, one.time) for one in made)
    for mention in scene.mentions.all("aspect"):
        clause = hearing.clause_at(mention.first)
        if clause.mode in CLEAR or mention.first in noted:
            continue
        said = scene.lexicon.said[mention.id]
        turned = denied(scene, mention, clause)
        value = said.denied if turned else said.value
        structure, how = _about(hearing, mention, clause)
        if not value or not structure or said.aspect == "symmetry":
            continue
        when = scene.start(mention.first)
        found = around(hearing, mention.first, mention.last) | how
        beside = bisect_left(times, (said.aspect, when - WORKS_S)), bisect_left(times, (said.aspect, when + WORKS_S))
        found |= {
            f"is {said.aspect}": 1.0,
            "weak words": float(said.strength == 0),
            "one word": float(mention.length == 1),
            "denied": float(turned),
            "usual": float(value == scene.lexicon.tables.aspects[said.aspect].usual),
            "found beside": float(beside[0] < beside[1]),
            "found before": float((structure, said.aspect, value) in told),
        }
        side = _side(hearing, clause, [structure])
        offer = Finding(
            structure,
            side,
            said.aspect,
            value,
            round(when, 2),
            scene.span(mention.first, mention.last),
            0.0,
        )
        yield Candidate("finding left out", "finding", offer, _kept(found))


def _about(hearing: Hearing, mention: Mention, clause: Clause) -> tuple[str, Evidence]:
    """What a finding would be about: the structure nearest in its clause, else one under the hands."""
    scene = hearing.scene
    near = scene.structures(clause.first, clause.last)
    if near:
        nearest = min(near, key=lambda pair: abs(pair[0].first - mention.first))
        return nearest[1], {"structure here": 1.0, "several structures here": float(len(near) > 1)}
    when = scene.start(mention.first)
    before = scene.structures(hearing.token_at(when - BEFORE_S / 2), mention.first)
    draft = hearing.draft_at(when)
    if draft is not None and (draft.end is None or draft.end > when - BEFORE_S):
        return draft.structures[0], {"under the hands": 1.0, "several structures": float(len(draft.structures) > 1)}
    return (before[-1][1], {"structure before": 1.0}) if before else ("", {})


def _shown(hearing: Hearing, responses: Sequence[Noted]) -> Iterator[Candidate]:
    """Signs that were named and not taken as shown."""
    scene = hearing.scene
    noted: dict[str, list[float]] = {}
    for one in responses:
        if isinstance(one.what, Response):
            noted.setdefault(one.what.sign, []).append(one.what.time)
    taken: set[tuple[str, int]] = set()
    for kind in ("sign", "terse-sign"):
        for mention in scene.mentions.all(kind):
            when = scene.start(mention.first)
            clause = hearing.clause_at(mention.first)
            near = any(abs(time - when) <= SAME_SIGN_S for time in noted.get(mention.id, ()))
            if clause.mode in CLEAR or near or (mention.id, hearing.number_at(mention.first)) in taken:
                continue
            taken.add((mention.id, hearing.number_at(mention.first)))
            found = around(hearing, mention.first, mention.last)
            found |= {
                f"by {kind}": 1.0,
                f"is {mention.id}": 1.0,
                "one word": float(mention.length == 1),
                "denied": float(scene.denied(mention.first, clause.first, 3)),
                "shown lately": float(any(0 <= when - time < AGAIN_S for time in noted.get(mention.id, ()))),
                "clause done": float(clause.mode == DONE),
                "alone": float(clause.last - clause.first <= mention.length + 2),
            }
            offer = Response(mention.id, round(when, 2), scene.span(mention.first, mention.last), 0.0)
            yield Candidate("response left out", "response", offer, _kept(found))


def _decided(hearing: Hearing, actions: Sequence[Action]) -> Iterator[Candidate]:
    """Decisions that were named and not believed."""
    scene = hearing.scene
    known = {action.kind for action in actions}
    for kind in ("action", "after"):
        for mention in scene.mentions.all(kind):
            clause = hearing.clause_at(mention.first)
            if clause.mode in CLEAR or mention.id in known:
                continue
            found = around(hearing, mention.first, mention.last)
            found |= {
                f"by {kind}": 1.0,
                f"is {mention.id}": 1.0,
                "one word": float(mention.length == 1),
                "denied": float(scene.denied(mention.first, clause.first, 3)),
                "asked for": float(bool(scene.mentions.within("asks", max(0, mention.first - 12), mention.first + 1))),
                "clause done": float(clause.mode == DONE),
            }
            when = round(scene.start(mention.first), 2)
            offer = Action(mention.id, when, scene.span(mention.first, mention.last), 0.0)
            yield Candidate("action left out", "action", offer, _kept(found))


def _kept(evidence: Evidence) -> Evidence:
    return {name: value for name, value in evidence.items() if value}
