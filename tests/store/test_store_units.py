"""A unit is kept whole or not at all; versions and triggers hold what was recorded."""

import threading
from dataclasses import replace
from pathlib import Path

import pytest
from sqlalchemy import create_engine, text
from sqlalchemy.exc import DBAPIError
from store_samples import ENTRY, HORSE, NARRATION, OWNER, QUESTION, VISIT, YARD, fill, version

from haywisp.errors import HaywispError
from haywisp.store import Busy, Conflict, Stale, Store, open_store
from haywisp.store.engines import make_engine, read_url
from haywisp.store.tables import entry


def test_nothing_is_kept_when_the_block_fails(store: Store) -> None:
    with pytest.raises(RuntimeError, match="power cut"), store.unit() as unit:
        unit.add_owner(OWNER)
        assert unit.owner(OWNER.id) == OWNER
        raise RuntimeError("power cut")
    with store.unit() as unit:
        assert unit.owner(OWNER.id) is None


def test_others_see_nothing_before_the_end(store: Store) -> None:
    with store.unit() as writing:
        writing.add_owner(OWNER)
        with store.unit() as reading:
            assert reading.owners() == []
    with store.unit() as unit:
        assert unit.owners() == [OWNER]


def test_each_thread_counts_up_from_one(store: Store) -> None:
    fill(store)
    with store.unit() as unit:
        unit.append([version(1), version(2), version(1, "thread-2")])
    with store.unit() as unit:
        unit.append([version(3)])
        assert list(unit.thread("thread-1")) == [version(1), version(2), version(3)]
        assert [one.id for one in unit.entries_of(VISIT.id)] == ["thread-1-v3", "thread-2-v1"]


@pytest.mark.parametrize("number", [0, 1, 3])
def test_a_version_that_does_not_follow_the_newest_is_stale(store: Store, number: int) -> None:
    fill(store)
    with store.unit() as unit:
        unit.append([version(1)])
    with pytest.raises(Stale, match="version 1 is the newest") as caught, store.unit() as unit:
        unit.append([version(1, "thread-2"), replace(version(number), id="other")])
    assert (caught.value.thread, caught.value.version, caught.value.newest) == ("thread-1", number, 1)
    with store.unit() as unit:
        assert list(unit.entries_of(VISIT.id)) == [version(1)]


def test_a_fault_that_was_caught_still_ends_the_unit(store: Store) -> None:
    fill(store)
    with pytest.raises(Stale), store.unit() as unit:
        unit.add_owner(replace(OWNER, id="owner-2"))
        with pytest.raises(Stale):
            unit.append([version(2)])
    with store.unit() as unit:
        assert unit.owners() == [OWNER]


