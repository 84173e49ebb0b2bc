# ruff: noqa: E501
"""Sentences that are in no case: bouts, sides, passes, pressure and findings (common practice, no source)."""

import pytest
from narration_samples import understood

BOUTS = [
    ("[0:02] Right then. Effleurage down the near side of the neck, light, six of them.",
     [("effleurage", ("neck",), "left", 6, "light")]),
    ("[0:02] I'm kneading the left triceps now, nice and firm.", [("kneading", ("triceps-brachii",), "left", None, "firm")]),
    ("[0:02] Skin rolling along the back on the off side. [0:20] Now cupping over the croup, off side still.",
     [("skin-rolling", ("back",), "right", None, None), ("cupping", ("croup",), "right", None, None)]),
    ("[0:02] Left splenius, cross fibre with my thumbs. [0:30] Other side, same again.",
     [("cross-fibre-friction", ("splenius",), "left", None, None), ("cross-fibre-friction", ("splenius",), "right", None, None)]),
    ("[0:02] Long strokes over the left hamstrings, light. One, two, three, four, five. [0:25] And the right hamstrings, long strokes, moderate.",
     [("effleurage", ("hamstrings",), "left", 5, "light"), ("effleurage", ("hamstrings",), "right", None, "moderate")]),
    ("[0:02] Hands resting on the withers, light. [0:30] Then wringing across the loin, left side.",
     [("hands-resting", ("withers",), None, None, "light"), ("wringing", ("loin",), "left", None, None)]),
    ("[0:02] Compressions on the right infraspinatus with my fist. One, two, three.", [("compression", ("infraspinatus",), "right", 3, None)]),
    ("[0:02] Stretching the left hind forward and hold. [0:20] Foot down. Right hind forward and hold.",
     [("passive-stretch", ("hindlimb",), "left", None, None), ("passive-stretch", ("hindlimb",), "right", None, None)]),
    ("[0:02] Little circles on the right masseter, gentle.", [("circular-friction", ("masseter",), "right", None, "light")]),
    ("[0:02] I squeeze the left brachiocephalicus, sorry, no, the right one, the right brachiocephalicus.",
     [("muscle-squeezing", ("brachiocephalicus",), "right", None, None)]),
    ("[0:02] Jostle the left hamstrings. [0:15] Right, round the other side. [0:20] Jostle these.",
     [("jostling", ("hamstrings",), "left", None, None), ("jostling", ("hamstrings",), "right", None, None)]),
    ("[0:02] Vibration over the right latissimus, flat hand.", [("vibration", ("latissimus-dorsi",), "right", None, None)]),
    ("[0:02] Tail pull to finish, lean back slowly.", [("tail-traction", ("tail",), None, None, None)]),
    ("[0:02] a flurry age on the left gluteals light [0:20] then needing the same muscle medium",
     [("effleurage", ("gluteus-medius",), "left", None, "light"), ("kneading", ("gluteus-medius",), "left", None, "moderate")]),
    ("[0:02] Heat pack on the loin, both sides.", [("warmth", ("loin",), "both", None, None)]),
]  # fmt: skip

NO_BOUTS = [
    "[0:02] I could do some cupping on the left shoulder but not today.",
    "[0:02] Next time I'll start with kneading on the right gluteals.",
    "[0:02] My other client, the bay gelding, I was kneading his right triceps yesterday.",
    "[0:02] The splenius goes from the withers to the skull.",
    "[0:02] Normally I'd finish with hacking over the quarters.",
    "[0:02] No percussion on a young horse.",
    "[0:02] Last time we did skin rolling along the back and he hated it.",
]

FINDINGS = [
    ("[0:02] Kneading the left triceps. [0:20] That's really tight.", [("triceps-brachii", "left", "tone", "tight")]),
    ("[0:02] Kneading the left triceps. [0:20] Not tight at all.", [("triceps-brachii", "left", "tone", "normal")]),
    ("[0:02] Long strokes on the right loin. [0:20] There's heat in it. [0:30] No swelling.",
     [("loin", "right", "warmth", "warm"), ("loin", "right", "swelling", "absent")]),
    ("[0:02] There's a knot in the left splenius.", [("splenius", "left", "texture", "knotted")]),
    ("[0:02] Her topline is under muscled.", [("topline", None, "development", "under")]),
    ("[0:02] There is a girth gall behind the left elbow.", [("girth", "left", "skin", "rub")]),
    ("[0:02] Skin rolling over the ribs on the right. [0:20] It's stuck, it won't lift.", [("ribcage", "right", "mobility", "restricted")]),
    ("[0:02] Thumbs across the right semitendinosus. [0:15] Ropey. Sore as well.",
     [("semitendinosus", "right", "texture", "fibrous"), ("semitendinosus", "right", "tenderness", "present")]),
    ("[0:02] The left quarter is bigger than the right.", [("hindquarters", None, "symmetry", "larger-left")]),
    ("[0:02] Last month his left loin was very sore.", []),
    ("[0:02] If the loin is sore tomorrow, leave him.", []),
    ("[0:02] The grey mare next door is tight through the right shoulder.", []),
]  # fmt: skip


@pytest.mark.parametrize(("text", "wanted"), BOUTS)
def test_bouts(text: str, wanted: list[tuple[object, ...]]) -> None:
    heard = understood(text).bouts
    assert [(b.technique, b.structures, b.side, b.passes, b.pressure) for b in heard] == wanted


@pytest.mark.parametrize("text", NO_BOUTS)
def test_what_was_not_done_is_no_bout(text: str) -> None:
    assert understood(text).bouts == ()


@pytest.mark.parametrize(("text", "wanted"), FINDINGS)
def test_findings(text: str, wanted: list[tuple[object, ...]]) -> None:
    assert [(f.structure, f.side, f.aspect, f.value) for f in understood(text).findings] == wanted


def test_every_entry_keeps_words_and_times_of_its_own() -> None:
    narration = understood(
        "[0:02] Kneading the left triceps, firm. [0:20] That's tight. [0:30] Big yawn. [0:40] Call the vet please."
    )
    words = narration.transcript.words
    said = {
        " ".join(word.text for word in words[entry.span.first : entry.span.last])
        for entry in (*narration.bouts, *narration.findings, *narration.responses, *narration.actions)
    }
    assert len(said) == 4
    assert all(0 < entry.confidence <= 1 for entry in (*narration.bouts, *narration.findings))


def test_a_misheard_word_keeps_what_was_heard() -> None:
    repairs = understood("[0:02] Kneading the left splinias, light.").repairs
    assert [(repair.heard, repair.meant) for repair in repairs] == [("splinias", "splenius")]


def test_a_side_that_was_not_said_becomes_a_question() -> None:
    questions = understood("[0:02] Kneading the triceps.").questions
    assert [(question.part, question.field) for question in questions] == [("bout", "side")]


def test_a_transcript_with_no_horse_in_it_gives_an_empty_record() -> None:
    narration = understood(
        "[0:00] so we took the train to the coast and had chips on the wall [0:30] it rained all week"
    )
    assert (narration.bouts, narration.findings, narration.responses, narration.actions) == ((), (), (), ())
