"""Tokens parted into clauses: where one begins, with or without the marks of writing."""

from collections.abc import Sequence

from haywisp.narration.counting import counts
from haywisp.narration.lexicon import Lexicon
from haywisp.narration.mentions import Mention, Mentions
from haywisp.narration.tokens import Token

BREAK_S = 1.0
PUNCTUATED_BREAK_S = 3.0
PUNCTUATED_SHARE = 0.03
PLACED_WITHIN = 4
OWN_HAND = 5
NAMED_BEFORE = 4
DESCRIBED_WITHIN = 16
COUNTED_CLOSE = 3
OTHERS = frozenset({"they", "people", "folk", "folks", "some", "others", "many", "most"})
ENDS_THOUGHT = frozenset({"today", "time", "way", "day", "out", "omitted", "indicated"})
GLUED = frozenset({"a", "very", "so", "is", "'s", "pretty", "really", "not", "n't", "as", "too", "quite", "all", "how"})
LEADS_IN = frozenset({"on", "the", "his", "her", "to", "over", "at"})
TURNING_MODES = ("declined", "next", "could", "usual", "advice")
RELATIVE = frozenset({"that", "which"})
LESSON_OPENERS = frozenset({"that", "it", "which", "the"})


def split(tokens: Sequence[Token], lexicon: Lexicon, mentions: Mentions) -> list[tuple[int, int]]:
    """First and last token of each clause.

    A clause ends at a full stop or a pause, and begins at a turn of the talk ("okay", "so", "then"), where the hands or
    the talk go elsewhere or come back, or at a subject with its verb, unless a linking word holds it to what came
    before ("where he is sore").
    """
    side_places = {side.first for side in mentions.all("side")}
    turning = turning_places(tokens, mentions)
    work = fresh_work(tokens, mentions, lexicon)
    scopes = {m.last for m in mentions.all("mode") if m.id in TURNING_MODES}
    structured = {mention.first for mention in mentions.all("structure")}
    heads = {count.first for count in counts(tokens, lexicon)}
    headed = {led_in(tokens, m.first, 0) for m in mentions.all("structure") if m.last in heads}
    rough = {m.first for m in mentions.all("rough")}
    roughed = {led_in(tokens, m.first, 0) for m in mentions.all("structure") if m.last in rough}
    denials = {
        place
        for aspect in mentions.all("aspect")
        for place in range(max(0, aspect.first - 2), aspect.first + 1)
        if tokens[place].text in {"no", "not", "nothing"} and (place == 0 or not tokens[place - 1].text.startswith("'"))
    }
    inside = {
        place
        for kind in ("aspect", "sign")
        for mention in mentions.all(kind)
        for place in range(mention.first + 1, mention.last - 1)
    }
    inside |= {place for side in mentions.all("side") for place in range(side.first + 1, side.last)}
    spared = {m.first for m in mentions.all("action") if m.id == "avoid-site"}
    passes = lexicon.lists["number-passes"]
    repeats = {m.first for m in mentions.all("same") if m.id == "whole" and tokens[m.last - 1].text == "again"}
    starts = [0]
    counted = {
        count.last for count in counts(tokens, lexicon) if count.last - count.first <= COUNTED_CLOSE * count.reached
    }
    pause = breaking_pause(tokens)
    for place in range(1, len(tokens)):
        before = tokens[place - 1]
        if place in inside and before.mark != "stop":
            continue
        broken = before.mark == "stop" or before.pause >= pause
        gone_on = any(starts[-1] < observed <= place for observed in work.get(place, ()))
        if gone_on and not any(observed in scopes for observed in work.get(place, ())):
            gone_on = not [m for m in mentions.within("mode", starts[-1], place) if m.id in TURNING_MODES]
        told = bool(mentions.within("aspect", starts[-1], place))
        sided = (place - starts[-1] > 1 or (told and place > starts[-1])) and leads_side(tokens, place, lexicon)
        if sided and mentions.within("technique", starts[-1], place):
            sided = bool(mentions.within("structure", starts[-1], place))
        if place in structured and any(
            m.last == place for m in mentions.within("same", max(starts[-1], place - 4), place)
        ):
            starts.append(place)
            continue
        if told and place in repeats and tokens[place - 1].text not in lexicon.lists["place"]:
            starts.append(place)
            continue
        if place in denials and named_work(starts[-1], place, mentions):
            starts.append(place)
            continue
        if place in spared and mentions.within("aspect", starts[-1], place):
            starts.append(place)
            continue
        if place in roughed and told and not mentions.within("technique", starts[-1], place):
            starts.append(place)
            continue
        if place in headed and place - starts[-1] > 1 and not mentions.within("technique", starts[-1], place):
            starts.append(place)
            continue
        opened = place not in side_places and opens(tokens, place, starts[-1], lexicon)
        if (
            broken
            or place in turning
            or gone_on
            or sided
            or opened
            or (place in counted and tokens[place].text not in passes)
        ):
            starts.append(place)
    return [(first, last) for first, last in zip(starts, [*starts[1:], len(tokens)], strict=True) if last > first]


