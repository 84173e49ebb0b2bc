"""Sizes of the two sides compared: which of them is told to be the larger."""

from haywisp.narration.clauses import Clause
from haywisp.narration.drafts import OPPOSITE
from haywisp.narration.mentions import Mention
from haywisp.narration.scene import Scene

BEFORE, AFTER = 10, 6
BREATH_S = 1.5
SIDES = {"left": "left", "right": "right", "near": "left", "off": "right", "nearside": "left", "offside": "right"}
LEADS = {"on", "to", "at", "than"}
SMALLER = {"smaller", "smaller_than", "smaller_beside"}
NEEDS_THAN = {"larger_than", "smaller_than"}
HERE = {"this", "that", "here"}
# What the side compared with is led in by, beside "than".
BESIDE = {"beside", "against", "compared", "alongside", "versus"}
NEEDS_BESIDE = {"larger_beside", "smaller_beside"}
OWN_TURNS = {"all", "'m", "'re"}
SIDE_LEADS = {"the", "his", "her", "on", "to", "that", "this"}
TALKS_ON = {"i", "we", "she", "he", "so", "then"}
PARTS = {"side", "one", "half"}


def larger_side(scene: Scene, clause: Clause, mention: Mention, standing: str | None) -> str | None:
    """The side that a comparison tells to be the larger, or None where it compares something else."""
    tokens = scene.tokens
    if scene.denied(mention.first, clause.first, 3) or of_a_thing(scene, mention):
        return None
    first, last = breath(scene, mention)
    after = [token.text for token in tokens[mention.last : min(last, mention.last + AFTER)]]
    than = next((place for place in range(len(after)) if _against(after[place:])), len(after))
    if mention.id in NEEDS_BESIDE and than == len(after):
        return None
    led = [] if than == 0 else [tokens[mention.last - 1].text]
    told = _on([*led, *after[:than]]) or _described(scene, mention)
    before = [token.text for token in tokens[max(first, mention.first - BEFORE) : mention.first]]
    if told is None and "than" not in before:
        told = next((SIDES[w] for n, w in reversed(list(enumerate(before))) if w in SIDES and _sided(before, n)), None)
        if told is None and (HERE & set(before[-5:]) or after[:1] == ["here"]) and than < len(after):
            told = standing
    if told is None and than < len(after):
        other = next((SIDES[word] for word in after[than:] if word in SIDES), None)
        told = OPPOSITE.get(other or "")
        if told is None and "other" in after[than:]:
            told = standing
    sided = told is not None and (than < len(after) or _on([*led, *after[:than]]) is not None)
    if told not in OPPOSITE or (mention.id in NEEDS_THAN and not sided):
        return None
    return OPPOSITE[told] if mention.id in SMALLER else told


def of_a_thing(scene: Scene, mention: Mention) -> bool:
    """Whether something else than the horse's sides is of that size ("the bigger bucket", "a bigger mare")."""
    tokens = scene.tokens
    if tokens[mention.last - 1].mark or mention.last >= len(tokens):
        return False
    following = tokens[mention.last].text
    horses = scene.lexicon.classes["horse"]
    if following in horses or following in scene.lexicon.lists["found-other_things"]:
        return True
    led = tokens[mention.first - 1].text if mention.first else ""
    named = scene.mentions.within("structure", mention.last, mention.last + 2)
    plain = following in SIDES or following in PARTS or following in scene.lexicon.lists["clause-holds"]
    return led in {"a", "the"} and not (named or plain or tokens[mention.last].text in {"than", "on", "of", "muscle"})


def _described(scene: Scene, mention: Mention) -> str | None:
    """The side whose size is named before it ("a bigger left shoulder", "bulkier right side")."""
    if scene.tokens[mention.last - 1].mark or mention.last + 1 >= len(scene.tokens):
        return None
    side, part = scene.tokens[mention.last], scene.tokens[mention.last + 1].text
    named = part in PARTS or part in scene.lexicon.lists["limb-words"]
    named = named or bool(scene.mentions.within("structure", mention.last + 1, mention.last + 2))
    return SIDES.get(side.text) if named and not side.mark else None


def _against(words: list[str]) -> bool:
    """Whether what is compared with begins here ("than", "compared with", "next to", "from the off")."""
    apart = words[:1] == ["from"] and bool(set(words[1:3]) & SIDES.keys())
    return apart or words[:1] == ["than"] or words[:2] == ["next", "to"] or bool(set(words[:1]) & BESIDE)


def _sided(words: list[str], place: int) -> bool:
    """Whether a word before a comparison names a side, and is no turn of the talk ("all right", "right, I'll …")."""
    if words[place] != "right":
        return True
    before = words[place - 1] if place else ""
    after = words[place + 1] if place + 1 < len(words) else ""
    if before in OWN_TURNS or after == "enough":
        return False
    return before in SIDE_LEADS or after not in TALKS_ON


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
    """The side that something is on ("on the left", "to the off side", "of her right")."""
    for place, word in enumerate(words):
        led = [w for w in words[:place] if w not in {"the", "his", "her", "its"}]
        if word in SIDES and led and led[-1] in LEADS:
            return SIDES[word]
    return None
