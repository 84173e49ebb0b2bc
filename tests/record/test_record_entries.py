"""Entries from a narration, and what each decision makes of one."""

from dataclasses import replace

import pytest
from record_samples import ALLOWED, LATER, NARRATION, NOW, ids

from haywisp.narration.types import Alert, Choice, Question, Span
from haywisp.record import BadBody, Entry, accept, by_hand, correct, current, from_narration, problems_of, reject


def entries() -> list[Entry]:
    return from_narration(NARRATION, "visit-1", ids(), NOW)[0]


def test_every_statement_becomes_a_proposed_entry_with_its_words_and_times() -> None:
    made = entries()
    assert [(one.part, one.time_s, one.end_s, one.first_word, one.last_word, one.confidence) for one in made] == [
        ("bout", 1.0, 20.0, 0, 8, 0.9),
        ("bout", 20.0, 50.5, 8, 20, 0.4),
        ("finding", 33.0, 33.0, 12, 15, 0.8),
        ("response", 44.0, 44.0, 18, 20, 0.7),
        ("action", 60.0, 60.0, 22, 25, 0.95),
    ]
    assert {(one.visit_id, one.version, one.status, one.source, one.reason, one.made_at) for one in made} == {
        ("visit-1", 1, "proposed", "narration", "", NOW)
    }
    assert len({one.id for one in made} | {one.thread for one in made}) == 10


def test_bodies_hold_the_fields_in_plain_values() -> None:
    assert [one.body for one in entries()] == [
        {"technique": "effleurage", "structures": ["neck"], "side": "left", "passes": 3, "pressure": "light"},
        {
            "technique": "kneading",
            "structures": ["splenius", "rhomboideus"],
            "side": None,
            "passes": None,
            "pressure": None,
        },
        {"structure": "splenius", "side": "right", "aspect": "tone", "value": "tight"},
        {"sign": "lick-and-chew"},
        {"kind": "recheck"},
    ]
    assert [problem for one in entries() for problem in problems_of(one.part, one.body, ALLOWED)] == []


def test_questions_are_tied_to_the_thread_that_they_are_about() -> None:
    made, questions = from_narration(NARRATION, "visit-1", ids(), NOW)
    side, decided = questions
    assert (side.thread, side.field, side.choices) == (made[1].thread, "side", (("Left", "left"), ("Right", "right")))
    assert (decided.thread, decided.field, decided.first_word, decided.last_word) == (made[4].thread, None, 22, 25)
    assert [question.answer for question in questions] == [None, None]


def test_an_alert_becomes_a_proposed_red_flag_with_its_question() -> None:
    alert = Alert("colic", "kicking his belly", 70.0, Span(30, 33), 0.85)
    asked = Question("flag", 0, None, "Is this so?", (Choice("Yes", "keep"), Choice("No", "drop")), 70.0, Span(30, 33))
    told = replace(NARRATION, alerts=(alert,), questions=(asked,))

    made, (question,) = from_narration(told, "visit-1", ids(), NOW)
    flag = made[-1]

    assert (flag.part, flag.body, flag.status, flag.confidence) == ("flag", {"flag": "colic"}, "proposed", 0.85)
    assert (flag.time_s, flag.first_word, flag.last_word) == (70.0, 30, 33)
    assert question.thread == flag.thread


def test_a_note_of_no_kind_has_none() -> None:
    plain = by_hand("v", "note", {"text": "wet"}, 0.0, ids(), NOW)
    answer = by_hand("v", "note", {"text": "fit for work", "kind": "vet-answer"}, 0.0, ids(), NOW)
    assert (plain.body, answer.body) == ({"text": "wet"}, {"text": "fit for work", "kind": "vet-answer"})


def test_a_question_about_nothing_that_was_understood_is_kept() -> None:
    lost = Question("finding", 7, None, "What was felt here?", (), 5.0, Span(1, 2))
    _, questions = from_narration(replace(NARRATION, questions=(lost,)), "visit-1", ids(), NOW)
    assert [(question.thread, question.text) for question in questions] == [("", "What was felt here?")]


def test_accepting_makes_a_new_version_and_leaves_the_old_one() -> None:
    old = entries()[0]
    new = accept(old, lambda: "new", LATER)
    assert new == replace(old, id="new", version=2, status="accepted", made_at=LATER)
    assert (old.version, old.status) == (1, "proposed")


def test_correcting_changes_only_the_fields_given() -> None:
    old = entries()[1]
    new = correct(
        old, {"side": "left", "structures": ("neck",)}, lambda: "new", LATER, allowed=ALLOWED, reason="misheard"
    )
    assert new.body == {**old.body, "side": "left", "structures": ["neck"]}
    assert (new.thread, new.version, new.status, new.reason) == (old.thread, 2, "corrected", "misheard")
    assert old.body["side"] is None


def test_an_open_field_can_be_opened_again() -> None:
    assert correct(entries()[0], {"side": None}, lambda: "new", LATER, allowed=ALLOWED).body["side"] is None


def test_a_correction_that_is_not_known_is_refused_with_every_problem() -> None:
    with pytest.raises(BadBody) as caught:
        correct(entries()[2], {"structure": "wing", "value": "purple"}, lambda: "new", LATER, allowed=ALLOWED)
    assert caught.value.problems == (
        "“wing” is no structure that Haywisp knows; choose one of neck, rhomboideus or splenius.",
        "“purple” is no value of tone that Haywisp knows; choose one of normal, slack or tight.",
    )


def test_a_field_of_another_part_is_refused_even_without_the_tables() -> None:
    with pytest.raises(BadBody, match="A response has no field “pressure”; it has sign"):
        correct(entries()[3], {"pressure": "firm"}, lambda: "new", LATER)


def test_rejecting_keeps_the_body_and_the_reason() -> None:
    old = entries()[3]
    new = reject(old, "that was the dog", lambda: "new", LATER)
    assert new == replace(old, id="new", version=2, status="rejected", reason="that was the dog", made_at=LATER)


def test_an_entry_by_hand_stands_at_once_and_has_no_words() -> None:
    made = by_hand("visit-1", "finding", {"structure": "neck", "aspect": "tone", "value": "slack"}, 70.0, ids(), NOW)
    assert made.body == {"structure": "neck", "side": None, "aspect": "tone", "value": "slack"}
    assert (made.version, made.status, made.source, made.confidence) == (1, "accepted", "by hand", 1.0)
    assert (made.time_s, made.end_s, made.first_word, made.last_word) == (70.0, 70.0, -1, -1)
    assert made.id != made.thread


def test_a_bout_by_hand_may_last() -> None:
    bout = {"technique": "kneading", "structures": ["neck"]}
    made = by_hand("visit-1", "bout", bout, 70.0, ids(), NOW, end_s=100.0, allowed=ALLOWED)
    assert (made.time_s, made.end_s, made.body["passes"]) == (70.0, 100.0, None)
    assert by_hand("visit-1", "bout", bout, 70.0, ids(), NOW, end_s=10.0).end_s == 70.0


def test_an_entry_by_hand_without_its_fields_is_refused() -> None:
    with pytest.raises(BadBody, match="“structures” is missing from this bout"):
        by_hand("visit-1", "bout", {"technique": "kneading"}, 0.0, ids(), NOW)


def test_the_newest_versions_by_time() -> None:
    new_id = ids()
    first, second, *_ = from_narration(NARRATION, "visit-1", new_id, NOW)[0]
    newer = accept(first, new_id, LATER)
    newest = reject(newer, "", new_id, LATER)
    assert current([second, newest, first, newer]) == (newest, second)
    assert current([]) == ()
