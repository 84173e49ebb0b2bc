"""What something found is about: the structure and the side that the words beside it, or the hands, tell."""

from collections.abc import Sequence
from dataclasses import dataclass

from haywisp.narration.asserting import led_in
from haywisp.narration.clauses import Clause
from haywisp.narration.hands import Hands
from haywisp.narration.mentions import Mention
from haywisp.narration.scene import SKIPPED, Scene

FOCUS_S = 25.0
LEAD_IN = 4
APART = 8
TACK_REACH = 8
JOINED = 3
SIDE_S = 5.0
TURNS = frozenset({"and", "then", "so", "but", "now"})
LATERAL = {"left", "right"}
PLACED = ("skin", "swelling", "warmth")


@dataclass
class Focus:
    """What "it" is: structures, side, and since when."""

    structures: list[str]
    side: str | None
    since: float
    bout: int


class Subjects:
    """What "it" is as the talk goes on."""

    def __init__(self, scene: Scene, hands: Hands) -> None:
        self.scene, self.hands = scene, hands
        self.focus: Focus | None = None
        self.sided: tuple[str, float] | None = None

    def bout(self) -> int:
        """The number of bouts so far."""
        return len(self.hands.drafts)

    def set(self, structures: Sequence[str], side: str | None, when: float) -> None:
        """What is spoken of from now on."""
        self.focus = Focus(list(structures), side, when, self.bout())

    def focused(self) -> bool:
        """Whether something was named since the last bout began."""
        return self.focus is not None and self.focus.bout == self.bout()

    def name(self, clause: Clause, after: int) -> None:
        """Structures named from token ``after`` on without a technique become what the next findings are about."""
        named, _ = self.scene.targets(after, clause.last)
        if all(self.scene.of_sign(m) for m in self.scene.mentions.within("structure", after, clause.last)):
            named = []
        sides = [s for s in self.scene.mentions.within("side", after, clause.last) if s.id in LATERAL]
        if named or self.scene.has("technique", clause):
            self.sided = None
        elif sides:
            self.sided = (sides[-1].id, self.scene.start(sides[-1].first))
        if named and not self.scene.has("technique", clause) and not self._lured(clause):
            side, _ = self.hands.side_said(clause)
            self.set(named, side or self.hands.side, self.scene.start(clause.first))

    def _within(self, mention: Mention, place: str, after: bool) -> list[str]:
        """The muscle under the hand, where a place only says where in it something is ("tight at the withers")."""
        current, aspect = self.hands.current, self.scene.lexicon.said[mention.id].aspect
        if (
            current is None
            or not after
            or len(current.structures) != 1
            or aspect in (*PLACED, "symmetry", "development")
        ):
            return []
        wider = self.scene.region(place) == place and place in self.scene.around(current.structures)
        return list(current.structures) if wider and place not in current.structures else []

    def _lured(self, clause: Clause) -> bool:
        """Whether a clause only tells where a titbit is led ("to the right ribs"), and the neck is what bends."""
        latest = self.hands.latest
        return latest is not None and latest.technique == "baited-stretch" and latest.first >= clause.first

    def of(self, mention: Mention, clause: Clause) -> tuple[list[str], bool]:
        """Structures that a finding is about, and whether they were named beside it."""
        scene = self.scene
        every = [
            pair for pair in scene.structures(clause.first, clause.last) if not scene.rejected(pair[0], clause.first)
        ]
        near = [pair for pair in every if not scene.is_locator(pair[0], clause.first, len(every) > 1)]
        before = [pair for pair in near if pair[0].first < mention.last]
        after = self._beside(mention, near) or self._following(mention, every)
        far = bool(before) and self._far(before[-1][0], mention)
        if "topline" in "".join(token.text for token in scene.tokens[mention.first : mention.last]):
            return ["topline"], True
        tack = self._under_tack(mention, clause)
        if tack and (after is None or scene.region(after[1]) == scene.region(tack) or after[1] == "loin"):
            return [tack], True
        chosen = (after if after is not None and (not before or far) else None) or (before[-1] if before else None)
        if chosen is None and near and self.focus is None and self.hands.latest is None:
            between = scene.tokens[mention.last : near[0][0].first]
            chosen = None if any(token.text in TURNS for token in between) else near[0]
        if chosen is not None:
            under = self._within(mention, chosen[1], chosen is after)
            if under:
                return under, True
            joined = [s for m, s in before if chosen[0].first - m.last <= 2 and m.last <= chosen[0].first]
            names = [*joined, chosen[1]] if scene.has("finishing", clause) else [chosen[1]]
            return scene.narrowed(names), True
        latest = self.hands.latest
        part = scene.part_meant(mention.first - LEAD_IN, mention.last, latest.structures) if latest else []
        if part and any(token.mark == "stop" for token in scene.tokens[mention.first - LEAD_IN : mention.first]):
            part = []
        return (part, True) if part else (self.lately(scene.start(mention.first)), False)

    def other_of_two(self, clause: Clause) -> None:
        """ "The other" of two muscles under the hands, where no side is meant ("the other is not good")."""
        current, scene = self.hands.current, self.scene
        if current is None or len(current.structures) != 2 or self.focus is None or not self.focused():
            return
        words = scene.words(clause)
        other = "other" in words[:3] and "side" not in words and not scene.has("technique", clause)
        if other and len(self.focus.structures) == 1 and self.focus.structures[0] in current.structures:
            rest = [s for s in current.structures if s != self.focus.structures[0]]
            self.set(rest, current.side, scene.start(clause.first))

    def one_of(self, structures: Sequence[str], mention: Mention) -> str:
        """Which of several structures under the hands is meant: the one named last, or the first of a joined pair."""
        draft = self.hands.current or self.hands.latest
        since = draft.first if draft is not None else mention.first
        named = [(m, s) for m, s in self.scene.structures(max(0, since - 12), mention.first) if s in structures]
        after = [token.text for token in self.scene.tokens[mention.first : mention.last + 2]]
        if len(named) < 2 or (named[-1][0].first - named[-2][0].last <= JOINED and "one" not in after):
            return structures[0]
        return named[-1][1]

    def lately(self, when: float) -> list[str]:
        """What was named lately, else what is or just was under the hands."""
        if self.focus is not None and self.focused() and when - self.focus.since <= FOCUS_S:
            return list(self.focus.structures)
        draft = self.hands.current or self.hands.latest
        if draft is None or (draft.end is not None and when - draft.end > FOCUS_S):
            return []
        return list(draft.structures)

    def _under_tack(self, mention: Mention, clause: Clause) -> str:
        """The part that tack lies on, where what is on the surface is told to be there ("heat under the pad")."""
        scene = self.scene
        if scene.lexicon.said[mention.id].aspect not in PLACED:
            return ""
        told = scene.mentions.within("tack", mention.first, min(clause.last, mention.last + TACK_REACH))
        stopped = told and any(token.mark == "stop" for token in scene.tokens[mention.last - 1 : told[0].first])
        return told[0].id if told and not stopped else ""

    def _far(self, named: Mention, mention: Mention) -> bool:
        """Whether a structure named before stands apart from what is found, by distance or a turn of the talk."""
        between = self.scene.tokens[named.last - 1 : mention.first]
        words = [token.text for token in between[1:]]
        return len(words) > APART or any(token.mark == "stop" for token in between) or "there" in words

    def _beside(self, mention: Mention, near: Sequence[tuple[Mention, str]]) -> tuple[Mention, str] | None:
        """A structure that the words for what is found describe ("tight hamstrings", "a sore back")."""
        scene = self.scene
        for pair in near:
            if pair[0].first < mention.last:
                continue
            between = scene.tokens[mention.last : pair[0].first]
            copula = scene.tokens[mention.first - 1].text if mention.first else ""
            there = mention.first > 1 and scene.tokens[mention.first - 2].text == "there"
            adjacent = not between and scene.tokens[mention.last - 1].mark == ""
            muscle = scene.region(pair[1]) != pair[1] and pair[0].kind != "ambiguous"
            if not between and muscle and scene.tokens[mention.last - 1].mark == "comma":
                return pair
            if adjacent and (there or copula not in scene.lexicon.classes["is"]):
                return pair
            break
        return None

    def _following(self, mention: Mention, near: Sequence[tuple[Mention, str]]) -> tuple[Mention, str] | None:
        """A structure that follows what is found, led in by a word of place ("a knot in the splenius")."""
        lists = self.scene.lexicon.lists
        aspect = self.scene.lexicon.said[mention.id].aspect
        for pair in near:
            if pair[0].first < mention.last:
                continue
            between = self.scene.tokens[mention.last : pair[0].first]
            told = [token for token in between if token.text not in SKIPPED]
            stopped = any(token.mark == "stop" or token.text in TURNS for token in between)
            if len(told) > LEAD_IN or stopped or self.scene.tokens[mention.last - 1].mark == "stop":
                break
            lead = led_in(self.scene, mention, pair[0].first)
            pair = self._more_exact(pair, near)
            if lead in lists["leads-in"] or (aspect in PLACED and lead in lists["found-places"]):
                return pair
            break
        return None

    def _more_exact(self, pair: tuple[Mention, str], near: Sequence[tuple[Mention, str]]) -> tuple[Mention, str]:
        """Of places told one after another the part within the whole ("of her right hind, down on the gaskin")."""
        for later in near:
            gap = later[0].first - pair[0].last
            if 0 <= gap <= LEAD_IN and pair[1] in self.scene.around([later[1]]) and later[1] != pair[1]:
                return later
        return pair

    def _said(self, mention: Mention, clause: Clause) -> str | None:
        """The side that a clause tells of what is found, and not of where the talk or the hands go next."""
        scene = self.scene
        said, first = self.hands.side_said(clause)
        if said is None or first is None or first < mention.last:
            return said
        between = scene.tokens[mention.last : first]
        return None if any(token.text in TURNS for token in between) else said

    def side(self, mention: Mention, clause: Clause, structures: Sequence[str], named: bool) -> str | None:
        """The side of a finding."""
        scene, hands = self.scene, self.hands
        if not any(scene.paired(s) for s in structures):
            return None
        said = self._said(mention, clause)
        if said is not None:
            nearest = [s for s in scene.mentions.within("side", clause.first, clause.last) if s.id in LATERAL]
            if len({s.id for s in nearest}) > 1 and not scene.has("correction", clause):
                return min(nearest, key=lambda s: abs(s.first - mention.first)).id
            return said
        if self.sided is not None and not named and scene.start(clause.first) - self.sided[1] <= SIDE_S:
            return self.sided[0]
        draft = hands.current or hands.latest
        if draft is not None and not named and set(structures) <= set(draft.structures) and draft.side is not None:
            return draft.side
        if all(s in scene.lexicon.central for s in structures):
            return draft.side if draft is not None and set(structures) & set(draft.structures) else None
        if self.focus is not None and not named and self.focused():
            return self.focus.side
        if hands.current is not None and set(structures) & set(hands.current.structures):
            return hands.current.side
        return hands.side
