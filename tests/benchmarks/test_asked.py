"""Which errors a question covers."""

from asked import Coverage, coverage_of
from case_files import record_of
from score_sheet import outcomes

from haywisp.narration import Bout, Finding, Narration, Question, Response, Span, Transcript

SPAN = Span(0, 1)


def question(part: str, index: int, field: str | None, time: float) -> Question:
    return Question(part, index, field, "Was it so?", (), time, SPAN)


def heard(*questions: Question) -> Narration:
    bouts = (
        Bout("kneading", ("neck",), "left", 10.0, 20.0, 2, None, SPAN, 0.9),
        Bout("hacking", ("croup",), "left", 30.0, 40.0, None, None, SPAN, 0.9),
    )
    findings = (Finding("poll", None, "tone", "tight", 12.0, SPAN, 0.9),)
    return Narration(Transcript((), "vtt"), bouts, findings, (Response("sigh", 50.0, SPAN, 0.9),), (), questions)


def covered(*questions: Question) -> Coverage:
    """Gold has other passes of the first bout, a side of its own there, and a yawn; hacking and the sigh are added."""
    kneaded = {"technique": "kneading", "structures": ["neck"], "side": "right", "start": 10.0, "end": 20.0}
    gold = {
        "treatments": [{**kneaded, "passes": 3, "pressure": None}],
        "findings": [{"structure": "poll", "side": None, "aspect": "tone", "value": "tight", "time": 12.0}],
        "responses": [{"sign": "yawn", "time": 70.0}],
        "actions": [],
    }
    narration = heard(*questions)
    return coverage_of(narration, outcomes(gold, record_of(narration)))


def test_nothing_asked_covers_nothing() -> None:
    found = covered()
    assert (found.extra, found.missed, found.attribute) == ((2, 0), (1, 0), (2, 0))
    assert (found.errors, found.share, found.asked_share) == (5, 0.0, 0.0)


def test_an_added_entry_is_covered_by_a_question_on_it() -> None:
    found = covered(question("bout", 1, "side", 30.0), question("finding", 0, None, 12.0))
    assert found.extra == (2, 1)
    assert (found.entries, found.entries_asked, found.questions) == (4, 2, 2)


def test_a_wrong_field_is_covered_by_a_question_about_it_or_the_whole() -> None:
    assert covered(question("bout", 0, "side", 10.0)).attribute == (2, 1)
    assert covered(question("bout", 0, None, 10.0)).attribute == (2, 2)
    assert covered(question("bout", 0, "pressure", 10.0)).attribute == (2, 0)


def test_a_miss_is_covered_by_a_question_of_its_part_close_to_it() -> None:
    assert covered(question("response", 0, None, 63.0)).missed == (1, 1)
    assert covered(question("response", 0, None, 61.0)).missed == (1, 0)
    assert covered(question("finding", 0, None, 69.0)).missed == (1, 0)


def test_coverage_adds_up() -> None:
    both = covered(question("bout", 0, None, 10.0)) + covered()
    assert (both.attribute, both.entries, both.errors) == ((4, 2), 8, 10)
