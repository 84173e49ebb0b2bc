"""How sure entries are, and what becomes a question: about what was written down, and about what was left out."""

from dataclasses import replace

import pytest
from narration_samples import tables, understood

from haywisp.knowledge import Tables
from haywisp.narration import Narration, Question, read_bytes, understand
from haywisp.narration.calibrated import LEAST, MOST, Model, Models, models_of
from haywisp.narration.doubting import OFFERS_APART_S, judged, put_aside, spaced
from haywisp.narration.drafts import Draft
from haywisp.narration.evidence import of_bout
from haywisp.narration.hearing import Hearing
from haywisp.narration.overlooked import Candidate, candidates
from haywisp.narration.sides import BySide
from haywisp.narration.types import Action, Bout, Finding, Response, Span
from haywisp.narration.understanding import listened


def asking(**thresholds: float) -> Tables:
    """The tables with other thresholds."""
    fitted = tables().language.tables["confidence"]
    language = tables().language
    changed = {**fitted, "asking": {**fitted["asking"], **thresholds}}  # type: ignore[dict-item]
    return replace(tables(), language=replace(language, tables={**language.tables, "confidence": changed}))


def heard(text: str, with_tables: Tables | None = None) -> Narration:
    return understand(read_bytes(text.encode(), "session.txt"), with_tables or tables())


def hearing_of(text: str) -> tuple[Hearing, list[Candidate]]:
    told = listened(read_bytes(text.encode(), "session.txt"), tables())
    hearing = Hearing(told.scene, told.drafts)
    return hearing, candidates(hearing, told.observer.findings, told.observer.responses, told.actions)


# the model


def test_a_probability_is_the_logistic_of_the_sum_and_never_quite_sure() -> None:
    model = Model(0.0, {"named": 1.0, "far": -200.0, "near": 200.0})
    # 1 / (1 + e^-1), from any table of the logistic function.
    assert model.probability({"named": 1.0, "unknown": 1.0}) == pytest.approx(0.731059, abs=1e-6)
    assert model.probability({}) == 0.5
    assert (model.probability({"far": 1.0}), model.probability({"near": 1.0})) == (LEAST, MOST)


def test_a_language_without_weights_asks_nothing_for_doubt_alone() -> None:
    bare = replace(tables(), language=replace(tables().language, tables={}))
    models = models_of(bare)
    assert (models.ask_below, models.offer_above, models.by_sort) == (0.0, 1.0, {})
    assert models.probability("bout", {"anything": 1.0}) == Models({}).probability("finding", {})


def test_every_sort_of_entry_and_field_has_weights() -> None:
    told = models_of(tables()).by_sort
    parts = {"bout", "finding", "response", "action"}
    fields = {"bout side", "bout passes", "bout pressure", "finding side"}
    assert parts | fields <= set(told)
    assert all(told[sort].weights for sort in parts | fields)


# what is asked about entries


SURE = "[0:00] Left side. Effleurage along the neck, light, four passes. [0:20] One. [0:24] Two. [0:30] Okay."


def test_what_is_said_in_full_is_surer_than_what_was_repeated_without_its_name() -> None:
    narration = heard(SURE + " [0:40] Right side. [0:50] Same strokes. [1:20] Done.")
    first, second = narration.bouts[:2]
    assert first.confidence > second.confidence


def test_an_entry_below_the_threshold_carries_one_question_and_above_it_none() -> None:
    assert [q for q in heard(SURE, asking(ask_below=0.0, offer_above=1.0)).questions if q.field is None] == []
    told = heard(SURE, asking(ask_below=1.0, offer_above=1.0))
    assert [(q.part, q.index) for q in told.questions] == [("bout", 0)]


def test_an_entry_that_is_more_likely_wrong_is_asked_about_and_not_written_down() -> None:
    told = heard(SURE, asking(ask_below=1.0, keep_above=1.0, offer_above=1.0))
    assert told.bouts == ()
    (question,) = told.questions
    assert isinstance(question.offer, Bout) and question.index == -1
    assert (question.offer.technique, question.offer.structures) == ("effleurage", ("neck",))
    assert question.text.startswith("Not written down: Effleurage, neck, left.")


def test_a_side_that_is_lacking_is_asked_for_however_sure_the_rest_is() -> None:
    told = heard("[0:02] Kneading the triceps. [0:20] Good.", asking(ask_below=0.0, offer_above=1.0))
    assert [(q.part, q.field) for q in told.questions] == [("bout", "side")]


def test_a_place_named_beside_a_finding_is_among_the_answers() -> None:
    text = "[0:00] Left side. Kneading the splenius and the rhomboid. [0:20] It's tight there. [0:30] Okay."
    asked = [q for q in heard(text, asking(ask_below=1.0, offer_above=1.0)).questions if q.part == "finding"]
    (question,) = asked
    values = [choice.value for choice in question.choices]
    assert question.field == "structure"
    assert set(values) == {"splenius", "rhomboideus", "drop"}


# what was left out


def offers(narration: Narration) -> list[Question]:
    return [question for question in narration.questions if question.offer is not None]


