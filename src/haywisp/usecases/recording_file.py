"""A recording on its own, without a visit: heard, written as words with times, and understood."""

import json
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from haywisp.knowledge.types import Tables

if TYPE_CHECKING:
    from haywisp.narration.sound.types import Heard

#: Seconds that two idle cores need for a second of speech, both passes, with the embedded weights (benchmarks/sound).
COST = 0.15


@dataclass(frozen=True, slots=True)
class Passage:
    """A passage to listen to again, ready to print: its times in seconds, and why."""

    start: float
    end: float
    reason: str
    says: str


@dataclass(frozen=True, slots=True)
class FileHeard:
    """What was heard of a file: its words as the JSON that `haywisp narrate` reads, and what to listen to again."""

    words_json: str
    words: int
    again: tuple[Passage, ...]
    problems: tuple[str, ...]
    seconds: float
    heard_until: float
    complete: bool
    heard: "Heard"


SAYS = {
    "unheard": "somebody speaks, and no words were made out",
    "loop": "the words go round and round",
    "prompted": "a trade word that may not have been said",
    "dropped": "words that only one of two hearings has",
}


def heard_file(
    source: Path,
    working_folder: Path,
    tables: Tables,
    model: Path | None = None,
    *,
    prompted: bool = True,
    on_progress: Callable[[float, float], None] = lambda done_s, all_s: None,
    cancelled: Callable[[], bool] = lambda: False,
) -> FileHeard:
    """Listen to a recording; stopped and asked again it goes on from there.

    Raises what :mod:`haywisp.narration.sound` refuses: no sound, no recogniser, no room.
    """
    from haywisp.narration.sound import listen

    heard = listen(source, working_folder, model, tables, on_progress, cancelled, prompted=prompted, tidy=True)
    again = tuple(Passage(round(one.start, 2), round(one.end, 2), one.reason, SAYS[one.reason]) for one in heard.again)
    return FileHeard(
        words_json=words_json(heard, source.name),
        words=len(heard.transcript.words),
        again=again,
        problems=tuple(problem.text for problem in heard.transcript.problems),
        seconds=heard.sound.seconds,
        heard_until=heard.heard_until,
        complete=heard.complete,
        heard=heard,
    )


def words_json(heard: "Heard", recording: str) -> str:
    """Words with times as `haywisp narrate` reads them; the passages to listen to again stand beside them."""
    from haywisp.narration.sound.types import word_to_json

    data: dict[str, Any] = {
        "recording": recording,
        "seconds": round(heard.sound.seconds, 2),
        "complete": heard.complete,
        "again": [one.to_json() for one in heard.again],
        "problems": [{"where": one.where, "text": one.text} for one in heard.transcript.problems],
        "words": [word_to_json(word) for word in heard.transcript.words],
    }
    return json.dumps(data, ensure_ascii=False, indent=1) + "\n"
