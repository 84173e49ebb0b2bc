from report_samples import TABLES

from haywisp.report.wording import entry_sentence, minutes_words, mmss, place, side_words, structure_name


def bout(**changes: object) -> dict[str, object]:
    body = {"technique": "effleurage", "structures": ["neck"], "side": "left", "passes": 5, "pressure": "light"}
    return body | changes


def test_bout_for_the_practitioner() -> None:
    assert entry_sentence("bout", bout(), TABLES) == "Effleurage along the left neck, 5 passes, light"


def test_bout_with_one_pass_and_two_structures_on_both_sides() -> None:
    body = bout(structures=["neck", "shoulder"], side="both", passes=1, pressure=None)
    assert entry_sentence("bout", body, TABLES) == "Effleurage along the neck and shoulder on both sides, 1 pass"


def test_bout_without_side_passes_or_pressure() -> None:
    body = bout(technique="kneading", side=None, passes=None, pressure=None)
    assert entry_sentence("bout", body, TABLES) == "Kneading the neck"


def test_bout_without_a_place_still_reads() -> None:
    assert entry_sentence("bout", {"technique": "kneading"}, TABLES) == "Kneading"


def test_bout_for_the_owner_has_the_trade_term_in_brackets() -> None:
    says = entry_sentence("bout", bout(), TABLES, "owner")
    assert says == "Long gliding strokes (effleurage), the neck, left, 5 passes, light pressure"


def test_finding_in_both_vocabularies() -> None:
    body = {"structure": "brachiocephalicus", "side": "left", "aspect": "tenderness", "value": "present"}
    assert entry_sentence("finding", body, TABLES) == "Left brachiocephalicus: tender"
    assert entry_sentence("finding", body, TABLES, "owner") == (
        "Long muscle from the head to the upper arm (brachiocephalicus), left: sore to the touch"
    )


def test_response_and_action() -> None:
    assert entry_sentence("response", {"sign": "lick-and-chew"}, TABLES) == "Licked and chewed"
    assert entry_sentence("action", {"kind": "turnout"}, TABLES) == "Turn out"
    assert entry_sentence("action", {"kind": "turnout"}, TABLES, "owner").startswith("Turn out as usual tonight")


def test_unknown_ids_and_broken_bodies_are_written_as_words() -> None:
    body = {"technique": "ear-pulling", "structures": ["left-ear", 7], "side": "off", "passes": "x"}
    assert entry_sentence("bout", body, TABLES) == "Ear pulling, the off left ear"
    assert entry_sentence("finding", {"aspect": "tone", "value": "tight"}, TABLES) == "Tight"
    assert entry_sentence("note", {"text": "kind to him"}, TABLES) == "kind to him"


def test_places_sides_and_names() -> None:
    assert place(["neck", "shoulder", "back"], "right", TABLES) == "the right neck, shoulder and back"
    assert side_words("both", TABLES) == "both sides"
    assert side_words(None, TABLES) == ""
    assert structure_name("longissimus-dorsi", TABLES) == "longissimus dorsi"
    assert structure_name("neck", TABLES, "owner") == "neck"


def test_times_and_durations() -> None:
    assert [mmss(t) for t in (0, 59.6, 61, 3723.2, -4)] == ["0:00", "1:00", "1:01", "1:02:03", "0:00"]
    words = [minutes_words(t, TABLES) for t in (20, 50, 95, 540)]
    assert words == ["under a minute", "about 1 minute", "about 2 minutes", "about 9 minutes"]
