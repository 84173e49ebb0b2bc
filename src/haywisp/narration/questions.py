"""The words of questions: about an entry, about a field of it, and about what was left out."""

from dataclasses import replace

from haywisp.narration.alternatives import JOINT, places_of
from haywisp.narration.evidence import Evidence
from haywisp.narration.hearing import Hearing
from haywisp.narration.overlooked import Candidate, Offer
from haywisp.narration.scene import Scene
from haywisp.narration.types import Action, Bout, Choice, Finding, Question, Response

KEEP_OR_DROP = (Choice("Yes, keep it", "keep"), Choice("No, leave it out", "drop"))
ADD_OR_NOT = (Choice("Yes, add it", "keep"), Choice("No, leave it out", "drop"))
SIDES = (Choice("Left", "left"), Choice("Right", "right"), Choice("Both", "both"))
PRESSURES = (
    Choice("Light", "light"),
    Choice("Moderate", "moderate"),
    Choice("Firm", "firm"),
    Choice("Not said", "none"),
)
NOT_SO = Choice("None of these: leave it out", "drop")
NOT_COUNTED = Choice("Not counted", "none")
#: A question about what is not in the record.
NO_ENTRY = -1


def named(entry: Offer, scene: Scene) -> str:
    """An entry in a few words."""
    tables = scene.lexicon.tables
    if isinstance(entry, Bout):
        where = ", ".join(tables.structures[one].name.lower() for one in entry.structures)
        return f"{tables.techniques[entry.technique].name}, {where}{_sided(entry.side)}"
    if isinstance(entry, Finding):
        where = f"{tables.structures[entry.structure].name}{_sided(entry.side)}"
        return f"{where}: {tables.aspects[entry.aspect].name.lower()} {entry.value.replace('-', ' ')}"
    if isinstance(entry, Response):
        return tables.signs[entry.sign].name
    return tables.actions[entry.kind].name


def _sided(side: str | None) -> str:
    return f", {side}" if side in ("left", "right") else ", both sides" if side == "both" else ""


def about_entry(
    part: str, entry: Offer, index: int, field: str | None, evidence: Evidence, hearing: Hearing
) -> Question:
    """A question about an entry: about one field of it, where it belongs, or whether it was meant at all."""
    scene = hearing.scene
    if isinstance(entry, Bout) and field is not None:
        return _about_field(entry, index, field, scene)
    if isinstance(entry, Bout | Finding) and field is None and not evidence.get("technique inferred"):
        others, heard = places_of(entry, hearing)
        if others:
            return _where(part, entry, index, others, heard, scene)
    if isinstance(entry, Bout):
        text = f"{named(entry, scene)}: was this done here?"
        if evidence.get("technique inferred"):
            name = scene.lexicon.tables.techniques[entry.technique].name.lower()
            text = f"The technique was not named here. Was it {name} again?"
        return Question(part, index, None, text, KEEP_OR_DROP, entry.start, entry.span)
    if isinstance(entry, Finding):
        return _about_finding(entry, index, field, scene)
    ask = "did the horse show this here?" if isinstance(entry, Response) else "was this decided?"
    return Question(part, index, None, f"{named(entry, scene)}: {ask}", KEEP_OR_DROP, entry.time, entry.span)


def _where(part: str, entry: Bout | Finding, index: int, others: list[str], heard: str, scene: Scene) -> Question:
    """Of which structure an entry is, that may be of another."""
    names = scene.lexicon.tables.structures
    own = entry.structures if isinstance(entry, Bout) else (entry.structure,)
    kept = Choice(", ".join(names[one].name for one in own), JOINT.join(own))
    choices = (kept, *(Choice(names[one].name, one) for one in others), NOT_SO)
    text = f"{named(entry, scene)}. Which place was meant?"
    if heard:
        text = f"“{heard}” was not understood. {text}"
    name = "structures" if isinstance(entry, Bout) else "structure"
    return Question(
        part, index, name, text, choices, entry.start if isinstance(entry, Bout) else entry.time, entry.span
    )


def _about_field(bout: Bout, index: int, field: str, scene: Scene) -> Question:
    name = scene.lexicon.tables.techniques[bout.technique].name
    if field == "side":
        return Question("bout", index, field, f"{name}: which side?", SIDES, bout.start, bout.span)
    if field == "pressure":
        return Question("bout", index, field, f"{name}: which pressure?", PRESSURES, bout.start, bout.span)
    numbers = {count.reached for count in scene.counts if bout.start - 1.0 <= count.start <= bout.end}
    numbers |= {bout.passes} if bout.passes is not None else set()
    choices = [Choice(str(number), str(number)) for number in sorted(numbers)]
    return Question("bout", index, field, f"{name}: how many passes?", (*choices, NOT_COUNTED), bout.start, bout.span)


def _about_finding(finding: Finding, index: int, field: str | None, scene: Scene) -> Question:
    """Where it was found, when something else is named beside it; else whether it was found."""
    tables = scene.lexicon.tables
    if field == "side":
        text = f"{tables.structures[finding.structure].name}: on which side was this?"
        return Question("finding", index, field, text, SIDES, finding.time, finding.span)
    return Question(
        "finding", index, None, f"{named(finding, scene)}. Was this found?", KEEP_OR_DROP, finding.time, finding.span
    )


def missing_side(part: str, entry: Offer, index: int, scene: Scene) -> Question | None:
    """Which side an entry is of that must have one and has none."""
    if isinstance(entry, Bout):
        sided = any(scene.paired(s) and s not in scene.lexicon.central for s in entry.structures)
        return _about_field(entry, index, "side", scene) if sided and entry.side is None else None
    if isinstance(entry, Finding) and entry.side is None and entry.aspect != "symmetry":
        sided = scene.paired(entry.structure) and entry.structure not in scene.lexicon.central
        return _about_finding(entry, index, "side", scene) if sided else None
    return None


def about_left_out(candidate: Candidate, sure: float, scene: Scene) -> Question:
    """Whether something that was heard and not written down was so; ``sure`` is how likely that is."""
    offer = replace(candidate.offer, confidence=round(sure, 2))
    asks = {
        Bout: "Was this done here?",
        Finding: "Was this found?",
        Response: "Did the horse show this here?",
        Action: "Was this decided?",
    }[type(offer)]
    text = f"Not written down: {named(offer, scene)}. {asks}"
    return Question(candidate.part, NO_ENTRY, None, text, ADD_OR_NOT, candidate.time, candidate.span, offer)
