"""Fit how sure each sort of entry is on the scored cases: ``python scripts/calibrate.py [--write] [--folds N]``.

For each sort of entry a logistic model of its features (``haywisp.narration.evidence``) is fitted to whether such
entries were right, L2-regularised. Each narration is heard twice: with all tables, and without the rows that it alone
uses, as the words of a new speaker are heard; a mark tells the two apart in the fit, and the weights are kept for the
latter. Everything that is reported is cross-validated: each narration is judged by a model
that was fitted without it. ``--write`` keeps the weights of all cases together and the thresholds in
``knowledge/data/en/confidence.toml``, and the figures and the picture in ``docs``.
"""

import argparse
import json
import sys
from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import numpy as np
from scipy.optimize import minimize

from haywisp.knowledge import Tables, load_tables
from haywisp.narration.calibrated import LEAST, MOST, Models
from haywisp.narration.doubting import FIELDS, OFFERS_APART_S, judged
from haywisp.narration.hearing import Hearing
from haywisp.narration.overlooked import candidates
from haywisp.narration.questions import about_entry
from haywisp.narration.types import Bout
from haywisp.narration.understanding import heard_with, listened, prepared

ROOT = Path(__file__).resolve().parents[1]
TABLE = ROOT / "src" / "haywisp" / "knowledge" / "data" / "en" / "confidence.toml"
sys.path += [str(ROOT / "tests" / "narration"), str(ROOT / "benchmarks" / "narration")]

import scoring  # noqa: E402
from case_files import Case, cases  # noqa: E402
from left_out import used_alone, without  # noqa: E402
from reliability_svg import drawn  # noqa: E402

LISTS = {"bout": "treatments", "finding": "findings", "response": "responses", "action": "actions"}
NEAR_S = 8.0
IN_SAMPLES, IN_CASES = 5, 3
PENALTIES = (1.0, 3.0, 10.0)


@dataclass
class Sample:
    """One entry or candidate: its case, features, whether it was right, and the same of its fields."""

    case: str
    sort: str
    part: str
    time: float
    evidence: Mapping[str, float]
    right: bool
    fields: dict[str, bool] = field(default_factory=dict)
    loose: bool = False
    sure: float = 0.0
    sures: dict[str, float] = field(default_factory=dict)
    confused: frozenset[int] = frozenset()
    helps: frozenset[int] = frozenset()
    near: frozenset[int] = frozenset()
    whole: str | None = None

    @property
    def all_sure(self) -> float:
        sure = self.sure
        for one in self.sures.values():
            sure *= one
        return sure


@dataclass
class Heard:
    """One case: its entries, what was left out, and the gold that was missed, by part."""

    name: str
    entries: list[Sample]
    left_out: list[Sample]
    missed: dict[str, list[dict[str, Any]]]
    gold: dict[str, int]


def row_of(part: str, entry: Any) -> dict[str, Any]:
    """An entry in the shape of the gold."""
    names = {
        "bout": ("technique", "structures", "side", "start", "end", "passes", "pressure"),
        "finding": ("structure", "side", "aspect", "value", "time"),
        "response": ("sign", "time"),
        "action": ("kind", "time"),
    }[part]
    row = {name: getattr(entry, name) for name in names}
    return row | ({"structures": list(entry.structures)} if isinstance(entry, Bout) else {})


def when_of(row: Mapping[str, Any]) -> float:
    return float(row.get("start", row.get("time", 0.0)))


def akin(part: str, gold: Mapping[str, Any], row: Mapping[str, Any]) -> bool:
    """Whether an offer leads to an entry that was missed: at its time, and alike in technique, place or aspect."""
    if part == "action":
        return gold["kind"] == row["kind"]
    if abs(when_of(gold) - when_of(row)) > NEAR_S:
        return False
    if part == "bout":
        return gold["technique"] == row["technique"] or bool(set(gold["structures"]) & set(row["structures"]))
    if part == "finding":
        return gold["aspect"] == row["aspect"] or gold["structure"] == row["structure"]
    return gold["sign"] == row["sign"]


