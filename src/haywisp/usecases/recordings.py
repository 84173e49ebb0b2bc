"""The recordings of a visit: begun, kept piece by piece, finished, listed, asked to be heard, stopped, deleted."""

import re
from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime
from pathlib import Path

from haywisp.record.types import Recording, StoredNarration
from haywisp.report.wording import mmss
from haywisp.store.shelf import Joined, Shelf, numbers_from
from haywisp.store.types import Unit
from haywisp.usecases.app import App
from haywisp.usecases.errors import NotFound, Refused
from haywisp.usecases.lookup import visit_of
from haywisp.usecases.sounding import recordings_in
from haywisp.usecases.views.recordings import RecordingRow

MOST_BYTES = 1024**3
MOST_PIECE = 4 * 1024**2
MOST_PIECES = 50_000
LONGEST_S = 6 * 3600
LOOKS_AT_SIZE_EVERY = 50
#: Nothing moved for this long: whoever was at it may be gone, and it can be asked for anew.
STUCK_S = 120.0
FORMS = {"webm": "webm", "mp4": "m4a", "ogg": "ogg", "mpeg": "mp3", "wav": "wav"}
HEADS = (b"RIFF", b"OggS", b"ID3", b"fLaC", b"\x1aE\xdf\xa3", b"FORM", b"caff", b"#!AMR", b".snd")
#: How a frame of MPEG sound begins; a mark of the byte order of text begins so too, and is not among them.
MPEG = frozenset({b"\xff\xfb", b"\xff\xfa", b"\xff\xf3", b"\xff\xf2", b"\xff\xf1", b"\xff\xf9", b"\xff\xe3"})
ID = re.compile(r"[0-9a-z][0-9a-z-]{15,63}")
STATE_NAMES = {
    "recording": "has not arrived whole",
    "waiting": "waits to be heard",
    "hearing": "is being heard",
    "heard": "heard",
    "stopped": "stopped",
    "failed": "could not be heard",
}
NO_SHELF = (
    "Recordings need a folder to be kept in, and this Haywisp has none: its database is in memory or on a server. "
    "Start it with --recordings DIR (or set HAYWISP_RECORDINGS)."
)


def shelf_of(app: App) -> Shelf:
    """Where the sound is kept."""
    if app.shelf is None:
        raise Refused(NO_SHELF)
    return app.shelf


def recording_of(unit: Unit, recording_id: str) -> Recording:
    found = unit.recording(recording_id)
    if found is None:
        raise NotFound(
            "recording", recording_id, "It may have been deleted; the visit's page lists those that are kept."
        )
    return found


def form_of(mime: str) -> str:
    """The ending of a file for what a browser says that it records."""
    return FORMS.get(mime.partition(";")[0].strip().lower().removeprefix("audio/").removeprefix("video/"), "sound")


def begin(app: App, recording_id: str, visit_id: str, form: str, file_name: str = "") -> Recording:
    """A recording whose sound is still to come; begun a second time it is the same one."""
    shelf_of(app)
    if not ID.fullmatch(recording_id):
        raise Refused("This is not the name of a recording. Open the page of the visit again.")
    with app.units() as unit:
        visit_of(unit, visit_id)
        known = unit.recording(recording_id)
        if known is not None:
            if known.visit_id != visit_id:
                raise Refused("This recording belongs to another visit.")
            return known
        name = " ".join(file_name.split())[:200]
        made = Recording(recording_id, visit_id, app.clock(), name, form, "recording")
        unit.add_recording(made)
    return made


def put(app: App, recording_id: str, number: int, mark: str, data: bytes) -> None:
    """Keep one piece; when this returns it is on disk. A piece that came before changes nothing."""
    shelf = shelf_of(app)
    if len(data) > MOST_PIECE or not 0 <= number < MOST_PIECES:
        raise Refused(f"A piece of a recording has {MOST_PIECE // 1024**2} MB at most, and there are {MOST_PIECES}.")
    with app.units() as unit:
        known = recording_of(unit, recording_id)
    if known.state != "recording":
        # It is whole already: the answer to an earlier sending was lost on the way.
        return
    if number % LOOKS_AT_SIZE_EVERY == 0 and shelf.bytes_of_pieces(recording_id) > MOST_BYTES:
        raise Refused(f"This recording is larger than {MOST_BYTES // 1024**3} GB. What has arrived is kept: finish it.")
    shelf.put_piece(recording_id, number, mark, data)


