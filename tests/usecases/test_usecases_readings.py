"""Vital signs and scores kept with a visit: their limits, what the tables say of them, and what the gate hears."""

import pytest
from fakes import fake_app, with_visit

from haywisp.errors import HaywispError
from haywisp.usecases.asking import ask_page
from haywisp.usecases.readings import choices, keep_reading, readings
from haywisp.usecases.said import correct, reject, said
from haywisp.usecases.visits import visit_page


def test_a_fever_is_heard_by_the_gate() -> None:
    """None works above 39 °C: three course pages (secondary)."""
    app = fake_app()
    visit_id = with_visit(app)
    kept = keep_reading(app, visit_id, "temperature", "39,4")
    assert kept.sentence == "Rectal temperature: 39.4 °C"
    assert visit_page(app, visit_id).at_start.verdict == "vet-first"
    assert [view.flag for view in ask_page(app, visit_id).vet_first if view.yes] == ["fever"]
    keep_reading(app, visit_id, "temperature", "39.6")
    assert [entry.part for entry in said(app, visit_id).entries].count("flag") == 1


def test_a_temperature_in_fahrenheit_is_kept_in_degrees_celsius() -> None:
    app = fake_app()
    visit_id = with_visit(app)
    keep_reading(app, visit_id, "temperature", "100 F")
    (only,) = readings(app, visit_id)
    assert only.sentence == "Rectal temperature: 37.78 °C"
    assert visit_page(app, visit_id).at_start.verdict != "vet-first"


def test_a_score_keeps_its_limits_and_says_its_level() -> None:
    app = fake_app()
    visit_id = with_visit(app)
    kept = keep_reading(app, visit_id, "cresty-neck", "3", observer="A. Example")
    assert kept.sentence.endswith(": 3 on 0 to 5")
    assert kept.says and kept.observer == "A. Example"
    (entry,) = said(app, visit_id).entries
    assert (entry.body["low"], entry.body["high"], entry.body["value"]) == (0.0, 5.0, 3.0)


def test_ridden_pain_signs_from_eight_on_ask_for_the_vet() -> None:
    """8 or more of 24: Dyson 2018, as read in Animals 2020, 10, 1044."""
    app = fake_app()
    for total, verdict in (("7", False), ("8", True)):
        visit_id = with_visit(app)
        keep_reading(app, visit_id, "ridden-pain", total)
        assert (visit_page(app, visit_id).at_start.verdict == "vet-first") is verdict


@pytest.mark.parametrize(
    ("what", "value", "words"),
    [
        ("temperature", "warm", "should be a number"),
        ("temperature", "3.8", "outside"),
        ("body-condition", "12", "outside"),
        ("body-condition", "5.3", "between two steps"),
        ("wings", "2", "There is no scale or vital sign"),
    ],
)
def test_what_can_not_be_is_refused_and_nothing_is_kept(what: str, value: str, words: str) -> None:
    app = fake_app()
    visit_id = with_visit(app)
    with pytest.raises(HaywispError, match=words):
        keep_reading(app, visit_id, what, value)
    assert readings(app, visit_id) == ()


def test_a_reading_is_corrected_and_left_out_like_any_entry() -> None:
    app = fake_app()
    visit_id = with_visit(app)
    kept = keep_reading(app, visit_id, "heart-rate", "36")
    correct(app, kept.thread, 1, {"value": "40"})
    assert readings(app, visit_id)[0].sentence.endswith(": 40 /min")
    reject(app, kept.thread, 2)
    assert readings(app, visit_id) == ()


def test_readings_beforehand_are_nothing_done() -> None:
    app = fake_app()
    visit_id = with_visit(app)
    keep_reading(app, visit_id, "heart-rate", "36")
    assert not visit_page(app, visit_id).recorded


def test_every_scale_and_sign_can_be_chosen() -> None:
    tables = fake_app().tables()
    assert {one.id for one in choices(tables)} == {*tables.scales, *tables.vital_signs}
