"""Answers of the horse: whether a sign that is named is meant of this horse, in this session."""

from collections.abc import Iterable

from haywisp.narration.clauses import DONE, Clause
from haywisp.narration.mentions import Mention
from haywisp.narration.scene import Scene
from haywisp.narration.tokens import Token

DENIAL_REACH = 3
ASKED_REACH = 4
SCOPE, LONG_SCOPE = 2, 5
TERSE, TERSE_REACH = 2, 4
FOOD_BEFORE, FOOD_AFTER = 12, 14
HOPE_REACH, HABIT_REACH, HABIT_PAUSE_S = 6, 8, 1.5
OF_FOOD = frozenset({"lick-and-chew", "head-nod"})
# What a person feels, hears or sees of the horse ("I feel it go").
FELT = frozenset({"muscle-release", "gut-sounds", "eye-white"})
STANDS_CLEAR = ("declined", "could", "usual", "advice", "lesson")
WORK = ("technique", "weak", "rough", "structure")


def meant(scene: Scene, mention: Mention, clause: Clause) -> bool:
    """Whether a sign is shown: not denied, asked, hoped for, likened to, of a person, told of, or come of being fed."""
    if clause.mode not in (DONE, "away") and not beyond_cue(scene, mention, clause):
        return False
    if denied(scene, mention, clause) or scene.mentions.within("asked", mention.first - ASKED_REACH, mention.first):
        return False
    if unreal(scene, mention, clause) or of_person(scene, mention, clause):
        return False
    if told_of(scene, mention, clause) or elsewhere(scene, mention):
        return False
    return not (mention.id in OF_FOOD and fed(scene, mention))


def words(scene: Scene, name: str) -> frozenset[str]:
    """A list of words by which signs are judged."""
    return scene.lexicon.lists[f"sign-{name}"]


def texts(tokens: Iterable[Token]) -> set[str]:
    """The words of tokens."""
    return {token.text for token in tokens}


def denied(scene: Scene, mention: Mention, clause: Clause) -> bool:
    """Whether "no" or "not" stands before a sign; "no" that answers what came before denies nothing."""
    answers = [
        place + 1
        for place in range(max(clause.first, mention.first - DENIAL_REACH), mention.first)
        if scene.tokens[place].text == "no" and scene.tokens[place + 1].text in words(scene, "answered")
    ]
    return scene.denied(mention.first, max([clause.first, *answers]), DENIAL_REACH)


def beyond_cue(scene: Scene, mention: Mention, clause: Clause) -> bool:
    """Whether a sign stands clear of what makes its clause unreal ("he's not supposed to enjoy this, he yawned")."""
    cues = [m for m in scene.mentions.within("mode", clause.first, mention.last) if m.id == clause.mode]
    if clause.mode == "past":
        return not cues and scene.tokens[clause.first].text in words(scene, "surprised")
    if clause.mode not in STANDS_CLEAR or (not cues and clause.mode != "declined"):
        return False
    conditions = words(scene, "conditions")
    first = max((cue.last for cue in cues), default=clause.first)
    scope = mention.first - first
    if cues and all(scene.tokens[cue.last - 1].text in words(scene, "perceived") for cue in cues):
        able = words(scene, "able") & texts(scene.tokens[cues[-1].first : cues[-1].last])
        return bool(able) and bool(words(scene, "subjects") & texts(scene.tokens[first : mention.first + 1]))
    if cues and (scope < SCOPE or any(scene.tokens[cue.first].text in conditions for cue in cues)):
        return False
    subjects = words(scene, "subjects" if scope > LONG_SCOPE else "animals")
    own = texts(scene.tokens[max(first, mention.first - 2) : mention.first + 1])
    return bool(subjects & own) and not texts(scene.tokens[first : mention.first]) & (
        words(scene, "unreal") | conditions
    )


def unreal(scene: Scene, mention: Mention, clause: Clause) -> bool:
    """Whether a sign is waited for, foretold or likened to ("till she takes a breath", "like he's biting a stone")."""
    before: list[str] = []
    for place in range(mention.first - 1, max(clause.first, mention.first - HOPE_REACH) - 1, -1):
        if scene.tokens[place].mark or scene.tokens[place].text in words(scene, "ends_hope"):
            break
        before.append(scene.tokens[place].text)
    if words(scene, "unreal") & set(before[:2]) or words(scene, "hoped") & set(before):
        return True
    return bool(words(scene, "others") & set(before) and words(scene, "foretold") & set(before))


def of_person(scene: Scene, mention: Mention, clause: Clause) -> bool:
    """Whether the speaker or a listener is who yawns or is kicked ("I've been kicked out")."""
    place = before_words(scene, mention, clause, words(scene, "helping"))
    return place is not None and mention.id not in FELT and scene.tokens[place].text in words(scene, "others")


def told_of(scene: Scene, mention: Mention, clause: Clause) -> bool:
    """Whether somebody tells of a sign ("she says he bites", "he bites, she says")."""
    place = before_words(scene, mention, clause, words(scene, "animals") | {"that"})
    if place is not None and scene.tokens[place].text in words(scene, "told"):
        return True
    after = following(scene, mention)
    pairs = zip(after, after[1:], strict=False)
    return any(one.text in words(scene, "tellers") and two.text in words(scene, "told") for one, two in pairs)


def elsewhere(scene: Scene, mention: Mention) -> bool:
    """Whether a sign is what the horse does at other times ("he tosses his head in the school")."""
    return bool(words(scene, "elsewhere") & texts(following(scene, mention)))


def before_words(scene: Scene, mention: Mention, clause: Clause, skipped: frozenset[str]) -> int | None:
    """The token before a sign in its clause and its breath, past the ``skipped`` words."""
    place = mention.first - 1
    while place >= clause.first and scene.tokens[place].text in skipped and not scene.tokens[place].mark:
        place -= 1
    return None if place < clause.first or scene.tokens[place].mark else place


def following(scene: Scene, mention: Mention) -> list[Token]:
    """The words that go on from a sign, to the end of the sentence or a joining word."""
    found: list[Token] = []
    for place in range(mention.last, min(mention.last + HABIT_REACH, len(scene.tokens))):
        last = scene.tokens[place - 1]
        if last.mark == "stop" or last.pause > HABIT_PAUSE_S or last.text in words(scene, "ends_habit"):
            break
        found.append(scene.tokens[place])
    return found


def fed(scene: Scene, mention: Mention) -> bool:
    """Whether food is named beside chewing or nodding, so that it tells of food; not where there is none."""
    near = [token.text for token in scene.tokens[max(0, mention.first - FOOD_BEFORE) : mention.last + FOOD_AFTER]]
    food = scene.lexicon.classes["food"]
    named = any(text in food and "no" not in near[max(0, place - 2) : place] for place, text in enumerate(near))
    return named and not words(scene, "no_food") & set(near)


def terse(scene: Scene, clause: Clause) -> Mention | None:
    """A sign that is nearly all that a clause says ("Teeth."), where no work is named in it or goes on from it."""
    found = scene.mentions.within("terse-sign", clause.first, clause.last)
    if clause.mode != DONE or len(found) != 1 or clause.last - clause.first - found[0].length > TERSE:
        return None
    busy = any(scene.mentions.within(kind, clause.first, clause.last + TERSE_REACH) for kind in WORK)
    named = any(scene.mentions.within(kind, clause.first, clause.last) for kind in ("side", "sign"))
    return None if busy or named else found[0]
