"""Causes of errors, each on one short narration."""

import pytest
from case_files import record_of
from causes import attribute_faults, faults_of
from narration_marked import tables, transcript
from score_sheet import outcomes

from haywisp.narration import understand
from haywisp.narration.understanding import scene_of

EMPTY = {"treatments": [], "findings": [], "responses": [], "actions": []}


def bout(technique: str, structure: str, start: float, end: float) -> dict[str, object]:
    told = {"side": "left", "passes": None, "pressure": None}
    return {"technique": technique, "structures": [structure], "start": start, "end": end, **told}


def causes(text: str, **gold: list[dict[str, object]]) -> set[tuple[str, str, str]]:
    heard = transcript(text)
    found = outcomes({**EMPTY, **gold}, record_of(understand(heard, tables())))
    return {(fault.part, fault.sort, fault.cause) for fault in faults_of(found, scene_of(heard, tables()))}


KNEADED = "[0:00] Left side. [0:05] Kneading the left neck, slowly. [0:30] Good."


@pytest.mark.parametrize(
    ("text", "gold", "cause"),
    [
        (KNEADED, bout("kneading", "croup", 5, 30), "right technique, wrong place"),
        (KNEADED, bout("hacking", "neck", 5, 30), "right place, wrong technique"),
        ("[0:00] Hello. [0:10] He is a good horse.", bout("hacking", "neck", 10, 15), "technique not heard"),
        ("[0:00] I could do some hacking on the neck.", bout("hacking", "neck", 1, 9), "modality: not taken as done"),
    ],
)
def test_why_a_bout_is_missed(text: str, gold: dict[str, object], cause: str) -> None:
    assert ("treatments", "missed", cause) in causes(text, treatments=[gold])


def test_a_bout_that_gold_lacks() -> None:
    assert causes(KNEADED) == {("treatments", "extra", "modality: taken as done")}


def test_findings_signs_and_decisions() -> None:
    text = "[0:00] Left side. [0:05] The splenius is tight. [0:20] He's licking and chewing. [0:30] Thank you."
    tight = {"structure": "poll", "side": None, "aspect": "tone", "value": "tight", "time": 5.0}
    sigh = {"sign": "yawn", "time": 25.0}
    saddler = {"kind": "refer-saddler", "time": 30.0}
    assert causes(text, findings=[tight], responses=[sigh], actions=[saddler]) == {
        ("findings", "missed", "heard, but about something else"),
        ("findings", "extra", "heard, but about something else"),
        ("responses", "missed", "taken for another sign"),
        ("responses", "extra", "taken for another sign"),
        ("actions", "missed", "decision not heard"),
    }


def test_wrong_fields_of_what_was_matched() -> None:
    heard = transcript(KNEADED)
    gold = {**EMPTY, "treatments": [{**bout("kneading", "neck", 5, 30), "side": "right", "passes": 4}]}
    found = outcomes(gold, record_of(understand(heard, tables())))
    assert {fault.cause for fault in attribute_faults(found)} == {"side: another one", "passes: not heard"}
