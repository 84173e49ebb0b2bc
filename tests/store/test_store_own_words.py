"""The practitioner's own words, and the copy of them that a narration keeps."""

from dataclasses import replace
from datetime import timedelta

import pytest
from sqlalchemy import create_engine, text
from store_samples import NARRATION, NOW, VISIT, fill

from haywisp.narration.types import OwnWord
from haywisp.record.types import StoredOwnWord
from haywisp.store import Conflict, Store, Unstorable, open_store
from haywisp.store.engines import read_url
from haywisp.store.migrating import alone, config

HUG = StoredOwnWord("word-1", "technique", "the bear hug", "bear hug", "compression", False, NOW)
BRACKISH = StoredOwnWord("word-2", "structure", "brackish", "brackish", "brachiocephalicus", True, NOW)


def test_own_words_come_back_in_the_order_they_were_kept(store: Store) -> None:
    later = replace(BRACKISH, added_at=NOW + timedelta(seconds=1))
    with store.unit() as unit:
        unit.add_own_word(later)
        unit.add_own_word(HUG)
    with store.unit() as unit:
        assert unit.own_words() == [HUG, later]


def test_words_are_kept_once(store: Store) -> None:
    with store.unit() as unit:
        unit.add_own_word(HUG)
    with pytest.raises(Conflict, match="already"), store.unit() as unit:
        unit.add_own_word(replace(HUG, id="word-9", phrase="Bear Hug", meaning="effleurage"))
    with store.unit() as unit:
        assert unit.own_words() == [HUG]


def test_words_taken_off_the_list_are_gone_and_others_stay(store: Store) -> None:
    with store.unit() as unit:
        unit.add_own_word(HUG)
        unit.add_own_word(BRACKISH)
    with store.unit() as unit:
        unit.remove_own_word(HUG.id)
    with store.unit() as unit:
        assert unit.own_words() == [BRACKISH]


@pytest.mark.parametrize("word_id", ["none", "", "\0", "\ud800"])
def test_words_that_are_not_on_the_list_can_not_be_taken_off(store: Store, word_id: str) -> None:
    with pytest.raises(Conflict, match="isn't in the record"), store.unit() as unit:
        unit.remove_own_word(word_id)


def test_damaged_words_are_refused(store: Store) -> None:
    with pytest.raises(Unstorable, match="phrase"), store.unit() as unit:
        unit.add_own_word(replace(HUG, phrase="bear\0hug"))


def test_a_narration_keeps_its_own_copy(store: Store) -> None:
    fill(store)
    copy = (OwnWord("technique", "the bear hug", "compression"), OwnWord("sign", "slow “mo” ñ", "yawn", True))
    with store.unit() as unit:
        unit.add_own_word(HUG)
        unit.add_narration(replace(NARRATION, own_words=copy))
        unit.remove_own_word(HUG.id)
    with store.unit() as unit:
        kept = unit.narration_of(VISIT.id)
    assert kept is not None
    assert kept.own_words == copy


def test_narrations_are_found_by_their_words_and_only_the_newest_of_a_visit(store: Store) -> None:
    fill(store)
    other = replace(VISIT, id="visit-2", number=2)
    said = replace(NARRATION, content="The BEAR and then a hug, 100% of it")
    with store.unit() as unit:
        unit.add_visit(other)
        unit.add_narration(said)
        unit.add_narration(replace(said, id="n-2", visit_id=other.id))
        unit.add_narration(replace(said, id="n-3", visit_id=other.id, content="no such words"))
    with store.unit() as unit:
        assert [one.id for one in unit.narrations_holding(["bear", "hug"])] == [NARRATION.id]
        assert [one.id for one in unit.narrations_holding(["words"])] == ["n-3"]
        assert unit.narrations_holding(["100%", "no"]) == []
        assert len(unit.narrations_holding([], limit=1)) == 1


def test_a_narration_from_before_own_words_was_understood_without_any(url: str) -> None:
    from alembic import command

    engine = create_engine(read_url(url))
    with engine.connect() as connection:
        alone(connection)
        command.upgrade(config(connection), "0001")
        connection.commit()
    rows = [
        "INSERT INTO owner VALUES ('o', 'Ida', 'ida', '', '', true)",
        "INSERT INTO yard VALUES ('y', 'Low', 'low', '', false, true)",
        "INSERT INTO horse VALUES ('h', 'Fern', 'fern', 'o', 'y', '', '', NULL, NULL, '', '', '[]', true)",
        "INSERT INTO visit VALUES ('v', 'h', '2031-05-04', 60, 'heard', 1, '', '')",
        "INSERT INTO narration (id, visit_id, file_name, format, content, added_at)"
        " VALUES ('n', 'v', 'a.txt', 'text', 'left neck', '2031-05-04 09:00:00')",
    ]
    with engine.begin() as connection:
        for row in rows:
            connection.execute(text(row))
    engine.dispose()
    store = open_store(url)
    store.migrate()
    with store.unit() as unit:
        kept = unit.narration_of("v")
    with pytest.raises(Conflict, match="never overwritten"), store.unit() as unit:
        unit.write("narration", text("DELETE FROM narration"))  # type: ignore[attr-defined]
    store.close()
    assert kept is not None
    assert (kept.content, kept.own_words) == ("left neck", ())