def named_work(first: int, place: int, mentions: Mentions) -> bool:
    """Whether tokens up to a place name work and nothing that was found yet."""
    work = mentions.within("technique", first, place) or mentions.within("same", first, place)
    ended = [m for m in work if m.last >= place - 4]
    return bool(ended) and not mentions.within("aspect", first, place)


def breaking_pause(tokens: Sequence[Token]) -> float:
    """The silence that ends a clause: longer where full stops are written, as pieces are cut inside sentences."""
    stops = sum(1 for token in tokens if token.mark == "stop")
    return PUNCTUATED_BREAK_S if stops > PUNCTUATED_SHARE * len(tokens) else BREAK_S


def turning_places(tokens: Sequence[Token], mentions: Mentions) -> set[int]:
    """Tokens at which the talk turns, by the cues that stand there."""
    places = {mention.first for mention in mentions.all("talk")}
    backs = [mention for mention in mentions.all("talk") if mention.id == "back_to_work"]
    places |= {mention.last for mention in backs if tokens[mention.first].text != "this"}
    places -= {mention.first for mention in backs if tokens[mention.first].text == "this"}
    places |= {mention.first for mention in mentions.all("after-begins")}
    lessons = {m.first for m in mentions.all("mode") if m.id == "lesson" and tokens[m.first].text in LESSON_OPENERS}
    return places | lessons | {mention.first for mention in mentions.all("mode") if mention.id in TURNING_MODES}


def fresh_work(tokens: Sequence[Token], mentions: Mentions, lexicon: Lexicon) -> dict[int, list[int]]:
    """Where the hands go on: tokens at which a technique (or the side or structure that leads into it) is named.

    Each with the ends of what was observed shortly before; a clause begins there when one of these lies within it.
    """
    observed = sorted([m.last for kind in ("aspect", "sign") for m in mentions.all(kind)])
    techniques = mentions.all("technique")
    places: dict[int, list[int]] = {}
    for number, technique in enumerate(techniques):
        since = techniques[number - 1].last if number else 0
        seen = [place for place in observed if since < place <= technique.first]
        if seen:
            named = [
                m.first
                for kind in ("structure", "side", "same")
                for m in mentions.within(kind, seen[-1], technique.first)
            ]
            turns = lexicon.lists["clause-turns"] | lexicon.lists["clause-subjects"]
            leading = [
                n
                for n in named
                if technique.first - n <= 5
                and not any(t.text in turns or t.mark == "stop" for t in tokens[n : technique.first])
            ]
            places[led_in(tokens, min([technique.first, *leading]), seen[-1])] = seen
    for technique in techniques:
        cues = [
            m for m in mentions.within("mode", technique.first - 12, technique.first) if m.id in ("declined", "could")
        ]
        cues += lessons_left(tokens, technique, mentions)
        telling = described(tokens, technique, mentions)
        if telling is not None:
            places.setdefault(technique.first, []).append(telling.last)
        if cues and of_others(tokens, cues[-1], technique.first):
            continue
        if cues and tokens[cues[-1].last - 1].text in ENDS_THOUGHT:
            places.setdefault(cues[-1].last, []).append(cues[-1].last)
        if cues and beyond_scope(tokens, cues[-1].last, technique.first, mentions, lexicon):
            places.setdefault(named_before(tokens, technique.first, cues[-1].last, mentions), []).append(cues[-1].last)
    for structure in mentions.all("structure"):
        place = leading_and(tokens, structure.first)
        plain = [
            m for m in mentions.within("aspect", structure.first - 3, structure.first) if m.last == structure.first
        ]
        weak = any(lexicon.said[m.id].strength == 0 for m in plain)
        if place is not None or weak:
            at = structure.first if place is None else place
            places.setdefault(at, []).extend(end for end in observed if end <= at)
    for side in mentions.all("side"):
        following = tokens[side.last].text if side.last < len(tokens) else ""
        led = (
            side.first
            and tokens[side.first - 1].text in lexicon.lists["place"]
            and tokens[side.first - 1].text != "and"
        )
        own = tokens[side.last - 1].text in lexicon.lists["limb-words"] and side.last - side.first > 1
        joined = leading_and(tokens, side.first)
        if joined is not None and (own or following in lexicon.lists["limb-words"] or side.id == "other"):
            places.setdefault(joined, []).extend(place for place in observed if place <= joined)
        elif (own or following in lexicon.lists["limb-words"]) and not led:
            places.setdefault(side.first, []).extend(place for place in observed if place <= side.first)
    for cue in mentions.all("mode"):
        if cue.id == "past":
            places.setdefault(cue.first, []).extend(
                t.last for t in mentions.within("technique", cue.first - 20, cue.first)
            )
            if tokens[cue.first].text in {"my", "notes", "it", "i"}:
                places[cue.first].extend(m.last for m in mentions.within("structure", cue.first - 7, cue.first))
    return places


