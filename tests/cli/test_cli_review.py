"""A visit from the narration to the report, by the command line alone."""

import json
from pathlib import Path

import pytest
from told import Shell

from haywisp.usecases.listening import LARGEST_FILE


def test_what_was_heard_is_shown_with_its_question(stable: Shell) -> None:
    shown = stable.good("visit", "show", "Bramble", "--words")

    assert "1 bout, 1 finding, 0 answers of the horse, 1 thing for after, 1 question open" in " ".join(shown.split())
    assert "Effleurage along the left neck" in shown
    told = " ".join(shown.split())
    assert "1. Which side of the splenius? [0:04] “long strokes on the left neck «the splenius is tight» see" in told
    assert "Answers: left (Left), right (Right)" in told
    assert "long strokes on the left neck" in shown
    assert max(len(line.rstrip()) for line in shown.splitlines()) <= 80


def test_review_by_numbers(stable: Shell) -> None:
    entries = json.loads(stable.good("visit", "show", "Bramble", "--json"))["entries"]
    number = str(1 + next(i for i, entry in enumerate(entries) if entry["part"] == "bout"))

    assert "Accepted: Effleurage along the left neck" in stable.good("visit", "accept", "Bramble", number)
    assert "5 passes" in stable.good("visit", "correct", "Bramble", number, "passes=5", "--reason", "miscounted")
    assert "No question is open" in stable.good("visit", "answer", "Bramble", "1", "right")
    assert "Accepted all" in stable.good("visit", "accept", "Bramble")
    assert "is reviewed" in stable.good("visit", "finish", "Bramble")

    page = json.loads(stable.good("visit", "show", "Bramble", "--json"))
    assert page["visit"]["status"] == "reviewed"
    assert {entry["status"] for entry in page["entries"]} == {"accepted", "corrected"}
    assert next(entry for entry in page["entries"] if entry["part"] == "bout")["reason"] == "miscounted"


def test_a_rejected_entry_keeps_its_number_for_accepting_it_again(stable: Shell) -> None:
    assert "Left out" in stable.good("visit", "reject", "Bramble", "1", "--reason", "another horse")

    page = json.loads(stable.good("visit", "show", "Bramble", "--json"))
    thread = page["rejected"][0]["thread"]

    assert "Accepted" in stable.good("visit", "accept", "Bramble", thread[:8])


def test_plan_and_report(stable: Shell, tmp_path: Path) -> None:
    stable.good("visit", "answer", "Bramble", "1", "left")
    stable.good("visit", "accept", "Bramble")

    plan = json.loads(stable.good("plan", "Bramble", "--minutes", "30", "--json"))
    printed = stable.good("plan", "Bramble", "--minutes", "30")
    report = stable.good("report", "Bramble")
    stable.good("report", "Bramble", "--out", "report.pdf")

    assert plan["minutes"] == 30
    assert any(need["structure"] == "splenius" and need["side"] == "left" for need in plan["needs"])
    assert plan["problems"] == []
    assert sum(bout["minutes"] for bout in plan["bouts"]) <= 30
    assert "never diagnoses" in printed
    assert "Bramble" in report
    assert (tmp_path / "report.pdf").read_bytes().startswith(b"%PDF")
    assert not (tmp_path / "report.pdf.part").exists()
    assert "</html>" in stable.good("report", "Bramble", "--format", "html")
    assert json.loads(stable.good("report", "Bramble", "--format", "json"))["horse"] == "Bramble"


def test_a_visit_to_come_is_planned_from_the_one_before(stable: Shell) -> None:
    stable.good("visit", "answer", "Bramble", "1", "left")
    stable.good("visit", "accept", "Bramble")
    of_the_first = json.loads(stable.good("plan", "Bramble", "--minutes", "30", "--json"))
    stable.good("visit", "open", "Bramble", "--minutes", "30")

    plan = json.loads(stable.good("plan", "Bramble", "--json"))

    assert plan["made_from"]["id"] == of_the_first["visit"]["id"] != plan["visit"]["id"]
    assert plan["bouts"] == of_the_first["bouts"] != []
    assert "Nothing is recorded yet of the visit of" in stable.good("plan", "Bramble")
    assert "From the visit of" in stable.good("visit", "show", "Bramble")
    assert "There is nothing to tell the owner yet" in stable("report", "Bramble").err


def test_a_plan_gives_the_practitioners_reason_first_and_limits_as_sentences(stable: Shell) -> None:
    entries = json.loads(stable.good("visit", "show", "Bramble", "--json"))["entries"]
    number = str(1 + next(i for i, entry in enumerate(entries) if entry["part"] == "finding"))
    stable.good("visit", "correct", "Bramble", number, "structure=chest", "side=left", "aspect=skin", "value=rub")

    told = " ".join(stable.good("plan", "Bramble").split())

    assert "Rub: Left chest: a rub on the skin. To the owner:" in told
    assert "Left chest and what lies there: not worked, because of a rub on the skin (left chest)." in told


def test_a_report_that_cannot_be_written_says_so(stable: Shell) -> None:
    stable.good("visit", "accept", "Bramble")
    outcome = stable("report", "Bramble", "--out", "no/such/folder.pdf")
    assert outcome.code == 2
    assert "can't be written" in outcome.err


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("visit", "show", "Nobody"), "There is no visit “Nobody”"),
        (("visit", "hear", "Bramble", "told.vtt"), "already has a narration"),
        (("visit", "hear", "Bramble", "gone.vtt"), "gone.vtt can't be read: no such file"),
        (("visit", "hear", "Bramble", "."), "can't be read: is a directory"),
        (("visit", "accept", "Bramble", "99"), "There is no entry “99”"),
        (("visit", "correct", "Bramble", "1", "left"), "“left” is no change"),
        (("visit", "correct", "Bramble", "1", "side=up"), "“up” is no side"),
        (("visit", "answer", "Bramble", "1", "up"), "“up” is no side"),
        (("visit", "answer", "Bramble", "2", "left"), "There is no question “2”"),
        (("visit", "finish", "Bramble"), "1 question is still open. Answer it first"),
        (("visit", "finish", "Bramble"), "with --force"),
        (("visit", "hear", "Bramble", "large.vtt"), "large.vtt is larger than 10 MB"),
        (("narrate", "large.vtt"), "large.vtt is larger than 10 MB"),
        (("visit", "open", "Bramble", "--minutes", "0"), "0 minutes can't be booked"),
        (("plan", "Bramble", "--minutes", "1000"), "A plan can't be made for 1000 minutes"),
        (("report", "Bramble"), "There is nothing to tell the owner yet"),
        (("report", "Bramble", "--out", "report.pdf"), "There is nothing to tell the owner yet"),
        (("know", "zzz"), "There is no entry in the tables “zzz”"),
        (("horse", "show", "x"), "There is no horse “x”"),
        (("horse", "add", "Clover", "--owner", "Bob", "--yard", "Example Farm"), "There is no owner “Bob”"),
        (("--database", "mysql://x/y", "horses"), "mysql://x/y"),
    ],
)
def test_what_is_refused_ends_with_two_and_one_sentence(stable: Shell, arguments: tuple[str, ...], says: str) -> None:
    Path("large.vtt").write_bytes(b"a" * (LARGEST_FILE + 1))
    outcome = stable(*arguments)

    assert outcome.code == 2
    assert outcome.out == ""
    assert says in outcome.err
    assert outcome.err.startswith("haywisp: ")
    assert outcome.err.count("\n") == 1
    assert "Traceback" not in outcome.err
