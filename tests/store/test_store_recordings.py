"""Recordings: kept, changed by one program at a time, found by visit and state, forgotten."""

import threading
from dataclasses import replace
from datetime import timedelta

import pytest
from store_samples import NOW, VISIT, fill

from haywisp.record.types import Passage, Recording
from haywisp.store import Conflict, Store

SOUND = Recording(
    id="sound-1",
    visit_id="visit-1",
    began_at=NOW,
    file_name="",
    form="webm",
    state="hearing",
    seconds=61.5,
    size_bytes=2**30,
    sha256="ab" * 32,
    attempt=2,
    parts=5,
    done=3,
    done_before=1,
    heard_from=NOW + timedelta(minutes=1),
    sentence="",
    passages=(Passage(1.0, 2.5, "loop"), Passage(9.0, 9.5, "unheard", listened=True, typed="left poll")),
)


def test_recordings_come_back_as_they_were_kept_oldest_first(store: Store) -> None:
    fill(store)
    later = replace(SOUND, id="a", began_at=NOW + timedelta(minutes=5), heard_from=None, passages=())
    with store.unit() as unit:
        unit.add_visit(replace(VISIT, id="visit-2"))
        unit.add_recording(later)
        unit.add_recording(SOUND)
        unit.add_recording(replace(SOUND, id="z", visit_id="visit-2", state="waiting"))
    with store.unit() as unit:
        assert unit.recordings_of("visit-1") == [SOUND, later]
        assert [one.id for one in unit.recordings_in(["hearing"])] == ["sound-1", "a"]
        assert [one.id for one in unit.recordings_in(["waiting", "hearing"])] == ["sound-1", "z", "a"]
        assert unit.recording("nothing") is None


def test_a_recording_belongs_to_a_visit_and_can_be_forgotten(store: Store) -> None:
    fill(store)
    with pytest.raises(Conflict), store.unit() as unit:
        unit.add_recording(replace(SOUND, visit_id="visit-9"))
    with store.unit() as unit:
        unit.add_recording(SOUND)
    with store.unit() as unit:
        unit.remove_recording(SOUND.id)
    with store.unit() as unit:
        assert unit.recordings_of("visit-1") == []


def test_two_programs_change_a_recording_one_after_the_other(store: Store) -> None:
    fill(store)
    with store.unit() as unit:
        unit.add_recording(replace(SOUND, done=0))
    started = threading.Barrier(4)

    def one_more() -> None:
        started.wait(20)
        for _ in range(5):
            with store.unit() as unit:
                known = unit.recording_to_change(SOUND.id)
                assert known is not None
                unit.save_recording(replace(known, done=known.done + 1))

    threads = [threading.Thread(target=one_more) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    with store.unit() as unit:
        found = unit.recording(SOUND.id)
    assert found == replace(SOUND, done=20)
