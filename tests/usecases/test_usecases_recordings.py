"""Recordings: kept piece by piece, heard part by part, put in the record, listened to again, deleted."""

import json
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path

import pytest
from tests.jobs.hearing_worker import CHUNK_S, GivenEar

from haywisp.errors import HaywispError
from haywisp.jobs import Order, Stopped
from haywisp.knowledge import load_tables
from haywisp.record.types import Recording
from haywisp.store import open_store
from haywisp.store.shelf import OtherPiece, PiecesMissing, Shelf
from haywisp.usecases import App, NotFound, Refused, in_record, recordings
from haywisp.usecases.hearing import hearing
from haywisp.usecases.people import add_horse, add_owner, add_yard
from haywisp.usecases.said import accept, correct, reject, said
from haywisp.usecases.visits import hear, open_visit

NOW = datetime(2031, 3, 14, 9, 0, tzinfo=UTC)
ID = "0123456789abcdef"
OTHER = "fedcba9876543210"


@pytest.fixture
def app(tmp_path: Path) -> Iterator[App]:
    numbers = count(1)
    minutes = count()
    store = open_store(f"sqlite:///{(tmp_path / 'haywisp.db').as_posix()}")
    store.migrate()
    yield App(
        units=store.unit,
        tables=load_tables,
        clock=lambda: NOW + timedelta(minutes=next(minutes)),
        new_id=lambda: f"id{next(numbers):05d}",
        shelf=Shelf(tmp_path / "sound"),
        ear=GivenEar(),
    )
    store.close()


@pytest.fixture
def visit_id(app: App) -> str:
    horse = add_horse(app, "Bramble", add_owner(app, "Ann Example").id, add_yard(app, "Example Farm").id)
    return open_visit(app, horse.id, NOW.date()).id


def recorded(app: App, visit_id: str, recording_id: str = ID) -> Recording:
    """A whole recording that waits to be heard."""
    recordings.begin(app, recording_id, visit_id, "webm")
    recordings.put(app, recording_id, 0, "m0", b"first ")
    recordings.put(app, recording_id, 1, "m1", b"second")
    return recordings.finish(app, recording_id, 2, 15.0)


def work_off(app: App, parts: int | None = None) -> None:
    """What a worker does with what waits; only so many parts where told."""
    work = hearing(app)
    for order in work.waiting():
        gave = [work.part(order, what) for what in list(work.begin(order))[:parts]]
        if parts is None:
            work.end(order, gave)


def known(app: App, recording_id: str = ID) -> Recording:
    with app.units() as unit:
        found = unit.recording(recording_id)
    assert found is not None
    return found


def test_pieces_come_in_any_order_and_any_number_of_times_and_count_once(app: App, visit_id: str) -> None:
    recordings.begin(app, ID, visit_id, "webm")
    for number, mark, data in [(2, "c", b"3"), (0, "a", b"1"), (0, "a", b"1"), (1, "b", b"2"), (2, "c", b"3")]:
        recordings.put(app, ID, number, mark, data)
    assert recordings.arrived(app, ID)[1] == [0, 1, 2]
    whole = recordings.finish(app, ID, 3, 6.0)

    path = recordings.shelf_of(app).sound(ID)
    assert path is not None and path.read_bytes() == b"123"
    # SHA-256 of "123", by the sha256sum of GNU coreutils.
    assert whole.sha256 == "a665a45920422f9d417e4867efdc4fb8a04a1f3fff1fa07e998e86f7f7a27ae3"
    assert (whole.state, whole.size_bytes, whole.seconds, whole.attempt) == ("waiting", 3, 6.0, 1)
    assert recordings.begin(app, ID, visit_id, "webm") == whole == recordings.finish(app, ID, 3, 6.0)
    # The answer to the last piece was lost: it is sent once more after the end.
    recordings.put(app, ID, 2, "c", b"3")
    assert path.read_bytes() == b"123"


