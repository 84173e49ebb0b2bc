"""Any recording to a working file: told by its content, read as a stream, as far as it can be read."""

import wave
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

from haywisp.narration.sound.errors import BrokenSound, EmptyFile, NoRoom, NoSoundTrack, NotSound
from haywisp.narration.sound.loudness import level
from haywisp.narration.sound.types import RATE, Sound
from haywisp.narration.sound.working_file import open_to_write
from haywisp.narration.types import Problem

if TYPE_CHECKING:
    import av.container
    from numpy.typing import NDArray

# Forms that hold sound and nothing that points to other files or addresses, as playlists do.
FORMS_READ = "wav,w64,mov,mp3,ogg,matroska,aac,flac,amr,caf,aiff,au,asf"
BEGINNINGS = (b"RIFF", b"OggS", b"\x1aE\xdf\xa3", b"ID3", b"fLaC", b"FORM", b"caff", b"#!AMR")
UNSAID = 0x7FFFFFFF
#: A tiny file can say that it lasts for months.
MOST_S = 12 * 3600.0
# Below it a hole in the times is the recorder's own rounding.
HOLE_S = 0.25
# A file says how long it lasts to within its last packet.
SHORT_OF_IT_S = 1.0
NAMED_HOLES = 5


@dataclass(slots=True)
class _Tape:
    """What was written so far, and what went wrong on the way, in seconds."""

    file: wave.Wave_write
    written: int = 0
    said_s: float | None = None
    holes: list[tuple[float, float]] = field(default_factory=list)
    broken_at: list[float] = field(default_factory=list)
    too_long: bool = False
    cut_short: bool = False

    @property
    def seconds(self) -> float:
        return self.written / RATE

    def write(self, data: bytes) -> None:
        self.file.writeframesraw(data)
        self.written += len(data) // 2

    def silence(self, until: float) -> None:
        """Nothing, up to a time; a second at a time, since a hole may be hours."""
        self.holes.append((self.seconds, until))
        left = round(until * RATE) - self.written
        while left > 0:
            self.write(bytes(2 * min(left, RATE)))
            left -= RATE


def prepare(source: Path, working: Path) -> Sound:
    """The recording as a working file at ``working``, at an even loudness.

    What can't be read is told in ``problems``, with the second from which it is lost; silence stands in its place, so
    that times stay those of the recording. Raises a :class:`NotHeard` with what to do when there is no sound at all.
    """
    part = working.with_name(working.name + ".part")
    try:
        if not source.stat().st_size:
            raise EmptyFile(source.name)
        tape = _copied(source, part)
        silent = level(part)
        part.replace(working)
    except OSError as fault:
        part.unlink(missing_ok=True)
        raise NoRoom(Path(fault.filename or source), (fault.strerror or str(fault)).lower()) from fault
    except BaseException:
        part.unlink(missing_ok=True)
        raise
    return Sound(working, tape.seconds, tuple(_problems(tape, silent)))


def _copied(source: Path, part: Path) -> _Tape:
    import av

    with source.open("rb") as file:
        try:
            container = av.open(file, "r", options={"format_whitelist": FORMS_READ})
        except (av.error.FFmpegError, ValueError) as fault:
            raise (BrokenSound if _begins_as_sound(source) else NotSound)(source.name) from fault
        with container:
            if not container.streams.audio:
                raise NoSoundTrack(source.name) if container.streams.video else NotSound(source.name)
            with open_to_write(part) as out:
                tape = _Tape(out, said_s=_said_length(container), cut_short=_is_cut_short(source))
                _copy(container, tape)
    if not tape.written:
        raise BrokenSound(source.name)
    return tape


def _begins_as_sound(source: Path) -> bool:
    """True for a file that says that it is sound, whatever came of the rest of it."""
    with source.open("rb") as file:
        first = file.read(12)
    return first.startswith(BEGINNINGS) or first[4:8] == b"ftyp"


def _is_cut_short(source: Path) -> bool:
    """True for a WAV file that is shorter than its own header says; recorders that stream say nothing or the most."""
    with source.open("rb") as file:
        first = file.read(8)
    said = int.from_bytes(first[4:8], "little")
    return first.startswith(b"RIFF") and 0 < said < UNSAID and said + 8 > source.stat().st_size + 8


def _said_length(container: "av.container.InputContainer") -> float | None:
    stream = container.streams.audio[0]
    if stream.duration is not None and stream.time_base is not None:
        return float(stream.duration * stream.time_base)
    return None if container.duration is None else container.duration / 1_000_000


def _copy(container: "av.container.InputContainer", tape: _Tape) -> None:
    import av

    made = av.AudioResampler(format="s16", layout="mono", rate=RATE)
    first: float | None = None
    for frame in _frames(container, tape):
        if first is None:
            first = frame.time or 0.0
        at = tape.seconds if frame.time is None else frame.time - first
        if tape.seconds + HOLE_S < at < MOST_S and tape.written:
            tape.silence(at)
        try:
            for piece in made.resample(frame):
                tape.write(_bytes_of(piece))
        except (av.error.FFmpegError, ValueError):
            # The form of the sound changed half way: another converter is needed.
            made = av.AudioResampler(format="s16", layout="mono", rate=RATE)
            for piece in made.resample(frame):
                tape.write(_bytes_of(piece))
        if tape.seconds >= MOST_S:
            tape.too_long = True
            return
    if tape.written:
        for piece in made.resample(None):
            tape.write(_bytes_of(piece))


def _frames(container: "av.container.InputContainer", tape: _Tape) -> Iterator[Any]:
    """Frames of the first sound track; a packet that can't be read is left out and the next is tried."""
    import av

    packets = container.demux(container.streams.audio[0])
    while True:
        try:
            packet = next(packets)
        except StopIteration:
            return
        except (av.error.FFmpegError, ValueError):
            tape.broken_at.append(tape.seconds)
            return
        try:
            yield from packet.decode()
        except (av.error.FFmpegError, ValueError):
            tape.broken_at.append(tape.seconds)


def _bytes_of(frame: Any) -> bytes:
    samples: NDArray[Any] = frame.to_ndarray()
    return samples.astype("<i2").tobytes()


def _problems(tape: _Tape, silent: bool) -> Iterator[Problem]:
    for start, end in tape.holes[:NAMED_HOLES]:
        yield Problem(clock(start), f"The sound is lost from {clock(start)} to {clock(end)}; the rest was read.")
    if len(tape.holes) > NAMED_HOLES:
        yield Problem("whole file", f"The sound is lost in {len(tape.holes) - NAMED_HOLES} more places.")
    if tape.broken_at and not tape.holes:
        at = clock(tape.broken_at[0])
        yield Problem(at, f"The file is damaged at {at}; what could be read was read. Listen to it there.")
    if tape.too_long:
        yield Problem("whole file", f"Only the first {MOST_S / 3600:.0f} hours were read. Give one visit at a time.")
    elif tape.said_s is not None and tape.said_s - tape.seconds > SHORT_OF_IT_S:
        at = clock(tape.seconds)
        yield Problem(at, f"The file says that it lasts {clock(tape.said_s)}, but the sound ends at {at}.")
    elif tape.cut_short:
        at = clock(tape.seconds)
        yield Problem(at, f"The file was cut off: its sound ends at {at} and the rest is lost.")
    if silent:
        yield Problem("whole file", "It is too quiet to hear anything in it: was the microphone on and uncovered?")


def clock(seconds: float) -> str:
    """Minutes and seconds, as they are told to a person."""
    return f"{int(seconds) // 60}:{int(seconds) % 60:02d}"
