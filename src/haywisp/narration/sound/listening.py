"""A recording heard chunk by chunk, each kept as soon as it is heard, so that a second call goes on from there."""

import hashlib
import json
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path

from haywisp.knowledge.types import Tables
from haywisp.narration.sound.assembling import assemble
from haywisp.narration.sound.chunking import chunks
from haywisp.narration.sound.errors import NoRoom
from haywisp.narration.sound.guarding import hear_chunk
from haywisp.narration.sound.preparing import prepare
from haywisp.narration.sound.prompting import trade_prompt
from haywisp.narration.sound.recogniser import Recogniser, open_recogniser, sha256_of
from haywisp.narration.sound.types import Chunk, ChunkHeard, Heard, Sound

#: Changes when the same sound would be heard otherwise: what was kept before is then not gone on with.
VERSION = 1
KEY_LETTERS = 16


def listen(
    source: Path,
    working_folder: Path,
    model: Path | None,
    tables: Tables,
    on_progress: Callable[[float, float], None] = lambda done_s, all_s: None,
    cancelled: Callable[[], bool] = lambda: False,
    *,
    own_words: Iterable[str] = (),
    prompted: bool = True,
    opened: Callable[[Path | None], Recogniser] = open_recogniser,
) -> Heard:
    """Everything that is said in a recording.

    Below ``working_folder`` each recording has a folder of its own, by its content, the weights and the prompt. Seconds
    of the recording that are done and to do go to ``on_progress``; ``cancelled`` is asked before each chunk, and what
    was heard until then is given with ``complete`` False.
    """
    recogniser = opened(model)
    prompt = trade_prompt(tables, own_words) if prompted else None
    folder = folder_of(source, working_folder, recogniser.name, prompt)
    sound, to_hear = _prepared(source, folder)
    kept = folder / "heard.jsonl"
    heard = {one.chunk: one for one in read_heard(kept)}
    done_s = sum(chunk.end - chunk.start for chunk in to_hear if chunk in heard)
    all_s = sum(chunk.end - chunk.start for chunk in to_hear)
    on_progress(done_s, all_s)
    stopped = False
    for chunk in to_hear:
        if chunk in heard:
            continue
        if stopped := cancelled():
            break
        heard[chunk] = hear_chunk(sound, chunk, recogniser, prompt)
        _keep(kept, heard[chunk])
        done_s += chunk.end - chunk.start
        on_progress(done_s, all_s)
    transcript, again = assemble((heard[chunk] for chunk in to_hear if chunk in heard), sound.problems)
    return Heard(transcript, again, sound, complete=not stopped)


def folder_of(source: Path, working_folder: Path, weights: str, prompt: str | None) -> Path:
    """The folder of one recording heard with certain weights and a certain prompt."""
    try:
        content = sha256_of(source)
    except OSError as fault:
        raise NoRoom(source, (fault.strerror or str(fault)).lower()) from fault
    key = hashlib.sha256("\n".join((str(VERSION), content, weights, prompt or "")).encode()).hexdigest()
    return working_folder / key[:KEY_LETTERS]


def _prepared(source: Path, folder: Path) -> tuple[Sound, tuple[Chunk, ...]]:
    """The working file and its chunks, made or found as they were made before."""
    plan = folder / "sound.json"
    working = folder / "sound.wav"
    try:
        folder.mkdir(parents=True, exist_ok=True)
        if plan.is_file() and working.is_file():
            data = json.loads(plan.read_text("utf-8"))
            found = tuple(Chunk.from_json(row) for row in data["chunks"])
            return Sound.from_json({**data["sound"], "path": working}), found
        sound = prepare(source, working)
        found = chunks(sound)
        text = json.dumps({"sound": sound.to_json(), "chunks": [chunk.to_json() for chunk in found]})
        part = plan.with_suffix(".part")
        part.write_text(text, "utf-8")
        part.replace(plan)
    except OSError as fault:
        raise NoRoom(folder, (fault.strerror or str(fault)).lower()) from fault
    return sound, found


def read_heard(kept: Path) -> Iterator[ChunkHeard]:
    """The chunks that were kept; a last line that was cut short is heard again."""
    if not kept.is_file():
        return
    for line in kept.read_text("utf-8", errors="replace").splitlines():
        try:
            yield ChunkHeard.from_json(json.loads(line))
        except (ValueError, KeyError, TypeError):
            continue


def _keep(kept: Path, one: ChunkHeard) -> None:
    try:
        with kept.open("a", encoding="utf-8") as file:
            # A line that a crash cut short must not swallow this one.
            file.write(("\n" if file.tell() else "") + json.dumps(one.to_json()))
    except OSError as fault:
        raise NoRoom(kept, (fault.strerror or str(fault)).lower()) from fault
