"""How well recordings are heard, with the guards and without: ``python benchmarks/sound/run.py [--voices a,b]``.

Three written narrations (tests/narration/spoken, invented) are read out by voices of espeak-ng and flite, one of them
in noise. In one run they are heard four ways, all with the same weights: the library as it comes (whole file, no
prompt), in chunks, in chunks with the trade's words as a prompt, and guarded (both passes made one). For each the run
prints word error rate, trade words heard, F1 of findings and of the whole record, dropped passages and how many of
them are told, what is told to be listened to again, and CPU seconds for a second of sound.
"""

import argparse
import json
import resource
import shutil
import sys
import tempfile
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path
from time import process_time

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tests" / "narration"))

import scoring  # noqa: E402
from hearing_scores import HearingScore, dropped, flagged, score  # noqa: E402
from speaking import Reading, Voice, espeak, flite, read_out  # noqa: E402

from haywisp.exchange import contract_json  # noqa: E402
from haywisp.knowledge import Tables, load_tables  # noqa: E402
from haywisp.narration import Transcript, Word, understand  # noqa: E402
from haywisp.narration.sound import (  # noqa: E402
    Again,
    ChunkHeard,
    assemble,
    chunks,
    open_recogniser,
    prepare,
    trade_prompt,
)
from haywisp.narration.sound.guarding import guarded, placed  # noqa: E402
from haywisp.narration.sound.recogniser import Recogniser, embedded_folder  # noqa: E402
from haywisp.narration.sound.voicing import voice_between  # noqa: E402
from haywisp.narration.sound.working_file import samples  # noqa: E402

NAMES = ("k01", "k02", "k03")
VOICES: dict[str, tuple[Voice, float, str]] = {
    "gb": (espeak("en-gb", 150), 0.001, "espeak-ng"),
    "us": (espeak("en-us", 175), 0.001, "espeak-ng"),
    "rms": (flite("rms"), 0.001, "flite"),
    "slt-noise": (flite("slt"), 0.02, "flite"),
}
WAYS = ("library", "chunks", "prompted", "guarded")


@dataclass
class Row:
    """What one way of hearing gave, over some readings."""

    score: HearingScore = field(default_factory=HearingScore)
    parts: dict[str, list[int]] = field(default_factory=lambda: {part: [0, 0, 0] for part in scoring.PARTS})
    again: Counter[str] = field(default_factory=Counter)
    again_s: float = 0.0
    work_s: float = 0.0
    sound_s: float = 0.0

    def add(self, reading: Reading, words: Transcript, again: tuple[Again, ...], tables: Tables) -> None:
        self.score += score(reading, words.words, again, tables)
        record = json.loads(contract_json.write(understand(words, tables)))
        for part, weight in scoring.PARTS.items():
            pairs = scoring.best_pairs(reading.gold[part], record[part], weight)
            for place, count in enumerate((len(pairs), len(reading.gold[part]), len(record[part]))):
                self.parts[part][place] += count
        self.again.update(one.reason for one in again)
        self.again_s += sum(one.end - one.start for one in again)

    def printed(self) -> str:
        one = self.score
        whole = [sum(counts) for counts in zip(*self.parts.values(), strict=True)]
        told = f"{one.dropped_flagged}/{one.dropped}"
        return (
            f"{one.word_errors / one.words:6.1%} {one.trade_heard:4}/{one.trade_said:<4}"
            f"{scoring.f1(*self.parts['findings']):9.2f} {scoring.f1(*whole):7.2f} {told:>8} "
            f"{sum(self.again.values()):6} {self.again_s / self.sound_s:7.1%} {self.work_s / self.sound_s:8.2f}"
        )


def library(path: Path) -> Transcript:
    """The recogniser as its library offers it."""
    from faster_whisper import WhisperModel

    model = WhisperModel(
        str(embedded_folder()), device="cpu", compute_type="int8", cpu_threads=2, local_files_only=True
    )
    segments, _ = model.transcribe(str(path), language="en", word_timestamps=True)
    words = [word for segment in segments for word in segment.words or ()]
    return Transcript(tuple(Word(word.word.strip(), word.start, word.end) for word in words), "sound")


def hear(reading: Reading, folder: Path, recogniser: Recogniser, tables: Tables, rows: list[dict[str, Row]]) -> None:
    """One reading heard in the four ways."""
    prompt = trade_prompt(tables)
    start = process_time()
    whole = library(reading.path)
    work = {"library": process_time() - start}
    start = process_time()
    sound = prepare(reading.path, folder / "work.wav")
    made = [(chunk, voice_between(sound, chunk.start, chunk.end)) for chunk in chunks(sound)]
    before = process_time() - start
    passes = []
    for way, said in (("chunks", None), ("prompted", prompt)):
        start = process_time()
        passes.append([recogniser.hear(samples(sound, chunk.start, chunk.end), said) for chunk, _ in made])
        work[way] = before + process_time() - start
    work["guarded"] = work["chunks"] + work["prompted"] - before
    heard: dict[str, tuple[Transcript, tuple[Again, ...]]] = {"library": (whole, ())}
    for way, words in zip(("chunks", "prompted"), passes, strict=True):
        heard[way] = assemble(
            ChunkHeard(chunk, tuple(placed(one, chunk, voice))) for (chunk, voice), one in zip(made, words, strict=True)
        )
    heard["guarded"] = assemble(
        guarded(chunk, voice, placed(second, chunk, voice), placed(first, chunk, voice), prompt)
        for (chunk, voice), first, second in zip(made, *passes, strict=True)
    )
    for way, (transcript, again) in heard.items():
        for row in rows:
            row[way].add(reading, transcript, again, tables)
            row[way].work_s += work[way]
            row[way].sound_s += sound.seconds
    for passage in dropped(reading, heard["guarded"][0].words):
        print(f"  dropped: {passage.text!r} told: {flagged(passage, heard['guarded'][1])}")


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--voices", default=",".join(VOICES))
    parser.add_argument("--names", default=",".join(NAMES))
    asked = parser.parse_args()
    tables, recogniser = load_tables(), open_recogniser()
    total = {way: Row() for way in WAYS}
    print(f"{'voice':10} {'way':9} {'WER':>6} {'trade words':>11} {'findings':>7} {'record':>7} {'dropped':>8} "
          f"{'again':>6} {'of it':>7} {'CPU s/s':>8}")  # fmt: skip
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for voice in asked.voices.split(","):
            speak, noise, tool = VOICES[voice]
            if shutil.which(tool) is None:
                print(f"{voice:10} left out: {tool} is not installed")
                continue
            each = {way: Row() for way in WAYS}
            for narration in asked.names.split(","):
                reading = read_out(narration, speak, folder / f"{narration}.wav", noise)
                hear(reading, folder, recogniser, tables, [each, total])
            for way in WAYS:
                print(f"{voice:10} {way:9} {each[way].printed()}", flush=True)
    for way in WAYS:
        print(f"{'all':10} {way:9} {total[way].printed()}")
    print("told, guarded:", dict(total["guarded"].again))
    print(f"most memory of the run {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MB")


if __name__ == "__main__":
    main()
