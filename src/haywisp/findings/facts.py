"""From what is recorded of a visit to the facts that the gate, the patterns and the plan read."""

from collections.abc import Iterable, Sequence

from haywisp.findings.types import Fact
from haywisp.record.types import Entry


def facts_from_entries(entries: Sequence[Entry], flags: Iterable[str] = ()) -> tuple[Fact, ...]:
    """One fact for each finding, action and sign that is not rejected, by time, then one for each standing flag.

    Of each thread the highest version counts; whether proposed entries are among them is the caller's choice.
    """
    newest: dict[str, Entry] = {}
    for entry in entries:
        known = newest.get(entry.thread)
        if known is None or entry.version > known.version:
            newest[entry.thread] = entry
    kept = sorted(newest.values(), key=lambda entry: (entry.time_s, entry.thread))
    said = [_fact(entry) for entry in kept if entry.status != "rejected"]
    standing = [Fact("flag", id=flag) for flag in sorted(set(flags))]
    return (*(fact for fact in said if fact is not None), *standing)


def _fact(entry: Entry) -> Fact | None:
    body = entry.body
    if entry.part == "finding":
        side = body.get("side")
        return Fact(
            "finding",
            structure=str(body["structure"]),
            side=None if side is None else str(side),
            aspect=str(body["aspect"]),
            value=str(body["value"]),
            entry=entry.thread,
        )
    if entry.part == "action":
        return Fact("action", id=str(body["kind"]), entry=entry.thread)
    if entry.part == "response":
        return Fact("sign", id=str(body["sign"]), entry=entry.thread)
    return None
