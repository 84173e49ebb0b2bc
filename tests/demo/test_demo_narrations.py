"""The committed narrations are what the written sources make."""

from pathlib import Path

import make_demo_narrations

ROOT = Path(__file__).parents[2]
NARRATIONS = ROOT / "src" / "haywisp" / "demo" / "narrations"


def test_the_committed_files_are_those_of_the_sources() -> None:
    made = dict(make_demo_narrations.render(source) for source in make_demo_narrations.SOURCES.glob("*.txt"))
    committed = {file.name: file.read_text(encoding="utf-8") for file in NARRATIONS.iterdir()}
    assert made == committed


def test_a_source_gives_words_silences_and_what_was_heard() -> None:
    pieces = list(make_demo_narrations.spoken("Over the {super spinatus=supraspinatus}. (8) Soft.\n"))
    assert pieces == [("Over", False), ("the", False), ("super", True), ("spinatus.", True), 8, ("Soft.", False)]


def test_silence_is_kept_between_the_words() -> None:
    first, second = make_demo_narrations.timed("x", "Soft. (20) Tight.", 2.5)
    assert 18 <= second.start - first.end <= 23.5


def test_words_never_overlap_and_captions_neither() -> None:
    for source in make_demo_narrations.SOURCES.glob("*.txt"):
        settings, speech = make_demo_narrations.split(source.read_text(encoding="utf-8"))
        words = make_demo_narrations.timed(source.stem, speech, float(settings["rate"]))
        assert all(a.end <= b.start for a, b in zip(words, words[1:], strict=False)), source.name
        times = [line.split(" --> ") for line, _ in make_demo_narrations.captions(words, ".")]
        assert all(a[1] < b[0] for a, b in zip(times, times[1:], strict=False)), source.name
        assert all(start < end for start, end in times), source.name


def test_without_punctuation_only_words_are_left() -> None:
    words = make_demo_narrations.bare(make_demo_narrations.timed("x", "Okay… she's soft, – both sides!", 2.5))
    assert [word.text for word in words] == ["okay", "she's", "soft", "both", "sides"]
