"""The committed narrations are what the written sources make."""

import importlib.util
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).parents[2]
NARRATIONS = ROOT / "src" / "haywisp" / "demo" / "narrations"


@pytest.fixture(scope="module")
def maker() -> ModuleType:
    spec = importlib.util.spec_from_file_location("make_demo_narrations", ROOT / "scripts" / "make_demo_narrations.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_the_committed_files_are_those_of_the_sources(maker: ModuleType) -> None:
    made = dict(maker.render(source) for source in maker.SOURCES.glob("*.txt"))
    committed = {file.name: file.read_text(encoding="utf-8") for file in NARRATIONS.iterdir()}
    assert made == committed


def test_a_source_gives_words_silences_and_what_was_heard(maker: ModuleType) -> None:
    pieces = list(maker.spoken("Over the {super spinatus=supraspinatus}. (8) Soft.\n"))
    assert pieces == [("Over", False), ("the", False), ("super", True), ("spinatus.", True), 8, ("Soft.", False)]


def test_silence_is_kept_between_the_words(maker: ModuleType) -> None:
    first, second = maker.timed("x", "Soft. (20) Tight.", 2.5)
    assert 18 <= second.start - first.end <= 23.5


def test_words_never_overlap_and_captions_neither(maker: ModuleType) -> None:
    for source in maker.SOURCES.glob("*.txt"):
        settings, speech = maker.split(source.read_text(encoding="utf-8"))
        words = maker.timed(source.stem, speech, float(settings["rate"]))
        assert all(a.end <= b.start for a, b in zip(words, words[1:], strict=False)), source.name
        times = [line.split(" --> ") for line, _ in maker.captions(words, ".")]
        assert all(a[1] < b[0] for a, b in zip(times, times[1:], strict=False)), source.name
        assert all(start < end for start, end in times), source.name


def test_without_punctuation_only_words_are_left(maker: ModuleType) -> None:
    words = maker.bare(maker.timed("x", "Okay… she's soft, – both sides!", 2.5))
    assert [word.text for word in words] == ["okay", "she's", "soft", "both", "sides"]
