"""A recording heard in the background, part by part: what a worker is given to do."""

import json
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from haywisp.errors import HaywispError
from haywisp.jobs.types import Order, Plain, Stopped, Work
from haywisp.narration.sound.types import Again, Chunk, ChunkHeard, Heard, Sound
from haywisp.narration.types import Word
from haywisp.record.types import Passage, Recording
from haywisp.store.types import Unit
from haywisp.usecases.app import App
from haywisp.usecases.hearing_own import own_words_kept
from haywisp.usecases.in_record import put_in_record
from haywisp.usecases.recordings import add_file, recording_of, shelf_of
from haywisp.usecases.sounding import WORDS, words_as_json

NAME = "hear"
WORKING = "working.wav"
SILENT = "No words were heard in it. Listen to it: you can still write entries by hand."


def hearing(app: App) -> Work:
    """The hearing of recordings as long work."""

    def waiting() -> Sequence[Order]:
        with app.units() as unit:
            return [Order(one.id, one.attempt) for one in unit.recordings_in(["waiting"])]

    def wanted(recording_id: str) -> bool:
        with app.units() as unit:
            known = unit.recording(recording_id)
        return known is not None and known.state != "heard"

    return Work(
        name=NAME,
        waiting=waiting,
        begin=lambda order: begin(app, order),
        part=lambda order, what: hear_part(app, order, what),
        end=lambda order, gave: end(app, order, gave),
        failed=lambda order, sentence: failed(app, order, sentence),
        wanted=wanted,
    )


def begin(app: App, order: Order) -> list[Plain]:
    """The recording made ready to hear: its chunks, each a part."""
    with app.units() as unit:
        known = _claimed(app, unit, order)
    app.ear.ready()
    sound, chunks = _prepared(app, known)
    source = shelf_of(app).sound(known.id)
    if source is not None:
        app.ear.playable(source, source.parent)
    with app.units() as unit:
        known = _claimed(app, unit, order)
        unit.save_recording(replace(known, parts=len(chunks), seconds=sound.seconds, sentence=_mended(sound)))
    plain = sound.to_json()
    return [
        {"number": number, "of": len(chunks), "sound": plain, "chunk": chunk.to_json()}
        for number, chunk in enumerate(chunks)
    ]


def _prepared(app: App, known: Recording) -> tuple[Sound, Sequence[Chunk]]:
    shelf = shelf_of(app)
    source = shelf.sound(known.id)
    if source is None:
        raise LostSound(known)
    return app.ear.prepare(source, shelf.file(known.id, WORKING))


def hear_part(app: App, order: Order, what: Plain) -> Plain:
    """One chunk heard, and the progress written down."""
    with app.units() as unit:
        known = _claimed(app, unit, order)
        own = own_words_kept(unit)
    sound = Sound.from_json(what["sound"])
    if not sound.path.is_file():
        sound, _ = _prepared(app, known)
    heard = app.ear.hear(sound, Chunk.from_json(what["chunk"]), _prompt(app, tuple(word.phrase for word in own)))
    with app.units() as unit:
        known = _claimed(app, unit, order)
        unit.save_recording(replace(known, parts=what["of"], done=max(known.done, what["number"] + 1)))
    return heard.to_json()


def _prompt(app: App, own: tuple[str, ...]) -> str:
    from haywisp.narration.sound import trade_prompt

    return trade_prompt(app.tables(), own)


def end(app: App, order: Order, gave: Sequence[Plain]) -> None:
    """All parts made one: the words kept and, where the visit has no narration yet, understood as its narration."""
    from haywisp.narration.sound import assemble

    with app.units() as unit:
        there = unit.recording(order.subject)
        if there is not None and there.state == "heard" and there.attempt == order.attempt:
            # It was heard to its end, and the worker died before that was kept.
            known, done = there, True
        else:
            known, done = _claimed(app, unit, order), False
    if done:
        _first_of_visit(app, known)
        return
    transcript, again = assemble(ChunkHeard.from_json(one) for one in gave)
    keep(app, known, transcript.words, again, order)


def keep(app: App, known: Recording, words: Sequence[Word], again: Sequence[Again], order: Order | None = None) -> None:
    """What was heard of a recording; the words of the first one of a visit become its narration."""
    shelf = shelf_of(app)
    shelf.write(known.id, WORDS, json.dumps(words_as_json(words), ensure_ascii=False))
    passages = tuple(Passage(round(one.start, 2), round(one.end, 2), one.reason) for one in again)
    with app.units() as unit:
        known = recording_of(unit, known.id) if order is None else _claimed(app, unit, order)
        heard = replace(known, state="heard", passages=passages, done=known.parts)
        if not words:
            heard = replace(heard, sentence=f"{heard.sentence} {SILENT}".strip())
        unit.save_recording(heard)
    if words:
        _first_of_visit(app, heard)
    shelf.file(known.id, WORKING).unlink(missing_ok=True)


def _first_of_visit(app: App, heard: Recording) -> None:
    """The narration of a visit that has none; where there is one, a person decides."""
    with app.units() as unit:
        there = unit.narration_of(heard.visit_id)
    if there is None:
        put_in_record(app, heard.id)


def add_heard(app: App, visit_id: str, source: Path, heard: Heard) -> Recording:
    """A file that the command line has heard by itself, kept with a visit as if a worker had heard it."""
    made = add_file(app, visit_id, source, source.name, state="stopped")
    kept = shelf_of(app).sound(made.id)
    if kept is not None:
        app.ear.playable(kept, kept.parent)
    with app.units() as unit:
        made = replace(made, seconds=heard.sound.seconds, sentence=_mended(heard.sound))
        unit.save_recording(made)
    keep(app, made, heard.transcript.words, heard.again)
    return made


def failed(app: App, order: Order, sentence: str) -> None:
    """Why it can't be heard, for the page; the sound stays."""
    with app.units() as unit:
        known = unit.recording_to_change(order.subject)
        if known is not None and known.attempt == order.attempt and known.state in {"waiting", "hearing"}:
            unit.save_recording(replace(known, state="failed", sentence=sentence))


def _claimed(app: App, unit: Unit, order: Order) -> Recording:
    """The recording as the worker's own for the unit; :class:`Stopped` when somebody wants it no more."""
    known = unit.recording_to_change(order.subject)
    if known is None or known.attempt != order.attempt or known.state not in {"waiting", "hearing"}:
        raise Stopped
    if known.state == "waiting":
        known = replace(known, state="hearing", heard_from=app.clock(), done_before=known.done)
        unit.save_recording(known)
    return known


def _mended(sound: Sound) -> str:
    return " ".join(problem.text for problem in sound.problems)


class LostSound(HaywispError):
    """The folder has no sound of a recording."""

    def __init__(self, known: Recording) -> None:
        super().__init__(
            "The sound of this recording is not in the folder of the recordings. Was the folder moved? Give the one "
            "that holds it with --recordings DIR."
        )
        self.recording = known.id
