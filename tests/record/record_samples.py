"""A small invented narration: two bouts, a finding, a sign, a decision, and two doubts."""

from collections.abc import Callable
from datetime import UTC, datetime
from itertools import count

from haywisp.narration.types import (
    Action,
    Bout,
    Choice,
    Finding,
    Narration,
    Question,
    Response,
    Span,
    Transcript,
)
from haywisp.record import Allowed

NOW = datetime(2031, 5, 4, 9, 30, tzinfo=UTC)
LATER = datetime(2031, 5, 4, 18, 0, tzinfo=UTC)
NARRATION = Narration(
    transcript=Transcript((), "vtt"),
    bouts=(
        Bout("effleurage", ("neck",), "left", 1.0, 20.0, 3, "light", Span(0, 8), 0.9),
        Bout("kneading", ("splenius", "rhomboideus"), None, 20.0, 50.5, None, None, Span(8, 20), 0.4),
    ),
    findings=(Finding("splenius", "right", "tone", "tight", 33.0, Span(12, 15), 0.8),),
    responses=(Response("lick-and-chew", 44.0, Span(18, 20), 0.7),),
    actions=(Action("recheck", 60.0, Span(22, 25), 0.95),),
    questions=(
        Question(
            "bout", 1, "side", "Which side?", (Choice("Left", "left"), Choice("Right", "right")), 20.0, Span(8, 9)
        ),
        Question("action", 0, None, "Decided?", (Choice("Yes", "keep"), Choice("No", "drop")), 60.0, Span(22, 25)),
    ),
)
ALLOWED = Allowed(
    structures=frozenset({"neck", "splenius", "rhomboideus"}),
    techniques=frozenset({"effleurage", "kneading"}),
    signs=frozenset({"lick-and-chew"}),
    aspects={"tone": frozenset({"tight", "slack", "normal"}), "spasm": frozenset({"present", "absent"})},
    actions=frozenset({"recheck", "rest"}),
    flags=frozenset({"colic"}),
    overridable=frozenset({"painkillers", "unwell"}),
)


def ids() -> Callable[[], str]:
    """Ids that count up: id-1, id-2 and so on."""
    numbers = count(1)
    return lambda: f"id-{next(numbers)}"