def heard_of(case: Case, tables: Tables) -> Heard:
    """One case heard, and each entry compared with the gold."""
    name, gold = case.name, case.gold
    heard = listened(case.transcript, tables)
    hearing = Hearing(heard.scene, heard.drafts)
    findings, responses = heard.observer.findings, heard.observer.responses
    entries = judged(hearing, findings, responses, heard.actions, Models({}))
    samples: list[Sample] = []
    missed: dict[str, list[dict[str, Any]]] = {}
    for part, list_name in LISTS.items():
        mine = [one for one in entries if one.part == part]
        rows = [row_of(part, one.entry) for one in mine]
        pairs = scoring.best_pairs(gold.get(list_name, []), rows, scoring.PARTS[list_name])
        paired = {id(row): wanted for wanted, row in pairs}
        matched = {id(wanted) for wanted, _ in pairs}
        missed[part] = [row for row in gold.get(list_name, []) if id(row) not in matched]
        for one, row in zip(mine, rows, strict=True):
            wanted = paired.get(id(row))
            fields = {}
            if wanted is not None:
                fields = {n: wanted.get(n) is None or wanted[n] == row.get(n) for n in FIELDS[part]}
            near = frozenset(
                n for n, row_missed in enumerate(missed[part]) if abs(when_of(row_missed) - when_of(row)) <= NEAR_S
            )
            sample = Sample(name, part, part, when_of(row), one.evidence, wanted is not None, fields, confused=near)
            sample.whole = about_entry(part, one.entry, 0, None, one.evidence, hearing).field
            samples.append(sample)
    left_out = []
    for candidate in candidates(hearing, findings, responses, heard.actions):
        row = row_of(candidate.part, candidate.offer)
        weight = scoring.PARTS[LISTS[candidate.part]]
        strict = frozenset(n for n, wanted in enumerate(missed[candidate.part]) if weight(wanted, row) > 0)
        loose = frozenset(n for n, wanted in enumerate(missed[candidate.part]) if akin(candidate.part, wanted, row))
        left_out.append(
            Sample(
                name,
                candidate.sort,
                candidate.part,
                candidate.time,
                candidate.evidence,
                bool(strict | loose),
                loose=not strict,
                helps=strict | loose,
                near=frozenset(
                    n
                    for n, wanted in enumerate(missed[candidate.part])
                    if abs(when_of(wanted) - when_of(row)) <= NEAR_S
                ),
            )
        )
    return Heard(name, samples, left_out, missed, {part: len(gold.get(key, [])) for part, key in LISTS.items()})


# fitting

Row = tuple[str, Mapping[str, float], bool | None]
Put = Callable[[float], None]


@dataclass
class Fitted:
    """A model as it is kept."""

    base: float
    weights: dict[str, float]

    def probability(self, evidence: Mapping[str, float]) -> float:
        total = self.base + sum(self.weights.get(name, 0.0) * value for name, value in evidence.items())
        return float(max(LEAST, min(MOST, 1.0 / (1.0 + np.exp(-np.clip(total, -30, 30))))))


def fit(rows: Sequence[Row], penalty: float) -> Fitted:
    """Logistic regression on (case, features, right) with an L2 penalty on every weight but the base."""
    count, spread = Counter[str](), defaultdict(set)
    for case, evidence, _ in rows:
        for name in evidence:
            count[name] += 1
            spread[name].add(case)
    names = sorted(name for name in count if count[name] >= IN_SAMPLES and len(spread[name]) >= IN_CASES)
    place = {name: number for number, name in enumerate(names)}
    matrix = np.zeros((len(rows), len(names) + 1))
    matrix[:, -1] = 1.0
    for number, (_, evidence, _) in enumerate(rows):
        for name, value in evidence.items():
            if name in place:
                matrix[number, place[name]] = value
    wanted = np.array([1.0 if right else 0.0 for _, _, right in rows])
    penalties = np.full(len(names) + 1, penalty)
    penalties[-1] = 1e-3

    def cost(weights: np.ndarray) -> tuple[float, np.ndarray]:
        scores = matrix @ weights
        loss = np.logaddexp(0.0, scores) - wanted * scores
        slope = matrix.T @ (1.0 / (1.0 + np.exp(-scores)) - wanted)
        return float(loss.sum() + 0.5 * (penalties * weights**2).sum()), slope + penalties * weights

    best = minimize(cost, np.zeros(len(names) + 1), jac=True, method="L-BFGS-B").x
    weights = {name: round(float(best[place[name]]), 3) for name in names if abs(best[place[name]]) >= 0.005}
    return Fitted(round(float(best[-1]), 3), weights)


