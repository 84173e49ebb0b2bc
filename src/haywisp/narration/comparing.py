"""Sizes of the two sides compared: which of them is told to be the larger."""

from haywisp.narration.clauses import Clause
from haywisp.narration.drafts import OPPOSITE
from haywisp.narration.mentions import Mention
from haywisp.narration.scene import Scene

BEFORE, AFTER = 10, 6
BREATH_S = 1.5
SIDES = {"left": "left", "right": "right", "near": "left", "off": "right", "nearside": "left", "offside": "right"}
LEADS = {"on", "to", "at", "than"}
SMALLER = {"smaller", "smaller_than"}
NEEDS_THAN = {"larger_than", "smaller_than"}
HERE = {"this", "that", "here"}


def larger_side(scene: Scene, clause: Clause, mention: Mention, standing: str | None) -> str | None:
    """The side that a comparison tells to be the larger, or None where it compares something else."""
    tokens = scene.tokens
    if scene.denied(mention.first, clause.first, 3):
        return None
    first, last = breath(scene, mention)
    after = [token.text for token in tokens[mention.last : min(last, mention.last + AFTER)]]
    than = after.index("than") if "than" in after else len(after)
    told = _on(after[:than])
    before = [token.text for token in tokens[max(first, mention.first - BEFORE) : mention.first]]
    if told is None and "than" not in before:
        told = next((SIDES[word] for word in reversed(before) if word in SIDES), None)
        if told is None and (HERE & set(before[-5:]) or after[:1] == ["here"]) and than < len(after):
            told = standing
    if told is None and than < len(after):
        other = next((SIDES[word] for word in after[than:] if word in SIDES), None)
        told = OPPOSITE.get(other or "")
        if told is None and "other" in after[than:]:
            told = standing
    sided = told is not None and (than < len(after) or _on(after[:than]) is not None)
    if told not in OPPOSITE or (mention.id in NEEDS_THAN and not sided):
        return None
    return OPPOSITE[told] if mention.id in SMALLER else told


def breath(scene: Scene, mention: Mention) -> tuple[int, int]:
    """First and last token of what is said in one breath around a mention."""
    first, last = mention.first, mention.last
    while first and mention.first - first < BEFORE and not _ends(scene, first - 1):
        first -= 1
    while last < len(scene.tokens) and last - mention.last < AFTER and not _ends(scene, last - 1):
        last += 1
    return first, last


def _ends(scene: Scene, place: int) -> bool:
    return scene.tokens[place].mark == "stop" or scene.tokens[place].pause >= BREATH_S


def _on(words: list[str]) -> str | None:
    """The side that something is on ("on the left", "to the off side")."""
    for place, word in enumerate(words):
        led = [w for w in words[:place] if w not in {"the", "his", "her", "its"}]
        if word in SIDES and led and led[-1] in LEADS:
            return SIDES[word]
    return None
