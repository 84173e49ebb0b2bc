"""Words as lines of a page, and times as ticks."""

from dataclasses import replace

import pytest
from fakes import SMALL, fake_app, heard_visit, words
from hypothesis import given
from hypothesis import strategies as st

from haywisp.narration.types import Narration, Transcript
from haywisp.usecases.said import add, said
from haywisp.usecases.timeline import ticks
from haywisp.usecases.transcripts import MOST_WORDS, line_views, word_views


def told(text: str, **spoken: float) -> Narration:
    return replace(SMALL, transcript=Transcript(words(text, words_a_cue=10_000, **spoken), "words"), repairs=())


def test_one_endless_cue_is_broken_at_the_end_of_sentences() -> None:
    sentence = "one two three four five six seven eight nine."
    lines = line_views(word_views(told(" ".join([sentence] * 5))))

    assert [(line.first, line.last) for line in lines] == [(0, 9), (9, 18), (18, 27), (27, 36), (36, 45)]


@given(st.lists(st.sampled_from(["a", "b.", "c?"]), max_size=200), st.integers(1, 60))
def test_lines_hold_every_word_once_and_in_order(texts: list[str], words_a_cue: int) -> None:
    narration = replace(
        SMALL, transcript=Transcript(words(" ".join(texts), words_a_cue=words_a_cue), "vtt"), repairs=()
    )
    views = word_views(narration)
    lines = line_views(views)

    assert [word for line in lines for word in line.words] == list(views)
    assert all(line.first < line.last for line in lines)
    assert all(len({word.cue for word in line.words}) == 1 for line in lines)
    assert all(len(line.words) <= MOST_WORDS for line in lines)


@pytest.mark.parametrize(
    ("length_s", "last", "count"),
    [(0.0, "0:00", 1), (59.0, "0:45", 4), (60.0, "1:00", 5), (3600.0, "1:00:00", 7), (100_000.0, "27:46:40", 13)],
)
def test_ticks_are_round_and_few(length_s: float, last: str, count: int) -> None:
    marks = ticks(length_s)

    assert (marks[0], marks[-1][1], len(marks)) == ((0.0, "0:00"), last, count)


def test_each_entry_and_question_is_quoted_in_its_sentence() -> None:
    app = fake_app()
    visit_id = heard_visit(app)
    note = add(app, visit_id, "note", {"text": "wet"})

    page = said(app, visit_id)
    poll = next(entry for entry in page.entries if entry.sentence == "Poll: tender")
    quote = page.quotes[poll.thread]

    assert quote is not None
    assert (quote.marked, quote.after) == ("the pole is tender", "get the vet to look")
    assert quote.before.endswith("she licks and chews now")
    assert page.quotes[note.thread] is None
    assert page.quotes[f"question-{poll.questions[0]}"] == quote
