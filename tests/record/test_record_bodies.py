"""What a body may hold, and the sentence for each thing that it may not."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from record_samples import ALLOWED

from haywisp.record import problems_of
from haywisp.record.bodies import FIELDS

BOUT = {"technique": "kneading", "structures": ["neck"], "side": "both", "passes": 2, "pressure": "firm"}
OVERRIDE = {"kind": "override", "cautions": ["painkillers"], "text": "Known to the vet, who is on the way here."}
FINDING = {"structure": "neck", "side": "left", "aspect": "spasm", "value": "absent"}


@pytest.mark.parametrize(
    ("part", "body"),
    [
        ("bout", BOUT),
        ("bout", {**BOUT, "side": None, "passes": None, "pressure": None}),
        ("bout", {"technique": "kneading", "structures": ("neck", "splenius")}),
        ("finding", FINDING),
        ("response", {"sign": "lick-and-chew"}),
        ("action", {"kind": "rest"}),
        ("note", {"text": "came in from the field wet"}),
        ("note", {"text": "fit for bodywork", "kind": "vet-answer"}),
        ("note", OVERRIDE),
        ("note", {**OVERRIDE, "cautions": ("painkillers", "unwell")}),
        ("flag", {"flag": "colic"}),
    ],
)
def test_bodies_that_are_right(part: str, body: dict[str, object]) -> None:
    assert problems_of(part, body, ALLOWED) == ()


@pytest.mark.parametrize(
    ("part", "body", "said"),
    [
        (
            "bout",
            {**BOUT, "technique": "tickling"},
            "“tickling” is no technique that Haywisp knows; choose one of effleur",
        ),
        ("bout", {**BOUT, "structures": []}, "A bout needs at least one structure that was worked on."),
        ("bout", {**BOUT, "structures": "neck"}, "A bout needs at least one structure that was worked on."),
        ("bout", {**BOUT, "structures": ["neck", "fin"]}, "“fin” is no structure that Haywisp knows"),
        ("bout", {**BOUT, "structures": ["neck", "neck"]}, "A structure is named twice in this bout."),
        ("bout", {**BOUT, "structures": [["neck"]]}, "“['neck']” is no structure"),
        ("bout", {**BOUT, "side": "top"}, "“top” is no side that Haywisp knows; choose one of both, left or right."),
        ("bout", {**BOUT, "side": ""}, "“” is no side"),
        ("bout", {**BOUT, "pressure": "bone-crushing"}, "choose one of firm, light or moderate."),
        ("bout", {**BOUT, "passes": 0}, "The passes must be a whole number from 1 to 1000"),
        ("bout", {**BOUT, "passes": 1001}, "The passes must be a whole number from 1 to 1000"),
        ("bout", {**BOUT, "passes": 2.5}, "The passes must be a whole number from 1 to 1000"),
        ("bout", {**BOUT, "passes": True}, "The passes must be a whole number from 1 to 1000"),
        ("bout", {**BOUT, "passes": "3"}, "The passes must be a whole number from 1 to 1000"),
        (
            "finding",
            {**FINDING, "aspect": "mood"},
            "“mood” is no aspect that Haywisp knows; choose one of spasm or tone.",
        ),
        ("finding", {**FINDING, "aspect": ["tone"]}, "is no aspect that Haywisp knows"),
        (
            "finding",
            {**FINDING, "value": "tight"},
            "“tight” is no value of spasm that Haywisp knows; choose one of absent",
        ),
        ("finding", {**FINDING, "structure": None}, "“None” is no structure"),
        ("finding", {"structure": "neck", "value": "tight"}, "“aspect” is missing from this finding."),
        ("response", {"sign": "smile"}, "“smile” is no sign that Haywisp knows; choose one of lick-and-chew."),
        ("response", {"sign": "lick-and-chew", "mood": 1}, "A response has no field “mood”; it has sign."),
        (
            "action",
            {"kind": "gallop"},
            "“gallop” is no kind of action that Haywisp knows; choose one of recheck or rest.",
        ),
        ("note", {"text": "  "}, "The note is empty"),
        ("note", {**OVERRIDE, "text": " "}, "The note is empty"),
        ("note", {**OVERRIDE, "text": "because I say so"}, "too short to be read later: write a sentence of 4 words"),
        ("note", {**OVERRIDE, "text": "notwithstanding-everything told"}, "too short to be read later"),
        ("note", {**OVERRIDE, "cautions": []}, "has to name the cautions that it is for"),
        ("note", {"kind": "override", "text": OVERRIDE["text"]}, "has to name the cautions that it is for"),
        ("note", {**OVERRIDE, "cautions": "painkillers"}, "has to name the cautions that it is for"),
        ("note", {**OVERRIDE, "cautions": ["fever"]}, "“fever” can't be set aside by a written reason"),
        ("note", {**OVERRIDE, "cautions": [["painkillers"]]}, "can't be set aside by a written reason"),
        ("note", {**OVERRIDE, "cautions": ["unwell", "unwell"]}, "A caution is named twice"),
        ("note", {"text": "wet", "cautions": ["unwell"]}, "Only a reason to work against the gate names cautions"),
        ("note", {"text": 5}, "The note is empty"),
        ("note", {"text": "x" * 20_001}, "The note has 20001 characters; 20000 is the most"),
        (
            "note",
            {"text": "ok", "kind": "rest"},
            "“rest” is no kind of note that Haywisp knows; choose one of override, vet-answer",
        ),
        ("flag", {"flag": "hiccups"}, "“hiccups” is no red flag that Haywisp knows; choose one of colic."),
        ("flag", {}, "“flag” is missing from this flag."),
        ("action", {}, "“kind” is missing from this action."),
        (
            "guess",
            {},
            "“guess” is no part of the record; choose one of bout, finding, response, action, note, flag or reading.",
        ),
    ],
)
def test_bodies_that_are_wrong_say_what_and_what_to_do(part: str, body: dict[str, object], said: str) -> None:
    problems = problems_of(part, body, ALLOWED)
    assert len(problems) == 1
    assert said in problems[0]


def test_an_unknown_aspect_is_said_once_and_its_value_not_judged() -> None:
    assert len(problems_of("finding", {**FINDING, "aspect": "mood", "value": "grumpy"}, ALLOWED)) == 1


anything = st.none() | st.booleans() | st.integers() | st.text() | st.lists(st.text() | st.none(), max_size=3)


@given(st.sampled_from([*FIELDS, "other"]), st.dictionaries(st.sampled_from(sum(FIELDS.values(), ())), anything))
def test_any_body_is_judged_and_never_a_fault(part: str, body: dict[str, object]) -> None:
    problems = problems_of(part, body, ALLOWED)
    assert all(problem.endswith(".") for problem in problems)
    if not problems:
        assert set(body) <= set(FIELDS[part])
