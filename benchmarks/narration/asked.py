"""Questions: how much is asked about, and how much of what is wrong is covered by a question."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from score_sheet import ATTRIBUTES, Outcome

from haywisp.narration import Narration, Question

# What a question calls the rows of each part.
NAMES = {"treatments": "bout", "findings": "finding", "responses": "response", "actions": "action"}
MISS_WITHIN_S = 8.0
ENTRIES = {"treatments": "bouts", "findings": "findings", "responses": "responses", "actions": "actions"}


@dataclass
class Coverage:
    """Errors by sort, each as how many there are and how many of them a question covers; and entries asked about."""

    extra: tuple[int, int] = (0, 0)
    missed: tuple[int, int] = (0, 0)
    attribute: tuple[int, int] = (0, 0)
    entries: int = 0
    entries_asked: int = 0
    questions: int = 0

    def __add__(self, other: "Coverage") -> "Coverage":
        """The counts of both."""
        return Coverage(
            *(
                (mine[0] + theirs[0], mine[1] + theirs[1])
                for mine, theirs in (
                    (self.extra, other.extra),
                    (self.missed, other.missed),
                    (self.attribute, other.attribute),
                )
            ),
            entries=self.entries + other.entries,
            entries_asked=self.entries_asked + other.entries_asked,
            questions=self.questions + other.questions,
        )

    @property
    def errors(self) -> int:
        """Everything that is wrong."""
        return self.extra[0] + self.missed[0] + self.attribute[0]

    @property
    def share(self) -> float:
        """The share of what is wrong that a question covers; 1 where nothing is wrong."""
        covered = self.extra[1] + self.missed[1] + self.attribute[1]
        return covered / self.errors if self.errors else 1.0

    @property
    def asked_share(self) -> float:
        """The share of entries that carry a question."""
        return self.entries_asked / self.entries if self.entries else 0.0


def coverage_of(narration: Narration, found: Iterable[Outcome]) -> Coverage:
    """One narration's errors and questions.

    An entry that gold lacks is covered by any question on it; a wrong side, count or pressure by a question about
    that field or the whole entry; an entry that was missed by a question of the same part within 8 s of it.
    """
    extra, missed, attribute = [], [], []
    for outcome in found:
        asked = [question for question in narration.questions if question.part == NAMES[outcome.part]]
        on = {question.index for question in asked}
        extra += [one.place in on for one in outcome.extra]
        missed += [_near(one.row.get("start", one.row.get("time")), asked) for one in outcome.missed]
        for wanted, heard in outcome.pairs:
            for name in ATTRIBUTES:
                if wanted.row.get(name) is not None and wanted.row[name] != heard.row.get(name):
                    attribute.append(any(q.index == heard.place and q.field in (None, name) for q in asked))
    told = {(question.part, question.index) for question in narration.questions}
    entries = [(name, place) for part, name in NAMES.items() for place in range(len(getattr(narration, ENTRIES[part])))]
    return Coverage(
        (len(extra), sum(extra)),
        (len(missed), sum(missed)),
        (len(attribute), sum(attribute)),
        len(entries),
        sum(entry in told for entry in entries),
        len(narration.questions),
    )


def _near(when: float, asked: Sequence[Question]) -> bool:
    return any(abs(question.time - when) <= MISS_WITHIN_S for question in asked)
