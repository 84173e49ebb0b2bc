"""Everything measured of the narration engine, in one run: ``python benchmarks/narration/run.py [--write]``.

F1 by part for each batch of cases with its first look, leave-one-out, errors by cause, what the questions cover, and
speed, growth and memory beside a fuzzy gazetteer and plain spaCy pipelines. What each means is told in the README.
"""

import argparse
import sys
import tempfile
import tomllib
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import page
from asked import Coverage, coverage_of
from case_files import Case, by_batch, cases, record_of
from causes import Fault, attribute_faults, faults_of
from forms import forms_of
from left_out import left_out_records
from peers import INSTALL, Peer, gazetteer, names_pipeline, spacy_names, spacy_patterns
from plain_names import record_from
from score_sheet import Sheet, outcomes, sheet_of
from speed import Measured, measured, narrations
from whole import whole

from haywisp.knowledge import Tables, load_tables
from haywisp.narration import understand
from haywisp.narration.understanding import prepared, scene_of

FIRST_LOOK = Path(__file__).with_name("first_look.toml")
MINUTES = (20.0, 40.0, 80.0, 160.0, 320.0)
SLOW_PEER_MINUTES = (5.0, 10.0, 20.0)
FUZZY_FORMS_A_PHRASE, FORMS_A_PHRASE = 4, 200


def main() -> None:
    """Measure, and print the tables or write them into the README."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--seed", type=int, default=1, help="order of the narrations that are timed (1)")
    parser.add_argument("--again", type=int, default=3, help="runs of each length, of which the fastest counts (3)")
    parser.add_argument("--write", action="store_true", help="write the tables into the README")
    parser.add_argument("--accuracy", action="store_true", help="only what is heard; neither speed nor peers")
    parser.add_argument("--processes", action="store_true", help="only whole processes, the command's and spaCy's")
    asked = parser.parse_args()
    tables = load_tables()
    if asked.processes:
        print(processes(tables, asked.seed, asked.again))
        return
    batches = by_batch(cases())
    parts = list(accuracy(tables, batches))
    if not asked.accuracy:
        parts += list(speed_and_peers(tables, batches, asked.seed, asked.again))
        parts.append(processes(tables, asked.seed, asked.again))
    text = "\n\n".join(parts)
    if asked.write:
        page.write(text)
    print(text)


def accuracy(tables: Tables, batches: Mapping[str, list[Case]]) -> Iterator[str]:
    """The tables of what is heard."""
    first_looks: dict[str, dict[str, Any]] = tomllib.loads(FIRST_LOOK.read_text(encoding="utf-8"))
    sheets: dict[str, Sheet] = {}
    covered: dict[str, Coverage] = {}
    faults: dict[str, list[Fault]] = {}
    for batch, many in batches.items():
        sheets[batch], covered[batch], faults[batch] = Sheet(), Coverage(), []
        for case in many:
            narration = understand(case.transcript, tables)
            found = outcomes(case.gold, record_of(narration))
            sheets[batch].add(found)
            covered[batch] += coverage_of(narration, found)
            faults[batch] += [*faults_of(found, scene_of(case.transcript, tables)), *attribute_faults(found)]
    words = {batch: sum(len(case.transcript.words) for case in many) for batch, many in batches.items()}
    every = [case for many in batches.values() for case in many]
    records, alone = left_out_records(every, tables)
    left = {batch: sheet_of((case.gold, records[case.name]) for case in many) for batch, many in batches.items()}
    counts = {batch: sum(alone[case.name] for case in many) for batch, many in batches.items()}
    yield f"### F1 by part\n\n{page.accuracy(sheets, words, first_looks)}\n\n{page.how_first_looked(first_looks)}"
    yield f"### Leave-one-out\n\n{page.leaving_out(sheets, left, counts)}"
    yield f"### Errors by cause\n\n{page.errors(faults)}"
    yield f"### Questions\n\n{page.questions(covered)}"


def speed_and_peers(tables: Tables, batches: Mapping[str, list[Case]], seed: int, again: int) -> Iterator[str]:
    """The tables of speed, and what the peers make of the same cases."""
    lexicon, _ = prepared(tables)
    parts = narrations(seed, tables)
    names = spacy_names(forms_of(lexicon, FORMS_A_PHRASE))
    fuzzy = gazetteer(forms_of(lexicon, FUZZY_FORMS_A_PHRASE), lexicon)
    found = [peer for peer in (names, spacy_patterns(lexicon), fuzzy) if peer is not None]
    rows: dict[str, list[Measured]] = {
        "grammar": measured(MINUTES, parts, lambda transcript: understand(transcript, tables), again)
    }
    for peer in found:
        rows[peer.name] = measured(MINUTES if peer is names else SLOW_PEER_MINUTES, parts, peer.find, again)
    if names is None:
        print(INSTALL, file=sys.stderr)
    yield f"### Speed, growth and memory\n\n{len(parts)} narrations, seed {seed}.\n\n{page.speeds(rows)}"
    scored = {peer.name: (peer.knows, peer_sheets(peer, tables, batches)) for peer in found}
    yield f"### What lists of names make of the same cases\n\n{page.peers(scored)}"


def processes(tables: Tables, seed: int, again: int) -> str:
    """The table of whole processes."""
    lexicon, _ = prepared(tables)
    pipeline = names_pipeline(forms_of(lexicon, FORMS_A_PHRASE))
    with tempfile.TemporaryDirectory() as folder:
        if pipeline is not None:
            pipeline.to_disk(folder)
        rows = whole((*MINUTES, 640.0), narrations(seed, tables), None if pipeline is None else Path(folder), again)
    return f"### Whole processes\n\n{page.processes(rows)}"


def peer_sheets(peer: Peer, tables: Tables, batches: Mapping[str, list[Case]]) -> dict[str, Sheet]:
    """A peer's record of each case against its gold."""
    lexicon, _ = prepared(tables)
    return {
        batch: sheet_of((case.gold, record_from(peer.find(case.transcript), case.transcript, lexicon)) for case in many)
        for batch, many in batches.items()
    }


if __name__ == "__main__":
    main()
