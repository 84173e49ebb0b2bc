"""What the listener has in front of it: tokens, mentions, clauses, and the readings that need the whole narration."""

from bisect import bisect_left
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, field

from haywisp.narration.clauses import Clause, clauses_of
from haywisp.narration.counting import Count, counts
from haywisp.narration.lexicon import Lexicon
from haywisp.narration.mentions import Mention, Mentions
from haywisp.narration.tokens import Token
from haywisp.narration.types import Repair, Span

SKIPPED = frozenset(
    [
        "the",
        "his",
        "her",
        "its",
        "a",
        "an",
        "that",
        "this",
        "right",
        "left",
        "whole",
        "very",
        "near",
        "off",
        "same",
        "big",
        "little",
        "both",
        "your",
        "my",
        "our",
        "middle",
        "upper",
        "lower",
    ]
)
LOCATORS = frozenset(
    [
        "from",
        "until",
        "till",
        "behind",
        "beside",
        "before",
        "past",
        "above",
        "below",
        "toward",
        "towards",
        "than",
        "like",
    ]
)
TO_TARGETS = frozenset(
    ["down", "up", "over", "back", "on", "moving", "round", "now", "move", "go", "come", "in", "way"]
)
QUALIFIER_REACH = 7
SIGN_REACH = 8
PARTS_REACH = 5
REJECTED_REACH = 4