def test_what_has_not_arrived_is_told_and_what_has_can_be_taken(app: App, visit_id: str) -> None:
    recordings.begin(app, ID, visit_id, "webm")
    recordings.put(app, ID, 0, "a", b"1")
    recordings.put(app, ID, 2, "c", b"3")
    with pytest.raises(PiecesMissing, match="1 of 3 pieces") as missing:
        recordings.finish(app, ID, 3)
    assert missing.value.missing == (1,)
    assert known(app).state == "recording"
    recordings.finish(app, ID)
    path = recordings.shelf_of(app).sound(ID)
    assert path is not None and path.read_bytes() == b"1"


def test_two_places_at_once_overwrite_nothing(app: App, visit_id: str) -> None:
    recordings.begin(app, ID, visit_id, "webm")
    recordings.put(app, ID, 0, "a", b"1")
    with pytest.raises(OtherPiece, match="in two places"):
        recordings.put(app, ID, 0, "b", b"x")
    with pytest.raises(Refused, match="another visit"):
        recordings.begin(app, ID, open_visit(app, said(app, visit_id).horse.id, NOW.date()).id, "webm")


@pytest.mark.parametrize("died_after", ["joining", "keeping"])
def test_a_server_that_is_killed_while_it_finishes_loses_nothing(app: App, visit_id: str, died_after: str) -> None:
    recordings.begin(app, ID, visit_id, "webm")
    recordings.put(app, ID, 0, "a", b"12")
    shelf = recordings.shelf_of(app)
    if died_after == "joining":
        shelf.join(ID, 1, "webm")
    else:
        # A temporary file of a piece that was being written, and one of the whole.
        (shelf.folder / ID / "pieces" / "arriving-000001.b").write_bytes(b"half")
        (shelf.folder / ID / "sound.webm.part").write_bytes(b"1")
    whole = recordings.finish(app, ID, 1)
    path = shelf.sound(ID)
    assert path is not None and path.read_bytes() == b"12"
    assert whole.size_bytes == 2


@pytest.mark.parametrize("name", ["..", "../../etc", "a" * 65, "", "0123456789ABCDEF/"])
def test_a_name_that_is_no_id_is_refused(app: App, visit_id: str, name: str) -> None:
    with pytest.raises(Refused, match="not the name of a recording"):
        recordings.begin(app, name, visit_id, "webm")


def test_without_a_folder_it_says_how_to_give_one(app: App, visit_id: str) -> None:
    with pytest.raises(Refused, match="--recordings DIR"):
        recordings.begin(replace(app, shelf=None), ID, visit_id, "webm")


def test_the_first_recording_becomes_the_narration_of_its_visit(app: App, visit_id: str) -> None:
    recorded(app, visit_id)
    work_off(app)

    heard = recordings.row(app, ID)
    assert (heard.state, heard.done, heard.parts, heard.in_record) == ("heard", 3, 3, True)
    page = said(app, visit_id)
    assert page.words[0].text == "long"
    assert {entry.part for entry in page.entries} >= {"bout", "finding", "response"}
    listened = in_record.sounds(app, visit_id)
    assert [(one.recording, one.start, one.end) for one in listened.pieces] == [(ID, 0.0, 3 * CHUNK_S)]
    assert [one.reason for one in listened.passages] == ["prompted", "unheard"]


def test_a_second_recording_waits_for_a_word_and_then_comes_after_the_first(app: App, visit_id: str) -> None:
    recorded(app, visit_id)
    work_off(app)
    first = next(entry for entry in said(app, visit_id).entries if entry.part == "bout")
    accept(app, first.thread, 1)
    recorded(app, visit_id, OTHER)
    work_off(app)
    assert not recordings.row(app, OTHER).in_record
    before = len(said(app, visit_id).words)

    in_record.put_in_record(app, OTHER)

    page = said(app, visit_id)
    assert len(page.words) == 2 * before
    assert page.words[before].start == pytest.approx(3 * CHUNK_S + 2)
    assert [one.recording for one in in_record.sounds(app, visit_id).pieces] == [ID, OTHER]
    kept = [entry for entry in page.entries if entry.thread == first.thread]
    assert [entry.status for entry in kept] == ["accepted"]
    assert sum(entry.sentence == first.sentence for entry in page.entries) == 2


