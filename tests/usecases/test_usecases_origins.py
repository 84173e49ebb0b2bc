"""When a red flag that says no more than its name was told."""

from dataclasses import replace
from datetime import date

from fakes import SMALL, fake_app, heard_visit, with_visit

from haywisp.narration.types import Alert, Span
from haywisp.usecases.asking import keep_answers
from haywisp.usecases.origins import origins
from haywisp.usecases.said import add
from haywisp.usecases.visits import visit_page


def test_a_flag_was_asked_said_or_written_down() -> None:
    app = fake_app(narration=replace(SMALL, alerts=(Alert("colic", "colic", 14.0, Span(26, 29), 0.85),), questions=()))
    visit_id = heard_visit(app)
    keep_answers(app, visit_id, ["fever"])
    add(app, visit_id, "flag", {"flag": "tying-up"}, 90.0)
    verdict = visit_page(app, visit_id).verdict

    told = origins(app, verdict)

    flags = {reason.caution: reason.because[0].thread for reason in verdict.reasons}
    assert told[flags["colic"]] == "said today"
    assert told[flags["fever"]] == "asked today"
    assert told[flags["tying-up"]] == "written down today"


def test_a_flag_of_another_day_has_its_day() -> None:
    app = fake_app()
    visit_id = with_visit(app, date(2031, 2, 12))
    keep_answers(app, visit_id, ["fever"])
    assert list(origins(app, visit_page(app, visit_id).at_start).values()) == ["asked on 12 February 2031"]


def test_nothing_is_looked_up_where_the_facts_speak_for_themselves() -> None:
    app = fake_app()
    assert origins(app, visit_page(app, heard_visit(app)).at_start) == {}
