"""A transcript to a narration: the parts of the grammar, joined.

Words are repaired, cut into tokens, named (mentions), parted into clauses with their modality, and heard clause by
clause by three listeners: the hands (bouts), the observer (findings, responses) and the decider (actions). What stays
in doubt becomes a question. The grammar is written down in ``docs/grammar.md``.
"""

from dataclasses import dataclass

from haywisp.knowledge import Tables
from haywisp.narration.alerts import Watch, alerts_of, watch_of, with_alerts
from haywisp.narration.deciding import Decider
from haywisp.narration.doubting import bouts_of, questions_of
from haywisp.narration.finishing import finish, momentary
from haywisp.narration.hands import Hands
from haywisp.narration.lexicon import Lexicon, build
from haywisp.narration.observing import Observer
from haywisp.narration.repair import Repairer
from haywisp.narration.scene import Scene, build_scene
from haywisp.narration.tokens import tokenise
from haywisp.narration.types import Finding, Narration, Response, Transcript


@dataclass(frozen=True)
class Ear:
    """What hears with one lexicon: the repairer of its words, and the watch for red flags if it has one."""

    repairer: Repairer
    watch: Watch | None


_BUILT: dict[int, tuple[Tables, Lexicon, Ear]] = {}


def prepared(tables: Tables) -> tuple[Lexicon, Ear]:
    """The compiled lexicon of tables and the ear that hears with it, made once for each set of tables."""
    held = _BUILT.get(id(tables))
    if held is None or held[0] is not tables:
        lexicon = build(tables)
        held = (tables, lexicon, Ear(Repairer(lexicon), watch_of(lexicon)))
        _BUILT[id(tables)] = held
    return held[1], held[2]


def understand(transcript: Transcript, tables: Tables) -> Narration:
    """Everything that was understood of a transcript; an empty record is an ordinary answer."""
    lexicon, ear = prepared(tables)
    tokens, repairs = ear.repairer.repair(tokenise(transcript.words, lexicon.spellings))
    scene = build_scene(tokens, repairs, lexicon)
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
    bouts = bouts_of(hands.drafts, scene)
    findings = tuple(note.what for note in observer.findings if isinstance(note.what, Finding))
    responses = tuple(note.what for note in observer.responses if isinstance(note.what, Response))
    actions = tuple(decider.actions)
    questions = questions_of(bouts, hands.drafts, findings, responses, actions, scene)
    alerts = alerts_of(scene, ear.watch)
    asked = with_alerts(questions, alerts, ear.watch)
    return Narration(transcript, bouts, findings, responses, actions, asked, tuple(repairs), alerts)


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