def test_a_recording_of_a_visit_with_a_transcript_waits_for_a_word(app: App, visit_id: str) -> None:
    hear(app, visit_id, "told.txt", b"[0:05] effleurage on the right neck")
    recorded(app, visit_id)
    work_off(app)
    assert said(app, visit_id).file_name == "told.txt"
    in_record.put_in_record(app, ID)
    assert said(app, visit_id).words[0].text == "long"


def test_it_stops_goes_on_and_keeps_what_was_heard(app: App, visit_id: str) -> None:
    recorded(app, visit_id)
    work = hearing(app)
    (order,) = work.waiting()
    parts = work.begin(order)
    work.part(order, parts[0])
    recordings.stop(app, ID)
    with pytest.raises(Stopped):
        work.part(order, parts[1])
    assert (known(app).state, known(app).done) == ("stopped", 1)
    assert list(work.waiting()) == []

    recordings.ask(app, ID)
    assert list(work.waiting()) == [Order(ID, 2)]
    with pytest.raises(Stopped):
        work.part(order, parts[1])
    work.part(Order(ID, 2), parts[1])
    assert (known(app).state, known(app).done, known(app).done_before) == ("hearing", 2, 1)
    assert recordings.row(app, ID).left.endswith("left")


def test_what_keeps_it_from_being_heard_is_told_and_it_can_be_tried_again(app: App, visit_id: str) -> None:
    recorded(app, visit_id)
    work = hearing(app)
    (order,) = work.waiting()
    work.begin(order)
    work.failed(order, "There is no model. Install it.")
    row = recordings.row(app, ID)
    assert (row.state, row.sentence, row.playable) == ("failed", "There is no model. Install it.", True)
    assert recordings.ask(app, ID).sentence == ""
    # Word of a failure of the attempt before comes too late.
    work.failed(order, "There is no model. Install it.")
    assert known(app).state == "waiting"


def test_heard_again_it_begins_anew(app: App, visit_id: str) -> None:
    recorded(app, visit_id)
    work_off(app)
    again = recordings.ask(app, ID)
    assert (again.state, again.attempt, again.done, again.parts) == ("waiting", 2, 0, 0)


def test_a_worker_that_dies_before_the_record_is_made_makes_it_the_next_time(app: App, visit_id: str) -> None:
    recorded(app, visit_id)
    work = hearing(app)
    (order,) = work.waiting()
    gave = [work.part(order, what) for what in work.begin(order)]

    def broken(*_: object) -> None:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        hearing(replace(app, listen=broken)).end(order, gave)
    assert not recordings.row(app, ID).in_record
    work.end(order, gave)
    assert recordings.row(app, ID).in_record
    entries = len(said(app, visit_id).entries)
    work.end(order, gave)
    assert len(said(app, visit_id).entries) == entries


def test_words_that_are_typed_in_are_read_only_when_asked_and_nothing_decided_is_lost(app: App, visit_id: str) -> None:
    recorded(app, visit_id)
    work_off(app)
    page = said(app, visit_id)
    bouts = [entry for entry in page.entries if entry.part == "bout"]
    words = [word.text for word in page.words[bouts[1].first_word : bouts[1].last_word]]
    finding = next(entry for entry in page.entries if entry.part == "finding")
    accept(app, bouts[0].thread, 1)
    correct(app, bouts[1].thread, 1, {"passes": "6"})
    reject(app, finding.thread, 1)

    in_record.type_words(app, ID, 1, "  the right poll   is tender ")
    listened = in_record.sounds(app, visit_id)
    assert (listened.typed_waiting, listened.stays) == (1, 2)
    assert listened.passages[1].listened
    assert "tender" not in {word.text for word in said(app, visit_id).words}

    in_record.read_anew(app, visit_id)

    page = said(app, visit_id)
    assert [word.text for word in page.words][-14:-9] == ["the", "right", "poll", "is", "tender"]
    assert in_record.sounds(app, visit_id).typed_waiting == 0
    by_thread = {entry.thread: entry for entry in (*page.entries, *page.rejected)}
    assert by_thread[bouts[0].thread].status == "accepted"
    assert by_thread[bouts[1].thread].body["passes"] == 6
    assert by_thread[finding.thread].status == "rejected"
    # The words they were heard in moved on by those that were typed in, and they with them.
    moved = by_thread[bouts[1].thread]
    assert [word.text for word in page.words[moved.first_word : moved.last_word]] == words
    assert sum(entry.part == "bout" for entry in page.entries) == len(bouts)
    assert any(entry.sentence == "Right poll: tender" for entry in page.entries)


