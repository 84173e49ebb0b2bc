from collections.abc import Sequence
from dataclasses import replace

from report_samples import CARROT, ENTRIES, HORSE, OWNER, TABLES, VET, VISIT, WORK, YARD, bout, entry, finding

from haywisp.findings.types import Fact, GateVerdict, Limits, Reason
from haywisp.knowledge.types import Aspect, Caution
from haywisp.narration.types import Word
from haywisp.record.types import Entry
from haywisp.report.owner import owner_report
from haywisp.report.types import OwnerReport


def report(
    entries: tuple[Entry, ...] = ENTRIES, verdict: GateVerdict = WORK, words: Sequence[Word] = ()
) -> OwnerReport:
    return owner_report(VISIT, HORSE, OWNER, YARD, entries, verdict, TABLES, words)


def words(text: str) -> tuple[Word, ...]:
    return tuple(Word(word, n * 0.5, n * 0.5 + 0.5) for n, word in enumerate(text.split()))


def at(one: Entry, first: int, last: int) -> Entry:
    """The entry with the words that made it."""
    return replace(one, first_word=first, last_word=last)


def told(lines: object) -> list[tuple[str, str]]:
    return [(line.text, line.detail) for line in lines]  # type: ignore[attr-defined]


def test_bouts_are_put_together_by_part_and_side() -> None:
    assert told(report().done) == [
        (
            "Neck, left",
            "Long gliding strokes (effleurage) and kneading, light to moderate pressure; about 9 minutes",
        ),
        ("Back, right", "Long gliding strokes; under a minute"),
    ]


def test_a_bout_over_two_parts_shares_its_time() -> None:
    both = bout("b1", "kneading", "neck", "left", 0, 240, structures=["neck", "back"])
    assert [detail for _, detail in told(report((both,)).done)] == ["Kneading; about 2 minutes"] * 2


def test_many_bouts_are_few_lines() -> None:
    many = tuple(bout(f"b{n}", "kneading", "neck", ("left", "right")[n % 2], 60 * n, 60 * n + 60) for n in range(40))
    assert told(report(many).done) == [
        ("Neck, left", "Kneading; about 20 minutes"),
        ("Neck, right", "Kneading; about 20 minutes"),
    ]


def test_findings_of_one_place_are_one_line() -> None:
    assert told(report().found) == [
        ("Long muscle from the head to the upper arm (brachiocephalicus), left", "Tight, no heat")
    ]


def test_what_is_not_as_usual_is_read_first_and_counted() -> None:
    tone = Aspect("tone", "tone", ("tight", "slack", "normal"), "normal", "test")
    tables = replace(TABLES, aspects={"tone": tone})
    entries = (
        finding("f1", "neck", "left", "tone", "normal", 1),
        finding("f2", "back", "left", "tone", "tight", 2),
    )
    says = owner_report(VISIT, HORSE, OWNER, YARD, entries, WORK, tables)
    assert told(says.found) == [("Back, left", "Tight"), ("Neck, left", "Soft and normal")]
    assert "One thing stood out." in says.summary


def test_the_same_left_and_right_is_one_line() -> None:
    entries = (
        finding("f1", "neck", "left", "tone", "tight", 10),
        finding("f2", "neck", "right", "tone", "tight", 60),
        finding("f3", "back", "left", "tone", "tight", 70),
        finding("f4", "back", "right", "tone", "normal", 80),
    )
    assert told(report(entries).found) == [
        ("Neck, both sides", "Tight"),
        ("Back, left", "Tight"),
        ("Back, right", "Soft and normal"),
    ]


def test_a_finding_that_changed_tells_both() -> None:
    entries = (
        finding("f1", "neck", "left", "tone", "tight", 10),
        finding("f2", "neck", "left", "tone", "normal", 600),
    )
    assert told(report(entries).found) == [("Neck, left", "Tight at first, then soft and normal")]


