"""The grammar's speed, growth and memory beside a fuzzy gazetteer: ``python benchmarks/narration/run.py [--seed N]``.

Transcripts are made by saying the demo narrations one after another, shuffled by the seed; those in which the session
is stopped are left out, as nothing that follows would be work. The peer is the usual way to find names in text: every
spoken form of the same tables in one list, and the nearest of them by rapidfuzz for each window of one to four words.
It only finds names (no sides, times or modality): a floor for the work, and no rival for the result. CPU time is the
process's own; memory is what Python held at most, measured in a run of its own.
"""

import argparse
import math
import tracemalloc
from collections.abc import Callable, Sequence
from dataclasses import replace
from importlib.resources import files
from itertools import islice, product
from random import Random
from time import process_time

from rapidfuzz import fuzz, process

from haywisp.knowledge import Tables, load_tables
from haywisp.narration import Transcript, Word, read_bytes, understand
from haywisp.narration.lexicon import Lexicon
from haywisp.narration.tokens import tokenise
from haywisp.narration.understanding import prepared

BASE_MINUTES = 20.0
FACTORS = (1, 2, 4, 8, 16)
FIVE_HOURS = 300.0
LONGEST_WINDOW = 4
FORMS_A_PHRASE = 24
NEAREST = 2
LIKE_ENOUGH = 88
PEER_MINUTES = (5.0, 10.0, 20.0)
GAP_S = 4.0
STOP = "stop-session"


def narrations(seed: int, tables: Tables) -> list[Transcript]:
    """The demo narrations in an order that the seed gives."""
    folder = files("haywisp.demo") / "narrations"
    found = sorted((file for file in folder.iterdir() if file.is_file()), key=lambda file: file.name)
    read = [read_bytes(file.read_bytes(), file.name) for file in found]
    made = [part for part in read if all(action.kind != STOP for action in understand(part, tables).actions)]
    Random(seed).shuffle(made)
    return made


def of_length(minutes: float, parts: Sequence[Transcript]) -> Transcript:
    """Narrations said one after another for so many minutes."""
    words: list[Word] = []
    at = 0.0
    while True:
        for part in parts:
            for word in part.words:
                if at + word.end > minutes * 60:
                    return Transcript(tuple(words), "vtt")
                words.append(replace(word, start=round(at + word.start, 3), end=round(at + word.end, 3)))
            at = words[-1].end + GAP_S


def spoken_forms(tables: Tables, lexicon: Lexicon) -> list[str]:
    """The forms of every structure, technique and sign that the tables spell out, and the trade's long words."""
    raw = tables.language.tables
    forms = set(lexicon.sounded)
    for room in ("structures", "techniques", "signs"):
        for meaning, phrases in raw[room]["forms"].items():
            for phrase in lexicon.compile(phrases, meaning):
                if not any(item.gap for item in phrase.items):
                    choices = [[*sorted(item.words), *([""] if item.optional else [])] for item in phrase.items]
                    forms.update(" ".join(filter(None, words)) for words in islice(product(*choices), FORMS_A_PHRASE))
    return sorted(forms)


def gazetteer(transcript: Transcript, forms: Sequence[str], lexicon: Lexicon) -> int:
    """How many windows of one to four words are like a spoken form."""
    texts = [token.text for token in tokenise(transcript.words, lexicon.spellings)]
    hits = 0
    for first in range(len(texts)):
        for last in range(first + 1, min(first + LONGEST_WINDOW, len(texts)) + 1):
            window = " ".join(texts[first:last])
            hits += bool(process.extract(window, forms, scorer=fuzz.ratio, limit=NEAREST, score_cutoff=LIKE_ENOUGH))
    return hits


def cpu(work: Callable[[], object], again: int) -> float:
    """The least CPU seconds of several runs."""
    taken = []
    for _ in range(again):
        start = process_time()
        work()
        taken.append(process_time() - start)
    return min(taken)


def peak_mb(work: Callable[[], object]) -> float:
    """The most memory that Python held during some work, in megabytes."""
    tracemalloc.start()
    work()
    most = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    return most / 1e6


def slope(sizes: Sequence[float], seconds: Sequence[float]) -> float:
    """The exponent of growth: the least-squares slope of log seconds over log size."""
    xs, ys = [math.log(size) for size in sizes], [math.log(max(second, 1e-9)) for second in seconds]
    middle_x, middle_y = sum(xs) / len(xs), sum(ys) / len(ys)
    across = sum((x - middle_x) * (y - middle_y) for x, y in zip(xs, ys, strict=True))
    return across / sum((x - middle_x) ** 2 for x in xs)


def table(
    name: str, rows: Sequence[tuple[float, Transcript]], work: Callable[[Transcript], object], again: int
) -> None:
    """Print one line a size, and the growth."""
    sizes, seconds = [], []
    for minutes, transcript in rows:
        count = len(transcript.words)
        taken = cpu(lambda transcript=transcript: work(transcript), again)  # type: ignore[misc]
        memory = peak_mb(lambda transcript=transcript: work(transcript))  # type: ignore[misc]
        sizes.append(float(count))
        seconds.append(taken)
        print(f"{name:10} {minutes:8.1f} {count:8} {taken:9.3f} {count / taken:10.0f} {memory:8.1f}")
    if len(rows) > 1:
        print(f"{name:10} growth: seconds ~ words^{slope(sizes, seconds):.2f}")


def main() -> None:
    """Print the grammar's rows, those of the peer, and the transcript of five hours."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--seed", type=int, default=1, help="order of the narrations (1)")
    parser.add_argument("--again", type=int, default=3, help="runs of each size, of which the fastest counts (3)")
    asked = parser.parse_args()
    tables: Tables = load_tables()
    lexicon, _ = prepared(tables)
    parts = narrations(asked.seed, tables)
    forms = spoken_forms(tables, lexicon)
    print(f"{len(parts)} narrations, {len(forms)} spoken forms for the peer, seed {asked.seed}")
    print(f"{'':10} {'minutes':>8} {'words':>8} {'CPU s':>9} {'words/s':>10} {'peak MB':>8}")
    table(
        "grammar",
        [(BASE_MINUTES * factor, of_length(BASE_MINUTES * factor, parts)) for factor in FACTORS],
        lambda transcript: understand(transcript, tables),
        asked.again,
    )
    table(
        "five hours",
        [(FIVE_HOURS, of_length(FIVE_HOURS, parts))],
        lambda transcript: understand(transcript, tables),
        1,
    )
    table(
        "gazetteer",
        [(minutes, of_length(minutes, parts)) for minutes in PEER_MINUTES],
        lambda transcript: gazetteer(transcript, forms, lexicon),
        1,
    )


if __name__ == "__main__":
    main()