def test_a_passage_is_ticked_off_and_taken_back(app: App, visit_id: str) -> None:
    recorded(app, visit_id)
    work_off(app)
    in_record.mark_listened(app, ID, 0)
    assert recordings.row(app, ID).passages == 1
    in_record.mark_listened(app, ID, 0, False)
    assert recordings.row(app, ID).passages == 2
    with pytest.raises(NotFound, match="passage"):
        in_record.mark_listened(app, ID, 7)
    with pytest.raises(Refused, match="400 is the most"):
        in_record.type_words(app, ID, 0, "neck " * 100)


def test_deleted_sound_is_gone_and_the_record_stays(app: App, visit_id: str, tmp_path: Path) -> None:
    recorded(app, visit_id)
    work_off(app)
    entries = said(app, visit_id).entries
    recordings.delete(app, ID)
    assert not (tmp_path / "sound" / ID).exists()
    assert recordings.rows(app, visit_id) == ()
    assert said(app, visit_id).entries == entries
    assert [one.kept for one in in_record.sounds(app, visit_id).pieces] == [False]
    with pytest.raises(NotFound):
        recordings.delete(app, ID)
    with pytest.raises(Refused, match="Not every recording"):
        in_record.read_anew(app, visit_id)


def test_deleted_while_it_is_heard(app: App, visit_id: str) -> None:
    recorded(app, visit_id)
    work = hearing(app)
    (order,) = work.waiting()
    parts = work.begin(order)
    recordings.delete(app, ID)
    with pytest.raises(Stopped):
        work.part(order, parts[0])
    work.failed(order, "too late")


def test_a_folder_that_was_moved_is_told(app: App, visit_id: str) -> None:
    recorded(app, visit_id)
    sound = recordings.shelf_of(app).sound(ID)
    assert sound is not None
    sound.unlink()
    work = hearing(app)
    (order,) = work.waiting()
    with pytest.raises(HaywispError, match="Was the folder moved"):
        work.begin(order)


def test_a_silent_recording_is_heard_and_has_no_narration(app: App, visit_id: str) -> None:
    recorded(app, visit_id)
    work_off(replace(app, ear=GivenEar(chunks=0)))
    row = recordings.row(app, ID)
    assert (row.state, row.in_record) == ("heard", False)
    assert "No words were heard" in row.sentence


def test_a_narration_that_names_a_sound_of_its_own_is_no_recording(app: App, visit_id: str) -> None:
    words = {"words": [{"text": "neck", "start": 0, "end": 1}], "sound": "barn.wav"}
    hear(app, visit_id, "a.json", json.dumps(words).encode())
    assert in_record.sounds(app, visit_id).pieces == ()


def test_a_file_is_taken_in_whole(app: App, visit_id: str, tmp_path: Path) -> None:
    source = tmp_path / "Bramble today.M4A"
    source.write_bytes(b"sound")
    kept = recordings.add_file(app, visit_id, source, source.name)
    assert (kept.state, kept.form, kept.file_name) == ("waiting", "m4a", "Bramble today.M4A")
    with pytest.raises(Refused, match="can't be read"):
        recordings.add_file(app, visit_id, tmp_path / "none.wav", "none.wav")


@pytest.mark.parametrize(
    ("data", "sound"),
    [
        (b"RIFF\x00\x00\x00\x00WAVE", True),
        (b"\x00\x00\x00\x20ftypM4A ", True),
        (b"\xff\xfb\x90\x00", True),
        (b"\x1aE\xdf\xa3", True),
        (b"\xff\xfe[\x000\x00", False),
        (b"WEBVTT\n", False),
        (b"[0:05] neck", False),
        (b"", False),
    ],
)
def test_sound_is_told_by_its_first_bytes(data: bytes, sound: bool) -> None:
    assert recordings.is_sound(data) is sound
