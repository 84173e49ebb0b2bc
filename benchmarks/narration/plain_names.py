"""What a plain list of names makes of a narration: the record that anyone would build from a gazetteer's hits.

A technique with the structure named nearest to it is a bout, which lasts until the next one; what is found is of the
structure named nearest; each sign is an answer and each action a decision. There are no sides, no "could" or "won't",
no denial, no correction, no "same again". The same bout, finding or sign twice in a row is one.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from case_files import Record
from forms import Name

from haywisp.narration import Transcript
from haywisp.narration.lexicon import Lexicon


@dataclass(frozen=True)
class Hit:
    """A name found at a word of a transcript."""

    name: Name
    word: int


def record_from(hits: Sequence[Hit], transcript: Transcript, lexicon: Lexicon) -> Record:
    """The record of hits in order."""
    words = transcript.words
    structures = [(hit.word, structure_of(hit.name, lexicon)) for hit in hits if hit.name.kind in PLACES]
    treatments: list[dict[str, Any]] = []
    findings: list[dict[str, Any]] = []
    responses: list[dict[str, Any]] = []
    actions: list[dict[str, Any]] = []
    for hit in hits:
        when = words[hit.word].start
        place = min(structures, key=lambda one: abs(one[0] - hit.word), default=(0, ""))[1]
        if hit.name.kind == "technique" and place:
            bout = {"technique": hit.name.id, "structures": [place], "side": None, "passes": None, "pressure": None}
            if treatments and all(treatments[-1][key] == bout[key] for key in ("technique", "structures")):
                continue
            if treatments:
                treatments[-1]["end"] = when
            treatments.append({**bout, "start": when, "end": words[-1].end})
        elif hit.name.kind == "aspect" and place:
            said = lexicon.said[hit.name.id]
            finding = {"structure": place, "side": None, "aspect": said.aspect, "value": said.value}
            if not findings or any(findings[-1][key] != finding[key] for key in finding):
                findings.append({**finding, "time": when})
        elif hit.name.kind == "sign":
            if not responses or responses[-1]["sign"] != hit.name.id:
                responses.append({"sign": hit.name.id, "time": when})
        elif hit.name.kind in ("action", "after") and all(one["kind"] != hit.name.id for one in actions):
            actions.append({"kind": hit.name.id, "time": when})
    return {"treatments": treatments, "findings": findings, "responses": responses, "actions": actions}


PLACES = ("structure", "ambiguous")


def structure_of(name: Name, lexicon: Lexicon) -> str:
    """The structure that a name is of; a shared name is of its first."""
    return lexicon.ambiguous[name.id][0] if name.kind == "ambiguous" else name.id