def folds_of(cases: Sequence[str], number: int) -> dict[str, int]:
    """Each narration's fold, every batch spread over all of them."""
    return {name: place % number for place, name in enumerate(sorted(cases))}


def cross_validated(rows: Sequence[Row], folds: Mapping[str, int], penalty: float) -> tuple[list[float], list[bool]]:
    """The probability of each row by a model that was fitted without its narration's fold, and whether it was right."""
    given = [0.0] * len(rows)
    for fold in sorted(set(folds.values())):
        model = fit([row for row in rows if folds[row[0]] != fold], penalty)
        for place, (case, evidence, _) in enumerate(rows):
            if folds[case] == fold:
                given[place] = model.probability(evidence)
    return given, [bool(right) for _, _, right in rows]


def log_loss(given: Sequence[float], right: Sequence[bool]) -> float:
    return float(-np.mean([np.log(p if r else 1 - p) for p, r in zip(given, right, strict=True)]))


def auc(given: Sequence[float], right: Sequence[bool]) -> float:
    """How often a right one is given more than a wrong one."""
    good = [p for p, r in zip(given, right, strict=True) if r]
    bad = [p for p, r in zip(given, right, strict=True) if not r]
    if not good or not bad:
        return 1.0
    wins = sum((g > b) + 0.5 * (g == b) for g in good for b in bad)
    return wins / len(good) / len(bad)


def calibration_error(given: Sequence[float], right: Sequence[bool], bins: int = 10) -> float:
    total = 0.0
    for low in range(bins):
        inside = [(p, r) for p, r in zip(given, right, strict=True) if low <= min(p * bins, bins - 1e-9) < low + 1]
        if inside:
            total += abs(sum(p for p, _ in inside) - sum(r for _, r in inside))
    return total / max(1, len(given))


def sorts_of(heard: Iterable[Heard]) -> dict[str, list[tuple[Row, Put]]]:
    """The rows of each model, each with where its probability goes."""
    rows: dict[str, list[tuple[Row, Put]]] = defaultdict(list)

    def keep(sample: Sample, name: str) -> Put:
        def put(value: float) -> None:
            sample.sures[name] = value

        return put

    def whole(sample: Sample) -> Put:
        def put(value: float) -> None:
            sample.sure = value

        return put

    for case in heard:
        for sample in [*case.entries, *case.left_out]:
            rows[sample.sort].append(((case.name, sample.evidence, sample.right), whole(sample)))
        for sample in case.entries:
            for name in FIELDS[sample.part]:
                right = sample.fields.get(name)
                # A field of an entry that is wrong as a whole can't be judged: it is given a value and not fitted on.
                row = (case.name, sample.evidence, right)
                rows[f"{sample.part} {name}"].append((row, keep(sample, name)))
    return rows


Told = dict[str, tuple[list[float], list[bool]]]
UNFAMILIAR = "unfamiliar speaker"


def run(heard: list[Heard], unheard: list[Heard], folds: Mapping[str, int], penalties: dict[str, float]) -> Told:
    """Put cross-validated probabilities into the samples of both hearings; gives those of the second.

    ``penalties`` holds the strength for each sort, and is filled where it has none.
    """
    told: Told = {}
    first, second = sorts_of(heard), sorts_of(unheard)
    for sort in sorted(first.keys() | second.keys()):
        pairs = [(marked(row), put) for row, put in second.get(sort, [])]
        known = fitting_rows(first.get(sort, []), second.get(sort, []))
        if sort not in penalties:
            penalties[sort] = min(PENALTIES, key=lambda one: log_loss(*cross_validated(known, folds, one)))
        # A person is taken for a speaker who was never heard, whichever hearing is judged.
        pairs += [(marked(row), put) for row, put in first.get(sort, [])]
        given: dict[int, float] = {}
        for fold in sorted(set(folds.values())):
            model = fit([row for row in known if folds[row[0]] != fold], penalties[sort])
            for place, ((case, evidence, _), put) in enumerate(pairs):
                if folds[case] == fold:
                    given[place] = model.probability(evidence)
                    put(given[place])
        judged_rows = [place for place in range(len(second.get(sort, []))) if pairs[place][0][2] is not None]
        told[sort] = ([given[place] for place in judged_rows], [bool(pairs[place][0][2]) for place in judged_rows])
    return told


