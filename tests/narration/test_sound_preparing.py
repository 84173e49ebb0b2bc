"""Any recording to a working file: every form, and everything that can be wrong with one."""

import json
import wave
from pathlib import Path

import numpy as np
import pytest
from sound_files import FORMS, beep, write_pictures, write_sound
from sound_needs import speech

from haywisp.narration.sound import NotHeard, Sound, preparing
from haywisp.narration.sound.errors import BrokenSound, EmptyFile, NoRoom, NoSoundTrack, NotSound
from haywisp.narration.sound.preparing import prepare
from haywisp.narration.sound.working_file import samples

pytestmark = [*speech]


def heard_at(sound: Sound) -> tuple[float, float]:
    """When the beep is heard."""
    loud = np.flatnonzero(np.abs(samples(sound, 0, sound.seconds)) > 0.1) / 16_000
    return float(loud[0]), float(loud[-1])


def told(sound: Sound) -> str:
    return " ".join(problem.text for problem in sound.problems)


@pytest.mark.parametrize("form", FORMS)
def test_each_form_is_read_with_its_times(tmp_path: Path, form: str) -> None:
    sound = prepare(write_sound(tmp_path / f"a.{form}", form), tmp_path / "work.wav")
    assert sound.seconds == pytest.approx(3.0, abs=0.1)
    assert heard_at(sound) == pytest.approx((1.0, 2.0), abs=0.1)
    assert sound.problems == ()
    with wave.open(str(sound.path)) as file:
        assert (file.getframerate(), file.getnchannels(), file.getsampwidth()) == (16_000, 1, 2)


@pytest.mark.parametrize("form", FORMS)
def test_the_content_tells_the_form_and_the_name_does_not(tmp_path: Path, form: str) -> None:
    sound = prepare(write_sound(tmp_path / "notes.txt", form), tmp_path / "work.wav")
    assert heard_at(sound) == pytest.approx((1.0, 2.0), abs=0.1)


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("share", [0.3, 0.9])
def test_a_file_that_lost_its_end_gives_what_it_has(tmp_path: Path, form: str, share: float) -> None:
    long = beep(FORMS[form][2], 20.0, 1.0, 19.0)
    whole = write_sound(tmp_path / "whole", form, long).read_bytes()
    cut = tmp_path / "cut"
    cut.write_bytes(whole[: int(len(whole) * share)])
    if form == "m4a":
        # Its table of contents is the last thing written: without it nothing says where the sound is.
        with pytest.raises(BrokenSound, match="cut is damaged"):
            prepare(cut, tmp_path / "work.wav")
        return
    sound = prepare(cut, tmp_path / "work.wav")
    assert sound.seconds == pytest.approx(20.0 * share, abs=1.5)
    assert heard_at(sound)[0] == pytest.approx(1.0, abs=0.1)
    # The two of them say at their beginning how long they are.
    if form == "wav":
        assert "The file was cut off: its sound ends at 0:" in told(sound)
    if form == "mp3" and share < 0.5:
        assert "The file says that it lasts 0:20, but the sound ends at 0:0" in told(sound)


@pytest.mark.parametrize("form", ["mp3", "ogg", "webm"])
def test_a_damaged_middle_costs_no_more_than_itself(tmp_path: Path, form: str) -> None:
    data = bytearray(write_sound(tmp_path / "whole", form, beep(FORMS[form][2], 20.0, 1.0, 19.0)).read_bytes())
    middle = len(data) // 2
    data[middle : middle + 3000] = np.random.default_rng(1).integers(0, 256, 3000, np.uint8).tobytes()
    hurt = tmp_path / "hurt"
    hurt.write_bytes(data)
    sound = prepare(hurt, tmp_path / "work.wav")
    start, end = heard_at(sound)
    assert start == pytest.approx(1.0, abs=0.1)
    assert end > 10.0
    assert sound.seconds <= 20.2
    assert end > 18.5 or sound.problems