@dataclass
class Scene:
    """A narration prepared for understanding."""

    tokens: Sequence[Token]
    mentions: Mentions
    clauses: Sequence[Clause]
    counts: Sequence[Count]
    repairs: Sequence[Repair]
    lexicon: Lexicon
    recent: list[str] = field(default_factory=list)
    doubtful: set[tuple[str, float]] = field(default_factory=set)
    doubted: list[Repair] = field(default_factory=list)

    def words(self, clause: Clause) -> list[str]:
        """The texts of a clause's tokens."""
        return [token.text for token in self.tokens[clause.first : clause.last]]

    def start(self, place: int) -> float:
        """When a token begins, in seconds."""
        return self.tokens[place].start

    def span(self, first: int, last: int) -> Span:
        """The words that tokens ``first`` to ``last`` (excluded) are part of."""
        return Span(self.tokens[first].word, self.tokens[max(first, last - 1)].word + 1)

    def refused_next(self, clause: Clause) -> bool:
        """Whether what follows in the same breath refuses what this clause names ("the lat … I'm going to skip")."""
        place = bisect_left(self.clauses, clause.first, key=lambda other: other.first)
        for following in self.clauses[place + 1 : place + 3]:
            if following.fresh:
                return False
            if following.mode == "declined":
                own = [
                    m.id
                    for k in ("structure", "technique", "side")
                    for m in self.mentions.within(k, following.first, following.last)
                ]
                return not any(name != "here" for name in own)
        return False

    def has(self, kind: str, clause: Clause, meaning: str = "") -> bool:
        """Whether a clause holds a mention of a kind."""
        return any(not meaning or m.id == meaning for m in self.mentions.within(kind, clause.first, clause.last))

    def repaired(self, first: int, last: int) -> float:
        """The least confidence among the repairs that touch these tokens; 1 where none does."""
        span = self.span(first, last)
        touching = [r.confidence for r in self.repairs if r.span.first < span.last and span.first < r.span.last]
        return min(touching, default=1.0)

    def denied(self, place: int, clause_first: int, reach: int = 4, stops: Collection[str] = ()) -> bool:
        """Whether "no", "not" or their like stand before a token in its clause, and no stop, comma or stopping word."""
        for before in range(place - 1, max(clause_first, place - 1 - reach) - 1, -1):
            token = self.tokens[before]
            if token.mark or token.text in stops:
                return False
            if token.text in self.lexicon.lists["denial"]:
                return True
        return False

    def paired(self, structure: str) -> bool:
        """Whether a structure has a left and a right."""
        return self.lexicon.tables.structures[structure].paired

    def region(self, structure: str) -> str:
        """The region that holds a structure; a region holds itself."""
        return self.lexicon.tables.structures[structure].region

    def group(self, structure: str) -> str:
        """The part of the body that a structure belongs to; a region is of its muscles' part."""
        row = self.lexicon.tables.structures[structure]
        if row.group != "regions":
            return row.group
        inside = [
            s.group for s in self.lexicon.tables.structures.values() if s.region == structure and s.id != structure
        ]
        return inside[0] if inside else row.group

    def around(self, structures: Iterable[str]) -> set[str]:
        """The regions and wholes that structures are part of."""
        named = list(structures)
        return {self.region(s) for s in named} | {w for s in named for w in self.lexicon.wholes.get(s, ())}

    def resolve(self, mention: Mention) -> str:
        """The structure that a mention names; a bare shared name takes its qualifier, or what was named last."""
        if mention.kind != "ambiguous":
            return mention.id
        candidates = self.lexicon.ambiguous[mention.id]
        beside = [
            m.id
            for m in self.mentions.within("structure", max(0, mention.first - 12), mention.last + 12)
            if m.kind != "ambiguous"
        ]
        near = [
            q
            for q in self.mentions.every("qualified", mention.first - QUALIFIER_REACH, mention.last + QUALIFIER_REACH)
            if q.id in candidates
        ]
        if near:
            return min(near, key=lambda q: abs(q.first - mention.first)).id
        for earlier in [*beside, *reversed(self.recent[-60:])]:
            if earlier in candidates:
                return earlier
        for earlier in [*beside, *reversed(self.recent[-60:])]:
            alike = [c for c in candidates if self.region(c) == self.region(earlier)]
            alike = alike or [c for c in candidates if self.group(c) == self.group(earlier)]
            if len(alike) == 1:
                return alike[0]
        self.doubtful.update((candidate, self.start(mention.first)) for candidate in candidates)
        return candidates[0]

    def structures(self, first: int, last: int) -> list[tuple[Mention, str]]:
        """Structures named from token ``first`` to before ``last``, resolved, in order."""
        named = self.mentions.within("structure", first, last)
        return [
            (mention, structure)
            for mention in named
            if not self._a_direction(mention)
            for structure in (self._both_parts(mention) or [self.resolve(mention)])
        ]

    def _both_parts(self, mention: Mention) -> Sequence[str]:
        """Both parts of a muscle that has two under one name, where that is told ("trapezius, both bits of it")."""
        if mention.kind != "ambiguous":
            return ()
        parts = self.lexicon.ambiguous[mention.id]
        if len({part.split("-")[0] for part in parts}) > 1:
            return ()
        after = [token.text for token in self.tokens[mention.last : mention.last + PARTS_REACH]]
        before = [token.text for token in self.tokens[max(0, mention.first - PARTS_REACH) : mention.first]]
        lists = self.lexicon.lists
        told = any(
            word in lists["clause-both"] and following in lists["clause-parts"]
            for words in (after, before)
            for word, following in zip(words, words[1:], strict=False)
        )
        return parts if told else ()

    def _a_direction(self, mention: Mention) -> bool:
        """Whether "back" is where a limb goes and no place ("right hind, back, and hold")."""
        before = self.tokens[mention.first - 1] if mention.first else None
        return (
            before is not None
            and self.tokens[mention.first].text == "back"
            and before.text in self.lexicon.lists["limb-words"]
            and before.mark != "stop"
        )

    def of_sign(self, mention: Mention) -> bool:
        """Whether a structure is what the horse moves in a sign ("stamped the left hind", "lifting a hind leg")."""
        for sign in self.mentions.within("sign", mention.first - SIGN_REACH, mention.last):
            between = self.tokens[sign.last - 1 : mention.first]
            if not any(token.mark for token in between) and (
                sign.last > mention.first or all(token.text in SKIPPED for token in between[1:])
            ):
                return self.region(self.resolve(mention)) == self.resolve(mention)
        return False

    def is_locator(self, mention: Mention, clause_first: int, others: bool) -> bool:
        """Whether a structure only says where something is ("from the poll", "behind the shoulder")."""
        after = self.tokens[mention.last].text if mention.last < len(self.tokens) else ""
        if after in self.lexicon.classes["is"] and not self.tokens[mention.last - 1].mark:
            return False
        if others and self._begins_stretch(mention):
            return True
        place = mention.first - 1
        if place >= clause_first and self.tokens[place].mark:
            return False
        while place >= clause_first and self.tokens[place].text in SKIPPED:
            place -= 1
        if place < clause_first or self.tokens[place].mark:
            return False
        word = self.tokens[place].text
        before = self.tokens[place - 1].text if place > clause_first else ""
        if word == "behind" and not others and self.region(self.resolve(mention)) != self.resolve(mention):
            return False
        if word in LOCATORS or (
            word == "of" and before in {"front", "top", "back", "end", "bottom", "base"} and others
        ):
            return True
        if word == "to" and before == "next":
            return True
        if word == "to":
            if any(token.text == "from" for token in self.tokens[max(clause_first, place - 9) : place]):
                return True
            if before in self.lexicon.lists["extent-ends"]:
                return True
            return others and before not in TO_TARGETS
        return False

    def _begins_stretch(self, mention: Mention) -> bool:
        """Whether a structure is the near end of a stretch of the body ("withers to hip")."""
        following = [token.text for token in self.tokens[mention.last : mention.last + 3]]
        if following[:1] != ["to"] or self.tokens[mention.last - 1].mark:
            return False
        ends = self.lexicon.lists["extent-ends"]
        far = following[2:3] if following[1:2] and following[1] in SKIPPED else following[1:2]
        return bool(far) and far[0] in ends

    def targets(self, first: int, last: int) -> tuple[list[str], int | None]:
        """Structures that the hands go to in a stretch, and the token where they are first named.

        Regions that a named muscle lies in fall away; "from A to B" alone gives the part between.
        """
        named = self.structures(first, last)
        named = [(m, s) for m, s in named if not self.rejected(m, first)]
        muscles = {m.first for m, s in named if self.region(s) != s}
        leads = {m.last for m, s in named if self.region(s) == s}
        led = {m.first for m, _ in named} & leads
        named = [(m, s) for m, s in named if m.last not in led or self.region(s) != s]
        kept = [
            (m, s)
            for m, s in named
            if not self.is_locator(m, first, len(named) > 1) or (m.first in muscles and len(muscles) > 1)
        ]
        if not kept and len(named) >= 2:
            ends = (named[0][1], named[1][1])
            part = self.lexicon.routes.get(ends) or self.lexicon.routes.get((ends[1], ends[0]))
            return ([part] if part else [named[1][1]]), named[0][0].first
        if not kept:
            return [], None
        return self.narrowed([s for _, s in kept]), kept[0][0].first

    def only_ends(self, first: int, last: int) -> bool:
        """Whether a stretch names only where a stroke begins and ends ("from the ribs to the hip")."""
        named = [(m, s) for m, s in self.structures(first, last) if not self.rejected(m, first)]
        return len(named) > 1 and all(self.is_locator(m, first, True) and self.region(s) == s for m, s in named)

    def part_meant(self, first: int, last: int, structures: Sequence[str]) -> list[str]:
        """The one of two parts of a muscle that is told by its qualifier alone ("the back bit")."""
        pairs = [set(pair) for pair in self.lexicon.ambiguous.values()]
        if not any(pair <= set(structures) for pair in pairs):
            return []
        told = [m.id for m in self.mentions.every("qualified", first, last) if m.id in structures]
        return told[-1:]

    def rejected(self, mention: Mention, first: int) -> bool:
        """Whether a structure is named only to say that it is not meant ("not the hind one")."""
        words = [token.text for token in self.tokens[max(first, mention.first - REJECTED_REACH) : mention.first]]
        return ("not" in words or "away" in words) and self.tokens[mention.first - 1].mark == ""

    def started_from(self, first: int, last: int) -> list[str]:
        """The one place that a clause names as where a movement starts ("rock him from the sacrum")."""
        named = self.structures(first, last)
        if len(named) != 1:
            return []
        mention, structure = named[0]
        before = [token.text for token in self.tokens[max(first, mention.first - 3) : mention.first]]
        return [structure] if "from" in before else []

    def narrowed(self, structures: Sequence[str]) -> list[str]:
        """Structures once each, without the regions that hold another of them."""
        distinct = list(dict.fromkeys(structures))
        held = {self.region(s) for s in distinct if self.region(s) != s}
        held |= {whole for s in distinct for whole in self.lexicon.wholes.get(s, ())}
        muscles = [s for s in distinct if self.lexicon.tables.structures[s].group != "regions"]
        kept = [s for s in muscles or distinct if s not in held]
        return kept or distinct


def build_scene(tokens: Sequence[Token], repairs: Sequence[Repair], lexicon: Lexicon) -> Scene:
    """Prepare tokens for understanding."""
    mentions = Mentions(tokens, lexicon)
    clauses = clauses_of(tokens, mentions, lexicon)
    return Scene(tokens, mentions, clauses, counts(tokens, lexicon), repairs, lexicon)