def arrived(app: App, recording_id: str) -> tuple[Recording, Sequence[int]]:
    """A recording and the numbers of its pieces that are here."""
    with app.units() as unit:
        known = recording_of(unit, recording_id)
    return known, sorted(shelf_of(app).pieces(recording_id))


def finish(app: App, recording_id: str, count: int | None = None, seconds: float = 0.0) -> Recording:
    """All pieces made one file, which then waits to be heard; without ``count``, those from the start without a gap."""
    shelf = shelf_of(app)
    with app.units() as unit:
        known = recording_of(unit, recording_id)
    if known.state != "recording":
        return known
    if count is None:
        count = len(list(numbers_from(list(shelf.pieces(recording_id)))))
        if not count:
            raise Refused("Nothing of this recording has arrived, so there is nothing to hear. You can delete it.")
    done = _whole(app, recording_id, shelf.join(recording_id, count, known.form), seconds)
    shelf.drop_pieces(recording_id)
    return done


def add_file(app: App, visit_id: str, source: Path, file_name: str, state: str = "waiting") -> Recording:
    """A sound file taken in whole, to be heard; ``haywisp listen`` gives ``heard`` once it has heard it itself."""
    shelf = shelf_of(app)
    try:
        size = source.stat().st_size
    except OSError as fault:
        raise Refused(f"{source} can't be read: {(fault.strerror or str(fault)).lower()}.") from fault
    if size > MOST_BYTES:
        raise Refused(f"{file_name} is larger than {MOST_BYTES // 1024**3} GB, so it was not taken.")
    made = begin(app, app.new_id().rjust(16, "0"), visit_id, source.suffix.removeprefix(".").lower()[:8], file_name)
    return _whole(app, made.id, shelf.take(made.id, source, made.form), 0.0, state)


def add_bytes(app: App, visit_id: str, file_name: str, data: bytes) -> Recording:
    """A sound file that came in one piece, to be heard."""
    form = file_name.rpartition(".")[2].lower()[:8] if "." in file_name else "sound"
    made = begin(app, app.new_id().rjust(16, "0"), visit_id, form, file_name)
    shelf_of(app).put_piece(made.id, 0, made.id, data)
    return finish(app, made.id, 1)


def is_sound(data: bytes) -> bool:
    """Whether bytes are the head of a sound file, or of pictures with sound: text never begins so."""
    return data.startswith(HEADS) or data[4:8] == b"ftyp" or data[:2] in MPEG


def _whole(app: App, recording_id: str, joined: Joined, seconds: float, state: str = "waiting") -> Recording:
    with app.units() as unit:
        known = unit.recording_to_change(recording_id)
        if known is None:
            raise NotFound("recording", recording_id)
        if known.state != "recording":
            return known
        whole = replace(
            known,
            state=state,
            attempt=1,
            heard_from=app.clock(),
            seconds=max(0.0, min(seconds, LONGEST_S * 2)),
            size_bytes=joined.size_bytes,
            sha256=joined.sha256,
        )
        unit.save_recording(whole)
    return whole


def ask(app: App, recording_id: str) -> Recording:
    """Have it heard: gone on with after a stop, tried again after a failure, or all of it heard anew."""
    with app.units() as unit:
        known = unit.recording_to_change(recording_id)
        if known is None:
            raise NotFound("recording", recording_id)
        if known.state == "recording":
            raise Refused("This recording has not arrived whole. Finish it first; then it can be heard.")
        if known.state in {"waiting", "hearing"} and not _stuck(known, app.clock()):
            return known
        asked = replace(
            known,
            state="waiting",
            attempt=known.attempt + 1,
            sentence="",
            heard_from=app.clock(),
            done_before=known.done,
        )
        if known.state == "heard":
            asked = replace(asked, parts=0, done=0, done_before=0)
        unit.save_recording(asked)
    return asked


