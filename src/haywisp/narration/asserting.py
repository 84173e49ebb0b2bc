"""Whether words for something found tell that it is there now, or only speak of it."""

from haywisp.narration.clauses import Clause
from haywisp.narration.mentions import Mention
from haywisp.narration.scene import SKIPPED, Scene
from haywisp.narration.unmeant import unmeant

ASKED_REACH = 4
# After these a verb may come before its subject in a statement ("here is it cold").
INVERTING = frozenset({"here", "there", "side", "today"})
ASKING = frozenset({"is", "are", "was", "does", "do", "did"})
ASKED_OF = frozenset({"the", "his", "her", "that", "this", "these", "those", "there", "any", "you", "your", "either"})
GONE_REACH = 7
DENIED_AFTER = 4
DENIED_BEFORE = 5
STATES = frozenset({"it", "that", "this", "he", "she", "there"})
COPULAS = frozenset({"is", "'s", "are", "'re", "feels", "feel"})
NOT_YET = frozenset({"not", "n't", "no", "never", "nae"})
WARMER_REACH = 5
SIMILE_REACH = 6
LUMP_REACH = 14
UNTIL_REACH = 5
SHOWN_REACH = 4
USED_REACH = 3
TOLD = frozenset({"gone", "healed", "grown", "away", "off"})
HAD = frozenset({"had", "'d"})
ONCE = frozenset({"he", "she", "it", "they", "who", "which"})
HAD_REACH = 5
MANNER = frozenset({"soft", "softly"})
MANNER_REACH = 3
COUNTED_NOT = frozenset({"one"})
LIKENED_WITHIN = 2
NAMED_REACH = 4
WAS = frozenset({"was", "were"})
NOW = frozenset({"now", "today", "still", "is", "'s", "are"})
POINTED = frozenset({"here", "there", "both", "one", "now"})


def asserted(scene: Scene, mention: Mention, clause: Clause) -> bool:
    """Whether what is found is told as so, and not asked, known already, compared with, waited for or of a pack."""
    return not (
        asked(scene, mention)
        or questioned(scene, clause)
        or referred_to(scene, mention, clause)
        or compares_with(scene, mention, clause)
        or waited_for(scene, mention, clause)
        or of_a_warmer(scene, mention, clause)
        or of_another_part(scene, mention, clause)
        or had_once(scene, mention, clause)
        or manner(scene, mention, clause)
        or work_likened(scene, mention, clause)
        or names_one(scene, mention, clause)
        or told_of_then(scene, mention, clause)
        or unmeant(scene, mention, clause)
    )


def asked(scene: Scene, mention: Mention) -> bool:
    """Whether a question leads up to it ("was that sore")."""
    return any(
        not (words.first and scene.tokens[words.first - 1].text in INVERTING)
        for words in scene.mentions.within("asked", mention.first - ASKED_REACH, mention.first)
    )


def questioned(scene: Scene, clause: Clause) -> bool:
    """Whether a clause opens as a question ("is the left bigger", "does that hurt")."""
    first, second = (scene.tokens[place].text for place in (clause.first, min(clause.first + 1, clause.last - 1)))
    return first in ASKING and second in ASKED_OF


def denied(scene: Scene, mention: Mention, clause: Clause) -> bool:
    """Whether it is told to be absent, before it, after it, or as gone ("no knots", "swollen it is not")."""
    return denied_before(scene, mention, clause) or denied_after(scene, mention, clause) or gone(scene, mention, clause)


def copula(scene: Scene, place: int, mention: Mention) -> bool:
    """Whether a statement begins between a bare "no" and what is found ("no, these are fine")."""
    return any(token.text in COPULAS for token in scene.tokens[place + 1 : mention.first + 1])


def denied_before(scene: Scene, mention: Mention, clause: Clause) -> bool:
    """Whether a denial stands before it, with no statement of its own between ("nothing wrong, it's supple")."""
    if scene.tokens[mention.first].text in scene.lexicon.lists["denial"]:
        return False
    for place in range(mention.first - 1, max(clause.first, mention.first - 1 - DENIED_BEFORE) - 1, -1):
        token = scene.tokens[place]
        if token.mark:
            return False
        if token.text in scene.lexicon.lists["denial"]:
            return (
                not of_place(scene, place, mention)
                and not spent(scene, place, mention)
                and not (token.text == "no" and copula(scene, place, mention))
            )
        following = scene.tokens[place + 1].text
        if token.text in STATES and following in {"'s", "is"} and scene.tokens[place + 2].text not in NOT_YET:
            return False
    return False


def gone(scene: Scene, mention: Mention, clause: Clause) -> bool:
    """Whether what was found is said to be there no longer ("the knot has gone")."""
    end = min(mention.last + GONE_REACH, clause.last)
    for told in scene.mentions.within("gone", mention.last, end):
        others = [m for m in scene.mentions.within("aspect", mention.last, told.last + 1) if m.last > told.first - 3]
        if not others:
            return True
    return False


