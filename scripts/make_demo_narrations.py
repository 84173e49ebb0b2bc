"""Time the demo's written narrations and write them in the four formats that Haywisp reads.

Each ``scripts/demo_sources/NAME.txt`` starts with ``key: value`` lines (``format`` vtt, srt, txt or words.json;
``rate`` in words a second; ``punctuation`` yes or no), then a blank line and the speech. In the speech ``(8)`` is
eight seconds of silent work and ``{heard=meant}`` is what a recogniser would have written for what was said. The same
sources always give the same files.
"""

import argparse
import json
import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path
from zlib import crc32

HERE = Path(__file__).parent
SOURCES = HERE / "demo_sources"
NARRATIONS = HERE.parent / "src" / "haywisp" / "demo" / "narrations"
TOKEN = re.compile(r"\((\d+)\)|\{([^=}]*)=[^}]*\}([^\s{]*)|(\S+)")
PAUSES = {",": 0.25, ";": 0.3, ":": 0.35, ".": 0.6, "?": 0.65, "!": 0.6, "…": 0.9}
LONGEST_CUE_S, WIDEST_LINE, SHORTEST_CUE_S = 6.0, 44, 3.0
MARK_EVERY_S = 30.0


@dataclass(frozen=True)
class Timed:
    """One word with its times, and whether it was misheard and ends a sentence."""

    text: str
    start: float
    end: float
    misheard: bool
    stop: bool


def split(source: str) -> tuple[dict[str, str], str]:
    """The settings and the speech of one source."""
    head, _, speech = source.partition("\n\n")
    settings = {key.strip(): value.strip() for key, value in (line.split(":", 1) for line in head.splitlines())}
    return settings, speech


def spoken(speech: str) -> Iterator[tuple[str, bool] | int]:
    """Words (with whether they were misheard) and silences in seconds, in order; a paragraph ends in a breath."""
    for silence, heard, tail, word in TOKEN.findall(speech.strip().replace("\n\n", " (1) ")):
        if silence:
            yield int(silence)
        elif heard:
            words = f"{heard}{tail}".split()
            yield from ((word, True) for word in words)
        else:
            yield word, False


def chance(*key: object) -> float:
    """A number from 0 to 1 that looks random and is always the same for the same key."""
    return crc32(repr(key).encode()) / 0xFFFFFFFF


def timed(name: str, speech: str, rate: float) -> list[Timed]:
    """Each word with the time it would be said at ``rate`` words a second, longer words taking longer."""
    clock, words = 0.6, []
    for index, item in enumerate(spoken(speech)):
        if isinstance(item, int):
            clock += item * (0.9 + 0.2 * chance(name, index))
            continue
        word, misheard = item
        letters = sum(letter.isalnum() for letter in word)
        length = (0.35 + 0.13 * letters) / rate * (0.85 + 0.3 * chance(name, index, word))
        stop = word[-1] in ".?!…"
        words.append(Timed(word, round(clock, 2), round(clock + length, 2), misheard, stop))
        clock += length + 0.02 + PAUSES.get(word[-1], 0.0) * (0.7 + 0.6 * chance(name, "pause", index))
    return words


def bare(words: list[Timed]) -> list[Timed]:
    """Without capitals and punctuation, as some recognisers write; what has no letter goes."""
    stripped = ((word, re.sub(r"[^\w' -]", "", word.text).strip("'-").lower()) for word in words)
    return [Timed(text, word.start, word.end, word.misheard, word.stop) for word, text in stripped if text]


def cues(words: list[Timed]) -> list[list[Timed]]:
    """Words in captions: a new one at silences, at a stop once it has enough, and where it gets too long."""
    groups: list[list[Timed]] = []
    for word in words:
        group = groups[-1] if groups else []
        width = sum(len(each.text) + 1 for each in [*group, word])
        silent = bool(group) and word.start - group[-1].end > 1.2
        full = width > 2 * WIDEST_LINE - 8 or (bool(group) and word.end - group[0].start > LONGEST_CUE_S)
        if not group or silent or full or (group[-1].stop and width > WIDEST_LINE):
            groups.append([])
        groups[-1].append(word)
    return groups


