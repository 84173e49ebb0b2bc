from dataclasses import replace

from report_samples import CARROT, ENTRIES, HORSE, OWNER, TABLES, VET, VISIT, WORK, YARD, bout, entry, finding

from haywisp.findings.types import Fact, GateVerdict, Limits, Reason
from haywisp.knowledge.types import Aspect, Caution
from haywisp.record.types import Entry
from haywisp.report.owner import owner_report
from haywisp.report.types import OwnerReport


def report(entries: tuple[Entry, ...] = ENTRIES, verdict: GateVerdict = WORK) -> OwnerReport:
    return owner_report(VISIT, HORSE, OWNER, YARD, entries, verdict, TABLES)


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


def test_the_caution_of_the_stretches_is_told_once() -> None:
    stretches = {
        name: replace(CARROT, id=name, name=name.title(), never="Not with a sore neck.", action=kind)
        for name, kind in {"one": "baited-stretches", "two": "", "other": "groundwork"}.items()
    }
    tables = replace(TABLES, exercises=stretches)
    lines = told(owner_report(VISIT, HORSE, OWNER, YARD, ENTRIES, WORK, tables).homework)[1:]
    assert lines[0] == ("Do the stretches below with a treat.", "Not with a sore neck.")
    assert [text for text, _ in lines] == ["Do the stretches below with a treat.", "One", "Two"]
    assert not any("sore" in detail for _, detail in lines[1:])


def test_stretches_come_with_their_exercise() -> None:
    assert told(report().homework) == [
        ("Turn out as usual tonight, so that the horse can move about freely.", ""),
        ("Do the stretches below with a treat.", ""),
        ("Chin to chest", "Hold the treat at the chest. 5 times, held 5 seconds, on 5 days a week."),
    ]


def test_no_stretch_where_the_gate_rules_it_out() -> None:
    barred = GateVerdict("within-limits", (), Limits(techniques=frozenset({"baited-stretch"})))
    assert told(report(verdict=barred).homework)[-1][0].startswith("No stretches for now")
    left_alone = GateVerdict("within-limits", (), Limits(excluded=frozenset({("neck", None)})))
    assert CARROT.name not in [text for text, _ in told(report(verdict=left_alone).homework)]


def test_the_vet_comes_first_and_work_waits() -> None:
    says = report((*ENTRIES, entry("a3", "action", {"kind": "refer-vet"}, 800)))
    assert told(says.urgent) == [("Please have your vet look at this before any more bodywork.", "")]
    assert says.summary.startswith("Please have your vet look at Clover first.")
    assert says.homework[0].text.startswith("Please have your vet")
    assert ("Do the stretches below with a treat.", "Wait until your vet has agreed.") in told(says.homework)


def test_the_gate_alone_sends_to_the_vet() -> None:
    says = report(verdict=VET)
    assert told(says.urgent) == [("Heat and swelling", "Heat with swelling needs a vet.")]
    assert says.cautions[0] == says.urgent[0]


def test_only_reasons_for_a_vet_are_urgent_and_a_decision_is_not_told_twice() -> None:
    sore = Caution("sore", "Soreness", "within-limits", False, (), "found-cap", (), (), "light", "", "test")
    asked = Fact("action", id="refer-vet")
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
    assert [line.text for line in says.cautions][:3] == ["Heat and swelling", "Vet asked for", "Soreness"]


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