def of_place(scene: Scene, place: int, mention: Mention) -> bool:
    """Whether a denial is of the place it leads into ("not in all the neck, to the left it goes")."""
    return any(
        {token.text for token in scene.tokens[place : named.first]} & {"in", "on", "at", "of"}
        for named in scene.mentions.within("structure", place, mention.first)
        if named.last <= mention.first
    )


def spent(scene: Scene, place: int, mention: Mention) -> bool:
    """Whether a denial is of something else, found between it and this ("no oedema, mildly painful")."""
    before = scene.mentions.within("aspect", place - DENIED_BEFORE, mention.first)
    others = [m for m in before if place < m.last <= mention.first]
    if not others:
        return False
    between = [token.text for token in scene.tokens[others[-1].last : mention.first]]
    return not any(word in {"or", "nor", "and", "no"} for word in between)


def denied_after(scene: Scene, mention: Mention, clause: Clause) -> bool:
    """Whether a denial follows it ("swollen it is not", "heat there is none", "heat, none")."""
    lists = scene.lexicon.lists
    after = scene.tokens[mention.last : min(mention.last + DENIED_AFTER, clause.last)]
    denies = scene.lexicon.said[mention.id].denied == ""
    if not after or scene.tokens[mention.last - 1].mark == "stop" or denies:
        return False
    told = scene.tokens[max(clause.first, mention.first - 3) : mention.last]
    if any(token.text in lists["denial"] for token in told):
        return False
    parted = scene.tokens[mention.last - 1].mark == "comma" and (after[0].mark != "" or len(after) == 1)
    if after[0].text in lists["found-none"] and (parted or after[0].text != "no"):
        return True
    words = [token.text for token in after]
    turned = words[0] in {"it", "there", "he", "she"} and words[1:2] in (["is"], ["'s"], ["are"])
    return (
        turned
        and len(words) > 2
        and words[2] in lists["found-not_there"]
        and scene.tokens[mention.last - 1].mark == ""
        and (len(words) == 3 or after[2].mark != "")
    )


def referred_to(scene: Scene, mention: Mention, clause: Clause) -> bool:
    """Whether it is named as something known ("clear of that lump", "on the stuck place") and nothing is said of it."""
    lists, tokens = scene.lexicon.lists, scene.tokens
    first = mention.first
    named = [token.text for token in tokens[first : mention.last]]
    told_in_full = any(word in scene.lexicon.classes["be"] or word in TOLD for word in named)
    noun = not told_in_full and any(word in lists["found-nouns"] for word in named)
    after = tokens[mention.last].text if mention.last < clause.last else ""
    carried = after in lists["found-carriers"] or tokens[mention.last - 1].text in lists["found-carriers"]
    place = first - 1
    while place >= clause.first and tokens[place].text in lists["found-between"] and not tokens[place].mark:
        place -= 1
    if place < clause.first or tokens[place].mark:
        return False
    if noun:
        known = tokens[place].text in lists["found-definite"]
    else:
        known = carried and not told_in_full and tokens[place].text in lists["found-pointing"]
    if not known:
        return False
    led = [token.text for token in tokens[max(clause.first, place - SHOWN_REACH) : place]]
    if any(word in lists["found-shown"] for word in led):
        return False
    rest = [token.text for token in tokens[mention.last : clause.last]][:3]
    told = rest[:1] in (["is"], ["'s"], ["are"], ["has"], ["have"]) or bool({"still", "yet"} & set(rest))
    return not (told and noun)


def compares_with(scene: Scene, mention: Mention, clause: Clause) -> bool:
    """Whether it only says what the finding before it is like ("tight as a fiddle string", "a lump like a pea")."""
    lists, tokens = scene.lexicon.lists, scene.tokens
    likened = tokens[mention.first].text == "like" and scene.lexicon.said[mention.id].aspect == "texture"
    reach = LUMP_REACH if likened else SIMILE_REACH
    near = scene.mentions.within("aspect", max(clause.first, mention.first - reach), mention.first)
    near = [other for other in near if other.last <= mention.first]
    if not near:
        return False
    between = tokens[near[-1].last : mention.first + 1]
    if any(token.mark == "stop" for token in tokens[near[-1].last - 1 : mention.first]):
        return False
    begun = [token.text for token in tokens[near[-1].first : near[-1].last]]
    if likened and scene.lexicon.said[near[-1].id].aspect == "skin":
        return True
    likened = any(token.text in lists["found-simile"] for token in between) or "as" in begun
    verb = any(token.text in scene.lexicon.classes["is"] or token.text in {"and", "but"} for token in between)
    return likened and not verb


