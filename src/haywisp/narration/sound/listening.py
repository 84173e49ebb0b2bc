"""A recording heard chunk by chunk, each kept as soon as it is heard, so that a second call goes on from there."""

import hashlib
import json
from collections.abc import Callable, Collection, Iterable, Iterator
from pathlib import Path

from haywisp.errors import HaywispError
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
    tidy: bool = False,
    opened: Callable[[Path | None], Recogniser] | None = None,
) -> Heard:
    """Everything that is said in a recording.

    Below ``working_folder`` each recording has a folder of its own, by its content, the weights and the prompt. Seconds
    of the recording that are done and to do go to ``on_progress``; ``cancelled`` is asked before each chunk, and what
    was heard until then is given with ``complete`` False. With ``tidy`` the working file goes when all of it is heard;
    what was heard stays, so that asking again answers at once.
    """
    recogniser = (opened or open_recogniser)(model)
    prompt = trade_prompt(tables, own_words) if prompted else None
    folder = folder_of(source, working_folder, recogniser.name, prompt)
    kept = folder / "heard.jsonl"
    heard = {one.chunk: one for one in read_heard(kept)}
    sound, to_hear = _prepared(source, folder, heard)
    done_s = sum(chunk.end - chunk.start for chunk in to_hear if chunk in heard)
    all_s = sum(chunk.end - chunk.start for chunk in to_hear)
    on_progress(done_s, all_s)
    left = [chunk for chunk in to_hear if chunk not in heard]
    while left and not cancelled():
        chunk = left.pop(0)
        heard[chunk] = hear_chunk(sound, chunk, recogniser, prompt)
        _keep(kept, heard[chunk])
        done_s += chunk.end - chunk.start
        on_progress(done_s, all_s)
    if tidy and not left:
        sound.path.unlink(missing_ok=True)
    transcript, again = assemble((heard[chunk] for chunk in to_hear if chunk in heard), sound.problems)
    return Heard(transcript, again, sound, not left, left[0].start if left else sound.seconds)


def folder_of(source: Path, working_folder: Path, weights: str, prompt: str | None) -> Path:
    """The folder of one recording heard with certain weights and a certain prompt."""
    try:
        content = sha256_of(source)
    except OSError as fault:
        raise NoRoom(source, (fault.strerror or str(fault)).lower()) from fault
    key = hashlib.sha256("\n".join((str(VERSION), content, weights, prompt or "")).encode()).hexdigest()
    return working_folder / key[:KEY_LETTERS]


def _prepared(source: Path, folder: Path, heard: Collection[Chunk]) -> tuple[Sound, tuple[Chunk, ...]]:
    """The working file and its chunks, made or found as they were made before.

    The working file itself is made again only when there is something left to hear.
    """
    plan = folder / "sound.json"
    working = folder / "sound.wav"
    try:
        folder.mkdir(parents=True, exist_ok=True)
        if plan.is_file():
            data = json.loads(plan.read_text("utf-8"))
            found = tuple(Chunk.from_json(row) for row in data["chunks"])
            if not working.is_file() and any(chunk not in heard for chunk in found):
                prepare(source, working)
            return Sound.from_json({**data["sound"], "path": working}), found
        try:
            sound = prepare(source, working)
        except HaywispError:
            folder.rmdir()
            raise
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