def test_what_was_left_out_is_offered_with_its_words() -> None:
    text = "[0:00] Left side. Effleurage on the neck. [0:20] I could do some compression on the splenius. [0:40] Okay."
    every = offers(heard(text, asking(offer_above=0.0)))
    bout = next(q.offer for q in every if isinstance(q.offer, Bout) and q.offer.technique == "compression")
    assert (bout.structures, bout.side) == (("splenius",), "left")
    words = text.replace("[0:00] ", "").replace("[0:20] ", "").replace("[0:40] ", "").split()
    assert "compression" in " ".join(words[bout.span.first : bout.span.last])


@pytest.mark.parametrize(
    ("text", "sort"),
    [
        ("Left side. Kneading the neck. If he yawned that would be lovely.", "response left out"),
        ("Left side. Kneading the neck. Was it sore there in March?", "finding left out"),
        ("I might call the vet. Left side, kneading the neck.", "action left out"),
    ],
)
def test_each_part_has_its_offers(text: str, sort: str) -> None:
    _, found = hearing_of(f"[0:00] {text} [0:30] Okay.")
    assert sort in {candidate.sort for candidate in found}


def test_talk_of_another_horse_is_never_offered() -> None:
    text = "[0:00] Left side. Kneading the neck. [0:20] My sister's mare had compression on her splenius. [0:40] Okay."
    _, found = hearing_of(text)
    assert [c for c in found if isinstance(c.offer, Bout) and c.offer.technique == "compression"] == []


def test_a_bout_of_the_first_side_between_two_that_were_repeated_is_offered() -> None:
    text = (
        "[0:00] Left side. Effleurage on the neck. [0:20] Kneading the splenius. [0:40] Compression on the triceps. "
        "[1:00] Right side. Effleurage on the neck. [1:20] Compression on the triceps. [1:40] Done."
    )
    _, found = hearing_of(text)
    (missing,) = [candidate for candidate in found if candidate.sort == "side not repeated"]
    assert isinstance(missing.offer, Bout)
    assert (missing.offer.technique, missing.offer.structures, missing.offer.side) == (
        "kneading",
        ("splenius",),
        "right",
    )
    assert missing.evidence["both neighbours repeated"] == 1.0


def test_offers_of_a_part_stand_apart_and_none_beside_a_question() -> None:
    def at(when: float, sign: str = "yawn") -> tuple[Candidate, float]:
        offer = Response(sign, when, Span(0, 1), 0.0)
        return Candidate("response left out", "response", offer, {}), 0.5

    near, far = at(10.0 + OFFERS_APART_S / 2, "sigh"), at(10.0 + 2 * OFFERS_APART_S, "sigh")
    assert [c.time for c, _ in spaced([at(10.0), near, far])] == [10.0, 10.0 + 2 * OFFERS_APART_S]
    asked = Question("response", 0, None, "?", (), 10.5, Span(0, 1))
    assert spaced([at(10.0)], [asked]) == []
    assert len(spaced([at(10.0)], [replace(asked, part="bout")])) == 1


def test_each_decision_is_offered_once() -> None:
    made = [(Candidate("action left out", "action", Action("rest", t, Span(0, 1), 0.0), {}), 0.4) for t in (5.0, 90.0)]
    assert [candidate.time for candidate, _ in spaced(made)] == [5.0]


# look-ups


def draft(technique: str, structure: str, side: str, start: float) -> Draft:
    return Draft(technique, [structure], side, start, 0, 1, end=start + 5)


def test_what_repeats_a_bout_is_found_by_side() -> None:
    made = [
        draft("kneading", "neck", "left", 0.0),
        draft("compression", "neck", "left", 10.0),
        draft("kneading", "neck", "right", 20.0),
    ]
    sides = BySide(made)
    assert sides.repeats(0, "left") is made[2]
    assert sides.repeats(1, "left") is None
    assert (sides.repeated(made[0], 0), sides.repeated(made[1], 1)) == (True, False)
    assert sides.numbers("left", 0) == [1, 1] and sides.numbers("right", 2) == []
    assert sides.model(["neck"], "left", 30.0) is made[0]


def test_features_are_between_nought_and_one_and_only_those_that_hold() -> None:
    hearing, found = hearing_of(SURE + " [0:40] Right side. [0:50] Same strokes. He's tight there. [1:20] Done.")
    told = listened(read_bytes(SURE.encode(), "session.txt"), tables())
    again = Hearing(told.scene, told.drafts)
    every = judged(again, told.observer.findings, told.observer.responses, told.actions, models_of(tables()))
    evidences = [*(of_bout(hearing, n) for n in range(len(hearing.drafts))), *(c.evidence for c in found)]
    evidences += [one.evidence for one in every]
    assert all(0.0 < value <= 1.0 for evidence in evidences for value in evidence.values())
    assert put_aside(every[0]).offer == every[0].entry


def test_a_finding_is_never_offered_where_it_was_made() -> None:
    narration = understood("[0:00] Left side. Kneading the splenius. [0:20] The splenius is tight. [0:30] Okay.")
    assert [f.value for f in narration.findings] == ["tight"]
    assert [q for q in narration.questions if isinstance(q.offer, Finding) and q.offer.value == "tight"] == []
