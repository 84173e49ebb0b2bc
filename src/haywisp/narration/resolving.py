"""Whether an action that is named is decided for: no condition, question, refusal, memory or habit."""

from haywisp.narration.clauses import Clause
from haywisp.narration.mentions import Mention
from haywisp.narration.scene import Scene
from haywisp.narration.tokens import Token

CONDITION_REACH = 24
SENTENCE_S = 1.8
AFTER_REACH = 10
ONLY_IF_REACH = 6
BEFORE_WORK_REACH = 2
BEFORE_REACH = 5
DENIAL_REACH = 3
EXERCISE = frozenset({"ridden-work", "turnout", "walk-in-hand", "rest", "groundwork"})
JOINS = frozenset({"and", "but"})


def resolved(scene: Scene, mention: Mention, clause: Clause) -> bool:
    """Whether an action is decided for by its sentence; when it is believed is for the decider to tell."""
    if conditional(scene, mention) or only_if(scene, mention) or put_aside(scene, mention):
        return False
    return not (asked(scene, mention) or remembered(scene, mention, clause))


def words(scene: Scene, name: str) -> frozenset[str]:
    """A list of words by which decisions are judged."""
    return scene.lexicon.lists[f"action-{name}"]


def ends(token: Token) -> bool:
    """Whether a sentence ends with a token."""
    return token.mark == "stop" or token.pause > SENTENCE_S


def conditional(scene: Scene, mention: Mention) -> bool:
    """Whether a condition stands before an action in its sentence, and no other action between them."""
    tokens, place = scene.tokens, mention.first - 1
    others = {
        m.first
        for kind in ("action", "after")
        for m in scene.mentions.within(kind, mention.first - CONDITION_REACH, mention.first)
        if m.last <= mention.first and m.id != mention.id
    }
    begun = {
        m.first for m in scene.mentions.within("after-begins", max(0, mention.first - CONDITION_REACH), mention.first)
    }
    while place >= max(0, mention.first - CONDITION_REACH) and not ends(tokens[place]):
        if place in others or place in begun or tokens[place].text in words(scene, "ends_condition"):
            return False
        if mention.id == "recheck" and tokens[place].text in JOINS:
            return False
        if tokens[place].text in words(scene, "conditions") and not polite(scene, place):
            return True
        if tokens[place].text in words(scene, "should") and tokens[place + 1].text in words(scene, "animals"):
            return True
        place -= 1
    return inverted(scene, place + 1)


def only_if(scene: Scene, mention: Mention) -> bool:
    """Whether a condition follows a referral ("the saddler, if the vet says it is nothing")."""
    for place in range(mention.last, min(mention.last + ONLY_IF_REACH, len(scene.tokens))):
        if ends(scene.tokens[place - 1]) or not mention.id.startswith("refer-"):
            return False
        if scene.tokens[place].text in words(scene, "conditions") and not polite(scene, place):
            return True
    return False


def polite(scene: Scene, place: int) -> bool:
    """Whether "if" only asks leave ("if you can", "if you like")."""
    after = [token.text for token in scene.tokens[place + 1 : place + 3]]
    return bool(after) and (after[0] in words(scene, "leave") or (len(after) > 1 and after[1] in words(scene, "leave")))


def inverted(scene: Scene, first: int) -> bool:
    """Whether a sentence opens as a condition without "if" ("should the leg fill", "any swelling")."""
    opening = [token.text for token in scene.tokens[first : first + 2]]
    opening = opening[1:] if opening[:1] and opening[0] in JOINS else opening
    return bool(opening) and opening[0] in words(scene, "any") | words(scene, "should")


def put_aside(scene: Scene, mention: Mention) -> bool:
    """Whether what follows takes an action back ("the saddler, no, …", "vet, not yet") or tells of one ("… did")."""
    after = scene.tokens[mention.last : mention.last + 3]
    texts = [token.text for token in after]
    if texts and texts[0] in words(scene, "done_by") and not scene.tokens[mention.last - 1].mark:
        return True
    parted = bool(scene.tokens[mention.last - 1].mark)
    refusing = bool(texts) and texts[0] in words(scene, "refusing")
    if refusing and (after[0].mark or (len(texts) > 1 and texts[1] in words(scene, "refused"))):
        return parted or not scene.tokens[mention.last - 1].mark
    for place in range(mention.last, min(mention.last + AFTER_REACH, len(scene.tokens))):
        if ends(scene.tokens[place - 1]):
            return False
        if scene.mentions.within("undone", place, place + 1) or scene.mentions.within("already", place, place + 1):
            return True
    return False


def asked(scene: Scene, mention: Mention) -> bool:
    """Whether the sentence asks, and the next word does not say yes."""
    for place in range(mention.last - 1, min(mention.last + AFTER_REACH, len(scene.tokens))):
        token = scene.tokens[place]
        if ends(token):
            following = scene.tokens[place + 1].text if place + 1 < len(scene.tokens) else ""
            return token.asks and following not in words(scene, "yes")
    return False


def remembered(scene: Scene, mention: Mention, clause: Clause) -> bool:
    """Whether an action is past, a perhaps, or only names a time ("he's been on box rest", "before he goes out")."""
    if scene.tokens[mention.first].text in words(scene, "imperatives"):
        return False
    for place in range(mention.first - 1, max(clause.first, mention.first - BEFORE_REACH) - 1, -1):
        token = scene.tokens[place]
        if token.mark or token.text in words(scene, "parts"):
            return False
        near = mention.first - place <= BEFORE_WORK_REACH and mention.id in EXERCISE
        if token.text in words(scene, "remembered") or (near and token.text in words(scene, "before")):
            return True
    return False


def denied(scene: Scene, mention: Mention, clause: Clause) -> bool:
    """Whether "no" or "not" stands before an action; "not happy" denies none."""
    for place in range(mention.first - 1, max(clause.first, mention.first - DENIAL_REACH) - 1, -1):
        token = scene.tokens[place]
        if token.mark or token.text in JOINS or token.text in words(scene, "moods"):
            return False
        if token.text in scene.lexicon.lists["denial"]:
            return True
    return False


def negative(scene: Scene, mention: Mention) -> bool:
    """Whether an action is itself a "no" ("no riding", "nothing on that"), so that a refusal before it is its own."""
    first, second = (scene.tokens[place].text for place in (mention.first, min(mention.first + 1, mention.last - 1)))
    return first in words(scene, "negatives") or (
        first in words(scene, "not_to") and second in words(scene, "negatives")
    )


def leaves(scene: Scene, mention: Mention) -> bool:
    """Whether an action is to leave or keep something off, and no refusal of work ("leave the saddle off")."""
    return scene.tokens[mention.first].text in words(scene, "leaving")


def broken(scene: Scene, mention: Mention) -> bool:
    """Whether a referral runs over words that part it ("call him, no vet for that")."""
    inside = {token.text for token in scene.tokens[mention.first + 1 : mention.last - 1]}
    return mention.id.startswith("refer-") and bool(inside & words(scene, "breaks"))
