"""Whether words for something found are of a wish, a person or a thing, and not of this horse now."""

from haywisp.narration.clauses import Clause
from haywisp.narration.mentions import Mention
from haywisp.narration.scene import Scene

WISH_REACH = 7
THING_REACH = 4
PERSON_REACH = 4
WILL = frozenset({"will", "'ll"})
BECOMES = frozenset({"be", "have", "get", "become"})
SOON_REACH = 3
SOON = frozenset({"once", "when", "after", "tomorrow", "soon", "then"})
RUBS = frozenset({"rub", "chafe", "gall", "swell", "cramp", "spasm", "hurt"})
LIKENS = frozenset({"as", "like", "of", "a", "the", "in", "on"})
SPEAKER = frozenset({"i", "we"})
SPEAKER_IS = frozenset({"'m", "am", "was", "were", "been"})
DEGREES = frozenset(
    {"so", "very", "a", "bit", "too", "really", "all", "just", "still", "that", "wee", "little", "quite", "pretty"}
    | {"rather", "no", "any", "not", "n't", "there", "always", "never", "right", "proper"}
)


def unmeant(scene: Scene, mention: Mention, clause: Clause) -> bool:
    """Whether something found is wished for, doubted or foretold, or is of the speaker or of a thing."""
    return (
        wished(scene, mention)
        or foretold(scene, mention)
        or of_a_person(scene, mention, clause)
        or of_a_thing(scene, mention, clause)
    )


def wished(scene: Scene, mention: Mention) -> bool:
    """Whether a wish or a doubt leads up to it in one breath ("I hope there's no heat", "not sure it's a knot")."""
    for wish in scene.mentions.within("wished", mention.first - WISH_REACH, mention.first):
        if wish.last <= mention.first and not any(t.mark for t in scene.tokens[wish.last - 1 : mention.first]):
            return True
    return False


def foretold(scene: Scene, mention: Mention) -> bool:
    """Whether it will be so and is not yet ("he'll be sore", "it will rub")."""
    place = mention.first - 1
    while place >= 0 and scene.tokens[place].text in DEGREES and not scene.tokens[place].mark:
        place -= 1
    if place < 1:
        return False
    led = scene.tokens[place]
    if led.text in WILL:
        later = {token.text for token in scene.tokens[mention.last : mention.last + SOON_REACH]} & SOON
        return bool(later) or scene.tokens[mention.first].text in RUBS | BECOMES
    if led.text not in BECOMES or led.mark:
        return False
    before = [token.text for token in scene.tokens[max(0, place - 2) : place]]
    return bool(WILL & set(before))


def of_a_person(scene: Scene, mention: Mention, clause: Clause) -> bool:
    """Whether the speaker is, or has, what is found ("I'm wound up", "my calves cramp", "tight in my own back")."""
    tokens, parts = scene.tokens, scene.lexicon.lists["found-own_parts"]
    place = mention.first - 1
    while place > clause.first and tokens[place].text in DEGREES and not tokens[place].mark:
        place -= 1
    if place > 0 and tokens[place].text in SPEAKER_IS and tokens[place - 1].text in SPEAKER:
        return True
    led = [token.text for token in tokens[max(clause.first, mention.first - PERSON_REACH) : mention.first]]
    if any(word == "my" and after in parts for word, after in zip(led, led[1:], strict=False)):
        return True
    following = [token.text for token in tokens[mention.last : min(clause.last, mention.last + PERSON_REACH)]]
    inside = following[:3] if following[:1] != ["in"] else following[1:4]
    return bool(inside) and (inside[0] == "my" and bool(parts & set(inside[1:])) and following[0] == "in")


def of_a_thing(scene: Scene, mention: Mention, clause: Clause) -> bool:
    """Whether a thing of the yard is so ("the door's stiff", "a tight budget")."""
    tokens, things = scene.tokens, scene.lexicon.lists["found-other_things"]
    bare = mention.length <= 2 and not tokens[mention.last - 1].mark and tokens[mention.last - 1].text not in LIKENS
    if bare and mention.last < clause.last and tokens[mention.last].text in things:
        return True
    is_ = scene.lexicon.classes["be"]
    for place in range(mention.first - 1, max(clause.first, mention.first - THING_REACH) - 1, -1):
        token = tokens[place]
        if token.mark:
            return False
        if token.text in things:
            return tokens[place + 1].text in is_
        if token.text not in is_ and token.text not in DEGREES:
            return False
    return False
