"""Figures of many cases, on records small enough to count by hand."""

import pytest
from case_files import CASES, by_batch, cases
from score_sheet import outcomes, sheet_of


def bout(technique: str, start: float, end: float, **more: object) -> dict[str, object]:
    told = {"side": "left", "passes": None, "pressure": None}
    return {"technique": technique, "structures": ["neck"], "start": start, "end": end, **told, **more}


GOLD = {
    "treatments": [bout("kneading", 10, 20, passes=3), bout("stroking", 30, 40, pressure="light")],
    "findings": [{"structure": "poll", "side": None, "aspect": "tone", "value": "tight", "time": 12.0}],
    "responses": [{"sign": "sigh", "time": 15.0}],
    "actions": [],
}
HEARD = {
    "treatments": [bout("kneading", 10, 30, passes=2, side="right"), bout("hacking", 30, 40)],
    "findings": GOLD["findings"],
    "responses": [],
    "actions": [{"kind": "rest", "time": 90.0}],
}


def test_what_became_of_each_row() -> None:
    treatments, findings, responses, actions = outcomes(GOLD, HEARD)
    assert [(a.place, b.place) for a, b in treatments.pairs] == [(0, 0)]
    assert [one.place for one in treatments.missed] == [1]
    assert [one.place for one in treatments.extra] == [1]
    assert (len(findings.pairs), len(responses.missed), len(actions.extra)) == (1, 1, 1)


def test_figures_of_a_case() -> None:
    sheet = sheet_of([(GOLD, HEARD)])
    assert sheet.f1("treatments") == 0.5
    assert sheet.f1("findings") == 1.0
    assert sheet.f1("responses") == 0.0
    assert sheet.f1() == pytest.approx(2 * 2 / (4 + 4))
    assert (sheet.share("side"), sheet.share("passes"), sheet.share("pressure")) == (0.0, 0.0, 1.0)
    assert sheet.iou() == pytest.approx(0.5)


def test_equal_rows_keep_their_own_places() -> None:
    sigh = {"sign": "sigh", "time": 15.0}
    twice = {"treatments": [], "findings": [], "responses": [sigh, dict(sigh)], "actions": []}
    once = {**twice, "responses": [dict(sigh)]}
    responses = outcomes(once, twice)[2]
    assert [(a.place, b.place) for a, b in responses.pairs] == [(0, 0)]
    assert [one.place for one in responses.extra] == [1]


def test_every_case_is_of_a_batch() -> None:
    batches = by_batch(cases())
    assert next(iter(batches)) == "c"
    assert sum(len(many) for many in batches.values()) == len(list(CASES.glob("*.gold.json")))
    assert all(case.name.startswith(batch) for batch, many in batches.items() for case in many)