def marked(row: Row) -> Row:
    """A row as of a speaker whose own phrases the tables lack."""
    return (row[0], {**row[1], UNFAMILIAR: 1.0}, row[2])


def fitting_rows(first: Sequence[tuple[Row, Put]], second: Sequence[tuple[Row, Put]]) -> list[Row]:
    """The rows of both hearings that can be judged, those of the second marked."""
    return [row for row, _ in first if row[2] is not None] + [marked(row) for row, _ in second if row[2] is not None]


def fitted(heard: list[Heard], unheard: list[Heard], penalties: Mapping[str, float]) -> dict[str, Fitted]:
    """The models on all cases, as for a speaker who was never heard."""
    first, second = sorts_of(heard), sorts_of(unheard)
    models = {}
    for sort in sorted(first.keys() | second.keys()):
        model = fit(fitting_rows(first.get(sort, []), second.get(sort, [])), penalties[sort])
        models[sort] = Fitted(round(model.base + model.weights.pop(UNFAMILIAR, 0.0), 3), model.weights)
    return models


@dataclass(frozen=True)
class Asking:
    """The thresholds of :class:`haywisp.narration.calibrated.Models`."""

    ask_below: float
    keep_above: float
    offer_above: float


ASKED_SHARE, OFFERED_SHARE = 0.25, 0.15
# What leaving doubtful entries out has to gain in F1, as it takes away what was right, too.
WORTH_IT = 0.003


def thresholds(heard: Sequence[Heard]) -> Asking:
    """A quarter of the entries asked about, the best F1 kept, and offers for about one entry in seven."""
    every = [sample for case in heard for sample in case.entries]
    keep = max(np.arange(0.0, 0.5, 0.02), key=lambda limit: (f1_kept(heard, float(limit)), -limit))
    if f1_kept(heard, float(keep)) - f1_kept(heard, 0.0) < WORTH_IT:
        keep = 0.0
    stands = sorted(sample.all_sure for sample in every if sample.sure >= keep)
    offers = sorted((sample.sure for case in heard for sample in case.left_out), reverse=True)
    ask = stands[int(ASKED_SHARE * len(stands))]
    return Asking(round(ask, 3), round(float(keep), 3), round(offers[int(OFFERED_SHARE * len(every))], 3))


def f1_kept(heard: Sequence[Heard], limit: float) -> float:
    """F1 of all cases when entries less sure than the limit are not written down."""
    kept = [sample for case in heard for sample in case.entries if sample.sure >= limit]
    gold = sum(number for case in heard for number in case.gold.values())
    return scoring.f1(sum(sample.right for sample in kept), gold, len(kept))


HEADER = """# Purpose: what features of a hearing are worth for how likely an entry is right (a logistic model each).
# Units: log odds; a feature is 0 to 1. ask_below, keep_above and offer_above are probabilities.
# Source: fitted on the project's cases (tests/narration/cases, {cases} narrations) by scripts/calibrate.py.
"""