def lines(group: list[Timed]) -> str:
    """A caption's text on one line or on two about as long."""
    text = " ".join(word.text for word in group)
    if len(text) <= WIDEST_LINE:
        return text
    cut = text.rfind(" ", 0, len(text) // 2 + 6)
    return f"{text[:cut]}\n{text[cut + 1 :]}" if cut > 0 else text


def clock(seconds: float, point: str) -> str:
    """Hours, minutes, seconds and thousandths as captions write them."""
    whole = round(seconds * 1000)
    return f"{whole // 3600000:02}:{whole // 60000 % 60:02}:{whole // 1000 % 60:02}{point}{whole % 1000:03}"


def captions(words: list[Timed], point: str) -> list[tuple[str, str]]:
    """Timing line and text of each caption; a short one stays until the shortest time or the next one."""
    groups = cues(words)
    starts = [group[0].start for group in groups] + [float("inf")]
    ends = [min(max(g[-1].end, g[0].start + SHORTEST_CUE_S), s - 0.02) for g, s in zip(groups, starts[1:], strict=True)]
    return [
        (f"{clock(group[0].start, point)} --> {clock(end, point)}", lines(group))
        for group, end in zip(groups, ends, strict=True)
    ]


def webvtt(words: list[Timed]) -> str:
    """As WebVTT."""
    return "WEBVTT\n\n" + "\n\n".join(f"{time}\n{text}" for time, text in captions(words, ".")) + "\n"


def subrip(words: list[Timed]) -> str:
    """As SubRip."""
    rows = enumerate(captions(words, ","), start=1)
    return "\n\n".join(f"{number}\n{time}\n{text}" for number, (time, text) in rows) + "\n"


def marked(words: list[Timed]) -> str:
    """As text with a ``[m:ss]`` mark about every half minute."""
    groups: list[list[Timed]] = [[words[0]]]
    for before, word in pairwise(words):
        if word.start - groups[-1][0].start > MARK_EVERY_S and (before.stop or word.start - before.end > 1.2):
            groups.append([])
        groups[-1].append(word)
    starts = [int(group[0].start) for group in groups]
    texts = [" ".join(word.text for word in group) for group in groups]
    return "".join(f"[{s // 60}:{s % 60:02}] {text}\n" for s, text in zip(starts, texts, strict=True))


def word_times(words: list[Timed]) -> str:
    """As JSON, a row a word, with a likelihood that is low where the word was misheard."""
    rows = []
    for index, word in enumerate(words):
        low, width = (0.28, 0.45) if word.misheard else (0.86, 0.13)
        row = {"text": word.text, "start": word.start, "end": word.end}
        rows.append(json.dumps({**row, "prob": round(low + width * chance(index, word.text), 3)}, ensure_ascii=False))
    return "[\n" + ",\n".join(rows) + "\n]\n"


WRITERS = {"vtt": webvtt, "srt": subrip, "txt": marked, "words.json": word_times}


def render(source: Path) -> tuple[str, str]:
    """File name and content of the narration that one source makes."""
    settings, speech = split(source.read_text(encoding="utf-8"))
    words = timed(source.stem, speech, float(settings["rate"]))
    if settings["punctuation"] == "no":
        words = bare(words)
    return f"{source.stem}.{settings['format']}", WRITERS[settings["format"]](words)


def main() -> None:
    """Write every narration; with ``--to`` somewhere else than into the package."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else None)
    parser.add_argument("--to", type=Path, default=NARRATIONS)
    folder = parser.parse_args().to
    folder.mkdir(parents=True, exist_ok=True)
    for source in sorted(SOURCES.glob("*.txt")):
        name, content = render(source)
        (folder / name).write_text(content, encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
