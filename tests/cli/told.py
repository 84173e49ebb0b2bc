"""A narration for the command line's tests, and a way to run a command."""

import sys
from dataclasses import dataclass

import pytest

from haywisp.cli import main
from haywisp.knowledge.types import Tables
from haywisp.narration.types import Action, Bout, Choice, Finding, Narration, OwnWord, Question, Span, Transcript, Word

TEXT = "long strokes on the left neck the splenius is tight see you in four weeks"
TOLD = Narration(
    transcript=Transcript(tuple(Word(word, i * 0.5, i * 0.5 + 0.5) for i, word in enumerate(TEXT.split())), "vtt"),
    bouts=(Bout("effleurage", ("neck",), "left", 0.0, 60.0, None, "light", Span(0, 6), 0.9),),
    findings=(Finding("splenius", None, "tone", "tight", 4.0, Span(6, 10), 0.7),),
    responses=(),
    actions=(Action("recheck", 6.0, Span(10, 15), 0.9),),
    questions=(
        Question(
            "finding",
            0,
            "side",
            "Which side of the splenius?",
            (Choice("Left", "left"), Choice("Right", "right")),
            4.0,
            Span(6, 10),
        ),
    ),
)


def listen(data: bytes, file_name: str, tables: Tables, own: tuple[OwnWord, ...] = ()) -> Narration:
    return TOLD


@dataclass(frozen=True)
class Outcome:
    code: int
    out: str
    err: str


@dataclass(frozen=True)
class Shell:
    """Runs ``haywisp`` as the terminal does, in this process."""

    monkeypatch: pytest.MonkeyPatch
    capsys: pytest.CaptureFixture[str]

    def __call__(self, *arguments: str) -> Outcome:
        self.monkeypatch.setattr(sys, "argv", ["haywisp", *arguments])
        try:
            main()
            code = 0
        except SystemExit as end:
            code = end.code if isinstance(end.code, int) else 0 if end.code is None else 1
        captured = self.capsys.readouterr()
        return Outcome(code, captured.out, captured.err)

    def good(self, *arguments: str) -> str:
        """What a command prints that must succeed."""
        outcome = self(*arguments)
        assert (outcome.code, outcome.err) == (0, ""), outcome
        return outcome.out