def write_table(models: Mapping[str, Fitted], asking: Asking, cases: int) -> None:
    """Keep the weights of all cases together."""
    lines = [HEADER.format(cases=cases), "[asking]"]
    lines += [f"{name} = {value}" for name, value in vars(asking).items()]
    for sort, model in models.items():
        lines += ["", f'[model."{sort}"]', f"base = {model.base}", "", f'[model."{sort}".weights]']
        lines += [f"{json.dumps(name)} = {weight}" for name, weight in sorted(model.weights.items())]
    TABLE.write_text("\n".join(lines) + "\n", encoding="utf-8")


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--write", action="store_true", help="keep weights, thresholds, figures and picture")
    parser.add_argument("--folds", type=int, default=10, help="folds of narrations (10)")
    asked = parser.parse_args()
    tables = load_tables()
    every = cases()
    lexicon, _ = prepared(tables)
    alone = used_alone(every, tables)
    heard = [heard_of(case, tables) for case in every]
    unheard = [heard_of(case, heard_with(without(lexicon, alone[case.name]))) for case in every]
    penalties: dict[str, float] = {}
    told = run(heard, unheard, folds_of([case.name for case in heard], asked.folds), penalties)
    asking = thresholds(heard)
    print(asking, f"F1 {f1_kept(heard, 0.0):.4f}, kept above the limit {f1_kept(heard, asking.keep_above):.4f}")
    rows = {"all narrations": summary(heard, asking)}
    rows |= {f"of these, batch {batch}": summary(cases, asking) for batch, cases in by_batch(heard).items()}
    rows |= {"all, without own rows": summary(unheard, asking)}
    rows |= {f"batch {batch}, without": summary(cases, asking) for batch, cases in by_batch(unheard).items()}
    figures = [*reliability(told), *curve(heard), *table("cross-validated by narration", rows)]
    batches = {case.name: number for number, cases in enumerate(by_batch(heard).values()) for case in cases}
    run(heard, unheard, batches, penalties)
    apart = {f"batch {batch}": summary(cases, asking) for batch, cases in by_batch(heard).items()}
    apart |= {f"batch {batch}, without own rows": summary(cases, asking) for batch, cases in by_batch(unheard).items()}
    figures += table("each batch by models of the others", apart)
    print("\n".join(figures))
    if asked.write:
        write_table(fitted(heard, unheard, penalties), asking, len(heard))
        panels = {name: told[sort] for sort, name in SHOWN.items()}
        PICTURE.write_text(drawn(panels, "How often entries were right, by how sure they were"), encoding="utf-8")
        before, _, rest = PAGE.read_text(encoding="utf-8").partition(BEGIN)
        text = "\n".join([before.rstrip("\n"), "", BEGIN, *figures, END + rest.partition(END)[2]])
        PAGE.write_text(text, encoding="utf-8")


SHOWN = {"bout": "Bouts", "finding": "Findings", "response": "Answers", "action": "Decisions"}
PICTURE = ROOT / "docs" / "pictures" / "confidence.svg"
PAGE = ROOT / "docs" / "confidence.md"
BEGIN, END = "<!-- figures: written by scripts/calibrate.py -->", "<!-- end of figures -->"


def by_batch(heard: Iterable[Heard]) -> dict[str, list[Heard]]:
    """Cases by the letters that their names begin with."""
    batches: dict[str, list[Heard]] = {}
    for case in heard:
        batches.setdefault(case.name.rstrip("0123456789"), []).append(case)
    return batches


def reliability(told: Told) -> list[str]:
    """The picture and the table of the models."""
    lines = [
        "",
        "![How often entries were right, by how sure they were](pictures/confidence.svg)",
        "",
        "Each narration heard without the rows of the tables that it alone uses, as that of a new speaker is. Dots are",
        "tenths of probability with the share that was right (hollow: fewer than five), bars how many lie there,",
        "the dashed line what perfect confidence would be.",
        "",
        "| model | entries | right | AUC | calibration error | Brier |",
        "|---|---|---|---|---|---|",
    ]
    for sort, (given, right) in told.items():
        brier = np.mean([(p - r) ** 2 for p, r in zip(given, right, strict=True)])
        lines.append(
            f"| {sort} | {len(given)} | {np.mean(right):.3f} | {auc(given, right):.3f} "
            f"| {calibration_error(given, right):.3f} | {brier:.3f} |"
        )
    return lines


def curve(heard: Sequence[Heard]) -> list[str]:
    """How much is covered by how many questions."""
    every = [sample for case in heard for sample in case.entries]
    sures = sorted(sample.all_sure for sample in every)
    offers = sorted((sample.sure for case in heard for sample in case.left_out), reverse=True)
    shares = (0.0, OFFERED_SHARE / 2, OFFERED_SHARE)
    lines = ["", "Share of what is wrong that is covered, by the share of entries asked about (rows) and offers made"]
    lines += ["for every hundred entries (columns):", ""]
    lines += ["| asked about | " + " | ".join(f"{share:.0%} offers" for share in shares) + " |", "|---|---|---|---|"]
    for ask in (0.1, 0.15, 0.2, ASKED_SHARE, 0.3, 0.35):
        row = []
        for share in shares:
            limit = offers[int(share * len(sures))] if share else 2.0
            row.append(f"{covered(heard, sures[int(ask * len(sures))], limit).share:.0%}")
        lines.append(f"| {ask:.0%} | " + " | ".join(row) + " |")
    return lines


