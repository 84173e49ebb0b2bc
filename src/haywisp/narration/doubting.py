"""How sure each entry is, and the questions that doubt becomes: about what was written down, and what was left out."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from haywisp.narration.calibrated import Models, models_of
from haywisp.narration.drafts import Draft
from haywisp.narration.evidence import Evidence, of_action, of_bout, of_finding, of_response
from haywisp.narration.hearing import Hearing
from haywisp.narration.noting import Noted
from haywisp.narration.overlooked import Candidate, Offer, candidates
from haywisp.narration.questions import about_entry, about_left_out, missing_side
from haywisp.narration.scene import Scene
from haywisp.narration.types import Action, Bout, Finding, Question, Response

#: What may be wrong of an entry that is right as a whole.
FIELDS: Mapping[str, tuple[str, ...]] = {
    "bout": ("side", "passes", "pressure"),
    "finding": ("side",),
    "response": (),
    "action": (),
}
OFFERS_APART_S = 3.0


@dataclass(frozen=True, slots=True)
class Judged:
    """An entry with its features and how likely the whole of it, and each of its fields, is right."""

    part: str
    entry: Offer
    evidence: Evidence
    sure: float
    fields: Mapping[str, float]

    @property
    def all_sure(self) -> float:
        """How likely it is right in every field."""
        sure = self.sure
        for one in self.fields.values():
            sure *= one
        return sure

    @property
    def weakest(self) -> str | None:
        """What is most likely wrong: a field, or None for the whole."""
        if not self.fields:
            return None
        name = min(self.fields, key=lambda one: self.fields[one])
        return name if self.fields[name] < self.sure else None


@dataclass(frozen=True, slots=True)
class Verdicts:
    """The entries that are written down, with their confidence, and everything that is asked."""

    bouts: tuple[Bout, ...]
    findings: tuple[Finding, ...]
    responses: tuple[Response, ...]
    actions: tuple[Action, ...]
    questions: tuple[Question, ...]


def judge(
    scene: Scene,
    drafts: Sequence[Draft],
    findings: Sequence[Noted],
    responses: Sequence[Noted],
    actions: Sequence[Action],
) -> Verdicts:
    """How sure each entry is, what is asked about it, and what was left out and is asked about."""
    if not scene.tokens:
        return Verdicts((), (), (), (), ())
    models = models_of(scene.lexicon.tables)
    hearing = Hearing(scene, drafts)
    entries = judged(hearing, findings, responses, actions, models)
    kept = [one for one in entries if one.sure >= models.keep_above]
    places = {"bout": 0, "finding": 0, "response": 0, "action": 0}
    asked: list[Question] = []
    for one in kept:
        asked.extend(_questions(one, places[one.part], hearing, models))
        places[one.part] += 1
    offers = [(c, models.probability(c.sort, c.evidence)) for c in candidates(hearing, findings, responses, actions)]
    offered = [(c, sure) for c, sure in offers if sure >= models.offer_above]
    offered += [(put_aside(one), one.sure) for one in entries if one.sure < models.keep_above]
    asked += [about_left_out(candidate, sure, scene) for candidate, sure in spaced(offered, asked)]
    asked.sort(key=lambda question: (question.time, question.part, question.index))
    return Verdicts(
        tuple(one.entry for one in kept if isinstance(one.entry, Bout)),
        tuple(one.entry for one in kept if isinstance(one.entry, Finding)),
        tuple(one.entry for one in kept if isinstance(one.entry, Response)),
        tuple(one.entry for one in kept if isinstance(one.entry, Action)),
        tuple(asked),
    )


def judged(
    hearing: Hearing,
    findings: Sequence[Noted],
    responses: Sequence[Noted],
    actions: Sequence[Action],
    models: Models,
) -> list[Judged]:
    """Every entry, part by part in order, with its features and how likely it is right."""
    found: list[Judged] = []
    bouts = bouts_of(hearing.drafts, hearing.scene)
    for number, bout in enumerate(bouts):
        found.append(_judged("bout", bout, of_bout(hearing, number), models))
    heard = of_finding(hearing, findings)
    found += [_judged("finding", noted.what, one, models) for noted, one in zip(findings, heard, strict=True)]
    answers = of_response(hearing, responses)
    found += [_judged("response", noted.what, one, models) for noted, one in zip(responses, answers, strict=True)]
    return found + [_judged("action", action, of_action(hearing, action, actions), models) for action in actions]


def _judged(part: str, entry: Offer, evidence: Evidence, models: Models) -> Judged:
    sure = models.probability(part, evidence)
    fields = {name: models.probability(f"{part} {name}", evidence) for name in FIELDS[part]}
    return Judged(part, replace(entry, confidence=round(sure, 2)), evidence, sure, fields)


def bouts_of(drafts: Iterable[Draft], scene: Scene) -> list[Bout]:
    """Finished bouts in order of time; their confidence is not told yet."""
    return [
        Bout(
            draft.technique,
            tuple(draft.structures),
            draft.side,
            round(draft.start, 2),
            round(max(draft.start, draft.end or draft.start), 2),
            draft.passes,
            draft.pressure,
            scene.span(draft.first, draft.last),
            0.0,
        )
        for draft in drafts
    ]


def _questions(one: Judged, index: int, hearing: Hearing, models: Models) -> list[Question]:
    """What is asked about an entry: the doubt that is greatest, and a side that it lacks."""
    asked = []
    if one.all_sure < models.ask_below:
        asked.append(about_entry(one.part, one.entry, index, one.weakest, one.evidence, hearing))
    side = missing_side(one.part, one.entry, index, hearing.scene)
    if side is not None and not any(question.field in (None, "side") for question in asked):
        asked.append(side)
    return asked


def put_aside(one: Judged) -> Candidate:
    """An entry that is more likely wrong than right, as one that was left out."""
    return Candidate("put aside", one.part, one.entry, one.evidence)


def spaced(offered: Iterable[tuple[Candidate, float]], asked: Iterable[Question] = ()) -> list[tuple[Candidate, float]]:
    """The likeliest of what was left out: at most one of a part every few seconds, where nothing is asked of it yet."""
    kept: list[tuple[Candidate, float]] = []
    places: dict[tuple[str, int], list[float]] = {}
    actions: set[str] = set()
    for question in asked:
        places.setdefault((question.part, int(question.time // OFFERS_APART_S)), []).append(question.time)
    for candidate, sure in sorted(offered, key=lambda pair: (-pair[1], pair[0].time, pair[0].sort)):
        slot = int(candidate.time // OFFERS_APART_S)
        near = [when for other in (slot - 1, slot, slot + 1) for when in places.get((candidate.part, other), ())]
        if any(abs(when - candidate.time) < OFFERS_APART_S for when in near):
            continue
        if isinstance(candidate.offer, Action):
            if candidate.offer.kind in actions:
                continue
            actions.add(candidate.offer.kind)
        places.setdefault((candidate.part, slot), []).append(candidate.time)
        kept.append((candidate, sure))
    return kept
