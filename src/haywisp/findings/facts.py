"""From what is recorded of a visit to the facts that the gate, the patterns and the plan read."""

from collections.abc import Iterable, Sequence

from haywisp.findings.types import Fact
from haywisp.record.types import VET_SAYS_WAIT, Entry, current

# From this confidence on a red flag was told as so; below it, it was only spoken of (narration.types.Alert).
TOLD = 0.5


def facts_from_entries(entries: Sequence[Entry], flags: Iterable[str] = ()) -> tuple[Fact, ...]:
    """One fact for each finding, action, sign and red flag that is not rejected, by time, then each standing flag.

    Of each thread the highest version counts; whether proposed entries are among them is the caller's choice. A
    proposed red flag that was spoken of only as long ago, or not as told, is no fact before someone accepts it.
    """
    said = [fact for entry in current(entries) if entry.status != "rejected" and (fact := _fact(entry)) is not None]
    spoken = {fact.id for fact in said if fact.kind == "flag"}
    return (*said, *(Fact("flag", id=flag) for flag in sorted(set(flags) - spoken)))


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
    if entry.part == "note" and body.get("kind") == VET_SAYS_WAIT:
        # The red flag of the same name.
        return Fact("flag", id=VET_SAYS_WAIT, entry=entry.thread)
    if entry.part == "flag" and (entry.status != "proposed" or entry.confidence >= TOLD):
        return Fact("flag", id=str(body["flag"]), entry=entry.thread)
    return None