def test_of_two_who_change_the_same_version_one_is_stale(url: str, store: Store) -> None:
    fill(store)
    with store.unit() as unit:
        unit.append([version(1)])
    other = open_store(url)
    outcomes: list[object] = []
    start = threading.Barrier(2)

    def change(where: Store, name: str) -> None:
        try:
            with where.unit() as unit:
                newest = unit.entries_of(VISIT.id)[0]
                start.wait(10)
                unit.append([replace(newest, id=name, version=newest.version + 1)])
            outcomes.append(name)
        except HaywispError as fault:
            outcomes.append(type(fault))

    threads = [
        threading.Thread(target=change, args=(where, name)) for where, name in ((store, "ours"), (other, "theirs"))
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(30)
    other.close()
    assert outcomes.count(Stale) == 1
    winner = next(outcome for outcome in outcomes if outcome != Stale)
    with store.unit() as unit:
        assert [one.id for one in unit.thread("thread-1")] == ["thread-1-v1", winner]


def test_two_who_write_at_once_both_keep_what_they_wrote(url: str, store: Store) -> None:
    fill(store)
    other = open_store(url)
    faults: list[BaseException] = []

    def write(where: Store, name: str) -> None:
        try:
            for number in range(10):
                with where.unit() as unit:
                    unit.horses()
                    unit.append([version(1, f"{name}-{number}")])
        except BaseException as fault:
            faults.append(fault)

    threads = [threading.Thread(target=write, args=pair) for pair in ((store, "a"), (store, "b"), (other, "c"))]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(60)
    other.close()
    assert faults == []
    with store.unit() as unit:
        assert len(unit.entries_of(VISIT.id)) == 30


@pytest.mark.parametrize("table", ["entry", "narration"])
@pytest.mark.parametrize("change", ["UPDATE {0} SET id = 'other'", "DELETE FROM {0}"])
def test_the_database_itself_refuses_to_change_what_was_recorded(
    url: str, store: Store, table: str, change: str
) -> None:
    fill(store)
    with store.unit() as unit:
        unit.append([ENTRY])
        unit.add_narration(NARRATION)
    engine = create_engine(read_url(url))
    with pytest.raises(DBAPIError, match=f"table {table} is append-only"), engine.begin() as connection:
        connection.execute(text(change.format(table)))
    engine.dispose()
    with store.unit() as unit:
        assert list(unit.entries_of(VISIT.id)) == [ENTRY]
        assert unit.narration_of(VISIT.id) == NARRATION


@pytest.mark.postgresql
def test_postgresql_refuses_to_empty_the_record(schema_url: str) -> None:
    store = open_store(schema_url)
    store.migrate()
    store.close()
    engine = make_engine(read_url(schema_url))
    with pytest.raises(DBAPIError, match="append-only"), engine.begin() as connection:
        connection.execute(text("TRUNCATE entry"))
    engine.dispose()


def test_sqlite_refuses_to_replace_an_entry(tmp_path: Path) -> None:
    url = f"sqlite:///{tmp_path / 'haywisp.db'}"
    store = open_store(url)
    store.migrate()
    fill(store)
    with store.unit() as unit:
        unit.append([ENTRY])
    store.close()
    engine = make_engine(read_url(url))
    names = ", ".join(column.name for column in entry.columns)
    with pytest.raises(DBAPIError, match="append-only"), engine.begin() as connection:
        connection.execute(text(f"REPLACE INTO entry ({names}) SELECT {names} FROM entry"))
    engine.dispose()


def test_an_id_that_is_used_already_is_refused(store: Store) -> None:
    fill(store)
    with pytest.raises(Conflict, match="The horse was not kept: its id is in the record already"):  # noqa: SIM117
        with store.unit() as unit:
            unit.add_horse(HORSE)


def test_a_horse_of_an_unknown_owner_is_refused(store: Store) -> None:
    with pytest.raises(Conflict, match="something that it belongs to isn't in the record"), store.unit() as unit:
        unit.add_yard(YARD)
        unit.add_horse(HORSE)
    with store.unit() as unit:
        assert unit.yards() == []


def test_saving_what_is_not_there_is_refused(store: Store) -> None:
    fill(store)
    with pytest.raises(Conflict, match="The visit was not kept: it isn't in the record"), store.unit() as unit:
        unit.save_visit(replace(VISIT, id="nowhere"))
    with pytest.raises(Conflict, match="The question was not kept"), store.unit() as unit:
        unit.save_answer(QUESTION)


def test_a_database_that_stays_locked_is_busy(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("haywisp.store.engines.BUSY_TIMEOUT_MS", 50)
    store = open_store(f"sqlite:///{tmp_path / 'haywisp.db'}")
    store.migrate()
    with store.unit() as first:
        first.add_owner(OWNER)
        with pytest.raises(Busy, match="written to by somebody else"), store.unit() as second:
            second.add_yard(YARD)
    with store.unit() as unit:
        assert (unit.owners(), unit.yards()) == ([OWNER], [])
    store.close()


def test_a_second_unit_in_memory_waits_and_then_says_busy(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("haywisp.store.engines.BUSY_TIMEOUT_MS", 50)
    store = open_store("sqlite://")
    store.migrate()
    with store.unit() as unit:
        unit.add_owner(OWNER)
        with pytest.raises(Busy), store.unit():
            pass
    store.close()
