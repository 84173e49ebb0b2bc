"""What is read aloud from notes: stretches of a narration that tell of another day."""

from haywisp.narration.scene import Scene

LONGEST_S = 40.0
PAUSE_S = 2.5


def quotations(scene: Scene) -> list[tuple[int, int]]:
    """First and last token of what is read from notes, up to where the talk comes back to now."""
    found: list[tuple[int, int]] = []
    opened: int | None = None
    begun = False
    for clause in scene.clauses:
        if opened is not None and (
            scene.has("technique", clause)
            or scene.start(clause.first) - scene.start(opened) > LONGEST_S
            or (begun and clause.pause >= PAUSE_S)
        ):
            found.append((opened, clause.first))
            opened = None
        begun = opened is not None and (begun or clause.first >= opened)
        ends = scene.mentions.within("quote-ends", clause.first, clause.last)
        if opened is not None and ends and ends[0].first - clause.first <= 1:
            found.append((opened, ends[0].first))
            opened = None
        for cue in scene.mentions.within("quote", clause.first, clause.last):
            ended = scene.tokens[cue.last - 1].mark == "stop" and clause.fresh
            alone = cue.first == clause.first and cue.last == clause.last and ended
            if opened is None and (cue.id == "opens" or alone) and not scene.has("technique", clause):
                opened, begun = cue.last, False
    if opened is not None:
        found.append((opened, len(scene.tokens)))
    return found
