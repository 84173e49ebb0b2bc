"""A transcript to a narration: the parts of the grammar, joined.

Words are repaired, cut into tokens, named (mentions), parted into clauses with their modality, and heard clause by
clause by three listeners: the hands (bouts), the observer (findings, responses) and the decider (actions). What stays
in doubt becomes a question. The grammar is written down in ``docs/grammar.md``.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from haywisp.knowledge import Tables
from haywisp.narration.alerts import Watch, alerts_of, watch_of, with_alerts
from haywisp.narration.deciding import Decider
from haywisp.narration.doubting import judge
from haywisp.narration.drafts import Draft
from haywisp.narration.finishing import finish, momentary
from haywisp.narration.hands import Hands
from haywisp.narration.lexicon import Lexicon, build
from haywisp.narration.observing import Observer
from haywisp.narration.own_words import OwnWords, lexicon_with, marked, own_words_of
from haywisp.narration.repair import Repairer
from haywisp.narration.scene import Scene, build_scene
from haywisp.narration.tokens import tokenise
from haywisp.narration.types import Action, Narration, OwnWord, Repair, Transcript


@dataclass(frozen=True)
class Ear:
    """What hears with one lexicon: the repairer of its words, the watch for red flags if it has one, and own words."""

    repairer: Repairer
    watch: Watch | None
    own: OwnWords | None = None


MOST_BUILT = 32
_BUILT: dict[tuple[int, tuple[OwnWord, ...]], tuple[Tables, Lexicon, Ear]] = {}


def prepared(tables: Tables, own: tuple[OwnWord, ...] = ()) -> tuple[Lexicon, Ear]:
    """The compiled lexicon of tables and the ear that hears with it, made once for each set of tables and own words."""
    held = _BUILT.get((id(tables), own))
    if held is None or held[0] is not tables:
        held = (tables, *_own_built(tables, own)) if own else (tables, *_built(tables))
        _keep(held, own)
    return held[1], held[2]


def _keep(held: tuple[Tables, Lexicon, Ear], own: tuple[OwnWord, ...] = ()) -> None:
    for oldest in list(_BUILT)[: max(0, len(_BUILT) + 1 - MOST_BUILT)]:
        _BUILT.pop(oldest, None)
    _BUILT[id(held[0]), own] = held


def _built(tables: Tables) -> tuple[Lexicon, Ear]:
    lexicon = build(tables)
    return lexicon, Ear(Repairer(lexicon), watch_of(lexicon))


def heard_with(lexicon: Lexicon) -> Tables:
    """Tables of their own that are heard with this lexicon, as for measuring what a row of the tables is worth."""
    tables = replace(lexicon.tables)
    _keep((tables, lexicon, Ear(Repairer(lexicon), watch_of(lexicon))))
    return tables


def _own_built(tables: Tables, own: tuple[OwnWord, ...]) -> tuple[Lexicon, Ear]:
    plain, ear = prepared(tables)
    lexicon = lexicon_with(plain, own)
    return lexicon, Ear(Repairer(lexicon, ear.repairer), ear.watch, own_words_of(plain, own))


def spellings_of(transcript: Transcript, lexicon: Lexicon) -> Mapping[str, Sequence[str]]:
    """How clipped words are opened: more of them where a transcript writes no apostrophes ("its gliding")."""
    texts = [word.text for word in transcript.words]
    bare = not any("'" in text or "’" in text for text in texts)
    if bare and any(text.lower().strip(".,;:!?") in lexicon.bare_marks for text in texts):
        return {**lexicon.spellings, **lexicon.bare_spellings}
    return lexicon.spellings


def scene_of(transcript: Transcript, tables: Tables, own: tuple[OwnWord, ...] = ()) -> Scene:
    """The words of a transcript repaired, named and parted into clauses; nothing is concluded yet."""
    lexicon, ear = prepared(tables, own)
    said = tokenise(transcript.words, spellings_of(transcript, lexicon))
    named, meant = ear.own.read(said) if ear.own else (said, [])
    doubted: list[Repair] = []
    tokens, repairs = ear.repairer.repair(named, doubted)
    repairs = sorted([*meant, *repairs], key=lambda repair: repair.span.first) if meant else repairs
    scene = build_scene(tokens, repairs, lexicon)
    scene.doubted = doubted
    return scene


@dataclass(frozen=True)
class Listened:
    """What the three listeners made of a transcript, before it becomes a record."""

    scene: Scene
    drafts: Sequence[Draft]
    observer: Observer
    actions: tuple[Action, ...]


def listened(transcript: Transcript, tables: Tables, own: tuple[OwnWord, ...] = ()) -> Listened:
    """A transcript heard clause by clause by the hands, the observer and the decider."""
    scene = scene_of(transcript, tables, own)
    hands = Hands(scene)
    observer = Observer(scene, hands)
    decider = Decider(scene, hands)
    for clause in scene.clauses:
        begin = onset_place(scene, clause.first, clause.last)
        observer.hear(clause, begin)
        decider.hear(clause)
        if not decider.after:
            hands.hear(clause)
        observer.after = decider.after
        observer.hear_rest(clause, begin)
    end = transcript.words[-1].end if transcript.words else 0.0
    finish(hands.drafts, scene, end)
    hands.drafts = [draft for draft in hands.drafts if draft not in momentary(hands.drafts)]
    return Listened(scene, tuple(hands.drafts), observer, tuple(decider.actions))


def understand(transcript: Transcript, tables: Tables, own: tuple[OwnWord, ...] = ()) -> Narration:
    """Everything that was understood of a transcript; an empty record is an ordinary answer.

    ``own`` are the practitioner's words: they win over the tables' forms, and what rests on them is as sure as what
    was named. Red flags are listened for in the words as they were said, so that no own word can hide one.
    """
    _, ear = prepared(tables, own)
    heard = listened(transcript, tables, own)
    scene = heard.scene
    judged = judge(scene, heard.drafts, heard.observer.findings, heard.observer.responses, heard.actions)
    alerts = alerts_of(scene_of(transcript, tables) if any(map(marked, scene.tokens)) else scene, ear.watch)
    asked = with_alerts(judged.questions, alerts, ear.watch)
    return Narration(
        transcript,
        judged.bouts,
        judged.findings,
        judged.responses,
        judged.actions,
        asked,
        tuple(scene.repairs),
        alerts,
    )


def onset_place(scene: Scene, first: int, last: int) -> int:
    """The token from which a clause speaks of a new bout: its technique, or the structure that leads up to it."""
    techniques = scene.mentions.within("technique", first, last)
    if not techniques:
        return first
    place = techniques[0].first
    for mention, _ in scene.structures(first, place):
        observed = [m for kind in ("aspect", "sign") for m in scene.mentions.within(kind, mention.first, place)]
        if not observed:
            return min(place, mention.first)
    return place