def waited_for(scene: Scene, mention: Mention, clause: Clause) -> bool:
    """Whether it is told only as what something waits for ("until the hair is back")."""
    led = [token.text for token in scene.tokens[max(clause.first, mention.first - UNTIL_REACH) : mention.first]]
    generally = "when" in led[-5:] and not {"i", "you", "we", "my"} & set(led[-5:])
    return generally or any(word in scene.lexicon.lists["found-unless"] for word in led)


def of_a_warmer(scene: Scene, mention: Mention, clause: Clause) -> bool:
    """Whether warm or cold is what is laid on the horse ("the cold towel")."""
    if scene.lexicon.said[mention.id].aspect != "warmth":
        return False
    lists = scene.lexicon.lists
    first, last = max(clause.first, mention.first - WARMER_REACH), min(clause.last, mention.last + WARMER_REACH)
    around = [token.text for token in (*scene.tokens[first : mention.first], *scene.tokens[mention.last : last])]
    led = [token.text for token in scene.tokens[max(clause.first, mention.first - USED_REACH) : mention.first]]
    return any(word in lists["found-warmers"] for word in around) or any(word in lists["found-used"] for word in led)


def of_another_part(scene: Scene, mention: Mention, clause: Clause) -> bool:
    """Whether what is found is said of a joint that is no structure of the record ("the hocks are sore")."""
    reach = max(clause.first, mention.first - 4)
    landmarks = [m for m in scene.mentions.within("landmark", reach, mention.first) if m.length == 1]
    return bool(landmarks) and not scene.mentions.within("structure", landmarks[-1].first, mention.first)


def had_once(scene: Scene, mention: Mention, clause: Clause) -> bool:
    """Whether it is told as what the horse, or another, once had ("she had a wound in the mouth")."""
    led = [token.text for token in scene.tokens[max(clause.first, mention.first - HAD_REACH) : mention.first]]
    return any(word in HAD and led[place - 1] in ONCE for place, word in enumerate(led) if place)


def manner(scene: Scene, mention: Mention, clause: Clause) -> bool:
    """Whether "soft" is how the hands work, as it follows a technique without a verb ("long sweeps, very soft")."""
    named = {token.text for token in scene.tokens[mention.first : mention.last]}
    if not named & MANNER or named & scene.lexicon.classes["be"]:
        return False
    worked = [m for kind in ("technique", "same") for m in scene.mentions.within(kind, clause.first, mention.first)]
    led = {token.text for token in scene.tokens[max(clause.first, mention.first - MANNER_REACH) : mention.first]}
    following = scene.tokens[mention.last].text if mention.last < clause.last else ""
    pointed = following in scene.lexicon.lists["found-pointing"] or following in POINTED
    return bool(worked) and not led & scene.lexicon.classes["be"] and not pointed


def known_thing(scene: Scene, mention: Mention) -> bool:
    """Whether it is a thing named as known ("the vet will look at that lump")."""
    lists = scene.lexicon.lists
    before = scene.tokens[mention.first - 1].text if mention.first else ""
    return before in lists["found-definite"] and scene.tokens[mention.first].text in lists["found-nouns"]


def work_likened(scene: Scene, mention: Mention, clause: Clause) -> bool:
    """Whether it is how the hands work ("wring it like a dishcloth", "soft, one, two")."""
    if mention.last < clause.last and scene.tokens[mention.first].text in MANNER:
        following = scene.tokens[mention.last].text
        if following in scene.lexicon.numbers and following not in COUNTED_NOT:
            return True
    if scene.tokens[mention.first].text != "like":
        return False
    for work in scene.mentions.within("technique", clause.first, mention.first):
        between = scene.tokens[work.last : mention.first]
        if len(between) <= LIKENED_WITHIN and not any(
            token.mark for token in scene.tokens[work.last - 1 : mention.first]
        ):
            return all(token.text in scene.lexicon.lists["clause-likened_over"] for token in between)
    return False


def told_of_then(scene: Scene, mention: Mention, clause: Clause) -> bool:
    """Whether it is told how something was ("it was swelled up", "the one that was tight")."""
    led = scene.tokens[max(clause.first, mention.first - 2) : mention.first + 1]
    told = scene.words(clause)
    return any(token.text in WAS for token in led) and not NOW & set(told)


def names_one(scene: Scene, mention: Mention, clause: Clause) -> bool:
    """Whether it only tells which muscle is meant ("the one that's overbuilt")."""
    led = [token.text for token in scene.tokens[max(clause.first, mention.first - NAMED_REACH) : mention.last]]
    return any(
        led[place : place + 2] == ["the", "one"] and led[place + 2 : place + 3] in (["that"], ["which"], ["who"])
        for place in range(len(led))
    )


def led_in(scene: Scene, mention: Mention, place: int) -> str:
    """The word of place that leads from what is found to a structure at ``place``, or nothing."""
    between = [token.text for token in scene.tokens[mention.last - 1 : place]]
    led = [word for word in between if word not in SKIPPED]
    return led[-1] if led else ""