def stop(app: App, recording_id: str) -> Recording:
    """No more of it is heard for now; what was heard stays heard."""
    with app.units() as unit:
        known = unit.recording_to_change(recording_id)
        if known is None:
            raise NotFound("recording", recording_id)
        if known.state not in {"waiting", "hearing"}:
            return known
        stopped = replace(known, state="stopped")
        unit.save_recording(stopped)
    return stopped


def delete(app: App, recording_id: str) -> Recording:
    """Delete the sound for good. Words that were heard in it stay in the record of the visit."""
    with app.units() as unit:
        known = recording_of(unit, recording_id)
    # The sound first: were the row gone and the sound not, nobody would find it again.
    shelf_of(app).remove(recording_id)
    with app.units() as unit:
        if unit.recording(recording_id) is not None:
            unit.remove_recording(recording_id)
    return known


def rows(app: App, visit_id: str) -> tuple[RecordingRow, ...]:
    """The recordings of a visit, oldest first."""
    with app.units() as unit:
        visit_of(unit, visit_id)
        found = unit.recordings_of(visit_id)
        stored = unit.narration_of(visit_id)
    return tuple(row_of(app, one, stored) for one in found)


def row(app: App, recording_id: str) -> RecordingRow:
    """One of them."""
    with app.units() as unit:
        known = recording_of(unit, recording_id)
        stored = unit.narration_of(known.visit_id)
    return row_of(app, known, stored)


def every(app: App) -> tuple[RecordingRow, ...]:
    """The recordings of all visits, oldest first."""
    with app.units() as unit:
        found = unit.recordings_in(tuple(STATE_NAMES))
        stored = {one.visit_id: unit.narration_of(one.visit_id) for one in found}
    return tuple(row_of(app, one, stored[one.visit_id]) for one in found)


def row_of(app: App, one: Recording, stored: StoredNarration | None) -> RecordingRow:
    now = app.clock()
    shelf = app.shelf
    return RecordingRow(
        id=one.id,
        visit_id=one.visit_id,
        began_at=one.began_at.astimezone(now.tzinfo),
        title=title_of(one, now),
        state=one.state,
        state_name=STATE_NAMES[one.state],
        length=mmss(one.seconds) if one.seconds else "",
        size=f"{one.size_bytes / 1024**2:.1f} MB" if one.size_bytes else "",
        sentence=one.sentence,
        parts=one.parts,
        done=one.done,
        left=_left(one, now),
        in_record=stored is not None and one.id in recordings_in(stored),
        passages=sum(not passage.listened for passage in one.passages),
        arrived=len(shelf.pieces(one.id)) if shelf is not None and one.state == "recording" else 0,
        stuck=_stuck(one, now),
        playable=shelf is not None and one.state != "recording" and shelf.sound(one.id) is not None,
    )


def title_of(one: Recording, now: datetime) -> str:
    """``Recorded at 14:05``, or the name of the file."""
    return one.file_name or f"Recorded at {one.began_at.astimezone(now.tzinfo):%H:%M}"


def _left(one: Recording, now: datetime) -> str:
    """How long the rest will take, by what was heard since it was begun or gone on with."""
    done = one.done - one.done_before
    if one.state != "hearing" or one.heard_from is None or done < 1:
        return ""
    seconds = (now - one.heard_from).total_seconds() / done * (one.parts - one.done)
    if seconds < 50:
        return "less than a minute left"
    minutes = round(seconds / 60) or 1
    return f"about {minutes} {'minute' if minutes == 1 else 'minutes'} left"


def _stuck(one: Recording, now: datetime) -> bool:
    """Whether it should have moved on long ago: a part takes seconds."""
    if one.state not in {"waiting", "hearing"}:
        return False
    since = (now - (one.heard_from or one.began_at)).total_seconds()
    return since > STUCK_S * (1 + max(0, one.done - one.done_before))
