"""Leave-one-out: each case heard without the rows of the tables that it alone makes use of.

A phrase that fits in one narration and in no other may have been written for that narration. What is still right
without all such phrases is what the rest of the tables and the grammar give, as for a speaker who was never heard.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from case_files import Case, Record, record_of

from haywisp.knowledge import Tables
from haywisp.narration import understand
from haywisp.narration.lexicon import Lexicon
from haywisp.narration.phrases import Matcher
from haywisp.narration.tokens import tokenise
from haywisp.narration.understanding import heard_with, prepared, scene_of

# A row of the tables: the kind of mention that it is for, what it means, and its phrase.
RowKey = tuple[str, str, str]


def rows_used(case: Case, tables: Tables) -> set[RowKey]:
    """The rows whose phrases fit somewhere in a case, in the words as heard or as repaired."""
    lexicon, _ = prepared(tables)
    scene = scene_of(case.transcript, tables)
    used = {
        (kind, phrase.meaning, phrase.text)
        for kind, matcher in lexicon.matchers.items()
        for _, _, phrase in matcher.fitting(scene.tokens)
    }
    said = " ".join(["", *(token.text for token in tokenise(case.transcript.words, lexicon.spellings)), ""])
    used |= {("near", heard, heard) for heard in lexicon.near if f" {heard} " in said}
    return used | {("sure", heard, heard) for heard in lexicon.sure if f" {heard} " in said}


def used_alone(cases: Sequence[Case], tables: Tables) -> dict[str, set[RowKey]]:
    """For each case the rows that fit in it and in no other of the cases."""
    used = {case.name: rows_used(case, tables) for case in cases}
    often = Counter(key for keys in used.values() for key in keys)
    return {name: {key for key in keys if often[key] == 1} for name, keys in used.items()}


def without(lexicon: Lexicon, rows: set[RowKey]) -> Lexicon:
    """The lexicon without some rows of the tables."""

    def kept(kind: str, matcher: Matcher) -> Matcher:
        if not any(row[0] == kind for row in rows):
            return matcher
        return Matcher([p for p in matcher.phrases if (kind, p.meaning, p.text) not in rows])

    matchers = {kind: kept(kind, matcher) for kind, matcher in lexicon.matchers.items()}
    near = {heard: row for heard, row in lexicon.near.items() if ("near", heard, heard) not in rows}
    sure = {heard: meant for heard, meant in lexicon.sure.items() if ("sure", heard, heard) not in rows}
    vocabulary = frozenset(word for matcher in matchers.values() for word in matcher.words)
    return replace(lexicon, matchers=matchers, near=near, sure=sure, vocabulary=vocabulary)


def left_out_records(cases: Sequence[Case], tables: Tables) -> tuple[dict[str, Record], dict[str, int]]:
    """Each case's record without the rows that it alone uses, and how many rows those are."""
    lexicon, _ = prepared(tables)
    records, counts = {}, {}
    for name, rows in used_alone(cases, tables).items():
        transcript = next(case.transcript for case in cases if case.name == name)
        records[name] = record_of(understand(transcript, heard_with(without(lexicon, rows))))
        counts[name] = len(rows)
    return records, counts
