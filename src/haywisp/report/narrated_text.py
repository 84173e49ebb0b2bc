"""A narration as plain text of 80 columns."""

from haywisp.knowledge.types import Tables
from haywisp.narration.types import Narration
from haywisp.report.console_text import columns, heading, underlined, wrapped
from haywisp.report.narrated import AskedLine, Narrated, TimedLine, narrated
from haywisp.report.phrases import Phrases, table

INSET = " " * 9


def narration_text(narration: Narration, tables: Tables) -> str:
    """What was understood, for a person at a terminal; questions come first, since they wait for an answer."""
    words = table("narrated", tables.language.code)
    shown = narrated(narration, tables)
    lines = [underlined(words["title"], "="), wrapped(shown.counted)]
    if shown.questions:
        lines += [heading(words["headings"]["questions"]), *(_asked(one, words) for one in shown.questions)]
    if shown.alerts:
        lines += [heading(words["headings"]["alerts"]), *_timed(shown.alerts, words)]
    lines += [heading(words["headings"]["bouts"]), _bouts(shown, words)]
    lines += [_quote(row.heard, words, f"{row.time.partition('–')[0]:>7}  ") for row in shown.bouts if row.heard]
    for key in ("findings", "responses", "actions"):
        told: tuple[TimedLine, ...] = getattr(shown, key)
        lines += [heading(words["headings"][key]), *_timed(told, words)]
    for key in ("repairs", "problems"):
        notes: tuple[str, ...] = getattr(shown, key)
        if notes:
            lines += [heading(words["headings"][key]), *(wrapped(note, "- ", "  ") for note in notes)]
    return "\n".join([*lines, "", wrapped(f"{words['times_note']} {words['not_a_diagnosis']}")]) + "\n"


def _bouts(shown: Narrated, words: Phrases) -> str:
    names = words["columns"]
    keys = ["time", "technique", "where", "side", "passes", "pressure"]
    if not shown.bouts:
        return str(words["none"])
    return columns([names[key] for key in keys], [[getattr(row, key) for key in keys] for row in shown.bouts])


def _timed(lines: tuple[TimedLine, ...], words: Phrases) -> list[str]:
    told = [
        text
        for line in lines
        for text in (
            wrapped(line.text, f"{line.time:>7}  "),
            _quote(line.heard, words, INSET) if line.heard else "",
        )
        if text
    ]
    return told or [str(words["none"])]


def _quote(heard: str, words: Phrases, inset: str) -> str:
    return wrapped(f"{words['heard']}: “{heard}”", inset)


def _asked(line: AskedLine, words: Phrases) -> str:
    parts = [
        wrapped(line.text, f"{line.time:>7}  "),
        _quote(line.heard, words, INSET) if line.heard else "",
        wrapped(f"{words['open']}: {' / '.join(line.choices)}", INSET) if line.choices else "",
    ]
    return "\n".join(part for part in parts if part)
