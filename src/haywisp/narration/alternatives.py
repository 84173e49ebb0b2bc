"""Where else an entry may belong: structures named beside it, under the hands, or perhaps misheard."""

from haywisp.narration.hearing import Hearing
from haywisp.narration.tokens import Token
from haywisp.narration.types import Bout, Finding, Repair

MOST = 3
JOINT = ","


def places_of(entry: Bout | Finding, hearing: Hearing) -> tuple[list[str], str]:
    """Other structures that an entry may be of, the likeliest first, and the words that perhaps named one."""
    scene = hearing.scene
    place = hearing.place_of(entry.span)
    number = hearing.number_at(place)
    clause, before = scene.clauses[number], scene.clauses[max(0, number - 1)]
    own = set(entry.structures) if isinstance(entry, Bout) else {entry.structure}
    doubted = hearing.doubted_in(clause.first, clause.last) or hearing.doubted_in(before.first, before.last)
    meant = [(structure, one.heard) for one in doubted for structure in _structures(one, hearing)]
    beside = [
        name
        for first, last in ((clause.first, clause.last), (before.first, before.last))
        for mention in scene.mentions.within("structure", first, last)
        for name in hearing.names(mention)
    ]
    under = hearing.draft_at(scene.start(place))
    held = list(under.structures) if under is not None and isinstance(entry, Finding) else []
    found = [name for name in dict.fromkeys([*(name for name, _ in meant), *beside, *held]) if name not in own]
    heard = next((said for name, said in meant if name in found), "")
    return found[:MOST], heard


def _structures(doubted: Repair, hearing: Hearing) -> list[str]:
    tokens = [Token(text, 0, 0.0, 0.0, 0.0, "") for text in doubted.meant.split()]
    return [match.meaning for match in hearing.scene.lexicon.matchers["structure"].find(tokens)]