@pytest.mark.parametrize(
    ("data", "refusal"),
    [
        (b"", EmptyFile),
        (b"WEBVTT\n\n00:00.000 --> 00:01.000\nHello\n", NotSound),
        (b"%PDF-1.7\n1 0 obj\n<< /Type /Catalog >>\nendobj\n%%EOF\n", NotSound),
        (b"PK\x03\x04" + bytes(500), NotSound),
        (bytes(5000), NotSound),
        (b"RIFF\x00\x00\x00\x00WAVE", BrokenSound),
        (b"OggS" + bytes(300), BrokenSound),
        (b"\x1a\x45\xdf\xa3" + bytes(300), BrokenSound),
        (b"\x00\x00\x00\x20ftypM4A " + bytes(300), BrokenSound),
        (np.random.default_rng(3).integers(0, 256, 20_000, np.uint8).tobytes(), NotHeard),
    ],
)
def test_what_is_no_sound_is_refused_in_a_sentence(tmp_path: Path, data: bytes, refusal: type[NotHeard]) -> None:
    source = tmp_path / "lesson.mp3"
    source.write_bytes(data)
    with pytest.raises(refusal, match=r"lesson\.mp3 .*\."):
        prepare(source, tmp_path / "work.wav")
    assert source.read_bytes() == data
    assert sorted(path.name for path in tmp_path.iterdir()) == ["lesson.mp3"]


def test_a_list_of_other_files_is_not_followed(tmp_path: Path) -> None:
    other = write_sound(tmp_path / "other.wav", "wav")
    source = tmp_path / "list"
    source.write_text(f"#EXTM3U\n#EXT-X-TARGETDURATION:3\n#EXTINF:3,\n{other}\n#EXT-X-ENDLIST\n")
    with pytest.raises(NotSound):
        prepare(source, tmp_path / "work.wav")


def test_a_film_gives_its_sound_and_is_refused_without(tmp_path: Path) -> None:
    assert prepare(write_pictures(tmp_path / "a.mp4", sound=True), tmp_path / "work.wav").seconds > 2.5
    with pytest.raises(NoSoundTrack, match="pictures but no sound"):
        prepare(write_pictures(tmp_path / "b.mp4"), tmp_path / "work.wav")


def test_silence_is_an_answer_and_no_fault(tmp_path: Path) -> None:
    sound = prepare(write_sound(tmp_path / "a.wav", "wav", np.zeros(44_100, np.int16)), tmp_path / "work.wav")
    assert sound.seconds == pytest.approx(2.0)
    assert "too quiet" in told(sound)


def test_a_quiet_recording_is_raised_and_a_loud_one_left(tmp_path: Path) -> None:
    quiet = prepare(write_sound(tmp_path / "a.wav", "wav", beep(22_050) // 20), tmp_path / "quiet.wav")
    loud = prepare(write_sound(tmp_path / "b.wav", "wav", beep(22_050) * 2), tmp_path / "loud.wav")
    assert np.abs(samples(quiet, 0, 3)).max() == pytest.approx(0.5, abs=0.05)
    assert np.abs(samples(loud, 0, 3)).max() == pytest.approx(0.73, abs=0.02)


def test_a_hole_in_the_times_stays_a_hole(tmp_path: Path) -> None:
    import av

    path = tmp_path / "hole.webm"
    with av.open(str(path), "w", format="webm") as out:
        stream = out.add_stream("libopus", rate=48_000)
        stream.layout = "mono"
        for start in (0, 1, 2, 6, 7):  # the recorder was away for three seconds
            frame = av.AudioFrame.from_ndarray(beep(48_000, 1.0, 0.0, 1.0)[None, :], format="s16", layout="mono")
            frame.sample_rate = 48_000
            frame.pts = start * 48_000
            out.mux(stream.encode(frame))
        out.mux(stream.encode(None))
    sound = prepare(path, tmp_path / "work.wav")
    assert sound.seconds == pytest.approx(8.0, abs=0.2)
    assert "lost from 0:03 to 0:0" in told(sound)


def test_a_file_without_an_end_is_read_to_the_limit(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(preparing, "MOST_S", 2.0)
    sound = prepare(write_sound(tmp_path / "a.wav", "wav"), tmp_path / "work.wav")
    assert sound.seconds < 2.5
    assert "Only the first" in told(sound)


def test_no_room_is_told_and_leaves_nothing(tmp_path: Path) -> None:
    source = write_sound(tmp_path / "a.wav", "wav")
    with pytest.raises(NoRoom, match="can't be used: no such file"):
        prepare(source, tmp_path / "gone" / "work.wav")
    with pytest.raises(NoRoom, match="can't be used: no such file"):
        prepare(tmp_path / "none.wav", tmp_path / "work.wav")


def test_a_sound_is_kept_as_json(tmp_path: Path) -> None:
    sound = prepare(write_sound(tmp_path / "a.wav", "wav", np.zeros(9000, np.int16)), tmp_path / "work.wav")
    assert Sound.from_json(json.loads(json.dumps(sound.to_json()))) == sound
