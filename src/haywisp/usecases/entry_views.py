"""Entries and questions as the pages show them."""

from collections.abc import Mapping, Sequence

from haywisp.knowledge.types import Tables
from haywisp.record.types import Entry, StoredQuestion
from haywisp.report.wording import entry_sentence, mmss
from haywisp.usecases.forms import field_options
from haywisp.usecases.views import EntryView, Option, QuestionView
from haywisp.usecases.wording import PARTS, STATUSES

# Answers that are given by deciding on the entry itself instead of choosing one of the question's own answers.
KEPT, DROPPED, REPLACED = "keep", "drop", "replaced"
DECIDED: Mapping[str, str] = {
    KEPT: "kept as it was",
    DROPPED: "left out",
    REPLACED: "the narration was given again",
}


def entry_view(entry: Entry, questions: Sequence[StoredQuestion], tables: Tables) -> EntryView:
    """The entry in words; ``questions`` may be those of the whole visit."""
    timed = entry.first_word >= 0 or entry.time_s > 0
    return EntryView(
        id=entry.id,
        thread=entry.thread,
        version=entry.version,
        part=entry.part,
        part_name=PARTS.get(entry.part, entry.part),
        sentence=entry_sentence(entry.part, entry.body, tables),
        body=entry.body,
        fields=field_options(entry.part, entry.body, tables),
        time_s=entry.time_s,
        end_s=entry.end_s,
        time=mmss(entry.time_s) if timed else "",
        end=mmss(entry.end_s) if timed and entry.end_s > entry.time_s else "",
        first_word=entry.first_word,
        last_word=entry.last_word,
        confidence=entry.confidence,
        status=entry.status,
        status_name=STATUSES.get(entry.status, entry.status),
        source=entry.source,
        reason=entry.reason,
        questions=tuple(
            question.id for question in questions if question.thread == entry.thread and question.answer is None
        ),
    )


def offered_sentence(question: StoredQuestion, tables: Tables) -> str:
    """What a yes would add, in words; "" where nothing is offered."""
    offer = question.offer or {}
    part, body = offer.get("part"), offer.get("body")
    return entry_sentence(str(part), body, tables) if part and isinstance(body, Mapping) else ""


def question_view(question: StoredQuestion, about: Entry | None, tables: Tables) -> QuestionView:
    """``about`` is the newest version of the entry that the question is about; an offer is told in its place."""
    labels = {value: text for text, value in question.choices}
    answer = question.answer
    answer_label = "" if answer is None else labels.get(answer, DECIDED.get(answer, answer))
    return QuestionView(
        id=question.id,
        thread=question.thread,
        field=question.field,
        text=question.text,
        about=offered_sentence(question, tables) if about is None else entry_sentence(about.part, about.body, tables),
        choices=tuple(Option(value, text) for text, value in question.choices),
        time_s=question.time_s,
        time=mmss(question.time_s),
        first_word=question.first_word,
        last_word=question.last_word,
        answer=answer,
        answer_label=answer_label,
        offers=question.offer is not None,
    )