def test_answers_are_counted_and_guarding_tells_where() -> None:
    assert told(report().answered) == [
        ("Settled", "Licked and chewed (2 times)"),
        ("Showed unease (guarding)", "Flinched during work on the back, right"),
    ]


def test_guarding_at_one_place_is_told_together() -> None:
    entries = (
        bout("b1", "kneading", "neck", "left", 0, 60),
        entry("r1", "response", {"sign": "flinch"}, 5),
        entry("r2", "response", {"sign": "flinch"}, 9),
        entry("r3", "response", {"sign": "tail-swish"}, 20),
        entry("r4", "response", {"sign": "flinch"}, 600),
    )
    assert told(report(entries).answered) == [
        ("Showed unease (guarding)", "Flinched (2 times) and swished the tail during work on the neck, left; flinched")
    ]


SAID = words(
    "Done now. Rest him tomorrow. Carrot stretches daily, three each side, five seconds. Then light hacking from "
    "Friday and nothing on that rub. See you again in two weeks."
)
DECIDED = (
    at(entry("a1", "action", {"kind": "rest"}, 1), 2, 3),
    at(entry("a2", "action", {"kind": "baited-stretches"}, 2), 5, 7),
    at(entry("a3", "action", {"kind": "ridden-work"}, 3), 14, 15),
    at(entry("a4", "action", {"kind": "avoid-site"}, 4), 19, 23),
    at(entry("a5", "action", {"kind": "recheck"}, 5), 23, 29),
)


def test_homework_is_told_in_the_words_that_were_said_and_in_their_order() -> None:
    assert told(report(DECIDED, words=SAID).homework) == [
        ("Rest", "“Rest him tomorrow.”"),
        ("Carrot stretches", "“Carrot stretches daily, three each side, five seconds.”"),
        ("Ridden work and leave alone", "“Then light hacking from Friday and nothing on that rub.”"),
        ("See again", "“See you again in two weeks.”"),
    ]


def test_what_was_added_by_hand_is_told_in_the_tables_words() -> None:
    by_hand = at(entry("a1", "action", {"kind": "turnout"}, 1), -1, -1)
    assert told(report((by_hand,), words=SAID).homework) == [
        ("Turn out as usual tonight, so that the horse can move about freely.", "")
    ]


def test_no_exercise_is_told_that_nobody_named() -> None:
    for lines in (report().homework, report(DECIDED, words=SAID).homework):
        assert CARROT.name not in str(lines)
        assert CARROT.how not in str(lines)


def test_no_stretch_where_the_gate_rules_it_out() -> None:
    barred = GateVerdict("within-limits", (), Limits(techniques=frozenset({"baited-stretch"})))
    homework = told(report(DECIDED, barred, words=SAID).homework)
    assert homework[1][0].startswith("No stretches for now")
    assert "daily" not in str(homework)


def test_the_vet_comes_first_and_everything_that_works_the_body_waits() -> None:
    vet = at(entry("a9", "action", {"kind": "refer-vet"}, 9), -1, -1)
    says = report((*DECIDED, vet), words=SAID)
    assert told(says.urgent) == [("Please have your vet look at this before any more bodywork.", "")]
    assert says.summary.startswith("Please have your vet look at Clover first.")
    assert told(says.homework) == [
        ("Please have your vet look at this before any more bodywork.", ""),
        ("Leave work, stretches and massage until your vet has agreed.", ""),
        ("Avoid site", ""),
        ("See again", "“See you again in two weeks.”"),
    ]


def test_under_a_vet_first_verdict_the_letter_speaks_of_no_riding_and_of_nothing_as_usual() -> None:
    for entries in (ENTRIES, DECIDED, (entry("n", "note", {"text": "quiet"}, 1),)):
        says = report(entries, VET)
        text = str(says).lower()
        assert told(says.homework)[:2] == [
            ("Please call your vet before anything else.", ""),
            ("Leave work, stretches and massage until your vet has agreed.", ""),
        ]
        for word in (
            "ride with sense",
            "keep the work light",
            "hacking",
            "carry on",
            "out of the ordinary",
            "turn out",
        ):
            assert word not in text, word


