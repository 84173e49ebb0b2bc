"""A recording heard by a worker that is killed in the middle: it goes on at the chunk, on both databases."""

import subprocess
import sys
import time
from pathlib import Path

from haywisp import bootstrap
from haywisp.usecases import in_record, recordings
from haywisp.usecases.people import add_horse, add_owner, add_yard
from haywisp.usecases.said import said
from haywisp.usecases.visits import open_visit

WORKER = Path(__file__).with_name("hearing_worker.py")
ROOT = WORKER.parents[2]
CHUNKS, WAITS_AT = 4, 2
PATIENCE_S = 60.0


def test_a_killed_worker_hears_on_from_the_chunk_it_was_at(jobs_url: str, tmp_path: Path) -> None:
    url = jobs_url.replace("jobs.db", "haywisp.db")
    folder = tmp_path / "sound"
    app = bootstrap.build(url, recordings=folder)
    horse = add_horse(app, "Bramble", add_owner(app, "Ann Example").id, add_yard(app, "Example Farm").id)
    visit = open_visit(app, horse.id, app.clock().date())
    kept = recordings.add_bytes(app, visit.id, "a.wav", b"RIFF")

    def heard() -> list[str]:
        paper = tmp_path / "heard"
        return paper.read_text().split() if paper.exists() else []

    def start() -> "subprocess.Popen[bytes]":
        command = [sys.executable, str(WORKER), url, str(tmp_path), str(folder), str(WAITS_AT), str(CHUNKS)]
        return subprocess.Popen(command, cwd=ROOT)

    def wait_until_heard(chunk: int) -> None:
        until = time.monotonic() + PATIENCE_S
        while str(chunk) not in heard():
            assert time.monotonic() < until, recordings.row(app, kept.id)
            time.sleep(0.02)

    first = start()
    try:
        wait_until_heard(WAITS_AT)
        row = recordings.row(app, kept.id)
        assert (row.state, row.done, row.parts) == ("hearing", WAITS_AT, CHUNKS)
    finally:
        first.kill()
        first.wait()
    (tmp_path / "go").touch()
    second = start()
    try:
        until = time.monotonic() + PATIENCE_S
        while not recordings.row(app, kept.id).in_record:
            assert time.monotonic() < until, recordings.row(app, kept.id)
            time.sleep(0.05)
    finally:
        second.kill()
        second.wait()
    assert heard() == ["0", "1", "2", "2", "3"]
    assert len(in_record.sounds(app, visit.id).passages) == 2
    assert len(said(app, visit.id).words) == len({word.start for word in said(app, visit.id).words}) > 30
    app.close()