def summary(heard: Sequence[Heard], asking: Asking) -> list[str]:
    """One row: what is asked, how often what is asked and not asked is right, and what is covered."""
    every = [sample for case in heard for sample in case.entries]
    doubted = [sample for sample in every if sample.all_sure < asking.ask_below]
    plain = [sample for sample in every if sample.all_sure >= asking.ask_below]
    got = covered(heard, asking.ask_below, asking.offer_above)

    def right(samples: Sequence[Sample]) -> str:
        return f"{np.mean([one.right for one in samples]):.3f}" if samples else "–"

    parts = [f"{done} of {number}" for number, done in (got.extra, got.fields, got.missed)]
    return [
        str(len(every)),
        f"{len(doubted) / max(1, len(every)):.0%}",
        right(doubted),
        right(plain),
        str(got.offers),
        *parts,
        str(got.missed_met),
        f"{got.share:.0%}",
    ]


def table(title: str, rows: Mapping[str, Sequence[str]]) -> list[str]:
    """Rows of :func:`summary`."""
    heads = (
        "entries | asked | right if asked | right if not | offers | extras covered | fields covered | missed covered"
    )
    lines = ["", f"| {title} | {heads} | of these met | all covered |", "|---" * 11 + "|"]
    return lines + [f"| {name} | " + " | ".join(row) + " |" for name, row in rows.items()]


@dataclass(frozen=True)
class Covered:
    """What thresholds ask and cover: entries asked, offers made, and errors by sort with those covered."""

    asked: int
    offers: int
    extra: tuple[int, int]
    fields: tuple[int, int]
    missed: tuple[int, int]
    missed_met: int

    @property
    def share(self) -> float:
        every = self.extra[0] + self.fields[0] + self.missed[0]
        return (self.extra[1] + self.fields[1] + self.missed[1]) / max(1, every)


def covered(heard: Iterable[Heard], ask: float, offer: float) -> Covered:
    """What is covered: an extra by a question on it, a field by one on it or the whole, a miss by one within 8 s."""
    counts = Counter[str]()
    for case in heard:
        near: set[tuple[str, int]] = set()
        met: set[tuple[str, int]] = set()
        for sample in case.entries:
            asked = sample.all_sure < ask
            counts["asked"] += asked
            counts["extra"] += not sample.right
            counts["extra covered"] += asked and not sample.right
            field_asked = weakest(sample)
            for name, right in sample.fields.items():
                counts["fields"] += not right
                counts["fields covered"] += asked and not right and field_asked in (None, name)
            if asked:
                near |= {(sample.part, number) for number in sample.confused}
                met |= {(sample.part, number) for number in sample.confused if not sample.right}
        busy = [sample for sample in case.entries if sample.all_sure < ask]
        for sample in offered(case.left_out, offer, busy):
            counts["offers"] += 1
            near |= {(sample.part, number) for number in sample.near}
            met |= {(sample.part, number) for number in sample.helps}
        counts["missed"] += sum(len(rows) for rows in case.missed.values())
        counts["missed covered"] += len(near)
        counts["missed met"] += len(met)
    return Covered(
        counts["asked"],
        counts["offers"],
        (counts["extra"], counts["extra covered"]),
        (counts["fields"], counts["fields covered"]),
        (counts["missed"], counts["missed covered"]),
        counts["missed met"],
    )


def weakest(sample: Sample) -> str | None:
    """The field that a question about an entry asks for; None where it asks about the whole."""
    name = min(sample.sures, key=lambda one: sample.sures[one], default=None)
    return name if name is not None and sample.sures[name] < sample.sure else sample.whole


def offered(left_out: Iterable[Sample], limit: float, busy: Sequence[Sample]) -> list[Sample]:
    """As :func:`haywisp.narration.doubting.spaced` chooses them."""
    kept: list[Sample] = []
    kinds: set[str] = set()
    for sample in sorted(left_out, key=lambda one: (-one.sure, one.time, one.sort)):
        if sample.sure < limit:
            break
        kind = next((name for name in sample.evidence if name.startswith("is ")), "")
        if any(one.part == sample.part and abs(one.time - sample.time) < OFFERS_APART_S for one in [*kept, *busy]):
            continue
        if sample.part == "action":
            if kind in kinds:
                continue
            kinds.add(kind)
        kept.append(sample)
    return kept


if __name__ == "__main__":
    main()