def test_the_gate_alone_sends_to_the_vet() -> None:
    says = report(verdict=VET)
    assert told(says.urgent) == [("Heat and swelling", "Heat with swelling needs a vet.")]
    assert says.cautions[0] == says.urgent[0]


def test_only_reasons_for_a_vet_are_urgent_and_a_decision_is_not_told_twice() -> None:
    sore = Caution("sore", "Soreness", "within-limits", False, (), "found-cap", (), (), "light", "", "test")
    asked = Fact("action", id="refer-vet", entry="a3")
    reasons = (
        Reason("asked", "Vet asked for", "Tell me what the vet said.", (asked,), False, "test"),
        Reason("sore", "Soreness", "I stay light there.", (), False, "test"),
        *VET.reasons,
    )
    tables = replace(TABLES, cautions={"sore": sore})
    entries = (*ENTRIES, entry("a3", "action", {"kind": "refer-vet"}, 800))
    verdict = GateVerdict("vet-first", reasons, Limits())
    says = owner_report(VISIT, HORSE, OWNER, YARD, entries, verdict, tables)
    assert [line.text for line in says.urgent] == [TABLES.actions["refer-vet"].wording, "Heat and swelling"]
    assert [line.text for line in says.cautions][:2] == ["Heat and swelling", "Soreness"]
    assert "Vet asked for" not in str(says)


def test_a_vet_asked_for_at_an_earlier_visit_is_told() -> None:
    asked = Fact("action", id="refer-vet", entry="of another visit")
    verdict = GateVerdict(
        "vet-first", (Reason("asked", "Vet asked for", "Tell me.", (asked,), False, "test"),), Limits()
    )
    assert told(report(verdict=verdict).urgent) == [("Vet asked for", "Tell me.")]


def test_beside_a_caution_nothing_is_said_to_be_as_usual() -> None:
    reason = Reason("vaccinated", "Vaccinated", "I stay light.", (Fact("flag", "vaccinated"),), False, "test")
    first = Reason("first", "First session", "I stay gentle.", (Fact("flag", "first-visit"),), False, "test")
    quiet = (bout("b1", "kneading", "neck", "left", 0, 60),)
    assert "out of the ordinary" not in report(quiet, GateVerdict("within-limits", (reason,), Limits())).summary
    assert "out of the ordinary" in report(quiet, GateVerdict("within-limits", (first,), Limits())).summary


def test_a_caution_within_limits_is_told_before_those_that_always_hold() -> None:
    reason = Reason("rub", "A rub", "Keep the girth off the rub until it heals.", (), False, "test")
    says = report(verdict=GateVerdict("within-limits", (reason,), Limits()))
    assert says.urgent == ()
    assert [line.text for line in says.cautions] == [
        "A rub",
        "Call a vet at once",
        "Stop and leave it",
        "Keep yourself safe",
        "Ride with sense",
    ]


def test_rejected_entries_are_left_out_and_proposed_ones_counted() -> None:
    entries = (
        bout("b1", "kneading", "neck", "left", 0, 60, status="rejected"),
        finding("f1", "neck", "left", "tone", "tight", 5, status="proposed"),
        finding("f2", "back", "left", "tone", "tight", 6, status="corrected"),
    )
    says = report(entries)
    assert says.done == ()
    assert [line.text for line in says.found] == ["Back, left"]
    assert says.unreviewed == 1
    assert "1 thing heard in the recording is not yet reviewed and is left out." in says.summary


def test_an_invented_horse_marks_the_report() -> None:
    assert report().invented
    real = [replace(one, invented=False) for one in (HORSE, OWNER, YARD)]
    assert not owner_report(VISIT, *real, ENTRIES, WORK, TABLES).invented  # type: ignore[arg-type]


def test_an_empty_visit_still_makes_a_report() -> None:
    says = report(())
    assert (says.done, says.found, says.answered, says.homework) == ((), (), (), ())
    assert len(says.cautions) == 4
