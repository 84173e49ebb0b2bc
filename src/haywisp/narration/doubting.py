"""Confidence of what was heard, and the questions that doubt becomes."""

from collections.abc import Sequence

from haywisp.narration.drafts import Draft
from haywisp.narration.scene import Scene
from haywisp.narration.types import Action, Bout, Choice, Finding, Question, Response, Span

ASK_BELOW = 0.62
DOUBT = {"technique": 0.9, "structures": 0.85, "side": 0.8}
# How often such bouts were right over the scored cases.
SIDE_SAID, SIDE_INHERITED = 0.9, 0.84
KEEP_OR_DROP = (Choice("Yes, keep it", "keep"), Choice("No, leave it out", "drop"))


def bouts_of(drafts: Sequence[Draft], scene: Scene) -> tuple[Bout, ...]:
    """Finished bouts in order of time."""
    return tuple(
        Bout(
            draft.technique,
            tuple(draft.structures),
            draft.side,
            round(draft.start, 2),
            round(max(draft.start, draft.end or draft.start), 2),
            draft.passes,
            draft.pressure,
            scene.span(draft.first, draft.last),
            confidence_of(draft),
        )
        for draft in drafts
    )


def confidence_of(draft: Draft) -> float:
    """Less for every field that was inferred, and for a technique that was misheard."""
    value = (SIDE_SAID if draft.side_said else SIDE_INHERITED) * draft.repaired
    for doubt in draft.doubts:
        value *= DOUBT[doubt]
    return round(value, 3)


def questions_of(
    bouts: Sequence[Bout],
    drafts: Sequence[Draft],
    findings: Sequence[Finding],
    responses: Sequence[Response],
    actions: Sequence[Action],
    scene: Scene,
) -> tuple[Question, ...]:
    """Questions in order of time."""
    found: list[Question] = []
    for index, (bout, draft) in enumerate(zip(bouts, drafts, strict=True)):
        found.extend(bout_questions(index, bout, draft, scene))
    for index, finding in enumerate(findings):
        found.extend(finding_questions(index, finding, scene))
    for index, response in enumerate(responses):
        if response.confidence < ASK_BELOW:
            found.append(whole("response", index, response.time, response.span))
    for index, action in enumerate(actions):
        if action.confidence < ASK_BELOW:
            found.append(whole("action", index, action.time, action.span))
    return tuple(sorted(found, key=lambda question: (question.time, question.part, question.index)))


def whole(part: str, index: int, time: float, span: Span) -> Question:
    """Whether an entry is right as a whole."""
    return Question(part, index, None, "Was this meant?", KEEP_OR_DROP, time, span)


def bout_questions(index: int, bout: Bout, draft: Draft, scene: Scene) -> list[Question]:
    """What a bout leaves open: its side, its structures, or its technique."""
    name = scene.lexicon.tables.techniques[bout.technique].name
    asked: list[Question] = []
    if "side" in draft.doubts:
        choices = (Choice("Left", "left"), Choice("Right", "right"), Choice("Both", "both"))
        asked.append(Question("bout", index, "side", f"{name}: which side?", choices, bout.start, bout.span))
    if "technique" in draft.doubts:
        text = f"The technique was not named here. Was it {name.lower()} again?"
        asked.append(Question("bout", index, None, text, KEEP_OR_DROP, bout.start, bout.span))
    elif draft.repaired < ASK_BELOW:
        text = f"The word was heard badly. Was it {name.lower()}?"
        asked.append(Question("bout", index, None, text, KEEP_OR_DROP, bout.start, bout.span))
    return asked


def finding_questions(index: int, finding: Finding, scene: Scene) -> list[Question]:
    """What a finding leaves open."""
    structure = scene.lexicon.tables.structures[finding.structure]
    if finding.confidence < ASK_BELOW:
        text = f"Was this about the {structure.name.lower()}?"
        return [Question("finding", index, None, text, KEEP_OR_DROP, finding.time, finding.span)]
    if (
        finding.side is None
        and structure.paired
        and finding.aspect != "symmetry"
        and finding.structure not in scene.lexicon.central
    ):
        choices = (Choice("Left", "left"), Choice("Right", "right"), Choice("Both", "both"))
        text = f"{structure.name}: on which side was this?"
        return [Question("finding", index, "side", text, choices, finding.time, finding.span)]
    return []