def lessons_left(tokens: Sequence[Token], technique: Mention, mentions: Mentions) -> list[Mention]:
    """Cues of a lesson before a technique that is named with its place and so is no part of the lesson."""
    placed = bool(mentions.within("structure", technique.last, technique.last + PLACED_WITHIN))
    after = [token.text for token in tokens[technique.last : technique.last + OWN_HAND]]
    before = [token.text for token in tokens[max(0, technique.first - 3) : technique.first]]
    placed = placed or bool({"my", "me"} & set(after)) or bool({"i", "go"} & set(before))
    lessons = [m for m in mentions.within("mode", technique.first - 14, technique.first) if m.id == "lesson"]
    return lessons if placed else []


def described(tokens: Sequence[Token], technique: Mention, mentions: Mentions) -> Mention | None:
    """The "that runs …" between a muscle and what is done to it ("the rhomboid that runs … kneading it"), or None."""
    after = tokens[technique.last].text if technique.last < len(tokens) else ""
    for cue in mentions.within("mode", technique.first - DESCRIBED_WITHIN, technique.first):
        between = tokens[cue.first : technique.first]
        stopped = any(token.mark == "stop" for token in between)
        named = mentions.within("structure", cue.first - 3, cue.first)
        if cue.id == "lesson" and tokens[cue.first].text in RELATIVE and named and not stopped:
            return cue if after in {"it", "with"} else None
    return None


def of_others(tokens: Sequence[Token], cue: Mention, place: int) -> bool:
    """Whether what others do ("they'll spend ages kneading it") still goes on at a token."""
    texts = [token.text for token in tokens[cue.first : place]]
    stopped = any(token.mark == "stop" for token in tokens[cue.last - 1 : place - 1])
    return bool(set(texts[: cue.length]) & OTHERS) and "i" not in texts and not stopped


def named_before(tokens: Sequence[Token], place: int, since: int, mentions: Mentions) -> int:
    """The structure or side just before a technique, with what leads into it; else the technique's own place."""
    near = [
        m.first
        for kind in ("structure", "side")
        for m in mentions.within(kind, max(since + 2, place - NAMED_BEFORE), place)
        if not any(token.mark for token in tokens[m.first : place])
    ]
    return led_in(tokens, min(near), since + 1) if near else place


def led_in(tokens: Sequence[Token], place: int, since: int) -> int:
    """The small words that lead into a token ("on the left"), back to ``since``."""
    while place - 1 > since and tokens[place - 1].text in LEADS_IN and not tokens[place - 1].mark:
        place -= 1
    return place


def opens(tokens: Sequence[Token], place: int, start: int, lexicon: Lexicon) -> bool:
    """Whether a clause begins at this token, which follows on without a stop."""
    lists = lexicon.lists
    word, before = tokens[place].text, tokens[place - 1].text
    following = tokens[place + 1].text if place + 1 < len(tokens) else ""
    if place - start < 1:
        return False
    if word in lists["clause-links"] and place + 1 < len(tokens):
        later = tokens[place + 2].text if place + 2 < len(tokens) else ""
        if following in lists["clause-turns"]:
            return True
        if following in lists["clause-subjects"] and later in lists["clause-verbs"]:
            return True
        if word not in lists["clause-turns"]:
            return False
    if before in lists["clause-links"] or (before in lists["clause-turns"] and place - start == 1):
        return False
    if word == "well" and before == "as":
        return False
    if word == "now" and before in lists["clause-now_after"]:
        return False
    if word in {"right", "good", "well", "now"} and before in GLUED:
        return False
    if (
        word in {"the", "his", "her"}
        and place - start > 3
        and tokens[place - 1].mark == "comma"
        and later_is(tokens, place)
    ):
        return True
    if word in lists["clause-turns"]:
        return not (word in {"right", "good", "well", "now"} and before in lists["right-before"])
    if word in lists["clause-subjects"] and following in lists["clause-verbs"]:
        return before not in lists["clause-holds"]
    return False


def later_is(tokens: Sequence[Token], place: int) -> bool:
    """Whether a statement of its own begins with an article here ("…, the skin's clear")."""
    return place + 2 < len(tokens) and tokens[place + 2].text in {"'s", "is", "are"}


def beyond_scope(tokens: Sequence[Token], first: int, last: int, mentions: Mentions, lexicon: Lexicon) -> bool:
    """Whether a verb of its own stands between "not going to", "you can" and a technique, so that it is not meant."""
    between = [token.text for token in tokens[first:last]]
    if mentions.within("structure", first, last - 5):
        return False
    return any(word not in lexicon.lists["clause-scope_words"] and word not in lexicon.worked for word in between)


def leading_and(tokens: Sequence[Token], first: int) -> int | None:
    """The "and" that leads into a structure ("… and the calf"), or None."""
    place = first - 1
    while place >= 0 and tokens[place].text in {"the", "his", "her", "then", "now"} and not tokens[place].mark:
        place -= 1
    return place if place >= 0 and tokens[place].text == "and" and not tokens[place].mark else None


def leads_side(tokens: Sequence[Token], place: int, lexicon: Lexicon) -> bool:
    """Whether "left side", "off side" and the like begin here without a word that leads into them."""
    if place + 1 >= len(tokens) or tokens[place + 1].text not in lexicon.lists["clause-sided"]:
        return False
    return tokens[place].text in {"left", "right", "near", "off", "other"} and (
        tokens[place - 1].text not in lexicon.lists["place"]
    )
