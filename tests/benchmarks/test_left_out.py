"""Leave-one-out: rows that one case alone uses are found and can be taken away."""

from case_files import Case
from left_out import left_out_records, rows_used, used_alone, without
from narration_marked import tables, transcript

from haywisp.narration import understand
from haywisp.narration.understanding import heard_with, prepared

EMPTY = {"treatments": [], "findings": [], "responses": [], "actions": []}
KNEADING = Case("x1", transcript("[0:00] Kneading the left neck. [0:20] He yawned."), EMPTY)
HACKING = Case("x2", transcript("[0:00] Hacking on the left neck. [0:20] He yawned."), EMPTY)


def test_a_row_is_used_alone_where_no_other_case_uses_it() -> None:
    alone = used_alone([KNEADING, HACKING], tables())
    assert any(kind == "technique" and meaning == "kneading" for kind, meaning, _ in alone["x1"])
    assert not any(kind in ("structure", "sign") for kind, _, _ in alone["x1"])
    assert any(meaning == "yawn" for _, meaning, _ in rows_used(KNEADING, tables()))


def test_rows_taken_away_are_heard_no_more_and_the_others_are() -> None:
    lexicon, _ = prepared(tables())
    rows = {row for row in rows_used(KNEADING, tables()) if row[1] == "kneading"}
    less = heard_with(without(lexicon, rows))
    assert [response.sign for response in understand(KNEADING.transcript, less).responses] == ["yawn"]
    assert understand(KNEADING.transcript, less).bouts == ()
    assert [bout.technique for bout in understand(KNEADING.transcript, tables()).bouts] == ["kneading"]


def test_records_without_what_each_alone_uses() -> None:
    records, counts = left_out_records([KNEADING, HACKING], tables())
    assert records["x1"]["treatments"] == []
    assert records["x1"]["responses"] != []
    assert counts["x1"] > 0
