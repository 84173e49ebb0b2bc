"""The measured tables as Markdown, and their place in the README."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any

from asked import Coverage
from case_files import PARTS
from causes import Fault, counted
from score_sheet import ATTRIBUTES, Sheet
from speed import Measured, slope
from whole import Whole

README = Path(__file__).with_name("README.md")
BEGIN, END = "<!-- measured: begin -->", "<!-- measured: end -->"
COLUMNS = ("all", *PARTS)


def markdown(head: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """A table whose first column is text and whose others are numbers."""
    lines = [f"| {' | '.join(head)} |", f"|---|{'---:|' * (len(head) - 1)}"]
    return "\n".join([*lines, *(f"| {' | '.join(map(_cell, row))} |" for row in rows)])


def _cell(value: object) -> str:
    return f"{value:.2f}" if isinstance(value, float) else str(value)


def accuracy(
    sheets: Mapping[str, Sheet], words: Mapping[str, int], first_looks: Mapping[str, Mapping[str, Any]]
) -> str:
    """F1 by part, attributes and times for each batch, its first look above the later figure."""
    rows: list[list[object]] = []
    for batch, sheet in sheets.items():
        first = first_looks.get(batch)
        if first:
            told = [first.get(name, "") for name in (*COLUMNS, *ATTRIBUTES, "iou")]
            rows.append([f"{batch}, first look {first['date']}", sheet.cases, "", *told])
        figures = [sheet.f1(part) for part in COLUMNS] + [sheet.share(name) for name in ATTRIBUTES] + [sheet.iou()]
        rows.append([f"{batch}, now", sheet.cases, words[batch], *figures])
    return markdown(["batch", "cases", "words", *COLUMNS, *ATTRIBUTES, "time IoU"], rows)


def how_first_looked(first_looks: Mapping[str, Mapping[str, Any]]) -> str:
    """How each first look was done."""
    return "\n".join(f"- {batch}: {first['how']}." for batch, first in first_looks.items())


def leaving_out(full: Mapping[str, Sheet], left: Mapping[str, Sheet], rows_alone: Mapping[str, int]) -> str:
    """F1 with all rows, without those that one case alone uses, and the gap."""
    rows = [
        [
            f"{batch}, {part}",
            rows_alone[batch] if part == "all" else "",
            full[batch].f1(part),
            left[batch].f1(part),
            full[batch].f1(part) - left[batch].f1(part),
        ]
        for batch in full
        for part in COLUMNS
    ]
    return markdown(["batch, part", "rows used by one case alone", "F1 full", "F1 leave-one-out", "gap"], rows)


def errors(faults: Mapping[str, Sequence[Fault]]) -> str:
    """Errors by part and cause for each batch, as missed + added (or the number that is wrong), most often first."""
    counts = {batch: counted(found) for batch, found in faults.items()}
    total: Counter[tuple[str, str]] = Counter((fault.part, fault.cause) for found in faults.values() for fault in found)
    rows = []
    for part in PARTS:
        for (of, cause), _ in total.most_common():
            if of == part:
                rows.append([f"{part}: {cause}", *(_sorts(counts[b], part, cause) for b in faults), total[part, cause]])
    return markdown(["part: cause", *faults, "together"], rows)


def _sorts(counts: Counter[tuple[str, str, str]], part: str, cause: str) -> str:
    wrong = counts[part, cause, "wrong"]
    missed, extra = counts[part, cause, "missed"], counts[part, cause, "extra"]
    if wrong:
        return str(wrong)
    return f"{missed} + {extra}" if missed and extra else str(missed or extra or "")


def questions(covered: Mapping[str, Coverage]) -> str:
    """How much is asked, and how much of what is wrong a question covers."""
    rows = [
        [
            batch,
            one.entries,
            one.questions,
            one.asked_share,
            *(f"{right} of {many}" for many, right in (one.extra, one.missed, one.attribute)),
            one.share,
        ]
        for batch, one in covered.items()
    ]
    head = ["batch", "entries", "questions", "share of entries asked about"]
    return markdown(
        [*head, "added, covered", "missed, covered", "wrong field, covered", "share of errors covered"], rows
    )


def speeds(measured: Mapping[str, Sequence[Measured]]) -> str:
    """One row a length."""
    rows = []
    for name, many in measured.items():
        for one in many:
            rate = one.words / one.seconds
            rows.append(
                [name, f"{one.minutes:g}", one.words, f"{one.seconds:.3f}", f"{rate:,.0f}", f"{60 * rate:,.0f}",
                 f"{one.megabytes:.1f}"]
            )  # fmt: skip
        if len(many) > 1:
            rows.append([f"{name}, growth", "", f"words^{slope(many):.2f}", "", "", "", ""])
    return markdown(["", "minutes", "words", "CPU s", "words/s", "words/min", "peak MB"], rows)


def processes(measured: Mapping[str, Sequence[Whole]]) -> str:
    """One row a length, the processes side by side."""
    rows = [
        [f"{many[0].minutes:g}", many[0].words, *(f"{one.seconds:.2f}" for one in many)]
        for many in zip(*measured.values(), strict=True)
    ]
    return markdown(["minutes", "words", *(f"{name}, CPU s" for name in measured)], rows)


def peers(sheets: Mapping[str, tuple[str, Mapping[str, Sheet]]]) -> str:
    """F1 of each peer by batch."""
    rows = [
        [f"{name} ({knows})", batch, *(sheet.f1(part) for part in COLUMNS)]
        for name, (knows, batches) in sheets.items()
        for batch, sheet in batches.items()
    ]
    return markdown(["", "batch", *COLUMNS], rows)


def write(text: str, page: Path = README) -> None:
    """Put the tables between the marks of a page; ValueError where it has none."""
    before, begin, rest = page.read_text(encoding="utf-8").partition(BEGIN)
    _, end, after = rest.partition(END)
    if not begin or not end:
        raise ValueError(f"{page} has no {BEGIN} … {END} to write between.")
    page.write_text(f"{before}{BEGIN}\n\n{text}\n\n{END}{after}", encoding="utf-8")
